/* SPDX-License-Identifier: MIT
 * repair.h - a joist with what works beside or under it. */
#ifndef NETSECTION_REPAIR_H
#define NETSECTION_REPAIR_H

#include "work/work.h"

/* One member of a repaired joist for its checks: where its rows are, and how
 * strong it is. */
struct ns_part {
  const struct ns_beam *s;      /* its places */
  const ns_lane *M, *VL, *VR;   /* dead load, or what is locked in */
  const struct ns_table *table; /* live load, enveloped */
};

/* fixed.c */
void ns_fix(struct ns_work *w, const double *Cr);
/* fix_check.c */
void ns_check_new(struct ns_work *w, const struct ns_part *o, const double *Cr);
void ns_check_between(struct ns_work *w, const struct ns_part *o);
void ns_check_stations(struct ns_work *w, const struct ns_part *host,
                       const struct ns_part *new_);
void ns_check_strap(struct ns_work *w, const struct ns_demand *q,
                    const struct ns_demand *locked);

#endif
