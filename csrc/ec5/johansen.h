/* SPDX-License-Identifier: MIT
 * johansen.h - a fastener in single shear between two pieces of softwood by
 * EN 1995-1-1, chapter 8.
 *
 * N and mm: the formulas hold in them alone. All of chapter 8 is from memory;
 * no published example of a fastener has been met with it. */
#ifndef NETSECTION_JOHANSEN_H
#define NETSECTION_JOHANSEN_H

#include <stdbool.h>

enum ns_en_fastener { NS_EN_NAIL, NS_EN_SCREW, NS_EN_BOLT, NS_EN_DOWEL };

#define NS_JOHANSEN_LIST(X)                                                    \
  X(d)     /* diameter of the shank */                                         \
  X(d_1)   /* root under the thread of a screw */                              \
  X(l)     /* length of a nail or screw */                                     \
  X(l_g)   /* its thread */                                                    \
  X(d_h)   /* head of a nail */                                                \
  X(f_u)   /* tensile strength of the steel, N/mm2 */                          \
  X(t_1)   /* piece at the head */                                             \
  X(t_2)   /* the other: a bolt's or dowel's; a nail's is l - t_1 */           \
  X(rho_1) /* characteristic densities, kg/m3 */                               \
  X(rho_2)                                                                     \
  X(rho_m1) /* mean densities */                                               \
  X(rho_m2)                                                                    \
  X(alpha_1) /* load to grain, degrees */                                      \
  X(alpha_2)                                                                   \
  X(D_w) /* washer of a bolt and the hole in it */                             \
  X(D_i)                                                                       \
  X(f_c90k) /* under the washer, N/mm2 */
struct ns_johansen {
  enum ns_en_fastener kind;
  bool predrilled;
#define X(name) double name;
  NS_JOHANSEN_LIST(X)
#undef X
};

#define NS_JOHANSEN_OUT_LIST(X)                                                \
  X(d_ef)  /* that counts: 1.1 root of a screw */                              \
  X(t_pen) /* point-side length */                                             \
  X(M_yRk) /* yield moment, N mm */                                            \
  X(f_h1k) /* embedment, N/mm2 */                                              \
  X(f_h2k)                                                                     \
  X(beta)   /* f_h2k/f_h1k */                                                  \
  X(f_axk)  /* withdrawal, N/mm2 */                                            \
  X(l_ef)   /* thread at the point of a screw */                               \
  X(F_axRk) /* axial, N */                                                     \
  X(cap)    /* most of the rope effect, of the Johansen part */                \
  X(J_a) X(J_b) X(J_c) X(J_d) X(J_e) X(J_f)     /* without rope effect, N */   \
      X(F_a) X(F_b) X(F_c) X(F_d) X(F_e) X(F_f) /* with it, N */               \
      X(F_vRk)                                  /* the least */                \
      X(K_ser)                                  /* slip modulus, N/mm */
struct ns_johansen_out {
  int mode;       /* 0 to 5: a to f */
  bool too_short; /* a nail under 8 d, a screw under 6 d at its point */
#define X(name) double name;
  NS_JOHANSEN_OUT_LIST(X)
#undef X
};

bool ns_johansen_of(const struct ns_johansen *in, struct ns_johansen_out *out);

#endif
