/* SPDX-License-Identifier: MIT
 * check.h - demand against capacity, check by check. */
#ifndef NETSECTION_CHECK_H
#define NETSECTION_CHECK_H

#include "check/family.h"
#include "work/work.h"

/* The joist in its fixed state: its own forces, those of both together, the
 * deflection of the floor, and its own share of the reactions (null: all). */
struct ns_host {
  const struct ns_beam *s;
  const struct ns_table *t;
  struct ns_beam *whole;
  const struct ns_table *whole_t;
  ns_lane *part; /* its part of each segment of the whole, or null */
  const struct ns_beam *sag;
  const double *share;
  const struct ns_beam *locked; /* what is in it whole; read with a share */
};

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

/* For the record of a shear check: the strength without what cracks take of
 * the width, and the stress on what is left of it. */
NS_INLINE void ns_record_cracks(struct ns_check *k) {
#ifdef NS_SHEAR_CRACKS
  LANES(i) {
    const double f_vd = k->rec[NS_R_F_a][i] / ns_max(k->rec[NS_R_CM][i], 1e-9);
    k->rec[NS_R_f_vd][i] = f_vd;
    k->rec[NS_R_tau_d][i] = k->ratio[i] * f_vd;
  }
#else
  (void)k;
#endif
}

/* stability.c */
void ns_bending_values(struct ns_work *w, const struct ns_beam *s,
                       ns_lane *part, bool cut, const double *Cr);
/* hogging.c: the forces are those of s, the live ones in w->parts times
 * 'part' (null: all); with 'cut', at each cut too. */
void ns_find_hogging(struct ns_work *w, const struct ns_beam *s, ns_lane *part,
                     bool cut);
void ns_no_hogging(struct ns_hog *o, int combos);
/* record.c */
struct ns_check *ns_add(struct ns_result *r, enum ns_mode mode, int cut,
                        int support);
void ns_offer(struct ns_check *k, const double *on, const double *demand,
              const double *capacity, const double *at, int combo, int branch);
void ns_record_factors(struct ns_check *k, const struct ns_factors *per_combo,
                       int stride, int combos, const double *second);
/* Of a check in the lanes where M < 0 governs: CL, F_a, l_u, l_e, pattern of
 * 'h'; 'plain' where M is that of any placing of live load, at CL = 1. */
void ns_record_hogging(const struct ns_work *w, const struct ns_hog *h,
                       const double *on, const double *plain,
                       struct ns_check *k);
void ns_find_governing(const struct ns_result *r, struct ns_state *state);
/* demand.c */
void ns_find_forces(struct ns_work *w);
void ns_cut_demand(struct ns_work *w, const struct ns_beam *s,
                   const struct ns_table *t, int c, struct ns_demand *q);
/* sag.c */
void ns_deflection(struct ns_work *w, const struct ns_beam *s, bool total,
                   struct ns_state *state);
/* cut_check.c, chords.c */
void ns_check_cut(struct ns_work *w, int c);
void ns_check_strapped(struct ns_work *w, int c, bool locked);
void ns_check_chords(struct ns_work *w, int c, const struct ns_demand *q,
                     int first);
/* check.c: states */
void ns_check_state(struct ns_work *w, bool cut, const double *Cr,
                    struct ns_state *state);
void ns_check_host(struct ns_work *w, const struct ns_host *h, const double *Cr,
                   struct ns_state *state);
void ns_close_state(struct ns_work *w, bool hogs, struct ns_state *state);

#endif
