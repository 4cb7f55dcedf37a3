/* SPDX-License-Identifier: MIT
 * nds.h - adjusted values and factors of the National Design
 * Specification. */
#ifndef NETSECTION_NDS_H
#define NETSECTION_NDS_H

#include "joist/result.h"
#include "standard/standard.h"

/* Adjusted value from a reference value (NDS 4.3). */
struct ns_factors {
  ns_lane CD, CM, Ct, CL, CF, Ci, Cr, K, value;
};
enum ns_property {
  NS_FB,
  NS_FT,
  NS_FV,
  NS_FC_PERP,
  NS_FC,
  NS_E,
  NS_EMIN,
  NS_FF /* of fracture at a notch, in a family that has one */
};
void ns_adjust(double (*joist)[NS_LANES], const struct ns_standard *s,
               enum ns_property property, int combo, struct ns_factors *out);
/* Beam stability factor (NDS 3.3.3) from l_e, and l_e from l_u. */
double ns_CP(double F_cE, double Fc_star); /* NDS 3.7.1.5, sawn lumber */
double ns_CL(double Fb_star, double E_min, double l_e, double b, double d);
enum ns_le_case {
  NS_LE_ANY,
  NS_LE_UNIFORM,
  NS_LE_POINT,
  NS_LE_POINT_BRACED,
  NS_LE_2,
  NS_LE_3,
  NS_LE_4,
  NS_LE_5,
  NS_LE_6,
  NS_LE_7,
  NS_LE_CANTILEVER,
  NS_LE_CANTILEVER_TIP
};
double ns_l_e(enum ns_le_case load, double l_u, double d);
/* Flat use factor (NDS Supplement Table 4A) and bearing factor (3.10.4). */
double ns_Cfu(double nominal_width, bool thick_4);
double ns_Cb(double l_b, double to_end);
/* A column, the soil under its footing: post.c. */
void ns_post(struct ns_check *k);

#endif
