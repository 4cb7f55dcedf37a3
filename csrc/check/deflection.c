/* SPDX-License-Identifier: MIT
 * deflection.c - the deflection checks: where the joist sags most of its limit.
 *
 * The most is at a break or inside a segment whose slope turns. Breaks come
 * first; then the segments that turn, one of each lane at a time, so that one
 * search serves all lanes wherever theirs are. */
#include "check/check.h"

#include <stddef.h>

/* Deflection of weights a: dead, live on odd and on even regions; all of it
 * times 'live' in the end. */
struct weights {
  double odd, even;
  bool single; /* one region, which is odd */
  bool bare;   /* no dead load in any lane */
  ns_lane dead, live;
#if NS_SHEAR_SAGS
  /* What shear adds: u (M - M_0) + turn (x - x_0) by region, u = kappa/(G A);
   * nil at the supports. */
  ns_lane u, M_0[NS_MAX_SPANS + 2], x_0[NS_MAX_SPANS + 2];
  ns_lane turn[NS_MAX_SPANS + 2];
#endif
};

/* A row of all cases by their weights. */
NS_INLINE void blend(const struct weights *a, const ns_lane v[3][NS_MAX_BREAKS],
                     int k, double *restrict to) {
  const double *restrict D = v[0][k], *restrict odd = v[1][k];
  const double *restrict even = v[2][k], *restrict dead = a->dead;
  const bool one = a->single || a->odd == 0 || a->even == 0;
  const double *restrict live = a->single || a->even == 0 ? odd : even;
  if (one && a->bare)
    LANES(i) to[i] = live[i] + 0.0; /* as with nil times D */
  else if (one)
    LANES(i) to[i] = dead[i] * D[i] + live[i];
  else
    LANES(i) to[i] = dead[i] * D[i] + odd[i] + even[i];
}

/* A row of loads by their weights: live load counts by its region. */
NS_INLINE void blend_load(const struct ns_beam *s, const struct weights *a,
                          const ns_lane v[2][NS_MAX_BREAKS], int k,
                          double *restrict to) {
  const double *restrict D = v[0][k], *restrict L = v[1][k];
  const double *restrict region = s->region[k], *restrict dead = a->dead;
  const double g1 = a->odd, g2 = a->even;
  LANES(i) {
    const double r = region[i] / 2;
    const bool odd = r != (double)(int)r;
    to[i] = dead[i] * D[i] + (odd ? g1 : g2) * L[i];
  }
}

/* A number with what shear adds to it, where the family counts that. */
NS_INLINE double sheared(double plain, double more) {
  return NS_SHEAR_SAGS ? plain + more : plain;
}

#if NS_SHEAR_SAGS
/* What shear adds in region r: M_0 and x_0 at its support, and how it turns. */
NS_INLINE void shear_region(struct weights *a, int r, const double *M,
                            const double *x, const double *restrict turn) {
  ns_copy(a->M_0[r], M);
  ns_copy(a->x_0[r], x);
  LANES(i) a->turn[r][i] = turn[i];
}

/* A span turns as a whole so that shear moves neither support; an overhang
 * turns with the span beside it. */
static void lay_shear(const struct ns_work *w, const struct ns_beam *s,
                      struct weights *a) {
  ns_lane at[NS_MAX_SUPPORTS] = {{0}}, M, turn;
  const double *restrict G = w->in.joist[NS_J_G_mean];
  LANES(i) a->u[i] = NS_SHEAR_SHAPE / (G[i] * w->width[i] * w->depth[i]);
  for (int k = 0; k < s->breaks; k++) {
    blend(a, s->M, k, M);
    for (int j = 0; j <= s->spans; j++)
      LANES(i) at[j][i] = s->x[k][i] == s->support[j][i] ? M[i] : at[j][i];
  }
  for (int r = 1; r <= s->spans; r++) {
    const double *restrict x = s->support[r - 1], *restrict y = s->support[r];
    LANES(i) turn[i] = -a->u[i] * (at[r][i] - at[r - 1][i]) / (y[i] - x[i]);
    if (r == 1) shear_region(a, 0, at[0], s->support[0], turn);
    shear_region(a, r, at[r - 1], s->support[r - 1], turn);
  }
  shear_region(a, s->spans + 1, at[s->spans], s->support[s->spans], turn);
}

/* What shear adds at break k, 'of' the segment whose region counts: to the
 * sag, or to the slope right or left of it. */
NS_INLINE void add_shear(const struct ns_beam *s, const struct weights *a,
                         int k, int of, bool slope,
                         const ns_lane v[3][NS_MAX_BREAKS],
                         double *restrict to) {
  ns_lane now;
  blend(a, v, k, now);
  for (int r = 0; r <= s->spans + 1; r++)
    LANES(i) {
      const bool here = s->region[of][i] == r;
      const double sag = a->u[i] * (now[i] - a->M_0[r][i]) +
                         a->turn[r][i] * (s->x[k][i] - a->x_0[r][i]);
      const double more = slope ? a->u[i] * now[i] + a->turn[r][i] : sag;
      to[i] += here ? more : 0;
    }
}
#endif

/* Deflection at break k. */
NS_INLINE void blend_sag(const struct ns_beam *s, const struct weights *a,
                         int k, double *restrict to) {
  blend(a, s->sag, k, to);
#if NS_SHEAR_SAGS
  add_shear(s, a, k, k < s->breaks - 1 ? k : k - 1, false, s->M, to);
#endif
}

/* Slope at break k: that of the segment right of it, or left. */
NS_INLINE void blend_slope(const struct ns_beam *s, const struct weights *a,
                           int k, bool right, double *restrict to) {
  blend(a, s->slope, k, to);
#if NS_SHEAR_SAGS
  add_shear(s, a, k, right ? k : k - 1, true, right ? s->VR : s->VL, to);
#else
  (void)right;
#endif
}

/* Segments inside of which deflection is most, one a lane; the rest of the
 * lanes is off. */
struct turn {
  ns_lane on, x, h, f, th0, th1, y, M, V, q, dq, L;
  ns_lane u; /* shear: kappa/(G A), where it counts */
};

/* Deflection p into the segment of lane i. */
NS_INLINE double sag_in(const struct turn *o, int i, double p) {
  const double f = o->f[i], M = o->M[i], V = o->V[i], q = o->q[i];
  const double dq = o->dq[i], g = NS_SHEAR_SAGS ? o->u[i] : 0;
  const double bend =
      M / 2 + p * (V * NS_6TH - p * (q * NS_24TH + dq * p * NS_120TH));
  const double plain = o->y[i] + p * (o->th0[i] - p * f * bend);
  return sheared(plain, -g * p * p * (q / 2 + dq * p * NS_6TH));
}

/* A step of Newton below this part of the segment leaves an error of its
 * square. */
#define LAST_STEP 1e-7

/* Where the slope, a quartic, turns in the segment of each lane: Newton from
 * the chord, held in a bracket that halves when it strays. */
NS_CLONES static void find_turn(struct turn *o, double *restrict at,
                                double *restrict sag) {
  ns_lane lo = {0}, hi, z, moved;
  LANES(i) {
    hi[i] = o->h[i];
    z[i] = o->h[i] * (o->th0[i] / ns_max(o->th0[i] - o->th1[i], 1e-300));
    moved[i] = o->on[i];
  }
  for (int it = 0; it < 60 && ns_any(moved); it++)
    LANES(i) {
      const double f = o->f[i], M = o->M[i], V = o->V[i], q = o->q[i];
      const double dq = o->dq[i], p = z[i];
      const double bend =
          o->th0[i] -
          p * f * (M + p * (V / 2 - p * (q * NS_6TH + dq * p * NS_24TH)));
      const double bends = -f * (M + p * (V - p * (q / 2 + dq * p * NS_6TH)));
      const double g = NS_SHEAR_SAGS ? o->u[i] : 0;
      const double th = sheared(bend, -g * p * (q + dq * p / 2));
      const double rate = sheared(bends, -g * (q + dq * p));
      const double l = th > 0 ? p : lo[i], u = th > 0 ? hi[i] : p;
      const double n = p - th / (rate == 0 ? 1 : rate);
      const bool near = ns_abs(n - p) <= LAST_STEP * o->h[i];
      const bool in = near | ((rate != 0) & (n > l) & (n < u));
      const double to = in ? n : (l + u) / 2;
      lo[i] = l;
      hi[i] = u;
      z[i] = moved[i] != 0 ? to : p;
      moved[i] = near ? 0 : moved[i];
    }
  LANES(i) {
    at[i] = o->x[i] + z[i];
    sag[i] = sag_in(o, i, z[i]);
  }
}

/* The deflection that is most of its limit, so far. */
struct worst_sag {
  ns_lane any, ratio, sag, L, at, most;
};

/* Keeps the deflection that is most of its limit L/n. Inlined it is no loop of
 * vectors. */
NS_CLONES static void note_sag(struct worst_sag *o, const double *restrict on,
                               const double *restrict sag,
                               const double *restrict L,
                               const double *restrict n,
                               const double *restrict at,
                               const double *restrict times) {
  double *restrict any = o->any, *restrict worst = o->ratio;
  double *restrict most = o->most, *restrict sag_o = o->sag;
  double *restrict L_o = o->L, *restrict at_o = o->at;
  LANES(i) {
    const bool here = on[i] != 0;
    const bool use = here & (n[i] > 0) & (L[i] > 0);
    const double down = ns_max(sag[i], 0) * times[i];
    const double whole = use ? L[i] : 1, part = use ? n[i] : 1;
    const double ratio = down / (whole / part), larger = ns_max(most[i], down);
    const bool more = use & ((any[i] == 0) | (ratio > worst[i]));
    worst[i] = more ? ratio : worst[i];
    sag_o[i] = more ? down : sag_o[i];
    L_o[i] = more ? L[i] : L_o[i];
    at_o[i] = more ? at[i] : at_o[i];
    any[i] = more ? 1 : any[i];
    most[i] = here ? larger : most[i];
  }
}

/* The L of L/n: of the span, or twice an overhang. */
NS_CLONES static void limit_of(const struct ns_beam *s, int k,
                               double *restrict L) {
  const double *restrict r = s->region[k], *restrict A = s->A[k];
  const double *restrict B = s->B[k];
  const double last = s->spans;
  LANES(i) {
    const bool over = (r[i] < 1) | (r[i] > last);
    const double len = B[i] - A[i];
    L[i] = over ? 2 * len : len;
  }
}

/* Takes the segment that begins at break k, in the lanes that are on. */
NS_INLINE void take_turn(const struct ns_beam *s, const struct weights *a,
                         int k, const double *restrict on,
                         const double *restrict slope,
                         const double *restrict next, struct turn *o) {
  const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
  const double *restrict EI = s->EI[k];
  ns_lane y, M, V, q, dq, L;
  limit_of(s, k, L);
  blend_sag(s, a, k, y);
  blend(a, s->M, k, M);
  blend(a, s->VR, k, V);
  blend_load(s, a, s->w, k, q);
  blend_load(s, a, s->dw, k, dq);
  LANES(i) {
    const bool here = on[i] != 0;
    o->on[i] = here ? 1 : o->on[i];
    o->x[i] = here ? x[i] : o->x[i];
    o->h[i] = here ? x2[i] - x[i] : o->h[i];
    o->f[i] = here ? 1 / EI[i] : o->f[i];
    o->th0[i] = here ? slope[i] : o->th0[i];
    o->th1[i] = here ? next[i] : o->th1[i];
    o->y[i] = here ? y[i] : o->y[i];
    o->M[i] = here ? M[i] : o->M[i];
    o->V[i] = here ? V[i] : o->V[i];
    o->q[i] = here ? q[i] : o->q[i];
    o->dq[i] = here ? dq[i] : o->dq[i];
    o->L[i] = here ? L[i] : o->L[i];
  }
#if NS_SHEAR_SAGS
  LANES(i) o->u[i] = on[i] != 0 ? a->u[i] : o->u[i];
#endif
}

/* Works the segments that were taken, and starts afresh. */
NS_INLINE void end_turns(const double *n, const struct weights *a,
                         struct turn *t, struct worst_sag *o) {
  ns_lane at, sag;
  find_turn(t, at, sag);
  note_sag(o, t->on, sag, t->L, n, at, a->live);
  memset(t, 0, sizeof *t);
}

/* Inside the segments where the slope changes sign, one after another in each
 * lane, those of all lanes together. */
NS_INLINE void sag_inside(const struct ns_beam *s, const struct weights *a,
                          const double *n, struct worst_sag *o) {
  ns_lane slope, next, on, twice;
  struct turn t;
  memset(&t, 0, sizeof t);
  blend_slope(s, a, 0, true, next);
  for (int k = 0; k < s->breaks - 1; k++) {
    const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
    if (NS_SHEAR_SAGS)
      blend_slope(s, a, k, true, slope); /* a load turns it at a break */
    else
      ns_copy(slope, next);
    blend_slope(s, a, k + 1, false, next);
    LANES(i) {
      const bool turns = (slope[i] > 0) & (next[i] < 0) & (x2[i] > x[i]);
      on[i] = turns ? 1 : 0;
      twice[i] = turns & (t.on[i] != 0) ? 1 : 0;
    }
    if (!ns_any(on)) continue;
    if (ns_any(twice)) end_turns(n, a, &t, o);
    take_turn(s, a, k, on, slope, next, &t);
  }
  if (ns_any(t.on)) end_turns(n, a, &t, o);
}

/* At the breaks of a single span, whose limit is one: the most of them. */
NS_INLINE void sag_of_span(const struct ns_beam *s, const struct weights *a,
                           const double *n, struct worst_sag *o) {
  const double *restrict A = s->support[0], *restrict B = s->support[1];
  ns_lane sag, most, at, L, on;
  ns_copy(at, s->x[0]);
  ns_fill(most, 0);
  ns_fill(on, 1);
  for (int b = 0; b < s->breaks; b++) {
    const double *restrict x = s->x[b];
    blend_sag(s, a, b, sag);
    LANES(i) {
      const bool more = sag[i] > most[i];
      most[i] = more ? sag[i] : most[i];
      at[i] = more ? x[i] : at[i];
    }
  }
  LANES(i) L[i] = B[i] - A[i];
  note_sag(o, on, most, L, n, at, a->live);
}

/* At the breaks of more spans, the most of each region: its limit is one. */
NS_INLINE void sag_of_regions(const struct ns_beam *s, const struct weights *a,
                              const double *n, struct worst_sag *o) {
  ns_lane sag, most, at, L, on, region;
  ns_copy(region, s->region[0]);
  ns_copy(at, s->x[0]);
  ns_fill(most, 0);
  limit_of(s, 0, L);
  for (int b = 0; b < s->breaks; b++) {
    const double *restrict x = s->x[b], *restrict r = s->region[b];
    blend_sag(s, a, b, sag);
    LANES(i) on[i] = r[i] != region[i] ? 1 : 0;
    if (ns_any(on)) {
      ns_lane next;
      note_sag(o, on, most, L, n, at, a->live);
      limit_of(s, b, next);
      LANES(i) {
        const bool new_ = on[i] != 0;
        region[i] = r[i];
        L[i] = new_ ? next[i] : L[i];
        most[i] = new_ ? 0 : most[i];
        at[i] = new_ ? x[i] : at[i];
      }
    }
    LANES(i) {
      const bool more = sag[i] > most[i];
      most[i] = more ? sag[i] : most[i];
      at[i] = more ? x[i] : at[i];
    }
  }
  ns_fill(on, 1);
  note_sag(o, on, most, L, n, at, a->live);
}

/* At the breaks first, then between them. */
NS_INLINE void find_sag(const struct ns_beam *s, const struct weights *a,
                        const double *n, struct worst_sag *o) {
  if (a->single)
    sag_of_span(s, a, n, o);
  else
    sag_of_regions(s, a, n, o);
  sag_inside(s, a, n, o);
}

#if NS_SHEAR_SAGS
/* Deflection at one place of each lane. */
static void sag_at(const struct ns_work *w, const struct ns_beam *s,
                   struct weights *a, const double *at, double *restrict to) {
  ns_lane slope, on, left;
  struct turn t;
  lay_shear(w, s, a);
  memset(&t, 0, sizeof t);
  ns_fill(left, 1);
  for (int k = 0; k < s->breaks - 1; k++) {
    const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
    LANES(i) {
      const bool in = (at[i] >= x[i]) & (at[i] <= x2[i]) & (x2[i] > x[i]);
      on[i] = in & (left[i] != 0) ? 1 : 0;
      left[i] = on[i] != 0 ? 0 : left[i];
    }
    if (!ns_any(on)) continue;
    blend_slope(s, a, k, true, slope);
    take_turn(s, a, k, on, slope, slope, &t);
  }
  LANES(i) to[i] = t.on[i] != 0 ? sag_in(&t, i, at[i] - t.x[i]) : 0;
}

/* w_G and w_Q of the sum that was found, at its place: what dead load alone
 * gives there is what it adds to any imposed load. */
static void note_parts(struct ns_work *w, const struct ns_beam *s,
                       const struct worst_sag *o, bool total,
                       struct ns_check *k) {
  struct weights with = {.odd = 1, .even = 1, .single = ns_single_span(s)};
  struct weights without = with;
  ns_lane both, live;
  ns_fill(with.dead, 1);
  sag_at(w, s, &with, o->at, both);
  sag_at(w, s, &without, o->at, live);
  LANES(i) {
    const struct ns_sag_weights g =
        ns_sag_state(w->standard, w->in.joist, total, i);
    const double w_G = both[i] - live[i];
    k->rec[NS_R_D_D][i] = w_G;
    k->rec[NS_R_w_Q][i] = (o->sag[i] - g.dead * w_G) / g.live;
    k->rec[NS_R_k_def][i] = g.dead - 1;
  }
}
#endif

/* The numbers behind the check: L, n, the deflection, K_cr. */
NS_INLINE void note_deflection(const struct ns_work *w, struct ns_check *k,
                               const struct worst_sag *o, const double *n,
                               bool total) {
  ns_copy(k->rec[NS_R_L], o->L);
  ns_copy(k->rec[NS_R_n], n);
  ns_copy(k->rec[NS_R_D_L], o->sag);
  if (total)
    ns_copy(k->rec[NS_R_Kcr], w->in.joist[NS_J_Kcr]);
  else
    ns_fill(k->rec[NS_R_Kcr], 0);
}

/* Without cuts both states are one beam: the check of the uncut one. */
NS_INLINE void same_deflection(const struct ns_work *w, bool total,
                               struct ns_check *k, struct ns_state *state) {
  const struct ns_state *was = &w->out->uncut;
  const struct ns_check *u = ns_first_of(w->out, was, NS_SAG_MODE(total));
  const size_t rows = w->records ? sizeof *k : offsetof(struct ns_check, rec);
  memcpy(k, u, rows);
  ns_copy(state->deflection[total], was->deflection[total]);
  ns_copy(state->limit[total], was->limit[total]);
  ns_copy(state->span_of[total], was->span_of[total]);
}

/* Live load is everywhere, on the odd or on the even regions. Of a continuous
 * beam the first need not be looked at: load on one span lifts the next from
 * end to end, lowers the one after that, and so on, so in an odd region odd
 * ones alone lower it more than all do. With a hinge or a member beside it the
 * shape of a span is another. */
NS_INLINE void deflection(struct ns_work *w, const struct ns_beam *s,
                          bool total, struct ns_state *state) {
  struct ns_check *k = ns_add(w->out, NS_SAG_MODE(total), -1, -1);
  const double *n = w->in.joist[total ? NS_J_limit_total : NS_J_limit_live];
  const bool single = ns_single_span(s), parted = s == &w->after;
  if (parted && w->shape->cuts == 0) {
    same_deflection(w, total, k, state);
    return;
  }
  const int first = single || s->hinges || s->stations ? 0 : 1;
  struct worst_sag o;
  memset(&o, 0, sizeof o);
  for (int p = first; p < (single ? 1 : 3); p++) {
    struct weights a = {.odd = p != 2, .even = p != 1, .single = single};
    LANES(i) {
      const struct ns_sag_weights g =
          ns_sag_state(w->standard, w->in.joist, total, i);
      a.dead[i] = g.dead / g.live;
      a.live[i] = g.live;
    }
    a.bare = !ns_any(a.dead);
#if NS_SHEAR_SAGS
    lay_shear(w, s, &a);
#endif
    find_sag(s, &a, n, &o);
  }
  LANES(i) {
    const bool on = o.any[i] != 0;
    const bool cut_through = (w->severed[i] != 0) & parted;
    const double limit = on ? o.L[i] / n[i] : 0;
    k->on[i] = on & !cut_through ? 1 : 0;
    k->demand[i] = o.sag[i];
    k->capacity[i] = limit;
    k->ratio[i] = on ? ns_min(o.ratio[i], NS_NO_CAPACITY) : 0;
    k->at[i] = o.at[i];
    k->branch[i] = 1;
    state->deflection[total][i] = on ? o.sag[i] : o.most[i];
    state->limit[total][i] = limit;
    state->span_of[total][i] = o.L[i];
  }
  if (w->records) note_deflection(w, k, &o, n, total);
#if NS_SHEAR_SAGS
  if (w->records) note_parts(w, s, &o, total, k);
#endif
}

/* w <= L/n under live load, or the family's first state (in). */
NS_CHECK(deflection_live) { deflection(w, o->sag, false, o->state); }

/* w <= L/n under dead and live load, or the family's second state (in). */
NS_CHECK(deflection_total) { deflection(w, o->sag, true, o->state); }
