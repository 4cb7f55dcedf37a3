/* SPDX-License-Identifier: MIT
 * grid.h - a floor as a grid: joists along x, strips of deck and rows of blocks
 * across them. Part of netsection.h. Units lb, in. */
#ifndef NETSECTION_GRID_H
#define NETSECTION_GRID_H

#include <stdbool.h>

#define NS_MAX_GRID_JOISTS 64
#define NS_MAX_GRID_STATIONS 2048
#define NS_MAX_GRID_MODES 6
#define NS_GRID_TRIALS 12 /* vectors that modes are sought with */

/* A beam across the joists at one station: a strip of deck, or a row of blocks.
 * It runs over the joists first..last that reach the station and turns freely
 * at both its ends. */
struct ns_strip {
  int station, first, last;
  double EI;       /* lb-in2, of the whole strip */
  const double *c; /* per joist: rotation per moment over it, rad/(lb-in), as
                    * of the springs of blocks; infinite: a hinge; null: 0 */
};

/* The caller owns all arrays. Joist by joist, from station to station. */
struct ns_grid {
  int joists, stations, strips;
  const double *y;           /* [joists] rising */
  const double *x;           /* [stations] rising */
  const double *EI;          /* [joists][stations - 1] joist alone; 0: a gap */
  const double *along;       /* [joists] EI of the deck along each */
  const unsigned char *wood; /* [joists][stations - 1] joist or gap there */
  const unsigned char *held; /* [joists][stations] 1: a bearing */
  const struct ns_strip *strip;
};

/* Loads, downward: lb/in of each piece of each joist, lb at each station. */
struct ns_grid_load {
  const double *q, *P; /* [joists][stations - 1], [joists][stations] */
};

/* Number of unknowns, deflection and slope at each node: in one vector, joists
 * of a station beside each other. */
int ns_grid_unknowns(const struct ns_grid *g);
/* Doubles that ns_grid_factor fills: the factored band and its scale. */
size_t ns_grid_room(const struct ns_grid *g);
/* False where something is held by nothing: a mechanism. */
bool ns_grid_factor(const struct ns_grid *g, double *band);
/* Deflections and slopes; 'spare' has room for one more vector. */
void ns_grid_solve(const struct ns_grid *g, const double *band,
                   const struct ns_grid_load *load, double *u, double *spare);
/* What answers a vector of forces in u, in place: bearings are held, the rest
 * moves. */
void ns_grid_answer(const struct ns_grid *g, const double *band, double *u);
/* Loads less what holds against them, per unknown: minus the reaction at a
 * bearing (reaction upward), 0 elsewhere but for rounding. */
void ns_grid_left_over(const struct ns_grid *g, const struct ns_grid_load *load,
                       const double *u, double *r);
/* Moments of a strip over its joists, sagging positive, lb-in; 0 elsewhere. */
void ns_strip_moments(const struct ns_grid *g, const struct ns_strip *s,
                      const double *u, double *M);

/* Of the joist alone, without the deck along it. */
struct ns_grid_place {
  double w, slope, M, V;
};
/* At x, from the piece that ends or that begins there. */
void ns_grid_at(const struct ns_grid *g, const struct ns_grid_load *load,
                const double *u, int i, double x, bool right,
                struct ns_grid_place *out);

/* Lowest natural frequencies, Hz, from lumped masses [joists][stations],
 * lb s2/in. 'moves' [modes][joists] is the largest movement of each joist in a
 * mode, of the largest of all; 'work' has room for 2 NS_GRID_TRIALS vectors.
 * Returns how many were found. */
int ns_grid_modes(const struct ns_grid *g, const double *band,
                  const double *mass, int modes, double *hertz, double *moves,
                  double *work);

#endif
