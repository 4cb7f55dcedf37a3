/* SPDX-License-Identifier: MIT
 * steel.c - allowable tension of a steel strap or plate, and the shear of the
 * fastener's own shank.
 *
 * Hot-rolled plate by AISC 360, sheet by AISI S100 with the safety factors of
 * joints made with screws. Wood's load duration does not apply to any of it.
 * A joint in sheet made with bolts or lags is held to the factors of screws,
 * which are the harder ones. */
#include <math.h>
#include <string.h>

#include "nds/fasteners.h"

#define OMEGA_YIELD 1.67   /* AISC 360 D2(a), AISI S100 D2 */
#define OMEGA_RUPTURE 2.00 /* AISC 360 D2(b), J3.10, J4.3 */
#define OMEGA_SCREW 3.00   /* AISI S100 J4 and Table J6-1 (memory) */

static bool above(double v, double most) { return v > 0 && v <= most; }

static double least(double a, double b) { return b < a ? b : a; }

static double none_below_0(double v) { return v > 0 ? v : 0; }

/* Whether a strap's numbers are within their ranges. */
static bool strap_fits(const struct ns_strap *s) {
  return above(s->F_y, 1e6) && above(s->F_u, 1e6) && above(s->w, 100) &&
         above(s->t, 10) && above(s->D, 4) && s->D_h >= s->D && s->D_h <= 5 &&
         s->rows >= 1 && s->rows <= 100 && s->n >= 1 && s->n <= 1000 &&
         (s->n < 2 || above(s->s, 1000)) && (s->rows < 2 || above(s->g, 100)) &&
         above(s->e, 1000);
}

/* Widths and areas: gross, net, and along the lines a block leaves by. */
static void areas(const struct ns_strap *s, struct ns_steel *o) {
  const double run = s->e + (s->n - 1) * s->s;
  o->d_n = s->sheet ? s->D_h : s->D_h + 1.0 / 16; /* AISC B4.3b (memory) */
  o->A_g = s->w * s->t;
  o->A_n = none_below_0((s->w - s->rows * o->d_n) * s->t);
  /* A joint plate counts at most 0.85 of its gross area (J4.1). */
  o->A_e = s->sheet ? o->A_n : least(o->A_n, 0.85 * o->A_g);
  o->A_gv = 2 * run * s->t;
  o->A_nv = none_below_0(2 * (run - (s->n - 0.5) * o->d_n) * s->t);
  o->A_nt = none_below_0((s->rows - 1) * (s->g - o->d_n) * s->t);
}

/* Clear distance to the strap's end, and between holes. */
static void clear_distances(const struct ns_strap *s, struct ns_steel *o) {
  o->l_e = none_below_0(s->e - s->D_h / 2);
  o->l_i = s->n < 2 ? 0 : none_below_0(s->s - s->D_h);
}

/* Sum over the fasteners: end ones, and those behind them. */
static double all_fasteners(const struct ns_strap *s, double end,
                            double inner) {
  return s->rows * (end + (s->n - 1) * inner);
}

/* Rupture and bearing of a plate  (AISC 360 J3, J4). */
static void plate(const struct ns_strap *s, struct ns_steel *o) {
  const double crush = 2.4 * s->D * s->t * s->F_u;
  o->T_u = s->F_u * o->A_e / OMEGA_RUPTURE;
  o->B_e = least(1.2 * o->l_e * s->t * s->F_u, crush);
  o->B_i = least(1.2 * o->l_i * s->t * s->F_u, crush);
  o->T_b = all_fasteners(s, o->B_e, o->B_i) / OMEGA_RUPTURE;
  o->T_bs = (least(0.6 * s->F_u * o->A_nv, 0.6 * s->F_y * o->A_gv) +
             s->F_u * o->A_nt) /
            OMEGA_RUPTURE;
}

/* Rupture and bearing of sheet steel  (AISI S100 J4). */
static void sheet(const struct ns_strap *s, struct ns_steel *o) {
  o->T_u = s->F_u * o->A_n / OMEGA_SCREW;
  o->B_e = o->B_i = 2.7 * s->t * s->D * s->F_u; /* J4.3.1 */
  o->T_b = all_fasteners(s, o->B_e, o->B_i) / OMEGA_SCREW;
  o->A_te = 2 * s->t * o->l_e; /* J6.1 (memory) */
  o->A_ti = 2 * s->t * o->l_i;
  o->T_t = 0.6 * s->F_u * all_fasteners(s, o->A_te, o->A_ti) / OMEGA_SCREW;
  o->T_bs = (least(0.6 * s->F_u * o->A_nv, 0.6 * s->F_y * o->A_gv) +
             s->F_u * o->A_nt) /
            OMEGA_SCREW;
}

/* What a strap carries by each of its limit states; lb. */
bool ns_steel_of(const struct ns_strap *s, struct ns_steel *o) {
  if (!strap_fits(s)) return false;
  memset(o, 0, sizeof *o);
  areas(s, o);
  clear_distances(s, o);
  o->T_y = s->F_y * o->A_g / OMEGA_YIELD;
  if (s->sheet)
    sheet(s, o);
  else
    plate(s, o);
  const double T[] = {o->T_y, o->T_u, o->T_b, o->T_t, o->T_bs};
  o->T = T[0];
  for (int k = 1; k < 5; k++) {
    const bool there = k != NS_STRAP_TEAR_OUT || s->sheet;
    if (there && T[k] < o->T) o->T = T[k], o->governs = (enum ns_strap_limit)k;
  }
  return true;
}

/* Tilting of the screw in the sheet away from the head, by the ratio of the
 * thicknesses (AISI S100 J4.3.1). */
static double tilting(const struct ns_sheet_screw *s, struct ns_sheet *o) {
  const double ratio = s->t_2 / s->t_1;
  o->P_t = 4.2 * sqrt(s->t_2 * s->t_2 * s->t_2 * s->D) * s->F_u2;
  o->P_c = least(o->B_1, o->B_2);
  o->P_s = least(o->P_t, o->P_c);
  if (ratio <= 1) return o->P_s;
  if (ratio >= 2.5) return o->P_c;
  return o->P_s + (o->P_c - o->P_s) * (ratio - 1) / 1.5;
}

/* A screw that joins sheet steel: shear and pull-over; lb. */
bool ns_sheet_screw_of(const struct ns_sheet_screw *s, struct ns_sheet *o) {
  const bool fits = above(s->D, 4) && above(s->t_1, 10) &&
                    above(s->F_u1, 1e6) && s->d_w >= 0 && s->d_w <= 4 &&
                    s->t_2 >= 0 && s->t_2 <= 10 &&
                    (s->t_2 == 0 || above(s->F_u2, 1e6));
  if (!fits) return false;
  memset(o, 0, sizeof *o);
  o->B_1 = 2.7 * s->t_1 * s->D * s->F_u1;
  o->B_2 = 2.7 * s->t_2 * s->D * s->F_u2;
  o->P_ns = s->t_2 == 0 ? o->B_1 : tilting(s, o);
  o->P_as = o->P_ns / OMEGA_SCREW;
  o->P_nov = 1.5 * s->t_1 * s->d_w * s->F_u1; /* J4.4.2 */
  o->P_aov = o->P_nov / OMEGA_SCREW;
  o->P_not = 0.85 * s->t_2 * s->D * s->F_u2; /* J4.4.1 */
  o->P_aot = o->P_not / OMEGA_SCREW;
  return true;
}

/* Lateral-torsional buckling of a rectangular bar bent about its strong axis,
 * held at l_b apart (AISC 360 F11, memory), as a stress on S, at most F_y:
 *   l_b d/t^2 <= 0.08 E/F_y           F_y
 *   up to 1.9 E/F_y                   C_m (1.52 - 0.274 l_b d/t^2 F_y/E) F_y
 *   beyond                            1.9 E C_m/(l_b d/t^2) */
static double lateral_buckling(double F_y, double E, double t, double d,
                               double l_b, double C_m) {
  const double slender = l_b * d / (t * t);
  if (slender <= 0.08 * E / F_y) return F_y;
  const double F = slender <= 1.9 * E / F_y
                       ? C_m * (1.52 - 0.274 * slender * F_y / E) * F_y
                       : 1.9 * E * C_m / slender;
  return least(F, F_y);
}

/* A free edge in compression, held to the limits of a tee's stem in bending
 * (AISC 360 F9.4, memory; its use for a bare plate is ours):
 *   d/t <= 0.84 sqrt(E/F_y)   F_y
 *   up to 1.52 sqrt(E/F_y)    (1.43 - 0.515 d/t sqrt(F_y/E)) F_y
 *   beyond                    1.52 E/(d/t)^2 */
static double local_buckling(double F_y, double E, double t, double d) {
  const double slender = d / t, root = sqrt(E / F_y);
  if (slender <= 0.84 * root) return F_y;
  const double F = slender <= 1.52 * root
                       ? (1.43 - 0.515 * slender / root) * F_y
                       : 1.52 * E / (slender * slender);
  return least(F, F_y);
}

/* Stress at which a plate on its edge yields or buckles; psi. */
double ns_plate_on_edge(double F_y, double E, double t, double d, double l_b,
                        double C_m) {
  if (!(t > 0 && d > 0 && F_y > 0 && E > 0)) return 0;
  return least(lateral_buckling(F_y, E, t, d, l_b, C_m),
               local_buckling(F_y, E, t, d));
}

/* Shear of a fastener's own steel; lb. */
double ns_shank_shear(double F_nv, double D_e) {
  const double quarter_pi = 0.78539816339744830962;
  if (!above(F_nv, 1e6) || !above(D_e, 4)) return 0;
  return F_nv * quarter_pi * D_e * D_e / OMEGA_RUPTURE;
}
