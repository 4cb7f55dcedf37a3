/* SPDX-License-Identifier: MIT
 * check.h - demand against capacity, check by check.
 *
 * A check is a row of NS_CHECK_LIST and a file of this room, or of a folder of
 * one's own, with an evaluator of the row's name:
 *
 *     NS_CHECK(name) {...}   w, the work room; o, what it is asked of
 *
 * It begins with ns_add, offers demands and capacities by ns_offer_lane, and
 * where w->records fills the numbers behind it. */
#ifndef NETSECTION_CHECK_H
#define NETSECTION_CHECK_H

#include "check/family.h"
#include "work/record.h"
#include "work/work.h"

/* What this room exports, once for each family. */
#define ns_bending_values NS_OF_FAMILY(bending_values)
#define ns_check_cut NS_OF_FAMILY(check_cut)
#define ns_check_host NS_OF_FAMILY(check_host)
#define ns_check_state NS_OF_FAMILY(check_state)
#define ns_check_strapped NS_OF_FAMILY(check_strapped)
#define ns_close_state NS_OF_FAMILY(close_state)
#define ns_find_hogging NS_OF_FAMILY(find_hogging)
#define ns_find_opening NS_OF_FAMILY(find_opening)
#define ns_no_hogging NS_OF_FAMILY(no_hogging)

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

struct ns_opening; /* check/opening.h */

/* What a check is asked of: a state of the joist, a support or a cut of it. */
struct ns_subject {
  struct ns_state *state;     /* of a cut null */
  const struct ns_beam *s;    /* forces; of a repaired joist its own part */
  const struct ns_table *t;   /* and under live load where it hurts */
  const struct ns_beam *sag;  /* what deflects */
  const struct ns_host *host; /* the fixed state, else null */
  bool cut;                   /* the cuts count */
  bool hogs;                  /* more than one span, or an overhang */
  bool again;                 /* forces are those of the uncut state */
  int signs;                  /* of M: 1, or 2 where M < 0 may be */
  int support;                /* from 0, -1: none */
  int at;                     /* cut from 0, -1: none */
  enum ns_kind kind;          /* of the cut */
  int first;                  /* the first check of the cut */
  const struct ns_demand *q;  /* M and V at the cut */
  const struct ns_opening *opening; /* where both chords count, else null */
};

/* Works a check of a row: adds it to w->out. */
typedef void ns_evaluator(struct ns_work *w, const struct ns_subject *o);
#define NS_CHECK(name)                                                         \
  NS_CLONES void NS_OF_FAMILY(check_##name)(struct ns_work * w,                \
                                            const struct ns_subject *o)
#define X(name, word, unit, letter, about, hogs, kind, part, where, evaluate,  \
          ...)                                                                 \
  ns_evaluator NS_OF_FAMILY(check_##evaluate);
NS_CHECK_LIST(X)
#undef X

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

/* stability.c: F_b' of both signs of M in each combination. */
void ns_bending_values(struct ns_work *w, const struct ns_beam *s,
                       ns_lane *part, bool cut, const double *Cr);
/* hogging.c: the forces are those of s, the live ones in w->parts times
 * 'part' (null: all); with 'cut', at each cut too. */
void ns_find_hogging(struct ns_work *w, const struct ns_beam *s, ns_lane *part,
                     bool cut);
void ns_no_hogging(struct ns_hog *o, int combos);
/* opening.c: false where no lane has two chords. */
bool ns_find_opening(struct ns_work *w, int c, const struct ns_demand *q,
                     struct ns_opening *o);
/* state.c: all checks of a cut, those that a strap leaves of them, all of a
 * state, of the joist in a repair, and what a state says as a whole. */
void ns_check_cut(struct ns_work *w, int c);
void ns_check_strapped(struct ns_work *w, int c, bool locked);
void ns_check_state(struct ns_work *w, bool cut, const double *Cr,
                    struct ns_state *state);
void ns_check_host(struct ns_work *w, const struct ns_host *h, const double *Cr,
                   struct ns_state *state);
void ns_close_state(struct ns_work *w, bool hogs, struct ns_state *state);

#endif
