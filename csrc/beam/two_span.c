/* SPDX-License-Identifier: MIT
 * two_span.c - live load where it hurts on two spans without overhangs, by
 * sums.
 *
 * Let n(y) >= 0 be the hogging moment over the middle support under a unit load
 * at y, and y' the distance of y from the outer support of its span. The
 * reaction of that support is R = 1 - (y' + n)/L for a load in the span, -n/L
 * for one in the other. All else follows, at the distance a from the support:
 *
 *     V = R - 1, M = a R - (a - y')   for a load between support and place
 *     V = R,     M = a R              for a load beyond it
 *
 * 0 < R < 1 in the span, so V changes sign at the place only. M < 0 in the
 * other span and M > 0 beyond the place; between support and place M is
 * (a/L)(r y' - n), r = L/a - 1. n is a deflected shape under M/EI of one sign,
 * hence concave, and n/y' falls from the slope of n at the support: M has one
 * zero there if r is less than that slope (the place is past the fixed point),
 * and none otherwise. Newton from the inner end of its segment comes to it from
 * one side. So V and M under patch load are sums of load, of load times y' and
 * of load times n, from the outer support to the place and to the zero.
 *
 * In the second span signs of V are turned; x runs towards its outer support.
 */
#include "beam/table.h"

/* A step of Newton below this part of the segment is the last. */
#define TWO_LAST 1e-10

/* Least slope r that is looked at: of a place at the middle support it is nil,
 * and n is there but for rounding. */
#define TWO_LEAST 1e-12

/* Whether a beam is two spans and nothing else. */
bool ns_two_span_plain(const struct ns_beam *s) {
  return s->spans == 2 && !s->left && !s->right && s->hinges == 0 &&
         s->stations == 0;
}

/* n on each segment, and the distance from the outer support. */
NS_INLINE void two_shapes(struct ns_two_span *o) {
  const struct ns_beam *s = o->s;
  const struct ns_answer *u = &s->answer[0];
  const double *restrict A = s->support[0], *restrict B = s->support[1];
  const double *restrict C = s->support[2];
  LANES(i) {
    o->L[0][i] = B[i] - A[i];
    o->L[1][i] = C[i] - B[i];
    o->steep[0][i] = o->steep[1][i] = 0;
  }
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k], *restrict EI = s->EI[k];
    const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
    LANES(i) {
      const bool two = x[i] >= B[i];
      const double inv = u->inverse[0][i], f = -inv / EI[i];
      const double n1 = inv * u->du[k][i];
      const double n2 = f * u->m0[k][i], n3 = f * u->dm[k][i];
      const double h = x2[i] - x[i];
      const bool first = (x[i] == A[i]) & (h > 0);
      const bool last = (x2[i] == C[i]) & (h > 0);
      o->second[k][i] = two ? 1 : 0;
      o->a[k][i] = two ? C[i] - x[i] : x[i] - A[i];
      o->n[0][k][i] = inv * u->u[k][i];
      o->n[1][k][i] = n1;
      o->n[2][k][i] = n2;
      o->n[3][k][i] = n3;
      o->steep[0][i] = first ? n1 : o->steep[0][i];
      o->steep[1][i] = last ? -(n1 + h * (n2 + h * n3 / 2)) : o->steep[1][i];
    }
  }
}

/* Load of segment k times 1, y' and n, in the lanes where it is in span p. */
NS_INLINE void two_segment(const struct ns_two_span *o, int k, int p,
                           ns_lane *S) {
  const struct ns_beam *s = o->s;
  const double *restrict W0 = s->W[0][k], *restrict W1 = s->W[1][k];
  const double *restrict Wu = s->answer[0].W[k], *restrict at = o->second[k];
  const double *restrict inv = s->answer[0].inverse[0];
  const double *restrict end = s->support[2 * p];
  const double way = p ? -1 : 1;
  LANES(i) {
    const bool in = at[i] == p;
    S[0][i] += in ? W0[i] : 0;
    S[1][i] += in ? way * (W1[i] - end[i] * W0[i]) : 0;
    S[2][i] += in ? inv[i] * Wu[i] : 0;
  }
}

/* The point load at break k; one over a support bears on it alone. */
NS_INLINE void two_point(const struct ns_two_span *o, int k, int p,
                         ns_lane *S) {
  const struct ns_beam *s = o->s;
  const double *restrict x = s->x[k], *restrict P = s->P[1][k];
  const double *restrict lo = s->support[p], *restrict hi = s->support[p + 1];
  const double *restrict end = s->support[2 * p], *restrict n = o->n[0][k];
  const double way = p ? -1 : 1;
  LANES(i) {
    const double load = (x[i] > lo[i]) & (x[i] < hi[i]) ? P[i] : 0;
    S[0][i] += load;
    S[1][i] += load * (way * (x[i] - end[i]));
    S[2][i] += load * n[i];
  }
}

/* Sums from the outer support of the span to one side of break k. */
NS_INLINE void two_keep(struct ns_two_span *o, int k, int side,
                        const double *on, ns_lane *S) {
  for (int g = 0; g < 3; g++) {
    double *restrict to = o->sum[side][g][k];
    const double *restrict from = S[g];
    LANES(i) to[i] = on[i] != 0 ? from[i] : to[i];
  }
}

/* The first span from the left, the second from the right. */
NS_INLINE void two_sums(struct ns_two_span *o, const bool *points) {
  const struct ns_beam *s = o->s;
  const double *restrict B = s->support[1];
  const int n = s->breaks;
  for (int p = 0; p < 2; p++) {
    ns_lane S[3] = {{0}, {0}, {0}}, near, past;
    for (int c = 0; c < n; c++) {
      const int k = p ? n - 1 - c : c;
      const double *restrict x = s->x[k];
      LANES(i) {
        near[i] = p ? x[i] >= B[i] : x[i] <= B[i]; /* B on the nearer side */
        past[i] = p ? x[i] > B[i] : x[i] < B[i];
      }
      if (!ns_any(near)) break; /* and so on: past the span in all lanes */
      if (p && k < n - 1) two_segment(o, k, p, S);
      two_keep(o, k, p ? 1 : 0, near, S);
      if (points[k]) two_point(o, k, p, S);
      two_keep(o, k, p ? 0 : 1, past, S);
      if (!p && k < n - 1) two_segment(o, k, p, S);
    }
    for (int g = 0; g < 3; g++) ns_copy(o->all[p][g], S[g]);
  }
  for (int p = 0; p < 2; p++)
    LANES(i) {
      const double L = o->L[p][i];
      o->R[p][i] = o->all[p][0][i] - (o->all[p][1][i] + o->all[p][2][i]) / L;
      o->U[p][i] = o->all[1 - p][2][i] / L;
    }
}

/* Sums of live load from the outer supports, once for all places. */
NS_CLONES void ns_two_span_lay(struct ns_two_span *o, const struct ns_beam *s,
                               const bool *points) {
  o->s = s;
  two_shapes(o);
  two_sums(o, points);
}

/* A place in the terms of its span: a, r, the sums from the outer support to
 * it, 1 where it is in the second span, has no beam on that side, or has the
 * zero. */
struct two_place {
  ns_lane two, out, far, a, r, S[3], w;
};

/* Adds what is between break k and the part t of its segment. */
NS_INLINE void two_within(const struct ns_two_span *o, int k, const double *t,
                          struct two_place *p) {
  const struct ns_beam *s = o->s;
  const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
  const double *restrict w = s->w[1][k], *restrict dw = s->dw[1][k];
  LANES(i) {
    const double z = t[i] * (x2[i] - x[i]), way = p->two[i] != 0 ? -1 : 1;
    const double W = z * (w[i] + dw[i] * z / 2);
    const double moved = z * z * (w[i] / 2 + dw[i] * z * NS_3RD);
    p->S[0][i] += way * W;
    p->S[1][i] += way * (o->a[k][i] * W + way * moved);
    p->S[2][i] +=
        way * ns_integral(z, w[i], dw[i], o->n[0][k][i], o->n[1][k][i],
                          o->n[2][k][i], o->n[3][k][i]);
    p->a[i] += way * z;
    p->w[i] = w[i] + dw[i] * z;
  }
}

/* The sign of M is read a little inside (NS_INSIDE), as that of any line. */
NS_INLINE void two_find(const struct ns_two_span *o, int k, const double *t,
                        bool right, struct two_place *p) {
  const struct ns_beam *s = o->s;
  const double *restrict A = s->support[0], *restrict B = s->support[1];
  const double *restrict C = s->support[2], *restrict x = s->x[k];
  const double inside = right || t ? NS_INSIDE : -NS_INSIDE;
  LANES(i) {
    const bool two = right ? x[i] >= B[i] : x[i] > B[i];
    p->two[i] = two ? 1 : 0;
    p->out[i] = right ? x[i] >= C[i] : x[i] <= A[i];
    p->a[i] = two ? C[i] - x[i] : x[i] - A[i];
    p->w[i] = 0;
  }
  for (int g = 0; g < 3; g++) ns_copy(p->S[g], o->sum[right][g][k]);
  if (t) two_within(o, k, t, p);
  LANES(i) {
    const bool two = p->two[i] != 0;
    const double a = p->a[i] + (two ? -inside : inside);
    const double L = two ? o->L[1][i] : o->L[0][i];
    const double steep = two ? o->steep[1][i] : o->steep[0][i];
    const double r = L / (a > 0 ? a : 1) - 1;
    p->r[i] = ns_max(r, TWO_LEAST);
    p->far[i] = (a > 0) & (r < steep) & (p->out[i] == 0) ? 1 : 0;
  }
}

/* The segment of each lane's zero, and what there is at its start. */
struct two_zero {
  ns_lane h, a, n[4], S[3], w, dw, z;
};

/* The segment in which M of a place on segment k is nil, lane by lane. */
NS_INLINE void two_segment_of(const struct ns_two_span *o, int k,
                              const struct two_place *p, struct two_zero *q) {
  const struct ns_beam *s = o->s;
  const int n = s->breaks;
  const double *restrict r = p->r, *restrict two = p->two;
  ns_lane last = {0}, first, in_one, in_two;
  ns_fill(first, n - 1);
  LANES(i) {
    in_one[i] = p->far[i] * (1 - two[i]);
    in_two[i] = p->far[i] * two[i];
  }
  /* between the outer support and the place */
  const int from = ns_any(in_one) ? 0 : k, to = ns_any(in_two) ? n : k + 1;
  for (int j = from; j < to; j++) {
    const double *restrict a = o->a[j], *restrict v = o->n[0][j];
    const double *restrict at = o->second[j];
    const double here = j, none = n - 1;
    LANES(i) {
      const bool hogs = (v[i] > r[i] * a[i]) | (a[i] <= 0);
      const bool in = hogs & (at[i] == two[i]);
      last[i] = in ? here : last[i];
      first[i] = in & (first[i] == none) ? here : first[i];
    }
  }
  for (int i = 0; i < NS_LANES; i++) {
    const int end = (int)first[i] > 0 ? (int)first[i] - 1 : 0;
    const int in = p->two[i] != 0 ? end : (int)last[i];
    const int j = in < n - 1 ? in : n - 2;
    q->h[i] = s->x[j + 1][i] - s->x[j][i];
    q->a[i] = o->a[j][i];
    for (int g = 0; g < 4; g++) q->n[g][i] = o->n[g][j][i];
    for (int g = 0; g < 3; g++) q->S[g][i] = o->sum[1][g][j][i];
    q->w[i] = s->w[1][j][i];
    q->dw[i] = s->dw[1][j][i];
  }
}

/* Where n = r y' in that segment. */
NS_INLINE void two_newton(const struct two_place *p, struct two_zero *q) {
  ns_lane c0, c1, c2, c3, wait;
  LANES(i) {
    const bool two = p->two[i] != 0;
    c0[i] = q->n[0][i] - p->r[i] * q->a[i];
    c1[i] = q->n[1][i] - (two ? -p->r[i] : p->r[i]);
    c2[i] = q->n[2][i] / 2;
    c3[i] = q->n[3][i] * NS_6TH;
    q->z[i] = two ? 0 : q->h[i];
    wait[i] = p->far[i];
  }
  for (int it = 0; it < 60 && ns_any(wait); it++)
    LANES(i) {
      const double z = q->z[i];
      const double f = c0[i] + z * (c1[i] + z * (c2[i] + z * c3[i]));
      const double g = c1[i] + z * (2 * c2[i] + z * 3 * c3[i]);
      const double step = f / (g == 0 ? 1 : g);
      q->z[i] = wait[i] != 0 ? z - step : z;
      wait[i] = ns_abs(step) <= TWO_LAST * q->h[i] ? 0 : wait[i];
    }
  LANES(i) q->z[i] = ns_min(ns_max(q->z[i], 0), q->h[i]);
}

/* Load between the outer support and the zero goes from M most to M least. */
NS_INLINE void two_past_zero(const struct ns_two_span *o, int k,
                             const struct two_place *p, struct ns_sums *e) {
  struct two_zero q;
  two_segment_of(o, k, p, &q);
  two_newton(p, &q);
  LANES(i) {
    const bool two = p->two[i] != 0, on = p->far[i] != 0;
    const double way = two ? -1 : 1, L = two ? o->L[1][i] : o->L[0][i];
    const double z = q.z[i], w = q.w[i], dw = q.dw[i], a = p->a[i];
    const double W = z * (w + dw * z / 2);
    const double moved = z * z * (w / 2 + dw * z * NS_3RD);
    const double S1 = q.S[1][i] + way * (q.a[i] * W + way * moved);
    const double Sn =
        q.S[2][i] +
        way * ns_integral(z, w, dw, q.n[0][i], q.n[1][i], q.n[2][i], q.n[3][i]);
    const double dV = -(S1 + Sn) / L, dM = a * dV + S1;
    e->M[0][i] -= on ? dM : 0;
    e->M[1][i] += on ? dM : 0;
    e->Vc[0][i] -= on ? way * dV : 0;
    e->Vc[1][i] += on ? way * dV : 0;
    /* the zero moves with the place: w v^2 / (dM/dy) */
    const double n =
        q.n[0][i] +
        z * (q.n[1][i] + z * (q.n[2][i] / 2 + z * q.n[3][i] * NS_6TH));
    const double n1 = q.n[1][i] + z * (q.n[2][i] + z * q.n[3][i] / 2);
    const double v = (q.a[i] + way * z + n) / L;
    const double rate = ns_abs(way * n1 - p->r[i]) * a / L;
    const double grow = (w + dw * z) * v * v / (rate > 0 ? rate : 1);
    e->bend[i] += on & (rate > 0) ? grow : 0;
  }
}

/* Sums of V and M at break k, or at the fraction t of segment k. */
NS_INLINE void two_work(const struct ns_two_span *o, int k, const double *t,
                        bool right, struct ns_sums *e) {
  struct two_place p;
  two_find(o, k, t, right, &p);
  LANES(i) {
    const bool two = p.two[i] != 0, on = p.out[i] == 0;
    const double L = two ? o->L[1][i] : o->L[0][i], a = p.a[i];
    const double R = two ? o->R[1][i] : o->R[0][i];
    const double U = two ? o->U[1][i] : o->U[0][i];
    const double S0 = p.S[0][i], S1 = p.S[1][i], back = (S1 + p.S[2][i]) / L;
    const double up = R - S0 + back, down = -back - U; /* V beyond, before */
    const double most = two ? -down : up, least = two ? -up : down;
    const double M = a * (R - S0) + S1, V = two ? S0 - R : R - S0;
    e->V[0][i] = on ? most : 0;
    e->V[1][i] = on ? least : 0;
    e->M[0][i] = on ? M : 0;
    e->M[1][i] = on ? -a * U : 0;
    e->Vc[0][i] = on ? V : 0;
    e->Vc[1][i] = on ? (two ? U : -U) : 0;
    e->bend[i] = -p.w[i];
  }
  if (ns_any(p.far)) two_past_zero(o, k, &p, e);
}

/* Most and least V and M at break k. */
NS_CLONES void ns_two_span_place(const struct ns_two_span *o, int k, bool right,
                                 struct ns_envelope *out) {
  struct ns_sums e;
  two_work(o, k, NULL, right, &e);
  ns_take_sums(&e, out);
}

/* What makes V and M most and least at the fraction t of segment k. */
NS_CLONES void ns_two_span_within(const struct ns_two_span *o, int k,
                                  const double *t, struct ns_sums *e) {
  two_work(o, k, t, true, e);
}

/* Reactions: of an outer support R on its span, -n/L on the other; of the
 * middle one the rest, which is positive all along. */
NS_CLONES void ns_two_span_reaction(const struct ns_two_span *o, int j,
                                    double *restrict most,
                                    double *restrict least) {
  const struct ns_beam *s = o->s;
  ns_lane P = {0};
  for (int k = 0; k < s->breaks; k++)
    LANES(i) P[i] += s->x[k][i] == s->support[j][i] ? s->P[1][k][i] : 0;
  LANES(i) {
    const double L = o->L[0][i], M = o->L[1][i];
    const double n = o->all[0][2][i] + o->all[1][2][i];
    const double inner =
        o->all[0][1][i] / L + o->all[1][1][i] / M + n / L + n / M;
    const double outer = j ? o->R[1][i] : o->R[0][i];
    const double U = j ? o->U[1][i] : o->U[0][i];
    most[i] = P[i] + (j == 1 ? inner : outer);
    least[i] = j == 1 ? 0 : -U;
  }
}
