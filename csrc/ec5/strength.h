/* SPDX-License-Identifier: MIT
 * strength.h - the entries of the family (check/family.h) by EN
 * 1995-1-1:2004, members alone: each formula once and beside its clause. What
 * is from memory says so.
 *
 * The core works in in, lb, psi; a formula that holds in N and mm alone turns
 * what it reads by exact constants. */
#ifndef NETSECTION_EC5_STRENGTH_H
#define NETSECTION_EC5_STRENGTH_H

#include "ec5/ec5.h"
#include "joist/lanes.h"

/* Adjusted values of this family. */
#define ns_adjust ns_ec5_adjust

#define NS_MM 25.4 /* mm in an inch */
/* psi in 1 N/mm2: 25.4^2/4.4482216152605 */
#define NS_PSI (25.4 * 25.4 / 4.4482216152605)

/* M_Rd = f_m,d W  (6.1.6, one axis); lb-in */
NS_INLINE double ns_bending_strength(double f_md, double W) { return W * f_md; }

/* V_Rd = 2/3 k_cr f_v,d b h  (6.1.7: tau = 3 V/(2 k_cr b h) <= f_v,d; k_cr is
 * in the value); lb. Of an area that is no rectangle's: b the area, h 1. */
#define NS_SHEAR_CRACKS 1
NS_INLINE double ns_shear_strength(double f_vd, double b, double h) {
  return 2.0 / 3 * f_vd * b * h;
}

/* b h_ef k_v of a notch on the side of the support, so that V_Rd = 2/3 k_cr
 * k_v f_v,d b h_ef; x from the line of the reaction to the corner, slope 1 in
 * i, alpha = h_ef/h, h in mm, k_n 5 of solid timber (memory): k_v = min(1, k_n
 * (1 + 1.1 i^1.5/sqrt h)/(sqrt h (sqrt(alpha (1 - alpha)) + 0.8 x/h
 * sqrt(1/alpha - alpha^2))))  (6.5.2, eq. 6.62); in2 */
#define NS_NOTCH_BY_PLACE 1
#define NS_NOTCH_FRACTURE 0
NS_INLINE double ns_notch_area(double b, double h, double h_ef, double x,
                               double i) {
  const double alpha = ns_max(h_ef / h, 1e-9), root = sqrt(h * NS_MM);
  const double depth = sqrt(ns_max(alpha * (1 - alpha), 0));
  const double lever = sqrt(ns_max(1 / alpha - alpha * alpha, 0));
  const double under = root * (depth + 0.8 * x / h * lever);
  const double over = 5 * (1 + 1.1 * i * sqrt(i) / root);
  const double k_v = over < under ? over / under : 1;
  return b * h_ef * k_v;
}

/* V that a notch is held to, of the area above; lb. */
NS_INLINE double ns_notch_strength(double F_v, double F_f, double area,
                                   bool torn) {
  (void)F_f, (void)torn;
  return ns_shear_strength(F_v, area, 1);
}

/* The slope counts in k_v. */
NS_INLINE bool ns_flat_end(double i) {
  (void)i;
  return false;
}

/* A notch on the other side than the support: k_v = 1  (6.5.2(2)); in2 */
NS_INLINE double ns_notch_area_at_bearing(double b, double h, double h_ef,
                                          double e) {
  (void)h, (void)e;
  return b * h_ef;
}

/* V counts in full at the support: what 6.1.7(3) lets off of point loads near
 * it is not used. */
NS_INLINE double ns_shear_place(double x, double face, double h, double way) {
  (void)face, (void)h, (void)way;
  return x;
}
/* What of a load near a support is left out of V. */
NS_INLINE double ns_part_left_out(double x, double h) {
  (void)x, (void)h;
  return 0;
}

/* k_c,90 = 1.5 of solid softwood on supports 2 h apart or more, else 1 (6.1.5,
 * A1); 'gap' the clear distances to the next bearings. */
#define NS_BEARING_SPREADS 1
NS_INLINE double ns_support_factor(const double gap[2], double h) {
  return ns_min(gap[0], gap[1]) >= 2 * h ? 1.5 : 1;
}

/* k_c,90 l_ef/l_b of a bearing: on each side the contact reaches min(30 mm, a,
 * l_b, l_1/2) further, a the wood there, l_1 the clear gap to the next bearing
 * (6.1.5, A1; the limits a and l_1/2 from memory) */
NS_INLINE double ns_bearing_factor(double l_b, double to_end,
                                   const double wood[2], const double gap[2],
                                   double h) {
  (void)to_end;
  const double reach = ns_min(30 / NS_MM, l_b);
  const double left = ns_min(ns_max(wood[0], 0), ns_max(gap[0], 0) / 2);
  const double right = ns_min(ns_max(wood[1], 0), ns_max(gap[1], 0) / 2);
  const double l_ef = l_b + ns_min(reach, left) + ns_min(reach, right);
  return ns_support_factor(gap, h) * l_ef / l_b;
}

/* k_mod of permanent load over that of the imposed load  (3.1.3(2)). */
#define NS_BEARING_TIMED 1
NS_INLINE double ns_bearing_time(const struct ns_standard *s,
                                 double (*J)[NS_LANES], int combo, double all,
                                 int i) {
  (void)combo, (void)all;
  const double service = J[NS_J_service][i], time = J[NS_J_duration][i];
  const double *k_mod = s->ec5.k_mod[service < 2 ? 0 : service < 3 ? 1 : 2];
  return k_mod[0] / k_mod[(int)ns_max(time, 1) - 1];
}

/* F_c,90,Rd = k_c,90 f_c,90,d b l_ef  (6.1.5); lb */
NS_INLINE double ns_bearing_strength(double f_c90d, double factor, double b,
                                     double l_b) {
  return f_c90d * factor * b * l_b;
}

/* sigma_t/f_t,d + sigma_m/f_m,d <= 1  (6.2.3, memory) */
NS_INLINE double ns_tension_and_bending(double s_t, double f_td, double s_m,
                                        double f_md) {
  return s_t / ns_max(f_td, 1e-9) + s_m / f_md;
}

/* A chord as a column: critical stress, k_c, k_c f_c,0,d; psi. */
struct ns_column {
  double F_cE, CP, F_c;
};

/* A piece L long, h by b: lambda_rel = lambda/pi sqrt(f_c,0,k/E_0,05), lambda
 * = L sqrt 12/t, k = (1 + 0.2 (lambda_rel - 0.3) + lambda_rel^2)/2, k_c = 1/(k
 * + sqrt(k^2 - lambda_rel^2)), 1 up to 0.3  (6.3.2, memory) */
NS_INLINE struct ns_column ns_chord_column(double L, double h, double b,
                                           double E_05, double f_cd,
                                           double f_ck) {
  struct ns_column r;
  const double t = ns_max(ns_min(h, b), 1e-9);
  const double slender = ns_max(L / t, 1e-6) * sqrt(12.0);
  const double pi = 3.14159265358979323846;
  r.F_cE = pi * pi * E_05 / (slender * slender);
  const double rel2 = f_ck / r.F_cE, rel = sqrt(rel2);
  const double k = (1 + 0.2 * (rel - 0.3) + rel2) / 2;
  r.CP = rel <= 0.3 ? 1 : 1 / (k + sqrt(ns_max(k * k - rel2, 0)));
  r.F_c = ns_max(f_cd * r.CP, 1e-9);
  return r;
}

/* sigma_c/(k_c f_c,0,d) + sigma_m/f_m,d <= 1  (6.3.2(3), memory); the square
 * of stocky pieces (6.2.4) is not used. */
NS_INLINE double ns_compression_and_bending(const struct ns_column *n,
                                            double s_c, double s_m,
                                            double f_md) {
  return s_c / n->F_c + s_m / f_md;
}

NS_INLINE double ns_nominal(double size) { return size; }

/* EN 1995-1-1 has no ladder of depth to thickness. */
NS_INLINE double ns_slenderness_limit(bool deck, bool blocked) {
  (void)deck, (void)blocked;
  return 0;
}

/* k_crit of lambda_rel,m = sqrt(f_m,k/sigma_m,crit), sigma_m,crit = 0.78 b^2
 * E_0,05/(h l_ef): 1 up to 0.75, 1.56 - 0.75 lambda up to 1.4, 1/lambda^2
 * (6.3.3, eq. 6.32 and 6.34) */
#define NS_LATERAL_ROW NS_J_Fb
NS_INLINE double ns_lateral_factor(double f_md, double f_mk, double E_05,
                                   double l_ef, double b, double h) {
  (void)f_md;
  const double crit = 0.78 * b * b * E_05 / (h * l_ef);
  const double rel2 = f_mk / crit, rel = sqrt(rel2);
  return rel <= 0.75 ? 1 : rel <= 1.4 ? 1.56 - 0.75 * rel : 1 / rel2;
}

/* l_ef: 0.9 l under uniform load, 0.8 l under a load in the middle, of an
 * overhang 0.5 l and 0.8 l at its tip, else l; 2 h more for loads on the edge
 * in compression, which is taken throughout  (Table 6.1, memory) */
NS_INLINE double ns_effective_length(enum ns_le_case load, double l, double h) {
  const double part = load == NS_LE_UNIFORM          ? 0.9
                      : load == NS_LE_POINT          ? 0.8
                      : load == NS_LE_CANTILEVER     ? 0.5
                      : load == NS_LE_CANTILEVER_TIP ? 0.8
                                                     : 1;
  return part * l + 2 * h;
}

/* k_sys = 1.1: equal members side by side under a deck that shares the load
 * (6.6); three at 610 mm or closer is our reading. Kept where a cut is outside
 * the rules, which know no k_sys. */
#define NS_SYSTEM_KEPT 1
NS_INLINE double ns_system_factor(const struct ns_standard *s, double members,
                                  double spacing, bool deck, double b) {
  (void)b;
  const bool row = (members >= 3) & (spacing <= 610 / NS_MM + 1e-9) & deck;
  return row ? s->ec5.k_sys : 1.0;
}

#define NS_DURATION_BY_LOADS 0 /* a combination has one duration */
#define NS_VALUES_BY_LOADS 1   /* the spacing is in them */

/* w_inst = w_G + w_Q  (2.2.3(2)); w_fin = (1 + k_def) w_G + (1 + psi_2 k_def)
 * w_Q  (2.2.3(5)). What shear adds counts: kappa = 1.2. They stand in the
 * places of the two deflection checks. */
#define NS_SHEAR_SAGS 1
#define NS_SHEAR_SHAPE 1.2
#define NS_SAG_MODE(total) ((total) ? NS_DEFLECTION_TOTAL : NS_DEFLECTION_LIVE)
struct ns_sag_weights {
  double dead, live;
};
/* Weights of permanent and imposed load in w_inst or w_fin. */
NS_INLINE struct ns_sag_weights ns_sag_state(const struct ns_standard *s,
                                             double (*J)[NS_LANES], bool total,
                                             int i) {
  struct ns_sag_weights o;
  const double service = J[NS_J_service][i];
  const double k_def = s->ec5.k_def[service < 2 ? 0 : service < 3 ? 1 : 2];
  o.dead = total ? 1 + k_def : 1;
  o.live = total ? 1 + s->ec5.psi_2 * k_def : 1;
  return o;
}

/* The limit of a standard (7.2 and annexes), for a joist that has 1. */
#define NS_LIMITS_BY_STANDARD 1
NS_INLINE double ns_sag_limit(const struct ns_standard *s, bool total) {
  return s->ec5.limit[total];
}

/* What the family lacks: a lane without service class, class of load duration
 * or shear modulus, a pinned factor that is not its own, and repairs, whose
 * connections (8.2, 8.3) no published example has confirmed. */
#define NS_FAMILY_REPAIRS 0
NS_INLINE bool ns_family_lacks(const double (*J)[NS_LANES], bool repair,
                               int i) {
  return repair | (J[NS_J_service][i] < 1) | (J[NS_J_duration][i] < 1) |
         (J[NS_J_G_mean][i] <= 0) | (J[NS_J_repetitive][i] > 1);
}

#endif
