/* SPDX-License-Identifier: MIT
 * end_sister.h - forces of a joist whose end is lost and of the sister that
 * carries it: what fix/end_statics.lua asks for, of one joist.
 *
 * x runs from the lost end's bearing. The sister bears at x = 0, the joist at
 * x = L alone; two groups of fasteners at x_i and x_o tie them. Load on 0..l is
 * on the sister, beyond it on the joist. Statically determinate, so every force
 * has an influence line of straight pieces, and its envelope under live load
 * that may be absent anywhere is exact. */
#ifndef NETSECTION_END_SISTER_H
#define NETSECTION_END_SISTER_H

#include <stdbool.h>

#include "joist/fields.h"

/* X(name, word): reactions at the hanger and the far bearing, the sister's
 * moment at the inner group, forces of the groups, V and M of both members, the
 * joist's shear d from the face of the far bearing. */
#define NS_END_FORCE_LIST(X)                                                   \
  X(R, "R")                                                                    \
  X(FAR, "far")                                                                \
  X(M_I, "M_i")                                                                \
  X(F_O, "F_o")                                                                \
  X(F_I, "F_i")                                                                \
  X(V_SISTER, "V_sister")                                                      \
  X(M_SISTER, "M_sister")                                                      \
  X(V_HOST, "V_host")                                                          \
  X(M_HOST, "M_host")                                                          \
  X(V_FAR, "V_far")

enum ns_end_force {
#define X(name, word) NS_END_##name,
  NS_END_FORCE_LIST(X)
#undef X
};

/* Those of the floor, dead and live, beside the joist's own. */
#define NS_END_LINES (NS_MAX_LINES + 2)

/* Lengths in in, loads in lb and lb/in. */
struct ns_end {
  double L, l, x_i, x_o, face, d;
  int lines, points, combos;
  struct {
    double a, b, w1, w2;
    bool live;
  } line[NS_END_LINES];
  struct {
    double at, P;
    bool live;
  } point[NS_MAX_POINTS];
  struct {
    double D, L, CD;
  } combo[NS_MAX_COMBOS];
};

/* A force at x under dead load, the most and the least of live load, live load
 * everywhere; what of them asks most of wood or fastener: V under combination
 * 'index' (from 1) with its CD, at x. */
struct ns_end_answer {
  double dead, most, least, live, V, CD, index, x;
};

/* Of a force at x; sign 1 or -1: of that sign alone, 0: either. */
struct ns_end_answer ns_end_at(const struct ns_end *g, enum ns_end_force force,
                               double x, int sign);
/* The most that is asked between a and b, its place refined between the places
 * that are tried (64 steps, ends of loads, groups). */
struct ns_end_answer ns_end_peak(const struct ns_end *g,
                                 enum ns_end_force force, double a, double b,
                                 int sign);

/* Deflection by virtual work, at 31 places: EI of both members, stiffness of
 * both groups, lb/in, creep, and how much more cuts let it sag. */
struct ns_end_sag {
  double EI_host, EI_sister, K_i, K_o, creep, more;
  double live, live_at, total, total_at; /* answers, x of the largest */
};
void ns_end_sag(const struct ns_end *g, struct ns_end_sag *s);

#endif
