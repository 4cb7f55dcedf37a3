/* SPDX-License-Identifier: MIT
 * record.c - how a check is begun, offered demands, and filled.
 *
 * A check keeps the worst of what it is offered (each combination, sign and
 * place), then notes the numbers behind it in its record, so that the steps
 * printed later are those of the case that governs. */
#include "work/record.h"

/* A check of a mode at a cut or a support (-1: at neither), with nothing
 * offered yet. Past the end there is none: it goes where nobody reads it, and
 * the result says so ('refused'). */
NS_CLONES struct ns_check *ns_add(struct ns_result *r, enum ns_mode mode,
                                  int cut, int support) {
  const bool room = r->checks < NS_MAX_CHECKS;
  struct ns_check *k = &r->check[room ? r->checks : NS_MAX_CHECKS];
  r->checks += room ? 1 : 0;
  r->refused += room ? 0 : 1;
  k->mode = mode;
  k->member = NS_HOST;
  k->cut = cut;
  k->support = support;
  ns_fill(k->on, 0);
  ns_fill(k->binding, ns_check_rows[mode].decides ? 1 : 0);
  ns_fill(k->demand, 0);
  ns_fill(k->capacity, 0);
  ns_fill(k->ratio, 0);
  ns_fill(k->at, 0);
  ns_fill(k->combo, 0);
  ns_fill(k->branch, 0);
  return k;
}

/* Where a check found no room, what is known is not all: no numbers are given.
 */
void ns_refuse_full(struct ns_result *r) {
  if (r->refused > 0)
    LANES(i)
      if (r->status[i] == NS_OK) r->status[i] = NS_TOO_MANY;
}

/* The first check of a mode in a state that is being worked or was; the
 * state's first check where there is none. */
const struct ns_check *ns_first_of(const struct ns_result *r,
                                   const struct ns_state *state,
                                   enum ns_mode mode) {
  for (int n = state->first; n < r->checks; n++)
    if (r->check[n].mode == mode) return &r->check[n];
  return &r->check[state->first];
}

/* A demand against a capacity in the lanes that are on; the worst is kept. */
NS_CLONES void ns_offer(struct ns_check *k, const double *on,
                        const double *demand, const double *capacity,
                        const double *at, int combo, int branch) {
  LANES(i)
    ns_offer_lane(k, i, on[i] != 0, demand[i], capacity[i], at[i], combo,
                  branch);
}

/* Factors of the governing combination; 'stride' apart in memory, and the
 * 'second' set (M < 0) where that row is not zero. */
NS_CLONES void ns_record_factors(struct ns_check *k, const struct ns_factors *f,
                                 int stride, int combos, const double *second) {
  for (int c = 0; c < combos; c++) {
    const struct ns_factors *p = &f[c * stride];
    const struct ns_factors *q = second ? p + 1 : p;
    LANES(i) {
      const bool here = k->combo[i] == c, two = second && second[i] != 0;
      const struct ns_factors *v = p;
      k->rec[NS_R_CD][i] = here ? v->CD[i] : k->rec[NS_R_CD][i];
      k->rec[NS_R_CM][i] = here ? v->CM[i] : k->rec[NS_R_CM][i];
      k->rec[NS_R_Ct][i] = here ? v->Ct[i] : k->rec[NS_R_Ct][i];
      k->rec[NS_R_CF][i] = here ? v->CF[i] : k->rec[NS_R_CF][i];
      k->rec[NS_R_Ci][i] = here ? v->Ci[i] : k->rec[NS_R_Ci][i];
      k->rec[NS_R_Cr][i] = here ? v->Cr[i] : k->rec[NS_R_Cr][i];
      k->rec[NS_R_K][i] = here ? v->K[i] : k->rec[NS_R_K][i];
      const double CL = two ? q->CL[i] : p->CL[i];
      const double F = two ? q->value[i] : p->value[i];
      k->rec[NS_R_CL][i] = here ? CL : k->rec[NS_R_CL][i];
      k->rec[NS_R_F_a][i] = here ? F : k->rec[NS_R_F_a][i];
    }
  }
}

/* CL and what it rests on, of the governing pattern; 'plain' where the most
 * of any placing of live load governs, at CL = 1. */
static void note_pattern(const struct ns_work *w, const struct ns_hog *h,
                         const double *plain, struct ns_check *k) {
  for (int c = 0; c < w->standard->combos; c++)
    LANES(i) {
      const bool here = (k->combo[i] == c) & (plain[i] == 0);
      k->rec[NS_R_CL][i] = here ? h->CL[c][i] : k->rec[NS_R_CL][i];
      k->rec[NS_R_F_a][i] =
          here ? w->star[c][i] * h->CL[c][i] : k->rec[NS_R_F_a][i];
      k->rec[NS_R_l_u][i] = here ? h->l_u[c][i] : k->rec[NS_R_l_u][i];
      k->rec[NS_R_l_e][i] = here ? h->l_e[c][i] : k->rec[NS_R_l_e][i];
      k->rec[NS_R_pattern][i] =
          here ? h->pattern[c][i] : k->rec[NS_R_pattern][i];
    }
}

/* The record of M < 0 in the lanes that are on: CL, F_b', l_u, l_e and pattern
 * of the governing placing, or CL = 1 where that of no pattern governs. */
void ns_record_hogging(const struct ns_work *w, const struct ns_hog *h,
                       const double *on, const double *plain,
                       struct ns_check *k) {
  ns_lane other;
  for (int c = 0; c < w->standard->combos; c++)
    LANES(i) {
      const bool mine = (k->combo[i] == c) & (on[i] != 0) & (plain[i] != 0);
      k->rec[NS_R_CL][i] = mine ? 1 : k->rec[NS_R_CL][i];
      k->rec[NS_R_F_a][i] = mine ? w->star[c][i] : k->rec[NS_R_F_a][i];
    }
  LANES(i) {
    other[i] = (on[i] == 0) | (plain[i] != 0) ? 1 : 0;
    k->rec[NS_R_l_u][i] = k->rec[NS_R_l_e][i] = 0;
    k->rec[NS_R_pattern][i] = -1;
  }
  note_pattern(w, h, other, k);
}

/* Ratio and governing check: the first of the largest, in order. What differs
 * by rounding alone is one size: an edge of plain net bending is no tie. */
NS_CLONES void ns_find_governing(const struct ns_result *r,
                                 struct ns_state *state) {
  double *restrict most = state->ratio, *restrict strength = state->strength;
  double *restrict first = state->governing, *restrict mode = state->mode;
  ns_fill(most, 0);
  ns_fill(strength, 0);
  ns_fill(first, -1);
  ns_fill(mode, NS_MODES);
  for (int n = state->first; n < state->first + state->count; n++) {
    const struct ns_check *k = &r->check[n];
    const double *restrict on = k->on, *restrict binding = k->binding;
    const double *restrict ratio = k->ratio;
    const double of = (double)k->mode;
    LANES(i) {
      const bool counts = (on[i] != 0) & (binding[i] != 0);
      const bool larger = ratio[i] > most[i] * (1 + 1e-12);
      const bool more = counts & (larger | (first[i] < 0));
      most[i] = counts & (ratio[i] > most[i]) ? ratio[i] : most[i];
      first[i] = more ? n : first[i];
      mode[i] = more ? of : mode[i];
    }
    if (!ns_check_rows[k->mode].strength) continue;
    LANES(i) {
      const bool counts = (on[i] != 0) & (binding[i] != 0);
      strength[i] = counts & (ratio[i] > strength[i]) ? ratio[i] : strength[i];
    }
  }
}
