/* SPDX-License-Identifier: MIT
 * formulas.h - formulas of the NDS that are worked within loops over lanes. */
#ifndef NETSECTION_NDS_FORMULAS_H
#define NETSECTION_NDS_FORMULAS_H

#include "joist/lanes.h"
#include "nds/nds.h"

/* Bearing factor (NDS 3.10.4): under 6 in long and 3 in or more from the
 * end. */
NS_INLINE double ns_Cb_of(double l_b, double to_end) {
  return (l_b < 6) & (to_end >= 3) ? (l_b + 0.375) / l_b : 1;
}

/* NDS 3.7.1.5 with c = 0.8 for sawn lumber, CP = p - sqrt(p^2 - r/0.8), r =
 * F_cE/F_c*, p = (1 + r)/1.6, in a form that keeps its digits where the column
 * is short and r large. */
NS_INLINE double ns_column_factor(double F_cE, double F_star) {
  const double r = F_cE / ns_max(F_star, 1e-9), p = (1 + r) / 1.6;
  return r / 0.8 / (p + sqrt(ns_max(p * p - r / 0.8, 0)));
}

#endif
