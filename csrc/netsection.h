/* SPDX-License-Identifier: MIT
 * netsection.h - what is left of a cut wood joist, sixteen joists at a time.
 *
 * Inches, pounds, psi unless a field says otherwise; x from the centre of the
 * left bearing; moments sagging positive; deflection downward positive.
 * Nothing here allocates, prints or stops the program: the caller owns every
 * struct, and a joist that cannot be worked has a status instead of numbers.
 *
 *   description, result   joist/    ns_validate, names, ranges, texts
 *   reviews               review/   ns_review, ns_rate
 *   building blocks       beam/ section/ nds/ nds/ grid/           */
#ifndef NETSECTION_H
#define NETSECTION_H

#include "beam/beam.h"
#include "nds/fasteners.h"
#include "nds/joint.h"
#include "grid/grid.h"
#include "joist/joist.h"
#include "joist/result.h"
#include "nds/nds.h"
#include "review/review.h"
#include "rules/rules.h"
#include "section/section.h"
#include "standard/standard.h"

#endif
