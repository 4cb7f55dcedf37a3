/* SPDX-License-Identifier: MIT
 * grid_modes.c - lowest natural frequencies of a floor as a grid.
 *
 * Subspace iteration: trial shapes are loaded with their own inertia and
 * answered by the factored grid, then mixed so that they part (Rayleigh, Ritz).
 * Masses are lumped at the nodes; slopes have none. */
#include <math.h>
#include <string.h>

#include "joist/elementary.h"
#include "grid/grid.h"

#define TRIALS NS_GRID_TRIALS
#define ROUNDS 60
#define NEAR 1e-12

typedef double square[TRIALS][TRIALS];

/* Eigenvalues in the diagonal of A, vectors in the columns of Z (Jacobi). */
static void jacobi(int n, square A, square Z) {
  for (int a = 0; a < n; a++)
    for (int b = 0; b < n; b++) Z[a][b] = a == b;
  for (int sweep = 0; sweep < 40; sweep++) {
    double off = 0, on = 0;
    for (int a = 0; a < n; a++) {
      on += A[a][a] * A[a][a];
      for (int b = a + 1; b < n; b++) off += A[a][b] * A[a][b];
    }
    if (off <= 1e-32 * on) return;
    for (int a = 0; a < n; a++)
      for (int b = a + 1; b < n; b++) {
        if (A[a][b] == 0) continue;
        const double h = (A[b][b] - A[a][a]) / (2 * A[a][b]);
        const double t = (h < 0 ? -1 : 1) / (fabs(h) + sqrt(h * h + 1));
        const double c = 1 / sqrt(t * t + 1), s = t * c;
        for (int k = 0; k < n; k++) {
          const double p = A[k][a], q = A[k][b];
          A[k][a] = c * p - s * q;
          A[k][b] = s * p + c * q;
        }
        for (int k = 0; k < n; k++) {
          const double p = A[a][k], q = A[b][k];
          A[a][k] = c * p - s * q;
          A[b][k] = s * p + c * q;
        }
        for (int k = 0; k < n; k++) {
          const double p = Z[k][a], q = Z[k][b];
          Z[k][a] = c * p - s * q;
          Z[k][b] = s * p + c * q;
        }
      }
  }
}

/* M = L L', in the lower half; false where the shapes are not independent. */
static bool cholesky(int n, square M) {
  for (int a = 0; a < n; a++)
    for (int b = 0; b <= a; b++) {
      double sum = M[a][b];
      for (int k = 0; k < b; k++) sum -= M[a][k] * M[b][k];
      if (a == b && !(sum > 0)) return false;
      M[a][b] = a == b ? sqrt(sum) : sum / M[b][b];
    }
  return true;
}

/* K z = omega^2 M z of the trial shapes: omega^2 rising, and in Z the mixes of
 * shapes, each of unit mass. */
static bool part_shapes(int n, square K, square M, double *omega2, square Z) {
  square A, Y;
  if (!cholesky(n, M)) return false;
  for (int a = 0; a < n; a++) /* L^-1 K */
    for (int b = 0; b < n; b++) {
      double sum = K[a][b];
      for (int k = 0; k < a; k++) sum -= M[a][k] * A[k][b];
      A[a][b] = sum / M[a][a];
    }
  for (int a = 0; a < n; a++) /* and L'^-1 from the right */
    for (int b = 0; b < n; b++) {
      double sum = A[a][b];
      for (int k = 0; k < b; k++) sum -= M[b][k] * A[a][k];
      A[a][b] = sum / M[b][b];
    }
  jacobi(n, A, Y);
  bool taken[TRIALS] = {false};
  for (int m = 0; m < n; m++) {
    int low = -1;
    for (int a = 0; a < n; a++)
      if (!taken[a] && (low < 0 || A[a][a] < A[low][low])) low = a;
    taken[low] = true;
    omega2[m] = A[low][low];
    for (int a = n - 1; a >= 0; a--) {
      double sum = Y[a][low];
      for (int k = a + 1; k < n; k++) sum -= M[k][a] * Z[k][m];
      Z[a][m] = sum / M[a][a];
    }
  }
  return true;
}

/* Half sines along the joists, and in other shapes across them. */
static void first_shapes(const struct ns_grid *g, int n, double *X) {
  const int unknowns = ns_grid_unknowns(g);
  const double pi = 3.14159265358979323846;
  const double L = g->x[g->stations - 1] - g->x[0];
  const double B = g->y[g->joists - 1] - g->y[0];
  for (int m = 0; m < n; m++)
    for (int k = 0; k < g->stations; k++)
      for (int i = 0; i < g->joists; i++) {
        double *u = X + (size_t)m * (size_t)unknowns + 2 * (k * g->joists + i);
        const double across = B > 0 ? (g->y[i] - g->y[0]) / B : 0;
        const double along = (g->x[k] - g->x[0]) / L;
        u[0] =
            ns_sin(pi * (1 + m % 3) * along) * ns_cos(pi * (m / 3) * across) +
            0.1 * ns_sin(pi * (m + 2) * (along + 0.3 * across + 0.07));
        u[1] = 0;
      }
}

static double node_mass(const struct ns_grid *g, const double *mass, int p) {
  const int node = p / 2, k = node / g->joists, i = node % g->joists;
  return p % 2 ? 0 : mass[(size_t)i * (size_t)g->stations + (size_t)k];
}

static void mix(int unknowns, int n, square Z, double *X) {
  double row[TRIALS];
  for (int p = 0; p < unknowns; p++) {
    for (int m = 0; m < n; m++) {
      row[m] = 0;
      for (int k = 0; k < n; k++)
        row[m] += X[(size_t)k * (size_t)unknowns + (size_t)p] * Z[k][m];
    }
    for (int m = 0; m < n; m++)
      X[(size_t)m * (size_t)unknowns + (size_t)p] = row[m];
  }
}

/* One round: X <- answers to its inertia, parted. */
static bool one_round(const struct ns_grid *g, const double *band,
                      const double *mass, int n, double *X, double *F,
                      double *omega2) {
  const int unknowns = ns_grid_unknowns(g);
  square K, M, Z;
  for (int m = 0; m < n; m++) {
    double *x = X + (size_t)m * (size_t)unknowns;
    double *f = F + (size_t)m * (size_t)unknowns;
    for (int p = 0; p < unknowns; p++) f[p] = x[p] * node_mass(g, mass, p);
    memcpy(x, f, sizeof *x * (size_t)unknowns);
    ns_grid_answer(g, band, x);
  }
  for (int a = 0; a < n; a++)
    for (int b = 0; b <= a; b++) {
      const double *x = X + (size_t)a * (size_t)unknowns;
      const double *y = X + (size_t)b * (size_t)unknowns;
      const double *f = F + (size_t)b * (size_t)unknowns;
      double k = 0, m = 0;
      for (int p = 0; p < unknowns; p += 2) {
        k += x[p] * f[p];
        m += x[p] * y[p] * node_mass(g, mass, p);
      }
      K[a][b] = K[b][a] = k;
      M[a][b] = M[b][a] = m;
    }
  if (!part_shapes(n, K, M, omega2, Z)) return false;
  mix(unknowns, n, Z, X);
  return true;
}

static void movements(const struct ns_grid *g, int modes, const double *X,
                      double *moves) {
  const int unknowns = ns_grid_unknowns(g);
  for (int m = 0; m < modes; m++) {
    double most = 0;
    double *row = moves + (size_t)m * (size_t)g->joists;
    for (int i = 0; i < g->joists; i++) {
      row[i] = 0;
      for (int k = 0; k < g->stations; k++) {
        const double w = fabs(X[(size_t)m * (size_t)unknowns +
                                (size_t)(2 * (k * g->joists + i))]);
        row[i] = w > row[i] ? w : row[i];
      }
      most = row[i] > most ? row[i] : most;
    }
    for (int i = 0; i < g->joists; i++) row[i] /= most > 0 ? most : 1;
  }
}

int ns_grid_modes(const struct ns_grid *g, const double *band,
                  const double *mass, int modes, double *hertz, double *moves,
                  double *work) {
  const size_t unknowns = (size_t)ns_grid_unknowns(g);
  const double pi = 3.14159265358979323846;
  double *X = work, *F = work + unknowns * TRIALS;
  double omega2[TRIALS] = {0}, before[TRIALS] = {0};
  first_shapes(g, TRIALS, X);
  for (int round = 0; round < ROUNDS; round++) {
    if (!one_round(g, band, mass, TRIALS, X, F, omega2)) return 0;
    double worst = 0;
    for (int m = 0; m < modes; m++) {
      const double step = fabs(omega2[m] - before[m]);
      worst = step > worst * omega2[m] ? step / omega2[m] : worst;
    }
    memcpy(before, omega2, sizeof before);
    if (worst < NEAR) break;
  }
  for (int m = 0; m < modes; m++) hertz[m] = sqrt(omega2[m]) / (2 * pi);
  movements(g, modes, X, moves);
  return modes;
}
