/* SPDX-License-Identifier: MIT
 * cuts.h - from the description of cuts to beams and net sections. */
#ifndef NETSECTION_CUTS_H
#define NETSECTION_CUTS_H

#include "work/work.h"

/* geometry.c, build.c */
void ns_place_cuts(struct ns_work *w);
void ns_thin(const struct ns_work *w, const double *x1, const double *x2,
             struct ns_section *o, double *floor);
void ns_build_beams(struct ns_work *w, bool stays);
void ns_refit(struct ns_work *w, struct ns_beam *m);
/* demand.c: M and V over a cut, of one beam and of all cuts in the joist. */
void ns_cut_demand(struct ns_work *w, const struct ns_beam *s,
                   const struct ns_table *t, int c, struct ns_demand *q);
void ns_find_forces(struct ns_work *w);
/* seat.c */
void ns_find_seats(struct ns_work *w);
bool ns_hollow_end(const struct ns_work *w, int c);

#endif
