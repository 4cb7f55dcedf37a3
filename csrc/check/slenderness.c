/* SPDX-License-Identifier: MIT
 * slenderness.c - how slender a joist may be for what holds it upright. */
#include "check/check.h"

/* d/b in nominal sizes against what its bracing allows; it informs and decides
 * nothing. Branch 1 a deck, 2 blocking, 3 held at the ends. */
NS_CHECK(slenderness) {
  (void)o;
  struct ns_check *k = ns_add(w->out, NS_STABILITY, -1, -1);
  const double *restrict depth = w->depth, *restrict b = w->in.joist[NS_J_b];
  const double *restrict plies = w->in.joist[NS_J_plies];
  const double *restrict sheathed = w->in.joist[NS_J_sheathed];
  const bool blocked = w->shape->blocking > 0;
  const double free_branch = blocked ? 2 : 3;
  LANES(i) {
    const bool deck = sheathed[i] != 0;
    const double ratio = ns_nominal(depth[i]) / (ns_nominal(b[i]) * plies[i]);
    const double limit = ns_slenderness_limit(deck, blocked);
    k->on[i] = limit > 0 ? 1 : 0; /* 0: the family has no such rule */
    k->demand[i] = ratio;
    k->capacity[i] = limit;
    k->ratio[i] = limit > 0 ? ratio / limit : 0;
    k->branch[i] = deck ? 1 : free_branch;
  }
}
