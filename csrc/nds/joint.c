/* SPDX-License-Identifier: MIT
 * joint.c - what a connection, a piece of steel or the wood it presses on can
 * take, from the numbers in the record of its check.
 *
 * The caller sets mode, branch, demand, combo and the record; capacity and
 * ratio are worked out here, so that a group of fasteners in a sweep and a
 * hanger by itself are held to one formula. */
#include "nds/joint.h"
#include "nds/strength.h"

/* n Z' of a group. 1: Z' = Z C_D C, where C holds all other factors (NDS
 * 11.3.1); 2: the maker's value, used as it is. */
NS_INLINE double fasteners(struct ns_check *k, int branch, int i) {
  double(*r)[NS_LANES] = k->rec;
  const double CD = ns_connection_duration(r[NS_R_CD][i]);
  const double Z = r[NS_R_Z][i], C = r[NS_R_C_z][i];
  const double Z_a = branch == 1 ? ns_connection_strength(Z, CD, C) : Z;
  r[NS_R_CD][i] = CD;
  r[NS_R_Z_a][i] = Z_a;
  return r[NS_R_n_f][i] * Z_a;
}

/* Shear across the grain at a connection (NDS 3.4.3.3, memory). 1: within 5 d
 * of the member's end; 2: elsewhere. */
NS_INLINE double grain_shear(const struct ns_check *k, int branch, int i) {
  const double(*r)[NS_LANES] = (const double(*)[NS_LANES])k->rec;
  const double d_e = ns_max(r[NS_R_d_e][i], 0), d = ns_max(r[NS_R_d][i], 1e-9);
  return ns_connection_shear(r[NS_R_F_a][i], r[NS_R_b][i], d, d_e, branch == 1);
}

/* 4 and 5: allowable moment and shear of a beam as they were given; 1: tension
 * in a strap, whose P_s is the least of yield, rupture and the holes; 2:
 * bending of a plate on its edge; 3: its shear. */
NS_INLINE double steel(const struct ns_check *k, int branch, int i) {
  const double(*r)[NS_LANES] = (const double(*)[NS_LANES])k->rec;
  return branch == 4   ? r[NS_R_M_a][i]
         : branch == 5 ? r[NS_R_V_a][i]
         : branch == 1 ? r[NS_R_P_s][i]
         : branch == 2 ? ns_plate_bending(r[NS_R_F_a][i], r[NS_R_S][i])
                       : ns_plate_shear(r[NS_R_F_y][i], r[NS_R_A][i], 1);
}

/* Tension across the grain at an end notch, V there, d_n of d left: 1.3 V (3
 * (1 - a)^2 - 2 (1 - a)^3), a = d_n/d (DIN EN 1995-1-1/NA NCI NA.6.8.3,
 * memory). */
NS_INLINE double across_at_notch(const struct ns_check *k, int i) {
  const double(*r)[NS_LANES] = (const double(*)[NS_LANES])k->rec;
  const double d = ns_max(r[NS_R_d][i], 1e-9), g = 1 - r[NS_R_d_n][i] / d;
  return 1.3 * r[NS_R_V][i] * (3 * g * g - 2 * g * g * g);
}

/* Withdrawal of n fasteners with p of thread each, CD and C on them (NDS
 * 12.2); 2: the maker's value; 3 and 4 the same at an end notch. */
NS_INLINE double withdrawal(struct ns_check *k, int branch, int i) {
  double(*r)[NS_LANES] = k->rec;
  const double CD = ns_connection_duration(r[NS_R_CD][i]);
  const bool computed = (branch == 1) | (branch == 3);
  k->demand[i] = branch > 2 ? across_at_notch(k, i) : k->demand[i];
  r[NS_R_T][i] = branch > 2 ? k->demand[i] : r[NS_R_T][i];
  const double one = computed
                         ? r[NS_R_W][i] * r[NS_R_p][i] * CD * r[NS_R_C_z][i]
                         : r[NS_R_Z][i];
  r[NS_R_CD][i] = CD;
  r[NS_R_Z_a][i] = one;
  return r[NS_R_n_f][i] * one;
}

/* The chord h deep under an opening a long, a support's reaction R in its
 * middle: f_b = M/S, M = R a/4 (a simple beam; fixed, R a/8, is less), S = b
 * h^2/6; psi (statics; NDS 3.3.2). */
NS_INLINE double pressed_chord(struct ns_check *k, int i) {
  double(*r)[NS_LANES] = k->rec;
  const double M = r[NS_R_R][i] * r[NS_R_a][i] / 4, h = r[NS_R_h][i];
  const double S = r[NS_R_b][i] * h * h / 6;
  r[NS_R_M][i] = M;
  r[NS_R_S][i] = S;
  r[NS_R_f_b][i] = S > 0 ? M / S : 0;
  k->demand[i] = r[NS_R_f_b][i];
  return S > 0 ? r[NS_R_F_a][i] : 0;
}

/* Shear at a notch in the tension face, d_n of d left (NDS 3.4.3.2(a)). */
NS_INLINE double notched_end(const struct ns_check *k, int i) {
  const double(*r)[NS_LANES] = (const double(*)[NS_LANES])k->rec;
  const double d = ns_max(r[NS_R_d][i], 1e-9), d_n = ns_max(r[NS_R_d_n][i], 0);
  const double A = ns_notch_area(r[NS_R_b][i], d, d_n, 0, 0);
  return ns_shear_strength(r[NS_R_F_a][i], A, 1);
}

/* M' = F_b' S, S = b d^2/6 (NDS 3.3.2); lb-in. */
NS_INLINE double whole_bending(struct ns_check *k, int i) {
  double(*r)[NS_LANES] = k->rec;
  const double S = r[NS_R_b][i] * r[NS_R_d][i] * r[NS_R_d][i] / 6;
  r[NS_R_M][i] = k->demand[i];
  r[NS_R_S][i] = S;
  r[NS_R_f_b][i] = S > 0 ? k->demand[i] / S : 0;
  return ns_bending_strength(r[NS_R_F_a][i], S);
}

/* What a bearing takes across the grain; 3: an end grain bears, R' = F_c* d_1
 * d_2 (NDS 3.10.1). */
NS_INLINE double at_bearing(struct ns_check *k, int branch, int i) {
  double(*r)[NS_LANES] = k->rec;
  r[NS_R_R][i] = k->demand[i];
  if (branch == 3) {
    r[NS_R_A][i] = r[NS_R_d_1][i] * r[NS_R_d_2][i];
    return r[NS_R_F_cs][i] * r[NS_R_A][i];
  }
  return ns_bearing_strength(r[NS_R_F_a][i], r[NS_R_Cb][i], r[NS_R_b][i],
                             r[NS_R_l_b][i]);
}

/* A sag against L/n (IRC Table R301.7). */
NS_INLINE double sag_limit(struct ns_check *k, int i) {
  double(*r)[NS_LANES] = k->rec;
  r[NS_R_D_L][i] = k->demand[i];
  return r[NS_R_n][i] > 0 ? r[NS_R_L][i] / r[NS_R_n][i] : 0;
}

/* What a whole section, its bearing and its sag are held to; else F_a itself.
 */
NS_INLINE double whole(struct ns_check *k, int branch, int i) {
  switch (k->mode) {
  case NS_BENDING:
  case NS_HOST_BENDING:
    return whole_bending(k, i);
  case NS_BEARING:
    return at_bearing(k, branch, i);
  case NS_DEFLECTION_LIVE:
  case NS_DEFLECTION_TOTAL:
    return sag_limit(k, i);
  default:
    return k->rec[NS_R_F_a][i];
  }
}

/* Capacity and ratio of a check that stands by itself, from its record. */
NS_CLONES void ns_joint(struct ns_check *k) {
  const enum ns_mode mode = k->mode;
  const bool post =
      (mode == NS_COLUMN) | (mode == NS_SOIL) | (mode == NS_FOOTING);
  if (post) ns_post(k);
  LANES(i) {
    const int branch = (int)k->branch[i];
    const double cap =
        post                          ? k->capacity[i]
        : mode == NS_FASTENERS        ? fasteners(k, branch, i)
        : mode == NS_CONNECTION_SHEAR ? grain_shear(k, branch, i)
        : mode == NS_STEEL            ? steel(k, branch, i)
        : mode == NS_WITHDRAWAL       ? withdrawal(k, branch, i)
        : mode == NS_OPENING_FRAME    ? pressed_chord(k, i)
        : mode == NS_NOTCH_SHEAR      ? notched_end(k, i)
        : (mode == NS_HOST_SHEAR) | (mode == NS_SHEAR)
            ? ns_shear_strength(k->rec[NS_R_F_a][i], k->rec[NS_R_b][i],
                                k->rec[NS_R_d][i])
            : whole(k, branch, i);
    const double none = k->demand[i] > 0 ? NS_NO_CAPACITY : 0;
    const double q = cap > 0 ? k->demand[i] / (cap > 0 ? cap : 1) : none;
    k->capacity[i] = cap;
    k->ratio[i] = ns_max(ns_min(q, NS_NO_CAPACITY), -NS_NO_CAPACITY);
  }
}
