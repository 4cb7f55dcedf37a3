/* SPDX-License-Identifier: MIT
 * families.c - a review goes to the family of formulas of its standard. */
#include "review/families.h"

#include <string.h>

#include "csa/csa.h"
#include "ec5/ec5.h"
#include "work/work.h"

const size_t ns_work_size = sizeof(struct ns_work);

/* The review of a standard's family, with records or without. */
static ns_reviewer *reviewer_of(const struct ns_standard *standard,
                                bool records) {
  switch (standard->family) {
  case NS_EC5:
    return records ? ns_ec5_review : ns_ec5_rate;
  case NS_CSA:
    return records ? ns_csa_review : ns_csa_rate;
  case NS_NDS:
    break;
  }
  return records ? ns_nds_review : ns_nds_rate;
}

/* What has a count or a kind that there is not is refused before anything is
 * read by it. */
static bool fits(const struct ns_shape *shape, const struct ns_rules *rules,
                 const struct ns_standard *standard, struct ns_result *out) {
  const bool standard_fits =
      (int)standard->family >= NS_NDS && (int)standard->family <= NS_CSA &&
      standard->combos >= 1 && standard->combos <= NS_MAX_COMBOS &&
      standard->all >= 0 && standard->all < standard->combos &&
      standard->rows >= 0 && standard->rows <= NS_MAX_ROWS;
  const bool rules_fit =
      !rules ||
      (rules->count >= 0 && rules->count <= NS_MAX_RULES && rules->packs >= 0 &&
       rules->packs <= NS_MAX_PACKS && ns_rules_fit(rules));
  if (standard_fits && rules_fit && ns_shape_fits(shape)) return true;
  memset(out, 0, sizeof *out);
  ns_fill(out->status, NS_TOO_MANY);
  return false;
}

/* A review by the family of the standard, with roof live load and snow
 * where there are some. */
static void work_joists(const struct ns_shape *shape,
                        const struct ns_rules *rules,
                        const struct ns_standard *standard,
                        const struct ns_block *block, bool records,
                        struct ns_work *work, struct ns_result *out) {
  if (!fits(shape, rules, standard, out)) return;
  ns_reviewer *review = reviewer_of(standard, records);
  if (ns_has_other_loads(shape, block))
    ns_combine(shape, rules, standard, block, review, records, work, out);
  else
    review(shape, rules, standard, block, work, out);
}

/* All numbers and the records behind them. */
void ns_review(const struct ns_shape *shape, const struct ns_rules *rules,
               const struct ns_standard *standard, const struct ns_block *block,
               struct ns_work *work, struct ns_result *out) {
  work_joists(shape, rules, standard, block, true, work, out);
}

/* All numbers, no records. */
void ns_rate(const struct ns_shape *shape, const struct ns_rules *rules,
             const struct ns_standard *standard, const struct ns_block *block,
             struct ns_work *work, struct ns_result *out) {
  work_joists(shape, rules, standard, block, false, work, out);
}

/* Adjusted values of a property by the family of the standard. */
void ns_adjusted(double (*joist)[NS_LANES], const struct ns_standard *standard,
                 enum ns_property property, int combo, struct ns_factors *out) {
  switch (standard->family) {
  case NS_EC5:
    ns_ec5_adjust(joist, standard, property, combo, out);
    return;
  case NS_CSA:
    ns_csa_adjust(joist, standard, property, combo, out);
    return;
  case NS_NDS:
    break;
  }
  ns_adjust(joist, standard, property, combo, out);
}

/* Status of each lane, no numbers. */
void ns_check_block(const struct ns_shape *shape,
                    const struct ns_standard *standard,
                    const struct ns_block *block, struct ns_work *work,
                    struct ns_result *out) {
  if (!fits(shape, NULL, standard, out)) return;
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
