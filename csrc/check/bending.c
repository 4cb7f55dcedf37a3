/* SPDX-License-Identifier: MIT
 * bending.c - bending of the whole section, at the largest moment of a sign. */
#include "check/check.h"

/* The numbers behind the check: M, S = b d^2/6, f_b = M/S, F_b and its
 * factors, and of M < 0 the free length that C_L rests on. */
NS_INLINE void note_bending(const struct ns_work *w, struct ns_check *k,
                            int sign, const double *plain) {
  ns_lane second;
  ns_fill(second, sign);
  ns_record_factors(k, &w->Fb[0][0], 2, w->standard->combos, second);
  LANES(i) {
    const double S = w->width[i] * w->depth[i] * w->depth[i] / 6;
    k->rec[NS_R_M][i] = k->demand[i];
    k->rec[NS_R_S][i] = S;
    k->rec[NS_R_b][i] = w->width[i];
    k->rec[NS_R_d][i] = w->depth[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fb][i];
    k->rec[NS_R_f_b][i] = k->demand[i] / S;
  }
  ns_record_hogging(w, &w->hog, second, plain, k);
}

/* M < 0: the pattern that uses up the most by its own free edge, and not less
 * than the most of any placing of live load at CL = 1. */
NS_INLINE void offer_hogging(const struct ns_work *w, struct ns_check *k,
                             double *restrict plain) {
  const double *restrict width = w->width, *restrict depth = w->depth;
  for (int c = 0; c < w->standard->combos; c++) {
    const double *restrict M = w->worst_M[c][1], *restrict star = w->star[c];
    const double *restrict at = w->worst_at[c][1];
    const double *restrict M_p = w->hog.M[c], *restrict CL = w->hog.CL[c];
    const double *restrict at_p = w->hog.at[c];
    LANES(i) {
      const double S = width[i] * depth[i] * depth[i] / 6;
      const bool p =
          ns_offer_lane(k, i, M_p[i] > 0, M_p[i],
                        ns_bending_strength(star[i] * CL[i], S), at_p[i], c, 2);
      const bool all = ns_offer_lane(
          k, i, M[i] > 0, M[i], ns_bending_strength(star[i], S), at[i], c, 2);
      plain[i] = all ? 1 : p ? 0 : plain[i];
    }
  }
}

/* f_b = M/S <= F_b', as M <= F_b' S, S = b d^2/6 (in3), for the worst moment of
 * a sign (lb-in) in each combination. Branch 1 M > 0, 2 M < 0. */
NS_INLINE void gross_bending(struct ns_work *w, enum ns_mode mode, int sign) {
  struct ns_check *k = ns_add(w->out, mode, -1, -1);
  const double *restrict width = w->width, *restrict depth = w->depth;
  ns_lane plain = {0};
  if (sign) offer_hogging(w, k, plain);
  for (int c = 0; c < w->standard->combos && !sign; c++) {
    const double *restrict M = w->worst_M[c][0];
    const double *restrict at = w->worst_at[c][0];
    const double *restrict Fb = w->Fb[c][0].value;
    LANES(i) {
      const double S = width[i] * depth[i] * depth[i] / 6;
      ns_offer_lane(k, i, true, M[i], ns_bending_strength(Fb[i], S), at[i], c,
                    1);
    }
  }
  if (w->records) note_bending(w, k, sign, plain);
}

/* The whole section, each sign of M a check of its own. */
NS_CHECK(bending) {
  const enum ns_mode mode = o->host ? NS_HOST_BENDING : NS_BENDING;
  for (int sign = 0; sign < o->signs; sign++) gross_bending(w, mode, sign);
}
