/* SPDX-License-Identifier: MIT
 * seat_length.c - a rule of an office: no seat shorter than 1-1/2 in. */
#include "check/check.h"

/* l_b >= 1.5 in, as 1.5/l_b <= 1, of what is left of the seat. */
NS_CHECK(seat_length) {
  const int j = o->support;
  const double *restrict given = w->in.joist[NS_J_bearing + j];
  const double *restrict l_b = o->cut ? w->seat[j] : given;
  const double *restrict x = o->s->support[j];
  struct ns_check *k = ns_add(w->out, NS_SEAT_LENGTH, -1, j);
  LANES(i) ns_offer_lane(k, i, true, 1.5, l_b[i], x[i], 0, 1);
  if (w->records) ns_copy(k->rec[NS_R_l_b], l_b);
}
