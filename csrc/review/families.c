/* SPDX-License-Identifier: MIT
 * families.c - a review goes to the family of formulas of its standard. */
#include "review/families.h"
#include "work/work.h"

const unsigned long ns_work_size = sizeof(struct ns_work);

void ns_review(const struct ns_shape *shape, const struct ns_rules *rules,
               const struct ns_standard *standard, const struct ns_block *block,
               struct ns_work *work, struct ns_result *out) {
  switch (standard->family) {
  case NS_EC5:
    ns_ec5_review(shape, rules, standard, block, work, out);
    return;
  case NS_CSA:
    ns_csa_review(shape, rules, standard, block, work, out);
    return;
  case NS_NDS:
    break;
  }
  ns_nds_review(shape, rules, standard, block, work, out);
}

void ns_rate(const struct ns_shape *shape, const struct ns_rules *rules,
             const struct ns_standard *standard, const struct ns_block *block,
             struct ns_work *work, struct ns_result *out) {
  switch (standard->family) {
  case NS_EC5:
    ns_ec5_rate(shape, rules, standard, block, work, out);
    return;
  case NS_CSA:
    ns_csa_rate(shape, rules, standard, block, work, out);
    return;
  case NS_NDS:
    break;
  }
  ns_nds_rate(shape, rules, standard, block, work, out);
}

void ns_check_block(const struct ns_shape *shape,
                    const struct ns_standard *standard,
                    const struct ns_block *block, struct ns_work *work,
                    struct ns_result *out) {
  switch (standard->family) {
  case NS_EC5:
    ns_ec5_check_block(shape, standard, block, work, out);
    return;
  case NS_CSA:
    ns_csa_check_block(shape, standard, block, work, out);
    return;
  case NS_NDS:
    break;
  }
  ns_nds_check_block(shape, standard, block, work, out);
}
