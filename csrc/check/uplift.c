/* SPDX-License-Identifier: MIT
 * uplift.c - what must hold a support down. */
#include "check/check.h"

/* -R of the worst pattern of live load (lb), where the support lifts: reported,
 * not a ratio, since nothing here says what holds it down. */
NS_CHECK(uplift) {
  const int j = o->support;
  const struct ns_state *state = o->state;
  if (!o->hogs) return; /* simple spans press on both bearings */
  struct ns_check *k = ns_add(w->out, NS_UPLIFT, -1, j);
  LANES(i) {
    const double R = state->reaction[j][1][i];
    k->on[i] = R < -1e-6 ? 1 : 0;
    k->demand[i] = k->on[i] != 0 ? -R : 0;
    k->at[i] = o->s->support[j][i];
    k->combo[i] = w->least_in[j][i];
    k->branch[i] = 1;
  }
  if (w->records) ns_copy(k->rec[NS_R_R], k->demand);
}
