/* SPDX-License-Identifier: MIT
 * strength.h - the entries of the family (check/family.h) by CSA O86:19,
 * members alone: each formula once and beside its clause. The clauses were
 * read in a public transcription of the standard; what is from memory says so.
 *
 * The core works in in, lb, psi; a formula that holds in N and mm alone turns
 * what it reads by exact constants. */
#ifndef NETSECTION_CSA_STRENGTH_H
#define NETSECTION_CSA_STRENGTH_H

#include "csa/csa.h"
#include "joist/lanes.h"

/* Adjusted values of this family. */
#define ns_adjust ns_csa_adjust

#define NS_MM 25.4 /* mm in an inch */
/* psi in 1 MPa: 25.4^2/4.4482216152605 */
#define NS_PSI (25.4 * 25.4 / 4.4482216152605)

/* M_r = phi F_b S K_Zb K_L  (6.5.3); lb-in */
NS_INLINE double ns_bending_strength(double F_b, double S) { return S * F_b; }

/* V_r = phi F_v 2/3 A_n K_Zv  (6.5.4); lb. Of an area that is no rectangle's:
 * b the area, d 1. */
NS_INLINE double ns_shear_strength(double F_v, double b, double d) {
  return 2.0 / 3 * F_v * b * d;
}

/* A_g K_N of a notch d - d_n deep on the tension side, e from the inner face
 * of the bearing to the notch's far end (which length e is: memory), alpha =
 * d_n/d with d_n what is left, eta = e/d, d in mm: F_r = phi F_f A_g K_N, K_N
 * = (0.006 d (1.6 (1/alpha - 1) + eta^2 (1/alpha^3 - 1)))^-1/2  (6.5.4); in2.
 * It has no bound as the notch vanishes: V_r of what is left governs then. */
#define NS_NOTCH_BY_PLACE 2
#define NS_NOTCH_FRACTURE 1
NS_INLINE double ns_notch_factor(double d, double d_n, double e) {
  const double r = d / ns_max(d_n, 1e-9), eta = e / d;
  const double sum = 1.6 * (r - 1) + eta * eta * (r * r * r - 1);
  return 1 / sqrt(ns_max(0.006 * d * NS_MM * sum, 1e-12));
}
/* A_g K_N, so that F_r = phi F_f A_g K_N  (6.5.4); in2. */
NS_INLINE double ns_notch_area(double b, double d, double d_n, double e,
                               double slope) {
  (void)slope;
  return b * d * ns_notch_factor(d, d_n, e);
}

/* phi F_f A_g K_N of a notch on the tension side, phi F_v 2/3 A of another;
 * lb. */
NS_INLINE double ns_notch_strength(double F_v, double F_f, double area,
                                   bool torn) {
  return torn ? F_f * area : ns_shear_strength(F_v, area, 1);
}

/* A sloped end is not read. */
NS_INLINE bool ns_flat_end(double slope) {
  (void)slope;
  return false;
}

/* A notch on the compression side: what is left. */
NS_INLINE double ns_notch_area_at_bearing(double b, double d, double d_n,
                                          double e) {
  (void)d, (void)e;
  return b * d_n;
}

/* V counts in full at the support: what may be left off within d of it is not
 * used. */
NS_INLINE double ns_shear_place(double x, double face, double d, double way) {
  (void)face, (void)d, (void)way;
  return x;
}
/* No load near a support is left out of V. */
NS_INLINE double ns_part_left_out(double x, double d) {
  (void)x, (void)d;
  return 0;
}

/* K_B = (l_b + 9.525)/l_b, mm, of a bearing under 150 mm long, 75 mm or more
 * from the end  (6.5.6.5) */
NS_INLINE double ns_bearing_factor(double l_b, double to_end,
                                   const double wood[2], const double gap[2],
                                   double d) {
  (void)wood, (void)gap, (void)d;
  const bool inner = (l_b < 150 / NS_MM) & (to_end >= 75 / NS_MM);
  return inner ? (l_b + 9.525 / NS_MM) / l_b : 1;
}

/* K_D of a combination of dead load alone over that of all loads  (5.3.2). */
#define NS_BEARING_TIMED 1
NS_INLINE double ns_bearing_time(const struct ns_standard *s,
                                 double (*J)[NS_LANES], int combo, double all,
                                 int i) {
  (void)J, (void)i;
  return s->CD[combo] / all;
}

/* Q_r = phi F_cp A_b K_B K_Zcp  (6.5.6), A_b = b l_b; lb */
NS_INLINE double ns_bearing_strength(double F_cp, double K_B, double b,
                                     double l_b) {
  return F_cp * K_B * b * l_b;
}

/* T_f/T_r + M_f/M_r <= 1, by stresses  (6.5.10, memory) */
NS_INLINE double ns_tension_and_bending(double f_t, double F_t, double f_b,
                                        double F_b) {
  return f_t / ns_max(F_t, 1e-9) + f_b / F_b;
}

/* A chord as a column: critical stress, K_C, phi F_c K_C; psi. */
struct ns_column {
  double F_cE, CP, F_c;
};

/* A piece L long, h by b: C_c = L/t, K_C = 1/(1 + F_c C_c^3/(35 E_05)), K_Zc
 * of 1 (it is more of pieces as short as these); F_cs has phi 0.8 in it, F_c
 * in the formula has not. Euler's stress is pi^2 E_05/(12 C_c^2)  (6.5.5,
 * memory) */
NS_INLINE struct ns_column ns_chord_column(double L, double h, double b,
                                           double E_05, double F_cs,
                                           double f_c) {
  struct ns_column r;
  (void)f_c;
  const double pi = 3.14159265358979323846, phi = 0.8;
  const double C_c = ns_max(L / ns_max(ns_min(h, b), 1e-9), 1e-6);
  const double E = ns_max(E_05, 1e-9);
  r.F_cE = pi * pi * E / (12 * C_c * C_c);
  r.CP = 1 / (1 + F_cs / phi * C_c * C_c * C_c / (35 * E));
  r.F_c = ns_max(F_cs * r.CP, 1e-9);
  return r;
}

/* (P_f/P_r)^2 + M_f/(M_r (1 - P_f/P_E)) <= 1, by stresses  (6.5.10, memory); a
 * piece that would buckle has no such sum. */
NS_INLINE double ns_compression_and_bending(const struct ns_column *n,
                                            double f_c, double f_b,
                                            double F_b) {
  const double left = 1 - f_c / n->F_cE, p = f_c / n->F_c;
  const bool stands = left > 1e-3;
  const double r = p * p + f_b / F_b / (stands ? left : 1);
  return stands ? r : NS_NO_CAPACITY;
}

NS_INLINE double ns_nominal(double size) { return size; }

/* d/b up to which K_L is 1: 6.5 where a deck holds the edge in compression, 7.5
 * with blocking too, 4 with the ends held alone  (6.5.3) */
NS_INLINE double ns_slenderness_limit(bool deck, bool blocked) {
  return deck ? (blocked ? 7.5 : 6.5) : 4;
}

/* K_L: 1 up to d/b = 4 with the ends held  (6.5.3). Past it C_B = sqrt(l_e d/
 * b^2), C_K = sqrt(0.97 E/F_b): 1 up to C_B = 10, 1 - (C_B/C_K)^4/3 up to C_K,
 * 0.65 E/(C_B^2 F_b) up to C_B = 50  (7.5.6.4, memory). E is E_05, the lesser;
 * F_b is that of the formula, without phi 0.9 and K_Zb, which F_bs has. */
#define NS_LATERAL_ROW NS_J_CF
NS_INLINE double ns_lateral_factor(double F_bs, double K_Zb, double E_05,
                                   double l_e, double b, double d) {
  const double F_b = F_bs / (0.9 * K_Zb), C_B2 = l_e * d / (b * b);
  const double C_K2 = 0.97 * E_05 / F_b, r = C_B2 / C_K2;
  const double slender = 0.65 * E_05 / (ns_max(C_B2, 1e-9) * F_b);
  const double K_L = r <= 1 ? 1 - r * r / 3 : slender;
  return (d <= 4 * b * (1 + 1e-9)) | (C_B2 <= 100) ? 1
         : C_B2 > 2500                             ? 1e-6
                                                   : K_L;
}

/* l_e = 1.92 l_u of any load on a span, 1.23 l_u of uniform load on a
 * cantilever, 1.69 l_u of one at its tip  (Table 7.4, memory) */
NS_INLINE double ns_effective_length(enum ns_le_case load, double l_u,
                                     double d) {
  (void)d;
  const double part = load == NS_LE_CANTILEVER       ? 1.23
                      : load == NS_LE_CANTILEVER_TIP ? 1.69
                                                     : 1.92;
  return part * l_u;
}

/* K_H of bending and shear: three or more members at 610 mm or closer 1.10,
 * with a subfloor that is fastened to them 1.40  (6.4.4, Table 6.12). Kept
 * where a cut is outside the rules, which know no K_H. */
#define NS_SYSTEM_KEPT 1
NS_INLINE double ns_system_factor(const struct ns_standard *s, double members,
                                  double spacing, bool deck, double b) {
  (void)s, (void)b;
  const bool row = (members >= 3) & (spacing <= 610 / NS_MM + 1e-9);
  return row ? (deck ? 1.40 : 1.10) : 1.0;
}

/* log10 of x from 1 to 8 by + - x / alone, so that its bits are the same on
 * every system: x = f 2^e, ln f = 2 (s + s^3/3 + ...), s = (f - 1)/(f + 1). */
NS_INLINE double ns_csa_log10(double x) {
  int e = 0;
  for (; x > 1.4142135623730951; x /= 2) e++; /* exact */
  const double s = (x - 1) / (x + 1), q = s * s;
  double sum = 0;
  for (int k = 23; k >= 1; k -= 2) sum = sum * q + 1.0 / k;
  return e * 0.30102999566398120 + 2 * s * sum * 0.43429448190325183;
}

/* K_D of dead and imposed load together: 1, less where the long-term load P_L
 * is more than the rest, 1 - 0.5 log10(P_L/P_S) >= 0.65  (5.3.2). All dead
 * load on the joist stands for P_L, all live load for P_S: our reading. */
#define NS_DURATION_BY_LOADS 1
#define NS_VALUES_BY_LOADS 1 /* and the spacing is in them */
NS_INLINE double ns_long_term(double P_L, double P_S) {
  if (!(P_L > P_S)) return 1;
  /* 10^0.7 is 5.01 */
  const double ratio = P_S > 0 ? ns_min(P_L / P_S, 8) : 8;
  return ns_max(1 - 0.5 * ns_csa_log10(ratio), 0.65);
}

/* Sag under live load alone (NBC 9.4.3.1), and under K_cr D + L where a limit
 * is set for that. What shear adds is not counted. */
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

/* What the family lacks: repairs, for nothing of its connections was read; a
 * pinned factor that is not its own; wood over 50 C (memory); incised wood
 * thicker than 89 mm, for which K_T was not read. */
#define NS_FAMILY_REPAIRS 0
NS_INLINE bool ns_family_lacks(const double (*J)[NS_LANES], bool repair,
                               int i) {
  const bool thick = J[NS_J_b][i] > 89 / NS_MM + 1e-9;
  return repair | (J[NS_J_repetitive][i] > 1) | (J[NS_J_temperature][i] > 122) |
         ((J[NS_J_incised][i] != 0) & thick);
}

#endif
