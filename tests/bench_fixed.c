/* SPDX-License-Identifier: MIT
 * bench_fixed.c - the core's review written for one shape and nothing else:
 * one of those that tests/bench_beside.lua measures the core against.
 *
 * One simple span under dead and live floor load, two combinations, cut by
 * two holes, a notch and a slot; all sizes are known to the compiler but the
 * number of breaks, which grows where cuts are near. Method, order and numbers
 * are those of tests/bench_lua.lua, whose names stand here too; terms that are
 * nil for all joists of the shape are left out, checks and rule items are kept,
 * and what the core notes for steps where one joist is reviewed by itself is
 * not. Lanes and clones are the core's.
 *
 *   build/bench_fixed FILE SECONDS
 *
 * FILE and what is printed: see tests/bench_numpy.py. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "joist/lanes.h"
#include "netsection.h"

#define SLACK 1e-6
#define NO_CAPACITY 1e12
#define INSIDE 1e-7
#define TESTED_HOLE 0.40
#define OUTER_PART (1.0 / 3)
#define INNER_NOTCH (1.0 / 6)
#define THICK 3.5

enum { HOLE_1, HOLE_2, NOTCH, SLOT, CUTS };
enum { OWN_BREAKS = 12, MAX_BREAKS = OWN_BREAKS + 2 * CUTS };
enum { COMBOS = 2, PAIRS = 6 };
enum { PLACE_BELOW = 1, PLACE_ABOVE };

static const double g_L[COMBOS] = {0, 1}, CD[COMBOS] = {0.9, 1.0};

/* clang-format off */
enum field {
  span, bearing_left, bearing_right, b, d, plies, spacing, dead, live, Fb, Ft,
  Fv, Fc_perp, Fc, E, Emin, CF, CF_t, CF_c, wet, temperature, incised,
  pinned, members, sheathed, Kcr, limit_live, limit_total, notch_raiser,
  blocking_1, blocking_2,
  at_1, diameter_1, stretch_1, turned_1, place_1, off_1,
  at_2, diameter_2, stretch_2, turned_2, place_2, off_2,
  from_3, to_3, depth_3, overcut_3, split_3, taper_3, accept_3, top_3,
  turned_3,
  from_4, to_4, height_4, turned_4, place_4, off_4, FIELDS
};
/* clang-format on */

struct cut {
  ns_lane x1, x2, xc, y1, y2, size, sigma, askew;
  ns_lane g1, g2, h1, h2, side, voice, merged, opening;
  ns_lane b1, b2, e1, e2, weight; /* the box that it is checked with: x, y */
  ns_lane r1, r2, between, tie, frame; /* where M and V are read; L, a */
};

struct section {
  ns_lane least, hb, ht, hm, av, cm, chord[2], thin[2], lip_y[2], lip_I[2];
};

struct check {
  ns_lane ratio, demand, capacity, at, combo, binding;
};

struct item {
  ns_lane measured, limit, ok;
};

struct state {
  struct check bending, sag[2];
};

struct cut_state {
  struct check net_bending, net_shear, notch_shear, frame, tension, squeeze;
  struct check alone;
  bool has_notch_shear, has_chords, has_frame, has_alone;
};

struct work {
  double J[FIELDS][NS_LANES];
  ns_lane ok, width, start, end;
  int breaks, segments;
  struct cut cut[CUTS];
  ns_lane gap[PAIRS];
  struct section section[CUTS];
  ns_lane Fb_c[COMBOS], Fv_c[COMBOS], Ft_c[COMBOS], Fc_c[COMBOS];
  ns_lane perp, E_c, Emin_c;
  ns_lane sign_Fb[COMBOS][2], star_Fb[COMBOS][2], l_e;
  ns_lane x[MAX_BREAKS], mid[MAX_BREAKS], h[MAX_BREAKS], past[MAX_BREAKS];
  ns_lane EI[2][MAX_BREAKS], w[2];
  ns_lane VL[2][MAX_BREAKS], VR[2][MAX_BREAKS], M[2][MAX_BREAKS], R[2];
  ns_lane W0[MAX_BREAKS], W1[MAX_BREAKS];
  ns_lane slope[2][MAX_BREAKS], sag[2][MAX_BREAKS];
  ns_lane E_V[2][2][MAX_BREAKS], E_M[2][2][MAX_BREAKS], E_C[2][2][MAX_BREAKS];
  ns_lane M_c[COMBOS][2][MAX_BREAKS], V_c[COMBOS][2][MAX_BREAKS];
  ns_lane has[COMBOS][2][MAX_BREAKS], peak[COMBOS][2][MAX_BREAKS];
  ns_lane peak_at[COMBOS][2][MAX_BREAKS];
  bool peaks[COMBOS][2][MAX_BREAKS];
  ns_lane worst[COMBOS], worst_at[COMBOS];
  ns_lane q_a[CUTS], q_b[CUTS], q_M[CUTS][COMBOS][2], q_at[CUTS][COMBOS][2];
  ns_lane q_V[CUTS][COMBOS], q_V_at[CUTS][COMBOS], gone[CUTS];
  ns_lane torn[CUTS][2], tension[CUTS], tau[CUTS][2], severed;
  bool hogs[CUTS][COMBOS];
  ns_lane reach[CUTS], reach_L[CUTS], within;
  struct check shear, bearing[2], stability;
  struct state state[2];
  struct cut_state cuts[CUTS];
  struct item item[5 * 3 + 4 + 2];
};

struct answers {
  ns_lane uncut, ratio, action, ok;
};

/* True where the row, which is nowhere negative, is not nil in some lane. */
NS_INLINE bool any(const double *row) {
  double sum[NS_LANES / 2];
  for (int i = 0; i < 8; i++) sum[i] = row[i] + row[i + 8];
  for (int i = 0; i < 4; i++) sum[i] += sum[i + 4];
  return sum[0] + sum[1] + sum[2] + sum[3] != 0;
}

/* ---- ranges and values ---- */

NS_INLINE void check_ranges(struct work *w, const double *low,
                            const double *high) {
  ns_fill(w->ok, 1);
  for (int f = 0; f < FIELDS; f++) {
    const double least = low[f], most = high[f];
    LANES(i) {
      const double v = w->J[f][i];
      w->ok[i] = (v >= least) & (v <= most) ? w->ok[i] : 0;
    }
  }
  const enum field optional[] = {Ft,         Fc,          Fc_perp,
                                 limit_live, limit_total, pinned};
  for (int k = 0; k < 6; k++)
    LANES(i) {
      const double v = w->J[optional[k]][i];
      w->ok[i] = (v == 0) | (v >= 1) ? w->ok[i] : 0;
    }
}

NS_INLINE void set_sizes(struct work *w) {
  LANES(i) {
    w->width[i] = w->J[b][i] * w->J[plies][i];
    w->start[i] = -w->J[bearing_left][i] / 2;
    w->end[i] = w->J[span][i] + w->J[bearing_right][i] / 2;
  }
}

/* Value with all factors but CD; Ct dry and wet, over 100 F and over 125 F. */
NS_INLINE double adjusted(const struct work *w, int i, enum field of, double cf,
                          double CM, double free, double dry_100,
                          double wet_100, double dry_125, double wet_125,
                          double Ci) {
  const double F = w->J[of][i] * cf, t = w->J[temperature][i];
  const bool is_wet = w->J[wet][i] != 0;
  const double over_100 = is_wet ? wet_100 : dry_100;
  const double over_125 = is_wet ? wet_125 : dry_125;
  const double Ct = t > 125 ? over_125 : t > 100 ? over_100 : 1;
  return F * (is_wet & (F > free) ? CM : 1) * Ct *
         (w->J[incised][i] != 0 ? Ci : 1);
}

NS_INLINE void adjust_values(struct work *w) {
  double(*J)[NS_LANES] = w->J;
  LANES(i) {
    const double kb =
        adjusted(w, i, Fb, J[CF][i], 0.85, 1150, 0.8, 0.7, 0.7, 0.5, 0.8);
    const double kv = adjusted(w, i, Fv, 1, 0.97, 0, 0.8, 0.7, 0.7, 0.5, 0.8);
    for (int c = 0; c < COMBOS; c++) {
      w->Fb_c[c][i] = kb * CD[c];
      w->Fv_c[c][i] = kv * CD[c];
    }
  }
  LANES(i) {
    const double kt =
        adjusted(w, i, Ft, J[CF_t][i], 1.0, 0, 0.9, 0.9, 0.9, 0.9, 0.8);
    const double kc =
        adjusted(w, i, Fc, J[CF_c][i], 0.8, 750, 0.8, 0.7, 0.7, 0.5, 0.8);
    for (int c = 0; c < COMBOS; c++) {
      w->Ft_c[c][i] = kt * CD[c];
      w->Fc_c[c][i] = kc * CD[c];
    }
  }
  LANES(i) {
    w->perp[i] = adjusted(w, i, Fc_perp, 1, 0.67, 0, 0.8, 0.7, 0.7, 0.5, 1.0);
  }
  LANES(i) {
    w->E_c[i] = adjusted(w, i, E, 1, 0.9, 0, 0.9, 0.9, 0.9, 0.9, 0.95);
    w->Emin_c[i] = adjusted(w, i, Emin, 1, 0.9, 0, 0.9, 0.9, 0.9, 0.9, 0.95);
  }
}

/* ---- geometry ---- */

NS_INLINE void place(struct work *w, int c, const double *x1, const double *x2,
                     const double *turned, const double *y1, const double *y2,
                     const double *size, const double *split) {
  struct cut *g = &w->cut[c];
  LANES(i) {
    const double L = w->J[span][i], D = w->J[d][i];
    const bool back = turned[i] != 0;
    double p = back ? L - x2[i] : x1[i], q = back ? L - x1[i] : x2[i];
    const bool fits =
        (q > p) & (p >= w->start[i] - SLACK) & (q <= w->end[i] + SLACK);
    w->ok[i] = fits ? w->ok[i] : 0;
    p = ns_max(p - split[i], w->start[i]);
    q = ns_min(q + split[i], w->end[i]);
    g->x1[i] = g->g1[i] = p;
    g->x2[i] = g->g2[i] = q;
    g->xc[i] = (p + q) / 2;
    g->size[i] = size[i];
    g->y1[i] = g->h1[i] = y1[i] < 1e-9 ? 0 : y1[i];
    g->y2[i] = g->h2[i] = y2[i] > D - 1e-9 ? D : y2[i];
    g->voice[i] = c;
    g->merged[i] = g->weight[i] = g->between[i] = 0;
    g->opening[i] = c != NOTCH;
  }
  LANES(i) {
    const double long_ = g->x2[i] - g->x1[i];
    const double as_slot = ns_max(size[i], ns_min(long_, w->J[d][i]));
    g->sigma[i] = c == NOTCH ? size[i] : as_slot;
    g->r1[i] = g->x1[i];
    g->r2[i] = g->x2[i];
    g->tie[i] = g->frame[i] = long_;
    g->askew[i] = 1;
  }
}

NS_INLINE double clamped(double part) { return ns_min(ns_max(part, 0), 1); }

NS_INLINE double between_ends(double part, double round, double slot) {
  return part < 1 ? round + part * (slot - round) : slot;
}

/* A hole's nearness and lengths: those of a slot as far as it is askew. */
NS_INLINE void start_hole(struct work *w, int c, const double *restrict size,
                          const double *restrict stretch) {
  struct cut *g = &w->cut[c];
  LANES(i) {
    const double part = clamped(4 * (stretch[i] - 1)), D = size[i];
    const double frame = D / 2 * clamped((D / w->J[d][i] - 0.45) / 0.15);
    const double a = between_ends(part, frame, g->frame[i]);
    g->askew[i] = part;
    g->sigma[i] = between_ends(part, D, g->sigma[i]);
    g->tie[i] = between_ends(part, D / 2, g->tie[i]);
    g->frame[i] = a;
    g->r1[i] = between_ends(part, g->xc[i] - frame / 2, g->x1[i]);
    g->r2[i] = between_ends(part, g->xc[i] + frame / 2, g->x2[i]);
    g->between[i] = (part < 1) & (a > 0) ? 1 : 0;
  }
}

/* Band of an opening, and whether it is within the joist. */
NS_INLINE void place_across(struct work *w, const double *size,
                            const double *where, const double *off,
                            double *restrict y1, double *restrict y2) {
  LANES(i) {
    const double D = w->J[d][i], s = size[i];
    const bool below = where[i] == PLACE_BELOW, above = where[i] == PLACE_ABOVE;
    const bool fits =
        (s > 0) & (s < D) & ((where[i] == 0) | (off[i] + s <= D + 1e-9));
    w->ok[i] = fits ? w->ok[i] : 0;
    y1[i] = below ? off[i] : above ? D - off[i] - s : (D - s) / 2;
    y2[i] = y1[i] + s;
  }
}

NS_INLINE void place_hole(struct work *w, int c) {
  const int f = c == HOLE_1 ? at_1 : at_2;
  double(*v)[NS_LANES] = w->J + f;
  ns_lane x1, x2, y1, y2, none;
  ns_fill(none, 0);
  LANES(i) {
    const double half = v[1][i] * v[2][i] / 2;
    x1[i] = v[0][i] - half;
    x2[i] = v[0][i] + half;
  }
  place_across(w, v[1], v[4], v[5], y1, y2);
  place(w, c, x1, x2, v[3], y1, y2, v[1], none);
  start_hole(w, c, v[1], v[2]);
}

NS_INLINE void place_slot(struct work *w) {
  double(*J)[NS_LANES] = w->J;
  ns_lane y1, y2, none;
  ns_fill(none, 0);
  place_across(w, J[height_4], J[place_4], J[off_4], y1, y2);
  place(w, SLOT, J[from_4], J[to_4], J[turned_4], y1, y2, J[height_4], none);
}

NS_INLINE void place_notch(struct work *w) {
  double(*J)[NS_LANES] = w->J;
  ns_lane size, y1, y2;
  LANES(i) {
    const double D = J[d][i], s = J[depth_3][i] + J[overcut_3][i];
    const bool top = J[top_3][i] != 0;
    w->ok[i] = (J[depth_3][i] > 0) & (s < D) ? w->ok[i] : 0;
    size[i] = s;
    y1[i] = top ? D - s : 0;
    y2[i] = top ? D : s;
  }
  place(w, NOTCH, J[from_3], J[to_3], J[turned_3], y1, y2, size, J[split_3]);
}

NS_INLINE double between(double ax1, double ax2, double ay1, double ay2,
                         double bx1, double bx2, double by1, double by2) {
  const double dx = ns_max(0, ns_max(bx1 - ax2, ax1 - bx2));
  const double dy = ns_max(0, ns_max(by1 - ay2, ay1 - by2));
  return sqrt(dx * dx + dy * dy);
}

NS_INLINE int pair_of(int p, int q) { /* 01 02 03 12 13 23 */
  const int s = p < q ? p : q, t = p < q ? q : p;
  return s == 0 ? t - 1 : s + t;
}

NS_INLINE void find_gap(struct work *w, int p, int q) {
  const struct cut *g = &w->cut[p], *e = &w->cut[q];
  double *restrict gap = w->gap[pair_of(p, q)];
  LANES(i)
    gap[i] = between(g->x1[i], g->x2[i], g->y1[i], g->y2[i], e->x1[i], e->x2[i],
                     e->y1[i], e->y2[i]);
  if (p != HOLE_1 || q != HOLE_2) return;
  LANES(i) {
    const double cx = g->xc[i] - e->xc[i];
    const double cy = (g->y1[i] + g->y2[i] - e->y1[i] - e->y2[i]) / 2;
    const double clear =
        sqrt(cx * cx + cy * cy) - (g->size[i] + e->size[i]) / 2;
    const double part = ns_max(g->askew[i], e->askew[i]);
    gap[i] = between_ends(part, ns_max(clear, 0), gap[i]);
  }
}

/* How far two cuts count as one: not at all from a gap of the smaller size,
 * wholly from half of it. */
NS_INLINE double weight_of(const struct cut *g, const struct cut *e,
                           const double *gap, int i) {
  const double boxes = between(g->g1[i], g->g2[i], g->h1[i], g->h2[i], e->g1[i],
                               e->g2[i], e->h1[i], e->h2[i]);
  const bool grown = (g->merged[i] != 0) | (e->merged[i] != 0);
  const double least = ns_max(ns_min(g->sigma[i], e->sigma[i]), 1e-9);
  return clamped(2 - 2 * (grown ? boxes : gap[i]) / least);
}

/* Two that are wholly one take the box around both. */
NS_INLINE void join(struct work *w, int p, int q) {
  struct cut *g = &w->cut[p], *e = &w->cut[q];
  const double *restrict gap = w->gap[pair_of(p, q)];
  ns_lane near;
  LANES(i) near[i] = weight_of(g, e, gap, i) >= 1 ? 1 : 0;
  if (!any(near)) return;
  LANES(i) {
    const bool on = near[i] != 0;
    const double g1 = ns_min(g->g1[i], e->g1[i]);
    const double g2 = ns_max(g->g2[i], e->g2[i]);
    const double h1 = ns_min(g->h1[i], e->h1[i]);
    const double h2 = ns_max(g->h2[i], e->h2[i]);
    const double voice = ns_min(g->voice[i], e->voice[i]);
    const double opening = ns_max(g->opening[i], e->opening[i]);
    g->g1[i] = on ? g1 : g->g1[i];
    e->g1[i] = on ? g1 : e->g1[i];
    g->g2[i] = on ? g2 : g->g2[i];
    e->g2[i] = on ? g2 : e->g2[i];
    g->h1[i] = on ? h1 : g->h1[i];
    e->h1[i] = on ? h1 : e->h1[i];
    g->h2[i] = on ? h2 : g->h2[i];
    e->h2[i] = on ? h2 : e->h2[i];
    g->voice[i] = on ? voice : g->voice[i];
    e->voice[i] = on ? voice : e->voice[i];
    g->opening[i] = on ? opening : g->opening[i];
    e->opening[i] = on ? opening : e->opening[i];
    g->merged[i] = on ? 1 : g->merged[i];
    e->merged[i] = on ? 1 : e->merged[i];
  }
  LANES(i) {
    const bool on = near[i] != 0;
    const double along = ns_min(g->g2[i] - g->g1[i], w->J[d][i]);
    const double size =
        ns_max(g->h2[i] - g->h1[i], g->opening[i] != 0 ? along : 0);
    g->sigma[i] = on ? size : g->sigma[i];
    e->sigma[i] = on ? size : e->sigma[i];
  }
}

/* The box that a cut is checked with begins as its group's, which is worked
 * over its length as a slot is. */
NS_INLINE void close_group(struct cut *g) {
  LANES(i) {
    const bool group = g->merged[i] != 0;
    const double long_ = g->g2[i] - g->g1[i];
    g->tie[i] = group ? long_ : g->tie[i];
    g->frame[i] = group ? long_ : g->frame[i];
    g->r1[i] = group ? g->g1[i] : g->r1[i];
    g->r2[i] = group ? g->g2[i] : g->r2[i];
    g->between[i] = group ? 0 : g->between[i];
    g->side[i] = ns_max(g->h2[i] - g->h1[i], long_);
    g->b1[i] = g->g1[i];
    g->b2[i] = g->g2[i];
    g->e1[i] = g->h1[i];
    g->e2[i] = g->h2[i];
  }
}

NS_INLINE double moved(double part, double from, double to) {
  return from + part * (to - from);
}

/* Cut c leans on what is near it but not one with it: each edge goes the
 * furthest way that any of them draws it. */
NS_INLINE void lean(struct work *w, int c) {
  struct cut *g = &w->cut[c];
  ns_lane r1, r2;
  ns_copy(r1, g->r1);
  ns_copy(r2, g->r2);
  for (int n = 0; n < CUTS; n++) {
    if (n == c) continue;
    const struct cut *e = &w->cut[n];
    const double *restrict gap = w->gap[pair_of(c, n)];
    LANES(i) {
      const bool same = g->voice[i] == e->voice[i];
      const double f = same ? 0 : weight_of(g, e, gap, i);
      const double x1 = ns_min(g->g1[i], e->g1[i]);
      const double x2 = ns_max(g->g2[i], e->g2[i]);
      const double y1 = ns_min(g->h1[i], e->h1[i]);
      const double y2 = ns_max(g->h2[i], e->h2[i]);
      g->b1[i] = ns_min(g->b1[i], moved(f, g->g1[i], x1));
      g->b2[i] = ns_max(g->b2[i], moved(f, g->g2[i], x2));
      g->e1[i] = ns_min(g->e1[i], moved(f, g->h1[i], y1));
      g->e2[i] = ns_max(g->e2[i], moved(f, g->h2[i], y2));
      g->r1[i] = ns_min(g->r1[i], moved(f, r1[i], x1));
      g->r2[i] = ns_max(g->r2[i], moved(f, r2[i], x2));
      g->weight[i] = ns_max(g->weight[i], f);
    }
  }
  LANES(i) {
    const bool near = g->weight[i] > 0;
    const double own = g->g2[i] - g->g1[i], left = 1 - g->weight[i];
    const double long_ = g->b2[i] - g->b1[i];
    const double L = long_ - left * (own - g->tie[i]);
    const double a = long_ - left * (own - g->frame[i]);
    g->tie[i] = near ? L : g->tie[i];
    g->frame[i] = near ? a : g->frame[i];
    g->between[i] = near ? 1 : g->between[i];
  }
}

NS_INLINE void merge(struct work *w) {
  ns_lane near;
  ns_fill(near, 0);
  for (int p = 0; p < CUTS; p++)
    for (int q = p + 1; q < CUTS; q++) {
      const double *restrict gap = w->gap[pair_of(p, q)];
      const double *restrict s = w->cut[p].sigma, *restrict t = w->cut[q].sigma;
      LANES(i) near[i] = gap[i] < ns_min(s[i], t[i]) ? 1 : near[i];
    }
  const bool some = any(near);
  for (int pass = 1; some && pass < CUTS; pass++)
    for (int p = 0; p < CUTS; p++)
      for (int q = p + 1; q < CUTS; q++) join(w, p, q);
  for (int c = 0; c < CUTS; c++) close_group(&w->cut[c]);
  for (int c = 0; some && c < CUTS; c++) lean(w, c);
}

/* A hole entered twice; the other cuts are of different kinds. */
NS_INLINE void refuse_twins(struct work *w) {
  const struct cut *p = &w->cut[HOLE_1], *q = &w->cut[HOLE_2];
  LANES(i) {
    const bool over =
        (p->x1[i] >= q->x1[i] - 1e-6) & (p->x2[i] <= q->x2[i] + 1e-6);
    const bool under =
        (q->x1[i] >= p->x1[i] - 1e-6) & (q->x2[i] <= p->x2[i] + 1e-6);
    const bool touch = (p->y1[i] < q->y2[i]) & (q->y1[i] < p->y2[i]);
    w->ok[i] = (over | under) & touch ? 0 : w->ok[i];
  }
}

NS_INLINE void place_cuts(struct work *w) {
  place_hole(w, HOLE_1);
  place_hole(w, HOLE_2);
  place_notch(w);
  place_slot(w);
  for (int p = 0; p < CUTS; p++)
    for (int q = p + 1; q < CUTS; q++) find_gap(w, p, q);
  merge(w);
  refuse_twins(w);
}

/* ---- sections ---- */

/* Bands that are gone, with the longer side of each: the cut's own or the
 * lowest, and all others as one. */
struct bands {
  double y1, y2, size, z1, z2, side;
};

NS_INLINE struct bands add_band(struct bands o, double low, double high,
                                double size, double depth, bool on,
                                bool sorted) {
  low = ns_max(low, 0);
  high = ns_min(high, depth);
  on = on & (high > low);
  const bool none = o.y2 <= o.y1, same = (o.y1 == low) & (o.y2 == high);
  const bool swap = sorted & on & !none & !same & (low < o.y1);
  const bool first = (on & none) | swap, rest = on & !none & !same;
  const double p1 = swap ? o.y1 : low, p2 = swap ? o.y2 : high;
  const double of = swap ? o.size : size;
  const bool more = o.z2 > o.z1;
  struct bands n;
  n.z1 = !rest ? o.z1 : more ? ns_min(o.z1, p1) : p1;
  n.z2 = !rest ? o.z2 : more ? ns_max(o.z2, p2) : p2;
  n.side = !rest ? o.side : more ? ns_max(o.side, of) : of;
  n.y1 = first ? low : o.y1;
  n.y2 = first ? high : o.y2;
  n.size = first ? size : on & same ? ns_max(o.size, size) : o.size;
  return n;
}

/* A band whose edges moved may reach into one over or under it: both are one
 * then. */
NS_INLINE struct bands join_bands(struct bands o) {
  const bool apart = (o.z2 <= o.z1) | (o.z1 > o.y2) | (o.z2 < o.y1);
  const double y1 = ns_min(o.y1, o.z1), y2 = ns_max(o.y2, o.z2);
  const double size = ns_max(ns_max(o.size, o.side), y2 - y1);
  if (apart) return o;
  return (struct bands){y1, y2, size, 0, 0, o.side};
}

/* S at the bottom edge of a strip one inch wide: s below, u above, H deep. */
NS_INLINE double S_bottom(double s, double u, double H) {
  const double v = H - u, Q = s * s / 2 + u * (H - u / 2);
  const double J = (s * s * s + H * H * H - v * v * v) / 3;
  return Q > 0 ? J * (s + u) / Q - Q : 0;
}

NS_INLINE double kern_root(double u, double H, double s) {
  const double v = H - u, Q = 6 * u * (H - u / 2);
  const double J = 2 * (H * H * H - v * v * v);
#define STEP s = s - (s * s * s + Q * s - J) / (3 * s * s + Q + 1e-300)
  STEP;
  STEP;
  STEP;
  STEP;
  STEP;
  STEP;
#undef STEP
  return s;
}

/* Least S at the bottom edge over the openings within s..H-u. */
NS_INLINE double least_bottom(double s, double u, double H) {
  const double top = H - u, k = kern_root(u, H, top);
  const double t = s + H - sqrt(2 * s * H);
  const double grown = S_bottom(s, H - t, H), kern = S_bottom(k, u, H);
  double least = ns_min(H * H / 6, S_bottom(s, u, H));
  least = (t > s) & (t < top) ? ns_min(least, grown) : least;
  return (k > s) & (k < top) ? ns_min(least, kern) : least;
}

struct lip {
  double y, I;
};

/* Centroid from the edge of a lip, and I, where it feels most of M. */
NS_INLINE struct lip lip_section(double h, double u, double H) {
  const double t = h + H - sqrt(2 * h * H);
  const double u2 = (t > h) & (t < H - u) ? H - t : u;
  const double A = h + u2, Q = h * h / 2 + u2 * (H - u2 / 2), v = H - u2;
  const double J = (h * h * h + H * H * H - v * v * v) / 3;
  const double y = A > 0 ? Q / A : 0;
  return (struct lip){y, J - Q * y};
}

struct two {
  double A, I, S;
};

/* Area, I and least S of the chords below and above one band, per inch. */
NS_INLINE struct two two_chords(double hb, double ht, double H) {
  const double A = hb + ht, v = H - ht, Q = hb * hb / 2 + ht * (H - ht / 2);
  const bool some = A > 0;
  const double y = some ? Q / (some ? A : 1) : 0;
  const double I = (hb * hb * hb + H * H * H - v * v * v) / 3 - Q * y;
  const double Sb = I / (hb > 0 ? y : some ? y - v : 1);
  const double St = I / (some ? (ht > 0 ? H : hb) - y : 1);
  return (struct two){A, some ? I : 0, some ? ns_min(Sb, St) : 0};
}

/* Wood that counts is this deep, beside an opening of a size. */
NS_INLINE double lip_limit(double H, double size) {
  return ns_min(ns_max(1, H / 8), size);
}

/* What counts of the wood beside a band. */
NS_INLINE double counted(double wood, double lip) {
  return wood < lip - 1e-9 ? 0 : wood;
}

/* Three chords about two bands, the second over or under the first; a lip too
 * thin to count goes with its opening. */
struct three {
  double h1, h2, h3, I, S, A, y;
  bool over;
};

NS_INLINE struct three three_chords(double hb, double ht, double H,
                                    struct bands o) {
  struct three r;
  const double far = lip_limit(H, o.side) - 1e-9;
  const double lip = ns_min(lip_limit(H, o.size) - 1e-9, far);
  r.over = o.z1 >= o.y2;
  const double z1 = !r.over & (o.z1 < far) ? 0 : o.z1;
  const double z2 = r.over & (H - o.z2 < far) ? H : o.z2;
  r.h1 = r.over ? hb : z1;
  r.h3 = r.over ? H - z2 : ht;
  const double wood = r.over ? z1 - o.y2 : o.y1 - z2;
  r.h2 = wood < lip ? 0 : wood;
  const double c1 = r.h1 / 2, c3 = H - r.h3 / 2;
  const double c2 = (r.over ? z1 + o.y2 : o.y1 + z2) / 2;
  const double A = r.h1 + r.h2 + r.h3;
  const bool some = A > 0;
  const double Q = r.h1 * c1 + r.h2 * c2 + r.h3 * c3;
  r.y = some ? Q / (some ? A : 1) : 0;
  const double own =
      r.h1 * r.h1 * r.h1 + r.h2 * r.h2 * r.h2 + r.h3 * r.h3 * r.h3;
  const double I = own / 12 + r.h1 * (r.y - c1) * (r.y - c1) +
                   r.h2 * (r.y - c2) * (r.y - c2) +
                   r.h3 * (r.y - c3) * (r.y - c3);
  const double low = r.h1 > 0 ? 0 : r.h2 > 0 ? c2 - r.h2 / 2 : H - r.h3;
  const double high = r.h3 > 0 ? H : r.h2 > 0 ? c2 + r.h2 / 2 : r.h1;
  const double Sb = I / (some ? r.y - low : 1);
  const double St = I / (some ? high - r.y : 1);
  const double big = ns_max(r.h1, ns_max(r.h2, r.h3));
  r.I = some ? I : 0;
  r.S = some ? ns_min(Sb, St) : 0;
  r.A = some ? own / (some ? big * big : 1) : 0;
  return r;
}

/* 1/A_v goes from 1/A to 1/A_h as the opening grows to twice the length of the
 * shallower chord's depth. */
NS_INLINE double chord_shear(double hb, double ht, double A, double H,
                             double L) {
  const double m = ns_min(hb, ht), most = ns_max(hb, ht);
  const double least = 1.2599210498948732 * m; /* cube root of 2 */
  const double big = most >= least ? most : ns_min(least, H - m);
  const double A_h = big + m * m * m / (big > 0 ? big * big : 1);
  const double part = clamped(L / (2 * (m > 0 ? m : 1)));
  const bool chords = (m > 0) & (A_h < A) & (part > 0);
  const double by_part =
      1 / ((1 - part) / (chords ? A : 1) + part / (chords ? A_h : 1));
  return chords ? by_part : A;
}

/* A second band over or under the first. */
NS_INLINE void add_second(struct work *w, int c, double z[6][NS_LANES],
                          double *restrict least, double *restrict A) {
  struct section *o = &w->section[c];
  LANES(i) {
    const double H = w->J[d][i], wide = w->width[i];
    const struct bands n = {z[0][i], z[1][i], z[2][i],
                            z[3][i], z[4][i], z[5][i]};
    const bool two = n.z2 > n.z1;
    const struct three r = three_chords(o->hb[i], o->ht[i], H, n);
    const double outer_b = r.h1 > 0 ? r.h1 : r.over ? 0 : r.h2;
    const double outer_t = r.h3 > 0 ? r.h3 : r.over ? r.h2 : 0;
    const bool chords = two & (outer_b > 0) & (outer_t > 0);
    const double cb = chords ? outer_b : 0, ct = chords ? outer_t : 0;
    const double arm_b = r.y, arm_t = H - r.y, I = wide * r.I;
    const bool bends = chords & (r.I > 0);
    const double per = bends ? I : 1;
    const bool worse_b = bends & ((arm_b - cb / 2) / per >
                                  (o->lip_y[0][i] - cb / 2) / o->lip_I[0][i]);
    const bool worse_t = bends & ((arm_t - ct / 2) / per >
                                  (o->lip_y[1][i] - ct / 2) / o->lip_I[1][i]);
    const double thin_b = outer_b <= 0 ? 1 : 0, thin_t = outer_t <= 0 ? 1 : 0;
    o->thin[0][i] = two & !r.over ? thin_b : o->thin[0][i];
    o->thin[1][i] = two & r.over ? thin_t : o->thin[1][i];
    o->lip_y[0][i] = worse_b ? arm_b : o->lip_y[0][i];
    o->lip_I[0][i] = worse_b ? I : o->lip_I[0][i];
    o->lip_y[1][i] = worse_t ? arm_t : o->lip_y[1][i];
    o->lip_I[1][i] = worse_t ? I : o->lip_I[1][i];
    o->chord[0][i] = two ? cb : o->chord[0][i];
    o->chord[1][i] = two ? ct : o->chord[1][i];
    o->cm[i] = chords & ((r.over ? r.h3 : r.h1) > 0) ? r.h2 : 0;
    o->hb[i] = two ? r.h1 : o->hb[i];
    o->ht[i] = two ? r.h3 : o->ht[i];
    o->hm[i] = two ? r.h2 : 0;
    least[i] = two ? ns_min(least[i], r.S) : least[i];
    A[i] = two ? ns_min(A[i], r.A) : A[i];
  }
}

/* Own band of a cut, and those of others that stand over or under it; true
 * where there are any. */
NS_INLINE bool bands_of(const struct work *w, int c, double z[6][NS_LANES]) {
  const struct cut *g = &w->cut[c];
  ns_lane two;
  LANES(i) {
    z[0][i] = ns_max(g->e1[i], 0);
    z[1][i] = ns_min(g->e2[i], w->J[d][i]);
    z[2][i] = ns_max(g->e2[i] - g->e1[i], g->b2[i] - g->b1[i]);
    z[3][i] = z[4][i] = z[5][i] = two[i] = 0;
  }
  for (int e = 0; e < CUTS; e++) {
    if (e == c) continue;
    const struct cut *q = &w->cut[e];
    LANES(i) {
      const bool on = (q->g1[i] < g->g2[i]) & (q->g2[i] > g->g1[i]) &
                      (q->voice[i] != g->voice[i]);
      two[i] = on ? 1 : two[i];
    }
  }
  if (!any(two)) return false;
  for (int e = 0; e < CUTS; e++) {
    if (e == c) continue;
    const struct cut *q = &w->cut[e];
    LANES(i) {
      const bool on = (q->g1[i] < g->g2[i]) & (q->g2[i] > g->g1[i]) &
                      (q->voice[i] != g->voice[i]);
      const struct bands was = {z[0][i], z[1][i], z[2][i],
                                z[3][i], z[4][i], z[5][i]};
      const struct bands n = join_bands(
          add_band(was, q->h1[i], q->h2[i], q->side[i], w->J[d][i], on, false));
      z[0][i] = n.y1;
      z[1][i] = n.y2;
      z[2][i] = n.size;
      z[3][i] = n.z1;
      z[4][i] = n.z2;
      z[5][i] = n.side;
    }
  }
  return true;
}

NS_INLINE void cut_section(struct work *w, int c) {
  struct section *o = &w->section[c];
  ns_lane z[6], least, A, s_in, u_in, open;
  const bool second = bands_of(w, c, z);
  LANES(i) {
    const double H = w->J[d][i], lip = lip_limit(H, z[2][i]);
    const double s = z[0][i], u = H - z[1][i];
    const double hb = counted(s, lip), ht = counted(u, lip);
    const struct two net = two_chords(hb, ht, H);
    A[i] = chord_shear(hb, ht, net.A, H, w->cut[c].tie[i]);
    least[i] = net.S;
    o->hb[i] = hb;
    o->ht[i] = ht;
    o->hm[i] = o->cm[i] = 0;
    o->thin[0][i] = hb <= 0 ? 1 : 0;
    o->thin[1][i] = ht <= 0 ? 1 : 0;
    const double s2 = ns_max(s, lip), u2 = ns_max(u, lip);
    const bool within = s2 + u2 < H, both = within & (hb > 0) & (ht > 0);
    open[i] = within ? 1 : 0;
    s_in[i] = within ? s2 : H / 2;
    u_in[i] = within ? u2 : H / 2;
    o->chord[0][i] = both ? hb : 0;
    o->chord[1][i] = both ? ht : 0;
  }
  LANES(i) {
    const double H = w->J[d][i], s = s_in[i], u = u_in[i];
    const struct lip lower = lip_section(s, u, H);
    const struct lip upper = lip_section(u, s, H);
    const double inner = ns_min(least_bottom(s, u, H), least_bottom(u, s, H));
    o->lip_y[0][i] = lower.y;
    o->lip_I[0][i] = w->width[i] * lower.I;
    o->lip_y[1][i] = upper.y;
    o->lip_I[1][i] = w->width[i] * upper.I;
    least[i] = open[i] != 0 ? ns_min(least[i], inner) : least[i];
  }
  if (second) add_second(w, c, z, least, A);
  LANES(i) {
    o->least[i] = w->width[i] * least[i];
    o->av[i] = w->width[i] * A[i];
  }
}

/* ---- beam ---- */

/* Batcher's merge exchange (Knuth 5.2.2 M), all twelve that there always are in
 * registers. */
NS_INLINE void sort_breaks(struct work *w) {
  LANES(i) {
    double x[OWN_BREAKS];
    for (int k = 0; k < OWN_BREAKS; k++) x[k] = w->x[k][i];
      /* clang-format off */
#define SORT(p, q) {                                                           \
      const double low = ns_min(x[p], x[q]), high = ns_max(x[p], x[q]);        \
      x[p] = low, x[q] = high;                                                 \
    }
    SORT(0, 8) SORT(1, 9) SORT(2, 10) SORT(3, 11) SORT(0, 4) SORT(1, 5)
    SORT(2, 6) SORT(3, 7) SORT(4, 8) SORT(5, 9) SORT(6, 10) SORT(7, 11)
    SORT(0, 2) SORT(1, 3) SORT(4, 6) SORT(5, 7) SORT(8, 10) SORT(9, 11)
    SORT(2, 8) SORT(3, 9) SORT(2, 4) SORT(3, 5) SORT(6, 8) SORT(7, 9)
    SORT(0, 1) SORT(2, 3) SORT(4, 5) SORT(6, 7) SORT(8, 9) SORT(10, 11)
    SORT(1, 8) SORT(3, 10) SORT(1, 4) SORT(3, 6) SORT(5, 8) SORT(7, 10)
    SORT(1, 2) SORT(3, 4) SORT(5, 6) SORT(7, 8) SORT(9, 10)
#undef SORT
        /* clang-format on */
        for (int k = 0; k < OWN_BREAKS; k++) w->x[k][i] = x[k];
  }
}

/* One more where it belongs: where M and V are read off a cut's edges. */
NS_INLINE void add_break(struct work *w, const double *restrict at) {
  ns_lane x;
  LANES(i) x[i] = ns_min(ns_max(at[i], 0), w->J[span][i]);
  for (int k = 0; k < w->breaks; k++)
    LANES(i) {
      const double low = ns_min(w->x[k][i], x[i]);
      x[i] = ns_max(w->x[k][i], x[i]);
      w->x[k][i] = low;
    }
  ns_copy(w->x[w->breaks++], x);
}

NS_INLINE void set_breaks(struct work *w) {
  const double *restrict L = w->J[span];
  ns_fill(w->x[0], 0);
  ns_copy(w->x[1], L);
  for (int c = 0; c < CUTS; c++)
    LANES(i) {
      w->x[2 + c][i] = ns_min(ns_max(w->cut[c].x1[i], 0), L[i]);
      w->x[6 + c][i] = ns_min(ns_max(w->cut[c].x2[i], 0), L[i]);
    }
  for (int c = HOLE_1; c <= HOLE_2; c++)
    LANES(i) w->x[10 + c][i] = ns_min(ns_max(w->cut[c].xc[i], 0), L[i]);
  sort_breaks(w);
  w->breaks = OWN_BREAKS;
  for (int c = 0; c < CUTS; c++)
    if (any(w->cut[c].between)) {
      add_break(w, w->cut[c].r1);
      add_break(w, w->cut[c].r2);
    }
  w->segments = w->breaks - 1;
  for (int k = 0; k < w->breaks; k++)
    LANES(i) w->past[k][i] = w->x[k][i] >= L[i] ? 1 : 0;
  for (int k = 0; k < w->segments; k++)
    LANES(i) {
      w->h[k][i] = w->x[k + 1][i] - w->x[k][i];
      w->mid[k][i] = (w->x[k][i] + w->x[k + 1][i]) / 2;
    }
  LANES(i) {
    w->w[0][i] = w->J[dead][i] * w->J[spacing][i] / 144;
    w->w[1][i] = w->J[live][i] * w->J[spacing][i] / 144;
  }
}

/* Stiffness of both states, segment by segment; one that is cut through counts
 * as whole. */
NS_INLINE void set_stiffness(struct work *w) {
  for (int k = 0; k < w->segments; k++) {
    ns_lane z[6], two;
    LANES(i) {
      struct bands n = {0, 0, 0, 0, 0, 0};
      const double mid = w->mid[k][i], H = w->J[d][i];
      const struct cut *g = w->cut;
#define ADD(c)                                                                 \
  n = add_band(n, g[c].h1[i], g[c].h2[i], g[c].side[i], H,                     \
               (mid > g[c].g1[i]) & (mid < g[c].g2[i]), true)
      ADD(HOLE_1);
      ADD(HOLE_2);
      ADD(NOTCH);
      ADD(SLOT);
#undef ADD
      z[0][i] = n.y1;
      z[1][i] = n.y2;
      z[2][i] = n.size;
      z[3][i] = n.z1;
      z[4][i] = n.z2;
      z[5][i] = n.side;
      two[i] = n.z2 > n.z1 ? 1 : 0;
    }
    LANES(i) {
      const double H = w->J[d][i], lip = lip_limit(H, z[2][i]);
      const double wide = w->width[i], gross = wide * (H * H * H / 12);
      const double hb = counted(z[0][i], lip), ht = counted(H - z[1][i], lip);
      const double I = wide * two_chords(hb, ht, H).I;
      const double net = (z[1][i] > z[0][i]) & (I > 0) ? I : gross;
      w->EI[0][k][i] = w->E_c[i] * gross;
      w->EI[1][k][i] = w->E_c[i] * net;
    }
    if (any(two))
      LANES(i) {
        const double H = w->J[d][i], lip = lip_limit(H, z[2][i]);
        const double wide = w->width[i], gross = wide * (H * H * H / 12);
        const double hb = counted(z[0][i], lip), ht = counted(H - z[1][i], lip);
        const struct bands n = {z[0][i], z[1][i], z[2][i],
                                z[3][i], z[4][i], z[5][i]};
        const double I = wide * three_chords(hb, ht, H, n).I;
        const double EI = w->E_c[i] * (I > 0 ? I : gross);
        w->EI[1][k][i] = two[i] != 0 ? EI : w->EI[1][k][i];
      }
  }
}

NS_INLINE void march_forces(struct work *w, int c) {
  const double *restrict L = w->J[span], *restrict q = w->w[c];
  ns_lane S0, S1, V, M;
  ns_fill(S0, 0);
  ns_fill(S1, 0);
  for (int k = 0; k < w->segments; k++)
    LANES(i) {
      const double h = w->h[k][i], W = h * q[i];
      const double Wx = w->x[k][i] * W + h * h * (q[i] / 2);
      S0[i] += W;
      S1[i] += Wx;
      w->W0[k][i] = W;
      w->W1[k][i] = Wx;
    }
  LANES(i) {
    V[i] = (L[i] * S0[i] - S1[i]) / L[i];
    M[i] = 0;
  }
  if (c == 0)
    LANES(i) {
      w->R[0][i] = V[i];
      w->R[1][i] = S0[i] - V[i];
    }
  for (int k = 0; k < w->breaks; k++) {
    LANES(i) {
      const bool past = w->past[k][i] != 0;
      w->VL[c][k][i] = k > 0 ? V[i] : 0;
      w->VR[c][k][i] = past ? 0 : V[i];
      w->M[c][k][i] = past ? 0 : M[i];
    }
    if (k < w->segments)
      LANES(i) {
        const double h = w->h[k][i];
        M[i] += h * (V[i] - h * (q[i] / 2));
        V[i] -= h * q[i];
      }
  }
}

/* Slope and sag of a state at each break, dead and live. */
NS_INLINE void march_sag(struct work *w, int state, int c) {
  const double *restrict q = w->w[c];
  ns_lane y, t;
  ns_fill(y, 0);
  ns_fill(t, 0);
  for (int k = 0; k < w->segments; k++)
    LANES(i) {
      const double h = w->h[k][i], hf = h / w->EI[state][k][i];
      const double M = w->M[c][k][i], V = w->VR[c][k][i];
      w->sag[c][k][i] = y[i];
      w->slope[c][k][i] = t[i];
      y[i] += h * (t[i] - hf * (M / 2 + h * (V / 6 - h * (q[i] / 24))));
      t[i] -= hf * (M + h * (V / 2 - h * (q[i] / 6)));
    }
  LANES(i) {
    w->sag[c][w->segments][i] = y[i];
    w->slope[c][w->segments][i] = t[i];
    y[i] /= w->J[span][i];
  }
  for (int k = 0; k < w->breaks; k++)
    LANES(i) {
      w->sag[c][k][i] -= y[i] * w->x[k][i];
      w->slope[c][k][i] -= y[i];
    }
}

/* ---- envelope ---- */

/* Sums over the segments of live load times a line. */
struct sums {
  ns_lane V, V_all, M, M_all, C;
};

/* Adds segment j, where the lines of V and M are vs x + vc and ms x + mc. */
NS_INLINE void add_segment(const struct work *w, int j, double inside,
                           const double *restrict vs, double vc,
                           const double *restrict ms, const double *restrict mc,
                           struct sums *o) {
  const double *restrict w0 = w->W0[j], *restrict w1 = w->W1[j];
  const double *restrict mid = w->mid[j];
  LANES(i) {
    const double v = vs[i] * w1[i] + vc * w0[i];
    const double m = ms[i] * w1[i] + mc[i] * w0[i];
    const double line = vs[i] * mid[i] + vc;
    const bool on = ms[i] * mid[i] + mc[i] + inside * line > 0;
    o->V[i] += line > 0 ? v : 0;
    o->V_all[i] += v;
    o->M[i] += on ? m : 0;
    o->M_all[i] += m;
    o->C[i] += on ? v : 0;
  }
}

/* Most and least of V and M of live load on one side of break k, and the shear
 * with each M. */
NS_INLINE void envelope_side(struct work *w, int k, int side) {
  const double inside = side == 1 ? INSIDE : -INSIDE;
  const double *restrict past = w->past[side == 1 ? k : k > 0 ? k - 1 : 0];
  ns_lane vs, left, right, none;
  struct sums o;
  memset(&o, 0, sizeof o);
  ns_fill(none, 0);
  LANES(i) {
    const double L = w->J[span][i], x = w->x[k][i];
    vs[i] = -1 / L;
    right[i] = (L - x) / L;
    left[i] = -x / L;
  }
  for (int j = 0; j < k; j++) add_segment(w, j, inside, vs, 0, right, none, &o);
  for (int j = k; j < w->segments; j++)
    add_segment(w, j, inside, vs, 1, left, w->x[k], &o);
  LANES(i) {
    const bool on = past[i] == 0;
    w->E_V[side][0][k][i] = on ? o.V[i] : 0;
    w->E_V[side][1][k][i] = on ? o.V_all[i] - o.V[i] : 0;
    w->E_M[side][0][k][i] = on ? o.M[i] : 0;
    w->E_M[side][1][k][i] = on ? o.M_all[i] - o.M[i] : 0;
    w->E_C[side][0][k][i] = on ? o.C[i] : 0;
    w->E_C[side][1][k][i] = on ? o.V_all[i] - o.C[i] : 0;
  }
}

NS_INLINE void no_left(struct work *w) {
  for (int g = 0; g < 2; g++) {
    ns_fill(w->E_V[0][g][0], 0);
    ns_fill(w->E_M[0][g][0], 0);
    ns_fill(w->E_C[0][g][0], 0);
  }
}

NS_INLINE void envelope(struct work *w) {
  for (int k = 0; k < w->breaks; k++) {
    ns_lane end;
    envelope_side(w, k, 1);
    if (k == 0) {
      no_left(w);
      continue;
    }
    LANES(i) end[i] = (w->x[k][i] == 0) | (w->past[k][i] != 0) ? 1 : 0;
    const bool ends = any(end);
    if (ends) envelope_side(w, k, 0);
    if (k == w->breaks - 1) break;
    if (!ends) ns_fill(end, 0);
    for (int g = 0; g < 2; g++)
      LANES(i) {
        const bool two = end[i] != 0;
        w->E_V[0][g][k][i] = two ? w->E_V[0][g][k][i] : w->E_V[1][g][k][i];
        w->E_M[0][g][k][i] = two ? w->E_M[0][g][k][i] : w->E_M[1][g][k][i];
        w->E_C[0][g][k][i] = two ? w->E_C[0][g][k][i] : w->E_C[1][g][k][i];
      }
  }
}

/* Where M turns inside segment k: the cubic through both ends and slopes. */
NS_INLINE void cubic_peak(struct work *w, int c, int sign, int k) {
  const double way = sign == 0 ? 1 : -1;
  const double *restrict M = w->M_c[c][sign][k];
  const double *restrict M2 = w->M_c[c][sign][k + 1];
  double *restrict has = w->has[c][sign][k];
  ns_lane V0, V1;
  LANES(i) {
    V0[i] = w->VR[0][k][i] + g_L[c] * w->E_C[1][sign][k][i];
    V1[i] = w->VL[0][k + 1][i] + g_L[c] * w->E_C[0][sign][k + 1][i];
    has[i] = (way * V0[i] > 0) & (way * V1[i] < 0) & (w->h[k][i] > 0) ? 1 : 0;
  }
  w->peaks[c][sign][k] = any(has);
  if (!w->peaks[c][sign][k]) return;
  LANES(i) {
    const double h = has[i] != 0 ? w->h[k][i] : 1, rise = M2[i] - M[i];
    const double c2 = (3 * rise / h - 2 * V0[i] - V1[i]) / h;
    const double c3 = (V0[i] + V1[i] - 2 * rise / h) / (h * h);
    const double root = sqrt(ns_max(c2 * c2 - 3 * c3 * V0[i], 0));
    const double under = -c2 + way * root;
    const double x = ns_min(ns_max(under != 0 ? V0[i] / under : 0, 0), h);
    w->peak_at[c][sign][k][i] = w->x[k][i] + x;
    w->peak[c][sign][k][i] = M[i] + x * (V0[i] + x * (c2 + x * c3));
  }
}

/* M by sign and V by side in each combination, and the peaks of M. */
NS_INLINE void tabulate(struct work *w) {
  envelope(w);
  for (int c = 0; c < COMBOS; c++)
    for (int k = 0; k < w->breaks; k++) {
      const int side = k < w->segments;
      LANES(i) {
        const double D = w->M[0][k][i], VL = w->VL[0][k][i];
        const double VR = w->VR[0][k][i];
        w->M_c[c][0][k][i] = D + g_L[c] * w->E_M[side][0][k][i];
        w->M_c[c][1][k][i] = D + g_L[c] * w->E_M[side][1][k][i];
        w->V_c[c][0][k][i] = ns_max(ns_abs(VL + g_L[c] * w->E_V[0][0][k][i]),
                                    ns_abs(VL + g_L[c] * w->E_V[0][1][k][i]));
        w->V_c[c][1][k][i] = ns_max(ns_abs(VR + g_L[c] * w->E_V[1][0][k][i]),
                                    ns_abs(VR + g_L[c] * w->E_V[1][1][k][i]));
      }
    }
  for (int c = 0; c < COMBOS; c++)
    for (int sign = 0; sign < 2; sign++)
      for (int k = 0; k < w->segments; k++) cubic_peak(w, c, sign, k);
}

/* ---- checks of the whole joist ---- */

NS_INLINE void start_check(struct check *k, double binding) {
  ns_fill(k->ratio, -1);
  ns_fill(k->demand, 0);
  ns_fill(k->capacity, 0);
  ns_fill(k->at, 0);
  ns_fill(k->combo, 0);
  ns_fill(k->binding, binding);
}

NS_INLINE bool offer(struct check *k, int i, bool on, double demand,
                     double capacity, double at, int combo) {
  const bool some = capacity > 0;
  const double none = demand > 0 ? NO_CAPACITY : 0;
  const double q = some ? demand / (some ? capacity : 1) : none;
  const double ratio = ns_min(q, NO_CAPACITY);
  const bool take = on & (ratio > k->ratio[i]);
  k->ratio[i] = take ? ratio : k->ratio[i];
  k->demand[i] = take ? demand : k->demand[i];
  k->capacity[i] = take ? capacity : k->capacity[i];
  k->at[i] = take ? at : k->at[i];
  k->combo[i] = take ? combo : k->combo[i];
  return take;
}

NS_INLINE double free_from(double from, double p, double q, double L) {
  double to = L;
  to = (p > from + 1e-9) & (p < to) ? p : to;
  to = (q > from + 1e-9) & (q < to) ? q : to;
  return (from >= 0) & (from < L) ? to - from : 0;
}

NS_INLINE void effective_length(struct work *w) {
  LANES(i) {
    const double p = w->J[blocking_1][i], q = w->J[blocking_2][i];
    const double L = w->J[span][i], D = w->J[d][i];
    const double longest =
        ns_max(free_from(0, p, q, L),
               ns_max(free_from(p, p, q, L), free_from(q, p, q, L)));
    const double u = w->J[sheathed][i] != 0 ? 0 : longest, r = u / D;
    const double long_ = r <= 14.3 ? 1.63 * u + 3 * D : 1.84 * u;
    const double l_e = r < 7 ? 2.06 * u : long_;
    w->l_e[i] = u > 0 ? l_e : 0;
  }
}

NS_INLINE void bending_values(struct work *w, const double *restrict Cr) {
  const bool free_edge = any(w->l_e);
  for (int c = 0; c < COMBOS; c++) {
    ns_lane CL;
    ns_fill(CL, 1);
    if (free_edge)
      LANES(i) {
        const double star = w->Fb_c[c][i] * Cr[i];
        const double RB2 = w->l_e[i] * w->J[d][i] / (w->width[i] * w->width[i]);
        const double r = 1.20 * w->Emin_c[i] / (RB2 > 0 ? RB2 : 1) / star;
        const double p = (1 + r) / 1.9;
        const double f = p - sqrt(ns_max(p * p - r / 0.95, 0));
        CL[i] = RB2 <= 0 ? 1 : RB2 > 2500 ? 1e-6 : f;
      }
    LANES(i) {
      const double star = w->Fb_c[c][i] * Cr[i];
      w->sign_Fb[c][0][i] = star * CL[i];
      w->sign_Fb[c][1][i] = star;
      w->star_Fb[c][0][i] = star * CL[i] / CL[i];
      w->star_Fb[c][1][i] = star;
    }
  }
}

NS_INLINE void worst_moments(struct work *w) {
  for (int c = 0; c < COMBOS; c++) {
    ns_lane M, at;
    ns_fill(M, 0);
    ns_fill(at, 0);
    for (int k = 0; k < w->breaks; k++) {
      LANES(i) {
        const double here = w->M_c[c][0][k][i];
        const bool more = here > M[i];
        M[i] = more ? here : M[i];
        at[i] = more ? w->x[k][i] : at[i];
      }
      if (k < w->segments && w->peaks[c][0][k])
        LANES(i) {
          const double peak = w->peak[c][0][k][i];
          const bool more = (w->has[c][0][k][i] != 0) & (peak > M[i]);
          M[i] = more ? peak : M[i];
          at[i] = more ? w->peak_at[c][0][k][i] : at[i];
        }
    }
    LANES(i) w->worst[c][i] = M[i] > 1e-6 ? M[i] : 0;
    ns_copy(w->worst_at[c], at);
  }
}

NS_INLINE void gross_bending(struct work *w, struct check *k) {
  start_check(k, 1);
  for (int c = 0; c < COMBOS; c++)
    LANES(i) {
      const double S = w->width[i] * w->J[d][i] * w->J[d][i] / 6;
      offer(k, i, true, w->worst[c][i], S * w->sign_Fb[c][0][i],
            w->worst_at[c][i], c);
    }
}

/* Shear on one side of a support, load within d of the face left out. */
NS_INLINE void shear_beside(struct work *w, int last, int side) {
  const double *restrict l_b = w->J[last ? bearing_right : bearing_left];
  const double way = side ? 1 : -1;
  ns_lane at, on, V_D, V_L, loaded;
  const int outer = last ? w->breaks - 1 : 0;
  LANES(i) {
    const double x = last ? w->J[span][i] : 0;
    at[i] = x + way * l_b[i] / 2 + way * w->J[d][i];
    V_D[i] = (side ? w->VR : w->VL)[0][outer][i];
    V_L[i] = w->E_V[side][!side][outer][i];
    loaded[i] = 0;
  }
  /* The inner of several breaks at the support. */
  for (int n = 1; n < w->breaks && last != side; n++) {
    const int k = last ? outer - n : n;
    LANES(i) on[i] = (last ? w->past[k][i] != 0 : w->x[k][i] == 0) ? 1 : 0;
    if (!any(on)) break;
    LANES(i) {
      V_D[i] = on[i] != 0 ? (side ? w->VR : w->VL)[0][k][i] : V_D[i];
      V_L[i] = on[i] != 0 ? w->E_V[side][!side][k][i] : V_L[i];
    }
  }
  for (int k = 0; k < w->segments; k++)
    LANES(i) {
      const double x = last ? w->J[span][i] : 0;
      const double p = side ? x : at[i], q = side ? at[i] : x;
      const double h = ns_min(w->x[k + 1][i], q) - ns_max(w->x[k][i], p);
      loaded[i] += ns_max(h, 0);
    }
  for (int c = 0; c < COMBOS; c++)
    LANES(i) {
      const double V = ns_max(way * (V_D[i] + g_L[c] * V_L[i]), 0) -
                       loaded[i] * (w->w[0][i] + g_L[c] * w->w[1][i]);
      offer(&w->shear, i, true, ns_max(V, 0),
            2.0 / 3 * w->Fv_c[c][i] * w->width[i] * w->J[d][i], at[i], c);
    }
}

NS_INLINE void gross_shear(struct work *w) {
  start_check(&w->shear, 1);
  shear_beside(w, 0, 0);
  shear_beside(w, 0, 1);
  shear_beside(w, 1, 0);
  shear_beside(w, 1, 1);
}

NS_INLINE void bearing(struct work *w, int last) {
  const double *restrict l_b = w->J[last ? bearing_right : bearing_left];
  struct check *k = &w->bearing[last];
  ns_lane most;
  ns_fill(most, 0);
  start_check(k, 1);
  for (int j = 0; j < w->segments; j++)
    LANES(i) {
      const double s = last ? 1 / w->J[span][i] : -1 / w->J[span][i];
      const double v = s * w->W1[j][i] + (last ? 0 : w->W0[j][i]);
      most[i] += s * w->mid[j][i] + (last ? 0 : 1) > 0 ? v : 0;
    }
  LANES(i) {
    const double D = w->R[last][i];
    const double R = ns_max(D + g_L[0] * most[i], D + g_L[1] * most[i]);
    offer(k, i, w->J[Fc_perp][i] > 0, R, w->perp[i] * w->width[i] * l_b[i],
          last ? w->J[span][i] : 0, COMBOS - 1);
  }
}

/* Where the slope turns, in one segment, as M > 0 all along. */
NS_INLINE void sag_inside(const struct work *w, int state,
                          const double *restrict D, double *restrict on,
                          double *restrict at, double *restrict sag) {
  ns_lane x, h, f, M, V, q, slope, y, lo, hi, z, moved;
  LANES(i) {
    on[i] = x[i] = h[i] = M[i] = V[i] = slope[i] = y[i] = 0;
    f[i] = 1;
    q[i] = D[i] * w->w[0][i] + w->w[1][i];
  }
  for (int k = 0; k < w->segments; k++)
    LANES(i) {
      const double t0 = D[i] * w->slope[0][k][i] + w->slope[1][k][i];
      const double t1 = D[i] * w->slope[0][k + 1][i] + w->slope[1][k + 1][i];
      const bool here = (t0 > 0) & (t1 < 0) & (w->h[k][i] > 0);
      const double m = D[i] * w->M[0][k][i] + w->M[1][k][i];
      const double v = D[i] * w->VR[0][k][i] + w->VR[1][k][i];
      const double s = D[i] * w->sag[0][k][i] + w->sag[1][k][i];
      on[i] = here ? 1 : on[i];
      x[i] = here ? w->x[k][i] : x[i];
      h[i] = here ? w->h[k][i] : h[i];
      f[i] = here ? w->EI[state][k][i] : f[i];
      M[i] = here ? m : M[i];
      V[i] = here ? v : V[i];
      slope[i] = here ? t0 : slope[i];
      y[i] = here ? s : y[i];
    }
  if (!any(on)) return;
  LANES(i) {
    f[i] = 1 / f[i];
    lo[i] = 0;
    hi[i] = h[i];
    z[i] = h[i] / 2;
    moved[i] = on[i];
  }
  for (int it = 0; it < 60 && any(moved); it++)
    LANES(i) {
      const double p = z[i];
      const double th =
          slope[i] - p * f[i] * (M[i] + p * (V[i] / 2 - p * (q[i] / 6)));
      const double rate = -f[i] * (M[i] + p * (V[i] - p * (q[i] / 2)));
      const double l = th > 0 ? p : lo[i], u = th > 0 ? hi[i] : p;
      const double n = p - th / (rate == 0 ? 1 : rate);
      const bool in = (rate != 0) & (n > l) & (n < u);
      const double to = in ? n : (l + u) / 2;
      lo[i] = l;
      hi[i] = u;
      z[i] = moved[i] != 0 ? to : p;
      moved[i] = ns_abs(to - p) < 1e-11 * (1 + u) ? 0 : moved[i];
    }
  LANES(i) {
    const double p = z[i];
    const double bend = M[i] / 2 + p * (V[i] / 6 - p * (q[i] / 24));
    at[i] = x[i] + p;
    sag[i] = y[i] + p * (slope[i] - p * f[i] * bend);
  }
}

NS_INLINE void deflection(struct work *w, int state, struct check *k,
                          const double *restrict D, const double *restrict n) {
  ns_lane most, where, on, at, sag;
  ns_fill(most, 0);
  ns_fill(where, 0);
  start_check(k, 1);
  for (int b_ = 0; b_ < w->breaks; b_++)
    LANES(i) {
      const double s = D[i] * w->sag[0][b_][i] + w->sag[1][b_][i];
      const bool more = (w->past[b_][i] == 0) & (s > most[i]);
      most[i] = more ? s : most[i];
      where[i] = more ? w->x[b_][i] : where[i];
    }
  sag_inside(w, state, D, on, at, sag);
  LANES(i) {
    const bool more = (on[i] != 0) & (sag[i] > most[i]);
    most[i] = more ? sag[i] : most[i];
    where[i] = more ? at[i] : where[i];
  }
  LANES(i) {
    const bool through = (state == 1) & (w->severed[i] != 0);
    const bool asked = (n[i] > 0) & !through;
    offer(k, i, asked, most[i], w->J[span][i] / (asked ? n[i] : 1), where[i],
          0);
  }
}

NS_INLINE double nominal(double size) {
  const double rest = size - (double)(int)size;
  return rest == 0.5 ? size + 0.5 : rest == 0.25 ? size + 0.75 : size;
}

NS_INLINE void stability(struct work *w) {
  start_check(&w->stability, 0);
  LANES(i) {
    const bool open = (w->J[sheathed][i] == 0) & (w->J[blocking_1][i] < 0) &
                      (w->J[blocking_2][i] < 0);
    const double ratio =
        nominal(w->J[d][i]) / (nominal(w->J[b][i]) * w->J[plies][i]);
    offer(&w->stability, i, true, ratio, open ? 4 : 6, 0, 0);
  }
}

/* ---- checks at the cuts ---- */

/* Worst of M by sign and of V at a cut, by combination. */
NS_INLINE void find_forces(struct work *w, int c) {
  const struct cut *g = &w->cut[c];
  const struct section *o = &w->section[c];
  double *restrict a = w->q_a[c], *restrict e = w->q_b[c];
  LANES(i) {
    const double L = w->J[span][i];
    a[i] = ns_min(ns_max(g->r1[i], 0), L);
    e[i] = ns_min(ns_max(g->r2[i], 0), L);
  }
  for (int q = 0; q < COMBOS; q++) {
    ns_fill(w->q_V[c][q], 0);
    ns_fill(w->q_V_at[c][q], 0);
    for (int sign = 0; sign < 2; sign++) {
      ns_fill(w->q_M[c][q][sign], 0);
      ns_fill(w->q_at[c][q][sign], 0);
    }
  }
  for (int k = 0; k < w->breaks; k++) {
    const double *restrict x = w->x[k];
    ns_lane in;
    LANES(i) in[i] = (x[i] >= a[i]) & (x[i] <= e[i]) ? 1 : 0;
    if (!any(in)) continue;
    for (int q = 0; q < COMBOS; q++) {
      double *restrict V = w->q_V[c][q], *restrict V_at = w->q_V_at[c][q];
      LANES(i) {
        const bool on = in[i] != 0, point = a[i] == e[i];
        const double l = w->V_c[q][0][k][i], r = w->V_c[q][1][k][i];
        const bool left = on & ((x[i] > a[i]) | point) & (l > V[i]);
        const double best = left ? l : V[i];
        const bool right = on & ((x[i] < e[i]) | point) & (r > best);
        V[i] = right ? r : best;
        V_at[i] = left | right ? x[i] : V_at[i];
      }
      for (int sign = 0; sign < 2; sign++) {
        const double way = sign ? -1 : 1;
        double *restrict M = w->q_M[c][q][sign];
        double *restrict at = w->q_at[c][q][sign];
        LANES(i) {
          const double m = way * w->M_c[q][sign][k][i];
          const bool more = (in[i] != 0) & (m > M[i]);
          M[i] = more ? m : M[i];
          at[i] = more ? x[i] : at[i];
        }
        if (k == w->segments || !w->peaks[q][sign][k < w->segments ? k : 0])
          continue;
        LANES(i) {
          const double m = way * w->peak[q][sign][k][i];
          const bool more = (in[i] != 0) & (w->has[q][sign][k][i] != 0) &
                            (w->x[k + 1][i] <= e[i]) & (m > M[i]);
          M[i] = more ? m : M[i];
          at[i] = more ? w->peak_at[q][sign][k][i] : at[i];
        }
      }
    }
  }
  for (int q = 0; q < COMBOS; q++) w->hogs[c][q] = any(w->q_M[c][q][1]);
  LANES(i) {
    const double sag = ns_max(w->q_M[c][0][0][i], w->q_M[c][1][0][i]);
    const double hog = ns_max(w->q_M[c][0][1][i], w->q_M[c][1][1][i]);
    const bool torn_b = sag > 1e-6, torn_t = hog > 1e-6;
    const bool gone = o->hb[i] + o->hm[i] + o->ht[i] <= 0;
    w->gone[c][i] = gone ? 1 : 0;
    w->severed[i] = gone & (g->voice[i] == c) ? 1 : w->severed[i];
    w->tau[c][0][i] = w->tau[c][1][i] = 0;
    w->torn[c][0][i] = torn_b ? 1 : 0;
    w->torn[c][1][i] = torn_t ? 1 : 0;
    w->tension[c][i] =
        ((o->thin[0][i] != 0) & torn_b) | ((o->thin[1][i] != 0) & torn_t) ? 1
                                                                          : 0;
  }
}

/* Where nothing is left that counts, a check says so. */
NS_INLINE void nothing_left(const struct work *w, int c, struct check *k,
                            const double *restrict on) {
  if (!any(w->gone[c])) return;
  LANES(i) {
    const bool gone = (w->gone[c][i] != 0) & (on[i] != 0);
    k->ratio[i] = gone ? NO_CAPACITY : k->ratio[i];
    k->demand[i] = gone ? 1 : k->demand[i];
    k->capacity[i] = gone ? 0 : k->capacity[i];
    k->at[i] = gone ? w->cut[c].xc[i] : k->at[i];
    k->binding[i] = gone ? 1 : k->binding[i];
  }
}

NS_INLINE double edge_stress(double M, double S) {
  const bool some = S > 0;
  return some ? M / (some ? S : 1) : M > 0 ? 1e9 : 0;
}

NS_INLINE void net_bending(struct work *w, int c, const double *restrict on) {
  struct check *k = &w->cuts[c].net_bending;
  start_check(k, 1);
  for (int q = 0; q < COMBOS; q++)
    for (int sign = 0; sign < 2; sign++) {
      if (sign == 1 && !w->hogs[c][q]) continue;
      LANES(i) {
        const double M = w->q_M[c][q][sign][i];
        const double raiser = w->tension[c][i] != 0 ? w->J[notch_raiser][i] : 1;
        offer(k, i, (on[i] != 0) & ((sign == 0) | (M > 0)),
              raiser * edge_stress(M, w->section[c].least[i]),
              w->sign_Fb[q][sign][i], w->q_at[c][q][sign][i], q);
      }
    }
  nothing_left(w, c, k, on);
}

NS_INLINE void net_shear(struct work *w, int c, const double *restrict on) {
  struct check *k = &w->cuts[c].net_shear;
  start_check(k, 1);
  for (int q = 0; q < COMBOS; q++)
    LANES(i)
      offer(k, i, on[i] != 0, w->q_V[c][q][i],
            2.0 / 3 * w->Fv_c[q][i] * w->section[c].av[i], w->q_V_at[c][q][i],
            q);
  nothing_left(w, c, k, on);
}

NS_INLINE void notch_shear(struct work *w, int c, const double *restrict on) {
  const struct section *o = &w->section[c];
  struct check *k = &w->cuts[c].notch_shear;
  w->cuts[c].has_notch_shear = any(on);
  if (!w->cuts[c].has_notch_shear) return;
  start_check(k, 1);
  for (int q = 0; q < COMBOS; q++)
    LANES(i) {
      const double d_n = o->hb[i] + o->hm[i] + o->ht[i];
      const double n = ns_max(d_n, 1e-9), r = d_n / w->J[d][i];
      const bool tapered =
          (c == NOTCH) & (w->J[taper_3][i] >= 10) & (w->cut[c].merged[i] == 0);
      const double v = 2.0 / 3 * w->Fv_c[q][i] * w->width[i];
      const bool squared = (w->tension[c][i] != 0) & !tapered;
      offer(k, i, on[i] != 0, w->q_V[c][q][i],
            squared ? v * n * r * r : v * d_n, w->q_V_at[c][q][i], q);
    }
  nothing_left(w, c, k, on);
}

/* Bending stress in the deepest chord for V = 1 over half the length. */
NS_INLINE void frame_stress(const struct work *w, int c,
                            double *restrict frame) {
  const struct section *o = &w->section[c];
  LANES(i) {
    const double p = o->chord[0][i], m = o->cm[i], t = o->chord[1][i];
    const double h = ns_max(ns_max(p, m), t);
    const double sum = w->width[i] * (p * p * p + m * m * m + t * t * t);
    const double f = 3 * w->cut[c].frame[i] * h / (sum > 0 ? sum : 1);
    frame[i] = sum > 0 ? f : 0;
  }
}

NS_INLINE void opening_frame(struct work *w, int c,
                             const double *restrict chorded,
                             const double *restrict frame) {
  struct check *k = &w->cuts[c].frame;
  ns_lane on;
  LANES(i) on[i] = (chorded[i] != 0) & (w->cut[c].frame[i] > 0) ? 1 : 0;
  w->cuts[c].has_frame = any(on);
  if (!w->cuts[c].has_frame) return;
  start_check(k, 1);
  for (int q = 0; q < COMBOS; q++)
    for (int sign = 0; sign < 2; sign++) {
      if (sign == 1 && !w->hogs[c][q]) continue;
      LANES(i) {
        const double M = w->q_M[c][q][sign][i];
        offer(k, i, (on[i] != 0) & ((sign == 0) | (M > 0)),
              edge_stress(M, w->section[c].least[i]) +
                  frame[i] * w->q_V[c][q][i],
              w->sign_Fb[q][sign][i], w->q_at[c][q][sign][i], q);
      }
    }
}

/* How far a chord is a tie or a strut; stresses in it for M = 1: direct, and in
 * bending. */
struct chord {
  ns_lane tau, direct, bend;
};

NS_INLINE void chord_of(struct work *w, int c, int face,
                        const double *restrict chorded, struct chord *o) {
  const struct section *n = &w->section[c];
  LANES(i) {
    const bool some = chorded[i] != 0;
    const double h = n->chord[face][i], I = ns_max(n->lip_I[face][i], 1e-9);
    const double tie = clamped(w->cut[c].tie[i] / (some ? h : 1) - 1);
    const double slim = clamped(2 - 4 * h / w->J[d][i]);
    o->tau[i] = some ? tie * slim : 0;
    o->direct[i] = (n->lip_y[face][i] - h / 2) / I;
    o->bend[i] = h / 2 / I;
    w->tau[c][face][i] = o->tau[i];
  }
}

NS_INLINE void lip_tension(struct work *w, int c,
                           const double *restrict chorded,
                           const double *restrict frame,
                           const struct chord *chord) {
  struct check *k = &w->cuts[c].tension;
  start_check(k, 1);
  for (int sign = 0; sign < 2; sign++)
    for (int q = 0; q < COMBOS; q++) {
      const struct chord *n = &chord[sign];
      if (sign == 1 && !w->hogs[c][q]) continue;
      LANES(i) {
        const double M = w->q_M[c][q][sign][i], star = w->star_Fb[q][sign][i];
        const double f_t = M * n->direct[i], tau = n->tau[i];
        const double f_b = M * n->bend[i] + w->q_V[c][q][i] * frame[i];
        const double plain = (f_t + f_b) / star;
        const double full = f_t / ns_max(w->Ft_c[q][i], 1e-9) + f_b / star;
        const bool known = (tau == 0) | (w->J[Ft][i] > 0);
        offer(k, i, (chorded[i] != 0) & known & ((sign == 0) | (M > 0)),
              plain + tau * ns_max(full - plain, 0), 1, w->q_at[c][q][sign][i],
              q);
      }
    }
}

/* NDS 3.7.1.5 and 3.9.2, CP in the form that keeps its digits. */
NS_INLINE double squeeze(double f_c, double f_b, double slender, double E_min,
                         double F, double F_b) {
  const double F_cE = 0.822 * E_min / (slender * slender);
  const double a = F_cE / ns_max(F, 1e-9), p = (1 + a) / 1.6;
  const double CP = a / 0.8 / (p + sqrt(ns_max(p * p - a / 0.8, 0)));
  const double F_c = ns_max(F * CP, 1e-9);
  const double left = 1 - f_c / F_cE, r = f_c / F_c;
  const bool stands = left > 1e-3;
  return stands ? r * r + f_b / F_b / (stands ? left : 1) : NO_CAPACITY;
}

NS_INLINE void chord_compression(struct work *w, int c,
                                 const double *restrict chorded,
                                 const double *restrict frame,
                                 const struct chord *chord) {
  const struct section *o = &w->section[c];
  struct check *k = &w->cuts[c].squeeze;
  start_check(k, 1);
  for (int sign = 0; sign < 2; sign++)
    for (int q = 0; q < COMBOS; q++) {
      const struct chord *n = &chord[!sign];
      if (sign == 1 && !w->hogs[c][q]) continue;
      LANES(i) {
        const double M = w->q_M[c][q][sign][i], Fb_s = w->sign_Fb[q][sign][i];
        const double f_c = M * n->direct[i], tau = n->tau[i];
        const double f_b = M * n->bend[i] + w->q_V[c][q][i] * frame[i];
        const double thin = ns_min(o->chord[!sign][i], w->width[i]);
        const double slender =
            ns_max(w->cut[c].tie[i] / ns_max(thin, 1e-9), 1e-6);
        const double plain = (f_c + f_b) / Fb_s;
        const double full =
            squeeze(f_c, f_b, slender, w->Emin_c[i], w->Fc_c[q][i], Fb_s);
        const bool given = (w->J[Fc][i] > 0) & (w->J[Emin][i] > 0);
        const bool known = (tau == 0) | given;
        offer(k, i, (chorded[i] != 0) & known & ((sign == 0) | (M > 0)),
              plain + tau * ns_max(full - plain, 0), 1, w->q_at[c][q][sign][i],
              q);
      }
    }
}

/* All of M and V on the wood that one side leaves; the chord in 'face' lost. */
NS_INLINE void one_chord(struct work *w, int c, int face, const double *on,
                         struct check *k) {
  const double *restrict rest = w->section[c].chord[!face];
  start_check(k, 1);
  for (int q = 0; q < COMBOS; q++) {
    for (int sign = 0; sign < 2; sign++) {
      if (sign == 1 && !w->hogs[c][q]) continue;
      LANES(i) {
        const double M = w->q_M[c][q][sign][i], h = rest[i];
        offer(k, i, (on[i] != 0) & ((sign == 0) | (M > 0)),
              edge_stress(M, w->width[i] * h * h / 6), w->sign_Fb[q][sign][i],
              w->q_at[c][q][sign][i], q);
      }
    }
    LANES(i) {
      const double h = rest[i];
      const double r = w->torn[c][face][i] != 0 ? h / w->J[d][i] : 1;
      const double A = w->width[i] * h * r * r;
      offer(k, i, on[i] != 0, w->q_V[c][q][i], 2.0 / 3 * w->Fv_c[q][i] * A,
            w->q_V_at[c][q][i], q);
    }
  }
}

/* Where the tie, the strut or the frame makes more of a ratio than one side
 * bears alone, that side alone counts. */
NS_INLINE void chord_alone(struct work *w, int c,
                           const double *restrict chorded) {
  struct cut_state *q = &w->cuts[c];
  struct check *k = &q->alone, other;
  struct check *both[] = {&q->net_bending, &q->net_shear, &q->tension,
                          &q->squeeze,     &q->frame,     &q->notch_shear};
  const bool has[] = {true, true, true, true, q->has_frame, q->has_notch_shear};
  ns_lane on, two, off;
  LANES(i) {
    const bool acts = (w->tau[c][0][i] > 0) | (w->tau[c][1][i] > 0) |
                      (w->cut[c].frame[i] > 0);
    on[i] = (chorded[i] != 0) & (w->section[c].cm[i] == 0) & acts ? 1 : 0;
    two[i] = 0;
  }
  q->has_alone = any(on);
  if (!q->has_alone) return;
  one_chord(w, c, 0, on, k);
  one_chord(w, c, 1, on, &other);
  for (int n = 0; n < 6; n++)
    if (has[n])
      LANES(i) two[i] = ns_max(two[i], both[n]->ratio[i]);
  LANES(i) {
    const bool less = other.ratio[i] < k->ratio[i];
    const double ratio = less ? other.ratio[i] : k->ratio[i];
    const bool written = (on[i] != 0) & (ratio < two[i]);
    off[i] = written ? 1 : 0;
    k->demand[i] = less ? other.demand[i] : k->demand[i];
    k->capacity[i] = less ? other.capacity[i] : k->capacity[i];
    k->at[i] = less ? other.at[i] : k->at[i];
    k->combo[i] = less ? other.combo[i] : k->combo[i];
    k->ratio[i] = written ? ratio : -1;
  }
  for (int n = 0; n < 6; n++)
    if (has[n])
      LANES(i) both[n]->binding[i] = off[i] != 0 ? 0 : both[n]->binding[i];
}

NS_INLINE void check_cut(struct work *w, int c) {
  const struct section *o = &w->section[c];
  struct cut_state *q = &w->cuts[c];
  struct chord chord[2];
  ns_lane voice, open, thin, chorded, frame;
  LANES(i) {
    const bool mine = w->cut[c].voice[i] == c;
    const bool is_open = mine & (w->cut[c].opening[i] != 0);
    voice[i] = mine ? 1 : 0;
    open[i] = is_open ? 1 : 0;
    thin[i] = mine & ((o->thin[0][i] != 0) | (o->thin[1][i] != 0)) ? 1 : 0;
    chorded[i] = is_open & (o->chord[0][i] > 0) ? 1 : 0;
  }
  net_bending(w, c, voice);
  notch_shear(w, c, thin);
  net_shear(w, c, open);
  q->has_chords = any(chorded);
  if (!q->has_chords) return;
  frame_stress(w, c, frame);
  opening_frame(w, c, chorded, frame);
  chord_of(w, c, 0, chorded, &chord[0]);
  chord_of(w, c, 1, chorded, &chord[1]);
  lip_tension(w, c, chorded, frame, chord);
  chord_compression(w, c, chorded, frame, chord);
  chord_alone(w, c, chorded);
}

/* ---- rules and action ---- */

NS_INLINE void judge(struct item *o, int i, double measured, double limit,
                     bool at_least, double *restrict within) {
  const double over = at_least ? limit - measured : measured - limit;
  o->measured[i] = measured;
  o->limit[i] = limit;
  o->ok[i] = over <= SLACK ? 1 : 0;
  within[i] = over <= SLACK ? within[i] : 0;
}

NS_INLINE void judge_opening(struct work *w, int c, struct item *o,
                             double *restrict within) {
  const struct cut *g = &w->cut[c];
  const int p = c == HOLE_1 ? HOLE_2 : HOLE_1, q = c == SLOT ? HOLE_2 : SLOT;
  const double *restrict gap_p = w->gap[pair_of(c, p)];
  const double *restrict gap_q = w->gap[pair_of(c, q)];
  const double *restrict to_notch = w->gap[pair_of(c, NOTCH)];
  LANES(i) {
    const double D = w->J[d][i];
    const double along =
        c == SLOT ? w->J[to_4][i] - w->J[from_4][i] : g->x2[i] - g->x1[i];
    judge(&o[0], i, ns_max(g->size[i], along), D / 3, false, within);
    judge(&o[1], i, g->y1[i], 2, true, within);
    judge(&o[2], i, D - g->y2[i], 2, true, within);
    judge(&o[3], i, ns_min(gap_p[i], gap_q[i]), 2, true, within);
    judge(&o[4], i, to_notch[i], 2, true, within);
  }
}

NS_INLINE void judge_notch(struct work *w, struct item *o,
                           double *restrict within) {
  LANES(i) {
    const double D = w->J[d][i];
    const double torn_b = w->torn[NOTCH][0][i], torn_t = w->torn[NOTCH][1][i];
    const double torn = w->J[top_3][i] != 0 ? torn_t : torn_b;
    judge(&o[0], i, w->cut[NOTCH].size[i], D / 6, false, within);
    judge(&o[1], i, w->J[to_3][i] - w->J[from_3][i], D / 3, false, within);
    judge(&o[2], i, w->reach[NOTCH][i], w->reach_L[NOTCH][i] / 3, false,
          within);
    judge(&o[3], i, torn != 0 ? w->J[b][i] : 0, 3.4999, false, within);
  }
}

NS_INLINE void read_rules(struct work *w) {
  ns_lane fits, out, unknown;
  ns_fill(out, 0);
  ns_fill(unknown, 0);
  for (int c = 0; c < CUTS; c++) {
    const struct cut *g = &w->cut[c];
    LANES(i) {
      const double L = w->J[span][i];
      const bool in = (g->xc[i] >= 0) & (g->xc[i] <= L);
      w->reach_L[c][i] = in ? L : 0;
      w->reach[c][i] = in ? ns_min(g->x2[i], L - g->x1[i]) : 0;
      fits[i] = 1;
    }
    if (c == NOTCH)
      judge_notch(w, &w->item[15], fits);
    else
      judge_opening(w, c, &w->item[5 * (c == SLOT ? 2 : c)], fits);
    LANES(i) {
      const bool covered =
          (w->reach_L[c][i] > 0) & !(w->q_M[c][COMBOS - 1][1][i] > 1e-6);
      out[i] = covered & (fits[i] == 0) ? 1 : out[i];
      unknown[i] = covered ? unknown[i] : 1;
    }
  }
  LANES(i) {
    w->within[i] = out[i] != 0 ? 0 : unknown[i] != 0 ? -1 : 1;
    judge(&w->item[19], i, w->J[bearing_left][i], 1.5, true, fits);
    judge(&w->item[20], i, w->J[bearing_right][i], 1.5, true, fits);
  }
}

/* What the gate, the tests and missing values say of a cut. */
NS_INLINE void read_gate(const struct work *w, int c, double *restrict barred,
                         double *restrict accepted, double *restrict lacking) {
  const struct cut *g = &w->cut[c];
  const struct section *o = &w->section[c];
  const bool hole = c != NOTCH;
  LANES(i) {
    const double D = w->J[d][i];
    const bool thin_b = o->thin[0][i] != 0, thin_t = o->thin[1][i] != 0;
    const bool top = w->J[top_3][i] != 0;
    const bool torn_b = w->torn[c][0][i] != 0, torn_t = w->torn[c][1][i] != 0;
    const bool torn_notch = (top & torn_t) | (!top & torn_b);
    const bool torn = hole ? w->tension[c][i] != 0 : torn_notch;
    const double from_edge = thin_b ? g->y2[i] : D - g->y1[i];
    const double size = hole & (thin_b | thin_t) ? from_edge : g->size[i];
    const bool middle = w->reach[c][i] > w->reach_L[c][i] * OUTER_PART + SLACK;
    const bool thick = torn & (w->J[b][i] >= THICK - SLACK);
    const bool deep = size > INNER_NOTCH * D + SLACK;
    const bool stop = (!hole | thin_b | thin_t) & (deep | middle | thick);
    const bool gone = w->gone[c][i] != 0;
    const bool by_reason =
        (!hole) & stop & (w->J[accept_3][i] == 1) & !(middle & torn);
    const bool tall =
        hole & !stop & !gone & (g->size[i] > TESTED_HOLE * D + SLACK);
    const bool under = w->tau[c][0][i] > 0, over = w->tau[c][1][i] > 0;
    const bool tie = (under & torn_b) | (over & torn_t);
    const bool strut = (over & torn_b) | (under & torn_t);
    const bool lacks =
        (tie & (w->J[Ft][i] <= 0)) | (strut & (w->J[Fc][i] <= 0));
    barred[i] = ((stop | gone) & !by_reason) | tall ? 1 : barred[i];
    accepted[i] = by_reason ? 1 : accepted[i];
    lacking[i] = lacks ? 1 : lacking[i];
  }
}

NS_INLINE void decide(struct work *w, const double *restrict ratio,
                      const double *restrict strength,
                      double *restrict action) {
  ns_lane barred, accepted, lacking;
  ns_fill(barred, 0);
  ns_fill(accepted, 0);
  ns_fill(lacking, 0);
  read_gate(w, HOLE_1, barred, accepted, lacking);
  read_gate(w, HOLE_2, barred, accepted, lacking);
  read_gate(w, NOTCH, barred, accepted, lacking);
  read_gate(w, SLOT, barred, accepted, lacking);
  LANES(i) {
    const bool weak = strength[i] > 1 + 1e-9, over = ratio[i] > 1 + 1e-9;
    const bool inside = (w->within[i] == 1) & (accepted[i] == 0);
    const bool lacks = lacking[i] != 0;
    const double settled = over ? NS_DECIDE : inside ? NS_LEAVE : NS_JUSTIFY;
    const double act = weak & !inside  ? NS_REPAIR
                       : !weak & lacks ? NS_REFER
                                       : settled;
    action[i] = barred[i] != 0 ? NS_REPAIR : act;
  }
}

/* ---- review ---- */

NS_INLINE void worst_of(const struct check *k, double *restrict worst) {
  LANES(i) {
    const double r = k->binding[i] != 0 ? k->ratio[i] : 0;
    worst[i] = ns_max(worst[i], r);
  }
}

/* Worst of the checks of the joist as a whole: deflection, and the others. */
NS_INLINE void whole_joist(struct work *w, int state, const double *restrict Cr,
                           double *restrict ratio, double *restrict strength) {
  struct state *o = &w->state[state];
  ns_lane none;
  ns_fill(none, 0);
  ns_fill(strength, 0);
  ns_fill(ratio, 0);
  bending_values(w, Cr);
  gross_bending(w, &o->bending);
  march_sag(w, state, 0);
  march_sag(w, state, 1);
  deflection(w, state, &o->sag[0], none, w->J[limit_live]);
  deflection(w, state, &o->sag[1], w->J[Kcr], w->J[limit_total]);
  worst_of(&o->bending, strength);
  worst_of(&w->shear, strength);
  worst_of(&w->bearing[0], strength);
  worst_of(&w->bearing[1], strength);
  worst_of(&o->sag[0], ratio);
  worst_of(&o->sag[1], ratio);
}

NS_INLINE void add_cut(struct work *w, int c, double *restrict strength) {
  struct cut_state *q = &w->cuts[c];
  check_cut(w, c);
  worst_of(&q->net_bending, strength);
  worst_of(&q->net_shear, strength);
  if (q->has_notch_shear) worst_of(&q->notch_shear, strength);
  if (!q->has_chords) return;
  if (q->has_frame) worst_of(&q->frame, strength);
  if (q->has_alone) worst_of(&q->alone, strength);
  worst_of(&q->tension, strength);
  worst_of(&q->squeeze, strength);
}

NS_INLINE void repetitive(const struct work *w, bool cut, double *restrict Cr) {
  LANES(i) {
    const bool row = (w->J[members][i] >= 3) & (w->J[spacing][i] <= 24 + 1e-9) &
                     (w->J[sheathed][i] != 0) & (w->J[b][i] <= 3.5) &
                     (!cut | (w->within[i] == 1));
    Cr[i] = w->J[pinned][i] > 0 ? w->J[pinned][i] : row ? 1.15 : 1;
  }
}

NS_CLONES static void uncut_of(struct work *w, const double *Cr, double *ratio,
                               double *strength) {
  whole_joist(w, 0, Cr, ratio, strength);
}

NS_CLONES static void cut_of(struct work *w, const double *Cr, double *ratio,
                             double *strength) {
  whole_joist(w, 1, Cr, ratio, strength);
}

/* Stages of their own, as compilers take long over one long function. */
NS_CLONES static void geometry_of(struct work *w, const double *low,
                                  const double *high) {
  check_ranges(w, low, high);
  set_sizes(w);
  place_cuts(w);
  adjust_values(w);
}

NS_CLONES static void section_of(struct work *w, int c) { cut_section(w, c); }

NS_CLONES static void beam_of(struct work *w) {
  set_breaks(w);
  set_stiffness(w);
  march_forces(w, 0);
  march_forces(w, 1);
}

NS_CLONES static void table_of(struct work *w) {
  tabulate(w);
  worst_moments(w);
}

NS_CLONES static void supports_of(struct work *w) {
  effective_length(w);
  gross_shear(w);
  bearing(w, 0);
  bearing(w, 1);
  stability(w);
}

NS_CLONES static void forces_of(struct work *w, int c) { find_forces(w, c); }

NS_CLONES static void rules_of(struct work *w) { read_rules(w); }

NS_CLONES static void hole_of(struct work *w, int c, double *strength) {
  add_cut(w, c, strength);
}

NS_CLONES static void notch_of(struct work *w, double *strength) {
  add_cut(w, NOTCH, strength);
}

NS_CLONES static void finish(struct work *w, const double *strength,
                             struct answers *out) {
  LANES(i) out->ratio[i] = ns_max(out->ratio[i], strength[i]);
  decide(w, out->ratio, strength, out->action);
  ns_copy(out->ok, w->ok);
}

static void review(struct work *w, const double *low, const double *high,
                   struct answers *out) {
  ns_lane Cr, strength;
  geometry_of(w, low, high);
  for (int c = 0; c < CUTS; c++) section_of(w, c);
  beam_of(w);
  table_of(w);
  supports_of(w);
  repetitive(w, false, Cr);
  uncut_of(w, Cr, out->uncut, strength);
  LANES(i) out->uncut[i] = ns_max(out->uncut[i], strength[i]);
  ns_fill(w->severed, 0);
  for (int c = 0; c < CUTS; c++) forces_of(w, c);
  rules_of(w);
  repetitive(w, true, Cr);
  cut_of(w, Cr, out->ratio, strength);
  hole_of(w, HOLE_1, strength);
  hole_of(w, HOLE_2, strength);
  notch_of(w, strength);
  hole_of(w, SLOT, strength);
  finish(w, strength, out);
}

/* ---- measurement ---- */

static struct work work;
static struct answers answers;

static void take(const double *joist, int lane) {
  for (int f = 0; f < FIELDS; f++) work.J[f][lane] = joist[f];
}

static double seconds_of(long count, const double *low, const double *high) {
  const clock_t from = clock();
  for (long k = 0; k < count; k++) {
    work.J[dead][0] = 10 + 1e-3 * (double)(k % 100);
    review(&work, low, high, &answers);
  }
  return (double)(clock() - from) / CLOCKS_PER_SEC;
}

/* Best rate of three in joists per second of CPU time. */
static double rate(const double *joist, const double *low, const double *high,
                   double seconds) {
  for (int i = 0; i < NS_LANES; i++) {
    take(joist, i);
    work.J[live][i] += i;
  }
  long count = 1;
  double took = seconds_of(count, low, high), best = 1e300;
  while (took < seconds / 10) took = seconds_of(count *= 2, low, high);
  count = (long)((double)count * seconds / took) + 1;
  for (int n = 0; n < 3; n++) best = ns_min(best, seconds_of(count, low, high));
  return (double)(count * NS_LANES) / best;
}

static void show_answers(const double *joists, int count, const double *low,
                         const double *high) {
  for (int from = 0; from < count; from += NS_LANES) {
    const int most = count - from < NS_LANES ? count - from : NS_LANES;
    for (int i = 0; i < NS_LANES; i++)
      take(joists + (size_t)FIELDS * (size_t)(from + (i < most ? i : 0)), i);
    review(&work, low, high, &answers);
    for (int i = 0; i < most; i++)
      if (answers.ok[i] != 0)
        printf("%.17g %.17g %g\n", answers.uncut[i], answers.ratio[i],
               answers.action[i]);
      else
        puts("-");
  }
}

int main(int argc, char **argv) {
  double head[2];
  FILE *file = argc == 3 ? fopen(argv[1], "rb") : NULL;
  if (!file || fread(head, sizeof *head, 2, file) != 2 || head[1] != FIELDS) {
    fputs(
        "usage: bench_fixed FILE SECONDS, FILE as bench_beside.lua writes it\n",
        stderr);
    return 1;
  }
  const int count = (int)head[0];
  const size_t all = (size_t)(count + 3) * FIELDS;
  double *table = malloc(all * sizeof *table);
  if (!table || fread(table, sizeof *table, all, file) != all) return 1;
  const double *low = table, *high = table + FIELDS;
  printf("%.17g %d\n", rate(table + 2 * FIELDS, low, high, atof(argv[2])),
         NS_LANES);
  show_answers(table + 3 * FIELDS, count, low, high);
  free(table);
  fclose(file);
  return 0;
}
