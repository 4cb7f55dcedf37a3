/* SPDX-License-Identifier: MIT
 * beam.c - force method for beams of any spans, sixteen at a time.
 *
 * 1. The base system is a row of simple spans; overhangs act on it as known
 *    end moments. Unknown are the moments over interior supports, then the
 *    rotation in each hinge or spring.
 * 2. u_j(x) is the answer of the base system at unknown j to a unit load at
 *    x: a rotation at a support, the moment at a hinge. By Maxwell's theorem
 *    the first is the deflection at x under a unit moment at j. Right-hand
 *    sides are then integrals of load times u_j.
 * 3. [F m; m' -k] z = -rhs, inverted by LDL' in that order.
 * 4. Moments by equilibrium, slope and deflection by integrating M/EI, all in
 *    closed form on segments of constant EI and linear load.
 *
 * Source: the force method as in any text on structural analysis, e.g.
 * Ghali and Neville, Structural Analysis, chapter on the force method. */
#include "beam/table.h"

/* Batcher's merge exchange (Knuth 5.2.2 M): no lane depends on the data. */
NS_CLONES void ns_beam_sort(struct ns_beam *s) {
  const int n = s->breaks;
  int top = 1;
  while (top < n) top *= 2;
  for (int p = top / 2; p > 0; p /= 2)
    for (int q = top / 2, r = 0, d = p; d > 0; d = q - p, q /= 2, r = p) {
      for (int k = 0; k + d < n; k++) {
        if ((k & p) != r) continue;
        double *restrict lo = s->x[k], *restrict hi = s->x[k + d];
        ns_lane a, b;
        ns_copy(a, lo);
        ns_copy(b, hi);
        LANES(i) {
          lo[i] = ns_min(a[i], b[i]);
          hi[i] = ns_max(a[i], b[i]);
        }
      }
    }
}

/* Region of each segment, and the supports to its left and right. */
NS_INLINE void find_regions(struct ns_beam *s) {
  const int n = s->spans;
  for (int k = 0; k < s->breaks; k++) {
    double *restrict r = s->region[k], *restrict A = s->A[k];
    double *restrict B = s->B[k];
    const double *restrict x = s->x[k];
    LANES(i) {
      r[i] = 0;
      A[i] = s->x[0][i];
      B[i] = s->support[0][i];
    }
    for (int j = 0; j <= n; j++) {
      const double *restrict at = s->support[j];
      const double *restrict next =
          j < n ? s->support[j + 1] : s->x[s->breaks - 1];
      LANES(i) {
        const bool past = x[i] >= at[i];
        r[i] = past ? j + 1.0 : r[i];
        A[i] = past ? at[i] : A[i];
        B[i] = past ? next[i] : B[i];
      }
    }
  }
}

/* u_j of an interior support moment in the span that is its left (m rises)
 * or right (m falls) neighbour, and that span's part of the flexibility. */
NS_INLINE void unit_moment_in_span(struct ns_beam *s, int j, int span,
                                   bool rises, double *restrict F_jj,
                                   double *restrict F_next) {
  const double *restrict A = s->support[span - 1];
  const double *restrict B = s->support[span];
  ns_lane y, t;
  ns_fill(y, 0);
  ns_fill(t, 0);
  for (int k = 0; k < s->breaks - 1; k++) {
    double *restrict u = s->answer[j].u[k], *restrict du = s->answer[j].du[k];
    double *restrict m0 = s->answer[j].m0[k], *restrict dm = s->answer[j].dm[k];
    const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
    const double *restrict EI = s->EI[k], *restrict r = s->region[k];
    LANES(i) {
      const bool in = r[i] == span;
      const double L = B[i] - A[i], h = in ? x2[i] - x[i] : 0;
      const double c = 1 / EI[i];
      const double up = (x[i] - A[i]) / L, down = (B[i] - x[i]) / L;
      const double m = rises ? up : down, g = rises ? 1 / L : -1 / L;
      const double me = m + g * h, o = 1 - m, oe = 1 - me;
      u[i] = in ? y[i] : u[i];
      du[i] = in ? t[i] : du[i];
      m0[i] = in ? m : m0[i];
      dm[i] = in ? g : dm[i];
      F_jj[i] += h * NS_3RD * c * (m * m + m * me + me * me);
      F_next[i] += h * NS_6TH * c * (2 * m * o + m * oe + me * o + 2 * me * oe);
      y[i] += h * (t[i] - h * c * (m / 2 + g * h * NS_6TH));
      t[i] -= h * c * (m + g * h / 2);
    }
  }
  for (int k = 0; k < s->breaks; k++) { /* turn the span back to level ends */
    double *restrict u = s->answer[j].u[k], *restrict du = s->answer[j].du[k];
    const double *restrict x = s->x[k], *restrict r = s->region[k];
    LANES(i) {
      const bool in = r[i] == span;
      const double g = y[i] / (B[i] - A[i]);
      u[i] = in ? u[i] - g * (x[i] - A[i]) : u[i];
      du[i] = in ? du[i] - g : du[i];
    }
  }
}

/* u_j of a hinge: the base moment at it, linear on every segment. */
NS_INLINE void unit_hinge(struct ns_beam *s, int j, const double *at) {
  for (int k = 0; k < s->breaks; k++) {
    double *restrict u = s->answer[j].u[k], *restrict du = s->answer[j].du[k];
    const double *restrict x = s->x[k];
    const double *restrict A = s->A[k], *restrict B = s->B[k];
    LANES(i) {
      const double L = B[i] - A[i];
      const bool in = (at[i] > A[i]) & (at[i] < B[i]) & (L > 0);
      const bool before = x[i] < at[i];
      const double g = before ? (B[i] - at[i]) / L : (A[i] - at[i]) / L;
      const double v = before ? (x[i] - A[i]) * (B[i] - at[i]) / L
                              : (at[i] - A[i]) * (B[i] - x[i]) / L;
      u[i] = in ? v : 0;
      du[i] = in ? g : 0;
    }
  }
}

/* Interior support moment j - 1 has a hat of height 1 at support j. */
NS_INLINE double hat(const double *A, const double *B, const double *C,
                     double x, int i) {
  return (x > A[i]) & (x < B[i])    ? (x - A[i]) / (B[i] - A[i])
         : (x >= B[i]) & (x < C[i]) ? (C[i] - x) / (C[i] - B[i])
                                    : 0;
}

/* On an overhang a load is a known end moment -(distance): u_j is linear
 * there with the answer of j to that moment as its slope. */
NS_INLINE void overhang_answers(struct ns_beam *s, int j,
                                const double *restrict F_first,
                                const double *restrict F_last) {
  for (int k = 0; k < s->breaks; k++) {
    double *restrict u = s->answer[j].u[k], *restrict du = s->answer[j].du[k];
    const double *restrict x = s->x[k], *restrict r = s->region[k];
    const double *restrict first = s->support[0];
    const double *restrict last = s->support[s->spans];
    const double n = s->spans;
    LANES(i) {
      const bool left = r[i] == 0, right = r[i] > n;
      u[i] = left    ? -(first[i] - x[i]) * F_first[i]
             : right ? -(x[i] - last[i]) * F_last[i]
                     : u[i];
      du[i] = left ? F_first[i] : right ? -F_last[i] : du[i];
    }
  }
}

/* K = L D L', then its inverse column by column; a pivot that has lost all
 * its digits is a mechanism, and that lane is marked. */
NS_INLINE void invert(struct ns_beam *s, ns_matrix *K) {
  const int n = s->unknowns;
  for (int j = 0; j < n; j++) {
    ns_lane size;
    LANES(i) size[i] = ns_abs(K[j][j][i]);
    for (int p = 0; p < j; p++)
      LANES(i) {
        const double part = K[j][p][i] * K[j][p][i] * K[p][p][i];
        K[j][j][i] -= part;
        size[i] += ns_abs(part);
      }
    LANES(i) {
      const bool lost = !(ns_abs(K[j][j][i]) > 1e-10 * size[i]);
      s->unstable[i] = lost ? 1 : s->unstable[i];
      K[j][j][i] = lost ? 1 : K[j][j][i];
    }
    for (int r = j + 1; r < n; r++) {
      for (int p = 0; p < j; p++)
        LANES(i) K[r][j][i] -= K[r][p][i] * K[j][p][i] * K[p][p][i];
      LANES(i) K[r][j][i] /= K[j][j][i];
    }
  }
  for (int c = 0; c < n; c++) {
    for (int r = 0; r < n; r++) {
      double *restrict z = s->answer[r].inverse[c];
      ns_fill(z, r == c ? 1 : 0);
      for (int p = 0; p < r; p++)
        LANES(i) z[i] -= K[r][p][i] * s->answer[p].inverse[c][i];
    }
    for (int r = n - 1; r >= 0; r--) {
      double *restrict z = s->answer[r].inverse[c];
      LANES(i) z[i] /= K[r][r][i];
      for (int p = r + 1; p < n; p++)
        LANES(i) z[i] -= K[p][r][i] * s->answer[p].inverse[c][i];
    }
  }
}

_Static_assert(NS_MAX_SPANS - 1 + NS_MAX_HINGES + NS_MAX_STATIONS + 1 + 2 <=
                   NS_MAX_UNKNOWNS,
               "more unknowns than there is room for");

/* Those with a positive pivot first: then the others have one as well. */
NS_INLINE int count_unknowns(const struct ns_beam *s) {
  const int alone = s->spans - 1 + s->hinges;
  if (s->stations == 0) return alone; /* nothing else of the second is read */
  return alone + s->stations + s->gap + !s->bears[0] + !s->bears[1];
}

/* Answers of all unknowns to unit loads, and the inverse of the force
 * method's equations. */
NS_INLINE void solve_units(struct ns_beam *s) {
  const int inner = s->spans - 1, n = count_unknowns(s);
  static const ns_lane zero = {0};
  ns_matrix K[NS_MAX_UNKNOWNS];
  ns_lane first[NS_MAX_UNKNOWNS], last[NS_MAX_UNKNOWNS];
  s->unknowns = n;
  for (int j = 0; j < n; j++) {
    memset(K[j], 0, sizeof(ns_lane) * (size_t)n);
    memset(s->answer[j].u, 0, sizeof(ns_lane) * (size_t)s->breaks);
    memset(s->answer[j].du, 0, sizeof(ns_lane) * (size_t)s->breaks);
    memset(s->answer[j].m0, 0, sizeof(ns_lane) * (size_t)s->breaks);
    memset(s->answer[j].dm, 0, sizeof(ns_lane) * (size_t)s->breaks);
    ns_fill(first[j], 0);
    ns_fill(last[j], 0);
  }
  for (int j = 0; j < inner; j++) {
    ns_lane before, after;
    ns_fill(before, 0);
    ns_fill(after, 0);
    unit_moment_in_span(s, j, j + 1, true, K[j][j], before);
    unit_moment_in_span(s, j, j + 2, false, K[j][j], after);
    if (j == 0) ns_copy(first[j], before);
    if (j == inner - 1) ns_copy(last[j], after);
    if (j + 1 < inner) ns_copy(K[j + 1][j], after);
  }
  for (int h = 0; h < s->hinges; h++) {
    const int j = inner + s->stations + h;
    const double *at = s->hinge[h];
    unit_hinge(s, j, at);
    for (int p = 0; p < inner; p++)
      LANES(i)
        K[j][p][i] =
            hat(s->support[p], s->support[p + 1], s->support[p + 2], at[i], i);
    LANES(i) K[j][j][i] = -s->hinge_k[h][i];
    const double *S0 = s->support[0], *S1 = s->support[1];
    const double *Sn = s->support[s->spans], *Sm = s->support[s->spans - 1];
    LANES(i) {
      const bool in0 = (at[i] > S0[i]) & (at[i] < S1[i]);
      const bool inn = (at[i] > Sm[i]) & (at[i] < Sn[i]);
      first[j][i] = in0 ? (S1[i] - at[i]) / (S1[i] - S0[i]) : 0;
      last[j][i] = inn ? (at[i] - Sm[i]) / (Sn[i] - Sm[i]) : 0;
    }
  }
  if (s->stations) ns_tie(s, K, first, last);
  for (int j = 0; j < n; j++)
    overhang_answers(s, j, s->left ? first[j] : zero,
                     s->right ? last[j] : zero);
  if (s->stations) ns_tie_answers(s);
  invert(s, K);
}

/* Live load times 1, x and each u_j, segment by segment. */
NS_INLINE void weigh_live(struct ns_beam *s) {
  for (int k = 0; k < s->breaks - 1; k++) {
    const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
    const double *restrict w = s->w[1][k], *restrict dw = s->dw[1][k];
    double *restrict W0 = s->W[0][k], *restrict W1 = s->W[1][k];
    LANES(i) {
      const double h = x2[i] - x[i];
      W0[i] = h * (w[i] + dw[i] * h / 2);
      W1[i] = x[i] * W0[i] + h * h * (w[i] / 2 + dw[i] * h * NS_3RD);
    }
    for (int j = 0; j < s->unknowns; j++) {
      double *restrict Wj = s->answer[j].W[k];
      const double *restrict u = s->answer[j].u[k], *restrict du =
                                                        s->answer[j].du[k];
      const double *restrict m = s->answer[j].m0[k], *restrict dm =
                                                         s->answer[j].dm[k];
      const double *restrict EI = s->EI[k];
      LANES(i)
        Wj[i] = ns_integral(x2[i] - x[i], w[i], dw[i], u[i], du[i],
                            -m[i] / EI[i], -dm[i] / EI[i]);
    }
  }
}

/* Load of segment k in a case, and at its start, times each answer, whichever
 * beam it stands on; that of live load is at hand in W. */
NS_INLINE void add_answers(const struct ns_beam *s, int c, int k,
                           double rhs[][NS_LANES]) {
  const double *restrict x = s->x[k];
  const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
  const double *restrict w = s->w[0][k], *restrict dw = s->dw[0][k];
  ns_lane on, P, some;
  ns_case_lanes(s, c, k, on);
  LANES(i) {
    P[i] = on[i] * s->P[c > 0][k][i];
    some[i] = ns_abs(w[i]) + ns_abs(dw[i]);
  }
  const bool load = c > 0 ? k + 1 < s->breaks : ns_any(some);
  const bool point = ns_any(P);
  for (int j = 0; j < s->unknowns; j++) {
    const struct ns_answer *o = &s->answer[j];
    if (load && c > 0)
      LANES(i) rhs[j][i] += on[i] * o->W[k][i];
    else if (load)
      LANES(i)
        rhs[j][i] +=
            ns_integral(x2[i] - x[i], w[i], dw[i], o->u[k][i], o->du[k][i],
                        -o->m0[k][i] / s->EI[k][i], -o->dm[k][i] / s->EI[k][i]);
    if (point)
      LANES(i) rhs[j][i] += P[i] * o->u[k][i];
  }
}

/* Sums of load and of load times x in each region; a load on a support
 * bears on it alone. */
NS_INLINE void region_sums(const struct ns_beam *s, int c,
                           double S0[][NS_LANES], double S1[][NS_LANES],
                           double rhs[][NS_LANES],
                           double on_support[][NS_LANES]) {
  const int regions = s->spans + 2;
  for (int j = 0; j <= s->spans; j++) ns_fill(on_support[j], 0);
  for (int r = 0; r < regions; r++) {
    ns_fill(S0[r], 0);
    ns_fill(S1[r], 0);
  }
  for (int j = 0; j < s->unknowns; j++) ns_fill(rhs[j], 0);
  for (int k = 0; k < s->breaks; k++) {
    ns_lane w, dw, P, q0, q1;
    ns_case_load(s, c, k, false, w, dw, P);
    const double *restrict x = s->x[k];
    const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
    for (int j = 0; j <= s->spans; j++)
      LANES(i) {
        const bool here = x[i] == s->support[j][i];
        on_support[j][i] += here ? P[i] : 0;
        P[i] = here ? 0 : P[i];
      }
    LANES(i) {
      const double h = x2[i] - x[i], W = h * (w[i] + dw[i] * h / 2);
      q0[i] = W + P[i];
      q1[i] = x[i] * q0[i] + h * h * (w[i] / 2 + dw[i] * h * NS_3RD);
    }
    for (int r = s->left ? 0 : 1; r < regions; r++)
      LANES(i) {
        const bool in = s->region[k][i] == r;
        S0[r][i] += in ? q0[i] : 0;
        S1[r][i] += in ? q1[i] : 0;
      }
    add_answers(s, c, k, rhs);
  }
}

/* The forces of stations are loads on the beam like any other. */
NS_INLINE void add_ties(const struct ns_beam *s, int c, double S0[][NS_LANES],
                        double S1[][NS_LANES], double on_support[][NS_LANES]) {
  for (int l = 0; l < s->stations; l++) {
    const double *restrict at = s->station[l], *restrict G = s->tie[c][l];
    for (int j = 0; j <= s->spans; j++)
      LANES(i) on_support[j][i] += at[i] == s->support[j][i] ? G[i] : 0;
    for (int j = 0; j < s->spans; j++)
      LANES(i) {
        const bool in =
            (at[i] > s->support[j][i]) & (at[i] < s->support[j + 1][i]);
        S0[j + 1][i] += in ? G[i] : 0;
        S1[j + 1][i] += in ? G[i] * at[i] : 0;
      }
  }
}

/* V just right of, and M over, each support. */
NS_INLINE void support_actions(struct ns_beam *s, int c, double X[][NS_LANES],
                               double V[][NS_LANES]) {
  const int n = s->spans;
  ns_lane S0[NS_MAX_SPANS + 2], S1[NS_MAX_SPANS + 2];
  ns_lane rhs[NS_MAX_UNKNOWNS], z[NS_MAX_UNKNOWNS];
  region_sums(s, c, S0, S1, rhs, s->R[c]);
  for (int j = 0; j < s->unknowns; j++) {
    ns_fill(z[j], 0);
    for (int p = 0; p < s->unknowns; p++)
      LANES(i) z[j][i] -= s->answer[j].inverse[p][i] * rhs[p][i];
  }
  LANES(i) {
    X[0][i] = S1[0][i] - s->support[0][i] * S0[0][i];
    X[n][i] = s->support[n][i] * S0[n + 1][i] - S1[n + 1][i];
    V[n][i] = S0[n + 1][i];
  }
  for (int j = 0; j < n - 1; j++) ns_copy(X[j + 1], z[j]);
  for (int l = 0; l < s->stations; l++) ns_copy(s->tie[c][l], z[n - 1 + l]);
  for (int h = 0; h < s->hinges; h++)
    ns_copy(s->turn[c][h], z[n - 1 + s->stations + h]);
  ns_fill(s->slip[c], 0);
  if (s->stations) {
    if (s->gap) ns_copy(s->slip[c], z[n - 1 + s->stations + s->hinges]);
    add_ties(s, c, S0, S1, s->R[c]);
    ns_tie_integrate(s, c, z);
  }
  for (int j = 0; j < n; j++)
    LANES(i) {
      const double A = s->support[j][i], B = s->support[j + 1][i];
      V[j][i] =
          (X[j + 1][i] - X[j][i] + B * S0[j + 1][i] - S1[j + 1][i]) / (B - A);
    }
  for (int j = 0; j <= n; j++)
    LANES(i)
      s->R[c][j][i] +=
          V[j][i] + S0[j][i] - (j > 0 ? V[j > 0 ? j - 1 : 0][i] : 0);
}

/* March V and M from support to support. */
NS_INLINE void integrate_forces(struct ns_beam *s, int c) {
  const int n = s->spans;
  ns_lane X[NS_MAX_SUPPORTS], Vs[NS_MAX_SUPPORTS], V, M, before;
  support_actions(s, c, X, Vs);
  ns_fill(V, 0);
  ns_fill(M, 0);
  ns_fill(before, 0);
  for (int k = 0; k < s->breaks; k++) {
    ns_lane w, dw, P;
    ns_case_load(s, c, k, false, w, dw, P);
    double *restrict VL = s->VL[c][k], *restrict VR = s->VR[c][k];
    double *restrict Mk = s->M[c][k];
    const double *restrict r = s->region[k], *restrict x = s->x[k];
    const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
    ns_copy(VL, V);
    for (int l = 0; l < s->stations; l++)
      LANES(i)
        P[i] += ns_new_place(s, k, i) & (x[i] == s->station[l][i])
                    ? s->tie[c][l][i]
                    : 0;
    LANES(i) V[i] -= P[i];
    for (int j = 0; j <= n; j++)
      LANES(i) {
        const bool here = (r[i] == j + 1.0) & (before[i] != r[i]);
        V[i] = here ? Vs[j][i] : V[i];
        M[i] = here ? X[j][i] : M[i];
      }
    ns_copy(VR, V);
    ns_copy(Mk, M);
    ns_copy(before, r);
    LANES(i) {
      const double h = x2[i] - x[i];
      M[i] += h * (V[i] - h * (w[i] / 2 + dw[i] * h * NS_6TH));
      V[i] -= h * (w[i] + dw[i] * h / 2);
    }
  }
}

/* Slope and deflection of a case: integrate from the first support, then
 * level the supports; over them the slopes of both sides agree. */
NS_INLINE void integrate_sag(struct ns_beam *s, int c) {
  const int n = s->spans;
  ns_lane y, t, level[NS_MAX_SUPPORTS];
  ns_fill(y, 0);
  ns_fill(t, 0);
  for (int j = 0; j <= n; j++) ns_fill(level[j], 0);
  for (int k = 0; k < s->breaks; k++) {
    ns_lane w, dw, P;
    ns_case_load(s, c, k, false, w, dw, P);
    const double *restrict x = s->x[k];
    const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
    const double *restrict M = s->M[c][k], *restrict V = s->VR[c][k];
    for (int h = 0; h < s->hinges; h++)
      LANES(i) {
        const bool here = (x[i] == s->hinge[h][i]) & ns_new_place(s, k, i);
        t[i] -= here ? s->turn[c][h][i] : 0;
      }
    if (s->stations && s->gap)
      LANES(i) {
        const bool here = (x[i] == s->slide[i]) & ns_new_place(s, k, i);
        y[i] += here ? s->slip[c][i] : 0;
      }
    for (int j = 0; j <= n; j++)
      LANES(i) level[j][i] = x[i] == s->support[j][i] ? y[i] : level[j][i];
    ns_copy(s->sag[c][k], y);
    ns_copy(s->slope[c][k], t);
    LANES(i) {
      const double h = x2[i] - x[i], f = 1 / s->EI[k][i];
      y[i] +=
          h * (t[i] - h * f *
                          (M[i] / 2 +
                           h * (V[i] * NS_6TH -
                                h * (w[i] * NS_24TH + dw[i] * h * NS_120TH))));
      t[i] -=
          h * f *
          (M[i] + h * (V[i] / 2 - h * (w[i] * NS_6TH + dw[i] * h * NS_24TH)));
    }
  }
  for (int k = 0; k < s->breaks; k++) {
    double *restrict sag = s->sag[c][k], *restrict slope = s->slope[c][k];
    const double *restrict x = s->x[k], *restrict r = s->region[k];
    ns_lane A = {0}, a = {0}, g = {0};
    for (int j = 0; j < n; j++)
      LANES(i) {
        const bool in = (j == 0) | (r[i] >= j + 1.0);
        const double L = s->support[j + 1][i] - s->support[j][i];
        A[i] = in ? s->support[j][i] : A[i];
        a[i] = in ? level[j][i] : a[i];
        g[i] = in ? (level[j + 1][i] - level[j][i]) / L : g[i];
      }
    LANES(i) {
      sag[i] -= a[i] + g[i] * (x[i] - A[i]);
      slope[i] -= g[i];
    }
  }
}

/* Nothing from load case c. */
NS_INLINE void no_case(struct ns_beam *s, int c) {
  const size_t rows = sizeof(ns_lane) * (size_t)s->breaks;
  memset(s->M[c], 0, rows);
  memset(s->VL[c], 0, rows);
  memset(s->VR[c], 0, rows);
  memset(s->slope[c], 0, rows);
  memset(s->sag[c], 0, rows);
  memset(s->R[c], 0, sizeof s->R[c]);
  memset(s->turn[c], 0, sizeof s->turn[c]);
  if (s->stations == 0) return;
  memset(s->tie[c], 0, sizeof s->tie[c]);
  memset(s->second_M[c], 0, rows);
  memset(s->second_VL[c], 0, rows);
  memset(s->second_VR[c], 0, rows);
  memset(s->second_slope[c], 0, rows);
  memset(s->second_sag[c], 0, rows);
}

size_t ns_beam_size(int unknowns) {
  const size_t answers = sizeof(struct ns_answer) * (size_t)unknowns;
  const size_t sums = sizeof(struct ns_spans);
  return sizeof(struct ns_beam) + (answers > sums ? answers : sums);
}

void ns_beam_room(struct ns_beam *s, void *room) {
  s->answer = room;
  s->sums = room;
}

/* M and V under live load on one span or overhang at a time. */
NS_CLONES void ns_beam_parts(struct ns_beam *s, struct ns_parts *o) {
  const size_t rows = sizeof(ns_lane) * (size_t)s->breaks;
  if (s->spans + s->left + s->right == 2) { /* one odd region and one even */
    const int even = s->left ? 0 : 2;
    o->M[1] = (const ns_lane *)s->M[1];
    o->V[1] = (const ns_lane *)s->VR[1];
    o->M[even] = (const ns_lane *)s->M[2];
    o->V[even] = (const ns_lane *)s->VR[2];
    return;
  }
  if (s->by_spans) {
    ns_n_span_parts(s, o);
    return;
  }
  for (int r = s->left ? 0 : 1; r <= s->spans + s->right; r++) {
    s->only = r + 1;
    integrate_forces(s, 1);
    memcpy(o->own_M[r], s->M[1], rows);
    memcpy(o->own_V[r], s->VR[1], rows);
    o->M[r] = (const ns_lane *)o->own_M[r];
    o->V[r] = (const ns_lane *)o->own_V[r];
  }
  s->only = 0;
  integrate_forces(s, 1);
}

/* Answers and live load for places between breaks; the forces stay as they
 * are. */
NS_CLONES void ns_beam_answers(struct ns_beam *s) {
  s->severed = s->by_spans = s->by_units = false;
  find_regions(s);
  solve_units(s);
  weigh_live(s);
}

/* Forces, slopes and deflections of all cases: by statics, by sums over the
 * spans, or by the force method. */
NS_CLONES void ns_beam_solve(struct ns_beam *s) {
  s->only = 0;
  s->severed = s->by_spans = s->by_units = false;
  if (ns_by_statics(s)) {
    ns_single_span_solve(s);
    return;
  }
  if (ns_two_span_plain(s)) {
    ns_two_span_solve(s);
    return;
  }
  if (ns_n_span_plain(s)) {
    ns_n_span_solve(s);
    return;
  }
  ns_fill(s->unstable, 0);
  find_regions(s);
  solve_units(s);
  weigh_live(s);
  const bool one = ns_single_span(s);
  for (int c = 0; c < 3; c++) {
    if (one && c == 2) {
      no_case(s, c);
      continue;
    }
    integrate_forces(s, c);
    integrate_sag(s, c);
  }
}

/* Forces of a as those of m, which do not depend on stiffness; its own slopes
 * and deflections. Such a joist has one span: by itself statics answers, and
 * sums over the spans where it has overhangs too. */
NS_CLONES void ns_beam_follow(const struct ns_beam *m, struct ns_beam *a) {
  a->only = 0;
  a->severed = a->by_spans = a->by_units = false;
  if (ns_by_statics(m)) {
    ns_single_span_follow(m, a);
    return;
  }
  ns_n_span_solve(a); /* the loads of m are on a */
}
