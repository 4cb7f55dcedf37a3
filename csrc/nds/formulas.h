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

/* NDS 3.3.3.6 and 3.3.3.8: RB^2 = l_e d / b^2, FbE = 1.20 Emin' / RB^2. A
 * slenderness over 50 is outside the clause: no strength is given for it. */
NS_INLINE double ns_CL_of(double Fb_star, double E_min, double l_e, double b,
                          double d) {
  const double RB2 = l_e * d / (b * b);
  const double FbE = 1.20 * E_min / (RB2 > 0 ? RB2 : 1);
  const double r = FbE / Fb_star, p = (1 + r) / 1.9;
  const double CL = p - sqrt(ns_max(p * p - r / 0.95, 0));
  return !(RB2 > 0) ? 1 : RB2 > 2500 ? 1e-6 : CL;
}

/* NDS Table 3.3.3, effective length: of any load on a span, of uniform load on
 * a cantilever, of a load at its tip. */
NS_INLINE double ns_l_e_any(double l_u, double d) {
  const double r = l_u / d;
  return r < 7 ? 2.06 * l_u : r <= 14.3 ? 1.63 * l_u + 3 * d : 1.84 * l_u;
}
/* l_e of a cantilever under uniform load  (NDS Table 3.3.3). */
NS_INLINE double ns_l_e_cantilever(double l_u, double d) {
  return l_u / d < 7 ? 1.33 * l_u : 0.90 * l_u + 3 * d;
}
/* l_e of a cantilever loaded at its tip  (NDS Table 3.3.3). */
NS_INLINE double ns_l_e_tip(double l_u, double d) {
  return l_u / d < 7 ? 1.87 * l_u : 1.44 * l_u + 3 * d;
}

#endif
