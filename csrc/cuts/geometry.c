/* SPDX-License-Identifier: MIT
 * geometry.c - from a description to boxes of lost wood.
 *
 * Every cut is a box: x1..x2 along the joist, y1..y2 up from its bottom
 * edge. Two whose clear distance is half the smaller of their sizes or less
 * become one box, since the wood between them carries no frame action of its
 * own. From there to a distance of the smaller size each is checked for itself
 * with its edges moved towards that box in proportion, so that no result jumps
 * where a gap does not. (With the larger size a pilot hole beside a big one
 * would become as tall as that.)
 *
 * Cuts over one another take part in this too. Were they only ever two bands
 * of one section, a cut that grows until it stands over its neighbor would
 * gain strength. */
#include "cuts/cuts.h"

/* Ends of the wood and of the supports. */
NS_INLINE void place_supports(struct ns_work *w) {
  const struct ns_shape *s = w->shape;
  double(*J)[NS_LANES] = w->in.joist;
  ns_fill(w->total, 0);
  for (int k = 0; k < s->spans; k++)
    LANES(i) w->total[i] += J[NS_J_span + k][i];
  LANES(i) {
    const double left = s->left ? J[NS_J_overhang_left][i] : 0;
    const double right = s->right ? J[NS_J_overhang_right][i] : 0;
    w->tip[0][i] = -left;
    w->tip[1][i] = w->total[i] + right;
    w->start[i] = left > 0 ? -left : -J[NS_J_bearing][i] / 2;
    w->end[i] =
        w->total[i] + (right > 0 ? right : J[NS_J_bearing + s->spans][i] / 2);
    w->width[i] = J[NS_J_b][i] * J[NS_J_plies][i];
    w->depth[i] = J[NS_J_d][i];
  }
}

/* Extent along the joist as described, both ends from the left bearing. */
NS_INLINE void place_along(struct ns_work *w, int c) {
  const struct ns_shape *s = w->shape;
  double(*v)[NS_LANES] = w->in.cut[c];
  struct ns_cut_geometry *restrict g = &w->cut[c];
  const enum ns_kind kind = s->cut[c].kind;
  const bool notch = kind == NS_NOTCH, loss = kind == NS_LOSS;
  const bool at_end = kind == NS_END_NOTCH, right = s->cut[c].right;
  const bool hole = kind == NS_HOLE, turned = s->cut[c].from_right;
  const double *restrict start = w->start, *restrict end = w->end;
  const double *restrict total = w->total;
  ns_lane x1, x2, more = {0};
  if (hole)
    LANES(i) {
      const double half = v[NS_C_diameter][i] * v[NS_C_stretch][i] / 2;
      x1[i] = v[NS_C_at][i] - half;
      x2[i] = v[NS_C_at][i] + half;
    }
  else if (!at_end)
    LANES(i) {
      x1[i] = v[NS_C_from][i];
      x2[i] = v[NS_C_to][i];
    }
  else
    LANES(i) {
      const double long_ = v[NS_C_length][i], split = v[NS_C_split_length][i];
      x1[i] = right ? end[i] - long_ - split : start[i];
      x2[i] = right ? end[i] : start[i] + long_ + split;
    }
  if (turned && !at_end)
    LANES(i) {
      const double t1 = total[i] - x2[i], t2 = total[i] - x1[i];
      x1[i] = t1;
      x2[i] = t2;
    }
  if (notch) ns_copy(more, v[NS_C_split_length]);
  if (loss) ns_copy(more, v[NS_C_extend]);
  LANES(i) {
    const double a = ns_max(x1[i] - more[i], start[i]);
    const double b = ns_min(x2[i] + more[i], end[i]);
    g->x1[i] = a;
    g->x2[i] = b;
    g->xc[i] = (a + b) / 2;
  }
}

/* Height of the band: what is cut out of the depth. */
NS_INLINE void band_size(const struct ns_work *w, int c,
                         double *restrict size) {
  const double(*v)[NS_LANES] = w->in.cut[c];
  const enum ns_kind kind = w->shape->cut[c].kind;
  ns_fill(size, 0);
  if (kind == NS_HOLE) ns_copy(size, v[NS_C_diameter]);
  if (kind == NS_SLOT) ns_copy(size, v[NS_C_height]);
  if (kind == NS_NOTCH || kind == NS_END_NOTCH)
    LANES(i) size[i] = v[NS_C_depth][i] + v[NS_C_overcut][i];
  if (kind == NS_SEVER) ns_copy(size, w->depth);
}

/* Its lower edge. */
NS_INLINE void band_low(const struct ns_work *w, int c, const double *size,
                        double *restrict low) {
  const double(*v)[NS_LANES] = w->in.cut[c];
  const enum ns_kind kind = w->shape->cut[c].kind;
  const enum ns_place place = w->shape->cut[c].place;
  const double *restrict d = w->depth, *restrict s = size;
  const bool notch = kind == NS_NOTCH || kind == NS_END_NOTCH;
  if (kind == NS_SEVER || (notch && !w->shape->cut[c].top))
    ns_fill(low, 0);
  else if (notch)
    LANES(i) low[i] = d[i] - s[i];
  else if (kind == NS_SPLIT)
    LANES(i) low[i] = d[i] - v[NS_C_at_depth][i];
  else if (place == NS_FROM_BELOW)
    ns_copy(low, v[NS_C_below]);
  else if (place == NS_FROM_ABOVE)
    LANES(i) low[i] = d[i] - v[NS_C_above][i] - s[i];
  else
    LANES(i) low[i] = (d[i] - s[i]) / 2;
}

/* Band of depth that is gone. */
NS_INLINE void place_across(struct ns_work *w, int c) {
  struct ns_cut_geometry *restrict g = &w->cut[c];
  const double *restrict depth = w->depth;
  const enum ns_kind kind = w->shape->cut[c].kind;
  const bool notch = kind == NS_NOTCH || kind == NS_END_NOTCH;
  const bool to_top = kind == NS_SEVER || (notch && w->shape->cut[c].top);
  ns_lane size, low;
  band_size(w, c, size);
  band_low(w, c, size, low);
  LANES(i) {
    const double d = depth[i], high = to_top ? d : low[i] + size[i];
    g->size[i] = size[i];
    g->y1[i] = low[i] < 1e-9 ? 0 : low[i]; /* an edge, whatever the bits */
    g->y2[i] = high > d - 1e-9 ? d : high;
  }
}

/* How far a hole askew counts as a slot of its length q D: its straight middle,
 * (q - 1) D long, has the two half-round ends of a round hole on it, and the
 * slot's square ones where the middle is a quarter of D or more. Ours: cautious
 * all the way, and without a step where the drill was a degree off. */
NS_INLINE double askew(double q) { return ns_min(ns_max(4 * (q - 1), 0), 1); }

/* From a round hole's to a slot's, each to the bit at its end. */
NS_INLINE double between_ends(double part, double round, double slot) {
  return part < 1 ? round + part * (slot - round) : slot;
}

/* Clear distance between two cuts: between circles where both are holes,
 * else between boxes; 0 where they touch. */
NS_INLINE void find_apart(struct ns_work *w, int a, int b) {
  const struct ns_cut_geometry *restrict p = &w->cut[a], *restrict q =
                                                             &w->cut[b];
  const double *restrict s_p = w->in.cut[a][NS_C_stretch];
  const double *restrict s_q = w->in.cut[b][NS_C_stretch];
  double *restrict apart = w->apart[a][b];
  LANES(i) {
    const double dx =
        ns_max(0, ns_max(q->x1[i] - p->x2[i], p->x1[i] - q->x2[i]));
    const double dy =
        ns_max(0, ns_max(q->y1[i] - p->y2[i], p->y1[i] - q->y2[i]));
    apart[i] = ns_max(0, sqrt(dx * dx + dy * dy));
  }
  if (w->shape->cut[a].kind != NS_HOLE || w->shape->cut[b].kind != NS_HOLE)
    return;
  LANES(i) {
    const double part = ns_max(askew(s_p[i]), askew(s_q[i]));
    const double cx = p->xc[i] - q->xc[i];
    const double cy = (p->y1[i] + p->y2[i] - q->y1[i] - q->y2[i]) / 2;
    const double circles =
        sqrt(cx * cx + cy * cy) - (p->size[i] + q->size[i]) / 2;
    apart[i] = between_ends(part, ns_max(0, circles), apart[i]);
  }
}

/* Clear distance between the groups that two cuts have grown into. */
NS_INLINE double group_gap(const struct ns_cut_geometry *p,
                           const struct ns_cut_geometry *q, double apart,
                           int i) {
  const double dx = ns_max(0, ns_max(q->g1[i] - p->g2[i], p->g1[i] - q->g2[i]));
  const double dy = ns_max(0, ns_max(q->h1[i] - p->h2[i], p->h1[i] - q->h2[i]));
  const bool alone = (p->merged[i] == 0) & (q->merged[i] == 0);
  const double gap = sqrt(dx * dx + dy * dy);
  return alone ? apart : gap;
}

/* A frame's length of a round hole: none up to 0.45 d, its radius from 0.60 d
 * on. */
NS_INLINE double round_frame(double D, double d) {
  const double part = (D / d - 0.45) / 0.15;
  return D / 2 * ns_min(ns_max(part, 0), 1);
}

/* The lip of a round hole is within a fifteenth of the diameter of its least
 * over the middle half of the diameter; a hole askew is on its way to a slot.
 */
NS_INLINE void start_hole(struct ns_work *w, int c) {
  struct ns_cut_geometry *restrict g = &w->cut[c];
  const double *restrict stretch = w->in.cut[c][NS_C_stretch];
  const double *restrict depth = w->depth;
  LANES(i) {
    const double part = askew(stretch[i]), length = g->x2[i] - g->x1[i];
    const double D = g->size[i], frame = round_frame(D, depth[i]);
    const double a = between_ends(part, frame, length);
    g->sigma[i] = between_ends(part, D, g->sigma[i]);
    g->L[i] = between_ends(part, D / 2, length);
    g->a[i] = a;
    g->r1[i] = between_ends(part, g->xc[i] - frame / 2, g->x1[i]);
    g->r2[i] = between_ends(part, g->xc[i] + frame / 2, g->x2[i]);
    g->between[i] = (part < 1) & (a > 0) ? 1 : 0;
  }
}

/* Each cut alone in its group, with its own box. */
NS_INLINE void start_groups(struct ns_work *w) {
  const struct ns_shape *s = w->shape;
  for (int c = 0; c < s->cuts; c++) {
    struct ns_cut_geometry *restrict g = &w->cut[c];
    const enum ns_kind kind = s->cut[c].kind;
    const bool open = kind == NS_HOLE || kind == NS_SLOT;
    const bool at_end = kind == NS_END_NOTCH, right = s->cut[c].right;
    const double *restrict depth = w->depth;
    ns_copy(g->g1, g->x1);
    ns_copy(g->g2, g->x2);
    ns_copy(g->h1, g->y1);
    ns_copy(g->h2, g->y2);
    ns_copy(g->r1, g->x1);
    ns_copy(g->r2, g->x2);
    ns_fill(g->leader, c);
    ns_fill(g->merged, 0);
    ns_fill(g->near, 0);
    ns_fill(g->weight, 0);
    ns_fill(g->between, 0);
    ns_fill(g->ends[0], at_end && !right ? 1 : 0);
    ns_fill(g->ends[1], at_end && right ? 1 : 0);
    ns_fill(g->opening, open ? 1 : 0);
    LANES(i) {
      const double length = g->x2[i] - g->x1[i];
      const double as_slot = ns_max(g->size[i], ns_min(length, depth[i]));
      g->sigma[i] = open ? as_slot : g->size[i];
      g->L[i] = length;
      g->a[i] = length;
    }
    if (kind == NS_HOLE) start_hole(w, c);
  }
}

/* How far two cuts count as one: not at all from a gap of the smaller size,
 * wholly from half of it. */
NS_INLINE double weight_of(const struct ns_cut_geometry *p,
                           const struct ns_cut_geometry *q, double apart,
                           int i) {
  const double G = ns_max(ns_min(p->sigma[i], q->sigma[i]), 1e-9);
  const double part = 2 - 2 * group_gap(p, q, apart, i) / G;
  return ns_min(ns_max(part, 0), 1);
}

/* Cuts that are wholly one take the box around both. */
NS_INLINE void take_box(struct ns_cut_geometry *restrict p,
                        struct ns_cut_geometry *restrict q,
                        const double *restrict on,
                        const double *restrict depth) {
  LANES(i) {
    const bool one = on[i] != 0;
    const double g1 = ns_min(p->g1[i], q->g1[i]);
    const double g2 = ns_max(p->g2[i], q->g2[i]);
    const double h1 = ns_min(p->h1[i], q->h1[i]);
    const double h2 = ns_max(p->h2[i], q->h2[i]);
    const double open = ns_max(p->opening[i], q->opening[i]);
    const double long_ = open != 0 ? ns_min(g2 - g1, depth[i]) : 0;
    const double size = ns_max(h2 - h1, long_);
    p->g1[i] = one ? g1 : p->g1[i];
    q->g1[i] = one ? g1 : q->g1[i];
    p->g2[i] = one ? g2 : p->g2[i];
    q->g2[i] = one ? g2 : q->g2[i];
    p->h1[i] = one ? h1 : p->h1[i];
    q->h1[i] = one ? h1 : q->h1[i];
    p->h2[i] = one ? h2 : p->h2[i];
    q->h2[i] = one ? h2 : q->h2[i];
    p->opening[i] = one ? open : p->opening[i];
    q->opening[i] = one ? open : q->opening[i];
    p->sigma[i] = one ? size : p->sigma[i];
    q->sigma[i] = one ? size : q->sigma[i];
  }
  LANES(i) {
    const bool one = on[i] != 0;
    const double leader = ns_min(p->leader[i], q->leader[i]);
    const double e0 = ns_max(p->ends[0][i], q->ends[0][i]);
    const double e1 = ns_max(p->ends[1][i], q->ends[1][i]);
    p->ends[0][i] = one ? e0 : p->ends[0][i];
    q->ends[0][i] = one ? e0 : q->ends[0][i];
    p->ends[1][i] = one ? e1 : p->ends[1][i];
    q->ends[1][i] = one ? e1 : q->ends[1][i];
    p->leader[i] = one ? leader : p->leader[i];
    q->leader[i] = one ? leader : q->leader[i];
    p->merged[i] = one ? 1 : p->merged[i];
    q->merged[i] = one ? 1 : q->merged[i];
  }
}

enum nearness { APART, NEAR, ONE };

/* Puts cut b to the group of a where they are near; says how near. */
NS_INLINE enum nearness join(struct ns_work *w, int a, int b) {
  struct ns_cut_geometry *restrict p = &w->cut[a], *restrict q = &w->cut[b];
  const double *restrict apart = w->apart[a][b];
  ns_lane near, on;
  LANES(i) near[i] = weight_of(p, q, apart[i], i);
  if (!ns_any(near)) return APART;
  LANES(i) on[i] = near[i] >= 1 ? 1 : 0;
  if (!ns_any(on)) return NEAR;
  take_box(p, q, on, w->depth);
  return ONE;
}

/* A group of more than one is worked over its length, as a slot is. */
NS_INLINE void close_groups(struct ns_work *w) {
  for (int c = 0; c < w->shape->cuts; c++) {
    struct ns_cut_geometry *restrict g = &w->cut[c];
    LANES(i) {
      const bool group = g->merged[i] != 0;
      const double length = g->g2[i] - g->g1[i];
      g->L[i] = group ? length : g->L[i];
      g->a[i] = group ? length : g->a[i];
      g->r1[i] = group ? g->g1[i] : g->r1[i];
      g->r2[i] = group ? g->g2[i] : g->r2[i];
      g->between[i] = group ? 0 : g->between[i];
    }
    ns_copy(g->w1, g->g1);
    ns_copy(g->w2, g->g2);
    ns_copy(g->v1, g->h1);
    ns_copy(g->v2, g->h2);
  }
}

/* A number moved by a part of its way to another. */
NS_INLINE double moved(double part, double from, double to) {
  return from + part * (to - from);
}

/* Moves every edge of cut c towards those of the box around it and e, by their
 * weight. Of several near cuts each edge goes the furthest way, so that growth
 * of any of them never draws an edge back. */
NS_INLINE bool lean(struct ns_work *w, int c, int e) {
  struct ns_cut_geometry *restrict g = &w->cut[c];
  const struct ns_cut_geometry *restrict q = &w->cut[e];
  const double *restrict apart = w->apart[c < e ? c : e][c < e ? e : c];
  ns_lane part;
  LANES(i) {
    const bool same = g->leader[i] == q->leader[i];
    part[i] = same ? 0 : weight_of(g, q, apart[i], i);
  }
  if (!ns_any(part)) return false;
  LANES(i) {
    const double f = part[i];
    const double x1 = ns_min(g->g1[i], q->g1[i]);
    const double x2 = ns_max(g->g2[i], q->g2[i]);
    const double y1 = ns_min(g->h1[i], q->h1[i]);
    const double y2 = ns_max(g->h2[i], q->h2[i]);
    const bool most = f > g->weight[i];
    g->w1[i] = ns_min(g->w1[i], moved(f, g->g1[i], x1));
    g->w2[i] = ns_max(g->w2[i], moved(f, g->g2[i], x2));
    g->v1[i] = ns_min(g->v1[i], moved(f, g->h1[i], y1));
    g->v2[i] = ns_max(g->v2[i], moved(f, g->h2[i], y2));
    g->near[i] = most ? 1 + q->leader[i] : g->near[i];
    g->weight[i] = most ? f : g->weight[i];
  }
  return true;
}

/* Where M and V are read, likewise; and how long it then is. */
NS_INLINE void lean_length(struct ns_work *w, int c) {
  struct ns_cut_geometry *restrict g = &w->cut[c];
  ns_lane r1, r2;
  ns_copy(r1, g->r1);
  ns_copy(r2, g->r2);
  for (int e = 0; e < w->shape->cuts; e++) {
    const struct ns_cut_geometry *restrict q = &w->cut[e];
    const double *restrict apart = w->apart[c < e ? c : e][c < e ? e : c];
    if (e == c || !ns_boxed(w->shape->cut[e].kind)) continue;
    LANES(i) {
      const bool same = g->leader[i] == q->leader[i];
      const double f = same ? 0 : weight_of(g, q, apart[i], i);
      const double x1 = ns_min(g->g1[i], q->g1[i]);
      const double x2 = ns_max(g->g2[i], q->g2[i]);
      r1[i] = ns_min(r1[i], moved(f, g->r1[i], x1));
      r2[i] = ns_max(r2[i], moved(f, g->r2[i], x2));
    }
  }
  LANES(i) {
    const double own = g->g2[i] - g->g1[i], left = 1 - g->weight[i];
    const double length = g->w2[i] - g->w1[i];
    const double L = length - left * (own - g->L[i]);
    const double a = length - left * (own - g->a[i]);
    const bool near = g->weight[i] > 0;
    g->L[i] = near ? L : g->L[i];
    g->a[i] = near ? a : g->a[i];
    g->r1[i] = r1[i];
    g->r2[i] = r2[i];
    g->between[i] = near ? 1 : g->between[i];
  }
}

/* As many passes as could be needed for a chain of cuts to close up; none
 * after one in which nothing became one. Then what is near, but not one, leans
 * on its neighbors: from what the groups are, so their order does not matter.
 */
NS_INLINE void merge(struct ns_work *w) {
  const struct ns_shape *s = w->shape;
  bool some = true, near = false;
  start_groups(w);
  for (int pass = 1; pass < s->cuts && some; pass++) {
    some = false;
    for (int a = 0; a < s->cuts; a++)
      for (int b = a + 1; b < s->cuts; b++)
        if (ns_boxed(s->cut[a].kind) && ns_boxed(s->cut[b].kind)) {
          const enum nearness n = join(w, a, b);
          near |= n != APART;
          some |= n == ONE;
        }
  }
  close_groups(w);
  for (int c = 0; near && c < s->cuts; c++) {
    bool leans = false;
    if (!ns_boxed(s->cut[c].kind)) continue;
    for (int e = 0; e < s->cuts; e++)
      if (e != c && ns_boxed(s->cut[e].kind)) leans |= lean(w, c, e);
    if (leans) lean_length(w, c);
  }
}

/* The span that holds a cut, and how far the cut reaches into it from the
 * nearer support. */
NS_INLINE void find_reach(struct ns_work *w, int c) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  double *restrict L = w->held_by[c], *restrict reach = w->reach[c];
  ns_lane A = {0};
  ns_fill(L, 0);
  ns_fill(reach, 0);
  for (int j = 0; j < w->shape->spans; j++) {
    const double *restrict span = w->in.joist[NS_J_span + j];
    LANES(i) {
      const double B = A[i] + span[i];
      const bool in = (g->xc[i] >= A[i]) & (g->xc[i] <= B);
      const double r = ns_min(g->x2[i] - A[i], B - g->x1[i]);
      L[i] = in ? B - A[i] : L[i];
      reach[i] = in ? r : reach[i];
      A[i] = B;
    }
  }
}

/* Cuts as boxes in the joist's own axes, near ones merged. */
NS_CLONES void ns_place_cuts(struct ns_work *w) {
  place_supports(w);
  for (int c = 0; c < w->shape->cuts; c++) {
    place_along(w, c);
    place_across(w, c);
    find_reach(w, c);
  }
  for (int a = 0; a < w->shape->cuts; a++)
    for (int b = a + 1; b < w->shape->cuts; b++) find_apart(w, a, b);
  merge(w);
  ns_find_seats(w);
}
