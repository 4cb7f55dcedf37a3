/* SPDX-License-Identifier: MIT
 * fasteners.h - what holds a repair together, a part of netsection.h: nails,
 * screws, lags and bolts by NDS chapter 12, steel straps by AISC 360 and
 * AISI S100.
 *
 * Scalars: a joint is worked once per repair, not sixteen at a time. Each
 * list names the numbers of a struct once, for the struct and for the
 * binding. Every function takes finite inputs in sensible ranges, or returns
 * false and fills nothing. Symbols are those of the standards; in, lb, psi,
 * degrees. */
#ifndef NETSECTION_FASTENERS_H
#define NETSECTION_FASTENERS_H

#include <stdbool.h>

enum ns_fastener_kind { NS_NAIL, NS_WOOD_SCREW, NS_LAG_SCREW, NS_BOLT };

#define NS_FACTORS_LIST(X) /* of a connection, NDS Table 11.3.1 */             \
  X(CD) X(CM) X(Ct) X(Cg) X(C_delta) X(Ceg) X(Ctn)
#define NS_DOWEL_LIST(X)                                                       \
  X(D)       /* nominal diameter */                                            \
  X(D_r)     /* root diameter; D of a plain shank */                           \
  X(F_yb)    /* bending yield strength */                                      \
  X(L)       /* length; 0: not known */                                        \
  X(E)       /* length of the tapered tip */                                   \
  X(pen)     /* penetration in the main member; 0: from L */                   \
  X(thread)  /* thread within the main member; below 0: not known */           \
  X(t_m)     /* main member; 0: thicker than the fastener reaches */           \
  X(t_s)     /* side member */                                                 \
  X(G_m)     /* specific gravity */                                            \
  X(G_s)     /* 0: steel */                                                    \
  X(theta_m) /* load to grain */                                               \
  X(theta_s)                                                                   \
  X(F_u)   /* of a steel side member */                                        \
  X(rated) /* a maker's value, used instead; 0: none */                        \
  NS_FACTORS_LIST(X)
struct ns_dowel {
  enum ns_fastener_kind kind;
  bool twin;         /* two shear planes */
  bool by_equations; /* short penetration goes into l_m, no ratio */
  bool nominal_KD;   /* K_D of the nominal diameter */
  bool table_Fe;     /* Fe rounded as in the NDS tables */
#define X(name) double name;
  NS_DOWEL_LIST(X)
#undef X
};
enum ns_yield_mode {
  NS_YIELD_IM,
  NS_YIELD_IS,
  NS_YIELD_II,
  NS_YIELD_IIIM,
  NS_YIELD_IIIS,
  NS_YIELD_IV,
  NS_YIELD_RATED
};
enum ns_fastener_refusal {
  NS_FASTENS,
  NS_TOO_SHORT,   /* less than the least penetration */
  NS_NOT_THROUGH, /* does not reach through the parts */
  NS_TOO_NEAR     /* less than the least end distance or spacing */
};
#define NS_LATERAL_LIST(X)                                                     \
  X(p) X(p_min) X(p_full) X(C_p) X(l_m) X(l_s) X(p_far) X(D_e) X(D_k)          \
      X(sin2_m) X(F_mpar) X(F_mperp) X(F_em) X(sin2_s) X(F_spar) X(F_sperp)    \
          X(F_es) X(R_e) X(R_t) X(theta) X(K_t) X(K_D) X(R_1) X(R_2) X(R_3)    \
              X(k_1) X(k_2) X(k_3) X(Im) X(Is) X(II) X(IIIm) X(IIIs) X(IV)     \
                  X(Z_0) X(Z) X(C_D) X(Z_adj)
struct ns_lateral {
  enum ns_yield_mode mode;
  enum ns_fastener_refusal refused;
#define X(name) double name;
  NS_LATERAL_LIST(X)
#undef X
};
/* Lateral value of one fastener (NDS 12.3): Z_0 least of the modes, Z with
 * the ratio for short penetration, Z_adj with the factors. A refusal has
 * Z = 0. */
bool ns_lateral_of(const struct ns_dowel *dowel, struct ns_lateral *out);

#define NS_PULL_LIST(X) /* 'pen' is then the thread held; 'rated' lb/in */     \
  X(D) X(G) X(L) X(E) X(T) X(t_s) X(pen) X(rated) NS_FACTORS_LIST(X)
struct ns_pull {
  enum ns_fastener_kind kind;
#define X(name) double name;
  NS_PULL_LIST(X)
#undef X
};
#define NS_WITHDRAWAL_LIST(X) X(W) X(C_D) X(W_adj) X(p_t) X(P) X(P_adj)
struct ns_withdrawal {
#define X(name) double name;
  NS_WITHDRAWAL_LIST(X)
#undef X
};
/* W per inch of thread held (NDS 12.2), P of the whole; bolts have none. */
bool ns_withdrawal_of(const struct ns_pull *pull, struct ns_withdrawal *out);
/* Thread that a screw or lag of length L has, tip included. */
double ns_thread_length(enum ns_fastener_kind kind, double L);

#define NS_GROUP_LIST(X) /* EA of each side; gamma 0: from D */                \
  X(D) X(n) X(s) X(E_m) X(A_m) X(E_s) X(A_s) X(slip)
struct ns_group {
  bool steel;
#define X(name) double name;
  NS_GROUP_LIST(X)
#undef X
};
#define NS_CG_LIST(X) X(gamma) X(EA_m) X(EA_s) X(R_EA) X(u) X(m) X(Cg)
struct ns_group_action {
#define X(name) double name;
  NS_CG_LIST(X)
#undef X
};
/* Group action factor of a row (NDS 11.3.6). */
bool ns_Cg_of(const struct ns_group *group, struct ns_group_action *out);

/* Distances as multiples of D; filled in inches. 'row' 0: from l/D, for load
 * across the grain (NDS Table 12.5.1D). */
#define NS_SPACING_LIST(X)                                                     \
  X(end_min) X(end_full) X(edge) X(loaded_edge) X(spacing_min) X(spacing_full) \
      X(row) X(row_staggered)
struct ns_spacing {
#define X(name) double name;
  NS_SPACING_LIST(X)
#undef X
};
/* l: length of bearing; row_used: distance of the rows as laid out, or 0,
 * which the edge distance of slender fasteners looks at. */
bool ns_distances(const struct ns_spacing *times_D, double D, double l,
                  double row_used, struct ns_spacing *out);
#define NS_GEOMETRY_LIST(X) /* 0: not looked at */                             \
  X(e) X(e_min) X(e_full) X(s) X(s_min) X(s_full)
struct ns_geometry {
#define X(name) double name;
  NS_GEOMETRY_LIST(X)
#undef X
};
#define NS_C_DELTA_LIST(X) X(C_e) X(C_s) X(C_delta)
struct ns_geometry_factor {
  enum ns_fastener_refusal refused;
#define X(name) double name;
  NS_C_DELTA_LIST(X)
#undef X
};
/* Geometry factor (NDS 12.5.1.2), 0 below the least distances. */
bool ns_C_delta_of(const struct ns_geometry *g, struct ns_geometry_factor *out);

#define NS_TEAR_LIST(X) /* n per row, rows, pitch, row gauge, end distance */  \
  X(n) X(rows) X(s) X(g) X(e) X(t) X(d) X(D_h) X(F_v) X(F_t)
struct ns_tear {
#define X(name) double name;
  NS_TEAR_LIST(X)
#undef X
};
#define NS_TEAR_OUT_LIST(X)                                                    \
  X(s_crit) X(Z_RTi) X(Z_RT) X(A_g) X(Z_GT) X(A_n) X(Z_NT) X(least)
struct ns_tear_out {
#define X(name) double name;
  NS_TEAR_OUT_LIST(X)
#undef X
};
/* Row tear-out, group tear-out and net tension (NDS Appendix E); F_v and F_t
 * adjusted, d the width of the member. */
bool ns_tear_out_of(const struct ns_tear *tear, struct ns_tear_out *out);

#define NS_SLIP_LIST(X) /* densities kg/m3, 0: from G at 12 % */               \
  X(D) X(G_m) X(G_s) X(rho_m) X(rho_s)
struct ns_slip {
  enum ns_fastener_kind kind;
  bool steel, prebored;
  bool european; /* EN 1995-1-1 Table 7.1, otherwise NDS 11.3.6 */
#define X(name) double name;
  NS_SLIP_LIST(X)
#undef X
};
#define NS_SLIP_MODULUS_LIST(X) X(rho_1) X(rho_2) X(rho) X(d_mm) X(K_N) X(K)
struct ns_slip_modulus {
#define X(name) double name;
  NS_SLIP_MODULUS_LIST(X)
#undef X
};
/* Slip modulus K in lb/in per fastener and shear plane; K_N in N/mm. */
bool ns_slip_of(const struct ns_slip *slip, struct ns_slip_modulus *out);

/* Bending stress, psi, that a plate on edge reaches before it yields or
 * buckles: t x d, held sideways at l_b apart, in. C_m for how the moment falls
 * off, 1 for an even one. 0 for what is no plate. */
double ns_plate_on_edge(double F_y, double E, double t, double d, double l_b,
                        double C_m);

#define NS_STRAP_LIST(X) /* t, width w; rows across, n in line, pitch, row     \
                            gauge, end distance, hole */                       \
  X(F_y) X(F_u) X(w) X(t) X(D) X(D_h) X(rows) X(n) X(s) X(g) X(e)
struct ns_strap {
  bool sheet; /* AISI S100, otherwise AISC 360 */
#define X(name) double name;
  NS_STRAP_LIST(X)
#undef X
};
enum ns_strap_limit {
  NS_STRAP_YIELD,
  NS_STRAP_RUPTURE,
  NS_STRAP_BEARING,
  NS_STRAP_TEAR_OUT,
  NS_STRAP_BLOCK
};
#define NS_STEEL_LIST(X)                                                       \
  X(d_n) X(A_g) X(A_n) X(A_e) X(T_y) X(T_u) X(l_e) X(l_i) X(B_e) X(B_i) X(T_b) \
      X(A_te) X(A_ti) X(T_t) X(A_gv) X(A_nv) X(A_nt) X(T_bs) X(T)
struct ns_steel {
  enum ns_strap_limit governs;
#define X(name) double name;
  NS_STEEL_LIST(X)
#undef X
};
/* Allowable tension of a strap, ASD; CD never applies (NDS 11.2.3). */
bool ns_steel_of(const struct ns_strap *strap, struct ns_steel *out);
#define NS_SHEET_SCREW_LIST(X) /* t_2 0: wood behind */                        \
  X(D) X(d_w) X(t_1) X(F_u1) X(t_2) X(F_u2)
struct ns_sheet_screw {
#define X(name) double name;
  NS_SHEET_SCREW_LIST(X)
#undef X
};
#define NS_SHEET_LIST(X)                                                       \
  X(B_1) X(B_2) X(P_t) X(P_c) X(P_s) X(P_ns) X(P_as) X(P_nov) X(P_aov)         \
      X(P_not) X(P_aot)
struct ns_sheet {
#define X(name) double name;
  NS_SHEET_LIST(X)
#undef X
};
/* Bearing, tilting, pull-over and pull-out of a screw in sheet (AISI S100). */
bool ns_sheet_screw_of(const struct ns_sheet_screw *s, struct ns_sheet *out);
/* Allowable shear of the shank: F_nv A / 2.00 (AISC 360 J3.6); 0 if wrong. */
double ns_shank_shear(double F_nv, double D_e);

#endif
