/* SPDX-License-Identifier: MIT
 * demand.c - M and V at a cut.
 *
 * A round hole is read at its center, where it is deepest, and as far beside it
 * as it acts as a frame; anything else over its whole length, and what leans on
 * a near cut as far as it does; M and V each at their worst. What a group is -
 * open, or a notch in the bottom or the top, or both where a lip is too thin to
 * count - is read off its box, lane by lane. */
#include "cuts/cuts.h"

/* The stretch over which a cut is read, and what its group is. */
NS_INLINE void stretch(const struct ns_work *w, int c, struct ns_demand *q) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  const struct ns_section *restrict o = &w->section[c];
  const struct ns_shape *s = w->shape;
  const bool box = s->cut[c].kind <= NS_END_NOTCH;
  const double *restrict first = w->uncut.x[0];
  const double *restrict last = w->uncut.x[w->uncut.breaks - 1];
  LANES(i) {
    q->a[i] = ns_min(ns_max(g->r1[i], first[i]), last[i]);
    q->b[i] = ns_min(ns_max(g->r2[i], first[i]), last[i]);
    const bool gone = o->h_b[i] + o->h_m[i] + o->h_t[i] <= 0;
    q->leader[i] = g->leader[i] == c ? 1 : 0;
    q->gone[i] = (g->leader[i] == c) & gone ? 1 : 0;
    q->below[i] = box & (o->gone_b[i] != 0) ? 1 : 0;
    q->above[i] = box & (o->gone_t[i] != 0) ? 1 : 0;
    q->open[i] = g->opening[i];
  }
  q->some_gone = ns_any(q->gone);
}

/* Keeps a larger M of a sign over the cut, in the lanes that are on. */
NS_INLINE void take_moment(struct ns_demand *q, int c, int sign,
                           const double *restrict in, const double *restrict m,
                           const double *restrict x) {
  const double way = sign ? -1 : 1;
  double *restrict M = q->M[c][sign], *restrict at = q->M_at[c][sign];
  LANES(i) {
    const bool more = (in[i] != 0) & (way * m[i] > M[i]);
    M[i] = more ? way * m[i] : M[i];
    at[i] = more ? x[i] : at[i];
  }
}

/* Lanes whose cut holds break k, and those where its left and its right side
 * are within the cut. */
struct within {
  ns_lane in, left, right;
};

/* Lanes in which break k lies within the cut; false where none does. */
NS_INLINE bool find_within(const struct ns_beam *s, int k,
                           const struct ns_demand *q, struct within *o) {
  const double *restrict x = s->x[k];
  LANES(i) {
    const bool at = (x[i] >= q->a[i]) & (x[i] <= q->b[i]);
    o->in[i] = at ? 1 : 0;
  }
  if (!ns_any(o->in)) return false;
  LANES(i) {
    const bool point = q->a[i] == q->b[i], at = o->in[i] != 0;
    o->left[i] = at & ((x[i] > q->a[i]) | point) ? 1 : 0;
    o->right[i] = at & ((x[i] < q->b[i]) | point) ? 1 : 0;
  }
  return true;
}

/* V of one side of break k, live load both ways. */
NS_INLINE void take_shear(struct ns_demand *q, int c, double gD, double gL,
                          const double *restrict in, const double *restrict D,
                          const struct ns_envelope *e,
                          const double *restrict x) {
  const double *restrict most = e->V[0], *restrict least = e->V[1];
  double *restrict V = q->V[c], *restrict at = q->V_at[c];
  double *restrict up = q->V_most, *restrict down = q->V_least;
  const bool live = gL > 0;
  LANES(i) {
    const bool on = in[i] != 0, all = on & live;
    const double hi = gD * D[i] + gL * most[i], lo = gD * D[i] + gL * least[i];
    const double size = ns_max(ns_abs(hi), ns_abs(lo));
    const bool more = on & (size > V[i]);
    const double high = ns_max(hi, lo), low = ns_min(hi, lo);
    V[i] = more ? size : V[i];
    at[i] = more ? x[i] : at[i];
    up[i] = all & (high > up[i]) ? high : up[i];
    down[i] = all & (low < down[i]) ? low : down[i];
  }
}

/* The peaks of segment k that are within the cut. */
NS_INLINE void take_peaks(const struct ns_beam *s, const struct ns_table *t,
                          int c, int k, struct ns_demand *q) {
  const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
  for (int sign = 0; sign < 2; sign++) {
    const double *restrict has = t->has_peak[c][sign][k];
    ns_lane in;
    if (!t->peaks[c][sign][k]) continue;
    LANES(i) {
      const bool on = (x[i] >= q->a[i]) & (x2[i] <= q->b[i]);
      in[i] = on & (has[i] != 0) ? 1 : 0;
    }
    take_moment(q, c, sign, in, t->peak[c][sign][k], t->peak_at[c][sign][k]);
  }
}

/* What break k and the segment after it make of M and V in a combination. */
NS_INLINE void take_break(const struct ns_work *w, const struct ns_beam *s,
                          const struct ns_table *t, int c, int k,
                          const struct within *at, struct ns_demand *q) {
  const double gD = w->standard->g_D[c], gL = w->standard->g_L[c];
  const bool end = k == s->breaks - 1;
  const double *restrict D = s->M[0][k], *restrict x = s->x[k];
  for (int sign = 0; sign < 2; sign++) {
    const double *restrict L = t->side[!end][k].M[sign];
    ns_lane v;
    LANES(i) v[i] = gD * D[i] + gL * L[i];
    take_moment(q, c, sign, at->in, v, x);
  }
  take_shear(q, c, gD, gL, at->left, s->VL[0][k], &t->side[0][k], x);
  take_shear(q, c, gD, gL, at->right, s->VR[0][k], &t->side[1][k], x);
  if (!end) take_peaks(s, t, c, k, q);
}

/* Worst M of each sign and V over the stretch, in each combination. */
NS_INLINE void find_demand(const struct ns_work *w, const struct ns_beam *s,
                           const struct ns_table *t, struct ns_demand *q) {
  const int combos = w->standard->combos;
  for (int k = 0; k < s->breaks; k++) {
    struct within at;
    if (!find_within(s, k, q, &at)) continue;
    for (int c = 0; c < combos; c++) take_break(w, s, t, c, k, &at, q);
  }
  for (int c = 0; c < combos; c++) q->hogs[c] = ns_any(q->M[c][1]);
}

/* V just inside the first (end 0) or the last bearing, all combinations, the
 * way that makes M > 0 there and the way that makes M < 0. */
NS_INLINE void end_shear(const struct ns_work *w, const struct ns_table *t,
                         int end, double *restrict up, double *restrict down) {
  const int j = end ? w->shape->spans : 0, side = end ? 0 : 1;
  const struct ns_envelope *e = &t->support[side][j];
  const double *restrict D = t->V_D[side][j];
  const double *restrict most = e->V[0], *restrict least = e->V[1];
  const double way = end ? -1 : 1;
  ns_fill(up, 0);
  ns_fill(down, 0);
  for (int k = 0; k < w->standard->combos; k++) {
    const double gD = w->standard->g_D[k], gL = w->standard->g_L[k];
    LANES(i) {
      const double a = way * (gD * D[i] + gL * most[i]);
      const double b = way * (gD * D[i] + gL * least[i]);
      up[i] = ns_max(up[i], ns_max(a, b));
      down[i] = ns_max(down[i], -ns_min(a, b));
    }
  }
}

/* Which faces are in tension. At the end of a joist M is nil at the bearing
 * and takes its sign from the shear just inside. */
NS_INLINE void tension_faces(const struct ns_work *w, const struct ns_table *t,
                             int c, struct ns_demand *q) {
  const struct ns_cut_geometry *g = &w->cut[c];
  ns_lane sag = {0}, hog = {0}, up[2], down[2];
  for (int end = 0; end < 2; end++) {
    const bool tip = end ? w->shape->right : w->shape->left;
    const double *restrict most = q->V_most, *restrict least = q->V_least;
    if (!tip && ns_any(g->ends[end])) {
      end_shear(w, t, end, up[end], down[end]);
    } else {
      LANES(i) {
        up[end][i] = end ? -least[i] : most[i];
        down[end][i] = end ? most[i] : -least[i];
      }
    }
  }
  for (int k = 0; k < w->standard->combos; k++) {
    const double *restrict M = q->M[k][0], *restrict M_hog = q->M[k][1];
    LANES(i) {
      sag[i] = ns_max(sag[i], M[i]);
      hog[i] = ns_max(hog[i], M_hog[i]);
    }
  }
  LANES(i) {
    const bool left = g->ends[0][i] != 0, right = g->ends[1][i] != 0;
    const double ups = left ? up[0][i] : right ? up[1][i] : 0;
    const double downs = left ? down[0][i] : right ? down[1][i] : 0;
    const bool bottom = ns_max(ups, sag[i]) > 1e-6;
    const bool top = ns_max(downs, hog[i]) > 1e-6;
    q->in_tension[0][i] = bottom ? 1 : 0;
    q->in_tension[1][i] = top ? 1 : 0;
    const bool in_tension =
        ((q->below[i] != 0) & bottom) | ((q->above[i] != 0) & top);
    q->tension_notch[i] = in_tension ? 1 : 0;
  }
}

/* Forces at the middle of a cut, in the lanes where break k is there. */
NS_INLINE void note_middle(struct ns_work *w, const struct ns_beam *s,
                           const struct ns_table *t, int c, int k) {
  struct ns_cut_result *o = &w->out->cuts[c];
  const int last = w->standard->all;
  const double g_D = w->standard->g_D[last], g_L = w->standard->g_L[last];
  ns_lane at;
  LANES(i) at[i] = s->x[k][i] == w->cut[c].xc[i] ? 1 : 0;
  if (!ns_any(at)) return;
  LANES(i) {
    const bool here = at[i] != 0;
    const double live = s->M[1][k][i] + s->M[2][k][i];
    const double D = g_D * s->VR[0][k][i];
    const double V = s->VR[1][k][i] + s->VR[2][k][i];
    const double M = g_D * s->M[0][k][i] + g_L * live;
    const double most = D + g_L * t->side[1][k].V[0][i];
    const double least = D + g_L * t->side[1][k].V[1][i];
    o->M_full[i] = here ? M : o->M_full[i];
    o->V_full[i] = here ? D + g_L * V : o->V_full[i];
    o->V_mid[0][i] = here ? most : o->V_mid[0][i];
    o->V_mid[1][i] = here ? least : o->V_mid[1][i];
  }
}

/* Forces at the cut for the report, all loads: worst, and at its middle. */
NS_INLINE void note_forces(struct ns_work *w, const struct ns_beam *s,
                           const struct ns_table *t, int c,
                           const struct ns_demand *q) {
  struct ns_cut_result *o = &w->out->cuts[c];
  const struct ns_standard *std = w->standard;
  const int last = std->all;
  LANES(i) {
    o->M[0][i] = q->M[last][0][i];
    o->M[1][i] = -q->M[last][1][i];
    o->V[0][i] = q->V_most[i];
    o->V[1][i] = q->V_least[i];
    o->M_full[i] = o->V_full[i] = o->V_mid[0][i] = o->V_mid[1][i] = 0;
    o->lip[0][i] = o->lip[1][i] = 0;
    o->tau[0][i] = o->tau[1][i] = 0;
  }
  for (int k = 0; k < s->breaks - 1; k++) note_middle(w, s, t, c, k);
  LANES(i) {
    /* The wood that is there, whether it counts or not. */
    const struct ns_section *n = &w->section[c];
    const double h_b = n->y1[i], h_t = n->H[i] - n->y2[i];
    const bool open = (q->open[i] != 0) & (h_b > 0) & (h_t > 0);
    const double z = n->H[i] - (h_b + h_t) / 2;
    const double M = ns_max(q->M[last][0][i], q->M[last][1][i]);
    o->lip[0][i] = o->lip[1][i] = open ? M / z : 0;
  }
}

/* M and V over cut c of a beam, and which of its faces are in tension. */
NS_CLONES void ns_cut_demand(struct ns_work *w, const struct ns_beam *s,
                             const struct ns_table *t, int c,
                             struct ns_demand *q) {
  const size_t combos = (size_t)w->standard->combos;
  memset(q->M, 0, sizeof q->M[0] * combos);
  memset(q->M_at, 0, sizeof q->M_at[0] * combos);
  memset(q->V, 0, sizeof q->V[0] * combos);
  memset(q->V_at, 0, sizeof q->V_at[0] * combos);
  ns_fill(q->V_most, 0);
  ns_fill(q->V_least, 0);
  q->s = s;
  q->t = t;
  stretch(w, c, q);
  find_demand(w, s, t, q);
  tension_faces(w, t, c, q);
}

/* M and V over every cut of the joist. */
NS_CLONES void ns_find_forces(struct ns_work *w) {
  const struct ns_beam *s = &w->after;
  const struct ns_table *t = &w->table[s->unknowns > 0];
  for (int c = 0; c < w->shape->cuts; c++) {
    struct ns_demand *q = &w->demand[c];
    ns_cut_demand(w, s, t, c, q);
    LANES(i) w->severed[i] = ns_max(w->severed[i], q->gone[i]);
    note_forces(w, s, t, c, q);
  }
}
