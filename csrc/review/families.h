/* SPDX-License-Identifier: MIT
 * families.h - the review of each family of formulas. Private to the room. */
#ifndef NETSECTION_FAMILIES_H
#define NETSECTION_FAMILIES_H

#include "review/review.h"

/* What ns_review and ns_rate are. */
typedef void ns_reviewer(const struct ns_shape *shape,
                         const struct ns_rules *rules,
                         const struct ns_standard *standard,
                         const struct ns_block *block, struct ns_work *work,
                         struct ns_result *result);

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

/* The review of joists with roof live load or snow (combine.c), by the review
 * of their standard's family. */
void ns_combine(const struct ns_shape *shape, const struct ns_rules *rules,
                const struct ns_standard *standard,
                const struct ns_block *block, ns_reviewer *review, bool records,
                struct ns_work *work, struct ns_result *result);

#endif
