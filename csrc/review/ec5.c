/* SPDX-License-Identifier: MIT
 * ec5.c - checks and review once more, compiled with the entries of EN
 * 1995-1-1. What they export is renamed; what they share with all families
 * (beams, cuts, sections, rules) is not compiled again. */
#define NS_FAMILY_STRENGTH "ec5/strength.h"

#define ns_adjust ns_ec5_adjust
#define ns_bending_values ns_ec5_bending_values
#define ns_check_chords ns_ec5_check_chords
#define ns_check_cut ns_ec5_check_cut
#define ns_check_host ns_ec5_check_host
#define ns_check_state ns_ec5_check_state
#define ns_check_strapped ns_ec5_check_strapped
#define ns_close_state ns_ec5_close_state
#define ns_deflection ns_ec5_deflection
#define ns_find_hogging ns_ec5_find_hogging
#define ns_nds_check_block ns_ec5_check_block
#define ns_nds_rate ns_ec5_rate
#define ns_nds_review ns_ec5_review
#define ns_no_hogging ns_ec5_no_hogging

#include "check/check.c"
#include "check/chords.c"
#include "check/cut_check.c"
#include "check/hogging.c"
#include "check/sag.c"
#include "check/stability.c"
#include "review/review.c"
