/* SPDX-License-Identifier: MIT
 * dowel.c - nails, screws, lags and bolts: yield limit equations, withdrawal,
 * group action, distances, tearing of the wood, slip.
 *
 * The yield equations are those of NDS Table 12.3.1A. What the tables behind
 * them do, found by working them out again, is done here too: the root
 * diameter goes into the equations and into K_D, the nominal one into Fe
 * across the grain and into the penetration; a screw of 1/4 in or more whose
 * root is thinner has K_D K_theta for every mode. */
#include <math.h>
#include <string.h>

#include "joist/elementary.h"
#include "nds/fasteners.h"

#define PI 3.14159265358979323846
#define SMALL (0.25 - 1e-9) /* in: the other rules begin at 1/4 */

/* Above 0 and at most 'most'; false for NaN. */
static bool above(double v, double most) { return v > 0 && v <= most; }

static bool within(double v, double most) { return v >= 0 && v <= most; }

/* ---- lateral ---- */

/* Whether factors are within their ranges. */
static bool factors_fit(double CD, double CM, double Ct, double Cg,
                        double C_delta, double Ceg, double Ctn) {
  return above(CD, 2) && above(CM, 1) && above(Ct, 1) && above(Cg, 1) &&
         within(C_delta, 1) && within(Ceg, 1) && above(Ctn, 1);
}

/* Whether a fastener's numbers are within the ranges of chapter 12. */
static bool dowel_fits(const struct ns_dowel *d) {
  const bool side = d->G_s == 0 ? above(d->F_u, 1e6) : above(d->G_s, 1.5);
  const bool main = above(d->G_m, 1.5) && within(d->theta_m, 90) &&
                    within(d->theta_s, 90) && within(d->t_m, 100);
  const bool shank = above(d->D, 4) && above(d->D_r, d->D) &&
                     above(d->F_yb, 1e6) && within(d->L, 100) &&
                     within(d->E, 10) && within(d->pen, 100) &&
                     d->thread >= -1 && d->thread <= 100;
  const bool factors =
      factors_fit(d->CD, d->CM, d->Ct, d->Cg, d->C_delta, d->Ceg, d->Ctn);
  if (!(d->rated >= 0 && d->rated <= 1e6 && factors)) return false;
  return d->rated > 0 || (side && main && shank && above(d->t_s, 100));
}

/* Rounded to 50 psi, as the tables are, where that is asked for. */
static double to_50(double F, bool on) {
  return on ? floor(F / 50 + 0.5) * 50 : F;
}

/* Dowel bearing strength of wood (NDS 12.3.3): along, across and at theta to
 * the grain, the last by Hankinson (12.3.4). */
static double wood_Fe(double G, double D, double theta, bool rounded,
                      double *par, double *perp, double *sin2) {
  const double s = ns_sin(theta * PI / 180);
  *sin2 = s * s;
  *par = to_50(D < SMALL ? 16600 * ns_power(G, 1.84) : 11200 * G, rounded);
  *perp = D < SMALL ? *par : to_50(6100 * ns_power(G, 1.45) / sqrt(D), rounded);
  return *par * *perp / (*par * *sin2 + *perp * (1 - *sin2));
}

/* Dowel bearing strength of steel, thin and thick (NDS Appendix I). */
static double steel_Fe(double F_u, double t, bool rounded) {
  const double F = t < SMALL ? 1.375 * F_u : 1.5 * F_u;
  return rounded ? floor(F / 50) * 50 : F;
}

/* Least penetration and that of the full value: nails and wood screws 6D and
 * 10D, lags 4D and 8D (NDS 12.1). */
static void penetration_limits(const struct ns_dowel *d, struct ns_lateral *o) {
  const bool lag = d->kind == NS_LAG_SCREW;
  o->p_min = (lag ? 4 : 6) * d->D;
  o->p_full = (lag ? 8 : 10) * d->D;
}

/* A tapered tip counts in full, but that of a lag not at all (NDS 12.1). */
static double tip_lost(const struct ns_dowel *d) {
  return d->kind == NS_LAG_SCREW ? d->E : 0;
}

static bool shorter(double a, double b) { return a < b - 1e-9; }

/* One shear plane: bearing in the main member. Short of the full penetration
 * the value of the full one is reduced by p / p_full; with by_equations the
 * length that is there goes into the equations instead, less half the tip. */
static enum ns_fastener_refusal one_plane(const struct ns_dowel *d,
                                          struct ns_lateral *o) {
  const double reach = d->pen > 0 ? d->pen : d->L - d->t_s - tip_lost(d);
  o->l_s = d->t_s;
  o->C_p = 1;
  if (d->kind == NS_BOLT) {
    o->p = o->l_m = d->t_m;
    if (!(d->t_m > 0)) return NS_NOT_THROUGH;
    return d->L > 0 && shorter(d->L, d->t_s + d->t_m) ? NS_NOT_THROUGH
                                                      : NS_FASTENS;
  }
  penetration_limits(d, o);
  o->p = d->t_m > 0 && d->t_m < reach ? d->t_m : reach;
  if (shorter(o->p, o->p_min)) return NS_TOO_SHORT;
  const bool full = !shorter(o->p, o->p_full);
  if (full)
    o->l_m = o->p;
  else if (d->by_equations)
    o->l_m = d->kind == NS_LAG_SCREW ? o->p : o->p - d->E / 2;
  else
    o->l_m = o->p_full, o->C_p = o->p / o->p_full;
  return NS_FASTENS;
}

/* Two shear planes: the penetration that counts is that in the far side
 * member, which thin steel need only be passed through. */
static enum ns_fastener_refusal two_planes(const struct ns_dowel *d,
                                           struct ns_lateral *o) {
  const double reach = d->pen > 0 ? d->pen
                       : d->L > 0 ? d->L - d->t_s - d->t_m - tip_lost(d)
                                  : d->t_s;
  o->C_p = 1;
  o->l_m = d->t_m;
  o->p = o->p_far = d->t_s < reach ? d->t_s : reach;
  if (!(d->t_m > 0)) return NS_NOT_THROUGH;
  if (d->kind == NS_BOLT || d->G_s == 0) {
    if (shorter(reach, d->t_s)) return NS_NOT_THROUGH;
  } else {
    penetration_limits(d, o);
    if (shorter(o->p_far, o->p_min)) return NS_TOO_SHORT;
  }
  o->l_s = o->p_far;
  return NS_FASTENS;
}

/* The root diameter, unless the thread takes no more than a quarter of the
 * bearing length in the member that holds it (NDS 12.3.7.2, memory). */
static double equation_D(const struct ns_dowel *d, double l_m) {
  const bool shank = d->thread >= 0 && d->thread <= l_m / 4;
  return shank ? d->D : d->D_r;
}

/* Reduction terms (NDS Table 12.3.1B). */
static void reduction(const struct ns_dowel *d, struct ns_lateral *o) {
  const bool small = d->D < SMALL, thin = o->D_e < SMALL;
  const double side = d->G_s == 0 ? 0 : d->theta_s;
  o->theta = d->theta_m > side ? d->theta_m : side;
  o->K_t = 1 + 0.25 * (o->theta / 90);
  o->D_k = small && d->nominal_KD ? d->D : o->D_e;
  o->K_D = o->D_k <= 0.17 ? 2.2 : 10 * o->D_k + 0.5;
  const double all = small ? o->K_D : o->K_D * o->K_t;
  o->R_1 = thin ? all : 4 * o->K_t;
  o->R_2 = thin ? all : 3.6 * o->K_t;
  o->R_3 = thin ? all : 3.2 * o->K_t;
}

/* Yield limit equations (NDS Table 12.3.1A), each for all shear planes. */
static void yield_modes(const struct ns_dowel *d, struct ns_lateral *o) {
  const double D = o->D_e, R = o->R_e, T = o->R_t, F = o->F_em;
  const double l_m = o->l_m, l_s = o->l_s, planes = d->twin ? 2 : 1;
  const double stiff = 2 * d->F_yb * D * D / (3 * F);
  o->k_1 = (sqrt(R + 2 * R * R * (1 + T + T * T) + T * T * R * R * R) -
            R * (1 + T)) /
           (1 + R);
  o->k_2 = sqrt(2 * (1 + R) + stiff * (1 + 2 * R) / (l_m * l_m)) - 1;
  o->k_3 = sqrt(2 * (1 + R) / R + stiff * (2 + R) / (l_s * l_s)) - 1;
  o->Im = D * l_m * F / o->R_1;
  o->Is = planes * D * l_s * o->F_es / o->R_1;
  o->II = d->twin ? 0 : o->k_1 * D * l_s * o->F_es / o->R_2;
  o->IIIm = d->twin ? 0 : o->k_2 * D * l_m * F / ((1 + 2 * R) * o->R_3);
  o->IIIs = planes * o->k_3 * D * l_s * F / ((2 + R) * o->R_3);
  o->IV = planes * (D * D / o->R_3) * sqrt(2 * F * d->F_yb / (3 * (1 + R)));
}

/* The least; modes that do not occur are 0. */
static void least_mode(struct ns_lateral *o) {
  const double Z[] = {o->Im, o->Is, o->II, o->IIIm, o->IIIs, o->IV};
  o->mode = NS_YIELD_IM;
  for (int k = 1; k < 6; k++)
    if (Z[k] > 0 && Z[k] < Z[o->mode]) o->mode = (enum ns_yield_mode)k;
  o->Z_0 = Z[o->mode];
}

/* Bearing strengths and the six yield modes  (NDS Table 12.3.1A); lb. */
static void work_yield(const struct ns_dowel *d, struct ns_lateral *o) {
  o->F_em = wood_Fe(d->G_m, d->D, d->theta_m, d->table_Fe, &o->F_mpar,
                    &o->F_mperp, &o->sin2_m);
  if (d->G_s == 0)
    o->F_es = steel_Fe(d->F_u, d->t_s, d->table_Fe);
  else
    o->F_es = wood_Fe(d->G_s, d->D, d->theta_s, d->table_Fe, &o->F_spar,
                      &o->F_sperp, &o->sin2_s);
  o->D_e = equation_D(d, o->l_m);
  o->R_e = o->F_em / o->F_es;
  o->R_t = o->l_m / o->l_s;
  reduction(d, o);
  yield_modes(d, o);
  least_mode(o);
}

/* Z of one fastener and its adjusted value  (NDS 12.3, 11.3.1). */
bool ns_lateral_of(const struct ns_dowel *d, struct ns_lateral *o) {
  if (!dowel_fits(d)) return false;
  memset(o, 0, sizeof *o);
  o->C_D = d->CD < 1.6 ? d->CD : 1.6; /* NDS 11.3.2 */
  if (d->rated > 0) {
    /* What limits a maker's value is not known: steel gains nothing from a
     * short load. */
    o->C_D = d->CD < 1 ? d->CD : 1;
    o->mode = NS_YIELD_RATED;
    o->Z_0 = d->rated;
    o->C_p = 1;
  } else {
    o->refused = d->twin ? two_planes(d, o) : one_plane(d, o);
    if (o->refused != NS_FASTENS) return true;
    work_yield(d, o);
  }
  o->Z = o->Z_0 * o->C_p;
  o->Z_adj =
      o->Z * o->C_D * d->CM * d->Ct * d->Cg * d->C_delta * d->Ceg * d->Ctn;
  return true;
}

/* ---- withdrawal ---- */

/* Whether a fastener's numbers in withdrawal are within their ranges. */
static bool pull_fits(const struct ns_pull *p) {
  return above(p->D, 4) && above(p->G, 1.5) && within(p->L, 100) &&
         within(p->E, 10) && within(p->T, 100) && within(p->t_s, 100) &&
         within(p->pen, 100) && within(p->rated, 1e6) &&
         factors_fit(p->CD, p->CM, p->Ct, p->Cg, p->C_delta, p->Ceg, p->Ctn);
}

/* Length of thread; in. */
double ns_thread_length(enum ns_fastener_kind kind, double L) {
  /* NDS Tables L2 and L3 (memory). */
  if (kind == NS_WOOD_SCREW) return 2 * L / 3;
  return kind != NS_LAG_SCREW ? 0 : L / 2 + 0.5 < 6 ? L / 2 + 0.5 : 6;
}

/* Thread, or shank of a nail, within the main member. */
static double thread_held(const struct ns_pull *p) {
  const double reach = p->L - p->t_s;
  const bool all = p->kind == NS_NAIL || reach < p->T;
  const double held = all ? reach : p->T;
  const double p_t = p->kind == NS_LAG_SCREW ? held - p->E : held;
  return p->pen > 0 ? p->pen : p_t > 0 ? p_t : 0;
}

/* W per inch of thread and what a fastener pulls  (NDS 12.2). */
bool ns_withdrawal_of(const struct ns_pull *p, struct ns_withdrawal *o) {
  if (!pull_fits(p)) return false;
  memset(o, 0, sizeof *o);
  switch (p->kind) {
  case NS_LAG_SCREW: /* NDS 12.2-1 */
    o->W = 1800 * ns_power(p->G, 1.5) * ns_power(p->D, 0.75);
    break;
  case NS_WOOD_SCREW: /* NDS 12.2-2 */
    o->W = 2850 * p->G * p->G * p->D;
    break;
  case NS_NAIL: /* NDS 12.2-3 */
    o->W = 1380 * ns_power(p->G, 2.5) * p->D;
    break;
  default:
    break;
  }
  o->C_D = p->CD < 1.6 ? p->CD : 1.6;
  if (p->rated > 0) {
    o->W = p->rated;
    o->C_D = p->CD < 1 ? p->CD : 1;
  }
  o->W_adj = o->W * o->C_D * p->CM * p->Ct * p->Ceg * p->Ctn;
  o->p_t = thread_held(p);
  o->P = o->W * o->p_t;
  o->P_adj = o->W_adj * o->p_t;
  return true;
}

/* ---- groups ---- */

/* Group action factor of a row  (NDS 11.3.6). */
bool ns_Cg_of(const struct ns_group *g, struct ns_group_action *o) {
  const bool fits = above(g->D, 4) && g->n >= 1 && g->n <= 1000 &&
                    above(g->s, 1000) && above(g->E_m, 1e9) &&
                    above(g->A_m, 1e6) && above(g->E_s, 1e9) &&
                    above(g->A_s, 1e6) && within(g->slip, 1e9);
  if (!fits) return false;
  memset(o, 0, sizeof *o);
  o->gamma = g->slip > 0 ? g->slip
                         : (g->steel ? 270000 : 180000) * ns_power(g->D, 1.5);
  o->EA_m = g->E_m * g->A_m;
  o->EA_s = g->E_s * g->A_s;
  o->R_EA = o->EA_s < o->EA_m ? o->EA_s / o->EA_m : o->EA_m / o->EA_s;
  o->u = 1 + o->gamma * (g->s / 2) * (1 / o->EA_m + 1 / o->EA_s);
  o->m = o->u - sqrt(o->u * o->u - 1);
  o->Cg = 1;
  /* Small fasteners (NDS 11.3.6.1), one alone, and members so stiff that the
   * formula runs into 0/0. */
  if (g->D < SMALL || g->n < 2 || !(o->m < 1 - 1e-7)) return true;
  const double m = o->m, n = g->n, R = o->R_EA;
  const double m_n = ns_power(m, n), m_2n = ns_power(m, 2 * n);
  o->Cg = m * (1 - m_2n) / (n * ((1 + R * m_n) * (1 + m) - 1 + m_2n)) *
          ((1 + R) / (1 - m));
  return true;
}

/* Distance of rows loaded across the grain (NDS Table 12.5.1D, memory). */
static double row_by_length(double D, double l) {
  const double slender = l / D;
  return slender <= 2 ? 2.5 * D : slender < 6 ? (5 * l + 10 * D) / 8 : 5 * D;
}

/* Least distances and spacings of a fastener  (NDS 12.5). */
bool ns_distances(const struct ns_spacing *k, double D, double l,
                  double row_used, struct ns_spacing *o) {
#define X(name) ok = ok && within(k->name, 100);
  bool ok = above(D, 4) && within(l, 100) && within(row_used, 1000);
  NS_SPACING_LIST(X)
#undef X
  if (!ok) return false;
#define X(name) o->name = k->name * D;
  NS_SPACING_LIST(X)
#undef X
  if (k->row == 0) o->row = row_by_length(D, l);
  /* Slender fasteners along the grain (NDS Table 12.5.1C). */
  if (k->row > 0 && D >= SMALL && l / D > 6 && row_used / 2 > o->edge)
    o->edge = row_used / 2;
  return true;
}

/* Geometry factor by the distances that there are  (NDS 12.5.1). */
bool ns_C_delta_of(const struct ns_geometry *g, struct ns_geometry_factor *o) {
  const bool fits = within(g->e, 1000) && within(g->s, 1000) &&
                    within(g->e_min, 1000) && within(g->s_min, 1000) &&
                    above(g->e_full, 1000) && above(g->s_full, 1000);
  if (!fits) return false;
  memset(o, 0, sizeof *o);
  o->C_e = g->e > 0 && shorter(g->e, g->e_full) ? g->e / g->e_full : 1;
  o->C_s = g->s > 0 && shorter(g->s, g->s_full) ? g->s / g->s_full : 1;
  const bool near = (g->e > 0 && shorter(g->e, g->e_min)) ||
                    (g->s > 0 && shorter(g->s, g->s_min));
  o->refused = near ? NS_TOO_NEAR : NS_FASTENS;
  o->C_delta = near ? 0 : o->C_e < o->C_s ? o->C_e : o->C_s;
  return true;
}

/* Net tension, row and group tear-out of the wood  (NDS Appendix E). */
bool ns_tear_out_of(const struct ns_tear *t, struct ns_tear_out *o) {
  const bool fits =
      t->n >= 1 && t->n <= 1000 && t->rows >= 1 && t->rows <= 100 &&
      within(t->s, 1000) && within(t->g, 1000) && above(t->e, 1000) &&
      above(t->t, 100) && above(t->d, 1000) && within(t->D_h, 10) &&
      above(t->F_v, 1e6) && above(t->F_t, 1e6) && (t->n < 2 || t->s > 0) &&
      (t->rows < 2 || t->g > 0);
  if (!fits) return false;
  memset(o, 0, sizeof *o);
  const double A_n = (t->d - t->rows * t->D_h) * t->t;
  const double A_g = (t->rows - 1) * (t->g - t->D_h) * t->t;
  o->s_crit = t->n < 2 || t->e < t->s ? t->e : t->s;
  o->Z_RTi = t->n * t->F_v * t->t * o->s_crit; /* E.3, memory */
  o->Z_RT = t->rows * o->Z_RTi;
  o->A_g = A_g > 0 ? A_g : 0;
  o->Z_GT = o->Z_RTi / 2 + o->Z_RTi / 2 + t->F_t * o->A_g; /* E.4, memory */
  o->A_n = A_n > 0 ? A_n : 0;
  o->Z_NT = t->F_t * o->A_n; /* E.2, memory */
  o->least = o->Z_RT < o->Z_GT ? o->Z_RT : o->Z_GT;
  o->least = o->Z_NT < o->least ? o->Z_NT : o->least;
  return true;
}

/* ---- slip ---- */

/* kg/m3 at 12 % moisture; G is of the oven-dry wood (NDS Supplement 3.1.3,
 * memory). */
static double density(double G, double given) {
  return given > 0 ? given : 1000 * G / (1 + 0.009 * G * 12) * (1 + 12.0 / 100);
}

/* N/mm (EN 1995-1-1 Table 7.1 and 7.1(2), 7.1(3)). */
static void european_slip(const struct ns_slip *s, struct ns_slip_modulus *o) {
  const bool nail = s->kind == NS_NAIL && !s->prebored;
  o->rho_1 = density(s->G_m, s->rho_m);
  o->rho_2 = s->steel ? o->rho_1 : density(s->G_s, s->rho_s);
  o->rho = sqrt(o->rho_1 * o->rho_2);
  o->d_mm = 25.4 * s->D;
  const double one = nail ? ns_power(o->rho, 1.5) * ns_power(o->d_mm, 0.8) / 30
                          : ns_power(o->rho, 1.5) * o->d_mm / 23;
  o->K_N = s->steel ? 2 * one : one;
  o->K = o->K_N * 25.4 / 4.4482216152605;
}

/* Slip modulus of one fastener in a joint; lb/in. */
bool ns_slip_of(const struct ns_slip *s, struct ns_slip_modulus *o) {
  const bool main = above(s->G_m, 1.5) || above(s->rho_m, 1500);
  const bool side = s->steel || above(s->G_s, 1.5) || above(s->rho_s, 1500);
  if (!above(s->D, 4) || (s->european && !(main && side))) return false;
  if (!within(s->rho_m, 1500) || !within(s->rho_s, 1500)) return false;
  memset(o, 0, sizeof *o);
  if (s->european)
    european_slip(s, o);
  else /* the second is from memory */
    o->K = (s->steel ? 270000 : 180000) * ns_power(s->D, 1.5);
  return true;
}
