/* SPDX-License-Identifier: MIT
 * record.h - how a check is begun, offered demands, and filled. */
#ifndef NETSECTION_RECORD_H
#define NETSECTION_RECORD_H

#include "work/work.h"

/* Keeps the worst of what a check is offered; true where it is this, so far. */
NS_INLINE bool ns_offer_lane(struct ns_check *k, int i, bool on, double demand,
                             double capacity, double at, int combo,
                             int branch) {
  const bool some = capacity > 0;
  const double none = demand > 0 ? NS_NO_CAPACITY : 0;
  const double q = some ? demand / (some ? capacity : 1) : none;
  const double ratio = ns_min(q, NS_NO_CAPACITY);
  const bool take = on & ((k->on[i] == 0) | (ratio > k->ratio[i]));
  k->on[i] = take ? 1 : k->on[i];
  k->demand[i] = take ? demand : k->demand[i];
  k->capacity[i] = take ? capacity : k->capacity[i];
  k->ratio[i] = take ? ratio : k->ratio[i];
  k->at[i] = take ? at : k->at[i];
  k->combo[i] = take ? combo : k->combo[i];
  k->branch[i] = take ? branch : k->branch[i];
  return take;
}

/* A check of a mode at a cut or a support (-1: at neither), with nothing
 * offered yet; past the end a place that nobody reads. */
struct ns_check *ns_add(struct ns_result *r, enum ns_mode mode, int cut,
                        int support);
/* Of a result in which a check found no room no lane is as it should be. */
void ns_refuse_full(struct ns_result *r);
/* The first check of a mode in a state that is being worked or was; the
 * state's first check where there is none. */
const struct ns_check *ns_first_of(const struct ns_result *r,
                                   const struct ns_state *state,
                                   enum ns_mode mode);
/* A demand against a capacity in the lanes that are on; the worst is kept. */
void ns_offer(struct ns_check *k, const double *on, const double *demand,
              const double *capacity, const double *at, int combo, int branch);
/* Factors of the governing combination, its set 'stride' apart in memory; of
 * M < 0 the set after it, where the row 'second' is not zero. */
void ns_record_factors(struct ns_check *k, const struct ns_factors *per_combo,
                       int stride, int combos, const double *second);
/* Of a check in the lanes where M < 0 governs: CL, F_a, l_u, l_e, pattern of
 * 'h'; 'plain' where M is that of any placing of live load, at CL = 1. */
void ns_record_hogging(const struct ns_work *w, const struct ns_hog *h,
                       const double *on, const double *plain,
                       struct ns_check *k);
/* Ratio and governing check of a state, from its checks. */
void ns_find_governing(const struct ns_result *r, struct ns_state *state);

#endif
