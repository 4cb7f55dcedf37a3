/* SPDX-License-Identifier: MIT
 * strength.h - the entries of the family (check/family.h) by the National
 * Design Specification: the strength of wood and steel, lane by lane, each
 * formula once and beside its clause.
 *
 * Units: in, lb, psi. F with a prime in a comment is an adjusted value. */
#ifndef NETSECTION_STRENGTH_H
#define NETSECTION_STRENGTH_H

#include "nds/formulas.h"

/* M' = F_b' S  (NDS 3.3.2; f_b = M/S <= F_b', 3.3.1); lb-in */
NS_INLINE double ns_bending_strength(double F_b, double S) { return S * F_b; }

/* V' = 2/3 F_v' b d  (NDS 3.4.2; f_v = 3 V/(2 b d) <= F_v'); lb. Of an area
 * that is no rectangle's: b the area, d 1. */
NS_INLINE double ns_shear_strength(double F_v, double b, double d) {
  return 2.0 / 3 * F_v * b * d;
}

/* Area that V is held to at a notch in the tension face: b d_n (d_n/d)^2, so
 * that V' = 2/3 F_v' b d_n (d_n/d)^2  (NDS 3.4.3.2(a), eq. 3.4-3); in2. How far
 * the notch reaches from the support, x, and its slope 1 in i are not read. */
#define NS_NOTCH_BY_PLACE 0
#define NS_NOTCH_FRACTURE 0
NS_INLINE double ns_notch_area(double b, double d, double d_n, double x,
                               double i) {
  const double r = d_n / d;
  (void)x, (void)i;
  return b * d_n * r * r;
}

/* V that a notch is held to, of the area above; lb. */
NS_INLINE double ns_notch_strength(double F_v, double F_f, double area,
                                   bool torn) {
  (void)F_f, (void)torn;
  return ns_shear_strength(F_v, area, 1);
}

/* Whether a notch that ends in a slope of 1 in i is as if it were not torn
 * (NDS 3.4.3.2(d), memory). */
NS_INLINE bool ns_flat_end(double i) { return i >= 10; }

/* Area that V is held to at a notch in the compression face at a bearing, e
 * from the face of the bearing to the end of the notch, e <= d_n: b (d - (d -
 * d_n) e/d_n) (NDS 3.4.3.2(e), eq. 3.4-5); in2 */
NS_INLINE double ns_notch_area_at_bearing(double b, double d, double d_n,
                                          double e) {
  return b * (d - (d - d_n) / d_n * e);
}

/* Shear across the grain at a connection, d_e from the loaded edge's far side
 * to the farthest fastener: within 5 d of the member's end V' = 2/3 F_v' b d_e
 * (d_e/d)^2, elsewhere without the square  (NDS 3.4.3.3, memory); lb */
NS_INLINE double ns_connection_shear(double F_v, double b, double d, double d_e,
                                     bool near_end) {
  const double r = d_e / d, part = near_end ? r * r : 1;
  return ns_shear_strength(F_v, b, d_e) * part;
}

/* Whether a connection is within 5 d of the member's end (NDS 3.4.3.3). */
NS_INLINE bool ns_near_end(double to_end, double d) { return to_end <= 5 * d; }

/* The place at which V near a support counts: d from the face of the bearing,
 * the load between the two left out  (NDS 3.4.3.1(a)); x the support, 'way' 1
 * to its right and -1 to its left. */
NS_INLINE double ns_shear_place(double x, double face, double d, double way) {
  (void)x;
  return face + way * d;
}

/* Of a load at x from the face of a bearing, the part that need not count in
 * V there: 1 - x/d within d of the face  (NDS 3.4.3.1(a)). */
NS_INLINE double ns_part_left_out(double x, double d) {
  return 1 - ns_min(x / d, 1);
}

/* C_b of a bearing l_b long with 'to_end' of wood beyond it; the wood before
 * and beyond it, the clear gaps to the next bearings and d are not read (NDS
 * 3.10.4). */
NS_INLINE double ns_bearing_factor(double l_b, double to_end,
                                   const double wood[2], const double gap[2],
                                   double d) {
  (void)wood, (void)gap, (void)d;
  return ns_Cb_of(l_b, to_end);
}

/* R' = F_cp' C_b b l_b  (NDS 3.10.2, C_b by 3.10.4); lb */
NS_INLINE double ns_bearing_strength(double F_cp, double Cb, double b,
                                     double l_b) {
  return F_cp * Cb * b * l_b;
}

/* f_t/F_t' + f_b/F_b* <= 1  (NDS 3.9.1, eq. 3.9-1) */
NS_INLINE double ns_tension_and_bending(double f_t, double F_t, double f_b,
                                        double F_bs) {
  return f_t / ns_max(F_t, 1e-9) + f_b / F_bs;
}

/* A chord as a column: critical stress, C_P, adjusted value; psi. */
struct ns_column {
  double F_cE, CP, F_c;
};

/* A piece L long, h by b, free about its thinner side: F_cE = 0.822 E_min'
 * /(L/t)^2, F_c' = F_c* C_P  (NDS 3.7.1.5); F_c, unadjusted, is not read */
NS_INLINE struct ns_column ns_chord_column(double L, double h, double b,
                                           double E_min, double F_cs,
                                           double F_c) {
  struct ns_column r;
  (void)F_c;
  const double slender = ns_max(L / ns_max(ns_min(h, b), 1e-9), 1e-6);
  r.F_cE = 0.822 * E_min / (slender * slender);
  r.CP = ns_column_factor(r.F_cE, F_cs);
  r.F_c = ns_max(F_cs * r.CP, 1e-9);
  return r;
}

/* (f_c/F_c')^2 + f_b/(F_b' (1 - f_c/F_cE)) <= 1  (NDS 3.9.2, eq. 3.9-3); a
 * piece that would buckle has no such sum. */
NS_INLINE double ns_compression_and_bending(const struct ns_column *n,
                                            double f_c, double f_b,
                                            double F_b) {
  const double left = 1 - f_c / n->F_cE, p = f_c / n->F_c;
  const bool stands = left > 1e-3;
  const double r = p * p + f_b / F_b / (stands ? left : 1);
  return stands ? r : NS_NO_CAPACITY;
}

/* Nominal size of a dressed one, for the ladder of NDS 4.4.1.2, which is
 * written in nominal sizes; anything else is taken as it is. */
NS_INLINE double ns_nominal(double size) {
  const double rest = size - (double)(int)size;
  return rest == 0.5 ? size + 0.5 : rest == 0.25 ? size + 0.75 : size;
}

/* d/b up to which a joist stands without more: 6 with a deck or with blocking
 * at 8 ft, 4 with its ends held alone  (NDS 4.4.1.2) */
NS_INLINE double ns_slenderness_limit(bool deck, bool blocked) {
  return deck | blocked ? 6 : 4;
}

/* Factor of lateral stability of bending, from F_b* and E_min': C_L (NDS
 * 3.3.3); F_b, unadjusted, is not read. */
#define NS_LATERAL_ROW NS_J_Fb
NS_INLINE double ns_lateral_factor(double F_bs, double F_b, double E_min,
                                   double l_e, double b, double d) {
  (void)F_b;
  return ns_CL_of(F_bs, E_min, l_e, b, d);
}

/* l_e of a free length l_u  (NDS Table 3.3.3) */
NS_INLINE double ns_effective_length(enum ns_le_case load, double l_u,
                                     double d) {
  if (load == NS_LE_ANY) return ns_l_e_any(l_u, d);
  if (load == NS_LE_CANTILEVER) return ns_l_e_cantilever(l_u, d);
  if (load == NS_LE_CANTILEVER_TIP) return ns_l_e_tip(l_u, d);
  return ns_l_e(load, l_u, d);
}

/* C_r = 1.15: three or more joists at 24 in or closer under a deck, plies 2 to
 * 4 in thick  (NDS 4.3.9); 1 otherwise. */
#define NS_SYSTEM_KEPT 0 /* a cut outside the rules gives it up: ours */
NS_INLINE double ns_system_factor(const struct ns_standard *s, double members,
                                  double spacing, bool deck, double b) {
  (void)s;
  const bool row = (members >= 3) & (spacing <= 24 + 1e-9) & deck & (b <= 3.5);
  return row ? 1.15 : 1.0;
}

/* Duration of load that a connection may count: C_D <= 1.6  (NDS 11.3.2). The
 * time effect of factored loads is held to less, 1.0, where the standard is
 * known (joint_time; NDS Table N3, footnote, memory). */
NS_INLINE double ns_connection_duration(double CD) { return ns_min(CD, 1.6); }

/* Z' = Z C_D C of one fastener, C all other factors  (NDS 11.3.1); lb */
NS_INLINE double ns_connection_strength(double Z, double CD, double C) {
  return Z * CD * C;
}

/* M' = F_n S/1.67 of a plate on its edge, F_n where it yields or buckles (AISC
 * 360 F11 and F9.4, memory); lb-in */
NS_INLINE double ns_plate_bending(double F_n, double S) {
  return F_n * S / 1.67;
}

/* V' = 0.6 F_y A/1.67  (AISC 360 G, memory; its 1.50 not used); lb */
NS_INLINE double ns_plate_shear(double F_y, double b, double d) {
  return 0.6 * F_y * b * d / 1.67;
}

#define NS_DURATION_BY_LOADS 0 /* a combination has one duration */
#define NS_VALUES_BY_LOADS 0   /* nothing of a load is in a value */

/* Sag of dead load times 'dead' and of live load times 'live', against limits
 * of their own: live load alone, and K_cr D + L  (IRC Table R301.7; K_cr by NDS
 * 3.5.2). What shear adds is not counted. */
#define NS_SHEAR_SAGS 0
#define NS_SAG_MODE(total) ((total) ? NS_DEFLECTION_TOTAL : NS_DEFLECTION_LIVE)
struct ns_sag_weights {
  double dead, live;
};
/* Weights of dead and live load in a state of deflection. */
NS_INLINE struct ns_sag_weights ns_sag_state(const struct ns_standard *s,
                                             double (*J)[NS_LANES], bool total,
                                             int i) {
  struct ns_sag_weights o;
  (void)s;
  o.dead = total ? J[NS_J_Kcr][i] : 0;
  o.live = 1;
  return o;
}

/* Nothing that a joist may be is without a formula. */
#define NS_FAMILY_REPAIRS 1
NS_INLINE bool ns_family_lacks(const double (*J)[NS_LANES], bool repair,
                               int i) {
  (void)J, (void)repair, (void)i;
  return false;
}

/* Factor of a moment that falls in a line to nothing at one end: C_b = 12.5
 * M_max/(2.5 M_max + 3 M_A + 4 M_B + 3 M_C) = 12.5/7.5  (AISC 360 F1-1) */
#define NS_MOMENT_TO_NOTHING (12.5 / 7.5)

#endif
