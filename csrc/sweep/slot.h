/* SPDX-License-Identifier: MIT
 * slot.h - what the checks of a state are about, and the numbers that are kept
 * of them when joists are reviewed by the thousand. */
#ifndef NETSECTION_SLOT_H
#define NETSECTION_SLOT_H

#include "joist/result.h"

/* A check is one of many joists' by what it is about. */
struct ns_slot {
  enum ns_mode mode;
  enum ns_member member;
  int cut, support, nth; /* nth: among those alike in its state */
};

/* 'on' and whether it decides are 1 or 0; the ratio is NaN where there is none.
 */
enum ns_slot_row {
  NS_SLOT_ON,
  NS_SLOT_DECIDES,
  NS_SLOT_RATIO,
  NS_SLOT_DEMAND,
  NS_SLOT_CAPACITY,
  NS_SLOT_AT,
  NS_SLOT_ROWS
};

/* What each check of a state is about. */
void ns_slots_of(const struct ns_result *result, const struct ns_state *state,
                 struct ns_slot *out);
bool ns_slots_alike(const struct ns_slot *a, const struct ns_slot *b);
/* Sixteen numbers of a check; without one, of joists that do not have it. */
void ns_slot_numbers(const struct ns_check *check, enum ns_slot_row row,
                     double *to);

#endif
