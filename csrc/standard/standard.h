/* SPDX-License-Identifier: MIT
 * standard.h - the numbers of a standard. */
#ifndef NETSECTION_STANDARD_H
#define NETSECTION_STANDARD_H

#include "joist/joist.h"

/* Families of formulas: each fills the entries of check/family.h. */
enum ns_family { NS_NDS, NS_EC5, NS_CSA };

/* A combination with roof live load or snow; what it is asked of. */
struct ns_row {
  double g[NS_CASES]; /* factors of the load cases */
  double CD;
  bool strength, service;
  bool without_live; /* stands where there is no live load of the floor too */
};

/* Load combinations and the numbers of the notch limits of a standard. */
struct ns_standard {
  enum ns_family family;
  int combos;
  int all; /* the combination with all loads in it, from 0 */
  double g_D[NS_MAX_COMBOS], g_L[NS_MAX_COMBOS]; /* load factors */
  double CD[NS_MAX_COMBOS]; /* load duration, or time effect in LRFD */
  int rows; /* those with other loads: numbered after the others */
  struct ns_row row[NS_MAX_ROWS];
  double joint_time; /* the most of it that a connection may count */
  double K_b, K_t, K_v, K_c, K_perp, K_min; /* format times resistance */
  double end_notch, inner_notch, outer_part, thick; /* of notches, in d */
  double tested_hole; /* D/d past which no opening passes unaided */
  bool any_span; /* notches away from the ends in any span, not one alone */
  bool no_rule;  /* the standard has no rule for openings, nor for notches
                  * in tension away from a support: said, and not decided */
  struct ns_ec5 {
    double k_mod[3][5]; /* by service class and duration, permanent first */
    double k_def[3], psi_2, gamma_M;
    double k_cr, f_cr; /* f_cr, N/mm2, if not 0: k_cr = f_cr/f_v,k */
    double k_sys;
    double limit[2]; /* L over this, w_inst and w_fin; 0: the standard has
                      * none. A joist whose own limit is 1 is held to it. */
  } ec5;
};

#endif
