/* SPDX-License-Identifier: MIT
 * envelope.c - live load lies where the influence line has the wanted sign.
 *
 * The influence line of an effect Q is IL(x) = Q_0(x) - c . u(x), where Q_0 is
 * the line of the base system, linear on each segment, and c = inverse . q
 * with q_j the effect of unknown j on Q. Its zeros are supports, the place
 * itself, or lie inside a segment; those are solved for, not sampled. Over a
 * segment of one sign the load's share is a dot product with the integrals
 * that ns_beam_solve left in W. */
#include "beam/table.h"

struct line {
  ns_lane slope, shift; /* slope x + shift */
};

/* An effect: its base line in the region before and after the place, on the
 * overhangs, and c. 'second': an effect on the second beam, whose line is that
 * of the loads which stand on it. */
struct effect {
  bool second;
  struct line before, after, first, last;
  ns_lane c[NS_MAX_UNKNOWNS];
};

/* The regions that the base line touches; 'at' is the break of the place, or
 * -1 where the two regions differ and need no break to part them. */
struct place {
  ns_lane before, after;
  int at;
};

struct sums {
  ns_lane V, V_all, M, M_all, Vc;
};

/* c = inverse . q, where q is the effect of each unknown. */
NS_INLINE void answer(const struct ns_beam *s, double q[][NS_LANES],
                      struct effect *e) {
  for (int j = 0; j < s->unknowns; j++) {
    ns_fill(e->c[j], 0);
    for (int p = 0; p < s->unknowns; p++)
      LANES(i) e->c[j][i] += s->answer[j].inverse[p][i] * q[p][i];
  }
}

/* Influence lines of the joist, q given for the moments over all supports; the
 * known end moments of overhangs give the lines there. 'ties': for the
 * stations. */
NS_INLINE void answer_host(const struct ns_beam *s, double q[][NS_LANES],
                           double ties[][NS_LANES], struct effect *e) {
  const int n = s->spans;
  ns_lane all[NS_MAX_UNKNOWNS];
  for (int j = 0; j < s->unknowns; j++) {
    const int l = j - (n - 1);
    if (l < 0)
      ns_copy(all[j], q[j + 1]);
    else if (l < s->stations)
      ns_copy(all[j], ties[l]);
    else
      ns_fill(all[j], 0);
  }
  answer(s, all, e);
  e->second = false;
  LANES(i) {
    e->first.slope[i] = q[0][i];
    e->first.shift[i] = -s->support[0][i] * q[0][i];
    e->last.slope[i] = -q[n][i];
    e->last.shift[i] = s->support[n][i] * q[n][i];
  }
}

/* Base V and M at x of a span from A to B under a unit load at each station;
 * one that stands at x is before its right side. */
NS_INLINE void station_effects(const struct ns_beam *s, const double *A,
                               const double *B, const double *x, bool right,
                               double V[][NS_LANES], double M[][NS_LANES]) {
  for (int l = 0; l < s->stations; l++)
    LANES(i) {
      const double at = s->station[l][i], L = B[i] - A[i];
      const bool in = (at > A[i]) & (at < B[i]) & (L > 0);
      const bool before = right ? at <= x[i] : at < x[i];
      const double v = before ? (A[i] - at) / L : (B[i] - at) / L;
      V[l][i] = in ? v : 0;
      M[l][i] = in ? (before ? (at - A[i]) * (B[i] - x[i]) / L
                             : (x[i] - A[i]) * (B[i] - at) / L)
                   : 0;
    }
}

/* V and M at x between the supports A and B of region r, or on an overhang. */
NS_INLINE void section_effects(const struct ns_beam *s, const double *r,
                               const double *A, const double *B,
                               const double *x, bool right_side,
                               struct effect *V, struct effect *M) {
  const int n = s->spans;
  ns_lane qV[NS_MAX_SUPPORTS], qM[NS_MAX_SUPPORTS];
  ns_lane tV[NS_MAX_STATIONS], tM[NS_MAX_STATIONS];
  station_effects(s, A, B, x, right_side, tV, tM);
  for (int l = 0; l < s->stations; l++)
    LANES(i) {
      const bool span = (r[i] >= 1) & (r[i] <= n);
      tV[l][i] = span ? tV[l][i] : 0;
      tM[l][i] = span ? tM[l][i] : 0;
    }
  for (int j = 0; j <= n; j++)
    LANES(i) {
      const bool span = (r[i] >= 1) & (r[i] <= n);
      const bool left = span & (r[i] == j + 1.0), right = span & (r[i] == j);
      const double L = span ? B[i] - A[i] : 1;
      qV[j][i] = left ? -1 / L : right ? 1 / L : 0;
      qM[j][i] = left ? (B[i] - x[i]) / L : right ? (x[i] - A[i]) / L : 0;
    }
  answer_host(s, qV, tV, V);
  answer_host(s, qM, tM, M);
  LANES(i) {
    const bool span = (r[i] >= 1) & (r[i] <= n), left = r[i] < 1;
    const double L = span ? B[i] - A[i] : 1;
    const double a = (x[i] - A[i]) / L, b = (B[i] - x[i]) / L;
    V->before.slope[i] = span ? -1 / L : 0;
    V->before.shift[i] = span ? A[i] / L : left ? -1 : 0;
    V->after.slope[i] = span ? -1 / L : 0;
    V->after.shift[i] = span ? B[i] / L : left ? 0 : 1;
    M->before.slope[i] = span ? b : left ? 1 : 0;
    M->before.shift[i] = span ? -A[i] * b : left ? -x[i] : 0;
    M->after.slope[i] = span ? -a : left ? 0 : -1;
    M->after.shift[i] = span ? B[i] * a : left ? 0 : x[i];
  }
}

/* V and M at x of the second beam, on its own two ends. */
NS_INLINE void second_effects(const struct ns_beam *s, const double *x,
                              bool right_side, struct effect *V,
                              struct effect *M) {
  const int inner = s->spans - 1;
  const double *A = s->second[0], *B = s->second[1];
  ns_lane qV[NS_MAX_UNKNOWNS], qM[NS_MAX_UNKNOWNS];
  memset(V, 0, sizeof *V);
  memset(M, 0, sizeof *M);
  for (int j = 0; j < s->unknowns; j++) {
    ns_fill(qV[j], 0);
    ns_fill(qM[j], 0);
  }
  station_effects(s, A, B, x, right_side, qV + inner, qM + inner);
  for (int l = 0; l < s->stations; l++)
    LANES(i) {
      qV[inner + l][i] = -qV[inner + l][i];
      qM[inner + l][i] = -qM[inner + l][i];
    }
  answer(s, qV, V);
  answer(s, qM, M);
  V->second = M->second = true;
  LANES(i) {
    const double L = B[i] - A[i], a = (x[i] - A[i]) / L, b = (B[i] - x[i]) / L;
    V->before.slope[i] = V->after.slope[i] = -1 / L;
    V->before.shift[i] = A[i] / L;
    V->after.shift[i] = B[i] / L;
    M->before.slope[i] = b;
    M->before.shift[i] = -A[i] * b;
    M->after.slope[i] = -a;
    M->after.shift[i] = B[i] * a;
  }
}

/* The base line of segment j. */
NS_INLINE void line_of(const struct ns_beam *s, const struct effect *e,
                       const struct place *p, int j, bool before, bool after,
                       double *restrict slope, double *restrict shift) {
  const double *restrict r = s->region[j];
  const double n = s->spans;
  LANES(i) {
    const bool b = before & (r[i] == p->before[i]);
    const bool a = after & (r[i] == p->after[i]);
    const bool on = ns_carries(s, e->second, j, i);
    slope[i] = b          ? e->before.slope[i]
               : a        ? e->after.slope[i]
               : r[i] < 1 ? e->first.slope[i]
               : r[i] > n ? e->last.slope[i]
                          : 0;
    slope[i] = on ? slope[i] : 0;
    shift[i] = b          ? e->before.shift[i]
               : a        ? e->after.shift[i]
               : r[i] < 1 ? e->first.shift[i]
               : r[i] > n ? e->last.shift[i]
                          : 0;
    shift[i] = on ? shift[i] : 0;
  }
}

/* The line on segment j as a cubic from its start. */
struct cubic {
  ns_lane p, dp, ddp, dddp;
};

/* An influence line on segment j as a cubic. */
NS_INLINE void cubic_of(const struct ns_beam *s, const struct effect *e,
                        const double *slope, const double *shift, int j,
                        struct cubic *o) {
  const double *restrict x = s->x[j];
  LANES(i) {
    o->p[i] = slope[i] * x[i] + shift[i];
    o->dp[i] = slope[i];
    o->ddp[i] = 0;
    o->dddp[i] = 0;
  }
  for (int k = 0; k < s->unknowns; k++)
    LANES(i) {
      const double c = e->c[k][i], f = 1 / s->EI[j][i];
      o->p[i] -= c * s->answer[k].u[j][i];
      o->dp[i] -= c * s->answer[k].du[j][i];
      o->ddp[i] += c * s->answer[k].m0[j][i] * f;
      o->dddp[i] += c * s->answer[k].dm[j][i] * f;
    }
}

/* Value of a cubic at the distance t. */
NS_INLINE double at(const struct cubic *c, double t, int i) {
  return c->p[i] +
         t * (c->dp[i] + t * (c->ddp[i] / 2 + t * (c->dddp[i] * NS_6TH)));
}

/* Its derivative there. */
NS_INLINE double rate(const struct cubic *c, double t, int i) {
  return c->dp[i] + t * (c->ddp[i] + t * (c->dddp[i] / 2));
}

/* The zero between the fractions a and b of the stretch t0..t1, over which a
 * cubic rises or falls through nil: Newton, held in a bracket that halves when
 * it strays. */
NS_INLINE void root(const struct cubic *c, const double *from, const double *to,
                    const double *marked, const double *rises,
                    double *restrict t) {
  ns_lane lo, hi, wait;
  LANES(i) {
    lo[i] = from[i];
    hi[i] = to[i];
    t[i] = (from[i] + to[i]) / 2;
    wait[i] = marked[i];
  }
  for (int it = 0; it < 60 && ns_any(wait); it++)
    LANES(i) {
      const double f = at(c, t[i], i), g = rate(c, t[i], i);
      const bool low = (f <= 0) == (rises[i] != 0);
      lo[i] = low ? t[i] : lo[i];
      hi[i] = low ? hi[i] : t[i];
      const double step = f / (g == 0 ? 1 : g), next = t[i] - step;
      const bool ok = (g != 0) & (next > lo[i]) & (next < hi[i]);
      const double go = ok ? next : (lo[i] + hi[i]) / 2;
      const bool done = ns_abs(go - t[i]) <= 1e-13 * (to[i] - from[i]);
      t[i] = wait[i] != 0 ? go : t[i];
      wait[i] = done ? 0 : wait[i];
    }
}

/* Where the slope of a cubic is nil, in order, held within t0 and t1; t0 where
 * nowhere. */
NS_INLINE void flat_places(const struct cubic *c, const double *t0,
                           const double *t1, double *restrict a,
                           double *restrict b) {
  LANES(i) {
    const double p = c->ddp[i] / 2, q = c->dddp[i] / 2;
    const double under = p * p - q * c->dp[i];
    const double r = sqrt(ns_max(under, 0)), s = -(p + (p < 0 ? -r : r));
    const bool real = under > 0;
    const double x = real & (q != 0) ? s / (q != 0 ? q : 1) : t0[i];
    const double y = real & (s != 0) ? c->dp[i] / (s != 0 ? s : 1) : t0[i];
    const double xc = ns_min(ns_max(x, t0[i]), t1[i]);
    const double yc = ns_min(ns_max(y, t0[i]), t1[i]);
    a[i] = ns_min(xc, yc);
    b[i] = ns_max(xc, yc);
  }
}

/* Load times a cubic between t0 and t1 of segment j. */
NS_INLINE double share(const struct ns_beam *s, const struct cubic *c, int j,
                       double t0, double t1, int i) {
  const double w = s->w[1][j][i], dw = s->dw[1][j][i];
  return ns_integral(t1 - t0, w + dw * t0, dw, at(c, t0, i), rate(c, t0, i),
                     c->ddp[i] + t0 * c->dddp[i], c->dddp[i]);
}

/* Adds the piece t0..t1 of segment j where 'sign' is positive: the load's
 * share of 'lead' to lead_sum, and of 'with' to with_sum. A cubic may cross nil
 * three times: it is parted where it is level, and each part with unlike ends
 * has one zero. What a part of one sign adds is whole. */
NS_INLINE void add_piece(const struct ns_beam *s, int j,
                         const struct cubic *sign, const struct cubic *lead,
                         const struct cubic *with, const double *t0,
                         const double *t1, const double *all_lead,
                         const double *all_with, double *restrict lead_sum,
                         double *restrict with_sum) {
  ns_lane e[4], z[3], on[3], rises[3], some = {0};
  ns_copy(e[0], t0);
  ns_copy(e[3], t1);
  flat_places(sign, t0, t1, e[1], e[2]);
  for (int p = 0; p < 3; p++) {
    LANES(i) {
      const bool a = at(sign, e[p][i], i) > 0, b = at(sign, e[p + 1][i], i) > 0;
      on[p][i] = a != b ? 1 : 0;
      rises[p][i] = b ? 1 : 0;
      some[i] += on[p][i];
    }
    if (ns_any(on[p])) root(sign, e[p], e[p + 1], on[p], rises[p], z[p]);
  }
  LANES(i) {
    const bool up = at(sign, t1[i], i) > 0;
    lead_sum[i] += up ? all_lead[i] : 0;
    with_sum[i] += up ? all_with[i] : 0;
  }
  for (int p = 0; p < 3 && ns_any(some); p++) {
    if (!ns_any(on[p])) continue;
    LANES(i) {
      const bool m = on[p][i] != 0;
      const double way = rises[p][i] != 0 ? -1 : 1, to = m ? z[p][i] : t0[i];
      lead_sum[i] += m ? way * share(s, lead, j, t0[i], to, i) : 0;
      with_sum[i] += m ? way * share(s, with, j, t0[i], to, i) : 0;
    }
  }
}

/* A determinate beam: lines are straight and change sign at breaks only, so
 * a segment counts whole. */
NS_INLINE void add_straight(const struct ns_beam *s, int j, const double *Vs,
                            const double *Vc, const double *Ms,
                            const double *Mc, double inside, struct sums *o) {
  const double *restrict x = s->x[j], *restrict x2 = s->x[j + 1];
  const double *restrict W0 = s->W[0][j], *restrict W1 = s->W[1][j];
  LANES(i) {
    const double mid = (x[i] + x2[i]) / 2;
    const double v = Vs[i] * W1[i] + Vc[i] * W0[i];
    const double m = Ms[i] * W1[i] + Mc[i] * W0[i];
    const double line_V = Vs[i] * mid + Vc[i];
    const bool up = line_V > 0;
    const bool sags = Ms[i] * mid + Mc[i] + inside * line_V > 0;
    o->V[i] += up ? v : 0;
    o->V_all[i] += v;
    o->M[i] += sags ? m : 0;
    o->M_all[i] += m;
    o->Vc[i] += sags ? v : 0;
  }
}

/* Adds a segment on which the line is curved: load where it is positive,
 * the shear that goes with it. */
NS_INLINE void add_curved(const struct ns_beam *s, int j,
                          const struct effect *V, const struct effect *M,
                          const double *Vs, const double *Vc, const double *Ms,
                          const double *Mc, const double *t0, const double *t1,
                          double inside, bool part, struct sums *o) {
  struct cubic v, m, sign;
  ns_lane unused, all_V, all_M;
  cubic_of(s, V, Vs, Vc, j, &v);
  cubic_of(s, M, Ms, Mc, j, &m);
  ns_fill(unused, 0);
  if (part)
    LANES(i) {
      all_V[i] = share(s, &v, j, t0[i], t1[i], i);
      all_M[i] = share(s, &m, j, t0[i], t1[i], i);
    }
  else {
    LANES(i) {
      all_V[i] = Vs[i] * s->W[1][j][i] + Vc[i] * s->W[0][j][i];
      all_M[i] = Ms[i] * s->W[1][j][i] + Mc[i] * s->W[0][j][i];
    }
    for (int k = 0; k < s->unknowns; k++)
      LANES(i) {
        all_V[i] -= V->c[k][i] * s->answer[k].W[j][i];
        all_M[i] -= M->c[k][i] * s->answer[k].W[j][i];
      }
  }
  LANES(i) {
    o->V_all[i] += all_V[i];
    o->M_all[i] += all_M[i];
  }
  LANES(i) {
    sign.p[i] = m.p[i] + inside * v.p[i];
    sign.dp[i] = m.dp[i] + inside * v.dp[i];
    sign.ddp[i] = m.ddp[i] + inside * v.ddp[i];
    sign.dddp[i] = m.dddp[i] + inside * v.dddp[i];
  }
  add_piece(s, j, &v, &v, &v, t0, t1, all_V, all_V, o->V, unused);
  add_piece(s, j, &sign, &m, &v, t0, t1, all_M, all_V, o->M, o->Vc);
}

/* Point load at break j, its line taken from before or after the place. */
NS_INLINE void add_point(const struct ns_beam *s, int j, const struct effect *V,
                         const struct effect *M, const struct place *p,
                         bool before, double inside, struct sums *o) {
  ns_lane Vs, Vc, Ms, Mc;
  line_of(s, V, p, j, before, !before, Vs, Vc);
  line_of(s, M, p, j, before, !before, Ms, Mc);
  LANES(i) {
    double v = Vs[i] * s->x[j][i] + Vc[i], m = Ms[i] * s->x[j][i] + Mc[i];
    for (int k = 0; k < s->unknowns; k++) {
      v -= V->c[k][i] * s->answer[k].u[j][i];
      m -= M->c[k][i] * s->answer[k].u[j][i];
    }
    const bool up = v > 0, sags = m + inside * v > 0;
    v *= s->P[1][j][i];
    m *= s->P[1][j][i];
    o->V[i] += up ? v : 0;
    o->V_all[i] += v;
    o->M[i] += sags ? m : 0;
    o->M_all[i] += m;
    o->Vc[i] += sags ? v : 0;
  }
}

/* A line where r is 1, nil elsewhere. */
NS_INLINE void mask_line(const struct line *l, const double *r,
                         struct line *o) {
  LANES(i) {
    const bool on = r[i] == 1;
    o->slope[i] = on ? l->slope[i] : 0;
    o->shift[i] = on ? l->shift[i] : 0;
  }
}

/* One span and no overhang: a line before the place and one after it. */
NS_INLINE void add_one_span(const struct ns_beam *s, const struct effect *V,
                            const struct effect *M, const struct place *p,
                            double inside, struct sums *o) {
  struct line V1, V2, M1, M2;
  mask_line(&V->before, p->before, &V1);
  mask_line(&V->after, p->after, &V2);
  mask_line(&M->before, p->before, &M1);
  mask_line(&M->after, p->after, &M2);
  for (int j = 0; j < s->breaks - 1; j++) {
    const struct line *v = j < p->at ? &V1 : &V2, *m = j < p->at ? &M1 : &M2;
    add_straight(s, j, v->slope, v->shift, m->slope, m->shift, inside, o);
  }
}

/* Every segment and point load, for a place at break k, or at the fraction t
 * of segment k. */
NS_INLINE void add_all(const struct ns_beam *s, const struct effect *V,
                       const struct effect *M, const struct place *p,
                       const double *t, bool right_side, struct sums *o) {
  const int k = p->at;
  const double inside = right_side || t ? NS_INSIDE : -NS_INSIDE;
  ns_lane Vs, Vc, Ms, Mc, zero, whole, part;
  memset(o, 0, sizeof *o);
  const bool simple =
      s->spans == 1 && !s->left && !s->right && !t && !s->unknowns;
  if (simple) add_one_span(s, V, M, p, inside, o);
  for (int j = 0; !simple && j < s->breaks - 1; j++) {
    const bool split = t && j == k;
    LANES(i) {
      zero[i] = 0;
      whole[i] = s->x[j + 1][i] - s->x[j][i];
      part[i] = split ? t[i] * whole[i] : 0;
    }
    if (split) {
      line_of(s, V, p, j, true, false, Vs, Vc);
      line_of(s, M, p, j, true, false, Ms, Mc);
      add_curved(s, j, V, M, Vs, Vc, Ms, Mc, zero, part, inside, true, o);
    }
    line_of(s, V, p, j, j < k, j >= k, Vs, Vc);
    line_of(s, M, p, j, j < k, j >= k, Ms, Mc);
    if (s->unknowns || split)
      add_curved(s, j, V, M, Vs, Vc, Ms, Mc, split ? part : zero, whole, inside,
                 split, o);
    else
      add_straight(s, j, Vs, Vc, Ms, Mc, inside, o);
  }
  for (int j = 0; j < s->breaks; j++)
    if (ns_any(s->P[1][j])) {
      const bool before = j < k || (j == k && (right_side || t));
      add_point(s, j, V, M, p, before, inside, o);
    }
}

/* The place at break k, or at the fraction t of segment k. */
NS_INLINE void find_place(const struct ns_beam *s, int k, const double *t,
                          bool right_side, struct place *p, double *restrict A,
                          double *restrict B, double *restrict x) {
  const int seg = t || right_side ? k : k - 1;
  p->at = k;
  LANES(i) {
    p->before[i] = p->after[i] = seg < 0 ? 0 : s->region[seg < 0 ? 0 : seg][i];
    A[i] = s->A[seg < 0 ? 0 : seg][i];
    B[i] = s->B[seg < 0 ? 0 : seg][i];
    x[i] =
        s->x[k][i] +
        (t ? t[i] * (s->x[k + 1 < s->breaks ? k + 1 : k][i] - s->x[k][i]) : 0);
  }
}

/* Most and least from the sums of what is positive and of all. */
NS_INLINE void give(const struct sums *o, struct ns_envelope *out) {
  LANES(i) {
    out->V[0][i] = o->V[i];
    out->V[1][i] = o->V_all[i] - o->V[i];
    out->M[0][i] = o->M[i];
    out->M[1][i] = o->M_all[i] - o->M[i];
    out->Vc[0][i] = o->Vc[i];
    out->Vc[1][i] = o->V_all[i] - o->Vc[i];
  }
}

/* Most and least V and M at a place, with the shear that goes with each M. */
NS_CLONES void ns_beam_envelope(const struct ns_beam *s, int k, const double *t,
                                bool right_side, struct ns_envelope *out) {
  struct effect V, M;
  struct place p;
  struct sums o;
  ns_lane A, B, x;
  find_place(s, k, t, right_side, &p, A, B, x);
  section_effects(s, p.before, A, B, x, right_side, &V, &M);
  add_all(s, &V, &M, &p, t, right_side, &o);
  give(&o, out);
}

/* Most and least V and M of the second beam at a place; nil where it is not. */
NS_CLONES void ns_second_envelope(const struct ns_beam *s, int k,
                                  const double *t, bool right_side,
                                  struct ns_envelope *out) {
  struct effect V, M;
  struct place p;
  struct sums o;
  ns_lane A, B, x, out_of;
  find_place(s, k, t, right_side, &p, A, B, x);
  second_effects(s, x, right_side, &V, &M);
  add_all(s, &V, &M, &p, t, right_side, &o);
  give(&o, out);
  const double *a = s->second[0], *b = s->second[1];
  LANES(i) {
    const bool past = right_side || t ? x[i] >= b[i] : x[i] > b[i];
    const bool short_ = right_side || t ? x[i] < a[i] : x[i] <= a[i];
    out_of[i] = past | short_ ? 1 : 0;
  }
  for (int g = 0; g < 2; g++)
    LANES(i) {
      out->V[g][i] = out_of[i] != 0 ? 0 : out->V[g][i];
      out->M[g][i] = out_of[i] != 0 ? 0 : out->M[g][i];
      out->Vc[g][i] = out_of[i] != 0 ? 0 : out->Vc[g][i];
    }
}

/* Sums of one effect over all segments and points, where the two regions
 * beside the place differ. */
NS_INLINE void add_effect(const struct ns_beam *s, const struct effect *R,
                          const struct place *p, struct sums *o) {
  struct effect none;
  ns_lane Rs, Rc, Ns, Nc, zero, whole;
  memset(&none, 0, sizeof none);
  memset(o, 0, sizeof *o);
  ns_fill(zero, 0);
  ns_fill(Ns, 0);
  ns_fill(Nc, 0);
  for (int j = 0; j < s->breaks - 1; j++) {
    LANES(i) whole[i] = s->x[j + 1][i] - s->x[j][i];
    line_of(s, R, p, j, true, true, Rs, Rc);
    if (s->unknowns)
      add_curved(s, j, R, &none, Rs, Rc, Ns, Nc, zero, whole, 0, false, o);
    else
      add_straight(s, j, Rs, Rc, Ns, Nc, 0, o);
  }
  for (int j = 0; j < s->breaks; j++)
    if (ns_any(s->P[1][j])) {
      line_of(s, R, p, j, true, true, Rs, Rc);
      LANES(i) {
        double v = Rs[i] * s->x[j][i] + Rc[i];
        for (int u = 0; u < s->unknowns; u++)
          v -= R->c[u][i] * s->answer[u].u[j][i];
        v *= s->P[1][j][i];
        o->V[i] += v > 0 ? v : 0;
        o->V_all[i] += v;
      }
    }
}

/* Most and least force of station l under live load where it hurts. */
NS_CLONES void ns_station_range(const struct ns_beam *s, int l, double *most,
                                double *least) {
  struct effect G;
  struct place p = {.at = -1};
  struct sums o;
  ns_lane q[NS_MAX_UNKNOWNS];
  memset(&G, 0, sizeof G);
  for (int j = 0; j < s->unknowns; j++) ns_fill(q[j], 0);
  ns_fill(q[s->spans - 1 + l], 1);
  answer(s, q, &G);
  ns_fill(p.before, -1);
  ns_fill(p.after, -1);
  add_effect(s, &G, &p, &o);
  LANES(i) {
    most[i] = o.V[i];
    least[i] = o.V_all[i] - o.V[i];
  }
}

/* Most and least reaction of support k under live load where it hurts. */
NS_CLONES void ns_beam_reaction(const struct ns_beam *s, int k, double *most,
                                double *least) {
  const int n = s->spans;
  struct effect R;
  struct place p = {.at = -1};
  struct sums o;
  ns_lane q[NS_MAX_SUPPORTS], ties[NS_MAX_STATIONS];
  memset(&R, 0, sizeof R);
  for (int j = 0; j <= n; j++) ns_fill(q[j], 0);
  const double *x0 = s->support[k];
  if (k > 0)
    LANES(i) {
      const double A = s->support[k - 1][i], L = x0[i] - A;
      q[k - 1][i] += 1 / L;
      q[k][i] -= 1 / L;
      R.before.slope[i] = 1 / L;
      R.before.shift[i] = -A / L;
    }
  if (k < n)
    LANES(i) {
      const double B = s->support[k + 1][i], L = B - x0[i];
      q[k + 1][i] += 1 / L;
      q[k][i] -= 1 / L;
      R.after.slope[i] = -1 / L;
      R.after.shift[i] = B / L;
    }
  for (int l = 0; l < s->stations; l++)
    LANES(i) {
      const double at = s->station[l][i];
      const double A = s->support[k > 0 ? k - 1 : 0][i];
      const double B = s->support[k < n ? k + 1 : n][i];
      const bool before = (k > 0) & (at > A) & (at <= x0[i]);
      const bool after = (k < n) & (at > x0[i]) & (at < B);
      const bool here = at == x0[i];
      ties[l][i] = here     ? 1
                   : before ? R.before.slope[i] * at + R.before.shift[i]
                   : after  ? R.after.slope[i] * at + R.after.shift[i]
                            : 0;
    }
  answer_host(s, q, ties, &R);
  LANES(i) {
    R.first.shift[i] += k == 0 ? 1 : 0;
    R.last.shift[i] += k == n ? 1 : 0;
    p.before[i] = k > 0 ? k : -1;
    p.after[i] = k < n ? k + 1 : -1;
  }
  add_effect(s, &R, &p, &o);
  LANES(i) {
    most[i] = o.V[i];
    least[i] = o.V_all[i] - o.V[i];
  }
}
