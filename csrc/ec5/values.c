/* SPDX-License-Identifier: MIT
 * values.c - from characteristic values to design values of EN 1995-1-1:2004.
 *
 * X_d = k_mod X_k/gamma_M (2.4.1), times k_h of a depth under 150 mm (3.2),
 * which comes with the joist as its size factor; k_cr and k_sys on shear
 * (6.1.7(2), 6.6). k_mod and gamma_M of solid timber were read in copies, k_cr
 * is from memory. */
#include "ec5/strength.h"

/* Rows of the characteristic value and of its k_h, in the order of enum
 * ns_property; E_mean and E_0,05 are taken as they are. */
static const struct ec5_base {
  int value, size;
  bool design; /* a strength */
} ec5_bases[] = {
    {NS_J_Fb, NS_J_CF, true}, {NS_J_Ft, NS_J_CF_t, true}, {NS_J_Fv, -1, true},
    {NS_J_Fc_perp, -1, true}, {NS_J_Fc, -1, true},        {NS_J_E, -1, false},
    {NS_J_Emin, -1, false},
};

/* k_mod of the shortest load in a combination: permanent where there is no
 * imposed load in it  (3.1.3(2)) */
NS_INLINE double k_mod_of(const struct ns_standard *s, double service,
                          double duration, int combo) {
  const int class = service < 2 ? 0 : service < 3 ? 1 : 2;
  const int longest = s->g_L[combo] > 0 ? (int)ns_max(duration, 1) - 1 : 0;
  return s->ec5.k_mod[class][longest];
}

/* k_cr: a number, or 2.0/f_v,k with f_v,k in N/mm2 (6.1.7(2) and annexes). */
NS_INLINE double k_cr_of(const struct ns_standard *s, double f_vk) {
  const double by_value = s->ec5.f_cr / ns_max(f_vk, 1e-9);
  return s->ec5.f_cr > 0 ? ns_min(by_value, 1) : s->ec5.k_cr;
}

/* k_sys of members that share the floor  (6.6). */
NS_INLINE double k_sys_of(double (*J)[NS_LANES], const struct ns_standard *s,
                          int i) {
  const double pin = J[NS_J_repetitive][i];
  const double row = ns_system_factor(s, J[NS_J_members][i], J[NS_J_spacing][i],
                                      J[NS_J_sheathed][i] != 0, J[NS_J_b][i]);
  return pin > 0 ? pin : row;
}

/* X_d of a property with its factors, all lanes. */
void ns_ec5_adjust(double (*J)[NS_LANES], const struct ns_standard *s,
                   enum ns_property property, int combo, struct ns_factors *o) {
  const struct ec5_base t = ec5_bases[property];
  const bool shear = property == NS_FV;
  for (int i = 0; i < NS_LANES; i++) {
    const double F = J[t.value][i], k_h = t.size < 0 ? 1 : J[t.size][i];
    /* Of all combinations together: the bearing is one, its duration that of
     * the imposed load. */
    const int c = property == NS_FC_PERP ? s->all : combo;
    const double k_mod =
        t.design ? k_mod_of(s, J[NS_J_service][i], J[NS_J_duration][i], c) : 1;
    const double k_cr = shear ? k_cr_of(s, F / NS_PSI) : 1;
    const double k_sys = shear ? k_sys_of(J, s, i) : 1;
    const double gamma = t.design ? s->ec5.gamma_M : 1;
    o->CD[i] = k_mod;
    o->CM[i] = k_cr;
    o->Ct[i] = o->Ci[i] = o->CL[i] = 1;
    o->CF[i] = k_h;
    o->Cr[i] = k_sys;
    o->K[i] = gamma;
    o->value[i] = F * k_mod * k_h * k_cr * k_sys / gamma;
  }
}
