/* SPDX-License-Identifier: MIT
 * families.h - the review of each family of formulas. Private to the room. */
#ifndef NETSECTION_FAMILIES_H
#define NETSECTION_FAMILIES_H

#include "review/review.h"

#define NS_REVIEW_OF(family)                                                   \
  void ns_##family##_review(                                                   \
      const struct ns_shape *shape, const struct ns_rules *rules,              \
      const struct ns_standard *standard, const struct ns_block *block,        \
      struct ns_work *work, struct ns_result *result);                         \
  void ns_##family##_rate(                                                     \
      const struct ns_shape *shape, const struct ns_rules *rules,              \
      const struct ns_standard *standard, const struct ns_block *block,        \
      struct ns_work *work, struct ns_result *result);                         \
  void ns_##family##_check_block(                                              \
      const struct ns_shape *shape, const struct ns_standard *standard,        \
      const struct ns_block *block, struct ns_work *work,                      \
      struct ns_result *result);
NS_REVIEW_OF(nds)
NS_REVIEW_OF(ec5)
NS_REVIEW_OF(csa)

#endif
