/* SPDX-License-Identifier: MIT
 * values.c - from specified strengths to factored values of CSA O86:19.
 *
 * phi F = phi f K_D K_H K_S K_T, times the size factor of the resistance. phi
 * 0.9, 0.8 of compression (6.5); K_S of Table 6.10 by moisture and thickness;
 * K_T of Table 6.11 where the wood is incised; K_Z of Table 6.13 comes with
 * the joist as its size factor, K_Zcp is by b/d (6.5.6.4). All read in a
 * public transcription. */
#include "csa/strength.h"

/* Reaction-force strength of a notch, of any species: 0.5 MPa  (6.5.4) */
#define NS_F_F (0.5 * NS_PSI)

struct csa_base {
  int value, size;   /* rows of the strength and its K_Z, or -1 */
  double wet[2];     /* K_S up to 89 mm thick, and thicker */
  double incised[2]; /* K_T dry, wet */
  double row[2];     /* K_H of a row, and of one under a subfloor */
  double phi;
  bool timed; /* K_D applies */
};

/* In the order of enum ns_property. K_H of bending is put on with the state. */
static const struct csa_base csa_bases[] = {
    {NS_J_Fb, NS_J_CF, {0.84, 1}, {0.75, 0.85}, {1, 1}, 0.9, true},
    {NS_J_Ft, NS_J_CF_t, {0.84, 1}, {0.75, 0.85}, {1.1, 1}, 0.9, true},
    {NS_J_Fv, NS_J_CF, {0.96, 1}, {0.75, 0.85}, {1.1, 1.4}, 0.9, true},
    {NS_J_Fc_perp, -1, {0.67, 0.67}, {0.75, 0.85}, {1, 1}, 0.8, true},
    {NS_J_Fc, -1, {0.69, 0.91}, {0.75, 0.85}, {1.1, 1.1}, 0.8, true},
    {NS_J_E, -1, {0.94, 1}, {0.90, 0.95}, {1, 1}, 1, false},
    {NS_J_Emin, -1, {0.94, 1}, {0.90, 0.95}, {1, 1}, 1, false},
    {-1, -1, {0.70, 0.70}, {0.75, 0.85}, {1.1, 1.4}, 0.9, true},
};

/* K_Zcp: 1 up to b/d = 1, 0.15 b/d + 0.85 up to 2, then 1.15  (6.5.6.4) */
NS_INLINE double K_Zcp_of(double b, double d) {
  return 0.15 * ns_min(ns_max(b / d, 1), 2) + 0.85;
}

/* K_H of a property: 1 where none stand in a row or it is pinned. */
NS_INLINE double K_H_of(double (*J)[NS_LANES], const struct ns_standard *s,
                        const struct csa_base *t, int i) {
  const bool deck = J[NS_J_sheathed][i] != 0;
  const double row = ns_system_factor(s, J[NS_J_members][i], J[NS_J_spacing][i],
                                      deck, J[NS_J_b][i]);
  return (J[NS_J_repetitive][i] > 0) | (row == 1) ? 1 : t->row[deck];
}

/* phi F of a property with its factors, all lanes. */
void ns_csa_adjust(double (*J)[NS_LANES], const struct ns_standard *s,
                   enum ns_property property, int combo, struct ns_factors *o) {
  const struct csa_base t = csa_bases[property];
  /* A bearing takes the most of all combinations: K_D of all loads together. */
  const int c = property == NS_FC_PERP ? s->all : combo;
  for (int i = 0; i < NS_LANES; i++) {
    const double b = J[NS_J_b][i], F = t.value < 0 ? NS_F_F : J[t.value][i];
    const bool wet = J[NS_J_wet][i] != 0, incised = J[NS_J_incised][i] != 0;
    const double K_Z = property == NS_FC_PERP ? K_Zcp_of(b, J[NS_J_d][i])
                       : t.size < 0           ? 1
                                              : J[t.size][i];
    o->CD[i] = t.timed ? s->CD[c] : 1;
    o->CM[i] = wet ? t.wet[b > 89 / NS_MM + 1e-9] : 1;
    o->Ct[i] = o->CL[i] = 1;
    o->CF[i] = K_Z;
    o->Ci[i] = incised ? t.incised[wet] : 1;
    o->Cr[i] = K_H_of(J, s, &t, i);
    o->K[i] = t.phi;
    o->value[i] = F * o->CD[i] * o->CM[i] * K_Z * o->Ci[i] * o->Cr[i] * t.phi;
  }
}
