/* SPDX-License-Identifier: MIT
 * severed_solve.c - a joist that is cut through, with a member beside it that
 * stands on no support: two halves that meet in the gap.
 *
 * In the gap only the member is there, with V and M of a simple beam, whatever
 * the stiffness. So each half is a problem of its own: the joist from its
 * support to the gap, the member beside it, the forces G of its stations. All
 * that lies past the gap acts on it by the near reaction R alone.
 *
 * Both are held at the gap, which adds two unknowns: a and b, shift and turn
 * of the joist against the member there, and two equations, that the joist is
 * in balance by itself (xi from the gap, F flexibility of both cantilevers
 * with 1/k on its diagonal; G down on the joist):
 *
 *   [ F   1   xi ] [ G ]     [ u                              ]
 *   [ 1'  0   0  ] [ a ] = - [ sum of load - R                ]
 *   [ xi' 0   0  ] [ b ]     [ sum of load times its xi - R g ]
 *
 * F of two cantilevers at a <= b from the gap is the integral of
 * (a - xi)(b - xi)/EI over 0 to a: a b S0 - (a + b) S1 + S2 with sums of 1/EI,
 * xi/EI and xi^2/EI. The answer of an unknown to a unit load at y is by
 * Maxwell's theorem a deflected shape c of the joist under its row of the
 * inverse: -(c(y) - R(y) c(support)), and R c(support) for what lies past the
 * gap. Each is found by integrating from the gap to the support.
 *
 * Source: the force method, as beam.c and coupled.c, which solve any beam. */
#include "beam/table.h"

/* Unknowns of a half: stations, shift, turn. */
#define HALF_UNKNOWNS (NS_MAX_STATIONS + 2)
typedef ns_lane half_matrix[HALF_UNKNOWNS];

/* Whether a beam is a joist cut through with a member that stands on no
 * support. */
bool ns_severed(const struct ns_beam *s) {
  return s->stations > 0 && s->gap && s->hinges == 1 && s->spans == 1 &&
         !s->left && !s->right && !s->bears[0] && !s->bears[1];
}

/* One region, and what lies on its last support. */
NS_INLINE void half_region(struct ns_beam *s) {
  const double *restrict S0 = s->support[0], *restrict S1 = s->support[1];
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k];
    double *restrict r = s->region[k], *restrict A = s->A[k];
    double *restrict B = s->B[k];
    LANES(i) {
      const bool past = x[i] >= S1[i];
      r[i] = past ? 2 : 1;
      A[i] = past ? S1[i] : S0[i];
      B[i] = S1[i];
    }
  }
}

/* Faces of the stretch whose load stands on the member. */
NS_INLINE void half_faces(const struct ns_beam *s, ns_lane *face) {
  ns_copy(face[0], s->slide);
  ns_copy(face[1], s->slide);
  for (int k = 0; k < s->breaks - 1; k++) {
    const double *restrict on = s->on_new[k];
    const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
    LANES(i) {
      face[0][i] = on[i] != 0 ? ns_min(face[0][i], x[i]) : face[0][i];
      face[1][i] = on[i] != 0 ? ns_max(face[1][i], x2[i]) : face[1][i];
    }
  }
}

/* Breaks of a half from its support on, and how many there are in any lane. */
NS_INLINE void half_breaks(const struct ns_beam *s, const ns_lane *face,
                           struct ns_severed_half *o) {
  const int n = s->breaks;
  const double *restrict S0 = s->support[0], *restrict S1 = s->support[1];
  o->breaks = n;
  LANES(i) {
    o->all[i] = S1[i] - S0[i];
    o->g[i] = o->right ? S1[i] - face[1][i] : face[0][i] - S0[i];
  }
  for (int q = 0; q < n; q++) {
    const double *restrict x = s->x[o->right ? n - 1 - q : q];
    LANES(i) {
      const double from = o->right ? S1[i] - x[i] : x[i] - S0[i];
      const bool in = o->right ? (x[i] >= face[1][i]) & (x[i] > face[0][i])
                               : x[i] <= face[0][i];
      o->in[q][i] = in ? 1 : 0;
      o->x[q][i] = in ? from : o->g[i];
    }
    if (!ns_any(o->in[q])) {
      o->breaks = q;
      break;
    }
  }
}

/* Its segments, turned about where they run to the left. */
NS_INLINE void half_segments(const struct ns_beam *s,
                             struct ns_severed_half *o) {
  const int n = s->breaks;
  for (int q = 0; q < o->breaks; q++) {
    const int k = o->right ? n - 1 - q : q, next = q + 1 < o->breaks;
    const int seg = o->right ? (k > 0 ? k - 1 : 0) : k;
    const double *restrict EI = s->EI[seg], *restrict in = o->in[q];
    const double *restrict x = o->x[q], *restrict x2 = o->x[q + next];
    const double *restrict all = o->all;
    double *restrict h = o->h[q], *restrict f = o->f[q], *restrict R = o->R[q];
    LANES(i) {
      h[i] = x2[i] - x[i];
      f[i] = 1 / EI[i];
      R[i] = (all[i] - x[i]) / all[i];
    }
    for (int c = 0; c < 2; c++) {
      const double *restrict w = s->w[c][seg], *restrict dw = s->dw[c][seg];
      const double *restrict P = s->P[c][k];
      double *restrict near = o->w[c][q], *restrict slope = o->dw[c][q];
      double *restrict at = o->P[c][q];
      const double turned = o->right ? 1 : 0, way = o->right ? -1 : 1;
      LANES(i) {
        near[i] = w[i] + turned * (dw[i] * h[i]);
        slope[i] = way * dw[i];
        at[i] = in[i] != 0 ? P[i] : 0;
      }
    }
    o->point[q] = ns_any(o->P[1][q]);
    const double *restrict load = o->w[1][q], *restrict dl = o->dw[1][q];
    double *restrict W0 = o->W0[q], *restrict W1 = o->W1[q];
    double *restrict WR = o->WR[q];
    LANES(i) { /* W1 about the end: the integral of w times what is left */
      const double l = h[i], w = load[i], dw = dl[i];
      const double end = (all[i] - x[i] - l) / all[i];
      const double sum = l * (w + dw * l / 2);
      const double about = l * l * (w / 2 + dw * l * NS_6TH);
      W0[i] = sum;
      W1[i] = about;
      WR[i] = sum * end + about / all[i];
    }
  }
}

/* Where the segment from x to x2 and a load at x lie in this half. */
NS_INLINE void half_side(bool right, const ns_lane *face,
                         const double *restrict x, const double *restrict x2,
                         double *restrict in, double *restrict here) {
  const double *restrict A = face[0], *restrict B = face[1];
  if (right)
    LANES(i) {
      in[i] = x[i] >= B[i] ? 1 : 0;
      here[i] = (x[i] >= B[i]) & (x[i] > A[i]) ? 1 : 0;
    }
  else
    LANES(i) {
      in[i] = x2[i] <= A[i] ? 1 : 0;
      here[i] = x[i] <= A[i] ? 1 : 0;
    }
}

/* Load of a kind past the gap, and all of it, times the near reaction. */
NS_INLINE void half_reactions(struct ns_beam *s, const ns_lane *face,
                              struct ns_severed_half *o) {
  const int n = s->breaks;
  const double *restrict far_end = s->support[o->right ? 0 : 1];
  const double *restrict all = o->all;
  const double way = o->right ? 1 : -1;
  for (int c = 0; c < 2; c++) {
    ns_lane near = {0}, far = {0}, in, here;
    for (int k = 0; k < n; k++) {
      const double *restrict x = s->x[k];
      const double *restrict x2 = s->x[k + 1 < n ? k + 1 : k];
      const double *restrict w = s->w[c][k], *restrict dw = s->dw[c][k];
      const double *restrict P = s->P[c][k];
      half_side(o->right, face, x, x2, in, here);
      LANES(i) {
        const double h = x2[i] - x[i], W = h * (w[i] + dw[i] * h / 2);
        const double Wx = h * h * (w[i] / 2 + dw[i] * h * NS_3RD);
        const double a = way * (x[i] - far_end[i]);
        const double r = (a * W + way * Wx) / all[i], p = P[i] * a / all[i];
        const double r_in = in[i] != 0 ? r : 0, p_in = here[i] != 0 ? p : 0;
        near[i] += r_in + p_in;
        far[i] += (r - r_in) + (p - p_in);
      }
    }
    LANES(i) {
      o->near[c][i] = near[i] + far[i];
      o->far[c][i] = far[i];
    }
  }
}

/* Which stations are in this half, and at which breaks. */
NS_INLINE void half_stations(const struct ns_beam *s, const ns_lane *face,
                             struct ns_severed_half *o) {
  const int n = s->breaks;
  o->first = s->stations;
  o->last = 0;
  ns_fill(o->inner, 1e300);
  for (int l = 0; l < s->stations; l++) {
    const double *restrict x = s->station[l];
    LANES(i) {
      const bool right = x[i] > s->slide[i];
      const double xi = right ? x[i] - face[1][i] : face[0][i] - x[i];
      o->on[l][i] = right == o->right ? 1 : 0;
      o->xi[l][i] = right == o->right ? ns_max(xi, 0) : 0;
      o->inner[i] =
          right == o->right ? ns_min(o->inner[i], o->xi[l][i]) : o->inner[i];
    }
    if (!ns_any(o->on[l])) continue;
    if (o->first > l) o->first = l;
    o->last = l + 1;
  }
  if (o->last == 0) o->first = 0; /* no lane has any: a mechanism */
  for (int q = 0; q < o->breaks; q++) {
    const int k = o->right ? n - 1 - q : q;
    ns_lane here;
    ns_severed_bears(s, o, k, here);
    o->bears[q] = ns_any(here);
    for (int l = o->first; l < o->last; l++) {
      ns_severed_stands(s, o, q, k, l, here);
      o->stands[q][l] = ns_any(here);
    }
  }
}

/* Sums of 1/EI, xi/EI and xi^2/EI from the gap to each station. */
NS_INLINE void half_flexible(const struct ns_beam *s,
                             const struct ns_severed_half *o,
                             ns_lane sum[][NS_MAX_STATIONS]) {
  ns_lane S[3] = {{0}, {0}, {0}};
  for (int l = o->first; l < o->last; l++)
    for (int p = 0; p < 3; p++) ns_fill(sum[p][l], 0);
  for (int q = o->breaks - 1; q >= 0; q--) {
    const int k = o->right ? s->breaks - 1 - q : q;
    const double *restrict h = o->h[q], *restrict f = o->f[q];
    if (q < o->breaks - 1)
      LANES(i) {
        const double a = o->g[i] - o->x[q + 1][i], b = a + h[i];
        S[0][i] += f[i] * h[i];
        S[1][i] += f[i] * h[i] * (a + b) / 2;
        S[2][i] += f[i] * h[i] * (a * a + a * b + b * b) * NS_3RD;
      }
    for (int l = o->first; l < o->last; l++) {
      ns_lane here;
      if (!o->stands[q][l]) continue;
      ns_severed_stands(s, o, q, k, l, here);
      for (int p = 0; p < 3; p++)
        LANES(i) sum[p][l][i] = here[i] != 0 ? S[p][i] : sum[p][l][i];
    }
  }
}

/* Rows of the stations, then those of balance. */
NS_INLINE void half_equations(const struct ns_beam *s,
                              const struct ns_severed_half *o, half_matrix *K) {
  ns_lane sum[3][NS_MAX_STATIONS];
  const int m = o->last - o->first;
  const double *restrict EI = s->second_EI;
  half_flexible(s, o, sum);
  for (int r = 0; r < m; r++)
    for (int c = 0; c <= r; c++) {
      const int l = o->first + r, p = o->first + c;
      const double *restrict x = o->xi[l], *restrict y = o->xi[p];
      const double *restrict on = o->on[l], *restrict too = o->on[p];
      const double *restrict k = s->station_k[l];
      LANES(i) {
        const bool less = x[i] < y[i], both = (on[i] != 0) & (too[i] != 0);
        const double a = less ? x[i] : y[i], b = less ? y[i] : x[i];
        const double S0 = less ? sum[0][l][i] : sum[0][p][i];
        const double S1 = less ? sum[1][l][i] : sum[1][p][i];
        const double S2 = less ? sum[2][l][i] : sum[2][p][i];
        const double joist = a * b * S0 - (a + b) * S1 + S2;
        const double member = a * a * (3 * b - a) / (6 * EI[i]);
        const double own = r == c ? 1 / k[i] : 0, off = r == c ? 1 : 0;
        K[r][c][i] = both ? joist + member + own : off;
      }
    }
  for (int c = 0; c < m; c++) {
    ns_copy(K[m][c], o->on[o->first + c]);
    ns_copy(K[m + 1][c], o->xi[o->first + c]);
  }
  ns_fill(K[m][m], 0);
  ns_fill(K[m + 1][m], 0);
  ns_fill(K[m + 1][m + 1], 0);
}

/* K = L D L'; D holds 1 over each pivot. One that has lost all its digits is a
 * mechanism: too few stations, or all at one place. */
NS_INLINE void half_factor(struct ns_beam *s, int n, half_matrix *K,
                           ns_lane *D) {
  ns_lane size[HALF_UNKNOWNS];
  for (int j = 0; j < n; j++)
    LANES(i) size[j][i] = ns_abs(K[j][j][i]);
  for (int j = 0; j < n; j++) {
    LANES(i) {
      const bool lost = !(ns_abs(K[j][j][i]) > 1e-10 * size[j][i]);
      s->unstable[i] = lost ? 1 : s->unstable[i];
      D[j][i] = 1 / (lost ? 1 : K[j][j][i]);
    }
    for (int r = j + 1; r < n; r++) {
      ns_lane by;
      LANES(i) by[i] = K[r][j][i] * D[j][i];
      for (int c = j + 1; c < r; c++)
        LANES(i) K[r][c][i] -= by[i] * K[c][j][i];
      LANES(i) {
        const double part = by[i] * K[r][j][i];
        K[r][r][i] -= part;
        size[r][i] += ns_abs(part);
      }
    }
    for (int r = j + 1; r < n; r++)
      LANES(i) K[r][j][i] *= D[j][i];
  }
}

/* Row r of the inverse. */
NS_INLINE void half_inverse(int n, int r, half_matrix *K, const ns_lane *D,
                            ns_lane *z) {
  for (int a = 0; a < n; a++) {
    ns_fill(z[a], a == r ? 1 : 0);
    for (int p = r; p < a; p++)
      LANES(i) z[a][i] -= K[a][p][i] * z[p][i];
  }
  for (int a = n - 1; a >= 0; a--) {
    LANES(i) z[a][i] *= D[a][i];
    for (int p = a + 1; p < n; p++)
      LANES(i) z[a][i] -= K[p][a][i] * z[p][i];
  }
}

/* The joist's shape from the gap on under the forces z, shift and turn: value
 * and slope towards the gap at each break, live load times it by segment, dead
 * load times it in all; its value at the support. */
struct half_shape {
  ns_lane at[NS_MAX_BREAKS], slope[NS_MAX_BREAKS], W[NS_MAX_BREAKS];
  ns_lane load[2], end;
};
/* Deflected shape of a half by integration from the gap to its support. */
NS_INLINE void half_integrate(const struct ns_beam *s,
                              const struct ns_severed_half *o, int r,
                              ns_lane *z, struct half_shape *e) {
  const int m = o->last - o->first;
  ns_lane y, t, M, N;
  ns_copy(y, z[m]);
  ns_copy(t, z[m + 1]);
  ns_fill(N, r == m ? 1 : 0);
  ns_fill(M, r == m + 1 ? 1 : 0);
  ns_fill(e->load[0], 0);
  ns_fill(e->load[1], 0);
  for (int q = o->breaks - 1; q >= 0; q--) {
    const int k = o->right ? s->breaks - 1 - q : q;
    double *restrict W = e->W[q];
    ns_fill(W, 0);
    if (q < o->breaks - 1) {
      const double *restrict h = o->h[q], *restrict f = o->f[q];
      const double *restrict w = o->w[1][q], *restrict dw = o->dw[1][q];
      const double *restrict v = o->w[0][q], *restrict dv = o->dw[0][q];
      double *restrict dead = e->load[0], *restrict live = e->load[1];
      LANES(i) {
        const double d = h[i], b = d * f[i];
        y[i] += d * (t[i] + b * (M[i] / 2 - d * N[i] * NS_6TH));
        t[i] += b * (M[i] - d * N[i] / 2);
        M[i] -= d * N[i];
        W[i] =
            ns_integral(d, w[i], dw[i], y[i], -t[i], M[i] * f[i], N[i] * f[i]);
        live[i] += W[i];
      }
      if (o->dead)
        LANES(i)
          dead[i] += ns_integral(h[i], v[i], dv[i], y[i], -t[i], M[i] * f[i],
                                 N[i] * f[i]);
    }
    for (int c = o->dead ? 0 : 1; c < 2; c++) {
      const double *restrict P = o->P[c][q];
      double *restrict load = e->load[c];
      LANES(i) load[i] += P[i] * y[i];
    }
    double *restrict at = e->at[q], *restrict slope = e->slope[q];
    LANES(i) {
      at[i] = y[i];
      slope[i] = -t[i];
    }
    for (int c = 0; c < m; c++) {
      ns_lane here;
      if (!o->stands[q][o->first + c]) continue;
      ns_severed_stands(s, o, q, k, o->first + c, here);
      LANES(i) N[i] -= here[i] != 0 ? z[c][i] : 0;
    }
  }
  ns_copy(e->end, y);
}

/* The line of a station, in the lanes where it is in this half; the first
 * 'keep' rows of the others are those of the other half. */
NS_INLINE void half_line(const struct ns_severed_half *o,
                         const struct half_shape *e, const double *on, int keep,
                         struct ns_influence_line *to) {
  const double *restrict end = e->end, *restrict all = o->all;
  for (int q = 0; q < o->breaks; q++) {
    const double *restrict R = o->R[q], *restrict WR = o->WR[q];
    const double *restrict c = e->at[q], *restrict dc = e->slope[q];
    const double *restrict Wc = e->W[q];
    double *restrict at = to->at[q], *restrict slope = to->slope[q];
    double *restrict W = to->W[q];
    if (q >= keep) {
      ns_fill(at, 0);
      ns_fill(slope, 0);
      ns_fill(W, 0);
    }
    LANES(i) {
      const bool mine = on[i] != 0;
      at[i] = mine ? end[i] * R[i] - c[i] : at[i];
      slope[i] = mine ? -end[i] / all[i] - dc[i] : slope[i];
      W[i] = mine ? end[i] * WR[i] - Wc[i] : W[i];
    }
  }
}

/* Lines of the stations; their forces, and shift and turn of the joist against
 * the member at the gap, under dead and under all live load. */
NS_INLINE void half_lay(struct ns_influence *o, struct ns_beam *s,
                        struct ns_severed_half *f) {
  const int m = f->last - f->first, n = m + 2;
  const struct ns_severed_half *left = &o->half[0];
  half_matrix K[HALF_UNKNOWNS];
  ns_lane D[HALF_UNKNOWNS], z[HALF_UNKNOWNS];
  struct half_shape e;
  ns_lane both;
  ns_fill(both, 1);
  half_equations(s, f, K);
  half_factor(s, n, K, D);
  for (int r = 0; r < n; r++) {
    const int l = f->first + r;
    const double *on = r < m ? f->on[r < m ? l : 0] : both;
    half_inverse(n, r, K, (const ns_lane *)D, z);
    half_integrate(s, f, r, z, &e);
    if (r < m) {
      const bool laid = f->right && l >= left->first && l < left->last;
      half_line(f, &e, on, laid ? left->breaks : 0, &o->station[l]);
      LANES(i) f->A[l][i] = on[i] != 0 ? e.end[i] : 0;
    }
    for (int c = f->dead ? 0 : 1; c < 2; c++) {
      double *restrict to = r < m ? s->tie[c][l] : f->rel[c][r - m];
      const double *restrict near = f->near[c], *restrict load = e.load[c];
      LANES(i) {
        const double all = e.end[i] * near[i] - load[i];
        to[i] = on[i] != 0 ? all : to[i];
      }
    }
  }
}

/* What a case leaves at the ends of its parts: of half p the member's and the
 * joist's shape from the support on with no slope there, at the gap. */
struct half_ends {
  ns_lane V, M, joist, joist_turn, member, member_turn;
};

/* Nothing yet at break k from case c; the left half is first. */
NS_INLINE void half_no_rows(struct ns_beam *s, int c, int k) {
  ns_fill(s->M[c][k], 0);
  ns_fill(s->VL[c][k], 0);
  ns_fill(s->VR[c][k], 0);
  ns_fill(s->slope[c][k], 0);
  ns_fill(s->sag[c][k], 0);
  ns_fill(s->second_M[c][k], 0);
  ns_fill(s->second_VL[c][k], 0);
  ns_fill(s->second_VR[c][k], 0);
  ns_fill(s->second_slope[c][k], 0);
  ns_fill(s->second_sag[c][k], 0);
}

/* V, M and shape of joist and member in one half, scattered to their rows. */
NS_INLINE void half_forces(struct ns_beam *s, const struct ns_severed_half *o,
                           int c, struct half_ends *e) {
  const double *restrict EI = s->second_EI;
  const double turn = o->right ? -1 : 1;
  ns_lane V = {0}, M = {0}, y = {0}, t = {0}, v = {0}, m = {0}, z = {0};
  ns_lane u = {0}, before;
  for (int q = 0; q < o->breaks; q++) {
    const int k = o->right ? s->breaks - 1 - q : q;
    const double *restrict in = o->in[q], *restrict P = o->P[c][q];
    double *VL = o->right ? s->VR[c][k] : s->VL[c][k];
    double *VR = o->right ? s->VL[c][k] : s->VR[c][k];
    double *WL = o->right ? s->second_VR[c][k] : s->second_VL[c][k];
    double *WR = o->right ? s->second_VL[c][k] : s->second_VR[c][k];
    ns_copy(before, V);
    if (o->bears[q]) {
      ns_lane here;
      ns_severed_bears(s, o, k, here);
      LANES(i) V[i] += here[i] != 0 ? o->near[c][i] : 0;
    }
    if (!o->right) half_no_rows(s, c, k);
    LANES(i) WL[i] = in[i] != 0 ? turn * v[i] : WL[i];
    LANES(i) V[i] -= P[i];
    for (int l = o->first; l < o->last; l++) {
      ns_lane here;
      if (!o->stands[q][l]) continue;
      ns_severed_stands(s, o, q, k, l, here);
      LANES(i) {
        const double G = here[i] != 0 ? s->tie[c][l][i] : 0;
        V[i] -= G;
        v[i] += G;
      }
    }
    LANES(i) {
      const bool mine = in[i] != 0;
      VL[i] = mine ? turn * before[i] : VL[i];
      VR[i] = mine ? turn * V[i] : VR[i];
      WR[i] = mine ? turn * v[i] : WR[i];
      s->M[c][k][i] = mine ? M[i] : s->M[c][k][i];
      s->sag[c][k][i] = mine ? y[i] : s->sag[c][k][i];
      s->slope[c][k][i] = mine ? t[i] : s->slope[c][k][i];
      s->second_M[c][k][i] = mine ? m[i] : s->second_M[c][k][i];
      s->second_sag[c][k][i] = mine ? z[i] : s->second_sag[c][k][i];
      s->second_slope[c][k][i] = mine ? u[i] : s->second_slope[c][k][i];
    }
    if (q == o->breaks - 1) break;
    LANES(i) {
      const double h = o->h[q][i], b = h * o->f[q][i], g = h / EI[i];
      const double w = o->w[c][q][i], dw = o->dw[c][q][i];
      y[i] +=
          h *
          (t[i] - b * (M[i] / 2 + h * (V[i] * NS_6TH -
                                       h * (w * NS_24TH + dw * h * NS_120TH))));
      t[i] -= b * (M[i] + h * (V[i] / 2 - h * (w * NS_6TH + dw * h * NS_24TH)));
      M[i] += h * (V[i] - h * (w / 2 + dw * h * NS_6TH));
      V[i] -= h * (w + dw * h / 2);
      z[i] += h * (u[i] - g * (m[i] / 2 + h * v[i] * NS_6TH));
      u[i] -= g * (m[i] + h * v[i] / 2);
      m[i] += h * v[i];
    }
  }
  ns_copy(e->V, v);
  ns_copy(e->M, m);
  ns_copy(e->joist, y);
  ns_copy(e->joist_turn, t);
  ns_copy(e->member, z);
  ns_copy(e->member_turn, u);
}

/* The member over the gap, from the left half on: its shape with no slope and
 * no value at the left face. 'in': breaks between the faces. */
NS_INLINE void half_over_gap(struct ns_beam *s, const ns_lane *face, int c,
                             const struct half_ends *e, double *restrict y,
                             double *restrict t) {
  const double *restrict EI = s->second_EI, *restrict A = face[0];
  const double *restrict B = face[1];
  ns_lane V, M;
  ns_copy(V, e->V);
  ns_copy(M, e->M);
  ns_fill(y, 0);
  ns_fill(t, 0);
  for (int k = 0; k < s->breaks - 1; k++) {
    const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
    const double *restrict w = s->w[c][k], *restrict dw = s->dw[c][k];
    const double *restrict P = s->P[c][k];
    ns_lane in;
    LANES(i) in[i] = (x2[i] > A[i]) & (x[i] < B[i]) ? 1 : 0;
    if (!ns_any(in)) continue;
    LANES(i) {
      const bool on = in[i] != 0, inside = on & (x[i] > A[i]);
      const double q = on ? w[i] : 0, dq = on ? dw[i] : 0;
      const double h = on ? x2[i] - x[i] : 0, g = h / EI[i];
      s->second_VL[c][k][i] = inside ? V[i] : s->second_VL[c][k][i];
      V[i] -= inside ? P[i] : 0;
      s->second_VR[c][k][i] = inside ? V[i] : s->second_VR[c][k][i];
      s->second_M[c][k][i] = inside ? M[i] : s->second_M[c][k][i];
      s->second_sag[c][k][i] = inside ? y[i] : s->second_sag[c][k][i];
      s->second_slope[c][k][i] = inside ? t[i] : s->second_slope[c][k][i];
      s->M[c][k][i] = inside ? 0 : s->M[c][k][i];
      s->VL[c][k][i] = inside ? 0 : s->VL[c][k][i];
      s->VR[c][k][i] = inside ? 0 : s->VR[c][k][i];
      y[i] +=
          h *
          (t[i] - g * (M[i] / 2 + h * (V[i] * NS_6TH -
                                       h * (q * NS_24TH + dq * h * NS_120TH))));
      t[i] -= g * (M[i] + h * (V[i] / 2 - h * (q * NS_6TH + dq * h * NS_24TH)));
      M[i] += h * (V[i] - h * (q / 2 + dq * h * NS_6TH));
      V[i] -= h * (q + dq * h / 2);
    }
  }
}

/* Where each part lies: slope of the joist at both supports, value and slope
 * of the member's shape at each half's support, from that on. */
struct half_level {
  ns_lane turn[2], at[2], slope[2], Y, T; /* of the member at the left face */
};

/* The joist is off the member by shift and turn at either face; the member
 * goes on over the gap. */
NS_INLINE void half_join(const struct ns_influence *o, int c,
                         const struct half_ends *e, const double *gy,
                         const double *gt, const ns_lane *face,
                         struct half_level *v) {
  ns_lane Y[2], T[2];
  for (int p = 0; p < 2; p++) {
    const struct ns_severed_half *f = &o->half[p];
    LANES(i) {
      const double off = e[p].joist[i] - e[p].member[i] - f->rel[c][0][i];
      const double turn =
          e[p].joist_turn[i] - e[p].member_turn[i] + f->rel[c][1][i];
      v->at[p][i] = off - turn * f->g[i];
      v->slope[p][i] = turn;
      Y[p][i] = e[p].member[i] + off;
      T[p][i] = e[p].member_turn[i] + turn;
    }
  }
  LANES(i) {
    const double g = o->half[1].g[i], D = face[1][i] - face[0][i];
    const double L = o->half[0].all[i], t0 = T[0][i], t1 = T[1][i];
    const double miss = Y[1][i] - Y[0][i] - gy[i] - t0 * D;
    v->turn[0][i] = (miss - g * (t0 + gt[i] + t1)) / L;
    v->turn[1][i] = -(t0 + v->turn[0][i] + gt[i] + t1);
    v->Y[i] = Y[0][i] + v->turn[0][i] * o->half[0].g[i];
    v->T[i] = t0 + v->turn[0][i];
  }
}

/* The shapes of a half are turned into place. */
NS_INLINE void half_place_half(struct ns_beam *s,
                               const struct ns_severed_half *o, int c, int p,
                               const struct half_level *v) {
  const double turn = o->right ? -1 : 1;
  for (int q = 0; q < o->breaks; q++) {
    const int k = o->right ? s->breaks - 1 - q : q;
    LANES(i) {
      const bool in = o->in[q][i] != 0;
      const double x = s->x[k][i], from = o->x[q][i], th = v->turn[p][i];
      const bool on = (x >= s->second[0][i]) & (x <= s->second[1][i]);
      const double y = s->sag[c][k][i], t = s->slope[c][k][i];
      const double z = s->second_sag[c][k][i], u = s->second_slope[c][k][i];
      const double own = v->at[p][i] + (v->slope[p][i] + th) * from;
      s->sag[c][k][i] = in ? y + th * from : y;
      s->slope[c][k][i] = in ? turn * (t + th) : t;
      s->second_sag[c][k][i] = in ? (on ? z + own : 0) : z;
      s->second_slope[c][k][i] =
          in ? (on ? turn * (u + v->slope[p][i] + th) : 0) : u;
    }
  }
}

/* Between the faces the member goes on and the joist's tips are straight. */
NS_INLINE void half_place_gap(struct ns_beam *s, const struct ns_influence *o,
                              int c, const ns_lane *face,
                              const struct half_ends *e,
                              const struct half_level *v) {
  ns_lane tip[2], turn[2];
  for (int p = 0; p < 2; p++)
    LANES(i) {
      const double th = v->turn[p][i];
      tip[p][i] = e[p].joist[i] + th * o->half[p].g[i];
      turn[p][i] = (e[p].joist_turn[i] + th) * (p ? -1 : 1);
    }
  for (int k = 0; k < s->breaks; k++) {
    ns_lane in;
    LANES(i)
      in[i] = (s->x[k][i] > face[0][i]) & (s->x[k][i] < face[1][i]) ? 1 : 0;
    if (!ns_any(in)) continue;
    LANES(i) {
      const bool mine = in[i] != 0;
      const double x = s->x[k][i], off = x - face[0][i];
      const bool right = x >= s->slide[i];
      const double y = right ? tip[1][i] + turn[1][i] * (x - face[1][i])
                             : tip[0][i] + turn[0][i] * off;
      const double t = right ? turn[1][i] : turn[0][i];
      s->sag[c][k][i] = mine ? y : s->sag[c][k][i];
      s->slope[c][k][i] = mine ? t : s->slope[c][k][i];
      s->second_sag[c][k][i] += mine ? v->Y[i] + v->T[i] * off : 0;
      s->second_slope[c][k][i] += mine ? v->T[i] : 0;
    }
  }
  LANES(i) {
    const double a = tip[0][i] + turn[0][i] * (s->slide[i] - face[0][i]);
    const double b = tip[1][i] + turn[1][i] * (s->slide[i] - face[1][i]);
    s->turn[c][0][i] = turn[0][i] - turn[1][i];
    s->slip[c][i] = b - a;
  }
}

/* Nothing from break 'first' on from case c. */
NS_INLINE void half_no_case(struct ns_beam *s, int c, int first) {
  const size_t rows = sizeof(ns_lane) * (size_t)(s->breaks - first);
  ns_lane *all[] = {s->M[c],         s->VL[c],        s->VR[c],
                    s->slope[c],     s->sag[c],       s->second_M[c],
                    s->second_VL[c], s->second_VR[c], s->second_slope[c],
                    s->second_sag[c]};
  for (size_t r = 0; r < sizeof all / sizeof *all; r++)
    memset(all[r] + first, 0, rows);
  memset(s->R[c], 0, sizeof(ns_lane) * 2);
  memset(s->turn[c], 0, sizeof(ns_lane));
  memset(s->slip[c], 0, sizeof(ns_lane));
}

_Static_assert(NS_MAX_STATIONS + 4 <= NS_MAX_UNKNOWNS,
               "more unknowns than there is room for");

/* Lanes that have a dead load; whether any has. */
NS_INLINE bool half_dead(const struct ns_beam *s, double *restrict some) {
  ns_fill(some, 0);
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict w = s->w[0][k], *restrict dw = s->dw[0][k];
    const double *restrict P = s->P[0][k];
    LANES(i) {
      const bool on = (w[i] != 0) | (dw[i] != 0) | (P[i] != 0);
      some[i] = on ? 1 : some[i];
    }
  }
  return ns_any(some);
}

/* A row in the lanes marked, else nil: none is -0 there, as where no lane has
 * a load. */
NS_INLINE void half_where(double *restrict row, const double *restrict on) {
  LANES(i) row[i] = on[i] != 0 ? row[i] : 0;
}

/* Nothing from dead load in the lanes that have none. */
NS_INLINE void half_dead_where(struct ns_beam *s, const double *on) {
  ns_lane none;
  LANES(i) none[i] = on[i] != 0 ? 0 : 1;
  if (!ns_any(none)) return;
  for (int k = 0; k < s->breaks; k++) {
    half_where(s->M[0][k], on);
    half_where(s->VL[0][k], on);
    half_where(s->VR[0][k], on);
    half_where(s->slope[0][k], on);
    half_where(s->sag[0][k], on);
    half_where(s->second_M[0][k], on);
    half_where(s->second_VL[0][k], on);
    half_where(s->second_VR[0][k], on);
    half_where(s->second_slope[0][k], on);
    half_where(s->second_sag[0][k], on);
  }
  for (int l = 0; l < s->stations; l++) half_where(s->tie[0][l], on);
  for (int p = 0; p < 2; p++) half_where(s->R[0][p], on);
  half_where(s->turn[0][0], on);
  half_where(s->slip[0], on);
}

/* Forces and shapes of both halves, put together in the rows of the beam. */
NS_CLONES void ns_severed_solve(struct ns_influence *o, struct ns_beam *s) {
  ns_lane face[2], gy, gt, dead;
  struct half_ends e[2];
  struct half_level level;
  const bool some = half_dead(s, dead);
  o->s = s;
  o->by_sums = false;
  o->severed = s->severed = true;
  s->by_spans = false;
  s->unknowns = s->stations + 4;
  s->only = 0;
  ns_fill(s->unstable, 0);
  LANES(i) o->length[i] = s->x[s->breaks - 1][i] - s->x[0][i];
  half_region(s);
  half_faces(s, face);
  for (int c = 0; c < 3; c++)
    memset(s->tie[c], 0, sizeof(ns_lane) * (size_t)s->stations);
  half_no_case(s, 2, 0);
  if (!some) half_no_case(s, 0, 0);
  for (int p = 0; p < 2; p++) {
    struct ns_severed_half *f = &o->half[p];
    f->right = p == 1;
    f->dead = some;
    half_breaks(s, (const ns_lane *)face, f);
    half_segments(s, f);
    half_reactions(s, (const ns_lane *)face, f);
    half_stations(s, (const ns_lane *)face, f);
    half_lay(o, s, f);
  }
  for (int c = some ? 0 : 1; c < 2; c++) {
    half_no_case(s, c, o->half[0].breaks);
    for (int p = 0; p < 2; p++) {
      ns_copy(s->R[c][p], o->half[p].near[c]);
      half_forces(s, &o->half[p], c, &e[p]);
    }
    half_over_gap(s, (const ns_lane *)face, c, &e[0], gy, gt);
    half_join(o, c, e, gy, gt, (const ns_lane *)face, &level);
    for (int p = 0; p < 2; p++) half_place_half(s, &o->half[p], c, p, &level);
    half_place_gap(s, o, c, (const ns_lane *)face, e, &level);
  }
  if (some) half_dead_where(s, dead);
}
