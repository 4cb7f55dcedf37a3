/* SPDX-License-Identifier: MIT
 * post.c - a wood post as a column, solid or of plies, and the footing under
 * it, from the numbers in the record of the check.
 *
 * A post is held to the larger of its two slenderness ratios (NDS 3.7.1.3).
 * The soil value is the user's; the footing's own weight comes off it. */
#include <math.h>

#include "nds/formulas.h"

/* NDS 3.7.1.4: a column more slender than this is not permitted. */
#define SLENDEREST 50

/* F_cE = 0.822 E_min' / (l_e/d)^2 (NDS 3.7.1.5); psi. */
static double critical(double E_m, double slender) {
  return 0.822 * E_m / (slender * slender);
}

/* P' = F_c* CP A, CP at the larger of l_e1/d_1, l_e2/d_2 (NDS 3.7.1.1, .3,
 * .5); lb. */
static double column(double (*r)[NS_LANES], int i) {
  const double one = r[NS_R_l_e1][i] / r[NS_R_d_1][i];
  const double two = r[NS_R_l_e2][i] / r[NS_R_d_2][i];
  r[NS_R_s_l][i] = ns_max(one, two);
  r[NS_R_F_cE][i] = critical(r[NS_R_E_m][i], r[NS_R_s_l][i]);
  r[NS_R_F_cE1][i] = critical(r[NS_R_E_m][i], one);
  r[NS_R_r_1][i] = r[NS_R_F_cE][i] / r[NS_R_F_cs][i];
  r[NS_R_CP][i] = ns_column_factor(r[NS_R_F_cE][i], r[NS_R_F_cs][i]);
  r[NS_R_F_a][i] = r[NS_R_F_cs][i] * r[NS_R_CP][i];
  r[NS_R_A][i] = r[NS_R_d_1][i] * r[NS_R_d_2][i];
  r[NS_R_f_c][i] = r[NS_R_P][i] / r[NS_R_A][i];
  return r[NS_R_F_a][i] * r[NS_R_A][i];
}

/* P' = F_c* CP A of plies laid on each other along d_2: CP the smaller of the
 * two sides', along d_2 times K_f, 0.6 nailed or 0.75 bolted, for the slip
 * between the plies (NDS 15.3.2.4, memory; the factors read); lb. */
static double built_up(double (*r)[NS_LANES], int i) {
  const double star = r[NS_R_F_cs][i];
  const double one = r[NS_R_l_e1][i] / r[NS_R_d_1][i];
  const double two = r[NS_R_l_e2][i] / r[NS_R_d_2][i];
  r[NS_R_s_l][i] = ns_max(one, two);
  r[NS_R_F_cE1][i] = critical(r[NS_R_E_m][i], one);
  r[NS_R_F_cE2][i] = critical(r[NS_R_E_m][i], two);
  r[NS_R_r_1][i] = r[NS_R_F_cE1][i] / star;
  r[NS_R_r_2][i] = r[NS_R_F_cE2][i] / star;
  r[NS_R_CP_1][i] = ns_column_factor(r[NS_R_F_cE1][i], star);
  r[NS_R_CP_2][i] = r[NS_R_K_f][i] * ns_column_factor(r[NS_R_F_cE2][i], star);
  r[NS_R_CP][i] = ns_min(r[NS_R_CP_1][i], r[NS_R_CP_2][i]);
  r[NS_R_F_a][i] = star * r[NS_R_CP][i];
  r[NS_R_A][i] = r[NS_R_d_1][i] * r[NS_R_d_2][i];
  return r[NS_R_F_a][i] * r[NS_R_A][i];
}

/* (f_c/F_c')^2 + f_c (6 e_1/d_1) (1 + 0.234 f_c/F_cE1) / (F_b' (1 -
 * f_c/F_cE1)) <= 1 (NDS 15.4.1, memory). A load that buckles the post has no
 * such sum. */
static double eccentric(double (*r)[NS_LANES], int i) {
  const double f_c = r[NS_R_f_c][i], p = f_c / r[NS_R_F_a][i];
  const double u = f_c / r[NS_R_F_cE1][i], left = 1 - u;
  const double bent = f_c * 6 * r[NS_R_e_1][i] / r[NS_R_d_1][i];
  const double sum =
      p * p + bent * (1 + 0.234 * u) / (r[NS_R_F_a2][i] * ns_max(left, 1e-9));
  return left > 1e-3 ? sum : NS_NO_CAPACITY;
}

/* P' = q_n (B/12)^2, q_n = q_s - gamma t/12 (statics); B and t in in, q in
 * psf, gamma in pcf; lb. */
static double soil(double (*r)[NS_LANES], int i) {
  const double side = r[NS_R_B][i] / 12;
  r[NS_R_q_n][i] =
      ns_max(r[NS_R_q_s][i] - r[NS_R_gamma][i] * r[NS_R_t][i] / 12, 0);
  return r[NS_R_q_n][i] * side * side;
}

/* Of the modes of a post: 1 a column, 2 one whose load stands e_1 off its
 * middle, 3 one too slender, 4 one of plies; the soil under a footing; how far
 * the footing reaches past the post, at most its thickness (IRC R403.1.1). */
void ns_post(struct ns_check *k) {
  double(*r)[NS_LANES] = k->rec;
  LANES(i) {
    if (k->mode == NS_COLUMN) {
      const bool plies = r[NS_R_K_f][i] > 0;
      const bool off = r[NS_R_e_1][i] > 0 && !plies;
      const double most = plies ? built_up(r, i) : column(r, i);
      const bool slim = !(r[NS_R_s_l][i] <= SLENDEREST);
      k->branch[i] = slim ? 3 : plies ? 4 : off ? 2 : 1;
      k->demand[i] = off & !slim ? eccentric(r, i) : r[NS_R_P][i];
      k->capacity[i] = slim ? 0 : off ? 1 : most;
    } else if (k->mode == NS_SOIL) {
      k->demand[i] = r[NS_R_P][i];
      k->capacity[i] = soil(r, i);
    } else {
      r[NS_R_a_p][i] = (r[NS_R_B][i] - r[NS_R_d_1][i]) / 2;
      k->demand[i] = r[NS_R_a_p][i];
      k->capacity[i] = r[NS_R_t][i];
    }
  }
}

/* The column stability factor by itself. */
double ns_CP(double F_cE, double Fc_star) {
  return ns_column_factor(F_cE, Fc_star);
}
