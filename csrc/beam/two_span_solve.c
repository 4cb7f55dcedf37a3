/* SPDX-License-Identifier: MIT
 * two_span_solve.c - two spans without overhangs: what beam.c finds of any
 * beam, in one pass for the unit moment over the middle support and one for all
 * cases.
 *
 * The base system is two simple spans, the unknown the moment X over B:
 * X = -(integral of load times u) / F, u the deflection under a unit moment
 * there, F the rotation of both spans against each other at B (force method,
 * as beam.c). All rows are those that beam.c would fill. */
#include "beam/table.h"

/* Which span a segment is in, and the supports of that span. */
NS_INLINE void two_regions(struct ns_beam *s) {
  const double *restrict S0 = s->support[0], *restrict S1 = s->support[1];
  const double *restrict S2 = s->support[2];
  const double *restrict last = s->x[s->breaks - 1];
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k];
    double *restrict r = s->region[k], *restrict A = s->A[k];
    double *restrict B = s->B[k];
    LANES(i) {
      const bool two = x[i] >= S1[i], past = x[i] >= S2[i];
      r[i] = past ? 3 : two ? 2 : 1;
      A[i] = past ? S2[i] : two ? S1[i] : S0[i];
      B[i] = past ? last[i] : two ? S2[i] : S1[i];
    }
  }
}

/* u and its derivatives under a unit moment over B; 1 / F; 1 / EI by row. */
NS_INLINE void two_unit(struct ns_beam *s, ns_lane *f) {
  struct ns_answer *o = &s->answer[0];
  const double *restrict S0 = s->support[0], *restrict S1 = s->support[1];
  const double *restrict S2 = s->support[2];
  ns_lane y = {0}, t = {0}, F = {0}, end = {0}, g[2];
  LANES(i) {
    g[0][i] = 1 / (S1[i] - S0[i]);
    g[1][i] = -1 / (S2[i] - S1[i]);
  }
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k], *restrict EI = s->EI[k];
    const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
    LANES(i) {
      const bool two = x[i] >= S1[i], past = x[i] >= S2[i];
      const bool at = x[i] == S1[i];
      const double c = 1 / EI[i], h = past ? 0 : x2[i] - x[i];
      const double rise = two ? g[1][i] : g[0][i];
      const double m = (two ? 1 : 0) + rise * (x[i] - (two ? S1[i] : S0[i]));
      const double me = m + rise * h;
      end[i] = at & ((y[i] != 0) | (t[i] != 0)) ? y[i] : end[i];
      y[i] = at ? 0 : y[i];
      t[i] = at ? 0 : t[i];
      f[k][i] = c;
      o->u[k][i] = past ? 0 : y[i];
      o->du[k][i] = past ? 0 : t[i];
      o->m0[k][i] = past ? 0 : m;
      o->dm[k][i] = past ? 0 : rise;
      F[i] += h * NS_3RD * c * (m * m + m * me + me * me);
      y[i] += h * (t[i] - h * c * (m / 2 + rise * h * NS_6TH));
      t[i] -= h * c * (m + rise * h / 2);
    }
  }
  for (int k = 0; k < s->breaks; k++) { /* turn both back to level ends */
    const double *restrict x = s->x[k];
    double *restrict u = o->u[k], *restrict du = o->du[k];
    LANES(i) {
      const bool two = x[i] >= S1[i], past = x[i] >= S2[i];
      const double turn = past ? 0 : two ? -y[i] * g[1][i] : end[i] * g[0][i];
      u[i] -= turn * (x[i] - (two ? S1[i] : S0[i]));
      du[i] -= turn;
    }
  }
  LANES(i) {
    const bool lost = !(F[i] > 0);
    s->unstable[i] = lost ? 1 : 0;
    o->inverse[0][i] = 1 / (lost ? 1 : F[i]);
  }
}

/* Load, load times x and load times u of a segment. */
NS_INLINE void two_weigh(struct ns_beam *s, int c, int k, const ns_lane *f,
                         double *restrict W0, double *restrict W1,
                         double *restrict Wu) {
  const struct ns_answer *o = &s->answer[0];
  const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
  const double *restrict w = s->w[c][k], *restrict dw = s->dw[c][k];
  const double *restrict u = o->u[k], *restrict du = o->du[k];
  const double *restrict m = o->m0[k], *restrict dm = o->dm[k];
  const double *restrict by = f[k];
  LANES(i) {
    const double h = x2[i] - x[i];
    W0[i] = h * (w[i] + dw[i] * h / 2);
    W1[i] = x[i] * W0[i] + h * h * (w[i] / 2 + dw[i] * h * NS_3RD);
    Wu[i] =
        ns_integral(h, w[i], dw[i], u[i], du[i], -m[i] * by[i], -dm[i] * by[i]);
  }
}

/* Sums of one kind of load by span: load, times x, times u; and what stands on
 * each support. */
struct two_loads {
  ns_lane S[2][3], on[3];
};

/* Point loads of case c: their sums, and those times u. */
NS_INLINE void two_points(const struct ns_beam *s, int c, struct two_loads *o) {
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k], *restrict P = s->P[c][k];
    const double *restrict u = s->answer[0].u[k], *restrict r = s->region[k];
    ns_lane inner;
    ns_copy(inner, P);
    for (int j = 0; j < 3; j++) {
      const double *restrict at = s->support[j];
      double *restrict on = o->on[j];
      LANES(i) {
        const bool here = x[i] == at[i];
        on[i] += here ? P[i] : 0;
        inner[i] = here ? 0 : inner[i];
      }
    }
    for (int p = 0; p < 2; p++)
      LANES(i) {
        const double load = r[i] == p + 1 ? inner[i] : 0;
        o->S[p][0][i] += load;
        o->S[p][1][i] += load * x[i];
        o->S[p][2][i] += load * u[i];
      }
  }
}

/* That of live load is kept in W. */
NS_INLINE void two_load(struct ns_beam *s, int c, const ns_lane *f, bool points,
                        struct two_loads *o) {
  struct ns_answer *a = &s->answer[0];
  memset(o, 0, sizeof *o);
  for (int k = 0; k < s->breaks - 1; k++) {
    const double *restrict r = s->region[k];
    double *restrict W0 = s->W[0][k], *restrict W1 = s->W[1][k];
    double *restrict Wu = a->W[k];
    two_weigh(s, c, k, f, W0, W1, Wu);
    LANES(i) {
      const bool one = r[i] == 1, two = r[i] == 2;
      o->S[0][0][i] += one ? W0[i] : 0;
      o->S[0][1][i] += one ? W1[i] : 0;
      o->S[0][2][i] += one ? Wu[i] : 0;
      o->S[1][0][i] += two ? W0[i] : 0;
      o->S[1][1][i] += two ? W1[i] : 0;
      o->S[1][2][i] += two ? Wu[i] : 0;
    }
  }
  if (points) two_points(s, c, o);
}

/* M over the middle support, V right of each, reactions; case 1 loads the
 * first span, 2 the second. A load on the last support is in case 1. */
NS_INLINE void two_start(struct ns_beam *s, int c, const struct two_loads *o,
                         double *restrict X, ns_lane *V) {
  const double *restrict S0 = s->support[0], *restrict S1 = s->support[1];
  const double *restrict S2 = s->support[2];
  const double *restrict inv = s->answer[0].inverse[0];
  const double p = c == 2 ? 0 : 1, q = c == 1 ? 0 : 1;
  LANES(i) {
    const double L = S1[i] - S0[i], M = S2[i] - S1[i];
    const double a0 = p * o->S[0][0][i], a1 = p * o->S[0][1][i];
    const double b0 = q * o->S[1][0][i], b1 = q * o->S[1][1][i];
    X[i] = -inv[i] * (p * o->S[0][2][i] + q * o->S[1][2][i]);
    V[0][i] = (X[i] + S1[i] * a0 - a1) / L;
    V[1][i] = (S2[i] * b0 - b1 - X[i]) / M;
    s->R[c][0][i] = p * o->on[0][i] + V[0][i];
    s->R[c][1][i] = q * o->on[1][i] + V[1][i] + a0 - V[0][i];
    s->R[c][2][i] = p * o->on[2][i] + b0 - V[1][i];
  }
}

/* V and M of a case along the beam, its slope and deflection with the first
 * support level; y at the middle support and at the end. */
NS_INLINE void two_forces(struct ns_beam *s, int c, const ns_lane *f,
                          bool points, const double *X, ns_lane *Vs,
                          double *restrict mid, double *restrict y) {
  const double *restrict S1 = s->support[1], *restrict S2 = s->support[2];
  ns_lane V = {0}, M = {0}, t = {0};
  const int kind = c > 0;
  ns_fill(y, 0);
  ns_fill(mid, 0);
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k], *restrict r = s->region[k];
    const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
    const double *restrict w = s->w[kind][k], *restrict dw = s->dw[kind][k];
    const double *restrict P = s->P[kind][k], *restrict by = f[k];
    double *restrict VL = s->VL[c][k], *restrict VR = s->VR[c][k];
    double *restrict Mk = s->M[c][k], *restrict sag = s->sag[c][k];
    double *restrict slope = s->slope[c][k];
    ns_copy(VL, V);
    if (points)
      LANES(i) {
        const bool on = (c == 0) | ((r[i] == 2) == (c == 2));
        V[i] -= on ? P[i] : 0;
      }
    LANES(i) {
      const bool past = x[i] >= S2[i], over = x[i] == S1[i];
      const bool on = (c == 0) | ((r[i] == 2) == (c == 2));
      const double q = on ? w[i] : 0, dq = on ? dw[i] : 0;
      const double v = past ? 0 : over ? Vs[1][i] : k == 0 ? Vs[0][i] : V[i];
      const double m = past ? 0 : over ? X[i] : M[i];
      const double h = x2[i] - x[i], b = h * by[i];
      VR[i] = v;
      Mk[i] = m;
      sag[i] = y[i];
      slope[i] = t[i];
      mid[i] = over ? y[i] : mid[i];
      y[i] +=
          h * (t[i] - b * (m / 2 + h * (v * NS_6TH - h * (q * NS_24TH +
                                                          dq * h * NS_120TH))));
      t[i] -= b * (m + h * (v / 2 - h * (q * NS_6TH + dq * h * NS_24TH)));
      M[i] = m + h * (v - h * (q / 2 + dq * h * NS_6TH));
      V[i] = v - h * (q + dq * h / 2);
    }
  }
}

/* The supports are level. */
NS_INLINE void two_level(struct ns_beam *s, int c, const double *mid,
                         const double *end) {
  const double *restrict S0 = s->support[0], *restrict S1 = s->support[1];
  const double *restrict S2 = s->support[2];
  ns_lane g[2];
  LANES(i) {
    g[0][i] = mid[i] / (S1[i] - S0[i]);
    g[1][i] = (end[i] - mid[i]) / (S2[i] - S1[i]);
  }
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k];
    double *restrict sag = s->sag[c][k], *restrict slope = s->slope[c][k];
    LANES(i) {
      const bool two = x[i] >= S1[i];
      const double turn = two ? g[1][i] : g[0][i];
      const double from = two ? S1[i] : S0[i];
      sag[i] -= (two ? mid[i] : 0) + turn * (x[i] - from);
      slope[i] -= turn;
    }
  }
}

/* Forces and deflections with one unknown, of the cases from 'first' on. */
NS_INLINE void two_solve(struct ns_beam *s, int first) {
  struct two_loads load[2];
  ns_lane f[NS_MAX_BREAKS], X, V[2], mid, end;
  bool points[2];
  s->unknowns = 1;
  two_regions(s);
  two_unit(s, f);
  for (int c = first; c < 2; c++) { /* live load last: it stays in W */
    points[c] = ns_has_points(s, c);
    two_load(s, c, (const ns_lane *)f, points[c], &load[c]);
  }
  for (int c = first; c < 3; c++) {
    two_start(s, c, &load[c > 0], X, V);
    two_forces(s, c, (const ns_lane *)f, points[c > 0], X, V, mid, end);
    two_level(s, c, mid, end);
  }
}

/* All cases. */
NS_CLONES void ns_two_span_solve(struct ns_beam *s) { two_solve(s, 0); }

/* Live load on either span; the dead load's rows are left as they were. */
NS_CLONES void ns_two_span_solve_live(struct ns_beam *s) { two_solve(s, 1); }
