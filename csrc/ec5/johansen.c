/* SPDX-License-Identifier: MIT
 * johansen.c - F_v,Rk of a nail, screw, bolt or dowel in single shear with its
 * rope effect, and K_ser (EN 1995-1-1 8.2.2, 8.3, 8.5, 8.7, Table 7.1). N, mm.
 *
 * The forms of modes c to f follow from equilibrium of the dowel, where they
 * were worked out again; embedment, yield moment, withdrawal and the limits of
 * the rope effect are from memory. */
#include "ec5/johansen.h"

#include <math.h>
#include <string.h>

#include "joist/elementary.h"
#include "joist/lanes.h"

#define DEGREE (3.14159265358979323846 / 180)
#define THICK 6.0 /* mm: screws over it are worked as bolts */

/* Nails, and screws as thin as count as nails. */
static bool nail_like(const struct ns_johansen *p, double d_ef) {
  return p->kind == NS_EN_NAIL || (p->kind == NS_EN_SCREW && d_ef <= THICK);
}

/* f_h,k = 0.082 rho_k d^-0.3 of nails without predrilling, 0.082 (1 - 0.01 d)
 * rho_k with it  (8.15, 8.16); of bolts and dowels the latter over k_90 sin^2 +
 * cos^2, k_90 = 1.35 + 0.015 d of softwood  (8.31 to 8.33) */
static double embedment(const struct ns_johansen *p, double d, double rho,
                        double alpha) {
  const double bored = 0.082 * (1 - 0.01 * d) * rho;
  if (nail_like(p, d))
    return p->predrilled ? bored : 0.082 * rho * ns_power(d, -0.3);
  const double s = ns_sin(alpha * DEGREE), c = ns_cos(alpha * DEGREE);
  return bored / ((1.35 + 0.015 * d) * s * s + c * c);
}

/* F_ax,Rk of a smooth nail: f_ax d t_pen at the point, f_ax d t + f_head d_h^2
 * at the head, f_ax = 20e-6 rho^2, f_head = 70e-6 rho^2; nil under 8 d of
 * point, less up to 12 d  (8.3.2) */
static void pulled_nail(const struct ns_johansen *p,
                        struct ns_johansen_out *o) {
  const double far = 20e-6 * p->rho_2 * p->rho_2;
  const double near = 20e-6 * p->rho_1 * p->rho_1;
  const double head = 70e-6 * p->rho_1 * p->rho_1 * p->d_h * p->d_h;
  const double part = ns_min(ns_max(o->t_pen / (4 * p->d) - 2, 0), 1);
  o->f_axk = far * part;
  o->F_axRk = ns_min(o->f_axk * p->d * o->t_pen, near * p->d * p->t_1 + head);
  o->cap = 0.15;
}

/* F_ax,Rk = f_ax d l_ef k_d, f_ax,k = 0.52 d^-0.5 l_ef^-0.1 rho_k^0.8, k_d =
 * min(d/8, 1)  (8.7.2, A1); the pull of the head is not looked at */
static void pulled_screw(const struct ns_johansen *p,
                         struct ns_johansen_out *o) {
  o->l_ef = ns_min(p->l_g, o->t_pen);
  if (!(o->l_ef > 0)) return;
  o->f_axk = 0.52 * ns_power(p->d, -0.5) * ns_power(o->l_ef, -0.1) *
             ns_power(p->rho_2, 0.8);
  o->F_axRk = o->f_axk * p->d * o->l_ef * ns_min(p->d / 8, 1);
  o->cap = 1;
}

/* F_ax,Rk = 3 f_c,90,k pi (D^2 - D_i^2)/4 under the washer of a bolt (8.5.2) */
static void pulled_bolt(const struct ns_johansen *p,
                        struct ns_johansen_out *o) {
  const double A =
      3.14159265358979323846 / 4 * (p->D_w * p->D_w - p->D_i * p->D_i);
  o->F_axRk = 3 * p->f_c90k * ns_max(A, 0);
  o->cap = 0.25;
}

/* Modes a to f of one plane between two pieces of wood  (8.6) */
static void modes(const struct ns_johansen *p, double t_2,
                  struct ns_johansen_out *o) {
  const double t_1 = p->t_1, d = o->d_ef, f = o->f_h1k, B = o->beta;
  const double M = o->M_yRk, t = t_2 / t_1;
  o->J_a = f * t_1 * d;
  o->J_b = o->f_h2k * t_2 * d;
  o->J_c =
      f * t_1 * d / (1 + B) *
      (sqrt(B + 2 * B * B * (1 + t + t * t) + B * B * B * t * t) - B * (1 + t));
  o->J_d =
      1.05 * f * t_1 * d / (2 + B) *
      (sqrt(2 * B * (1 + B) + 4 * B * (2 + B) * M / (f * d * t_1 * t_1)) - B);
  o->J_e = 1.05 * f * t_2 * d / (1 + 2 * B) *
           (sqrt(2 * B * B * (1 + B) +
                 4 * B * (1 + 2 * B) * M / (f * d * t_2 * t_2)) -
            B);
  o->J_f = 1.15 * sqrt(2 * B / (1 + B)) * sqrt(2 * M * f * d);
}

/* F = J + min(F_ax,Rk/4, cap J) of c to f; the first of the least. */
static void with_rope(struct ns_johansen_out *o) {
  const double J[] = {o->J_a, o->J_b, o->J_c, o->J_d, o->J_e, o->J_f};
  double *const F[] = {&o->F_a, &o->F_b, &o->F_c, &o->F_d, &o->F_e, &o->F_f};
  o->mode = 0;
  for (int k = 0; k < 6; k++) {
    const double rope = k < 2 ? 0 : ns_min(o->F_axRk / 4, o->cap * J[k]);
    *F[k] = J[k] + rope;
    if (*F[k] < *F[o->mode]) o->mode = k;
  }
  o->F_vRk = *F[o->mode];
}

/* K_ser = rho_m^1.5 d/23, of nails that are not predrilled rho_m^1.5 d^0.8/30,
 * rho_m the mean of two pieces sqrt(rho_m1 rho_m2)  (Table 7.1, 7.1(2)) */
static double slip_modulus(const struct ns_johansen *p) {
  const double rho = sqrt(p->rho_m1 * p->rho_m2), r = rho * sqrt(rho);
  const bool driven = p->kind == NS_EN_NAIL && !p->predrilled;
  return driven ? r * ns_power(p->d, 0.8) / 30 : r * p->d / 23;
}

/* Whether the inputs are within the ranges that the formulas were made for. */
static bool sensible(const struct ns_johansen *p) {
  const bool bored = p->kind == NS_EN_BOLT || p->kind == NS_EN_DOWEL;
  const bool wood = p->rho_1 >= 100 && p->rho_1 <= 1200 && p->rho_2 >= 100 &&
                    p->rho_2 <= 1200 && p->rho_m1 >= p->rho_1 &&
                    p->rho_m2 >= p->rho_2;
  const bool steel = p->d > 0 && p->d <= 40 && p->f_u > 0 && p->f_u < 3000;
  const bool shape = p->t_1 > 0 && (bored ? p->t_2 > 0 : p->l > p->t_1);
  const bool screw = p->kind != NS_EN_SCREW || (p->d_1 > 0 && p->d_1 <= p->d);
  return wood && steel && shape && screw && p->D_w >= 0 && p->D_i >= 0 &&
         p->d_h >= 0 && p->l_g >= 0;
}

/* F_v,Rk of a fastener in single shear and its modes  (8.2.2). */
bool ns_johansen_of(const struct ns_johansen *p, struct ns_johansen_out *o) {
  if (!sensible(p)) return false;
  const bool bored = p->kind == NS_EN_BOLT || p->kind == NS_EN_DOWEL;
  memset(o, 0, sizeof *o);
  o->t_pen = bored ? p->t_2 : p->l - p->t_1;
  /* a screw by 1.1 times its root, as the thread crosses the plane (8.7.1) */
  o->d_ef = p->kind == NS_EN_SCREW ? ns_min(1.1 * p->d_1, p->d) : p->d;
  o->M_yRk = 0.3 * p->f_u * ns_power(o->d_ef, 2.6); /* 8.14, 8.30 */
  o->f_h1k = embedment(p, o->d_ef, p->rho_1, p->alpha_1);
  o->f_h2k = embedment(p, o->d_ef, p->rho_2, p->alpha_2);
  o->beta = o->f_h2k / o->f_h1k;
  if (p->kind == NS_EN_NAIL) pulled_nail(p, o);
  if (p->kind == NS_EN_SCREW) pulled_screw(p, o);
  if (p->kind == NS_EN_BOLT) pulled_bolt(p, o);
  o->too_short = (p->kind == NS_EN_NAIL && o->t_pen < 8 * p->d) ||
                 (p->kind == NS_EN_SCREW && o->t_pen < 6 * p->d);
  modes(p, o->t_pen, o);
  with_rope(o);
  o->K_ser = slip_modulus(p);
  return isfinite(o->F_vRk) && o->F_vRk > 0;
}
