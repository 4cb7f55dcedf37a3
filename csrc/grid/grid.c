/* SPDX-License-Identifier: MIT
 * grid.c - the stiffness of a floor as a grid, and its answer to loads.
 *
 * Each joist is a line of beam elements; every strip across is condensed to the
 * deflections of the joists under it, so that slopes across the floor are no
 * unknowns. Unknowns go station by station, so the matrix is a band of
 * 4 x joists - 1 beside the diagonal. It is factored once as U' D U and answers
 * any load. Torsion of joists, slip and membrane action are not in it. */
#include <math.h>
#include <string.h>

#include "grid/grid.h"

/* A pivot this small beside its diagonal is a mechanism, not a stiffness. */
#define NOTHING 1e-13

/* A deflection and a rotation for each joist at each station. */
int ns_grid_unknowns(const struct ns_grid *g) {
  return 2 * g->joists * g->stations;
}

static int band_width(const struct ns_grid *g) { return 4 * g->joists - 1; }

/* Numbers that the factored band takes. */
unsigned long ns_grid_room(const struct ns_grid *g) {
  return (unsigned long)ns_grid_unknowns(g) *
         (unsigned long)(band_width(g) + 2);
}

/* Row of the deflection of joist i at station k; its rotation follows. */
static int dof(const struct ns_grid *g, int i, int k) {
  return 2 * (k * g->joists + i);
}

/* Whether joist i has wood beside station k. */
static bool reaches(const struct ns_grid *g, int i, int k) {
  const unsigned char *wood = g->wood + (size_t)i * (size_t)(g->stations - 1);
  return (k > 0 && wood[k - 1]) || (k < g->stations - 1 && wood[k]);
}

/* Joist and deck along it; the part of M that is the joist's. */
static double element_EI(const struct ns_grid *g, int i, int e, double *part) {
  const size_t at = (size_t)i * (size_t)(g->stations - 1) + (size_t)e;
  const double EI = g->wood[at] ? g->EI[at] + g->along[i] : 0;
  *part = EI > 0 ? g->EI[at] / EI : 0;
  return EI;
}

/* Load on element e of joist i, lb/in. */
static double load_q(const struct ns_grid *g, const struct ns_grid_load *p,
                     int i, int e) {
  return p->q[(size_t)i * (size_t)(g->stations - 1) + (size_t)e];
}

/* Forces of an element on its nodes from their movement: V, M at its left, its
 * right; down and in the sense of the slope. The two V cancel to the bit. */
static void element_forces(double EI, double l, const double *u1,
                           const double *u2, double f[4]) {
  const double k = EI / (l * l * l);
  const double S = k * (12 * (u1[0] - u2[0]) + 6 * l * (u1[1] + u2[1]));
  f[0] = S;
  f[1] = k * l * (6 * (u1[0] - u2[0]) + l * (4 * u1[1] + 2 * u2[1]));
  f[2] = -S;
  f[3] = k * l * (6 * (u1[0] - u2[0]) + l * (2 * u1[1] + 4 * u2[1]));
}

/* ---- strips ---- */

/* Three-moment equations of a strip, rows of its inner joists that are no
 * hinge: A M = -B w, with
 *   A_ii = (s_l + s_r)/(3 EI) + c_i, A_i,i+1 = s/(6 EI),
 *   (B w)_i = (w_i-1 - w_i)/s_l - (w_i - w_i+1)/s_r
 * so that its forces on the joists are B' M (statics of a continuous beam). */
struct across {
  int n;                         /* joists under it */
  int joist[NS_MAX_GRID_JOISTS]; /* which */
  double s[NS_MAX_GRID_JOISTS];  /* bay after each */
  bool free[NS_MAX_GRID_JOISTS]; /* no moment over it */
  double d[NS_MAX_GRID_JOISTS];  /* factored: diagonal */
  double e[NS_MAX_GRID_JOISTS];  /* and the entry to the next */
};

/* Joists that a strip crosses, and its influence matrix on them. */
static void lay_strip(const struct ns_grid *g, const struct ns_strip *t,
                      struct across *a) {
  a->n = 0;
  for (int i = t->first; i <= t->last; i++)
    if (reaches(g, i, t->station)) a->joist[a->n++] = i;
  for (int r = 0; r + 1 < a->n; r++)
    a->s[r] = g->y[a->joist[r + 1]] - g->y[a->joist[r]];
  for (int r = 0; r < a->n; r++) {
    const double c = t->c ? t->c[a->joist[r]] : 0;
    a->free[r] = r == 0 || r == a->n - 1 || isinf(c);
    a->d[r] = a->free[r] ? 1 : (a->s[r - 1] + a->s[r]) / (3 * t->EI) + c;
    a->e[r] = 0;
  }
  for (int r = 1; r < a->n - 1; r++)
    if (!a->free[r] && !a->free[r + 1]) {
      a->e[r] = a->s[r] / (6 * t->EI);
      a->d[r + 1] -= a->e[r] * a->e[r] / a->d[r];
    }
}

/* M over the joists of the strip from their deflections. */
static void strip_M(const struct across *a, const double *w, double *M) {
  for (int r = 0; r < a->n; r++)
    M[r] = a->free[r]
               ? 0
               : (w[r] - w[r - 1]) / a->s[r - 1] - (w[r + 1] - w[r]) / a->s[r];
  for (int r = 1; r < a->n; r++) M[r] -= a->e[r - 1] / a->d[r - 1] * M[r - 1];
  for (int r = a->n - 1; r >= 0; r--)
    M[r] = (M[r] - (r + 1 < a->n ? a->e[r] * M[r + 1] : 0)) / a->d[r];
}

/* What the strip holds each joist back with, upward: K w of the condensed
 * strip, from the steps of its shear. */
static void strip_forces(const struct across *a, const double *M, double *f) {
  for (int r = 0; r < a->n; r++) f[r] = 0;
  for (int r = 0; r + 1 < a->n; r++) {
    const double V = (M[r + 1] - M[r]) / a->s[r];
    f[r] -= V;
    f[r + 1] += V;
  }
}

/* Deflections of the joists under a strip. */
static void strip_movement(const struct ns_grid *g, const struct ns_strip *t,
                           const struct across *a, const double *u, double *w) {
  for (int r = 0; r < a->n; r++) w[r] = u[dof(g, a->joist[r], t->station)];
}

/* Moments of a strip over the joists it crosses. */
void ns_strip_moments(const struct ns_grid *g, const struct ns_strip *t,
                      const double *u, double *M) {
  struct across a;
  double w[NS_MAX_GRID_JOISTS] = {0}, m[NS_MAX_GRID_JOISTS];
  for (int i = 0; i < g->joists; i++) M[i] = 0;
  if (!(t->EI > 0)) return;
  lay_strip(g, t, &a);
  strip_movement(g, t, &a, u, w);
  strip_M(&a, w, m);
  for (int r = 0; r < a.n; r++) M[a.joist[r]] = m[r];
}

/* ---- matrix ---- */

/* Stiffness of the joists, element by element, into the band. */
static void add_elements(const struct ns_grid *g, double *A) {
  const int bw = band_width(g) + 1;
  for (int i = 0; i < g->joists; i++)
    for (int e = 0; e < g->stations - 1; e++) {
      double part;
      const double EI = element_EI(g, i, e, &part);
      if (!(EI > 0)) continue;
      const double l = g->x[e + 1] - g->x[e], k = EI / (l * l * l);
      const double m[4][4] = {{12, 6 * l, -12, 6 * l},
                              {6 * l, 4 * l * l, -6 * l, 2 * l * l},
                              {-12, -6 * l, 12, -6 * l},
                              {6 * l, 2 * l * l, -6 * l, 4 * l * l}};
      const int at[4] = {dof(g, i, e), dof(g, i, e) + 1, dof(g, i, e + 1),
                         dof(g, i, e + 1) + 1};
      for (int a = 0; a < 4; a++)
        for (int b = a; b < 4; b++)
          A[(size_t)at[a] * (size_t)bw + (size_t)(at[b] - at[a])] +=
              k * m[a][b];
    }
}

/* Stiffness of the strips across into the band. */
static void add_strips(const struct ns_grid *g, double *A) {
  const size_t bw = (size_t)band_width(g) + 1;
  for (int n = 0; n < g->strips; n++) {
    const struct ns_strip *t = &g->strip[n];
    struct across a;
    double w[NS_MAX_GRID_JOISTS] = {0}, M[NS_MAX_GRID_JOISTS];
    double f[NS_MAX_GRID_JOISTS];
    if (!(t->EI > 0)) continue;
    lay_strip(g, t, &a);
    if (a.n < 3) continue;
    for (int p = 0; p < a.n; p++) {
      for (int r = 0; r < a.n; r++) w[r] = r == p;
      strip_M(&a, w, M);
      strip_forces(&a, M, f);
      const int row = dof(g, a.joist[p], t->station);
      for (int r = p; r < a.n; r++)
        A[(size_t)row * bw + (size_t)(dof(g, a.joist[r], t->station) - row)] +=
            f[r];
    }
  }
}

/* Takes an unknown out: 1 on its diagonal, nothing beside it. */
static void pin(const struct ns_grid *g, double *A, int p) {
  const int bw = band_width(g);
  for (int m = 1; m <= bw; m++) {
    A[(size_t)p * (size_t)(bw + 1) + (size_t)m] = 0;
    if (p - m >= 0) A[(size_t)(p - m) * (size_t)(bw + 1) + (size_t)m] = 0;
  }
  A[(size_t)p * (size_t)(bw + 1)] = 1;
}

/* Bearings, and slopes that nothing resists, are no unknowns. False where a
 * node that can be loaded has nothing against going down. */
static bool pin_all(const struct ns_grid *g, double *A) {
  const size_t bw = (size_t)band_width(g) + 1;
  for (int k = 0; k < g->stations; k++)
    for (int i = 0; i < g->joists; i++) {
      const int p = dof(g, i, k);
      const bool held = g->held[(size_t)i * (size_t)g->stations + (size_t)k];
      if (!held && reaches(g, i, k) && !(A[(size_t)p * bw] > 0)) return false;
      if (held || !reaches(g, i, k)) pin(g, A, p);
      if (!(A[(size_t)(p + 1) * bw] > 0)) pin(g, A, p + 1);
    }
  return true;
}

/* U' D U of a band in rows from the diagonal, in place. */
static bool factor(double *A, int unknowns, int bw, double *scale) {
  const size_t row = (size_t)bw + 1;
  for (int p = 0; p < unknowns; p++) scale[p] = A[(size_t)p * row];
  for (int p = 0; p < unknowns; p++) {
    double *restrict a = A + (size_t)p * row;
    if (!(a[0] > NOTHING * scale[p])) return false;
    const int last = bw < unknowns - 1 - p ? bw : unknowns - 1 - p;
    for (int m = 1; m <= last; m++) {
      if (a[m] == 0) continue;
      const double t = a[m] / a[0];
      double *restrict b = A + (size_t)(p + m) * row;
      for (int q = m; q <= last; q++) b[q - m] -= t * a[q];
    }
  }
  return true;
}

/* Sums the stiffness and factors it; false where the grid is a mechanism. */
bool ns_grid_factor(const struct ns_grid *g, double *band) {
  const int unknowns = ns_grid_unknowns(g), bw = band_width(g);
  const size_t size = (size_t)unknowns * (size_t)(bw + 1);
  memset(band, 0, sizeof *band * ns_grid_room(g));
  add_elements(g, band);
  add_strips(g, band);
  return pin_all(g, band) && factor(band, unknowns, bw, band + size);
}

/* Forward, through D, and back; a pinned unknown stays 0. */
static void substitute(const double *A, int unknowns, int bw, double *u) {
  const size_t row = (size_t)bw + 1;
  for (int p = 0; p < unknowns; p++) {
    const double *a = A + (size_t)p * row;
    const int last = bw < unknowns - 1 - p ? bw : unknowns - 1 - p;
    const double t = u[p] / a[0];
    for (int m = 1; m <= last; m++) u[p + m] -= a[m] * t;
    u[p] = t;
  }
  for (int p = unknowns - 1; p >= 0; p--) {
    const double *a = A + (size_t)p * row;
    const int last = bw < unknowns - 1 - p ? bw : unknowns - 1 - p;
    double sum = 0;
    for (int m = 1; m <= last; m++) sum += a[m] * u[p + m];
    u[p] -= sum / a[0];
  }
}

/* Movements under loads that u holds, by the factored band. */
void ns_grid_answer(const struct ns_grid *g, const double *band, double *u) {
  for (int k = 0; k < g->stations; k++)
    for (int i = 0; i < g->joists; i++)
      if (g->held[(size_t)i * (size_t)g->stations + (size_t)k] ||
          !reaches(g, i, k))
        u[dof(g, i, k)] = 0;
  substitute(band, ns_grid_unknowns(g), band_width(g), u);
}

/* ---- loads ---- */

/* What is left of the loads once the floor has moved by u: at a bearing, what
 * it has to hold. An even load on a piece goes to its ends by q l / 2, and by
 * q l^2 / 12 as moments where the piece is stiff. */
static void left_over(const struct ns_grid *g, const struct ns_grid_load *p,
                      const double *u, double *r) {
  for (int i = 0; i < g->joists; i++) {
    for (int k = 0; k < g->stations; k++) {
      r[dof(g, i, k)] = p->P[(size_t)i * (size_t)g->stations + (size_t)k];
      r[dof(g, i, k) + 1] = 0;
    }
    for (int e = 0; e < g->stations - 1; e++) {
      double part, f[4] = {0, 0, 0, 0};
      const double l = g->x[e + 1] - g->x[e], q = load_q(g, p, i, e);
      const double EI = element_EI(g, i, e, &part);
      const int a = dof(g, i, e), b = dof(g, i, e + 1);
      const double turn = EI > 0 ? q * l * l / 12 : 0;
      if (u && EI > 0) element_forces(EI, l, u + a, u + b, f);
      r[a] += q * l / 2 - f[0];
      r[a + 1] += turn - f[1];
      r[b] += q * l / 2 - f[2];
      r[b + 1] += -turn - f[3];
    }
  }
  for (int n = 0; u && n < g->strips; n++) {
    const struct ns_strip *t = &g->strip[n];
    struct across a;
    double w[NS_MAX_GRID_JOISTS] = {0}, M[NS_MAX_GRID_JOISTS];
    double f[NS_MAX_GRID_JOISTS];
    if (!(t->EI > 0)) continue;
    lay_strip(g, t, &a);
    strip_movement(g, t, &a, u, w);
    strip_M(&a, w, M);
    strip_forces(&a, M, f);
    for (int m = 0; m < a.n; m++) r[dof(g, a.joist[m], t->station)] -= f[m];
  }
}

/* Slopes that were taken out take no load: their rows of the answer are 0. */
static void without_loose_slopes(const struct ns_grid *g, double *r) {
  for (int i = 0; i < g->joists; i++)
    for (int k = 0; k < g->stations; k++) {
      double part;
      const bool before = k > 0 && element_EI(g, i, k - 1, &part) > 0;
      const bool after = k < g->stations - 1 && element_EI(g, i, k, &part) > 0;
      if (!before && !after) r[dof(g, i, k) + 1] = 0;
    }
}

/* Solved, and once more for what is left over. */
void ns_grid_solve(const struct ns_grid *g, const double *band,
                   const struct ns_grid_load *load, double *u, double *spare) {
  left_over(g, load, NULL, u);
  without_loose_slopes(g, u);
  ns_grid_answer(g, band, u);
  left_over(g, load, u, spare);
  without_loose_slopes(g, spare);
  ns_grid_answer(g, band, spare);
  for (int p = 0; p < ns_grid_unknowns(g); p++) u[p] += spare[p];
}

/* Loads less what the movements answer: nil but for rounding. */
void ns_grid_left_over(const struct ns_grid *g, const struct ns_grid_load *load,
                       const double *u, double *r) {
  left_over(g, load, u, r);
}

/* V, M and deflection of joist i at x. */
void ns_grid_at(const struct ns_grid *g, const struct ns_grid_load *load,
                const double *u, int i, double x, bool right,
                struct ns_grid_place *o) {
  int e = 0;
  while (e + 2 < g->stations && (right ? g->x[e + 1] <= x : g->x[e + 1] < x))
    e++;
  double part, f[4] = {0, 0, 0, 0};
  const double l = g->x[e + 1] - g->x[e], z = x - g->x[e], t = z / l;
  const double EI = element_EI(g, i, e, &part), q = load_q(g, load, i, e);
  const double *a = u + dof(g, i, e), *b = u + dof(g, i, e + 1);
  memset(o, 0, sizeof *o);
  if (EI > 0) {
    element_forces(EI, l, a, b, f);
    /* Ends held: q l^2/12 hogging; sagging is positive, w is down. */
    const double M1 = f[1] - q * l * l / 12, M2 = -f[3] - q * l * l / 12;
    const double V1 = (M2 - M1) / l + q * l / 2;
    o->M = part * (M1 + z * (V1 - q * z / 2));
    o->V = part * (V1 - q * z);
    o->w = a[0] * (1 - t * t * (3 - 2 * t)) + b[0] * t * t * (3 - 2 * t) +
           l * t * (1 - t) * (a[1] * (1 - t) - b[1] * t) +
           q * z * z * (l - z) * (l - z) / (24 * EI);
    o->slope = (b[0] - a[0]) * 6 * t * (1 - t) / l +
               a[1] * (1 - t) * (1 - 3 * t) - b[1] * t * (2 - 3 * t) +
               q * z * (l - z) * (l - 2 * z) / (12 * EI);
  } else {
    o->w = a[0] + (b[0] - a[0]) * t;
    o->slope = (b[0] - a[0]) / l;
  }
}
