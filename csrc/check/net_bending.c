/* SPDX-License-Identifier: MIT
 * net_bending.c - bending of what a cut leaves. */
#include "check/cut_check.h"

/* The numbers behind the check: the net section, M, K_n and the stress at both
 * edges. */
NS_INLINE void note_net_bending(const struct ns_work *w, int c,
                                const double *k_n, const double *plain,
                                struct ns_check *k) {
  const struct ns_section *o = &w->section[c];
  ns_lane second;
  LANES(i) second[i] = k->branch[i] > 3 ? 1 : 0;
  ns_record_factors(k, &w->Fb[0][0], 2, w->standard->combos, second);
  note_section(k, o);
  LANES(i) {
    const double M = k->demand[i] * o->least[i] / k_n[i];
    k->rec[NS_R_M][i] = M;
    k->rec[NS_R_k_n][i] = k_n[i];
    k->rec[NS_R_f_bot][i] = o->S_b[i] > 0 ? M / o->S_b[i] : 0;
    k->rec[NS_R_f_top][i] = o->S_t[i] > 0 ? M / o->S_t[i] : 0;
    k->rec[NS_R_f_b][i] = k->demand[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fb][i];
  }
  ns_record_hogging(w, &w->hog_cut[c], second, plain, k);
}

/* M < 0 at the cut: the pattern that uses up the most by its own free edge,
 * and not less than the most of any placing of live load at CL = 1. */
NS_INLINE void offer_net_hogging(const struct ns_work *w, int c,
                                 const struct ns_demand *q, const double *k_n,
                                 int combo, struct ns_check *k,
                                 double *restrict plain) {
  const struct ns_hog *h = &w->hog_cut[c];
  const double *restrict least = w->section[c].least;
  const double *restrict M = q->M[combo][1], *restrict at = q->M_at[combo][1];
  const double *restrict M_p = h->M[combo], *restrict at_p = h->at[combo];
  const double *restrict CL = h->CL[combo], *restrict star = w->star[combo];
  LANES(i) {
    const bool on = q->leader[i] != 0;
    const double f_p = k_n[i] * edge_stress(M_p[i], least[i]);
    const double f = k_n[i] * edge_stress(M[i], least[i]);
    const bool p = ns_offer_lane(k, i, on & (M_p[i] > 0), f_p, star[i] * CL[i],
                                 at_p[i], combo, 4);
    const bool all =
        ns_offer_lane(k, i, on & (M[i] > 0), f, star[i], at[i], combo, 4);
    plain[i] = all ? 1 : p ? 0 : plain[i];
  }
}

/* f_b = K_n M/S_min <= F_b' (psi), S_min the least modulus of any opening
 * within the cut, K_n what is set on a notch in the tension face. Branch 1
 * bottom edge, 2 top edge, 3 least of the openings within; 4 to 6 with M < 0.
 */
NS_INLINE void net_bending(struct ns_work *w, int c,
                           const struct ns_demand *q) {
  struct ns_check *k = ns_add(w->out, NS_NET_BENDING, c, -1);
  const struct ns_section *o = &w->section[c];
  const double *restrict raiser = w->in.joist[NS_J_notch_raiser];
  const double *restrict least = o->least, *restrict leader = q->leader;
  ns_lane k_n, plain = {0};
  LANES(i) k_n[i] = q->tension_notch[i] != 0 ? raiser[i] : 1;
  for (int combo = 0; combo < w->standard->combos; combo++) {
    const double *restrict M = q->M[combo][0], *restrict at = q->M_at[combo][0];
    const double *restrict Fb = w->Fb[combo][0].value;
    LANES(i) {
      const double f = k_n[i] * edge_stress(M[i], least[i]);
      ns_offer_lane(k, i, leader[i] != 0, f, Fb[i], at[i], combo, 1);
    }
    if (q->hogs[combo]) offer_net_hogging(w, c, q, k_n, combo, k, plain);
  }
  if (w->records) note_net_bending(w, c, k_n, plain, k);
  LANES(i) {
    const double S = ns_min(o->S_b[i], o->S_t[i]);
    const bool inner = least[i] < S * (1 - 1e-12);
    const bool top = o->S_t[i] < o->S_b[i] * (1 - 1e-9);
    k->branch[i] += inner ? 2 : top ? 1 : 0;
  }
  nothing_left(k, q, q->leader, 7);
}

NS_CHECK(net_bending) { net_bending(w, o->at, o->q); }
