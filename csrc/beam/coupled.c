/* SPDX-License-Identifier: MIT
 * coupled.c - a second beam beside the first, tied to it at stations.
 *
 * A station is a spring that carries force across, down on one beam and up on
 * the other. Its force is one more unknown of the force method, its equation
 * that both beams part there by force / k:
 *
 *   [ A_first + A_second + 1/k   B ] [ G ]     [ u ]
 *   [ B'                         0 ] [ z ] = - [ b ]
 *
 * A is the deflection at one station under a unit load at another. The second
 * beam's base system is simply supported at its own two ends; an end that
 * stands on nothing may move, and that its reaction is nil is one more
 * equation. Where the first beam is cut through, a hinge and a slide leave no
 * moment and no shear there, and loads over the gap go on the second beam:
 * the answers u to a unit load there are the second beam's.
 *
 * Source: the force method, as beam.c; springs between beams as in texts on
 * partial composite action. */
#include "beam/table.h"

/* Ends A and B of the span that a place lies in, and its number. */
NS_INLINE void span_of(const struct ns_beam *s, const double *at,
                       double *restrict r, double *restrict A,
                       double *restrict B) {
  ns_fill(r, 0);
  ns_fill(A, 0);
  ns_fill(B, 1);
  for (int j = 0; j < s->spans; j++)
    LANES(i) {
      const bool in =
          (at[i] >= s->support[j][i]) & (at[i] <= s->support[j + 1][i]);
      r[i] = in ? j + 1.0 : r[i];
      A[i] = in ? s->support[j][i] : A[i];
      B[i] = in ? s->support[j + 1][i] : B[i];
    }
}

/* What a row of breaks holds at a place that is one of them. */
NS_INLINE void value_at(const struct ns_beam *s, ns_lane *row, const double *at,
                        double *restrict out) {
  ns_fill(out, 0);
  for (int k = 0; k < s->breaks; k++)
    LANES(i) out[i] = s->x[k][i] == at[i] ? row[k][i] : out[i];
}

/* u of station l on the first beam: its deflection there under a unit load
 * at x, which is that at x under a unit load there. */
NS_INLINE void unit_station(struct ns_beam *s, int l, double *restrict first,
                            double *restrict last) {
  struct ns_answer *o = &s->answer[s->spans - 1 + l];
  const double *restrict at = s->station[l];
  const double n = s->spans;
  ns_lane r, A, B, y, t;
  span_of(s, at, r, A, B);
  ns_fill(y, 0);
  ns_fill(t, 0);
  for (int k = 0; k < s->breaks - 1; k++) {
    const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
    LANES(i) {
      const bool in = s->region[k][i] == r[i], before = x[i] < at[i];
      const double L = B[i] - A[i], h = in ? x2[i] - x[i] : 0;
      const double c = 1 / s->EI[k][i];
      const double g = before ? (B[i] - at[i]) / L : (A[i] - at[i]) / L;
      const double m = before ? g * (x[i] - A[i]) : g * (x[i] - B[i]);
      o->u[k][i] = in ? y[i] : 0;
      o->du[k][i] = in ? t[i] : 0;
      o->m0[k][i] = in ? m : 0;
      o->dm[k][i] = in ? g : 0;
      y[i] += h * (t[i] - h * c * (m / 2 + g * h * NS_6TH));
      t[i] -= h * c * (m + g * h / 2);
    }
  }
  for (int k = 0; k < s->breaks; k++)
    LANES(i) {
      const bool in = s->region[k][i] == r[i];
      const double g = y[i] / (B[i] - A[i]);
      o->u[k][i] = in ? o->u[k][i] - g * (s->x[k][i] - A[i]) : 0;
      o->du[k][i] = in ? o->du[k][i] - g : 0;
    }
  LANES(i) {
    const double g = y[i] / (B[i] - A[i]);
    first[i] = r[i] == 1 ? -g : 0;
    last[i] = r[i] == n ? g - t[i] : 0;
  }
}

/* Base shear at the slide. */
NS_INLINE void unit_slide(struct ns_beam *s, int j, double *restrict first,
                          double *restrict last) {
  struct ns_answer *o = &s->answer[j];
  const double n = s->spans;
  ns_lane r, A, B;
  span_of(s, s->slide, r, A, B);
  for (int k = 0; k < s->breaks; k++)
    LANES(i) {
      const bool in = s->region[k][i] == r[i];
      const double L = B[i] - A[i], x = s->x[k][i];
      const double v = x < s->slide[i] ? (A[i] - x) / L : (B[i] - x) / L;
      o->u[k][i] = in ? v : 0;
      o->du[k][i] = in ? -1 / L : 0;
      o->m0[k][i] = o->dm[k][i] = 0;
    }
  LANES(i) {
    first[i] = r[i] == 1 ? -1 / (B[i] - A[i]) : 0;
    last[i] = r[i] == n ? 1 / (B[i] - A[i]) : 0;
  }
}

/* Deflection, slope and moment at x of the second beam on its own two ends
 * under a unit load at a, both from its left end, L long (any EI). */
struct ns_unit {
  double y, dy, m, dm;
};
/* Deflection and derivatives at x of a simple span L under a unit load at
 * a, times EI. */
NS_INLINE struct ns_unit unit_of(double L, double a, double x) {
  const double b = L - a, v = L - x;
  const bool before = x < a;
  const double p = before ? b : a, q = before ? x : v;
  const double way = before ? 1 : -1;
  return (struct ns_unit){
      .y = p * q * (L * L - p * p - q * q) / (6 * L),
      .dy = way * p * (L * L - p * p - 3 * q * q) / (6 * L),
      .m = p * q / L,
      .dm = way * p / L,
  };
}

/* Movement at x of the second beam when one of its free ends moves by 1. */
NS_INLINE double end_shape(const struct ns_beam *s, int end, double x, int i) {
  const double L = s->second[1][i] - s->second[0][i];
  return end ? (x - s->second[0][i]) / L : (s->second[1][i] - x) / L;
}

/* Over the gap a load stands on the second beam. */
NS_INLINE void answers_over_gap(struct ns_beam *s, int inner, int free_first) {
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict on = s->on_new[k];
    if (!ns_any(on)) continue;
    for (int j = 0; j < s->unknowns; j++) {
      struct ns_answer *o = &s->answer[j];
      const int l = j - inner;
      const bool tie = l >= 0 && l < s->stations;
      const int end = j >= free_first ? (j - free_first) + s->bears[0] : -1;
      LANES(i) {
        const double L = s->second[1][i] - s->second[0][i];
        const double x = s->x[k][i], f = 1 / s->second_EI[i];
        const double at = tie ? s->station[tie ? l : 0][i] : x;
        const struct ns_unit v =
            unit_of(L, at - s->second[0][i], x - s->second[0][i]);
        const double scale = s->EI[k][i] * f;
        const double u = tie        ? -v.y * f
                         : end >= 0 ? end_shape(s, end, x, i)
                                    : 0;
        const double du = tie ? -v.dy * f : end < 0 ? 0 : end ? 1 / L : -1 / L;
        const bool new_ = on[i] != 0;
        o->u[k][i] = new_ ? u : o->u[k][i];
        o->du[k][i] = new_ ? du : o->du[k][i];
        o->m0[k][i] = new_ ? (tie ? -v.m * scale : 0) : o->m0[k][i];
        o->dm[k][i] = new_ ? (tie ? -v.dm * scale : 0) : o->dm[k][i];
      }
    }
  }
}

/* Equations of the stations: joist and member move alike but for the slip
 * of the fasteners. */
NS_INLINE void station_rows(struct ns_beam *s, int inner, ns_matrix *K) {
  for (int l = 0; l < s->stations; l++) {
    double(*row)[NS_LANES] = K[inner + l];
    const double *restrict at = s->station[l];
    for (int p = 0; p < inner; p++) value_at(s, s->answer[p].u, at, row[p]);
    for (int m = 0; m <= l; m++) {
      value_at(s, s->answer[inner + l].u, s->station[m], row[inner + m]);
      LANES(i) {
        const double x0 = s->second[0][i], L = s->second[1][i] - x0;
        const struct ns_unit v = unit_of(L, at[i] - x0, s->station[m][i] - x0);
        row[inner + m][i] += v.y / s->second_EI[i];
        row[inner + m][i] += m == l ? 1 / s->station_k[l][i] : 0;
      }
    }
  }
}

/* Shear at the slide under unit moments over the interior supports. */
NS_INLINE void slide_row(const struct ns_beam *s, int inner, int j,
                         ns_matrix *K) {
  ns_lane r, A, B;
  span_of(s, s->slide, r, A, B);
  for (int p = 0; p < inner; p++)
    LANES(i) {
      const double g = 1 / (B[i] - A[i]);
      K[j][p][i] = r[i] == p + 1.0 ? g : r[i] == p + 2.0 ? -g : 0;
    }
}

/* Adds the unknowns of a tied beam to the equations: stations, hinges, the
 * gap, free ends. */
NS_CLONES void ns_tie(struct ns_beam *s, ns_matrix *K, ns_lane *first,
                      ns_lane *last) {
  const int inner = s->spans - 1;
  const int hinge = inner + s->stations, slide = hinge + s->hinges;
  const int free_first = slide + s->gap;
  for (int l = 0; l < s->stations; l++)
    unit_station(s, l, first[inner + l], last[inner + l]);
  station_rows(s, inner, K);
  if (s->gap) {
    unit_slide(s, slide, first[slide], last[slide]);
    slide_row(s, inner, slide, K);
  }
  for (int j = hinge; j < free_first; j++)
    for (int l = 0; l < s->stations; l++)
      value_at(s, s->answer[j].u, s->station[l], K[j][inner + l]);
  for (int j = free_first; j < s->unknowns; j++)
    for (int l = 0; l < s->stations; l++)
      LANES(i)
        K[j][inner + l][i] =
            -end_shape(s, (j - free_first) + s->bears[0], s->station[l][i], i);
}

/* Answers where a load over the gap stands on the second beam. */
NS_CLONES void ns_tie_answers(struct ns_beam *s) {
  const int inner = s->spans - 1;
  answers_over_gap(s, inner, inner + s->stations + s->hinges + s->gap);
}

/* What stands on the second beam from break k on: load of the case, and the
 * force of a station there. */
NS_INLINE void second_load(const struct ns_beam *s, int c, int k,
                           double *restrict w, double *restrict dw,
                           double *restrict P) {
  ns_case_load(s, c, k, true, w, dw, P);
  for (int l = 0; l < s->stations; l++)
    LANES(i) {
      const bool here =
          (s->x[k][i] == s->station[l][i]) & ns_new_place(s, k, i);
      P[i] -= here ? s->tie[c][l][i] : 0;
    }
}

/* Whether segment k lies within the second beam. */
NS_INLINE bool within_second(const struct ns_beam *s, int k, int i) {
  const double mid = (s->x[k][i] + s->x[k + 1 < s->breaks ? k + 1 : k][i]) / 2;
  return (mid > s->second[0][i]) & (mid < s->second[1][i]);
}

/* Reaction at the second beam's left end; nil where it stands on nothing. */
NS_INLINE void second_start(const struct ns_beam *s, int c,
                            double *restrict V) {
  ns_fill(V, 0);
  if (!s->bears[0]) return;
  for (int k = 0; k < s->breaks; k++) {
    ns_lane w, dw, P;
    second_load(s, c, k, w, dw, P);
    LANES(i) {
      const double x = s->x[k][i];
      const double h = s->x[k + 1 < s->breaks ? k + 1 : k][i] - x;
      const double L = s->second[1][i] - s->second[0][i];
      const double W = h * (w[i] + dw[i] * h / 2);
      const double Wx = h * h * (w[i] / 2 + dw[i] * h * NS_3RD);
      V[i] += P[i] * end_shape(s, 0, x, i) + W * end_shape(s, 0, x, i) - Wx / L;
    }
  }
}

/* Slope and deflection, from the displacements of its two ends. */
NS_INLINE void second_level(struct ns_beam *s, int c, const double *y0,
                            const double *y1, const double *end) {
  for (int k = 0; k < s->breaks; k++)
    LANES(i) {
      const double L = s->second[1][i] - s->second[0][i], x = s->x[k][i];
      const bool in = (x >= s->second[0][i]) & (x <= s->second[1][i]);
      const double g = (y1[i] - y0[i] - end[i]) / L;
      const double y = y0[i] + g * (x - s->second[0][i]);
      s->second_sag[c][k][i] = in ? s->second_sag[c][k][i] + y : 0;
      s->second_slope[c][k][i] = in ? s->second_slope[c][k][i] + g : 0;
    }
}

/* V, M, slope and deflection of the second beam from break to break, case
 * c; z holds the unknowns. */
NS_CLONES void ns_tie_integrate(struct ns_beam *s, int c, ns_lane *z) {
  const int free_first = s->spans - 1 + s->stations + s->hinges + s->gap;
  ns_lane V, M, y, t, end, at[2];
  int next = free_first;
  for (int e = 0; e < 2; e++) {
    ns_fill(at[e], 0);
    if (!s->bears[e]) ns_copy(at[e], z[next++]);
  }
  second_start(s, c, V);
  ns_fill(M, 0);
  ns_fill(y, 0);
  ns_fill(t, 0);
  ns_fill(end, 0);
  for (int k = 0; k < s->breaks; k++) {
    ns_lane w, dw, P;
    second_load(s, c, k, w, dw, P);
    LANES(i) {
      const double x = s->x[k][i];
      const bool on = (x >= s->second[0][i]) & (x <= s->second[1][i]);
      const bool in = within_second(s, k, i);
      const double h = in ? s->x[k + 1 < s->breaks ? k + 1 : k][i] - x : 0;
      const double f = 1 / s->second_EI[i];
      const bool begins = (x == s->second[0][i]);
      s->second_VL[c][k][i] = on & !begins ? V[i] : 0;
      V[i] -= on ? P[i] : 0;
      s->second_VR[c][k][i] = on & (x < s->second[1][i]) ? V[i] : 0;
      s->second_M[c][k][i] = on ? M[i] : 0;
      s->second_sag[c][k][i] = y[i];
      s->second_slope[c][k][i] = t[i];
      const double q = w[i], dq = dw[i], v = V[i], m = M[i];
      y[i] +=
          h * (t[i] - h * f *
                          (m / 2 + h * (v * NS_6TH - h * (q * NS_24TH +
                                                          dq * h * NS_120TH))));
      t[i] -= h * f * (m + h * (v / 2 - h * (q * NS_6TH + dq * h * NS_24TH)));
      M[i] += h * (v - h * (q / 2 + dq * h * NS_6TH));
      V[i] -= h * (q + dq * h / 2);
      end[i] = in ? y[i] : end[i];
    }
  }
  second_level(s, c, at[0], at[1], end);
}
