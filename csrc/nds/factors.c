/* SPDX-License-Identifier: MIT
 * factors.c - from reference values to adjusted ones (NDS 2018 chapter 4).
 *
 * F' = F CD CM Ct CL CF Cfu Ci Cr, each where Table 4.3.1 lists it, times the
 * format and resistance factors K in LRFD (1 in ASD, where CD stands; the
 * time effect factor takes its place in LRFD). Factors read in copies of NDS
 * Tables 2.3.2, 2.3.3, 4.3.8, the Supplement's Table 4A, and 3.3.3. */
#include "nds/formulas.h"

struct base {
  int value, size;      /* rows of the reference value and its size factor */
  double wet, wet_free; /* CM, and the F CF below which it is 1 */
  double warm[2][2];    /* Ct over 100 F: dry, wet; over 125 F: dry, wet */
  double incised;
  bool timed, repetitive; /* CD and Cr apply */
};

/* In the order of enum ns_property. */
static const struct base bases[] = {
    {NS_J_Fb, NS_J_CF, 0.85, 1150, {{0.8, 0.7}, {0.7, 0.5}}, 0.8, 1, 1},
    {NS_J_Ft, NS_J_CF_t, 1.0, 0, {{0.9, 0.9}, {0.9, 0.9}}, 0.8, 1, 0},
    {NS_J_Fv, -1, 0.97, 0, {{0.8, 0.7}, {0.7, 0.5}}, 0.8, 1, 0},
    {NS_J_Fc_perp, -1, 0.67, 0, {{0.8, 0.7}, {0.7, 0.5}}, 1.0, 0, 0},
    {NS_J_Fc, NS_J_CF_c, 0.8, 750, {{0.8, 0.7}, {0.7, 0.5}}, 0.8, 1, 0},
    {NS_J_E, -1, 0.9, 0, {{0.9, 0.9}, {0.9, 0.9}}, 0.95, 0, 0},
    {NS_J_Emin, -1, 0.9, 0, {{0.9, 0.9}, {0.9, 0.9}}, 0.95, 0, 0},
};

/* K_F phi of a property; 1 where loads carry no factors. */
static double format_factor(const struct ns_standard *s,
                            enum ns_property property) {
  const double K[] = {s->K_b, s->K_t, s->K_v, s->K_perp, s->K_c, 1, s->K_min};
  return K[property];
}

/* All but CL and Cr, which depend on the check and the state. */
NS_CLONES void ns_adjust(double (*J)[NS_LANES], const struct ns_standard *s,
                         enum ns_property property, int combo,
                         struct ns_factors *o) {
  const struct base t = bases[property];
  const double K = format_factor(s, property);
  const double CD = t.timed ? s->CD[combo] : 1;
  const double *restrict value = J[t.value];
  const double *restrict size = J[t.size < 0 ? NS_J_CF : t.size];
  const double *restrict is_wet = J[NS_J_wet];
  const double *restrict degrees = J[NS_J_temperature];
  const double *restrict is_incised = J[NS_J_incised];
  const bool sized = t.size >= 0;
  LANES(i) {
    const double F = value[i], CF = sized ? size[i] : 1;
    const bool wet = is_wet[i] != 0;
    const bool warm = degrees[i] > 100, hot = degrees[i] > 125;
    const double dry_Ct = hot ? t.warm[1][0] : t.warm[0][0];
    const double wet_Ct = hot ? t.warm[1][1] : t.warm[0][1];
    const double CM = wet & !(F * CF <= t.wet_free) ? t.wet : 1;
    const double Ct = !warm ? 1 : wet ? wet_Ct : dry_Ct;
    const double Ci = is_incised[i] != 0 ? t.incised : 1;
    o->CD[i] = CD;
    o->CM[i] = CM;
    o->Ct[i] = Ct;
    o->CL[i] = 1;
    o->CF[i] = CF;
    o->Ci[i] = Ci;
    o->Cr[i] = 1;
    o->K[i] = K;
    o->value[i] = F * CD * CM * Ct * CF * Ci * K;
  }
}

/* C_L  (NDS 3.3.3). */
double ns_CL(double Fb_star, double E_min, double l_e, double b, double d) {
  return ns_CL_of(Fb_star, E_min, l_e, b, d);
}

/* NDS Table 3.3.3, effective length for bending members. */
double ns_l_e(enum ns_le_case load, double l_u, double d) {
  const double r = l_u / d;
  switch (load) {
  case NS_LE_UNIFORM:
    return r < 7 ? 2.06 * l_u : 1.63 * l_u + 3 * d;
  case NS_LE_POINT:
    return r < 7 ? 1.80 * l_u : 1.37 * l_u + 3 * d;
  case NS_LE_POINT_BRACED:
    return 1.11 * l_u;
  case NS_LE_2:
    return 1.68 * l_u;
  case NS_LE_3:
    return 1.54 * l_u;
  case NS_LE_4:
    return 1.68 * l_u;
  case NS_LE_5:
    return 1.73 * l_u;
  case NS_LE_6:
    return 1.78 * l_u;
  case NS_LE_7:
    return 1.84 * l_u;
  case NS_LE_CANTILEVER:
    return ns_l_e_cantilever(l_u, d);
  case NS_LE_CANTILEVER_TIP:
    return ns_l_e_tip(l_u, d);
  case NS_LE_ANY:
    break;
  }
  return ns_l_e_any(l_u, d);
}

/* Flat use, 2 to 4 in thick, by nominal width (NDS Supplement Table 4A). */
double ns_Cfu(double width, bool thick_4) {
  if (width < 4) return 1.0;
  if (width < 5) return thick_4 ? 1.0 : 1.1;
  if (width < 6) return thick_4 ? 1.05 : 1.1;
  if (width < 10) return thick_4 ? 1.05 : 1.15;
  return thick_4 ? 1.1 : 1.2;
}

/* NDS 3.10.4: bearings under 6 in long and 3 in or more from the end. */
double ns_Cb(double l_b, double to_end) { return ns_Cb_of(l_b, to_end); }
