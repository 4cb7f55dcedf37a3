/* SPDX-License-Identifier: MIT
 * build.c - from boxes of lost wood to sections and beams.
 *
 * Losses thin the outer rectangle, the other cuts take bands out of it. Breaks
 * are sorted by value alone, and each segment then asks every cut whether it
 * lies in it, so lanes whose cuts stand in another order need no other code. */
#include "cuts/cuts.h"

NS_INLINE double cube(double x) { return x * x * x; }

/* Outer rectangle between x1 and x2 once the losses there are off. */
NS_CLONES void ns_thin(const struct ns_work *w, const double *x1,
                       const double *x2, struct ns_section *o, double *floor) {
  ns_lane low, high, side;
  ns_fill(low, 0);
  ns_fill(high, 0);
  ns_fill(side, 0);
  for (int c = 0; c < w->shape->cuts; c++) {
    if (w->shape->cut[c].kind != NS_LOSS) continue;
    const double(*v)[NS_LANES] = w->in.cut[c];
    const struct ns_cut_geometry *g = &w->cut[c];
    LANES(i) {
      const bool here = (g->x1[i] < x2[i]) & (g->x2[i] > x1[i]);
      const double more = v[NS_C_allowance][i];
      const double b = v[NS_C_bottom][i], t = v[NS_C_top][i];
      const double s = v[NS_C_sides][i];
      low[i] = here & (b > 0) ? ns_max(low[i], b + more) : low[i];
      high[i] = here & (t > 0) ? ns_max(high[i], t + more) : high[i];
      side[i] = here & (s > 0) ? ns_max(side[i], s + more) : side[i];
    }
  }
  LANES(i) {
    o->b[i] = ns_max(w->width[i] - 2 * side[i], 1e-6);
    o->H[i] = ns_max(w->depth[i] - low[i] - high[i], 1e-6);
    o->d[i] = w->depth[i];
    floor[i] = low[i];
  }
}

/* Wood of a leaf from lo to hi once the bands are out of it. */
NS_INLINE double leaf_depth(const struct ns_section *o, double lo, double hi,
                            int i) {
  const double y1 = ns_max(o->y1[i], lo), y2 = ns_min(o->y2[i], hi);
  const double z1 = ns_max(o->z1[i], lo), z2 = ns_min(o->z2[i], hi);
  return ns_max(0, hi - lo - ns_max(0, y2 - y1) - ns_max(0, z2 - z1));
}

/* Planes of the splits that cross x1..x2, from the bottom of the rectangle,
 * sorted; a split elsewhere has its plane at the top, where it parts nothing.
 */
NS_INLINE int split_planes(const struct ns_work *w, const double *x1,
                           const double *x2, const double *floor,
                           const struct ns_section *o,
                           double plane[][NS_LANES]) {
  int n = 0;
  for (int c = 0; c < w->shape->cuts; c++) {
    if (w->shape->cut[c].kind != NS_SPLIT) continue;
    const struct ns_cut_geometry *g = &w->cut[c];
    LANES(i) {
      const bool here = (g->x1[i] < x2[i]) & (g->x2[i] > x1[i]);
      const double y = ns_min(ns_max(g->y1[i] - floor[i], 0), o->H[i]);
      plane[n][i] = here ? y : o->H[i];
    }
    for (int k = n; k > 0; k--)
      LANES(i) {
        const double a = plane[k - 1][i], b = plane[k][i];
        plane[k - 1][i] = ns_min(a, b);
        plane[k][i] = ns_max(a, b);
      }
    n++;
  }
  return n;
}

/* No shear flow crosses a split, so the leaves bend side by side and share M
 * and V by their own I; where that leaves less than the bands alone do. */
NS_INLINE void split_leaves(const struct ns_work *w, const double *x1,
                            const double *x2, const double *floor,
                            struct ns_section *o) {
  double plane[NS_MAX_CUTS][NS_LANES];
  const int n = split_planes(w, x1, x2, floor, o, plane);
  ns_lane area, cubes, big, parted;
  ns_fill(area, 0);
  ns_fill(cubes, 0);
  ns_fill(big, 0);
  ns_fill(parted, 0);
  for (int k = 0; k <= n; k++)
    LANES(i) {
      const double lo = k > 0 ? plane[k > 0 ? k - 1 : 0][i] : 0;
      const double hi = k < n ? plane[k < n ? k : 0][i] : o->H[i];
      const double h = leaf_depth(o, lo, hi, i);
      area[i] += h;
      cubes[i] += h * h * h;
      big[i] = ns_max(big[i], h);
      parted[i] = (hi > 0) & (hi < o->H[i]) ? 1 : parted[i];
    }
  LANES(i) {
    const double b = o->b[i], h = big[i];
    const double least = h > 0 ? b * cubes[i] / (6 * h) : 0;
    const bool worse = (parted[i] != 0) & (least < o->least[i]);
    o->A[i] = worse ? b * area[i] : o->A[i];
    o->y_b[i] = worse ? o->H[i] / 2 : o->y_b[i];
    o->I[i] = worse ? b * cubes[i] / 12 : o->I[i];
    o->S_b[i] = worse ? least : o->S_b[i];
    o->S_t[i] = worse ? least : o->S_t[i];
    o->least[i] = worse ? least : o->least[i];
    o->A_v[i] = worse ? (h > 0 ? b * cubes[i] / (h * h) : 0) : o->A_v[i];
    o->part[i] = worse ? 0 : o->part[i];
    o->h_v[i] = worse ? h : o->h_v[i];
    o->h3[i] = worse ? cubes[i] : o->h3[i];
  }
}

/* Whether a joist has a cut of a kind. */
NS_INLINE bool has_kind(const struct ns_shape *s, enum ns_kind kind) {
  for (int c = 0; c < s->cuts; c++)
    if (s->cut[c].kind == kind) return true;
  return false;
}

/* Adds a band to a section, 'size' its longer side. The first place is the
 * cut's own where 'first', else that of the lowest band; all the others become
 * one second band, so that the order of the cuts does not matter. */
NS_INLINE void add_band(struct ns_section *o, const double *low,
                        const double *high, const double *floor,
                        const double *size, const double *on, bool first,
                        bool sorted) {
  LANES(i) {
    const double y1 = ns_max(low[i] - floor[i], 0);
    const double y2 = ns_min(high[i] - floor[i], o->H[i]);
    const bool here = (on[i] != 0) & (y2 > y1);
    const double p1 = o->y1[i], p2 = o->y2[i], big = o->size[0][i];
    const bool none = p2 <= p1, same = (p1 == y1) & (p2 == y2);
    const bool lower = sorted & !none & !same & (y1 < p1);
    const bool to_y = here & (first | none | lower);
    const bool to_z = here & !same & !(first | none);
    const double w1 = lower ? p1 : y1, w2 = lower ? p2 : y2;
    const double of = lower ? big : size[i], z = o->size[1][i];
    const bool more = o->z2[i] > o->z1[i];
    o->z1[i] = !to_z ? o->z1[i] : more ? ns_min(o->z1[i], w1) : w1;
    o->z2[i] = !to_z ? o->z2[i] : more ? ns_max(o->z2[i], w2) : w2;
    o->size[1][i] = !to_z ? z : more ? ns_max(z, of) : of;
    o->y1[i] = to_y ? y1 : p1;
    o->y2[i] = to_y ? y2 : p2;
    o->size[0][i] = to_y ? size[i] : here & same ? ns_max(big, size[i]) : big;
  }
}

/* A band whose edges moved may reach into one over or under it: both are one
 * then. */
NS_INLINE void join_bands(struct ns_section *o) {
  ns_lane touch;
  LANES(i) {
    const bool two = o->z2[i] > o->z1[i];
    const bool apart = (o->z1[i] > o->y2[i]) | (o->z2[i] < o->y1[i]);
    touch[i] = two & !apart ? 1 : 0;
  }
  if (!ns_any(touch)) return;
  LANES(i) {
    const bool one = touch[i] != 0;
    const double y1 = ns_min(o->y1[i], o->z1[i]);
    const double y2 = ns_max(o->y2[i], o->z2[i]);
    const double size = ns_max(ns_max(o->size[0][i], o->size[1][i]), y2 - y1);
    o->y1[i] = one ? y1 : o->y1[i];
    o->y2[i] = one ? y2 : o->y2[i];
    o->size[0][i] = one ? size : o->size[0][i];
    o->z1[i] = one ? 0 : o->z1[i];
    o->z2[i] = one ? 0 : o->z2[i];
  }
}

/* A section without bands taken out. */
NS_INLINE void no_band(struct ns_section *o) {
  ns_fill(o->y1, 0);
  ns_fill(o->y2, 0);
  ns_fill(o->z1, 0);
  ns_fill(o->z2, 0);
  ns_fill(o->size[0], 0);
  ns_fill(o->size[1], 0);
}

/* Longer side of a group of cuts. */
NS_INLINE void group_size(const struct ns_cut_geometry *restrict g,
                          double *restrict size) {
  LANES(i) size[i] = ns_max(g->h2[i] - g->h1[i], g->g2[i] - g->g1[i]);
}

/* Section at each cut: the box that it is checked with gone over its whole
 * length, and any other opening that stands over or under it. A loss or a split
 * may be long: the cuts along it are checked where they are, thinned or parted
 * by it. */
NS_INLINE void cut_sections(struct ns_work *w) {
  for (int c = 0; c < w->shape->cuts; c++) {
    const struct ns_cut_geometry *g = &w->cut[c];
    struct ns_section *o = &w->section[c];
    ns_lane floor, on, size;
    ns_thin(w, g->g1, g->g2, o, floor);
    no_band(o);
    ns_fill(on, 1);
    ns_copy(o->L, g->L);
    LANES(i) size[i] = ns_max(g->v2[i] - g->v1[i], g->w2[i] - g->w1[i]);
    if (ns_boxed(w->shape->cut[c].kind))
      add_band(o, g->v1, g->v2, floor, size, on, true, false);
    for (int e = 0; e < w->shape->cuts; e++) {
      const bool both =
          ns_boxed(w->shape->cut[c].kind) && ns_boxed(w->shape->cut[e].kind);
      if (e == c || !both) continue;
      const struct ns_cut_geometry *q = &w->cut[e];
      LANES(i) {
        const bool over = (q->g1[i] < g->g2[i]) & (q->g2[i] > g->g1[i]);
        on[i] = over & (q->leader[i] != g->leader[i]) ? 1 : 0;
      }
      if (!ns_any(on)) continue;
      group_size(q, size);
      add_band(o, q->h1, q->h2, floor, size, on, false, false);
      join_bands(o);
    }
    ns_section_of(o);
    if (has_kind(w->shape, NS_SPLIT) && w->shape->cut[c].kind != NS_LOSS)
      split_leaves(w, g->g1, g->g2, floor, o);
  }
}

/* The cuts in the middle of a segment; true where there is any in a lane. */
NS_INLINE bool segment_bands(const struct ns_work *w, const double *mid,
                             const double *floor, struct ns_section *o) {
  bool some = false;
  for (int c = 0; c < w->shape->cuts; c++) {
    if (!ns_boxed(w->shape->cut[c].kind)) continue;
    const struct ns_cut_geometry *restrict g = &w->cut[c];
    ns_lane on, size;
    LANES(i) {
      const bool in = (mid[i] > g->g1[i]) & (mid[i] < g->g2[i]);
      on[i] = in ? 1 : 0;
    }
    if (!ns_any(on)) continue;
    group_size(g, size);
    if (!some) no_band(o);
    some = true;
    add_band(o, g->h1, g->h2, floor, size, on, false, true);
  }
  return some;
}

/* I of a segment of the cut joist, in o. Where no lane has a cut in it, the
 * section with none does for all. */
NS_INLINE const double *segment_I(const struct ns_work *w,
                                  const struct ns_beam *s, int k,
                                  const double *whole, struct ns_section *o) {
  const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
  const bool split = has_kind(w->shape, NS_SPLIT);
  ns_lane mid, floor = {0};
  LANES(i) mid[i] = (x[i] + x2[i]) / 2;
  if (!whole) ns_thin(w, mid, mid, o, floor);
  if (!segment_bands(w, mid, floor, o)) {
    if (whole) return whole;
    no_band(o);
  }
  if (split) {
    ns_section_of(o);
    split_leaves(w, mid, mid, floor, o);
  } else {
    ns_section_I(o);
  }
  return o->I;
}

/* EI of the cut joist; a segment that is cut through counts as whole. */
NS_INLINE void cut_stiffness(const struct ns_work *w, struct ns_beam *m) {
  const double *restrict E = w->E.value;
  const bool plain =
      !has_kind(w->shape, NS_LOSS) && !has_kind(w->shape, NS_SPLIT);
  struct ns_section o;
  ns_lane floor, whole, gross;
  memset(&o, 0, sizeof o);
  ns_thin(w, m->x[0], m->x[0], &o, floor);
  ns_section_I(&o);
  ns_copy(whole, o.I);
  LANES(i) gross[i] = w->width[i] * (cube(w->depth[i]) / 12);
  for (int k = 0; k < m->breaks; k++) {
    double *restrict EI = m->EI[k];
    const double *restrict I =
        k == m->breaks - 1 ? gross
                           : segment_I(w, m, k, plain ? whole : NULL, &o);
    LANES(i) EI[i] = E[i] * (I[i] > 0 ? I[i] : gross[i]);
  }
}

/* What set_breaks adds at most; the row of the beam is not looked at again. */
_Static_assert(NS_MAX_SUPPORTS + 2 /* tips */ + 5 * NS_MAX_CUTS +
                       2 * NS_MAX_LINES + NS_MAX_POINTS +
                       NS_STATIONS * NS_MAX_SPANS <=
                   NS_JOIST_BREAKS,
               "a joist has more breaks than there is room for");

NS_INLINE double *next_break(struct ns_beam *s) { return s->x[s->breaks++]; }

/* A row held between two others. */
NS_INLINE void clip(double *restrict to, const double *restrict from,
                    const double *lo, const double *hi) {
  LANES(i) to[i] = ns_min(ns_max(from[i], lo[i]), hi[i]);
}

/* Where a joist may hog, the load that makes the worst moment changes along a
 * span, and a peak or a turning point could hide between two breaks. */
NS_INLINE void add_stations(struct ns_work *w, struct ns_beam *m) {
  for (int j = 0; j < m->spans; j++)
    for (int k = 1; k <= NS_STATIONS; k++) {
      double *restrict x = next_break(m);
      const double part = k / (NS_STATIONS + 1.0);
      LANES(i) x[i] = m->support[j][i] + part * w->in.joist[NS_J_span + j][i];
    }
}

/* Breaks at the cuts. */
NS_INLINE void add_cuts(struct ns_work *w, struct ns_beam *m) {
  const struct ns_shape *s = w->shape;
  const double *lo = w->tip[0], *hi = w->tip[1];
  for (int c = 0; c < s->cuts; c++) {
    clip(next_break(m), w->cut[c].x1, lo, hi);
    clip(next_break(m), w->cut[c].x2, lo, hi);
    if (s->cut[c].kind == NS_HOLE || s->cut[c].kind == NS_SEVER)
      clip(next_break(m), w->cut[c].xc, lo, hi);
    if (!ns_any(w->cut[c].between)) continue;
    clip(next_break(m), w->cut[c].r1, lo, hi);
    clip(next_break(m), w->cut[c].r2, lo, hi);
  }
}

/* Places where something changes: supports, ends, loads, cuts if they are
 * 'there'. */
NS_INLINE void set_breaks(struct ns_work *w, struct ns_beam *m, bool there) {
  const struct ns_shape *s = w->shape;
  const double *lo = w->tip[0], *hi = w->tip[1];
  m->breaks = 0;
  m->hinges = m->stations = 0;
  m->spans = s->spans;
  m->left = s->left;
  m->right = s->right;
  ns_fill(m->support[0], 0);
  for (int k = 0; k < s->spans; k++)
    LANES(i)
      m->support[k + 1][i] = m->support[k][i] + w->in.joist[NS_J_span + k][i];
  for (int k = 0; k <= s->spans; k++) ns_copy(next_break(m), m->support[k]);
  if (s->left) ns_copy(next_break(m), lo);
  if (s->right) ns_copy(next_break(m), hi);
  if (there) add_cuts(w, m);
  for (int l = 0; l < s->lines; l++) {
    if (s->line[l].whole) continue;
    clip(next_break(m), w->in.line[l][NS_L_from], lo, hi);
    clip(next_break(m), w->in.line[l][NS_L_to], lo, hi);
  }
  for (int p = 0; p < s->points; p++)
    clip(next_break(m), w->in.point[p][NS_P_at], lo, hi);
  if (s->spans > 1 || s->left || s->right) add_stations(w, m);
  ns_beam_sort(m);
}

/* From psf on the width carried, or plf, to lb/in. */
NS_INLINE double line_unit(const struct ns_work *w, int l, bool area, int i) {
  const double given = w->in.line[l][NS_L_width][i];
  const double spacing = w->in.joist[NS_J_spacing][i];
  const double width = given > 0 ? ns_min(given, spacing) : spacing;
  return area ? width / 144 : 1.0 / 12;
}

/* A beam knows dead and live load. Roof live load and snow come to it as live
 * load of one combination (review/combine.c); where a description is only
 * looked through they lie with it. */
NS_INLINE int case_of(enum ns_case of) {
  return of == NS_DEAD ? NS_DEAD : NS_LIVE;
}

/* A line load over the wood between a bearing's centre and the joist's end
 * goes into that bearing; from end to end it is one on the span. */
NS_INLINE void loads_on_ends(const struct ns_work *w, struct ns_beam *m,
                             int k) {
  const struct ns_shape *s = w->shape;
  for (int l = 0; l < s->lines; l++) {
    if (s->line[l].whole) continue;
    const double(*v)[NS_LANES] = (const double(*)[NS_LANES])w->in.line[l];
    double *restrict P = m->P[case_of(s->line[l].load_case)][k];
    const bool area = s->line[l].area;
    LANES(i) {
      const double a = v[NS_L_from][i], b = v[NS_L_to][i];
      const double lo = k == 0 ? a : ns_max(a, w->tip[1][i]);
      const double hi = k == 0 ? ns_min(b, w->tip[0][i]) : b;
      const double g = (v[NS_L_w2][i] - v[NS_L_w1][i]) / (b - a);
      const double mean = v[NS_L_w1][i] + g * ((lo + hi) / 2 - a);
      P[i] += hi > lo ? mean * (hi - lo) * line_unit(w, l, area, i) : 0;
    }
  }
}

/* The span or overhang whose dead load is left out: nothing where there is
 * none. */
NS_INLINE void quiet_stretch(const struct ns_work *w, const struct ns_beam *m,
                             double *restrict lo, double *restrict hi) {
  const double *restrict which = w->in.joist[NS_J_dead_off];
  LANES(i) {
    lo[i] = which[i] == 1 ? -1e300 : 1e300;
    hi[i] = which[i] == 1 ? m->support[0][i] : -1e300;
  }
  for (int j = 0; j <= m->spans; j++)
    LANES(i) {
      const double next = j < m->spans ? m->support[j + 1][i] : 1e300;
      lo[i] = which[i] == j + 2.0 ? m->support[j][i] : lo[i];
      hi[i] = which[i] == j + 2.0 ? next : hi[i];
    }
}

/* Takes the dead load off where the description says that there is none. */
NS_INLINE void leave_out_dead(const struct ns_work *w, struct ns_beam *m) {
  ns_lane lo, hi;
  if (!ns_any(w->in.joist[NS_J_dead_off])) return;
  quiet_stretch(w, m, lo, hi);
  for (int k = 0; k < m->breaks; k++) {
    const double *restrict x = m->x[k];
    const double *restrict x2 = m->x[k + 1 < m->breaks ? k + 1 : k];
    LANES(i) {
      const double mid = (x[i] + x2[i]) / 2;
      const bool off = (mid > lo[i]) & (mid < hi[i]);
      const bool at = (x[i] > lo[i]) & (x[i] < hi[i]);
      m->w[0][k][i] = off ? 0 : m->w[0][k][i];
      m->dw[0][k][i] = off ? 0 : m->dw[0][k][i];
      m->P[0][k][i] = at ? 0 : m->P[0][k][i];
    }
  }
}

/* Loads by the inch: floor loads on the width carried, the rest as given. */
NS_INLINE void set_given_loads(struct ns_work *w, struct ns_beam *m) {
  const struct ns_shape *s = w->shape;
  double(*J)[NS_LANES] = w->in.joist;
  const size_t rows = sizeof(ns_lane) * (size_t)m->breaks;
  ns_lane floor[2];
  LANES(i) {
    floor[0][i] = J[NS_J_dead][i] * J[NS_J_spacing][i] / 144;
    floor[1][i] = J[NS_J_live][i] * J[NS_J_spacing][i] / 144;
  }
  for (int c = 0; c < 2; c++) {
    memset(m->dw[c], 0, rows);
    memset(m->P[c], 0, rows);
    for (int k = 0; k < m->breaks; k++) ns_copy(m->w[c][k], floor[c]);
  }
  if (s->lines == 0 && s->points == 0) return;
  for (int k = 0; k < m->breaks; k++) {
    const double *restrict x = m->x[k];
    const double *restrict x2 = m->x[k + 1 < m->breaks ? k + 1 : k];
    for (int l = 0; l < s->lines; l++) {
      double(*v)[NS_LANES] = w->in.line[l];
      const int of = case_of(s->line[l].load_case);
      double *restrict q = m->w[of][k];
      double *restrict dq = m->dw[of][k];
      const bool whole = s->line[l].whole, area = s->line[l].area;
      LANES(i) {
        const double a = whole ? w->start[i] : v[NS_L_from][i];
        const double b = whole ? w->end[i] : v[NS_L_to][i];
        const double mid = (x[i] + x2[i]) / 2;
        const double unit = line_unit(w, l, area, i);
        const double g = (v[NS_L_w2][i] - v[NS_L_w1][i]) * unit / (b - a);
        const bool in = (mid > a) & (mid < b);
        q[i] += in ? v[NS_L_w1][i] * unit + g * (x[i] - a) : 0;
        dq[i] += in ? g : 0;
      }
    }
    if (k == 0 || k == m->breaks - 1) loads_on_ends(w, m, k);
    for (int p = 0; p < s->points; p++) {
      double *restrict P = m->P[case_of(s->point[p])][k];
      const double *restrict at = w->in.point[p][NS_P_at];
      const double *restrict load = w->in.point[p][NS_P_P];
      const double *restrict first = m->x[0], *restrict last =
                                                  m->x[m->breaks - 1];
      const double *restrict prev = m->x[k > 0 ? k - 1 : 0];
      LANES(i) {
        const double to = ns_min(ns_max(at[i], first[i]), last[i]);
        const bool here = (x[i] == to) & ((k == 0) | (prev[i] != x[i]));
        P[i] += here ? load[i] : 0;
      }
    }
  }
}

/* All loads of the description on a beam. */
NS_INLINE void set_loads(struct ns_work *w, struct ns_beam *m) {
  set_given_loads(w, m);
  leave_out_dead(w, m);
}

/* Whether the joist is worked by unit loads: two spans under even loads. */
NS_INLINE bool spans_by_units(const struct ns_shape *s) {
  return ns_even_loads(s) && s->spans == 2 && !s->left && !s->right;
}

/* Places of a beam as those of another. */
NS_INLINE void same_breaks(const struct ns_beam *from, struct ns_beam *to) {
  to->spans = from->spans;
  to->breaks = from->breaks;
  to->hinges = to->stations = 0;
  to->left = from->left;
  to->right = from->right;
  memcpy(to->support, from->support, sizeof to->support);
  memcpy(to->x, from->x, sizeof(ns_lane) * (size_t)from->breaks);
}

/* Breaks and EI of the joist uncut and cut, and the net sections of its cuts.
 * Worked by unit loads the uncut one needs no breaks at the cuts. */
NS_INLINE void lay_beams(struct ns_work *w) {
  struct ns_beam *m = &w->uncut, *a = &w->after;
  ns_lane gross;
  set_breaks(w, a, true);
  if (spans_by_units(w->shape))
    set_breaks(w, m, false);
  else
    same_breaks(a, m);
  cut_sections(w);
  LANES(i) gross[i] = w->width[i] * (cube(w->depth[i]) / 12);
  for (int k = 0; k < m->breaks; k++) {
    const double *restrict E = w->E.value;
    double *restrict EI = m->EI[k];
    LANES(i) EI[i] = E[i] * gross[i];
  }
  cut_stiffness(w, a);
}

/* Loads on the joist uncut and cut. */
NS_INLINE void load_beams(struct ns_work *w) {
  struct ns_beam *m = &w->uncut, *a = &w->after;
  const size_t rows = sizeof(ns_lane) * (size_t)m->breaks;
  set_loads(w, m);
  for (int c = 0; c < 2; c++) {
    memcpy(a->w[c], m->w[c], rows);
    memcpy(a->dw[c], m->dw[c], rows);
    memcpy(a->P[c], m->P[c], rows);
  }
}

/* Even loads of the floor, lb/in: dead by span, live. */
NS_INLINE void even_loads(const struct ns_work *w, ns_lane *dead,
                          double *restrict live) {
  const double(*J)[NS_LANES] = (const double(*)[NS_LANES])w->in.joist;
  for (int p = 0; p < 2; p++)
    LANES(i) {
      const double q = J[NS_J_dead][i] * J[NS_J_spacing][i] / 144;
      dead[p][i] = J[NS_J_dead_off][i] == p + 2 ? 0 : q;
    }
  LANES(i) live[i] = J[NS_J_live][i] * J[NS_J_spacing][i] / 144;
}

/* Both beams by what they are under unit loads. */
NS_INLINE void solve_by_units(struct ns_work *w, bool stays) {
  struct ns_beam *beam[] = {&w->uncut, &w->after};
  ns_lane dead[2], live;
  even_loads(w, dead, live);
  for (int n = 0; n < 2; n++) {
    if (!stays) ns_unit_solve(&w->unit[n], beam[n]);
    ns_unit_forces(&w->unit[n], (const ns_lane *)dead, live, beam[n]);
  }
}

/* The joist uncut and cut as beams; 'stays': all but loads is as it was. */
NS_CLONES void ns_build_beams(struct ns_work *w, bool stays) {
  struct ns_beam *m = &w->uncut, *a = &w->after;
  if (!stays) lay_beams(w);
  if (spans_by_units(w->shape)) {
    solve_by_units(w, stays);
    return;
  }
  load_beams(w);
  ns_beam_solve(m);
  if (m->unknowns)
    ns_beam_solve(a);
  else
    ns_beam_follow(m, a);
}

/* Loads and EI of the cut joist on a beam whose breaks are already set. */
NS_CLONES void ns_refit(struct ns_work *w, struct ns_beam *m) {
  set_loads(w, m);
  cut_stiffness(w, m);
}
