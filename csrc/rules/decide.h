/* SPDX-License-Identifier: MIT
 * decide.h - cuts against rule packs and gates, and the action. */
#ifndef NETSECTION_DECIDE_H
#define NETSECTION_DECIDE_H

#include "rules/rules.h"
#include "work/work.h"

/* rules.c */
void ns_read_rules(struct ns_work *w, const struct ns_rules *rules);
void ns_read_gate(struct ns_work *w);
void ns_decide(struct ns_work *w);

#endif
