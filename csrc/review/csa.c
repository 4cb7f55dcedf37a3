/* SPDX-License-Identifier: MIT
 * csa.c - checks and review once more, compiled with the entries of CSA O86,
 * as ec5.c is with those of its family. */
#define NS_FAMILY_STRENGTH "csa/strength.h"

#define ns_adjust ns_csa_adjust
#define ns_bending_values ns_csa_bending_values
#define ns_check_chords ns_csa_check_chords
#define ns_check_cut ns_csa_check_cut
#define ns_check_host ns_csa_check_host
#define ns_check_state ns_csa_check_state
#define ns_check_strapped ns_csa_check_strapped
#define ns_close_state ns_csa_close_state
#define ns_deflection ns_csa_deflection
#define ns_find_hogging ns_csa_find_hogging
#define ns_nds_check_block ns_csa_check_block
#define ns_nds_rate ns_csa_rate
#define ns_nds_review ns_csa_review
#define ns_no_hogging ns_csa_no_hogging

#include "check/check.c"
#include "check/chords.c"
#include "check/cut_check.c"
#include "check/hogging.c"
#include "check/sag.c"
#include "check/stability.c"
#include "review/review.c"
