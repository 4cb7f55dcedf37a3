/* SPDX-License-Identifier: MIT
 * slot.c - checks by what they are about: joists of one topology do not all
 * have the same checks, so a place in the list does not tell one. */
#include "sweep/slot.h"

#include "joist/lanes.h"

void ns_slots_of(const struct ns_result *r, const struct ns_state *s,
                 struct ns_slot *out) {
  for (int k = 0; k < s->count; k++) {
    const struct ns_check *c = &r->check[s->first + k];
    out[k] = (struct ns_slot){c->mode, c->member, c->cut, c->support, 0};
  }
  for (int k = 1; k < s->count; k++) /* checks are far apart in memory */
    for (int n = 0; n < k; n++)
      out[k].nth +=
          out[n].mode == out[k].mode && out[n].member == out[k].member &&
          out[n].cut == out[k].cut && out[n].support == out[k].support;
}

bool ns_slots_alike(const struct ns_slot *p, const struct ns_slot *q) {
  return p->mode == q->mode && p->member == q->member && p->cut == q->cut &&
         p->support == q->support && p->nth == q->nth;
}

NS_CLONES void ns_slot_numbers(const struct ns_check *k, enum ns_slot_row row,
                               double *restrict to) {
  if (!k) {
    const bool truth = row == NS_SLOT_ON || row == NS_SLOT_DECIDES;
    LANES(i) to[i] = truth ? 0 : (double)NAN;
    return;
  }
  /* no seat is no ratio, and decides */
  const double seat = k->mode == NS_BEARING ? 1 : 0;
  const double *restrict on = k->on, *restrict binding = k->binding,
                         *restrict ratio = k->ratio;
  switch (row) {
  case NS_SLOT_ON:
    LANES(i) to[i] = on[i] != 0 ? 1 : 0;
    return;
  case NS_SLOT_DECIDES:
    LANES(i) to[i] = (binding[i] != 0) | (seat != 0) ? 1 : 0;
    return;
  case NS_SLOT_RATIO:
    LANES(i)
      to[i] = ((seat != 0) & (binding[i] == 0)) | (on[i] == 0) ? (double)NAN
                                                               : ratio[i];
    return;
  case NS_SLOT_DEMAND:
    ns_copy(to, k->demand);
    return;
  case NS_SLOT_CAPACITY:
    ns_copy(to, k->capacity);
    return;
  default:
    ns_copy(to, k->at);
  }
}
