/* SPDX-License-Identifier: MIT
 * opening.h - the wood over and under an opening, for the checks of it. Private
 * to them. */
#ifndef NETSECTION_OPENING_H
#define NETSECTION_OPENING_H

#include "check/cut_check.h"

/* One of the two chords of an opening. Stresses for M = 1. */
struct ns_chord {
  ns_lane h, y, I, axial, bend, tau;
};

/* What all checks of the chords of an opening read: lengths as a frame and as
 * a tie, stress in its deepest chord for V = 1, whether there are chords, both
 * of them, and F_b' with the C_L that goes with M < 0 at the cut. */
struct ns_opening {
  ns_lane a, L, bend, chords;
  ns_lane acts;             /* 1: a tie, a strut or a frame is counted on */
  struct ns_chord chord[2]; /* below, above */
  const struct ns_factors (*Fb)[2];
  struct ns_factors own[NS_MAX_COMBOS][2];
};

/* Sum of the cubes of the chord depths, by which they share V; in3. */
NS_INLINE double chord_cubes(const struct ns_section *o, int i) {
  const double b = o->c_b[i], m = o->c_m[i], t = o->c_t[i];
  return b * b * b + m * m * m + t * t * t;
}

/* Depth of the deepest chord; in. */
NS_INLINE double deeper_chord(const struct ns_section *o, int i) {
  return ns_max(o->c_m[i], ns_max(o->c_b[i], o->c_t[i]));
}

/* The rows of one lane that its governing case picks. */
struct chord_case {
  int sign, combo;
  double M, V;
};

/* The sign, the combination, M and V that govern in lane i. */
NS_INLINE struct chord_case governs(const struct ns_check *k,
                                    const struct ns_demand *q, int i) {
  const int sign = k->branch[i] > 1;
  const int combo = (int)k->combo[i];
  return (struct chord_case){sign, combo, q->M[combo][sign][i], q->V[combo][i]};
}

/* The numbers that both chords' checks have in common. */
NS_INLINE void note_chord(const struct ns_work *w, int c,
                          const struct ns_opening *f, const struct ns_chord *n,
                          const struct chord_case *g, struct ns_check *k,
                          int i) {
  k->rec[NS_R_M][i] = g->M;
  k->rec[NS_R_V][i] = g->V;
  k->rec[NS_R_b][i] = w->section[c].b[i];
  k->rec[NS_R_d][i] = w->depth[i];
  k->rec[NS_R_a][i] = f->a[i];
  k->rec[NS_R_L_o][i] = f->L[i];
  k->rec[NS_R_tau][i] = n->tau[i];
  k->rec[NS_R_h][i] = n->h[i];
  k->rec[NS_R_sum_h3][i] = chord_cubes(&w->section[c], i);
  k->rec[NS_R_y][i] = n->y[i];
  k->rec[NS_R_I][i] = n->I[i];
  k->rec[NS_R_f_2][i] = g->V * f->bend[i];
  k->rec[NS_R_F_2][i] = w->in.joist[NS_J_Fb][i];
}

#endif
