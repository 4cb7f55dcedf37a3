/* SPDX-License-Identifier: MIT
 * review.h - reviews of sixteen joists, and curves of one for drawings. */
#ifndef NETSECTION_REVIEW_H
#define NETSECTION_REVIEW_H

#include "joist/result.h"
#include "nds/nds.h"
#include "rules/rules.h"
#include "standard/standard.h"

/* Working room for ns_review: big, owned by the caller, zeros at first. What it
 * keeps saves work where blocks of one geometry follow one another, and changes
 * no result. */
struct ns_work;
extern const size_t ns_work_size;

/* Uncut and cut states, rules, gate and action of sixteen joists. Lanes that
 * fail validation get harmless inputs and keep their status. */
void ns_review(const struct ns_shape *shape, const struct ns_rules *rules,
               const struct ns_standard *standard, const struct ns_block *block,
               struct ns_work *work, struct ns_result *result);
/* All numbers of a review but the records of the joist's own checks, which are
 * left as they are: for those who read no steps. */
void ns_rate(const struct ns_shape *shape, const struct ns_rules *rules,
             const struct ns_standard *standard, const struct ns_block *block,
             struct ns_work *work, struct ns_result *result);
/* Whether a joist has roof live load or snow. */
bool ns_has_other_loads(const struct ns_shape *shape,
                        const struct ns_block *block);
/* One combination of a standard, from 0, those with such loads after the
 * others, as a standard of its own; false where there is none. */
bool ns_combination(const struct ns_standard *standard, int number,
                    struct ns_standard *one);
/* Status of sixteen joists as ns_review gives it, and no numbers. */
void ns_check_block(const struct ns_shape *shape,
                    const struct ns_standard *standard,
                    const struct ns_block *block, struct ns_work *work,
                    struct ns_result *result);
/* A property's value and factors in a combination, by the family of the
 * standard, all sixteen joists. */
void ns_adjusted(double (*joist)[NS_LANES], const struct ns_standard *standard,
                 enum ns_property property, int combo, struct ns_factors *out);
/* Place, full and enveloped V and M and capacities for a drawing, lane 0. */
struct ns_curve {
  double x, V_full, M_full, V[2], M[2], M_cap[2], V_cap;
};
enum ns_drawn { NS_DRAW_UNCUT, NS_DRAW_CUT, NS_DRAW_FIXED, NS_DRAW_NEW };
int ns_curve_points(struct ns_work *work, enum ns_drawn what, int per_segment,
                    struct ns_curve *out, int room);

/* EI from break to break, as cut and as it was, lane 0, lb-in2; a segment
 * that is cut through counts as whole. */
struct ns_stiffness {
  double from, to, cut, uncut;
};
int ns_stiffness_along(const struct ns_work *work, struct ns_stiffness *out,
                       int room);

#endif
