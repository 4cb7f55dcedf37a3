/* SPDX-License-Identifier: MIT
 * single_span.c - one span between two supports, by statics: what beam.c,
 * envelope.c and table.c find of any beam, without their unknowns, regions and
 * signs.
 *
 * The influence line of V is -(x - A) / L before its place and (B - x) / L
 * after it, that of M is positive all along. So V and M under live load where
 * it hurts are sums over what is before and after the place, carried from
 * break to break, and load that makes M least is none. */
#include "beam/table.h"

/* One region, and what lies on its far support. */
NS_INLINE void single_regions(struct ns_beam *s) {
  const double *restrict S0 = s->support[0], *restrict S1 = s->support[1];
  const double *restrict last = s->x[s->breaks - 1];
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k];
    double *restrict r = s->region[k], *restrict A = s->A[k];
    double *restrict B = s->B[k];
    LANES(i) {
      const bool past = x[i] >= S1[i];
      r[i] = past ? 2 : 1;
      A[i] = past ? S1[i] : S0[i];
      B[i] = past ? last[i] : S1[i];
    }
  }
}

/* Load, and load times x, of segment k in a case; kept of live load. */
NS_INLINE void single_segment(struct ns_beam *s, int c, int k,
                              double *restrict S0, double *restrict S1) {
  const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
  const double *restrict w = s->w[c][k], *restrict dw = s->dw[c][k];
  double *restrict W0 = s->W[0][k], *restrict W1 = s->W[1][k];
  LANES(i) {
    const double h = x2[i] - x[i], W = h * (w[i] + dw[i] * h / 2);
    const double Wx = x[i] * W + h * h * (w[i] / 2 + dw[i] * h * NS_3RD);
    S0[i] += W;
    S1[i] += Wx;
    W0[i] = W;
    W1[i] = Wx;
  }
}

/* Point loads; one over a support bears on it alone. */
NS_INLINE void single_points(const struct ns_beam *s, int c,
                             double *restrict S0, double *restrict S1,
                             double *restrict on_left,
                             double *restrict on_right) {
  const double *restrict A = s->support[0], *restrict B = s->support[1];
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k], *restrict P = s->P[c][k];
    LANES(i) {
      const bool left = x[i] == A[i], right = x[i] == B[i];
      const double inner = left | right ? 0 : P[i];
      on_left[i] += left ? P[i] : 0;
      on_right[i] += right ? P[i] : 0;
      S0[i] += inner;
      S1[i] += inner * x[i];
    }
  }
}

/* Reactions of a case, and V just right of the first support. Live load comes
 * last, so that its sums stay in W. */
NS_INLINE void single_reactions(struct ns_beam *s, int c, bool points,
                                double *restrict V) {
  const double *restrict A = s->support[0], *restrict B = s->support[1];
  double *restrict R0 = s->R[c][0], *restrict R1 = s->R[c][1];
  ns_lane S0 = {0}, S1 = {0}, on_left = {0}, on_right = {0};
  for (int k = 0; k < s->breaks - 1; k++) single_segment(s, c, k, S0, S1);
  if (points) single_points(s, c, S0, S1, on_left, on_right);
  LANES(i) {
    V[i] = (B[i] * S0[i] - S1[i]) / (B[i] - A[i]);
    R0[i] = on_left[i] + V[i];
    R1[i] = on_right[i] + (S0[i] - V[i]);
  }
}

/* V and M of case c from its reactions. */
NS_INLINE void single_forces(struct ns_beam *s, int c) {
  const double *restrict B = s->support[1];
  const bool points = ns_has_points(s, c);
  ns_lane start, V = {0}, M = {0};
  single_reactions(s, c, points, start);
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k];
    const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
    const double *restrict w = s->w[c][k], *restrict dw = s->dw[c][k];
    const double *restrict P = s->P[c][k];
    double *restrict VL = s->VL[c][k], *restrict VR = s->VR[c][k];
    double *restrict Mk = s->M[c][k];
    LANES(i) VL[i] = V[i];
    if (points)
      LANES(i) V[i] -= P[i];
    if (k == 0)
      LANES(i) V[i] = start[i];
    LANES(i) {
      const bool past = x[i] >= B[i];
      const double h = x2[i] - x[i], v = past ? 0 : V[i], m = past ? 0 : M[i];
      VR[i] = v;
      Mk[i] = m;
      M[i] = m + h * (v - h * (w[i] / 2 + dw[i] * h * NS_6TH));
      V[i] = v - h * (w[i] + dw[i] * h / 2);
    }
  }
}

/* Slope and deflection over segment k, a step of the integration. */
NS_INLINE void single_sag_step(const struct ns_beam *s, int c, int k,
                               const double *f, double *restrict y,
                               double *restrict t) {
  const double *restrict x = s->x[k];
  const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
  const double *restrict w = s->w[c][k], *restrict dw = s->dw[c][k];
  const double *restrict M = s->M[c][k], *restrict V = s->VR[c][k];
  LANES(i) {
    const double h = x2[i] - x[i];
    y[i] += h * (t[i] - h * f[i] *
                            (M[i] / 2 +
                             h * (V[i] * NS_6TH - h * (w[i] * NS_24TH +
                                                       dw[i] * h * NS_120TH))));
    t[i] -= h * f[i] *
            (M[i] + h * (V[i] / 2 - h * (w[i] * NS_6TH + dw[i] * h * NS_24TH)));
  }
}

/* The turn in a spring at break k takes its part off the slope after it. */
NS_INLINE void single_turn(const struct ns_beam *s, int c, int k, int h,
                           double *restrict t) {
  const double *restrict x = s->x[k], *restrict M = s->M[c][k];
  const double *restrict at = s->hinge[h], *restrict stiff = s->hinge_k[h];
  ns_lane here;
  LANES(i) here[i] = (x[i] == at[i]) & ns_new_place(s, k, i) ? 1 : 0;
  if (!ns_any(here)) return;
  LANES(i) t[i] -= here[i] != 0 ? M[i] / stiff[i] : 0;
}

/* Dead and live: integrated from the first support, then the second is
 * levelled. */
NS_INLINE void single_sag(struct ns_beam *s) {
  const double *restrict A = s->support[0], *restrict B = s->support[1];
  ns_lane y[2] = {{0}, {0}}, t[2] = {{0}, {0}}, f, g;
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict EI = s->EI[k];
    LANES(i) f[i] = 1 / EI[i];
    for (int c = 0; c < 2; c++) {
      for (int h = 0; h < s->hinges; h++) single_turn(s, c, k, h, t[c]);
      ns_copy(s->sag[c][k], y[c]);
      ns_copy(s->slope[c][k], t[c]);
      single_sag_step(s, c, k, f, y[c], t[c]);
    }
  }
  for (int c = 0; c < 2; c++) {
    const double *restrict end = s->sag[c][s->breaks - 1];
    LANES(i) g[i] = end[i] / (B[i] - A[i]);
    for (int k = 0; k < s->breaks; k++) {
      double *restrict sag = s->sag[c][k], *restrict slope = s->slope[c][k];
      const double *restrict x = s->x[k];
      LANES(i) {
        sag[i] -= g[i] * (x[i] - A[i]);
        slope[i] -= g[i];
      }
    }
  }
}

/* All spans that are loaded are this one: the last case has no load. */
static void no_last_case(struct ns_beam *s) {
  const size_t rows = sizeof(ns_lane) * (size_t)s->breaks;
  memset(s->M[2], 0, rows);
  memset(s->VL[2], 0, rows);
  memset(s->VR[2], 0, rows);
  memset(s->slope[2], 0, rows);
  memset(s->sag[2], 0, rows);
  memset(s->R[2], 0, 2 * sizeof(ns_lane));
}

/* Forces and deflection of both cases by statics. */
NS_CLONES void ns_single_span_solve(struct ns_beam *s) {
  ns_fill(s->unstable, 0);
  s->unknowns = 0;
  single_regions(s);
  single_forces(s, 0);
  single_forces(s, 1);
  single_sag(s);
  no_last_case(s);
}

/* Forces of a as those of m, on which its loads are; its own deflection. */
NS_CLONES void ns_single_span_follow(const struct ns_beam *m,
                                     struct ns_beam *a) {
  const size_t rows = sizeof(ns_lane) * (size_t)m->breaks;
  ns_copy(a->unstable, m->unstable);
  a->unknowns = 0;
  single_regions(a);
  memcpy(a->W[0], m->W[0], rows);
  memcpy(a->W[1], m->W[1], rows);
  memcpy(a->R, m->R, sizeof m->R);
  for (int c = 0; c < 2; c++) {
    memcpy(a->M[c], m->M[c], rows);
    memcpy(a->VL[c], m->VL[c], rows);
    memcpy(a->VR[c], m->VR[c], rows);
  }
  single_sag(a);
  no_last_case(a);
}

/* One side of break k, in the lanes where the span is there: V holds what load
 * after it adds, 'before' is what load before it takes off. */
NS_INLINE void single_side(const struct ns_beam *s, int k, const double *on,
                           const double *before, struct ns_envelope *e) {
  const double *restrict A = s->support[0], *restrict B = s->support[1];
  const double *restrict x = s->x[k];
  LANES(i) {
    const bool here = on[i] < B[i];
    const double after = e->V[0][i], U = before[i];
    const double M = (B[i] - x[i]) * U + (x[i] - A[i]) * after;
    const double V = here ? after : 0, least = here ? 0 - U : 0;
    e->V[0][i] = V;
    e->V[1][i] = least;
    e->M[0][i] = here ? M : 0;
    e->M[1][i] = 0;
    e->Vc[0][i] = V + least;
    e->Vc[1][i] = 0;
  }
}

/* Live load times (B - x)/L beyond each place, which makes V most. */
NS_INLINE void single_sums_after(const struct ns_beam *s, const double *per,
                                 bool points, struct ns_table *t) {
  const double *restrict B = s->support[1];
  ns_lane T = {0};
  for (int k = s->breaks - 1; k >= 0; k--) {
    const double *restrict W0 = s->W[0][k], *restrict W1 = s->W[1][k];
    const double *restrict P = s->P[1][k], *restrict x = s->x[k];
    if (k < s->breaks - 1)
      LANES(i) T[i] += (B[i] * W0[i] - W1[i]) * per[i];
    ns_copy(t->side[1][k].V[0], T);
    if (points)
      LANES(i) T[i] += P[i] * (B[i] - x[i]) * per[i];
    ns_copy(t->side[0][k].V[0], T);
  }
  ns_copy(t->R[0][0], T);
  ns_fill(t->R[1][0], 0);
}

/* Live load times (x - A)/L before each place, which makes V least. */
NS_INLINE void single_sums_before(const struct ns_beam *s, const double *per,
                                  bool points, struct ns_table *t) {
  const double *restrict A = s->support[0];
  ns_lane U = {0};
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict W0 = s->W[0][k], *restrict W1 = s->W[1][k];
    const double *restrict P = s->P[1][k], *restrict x = s->x[k];
    single_side(s, k, k > 0 ? s->x[k - 1] : s->support[1], U, &t->side[0][k]);
    if (points)
      LANES(i) U[i] += P[i] * (x[i] - A[i]) * per[i];
    single_side(s, k, s->x[k], U, &t->side[1][k]);
    if (k < s->breaks - 1)
      LANES(i) U[i] += (W1[i] - A[i] * W0[i]) * per[i];
  }
  ns_copy(t->R[0][1], U);
  ns_fill(t->R[1][1], 0);
}

/* Most and least V, M and reactions at every break. */
NS_CLONES void ns_single_span_envelopes(const struct ns_beam *s,
                                        struct ns_table *t) {
  const double *restrict A = s->support[0], *restrict B = s->support[1];
  const bool points = ns_has_points(s, 1);
  ns_lane per;
  LANES(i) per[i] = 1 / (B[i] - A[i]);
  single_sums_after(s, per, points, t);
  single_sums_before(s, per, points, t);
}
