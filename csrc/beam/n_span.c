/* SPDX-License-Identifier: MIT
 * n_span.c - live load where it hurts on any number of spans, with overhangs or
 * without, by sums.
 *
 * A place at the distance a from the left end of its span, L long, sees a load
 * outside the span by the moment that it makes at the nearer end alone: M = f X
 * for one before, f = 1 - (1 + r) a / L, as X is carried through the span to
 * -r X; M = g X for one past it, g = (1 + l) a / L - l. Carried moments
 * alternate from support to support, and the line of a span's own end moment is
 * a deflected shape of one sign. So all load of a span makes one sum, which
 * goes whole to most or least, and V is a slope of f or g times it. An overhang
 * has a known end moment in place of that.
 *
 * In the span, with uL and uR of n_span_solve.c at the distance y of the load,
 *
 *     M = y (1 - a/L) or a (1 - y/L), less kL f uL + kR g uR
 *     V = -y/L or 1 - y/L, and eL uL - eR uR
 *
 * before and past the place, with kL and kR for the end moments by rotation. V
 * is the slope of a shape that steps by one and changes sign at the place
 * only. M'' is (kL f (1 - y/L) + kR g y/L) / EI. Between the fixed points f and
 * g are positive: M is convex on both sides of the place, and positive. Past
 * the right one (f < 0) M begins at the left end with a fall, concave, then
 * convex and positive at the place, and stays so: one zero before the place,
 * where M is convex. Before the left one (g < 0) it is the other way round, and
 * no place is past both. Newton from the side of the place comes to the zero
 * from one side. So V and M are sums from the left end to the place and to the
 * zero; what is past a zero is all less that. */
#include "beam/table.h"

/* A step of Newton below this part of the segment is the last. */
#define SPANS_LAST 1e-10

/* The terms of span q by itself. */
NS_INLINE void spans_own(const struct ns_beam *s, int q, ns_lane *restrict e) {
  const struct ns_spans *o = s->sums;
  for (int g = 0; g < 4; g++) ns_copy(e[NS_SPAN_T + g], o->T[1][g][q]);
  LANES(i) {
    const double L = o->L[q][i], per = 1 / L;
    const double l = o->carry[0][q][i], r = o->carry[1][q][i];
    const double kL = o->end[0][q][i], kR = o->end[1][q][i];
    const double TL = o->T[1][2][q][i], TR = o->T[1][3][q][i];
    const double X = -kL * (TL - r * TR), Y = -kR * (TR - l * TL);
    e[NS_SPAN_L][i] = L;
    e[NS_SPAN_PER][i] = per;
    e[NS_SPAN_F][i] = (1 + r) * per;
    e[NS_SPAN_G][i] = (1 + l) * per;
    e[NS_SPAN_BACK][i] = l;
    e[NS_SPAN_KL][i] = kL;
    e[NS_SPAN_KR][i] = kR;
    e[NS_SPAN_EL][i] = (kL + l * kR) * per;
    e[NS_SPAN_ER][i] = (kR + r * kL) * per;
    e[NS_SPAN_X][i] = X;
    e[NS_SPAN_R][i] = o->T[1][0][q][i] + (Y - X - o->T[1][1][q][i]) * per;
  }
}

/* Those of an overhang: f and g are 1, what they multiply is nil. */
NS_INLINE void spans_overhang(const struct ns_beam *s, int q,
                              ns_lane *restrict e) {
  const struct ns_spans *o = s->sums;
  const double past = q > 0 ? 1 : 0;
  for (int g = 0; g < NS_SPAN_TERMS; g++) ns_fill(e[g], 0);
  ns_fill(e[NS_SPAN_L], 1);
  ns_fill(e[NS_SPAN_BACK], -1);
  LANES(i) {
    e[NS_SPAN_R][i] = past * o->T[1][0][q][i];
    e[NS_SPAN_X][i] = -past * o->T[1][1][q][i];
  }
}

/* Moments that come from before a span, from the left end on: those of the
 * region before, and what comes through it, with its sign turned. */
NS_INLINE void spans_before(const struct ns_beam *s,
                            ns_lane (*e)[NS_SPAN_TERMS]) {
  const struct ns_spans *o = s->sums;
  for (int q = 1; q <= s->spans; q++) {
    double *restrict most = e[q][NS_SPAN_BEFORE];
    double *restrict least = e[q][NS_SPAN_BEFORE + 1];
    if (q == 1) {
      LANES(i) {
        const double arm = s->support[0][i] - s->x[0][i];
        most[i] = 0;
        least[i] = o->T[1][1][0][i] - arm * o->T[1][0][0][i];
      }
      continue;
    }
    const double *restrict up = e[q - 1][NS_SPAN_BEFORE];
    const double *restrict down = e[q - 1][NS_SPAN_BEFORE + 1];
    LANES(i) {
      const double r = o->carry[1][q - 1][i], l = o->carry[0][q - 1][i];
      const double TL = o->T[1][2][q - 1][i], TR = o->T[1][3][q - 1][i];
      most[i] = -r * down[i];
      least[i] = -o->end[1][q - 1][i] * (TR - l * TL) - r * up[i];
    }
  }
}

/* Those that come from past it, from the right end on. */
NS_INLINE void spans_past(const struct ns_beam *s,
                          ns_lane (*e)[NS_SPAN_TERMS]) {
  const struct ns_spans *o = s->sums;
  const int n = s->spans;
  for (int q = n; q >= 1; q--) {
    double *restrict most = e[q][NS_SPAN_PAST];
    double *restrict least = e[q][NS_SPAN_PAST + 1];
    if (q == n) {
      LANES(i) {
        most[i] = 0;
        least[i] = -o->T[1][1][n + 1][i];
      }
      continue;
    }
    const double *restrict up = e[q + 1][NS_SPAN_PAST];
    const double *restrict down = e[q + 1][NS_SPAN_PAST + 1];
    const double *restrict X = e[q + 1][NS_SPAN_X];
    LANES(i) {
      const double l = o->carry[0][q + 1][i];
      most[i] = -l * down[i];
      least[i] = X[i] - l * up[i];
    }
  }
}

/* Terms of all regions, once for all places. */
NS_CLONES void ns_n_span_lay(struct ns_n_span *o, const struct ns_beam *s) {
  const int n = s->spans;
  o->s = s;
  spans_overhang(s, 0, o->term[0]);
  spans_overhang(s, n + 1, o->term[n + 1]);
  for (int q = 1; q <= n; q++) spans_own(s, q, o->term[q]);
  spans_before(s, o->term);
  spans_past(s, o->term);
  for (int q = 1; q <= n; q++) {
    ns_lane *e = o->term[q];
    LANES(i) {
      const double f = e[NS_SPAN_F][i], g = e[NS_SPAN_G][i];
      e[NS_SPAN_V][i] = g * e[NS_SPAN_PAST][i] - f * e[NS_SPAN_BEFORE + 1][i];
      e[NS_SPAN_V + 1][i] =
          g * e[NS_SPAN_PAST + 1][i] - f * e[NS_SPAN_BEFORE][i];
    }
  }
}

/* A place: the segment it is on or at the end of, its region with the terms of
 * that, its distance from the left end, a little inside of which signs are read
 * (NS_INSIDE), the sums up to it, live load there, f and g; 1 where M has a
 * zero before it, past it. */
struct spans_place {
  int k, low, high;
  const double *restrict r;
  const double *term[NS_SPAN_TERMS];
  ns_lane own[NS_SPAN_TERMS], a, inside, S[4], w, f, g, zero[2];
};

/* The terms of each lane's region. */
NS_INLINE void spans_terms(const struct ns_n_span *o, struct spans_place *p) {
  if (p->low == p->high) {
    for (int g = 0; g < NS_SPAN_TERMS; g++) p->term[g] = o->term[p->low][g];
    return;
  }
  for (int g = 0; g < NS_SPAN_TERMS; g++) {
    ns_copy(p->own[g], o->term[p->low][g]);
    p->term[g] = p->own[g];
  }
  for (int q = p->low + 1; q <= p->high; q++) {
    const double region = q;
    for (int g = 0; g < NS_SPAN_TERMS; g++) {
      const double *restrict term = o->term[q][g];
      double *restrict own = p->own[g];
      LANES(i) own[i] = p->r[i] == region ? term[i] : own[i];
    }
  }
}

/* Adds the load on the first z of segment k to sums from its left end. */
NS_INLINE void spans_add(const struct ns_beam *s, int k, const double *z,
                         ns_lane *S) {
  const struct ns_spans *o = s->sums;
  const double *restrict x = s->x[k], *restrict A = s->A[k];
  const double *restrict per = o->per[k], *restrict f = o->f[k];
  const double *restrict w = s->w[1][k], *restrict dw = s->dw[1][k];
  const double *restrict u0 = o->u[0][k], *restrict d0 = o->du[0][k];
  const double *restrict u1 = o->u[1][k], *restrict d1 = o->du[1][k];
  LANES(i) {
    const double h = z[i], y = x[i] - A[i], c = per[i] * f[i];
    const double m = y * per[i], l = (per[i] > 0 ? 1 : 0) - m;
    const double W = h * (w[i] + dw[i] * h / 2);
    S[0][i] += W;
    S[1][i] += y * W + h * h * (w[i] / 2 + dw[i] * h * NS_3RD);
    S[2][i] += ns_integral(h, w[i], dw[i], u0[i], d0[i], -l * f[i], c);
    S[3][i] += ns_integral(h, w[i], dw[i], u1[i], d1[i], -m * f[i], -c);
  }
}

/* The place at break k, or at the fraction t of segment k. */
NS_INLINE void spans_find(const struct ns_n_span *o, int k, const double *t,
                          bool right, struct spans_place *p) {
  const struct ns_beam *s = o->s;
  const bool after = right || t;
  p->k = after ? k : k - 1;
  p->low = s->sums->low[p->k];
  p->high = s->sums->high[p->k];
  p->r = s->region[p->k];
  spans_terms(o, p);
  const double *restrict x = s->x[k], *restrict A = s->A[p->k];
  const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
  const double *restrict w = s->w[1][p->k], *restrict dw = s->dw[1][p->k];
  const double *restrict L = p->term[NS_SPAN_L];
  const double *restrict F = p->term[NS_SPAN_F];
  const double *restrict G = p->term[NS_SPAN_G];
  const double *restrict back = p->term[NS_SPAN_BACK];
  const double inside = after ? NS_INSIDE : -NS_INSIDE;
  for (int g = 0; g < 4; g++) ns_copy(p->S[g], s->sums->S[after][g][k]);
  LANES(i) {
    const double z = t ? t[i] * (x2[i] - x[i]) : 0;
    p->w[i] = w[i] + dw[i] * z;
    p->a[i] = x[i] - A[i] + z;
    p->inside[i] = ns_min(ns_max(p->a[i] + inside, 0), L[i]);
    p->f[i] = 1 - F[i] * p->a[i];
    p->g[i] = G[i] * p->a[i] - back[i];
    p->zero[0][i] = 1 - F[i] * p->inside[i] < 0 ? 1 : 0;
    p->zero[1][i] = G[i] * p->inside[i] - back[i] < 0 ? 1 : 0;
  }
  if (!t) return;
  ns_lane z;
  LANES(i) z[i] = t[i] * (x2[i] - x[i]);
  spans_add(s, k, z, p->S);
}

/* V and M of load that is not parted by a zero in the span. */
NS_INLINE void spans_whole(const struct spans_place *p, struct ns_sums *e) {
  const double *restrict R = p->term[NS_SPAN_R], *restrict X =
                                                     p->term[NS_SPAN_X];
  const double *restrict per = p->term[NS_SPAN_PER];
  const double *restrict F = p->term[NS_SPAN_F], *restrict G =
                                                     p->term[NS_SPAN_G];
  const double *restrict eL = p->term[NS_SPAN_EL];
  const double *restrict eR = p->term[NS_SPAN_ER];
  const double *restrict B0 = p->term[NS_SPAN_BEFORE];
  const double *restrict B1 = p->term[NS_SPAN_BEFORE + 1];
  const double *restrict P0 = p->term[NS_SPAN_PAST];
  const double *restrict P1 = p->term[NS_SPAN_PAST + 1];
  const double *restrict V0 = p->term[NS_SPAN_V];
  const double *restrict V1 = p->term[NS_SPAN_V + 1];
  LANES(i) {
    const double a = p->a[i], f = p->f[i], g = p->g[i];
    const double V = R[i] - p->S[0][i], M = a * V + p->S[1][i] + X[i];
    const double back =
        eL[i] * p->S[2][i] - eR[i] * p->S[3][i] - per[i] * p->S[1][i];
    const bool left = p->zero[0][i] != 0, right = p->zero[1][i] != 0;
    const double up = left ? B1[i] : B0[i], down = left ? B0[i] : B1[i];
    const double on = right ? P1[i] : P0[i], off = right ? P0[i] : P1[i];
    e->V[0][i] = V0[i] + (V - back);
    e->V[1][i] = V1[i] + back;
    e->M[0][i] = M + f * up + g * on;
    e->M[1][i] = f * down + g * off;
    e->Vc[0][i] = V - F[i] * up + G[i] * on;
    e->Vc[1][i] = G[i] * off - F[i] * down;
    e->bend[i] = -p->w[i];
  }
}

/* On overhangs load makes V of one sign and M < 0. */
NS_INLINE void spans_outside(const struct ns_beam *s,
                             const struct spans_place *p, struct ns_sums *e) {
  const double last = s->spans;
  LANES(i) {
    const bool before = p->r[i]<1, past = p->r[i]> last;
    const bool out = before | past;
    const double V = e->V[0][i] + e->V[1][i];
    e->V[0][i] = before ? 0 : past ? V : e->V[0][i];
    e->V[1][i] = before ? V : past ? 0 : e->V[1][i];
    e->M[1][i] = out ? e->M[0][i] : e->M[1][i];
    e->M[0][i] = out ? 0 : e->M[0][i];
    e->Vc[1][i] = out ? V : e->Vc[1][i];
    e->Vc[0][i] = out ? 0 : e->Vc[0][i];
    e->bend[i] = out ? 0 : e->bend[i];
  }
}

/* The segment of each lane's zero, and what there is at its start; the line of
 * M there but for its sign: p uL + q uR + c + d y. */
struct spans_zero {
  ns_lane p, q, c, d;
  ns_lane h, y, l, r, f, u[2], du[2], S[4], w, dw, z;
};

/* The line by which the sign of M is read. */
NS_INLINE void spans_line(const struct spans_place *p, struct spans_zero *q) {
  const double *restrict per = p->term[NS_SPAN_PER];
  const double *restrict kL = p->term[NS_SPAN_KL];
  const double *restrict kR = p->term[NS_SPAN_KR];
  const double *restrict F = p->term[NS_SPAN_F], *restrict G =
                                                     p->term[NS_SPAN_G];
  const double *restrict back = p->term[NS_SPAN_BACK];
  LANES(i) {
    const double a = p->inside[i], part = a * per[i];
    const bool right = p->zero[1][i] != 0;
    q->p[i] = kL[i] * (1 - F[i] * a);
    q->q[i] = kR[i] * (G[i] * a - back[i]);
    q->c[i] = right ? -a : 0;
    q->d[i] = right ? part : part - 1;
  }
}

/* The segment in which it is nil: before the place the last that begins with
 * M < 0, past it the one before the first. */
NS_INLINE void spans_segment_of(const struct ns_beam *s,
                                const struct spans_place *p,
                                const struct spans_zero *q,
                                double *restrict in) {
  const struct ns_spans *o = s->sums;
  const bool before = ns_any(p->zero[0]), past = ns_any(p->zero[1]);
  const int from = before ? o->from[p->low] : p->k + 1;
  const int to = past ? o->to[p->high] : p->k;
  const double *restrict mine = p->r, *restrict on = p->zero[1];
  ns_lane last, first;
  ns_fill(last, 0);
  ns_fill(first, s->breaks - 1);
  for (int j = from; j <= to; j++) {
    const double *restrict x = s->x[j], *restrict A = s->A[j];
    const double *restrict u0 = o->u[0][j], *restrict u1 = o->u[1][j];
    const double *restrict r = s->region[j];
    const double here = j;
    if (j <= p->k)
      LANES(i) {
        const double y = x[i] - A[i];
        const double m = q->p[i] * u0[i] + q->q[i] * u1[i] + q->c[i];
        const bool hogs = (m + q->d[i] * y > 0) | (y <= 0);
        last[i] = hogs & (r[i] == mine[i]) ? here : last[i];
      }
    else
      LANES(i) {
        const double y = x[i] - A[i];
        const double m = q->p[i] * u0[i] + q->q[i] * u1[i] + q->c[i];
        const bool hogs = (m + q->d[i] * y > 0) | (r[i] != mine[i]);
        first[i] = hogs & (first[i] > here) ? here : first[i];
      }
  }
  LANES(i) in[i] = on[i] != 0 ? first[i] - 1 : last[i];
}

/* What there is at its start. */
NS_INLINE void spans_gather(const struct ns_beam *s, const double *in,
                            struct spans_zero *q) {
  const struct ns_spans *o = s->sums;
  for (int i = 0; i < NS_LANES; i++) {
    const int n = s->breaks, k = (int)in[i], j = k < n - 1 ? k : n - 2;
    q->h[i] = s->x[j + 1][i] - s->x[j][i];
    q->y[i] = s->x[j][i] - s->A[j][i];
    q->r[i] = q->y[i] * o->per[j][i];
    q->l[i] = (o->per[j][i] > 0 ? 1 : 0) - q->r[i];
    q->f[i] = o->f[j][i];
    q->w[i] = s->w[1][j][i];
    q->dw[i] = s->dw[1][j][i];
    for (int g = 0; g < 2; g++) {
      q->u[g][i] = o->u[g][j][i];
      q->du[g][i] = o->du[g][j][i];
    }
    for (int g = 0; g < 4; g++) q->S[g][i] = o->S[1][g][j][i];
  }
}

/* Where in that segment it is. */
NS_INLINE void spans_newton(const struct spans_place *p, struct spans_zero *q) {
  const double *restrict per = p->term[NS_SPAN_PER];
  ns_lane c0, c1, c2, c3, wait;
  LANES(i) {
    const double f = q->f[i];
    c0[i] = q->p[i] * q->u[0][i] + q->q[i] * q->u[1][i] + q->c[i] +
            q->d[i] * q->y[i];
    c1[i] = q->p[i] * q->du[0][i] + q->q[i] * q->du[1][i] + q->d[i];
    c2[i] = -(q->p[i] * q->l[i] + q->q[i] * q->r[i]) * f / 2;
    c3[i] = (q->p[i] - q->q[i]) * per[i] * f * NS_6TH;
    q->z[i] = p->zero[1][i] != 0 ? 0 : q->h[i];
    wait[i] = p->zero[0][i] + p->zero[1][i];
  }
  for (int it = 0; it < 60 && ns_any(wait); it++)
    LANES(i) {
      const double z = q->z[i];
      const double f = c0[i] + z * (c1[i] + z * (c2[i] + z * c3[i]));
      const double g = c1[i] + z * (2 * c2[i] + z * 3 * c3[i]);
      const double step = f / (g == 0 ? 1 : g);
      q->z[i] = wait[i] != 0 ? z - step : z;
      wait[i] = ns_abs(step) <= SPANS_LAST * q->h[i] ? 0 : wait[i];
    }
  LANES(i) q->z[i] = ns_min(ns_max(q->z[i], 0), q->h[i]);
}

/* Sums from the left end of the span to the zero, both u and their slopes
 * there. */
NS_INLINE void spans_at_zero(const struct spans_place *p,
                             struct spans_zero *q) {
  const double *restrict per = p->term[NS_SPAN_PER];
  LANES(i) {
    const double z = q->z[i], w = q->w[i], dw = q->dw[i], f = q->f[i];
    const double W = z * (w + dw * z / 2), c = per[i] * f;
    q->S[0][i] += W;
    q->S[1][i] += q->y[i] * W + z * z * (w / 2 + dw * z * NS_3RD);
    q->S[2][i] +=
        ns_integral(z, w, dw, q->u[0][i], q->du[0][i], -q->l[i] * f, c);
    q->S[3][i] +=
        ns_integral(z, w, dw, q->u[1][i], q->du[1][i], -q->r[i] * f, -c);
  }
  LANES(i) {
    const double z = q->z[i], f = z * q->f[i], g = z * per[i];
    q->u[0][i] += z * (q->du[0][i] - f * (q->l[i] / 2 - g * NS_6TH));
    q->u[1][i] += z * (q->du[1][i] - f * (q->r[i] / 2 + g * NS_6TH));
    q->du[0][i] -= f * (q->l[i] - g / 2);
    q->du[1][i] -= f * (q->r[i] + g / 2);
    q->y[i] += z;
    q->w[i] += q->dw[i] * z;
  }
}

/* Load between the end of the span and the zero goes from M most to M least. */
NS_INLINE void spans_past_zero(const struct ns_beam *s,
                               const struct spans_place *p, struct ns_sums *e) {
  const double *restrict per = p->term[NS_SPAN_PER];
  const double *restrict kL = p->term[NS_SPAN_KL];
  const double *restrict kR = p->term[NS_SPAN_KR];
  const double *restrict eL = p->term[NS_SPAN_EL];
  const double *restrict eR = p->term[NS_SPAN_ER];
  struct spans_zero q;
  ns_lane in;
  spans_line(p, &q);
  spans_segment_of(s, p, &q, in);
  spans_gather(s, in, &q);
  spans_newton(p, &q);
  spans_at_zero(p, &q);
  for (int g = 0; g < 4; g++) {
    const double *restrict T = p->term[NS_SPAN_T + g];
    LANES(i) q.S[g][i] = p->zero[1][i] != 0 ? T[i] - q.S[g][i] : q.S[g][i];
  }
  LANES(i) {
    const bool past = p->zero[1][i] != 0;
    const bool on = past | (p->zero[0][i] != 0);
    const double a = p->a[i], part = a * per[i];
    const double lift = past ? a : 0, turn = past ? -part : 1 - part;
    const double L = kL[i] * p->f[i], R = kR[i] * p->g[i], one = past ? 1 : 0;
    const double dM =
        lift * q.S[0][i] + turn * q.S[1][i] - L * q.S[2][i] - R * q.S[3][i];
    const double dV = one * q.S[0][i] - per[i] * q.S[1][i] + eL[i] * q.S[2][i] -
                      eR[i] * q.S[3][i];
    e->M[0][i] -= on ? dM : 0;
    e->M[1][i] += on ? dM : 0;
    e->Vc[0][i] -= on ? dV : 0;
    e->Vc[1][i] += on ? dV : 0;
    /* the zero moves with the place: w v^2 / (dM/dy) */
    const double v =
        one - per[i] * q.y[i] + eL[i] * q.u[0][i] - eR[i] * q.u[1][i];
    const double rate = ns_abs(turn - L * q.du[0][i] - R * q.du[1][i]);
    const double grow = q.w[i] * v * v / (rate > 0 ? rate : 1);
    e->bend[i] += on & (rate > 0) ? grow : 0;
  }
}

/* Sums of V and M at break k, or at the fraction t of segment k. */
NS_INLINE void spans_work(const struct ns_n_span *o, int k, const double *t,
                          bool right, struct ns_sums *e) {
  const struct ns_beam *s = o->s;
  struct spans_place p;
  if (k == 0 && !right && !t) { /* nothing is left of it */
    ns_no_sums(e);
    return;
  }
  spans_find(o, k, t, right, &p);
  spans_whole(&p, e);
  if (ns_any(p.zero[0]) || ns_any(p.zero[1])) spans_past_zero(s, &p, e);
  if (p.low == 0 || p.high > s->spans) spans_outside(s, &p, e);
}

/* Most and least V and M at break k. */
NS_CLONES void ns_n_span_place(const struct ns_n_span *o, int k, bool right,
                               struct ns_envelope *out) {
  struct ns_sums e;
  spans_work(o, k, NULL, right, &e);
  ns_take_sums(&e, out);
}

/* What makes V and M most and least at the fraction t of segment k. */
NS_CLONES void ns_n_span_within(const struct ns_n_span *o, int k,
                                const double *t, struct ns_sums *e) {
  spans_work(o, k, t, true, e);
}

/* Reactions: V right of the support less V left of it. Load on both spans
 * beside it, or the overhang, presses on it; of what is farther away each span
 * presses or lifts by the end moment it makes. */
NS_CLONES void ns_n_span_reaction(const struct ns_n_span *o, int j,
                                  double *restrict most,
                                  double *restrict least) {
  static const ns_lane none = {0};
  const struct ns_beam *s = o->s;
  const struct ns_spans *b = s->sums;
  const ns_lane *e = o->term[j], *next = o->term[j + 1];
  const double *restrict r = j > 0 ? b->carry[1][j] : none;
  const double *restrict l = j < s->spans ? b->carry[0][j + 1] : none;
  const double *restrict tip = j > 0 ? none : next[NS_SPAN_BEFORE + 1];
  const double *restrict T = b->T[1][0][j], *restrict on = b->on[1][j];
  const double *restrict F = e[NS_SPAN_F], *restrict F2 = next[NS_SPAN_F];
  const double *restrict G = e[NS_SPAN_G], *restrict G2 = next[NS_SPAN_G];
  LANES(i) {
    const double own = T[i] - e[NS_SPAN_R][i] + next[NS_SPAN_R][i];
    const double TL = e[NS_SPAN_T + 2][i], TR = e[NS_SPAN_T + 3][i];
    const double X = tip[i] - e[NS_SPAN_KR][i] * (TR - e[NS_SPAN_BACK][i] * TL);
    const double by_ends = -F2[i] * X - G[i] * next[NS_SPAN_X][i];
    const double before = F[i] + r[i] * F2[i], past = G2[i] + l[i] * G[i];
    most[i] = on[i] + own + by_ends + before * e[NS_SPAN_BEFORE][i] +
              past * next[NS_SPAN_PAST][i];
    least[i] =
        before * e[NS_SPAN_BEFORE + 1][i] + past * next[NS_SPAN_PAST + 1][i];
  }
}
