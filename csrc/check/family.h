/* SPDX-License-Identifier: MIT
 * family.h - what a family of formulas gives to the checks.
 *
 * The checks of check/ and repair/ know forces and sections and ask here what
 * they are held to; they name no clause. A family is a header with these
 * entries, inlined into the loops over lanes: a strength that goes through
 * memory row by row costs more than all of its arithmetic. The files
 * of check/ and review/review.c are compiled once for each family (FAMILIES of
 * the Makefile, -DNS_FAMILY=ec5), whose name what they export carries;
 * review/families.c says which runs.
 *
 *   values       ns_adjust: F' of a property in a combination
 *   system       ns_system_factor, NS_SYSTEM_KEPT
 *   duration     NS_DURATION_BY_LOADS (1: ns_long_term takes some off where
 *                dead load is most of it); NS_VALUES_BY_LOADS (1: values read
 *                the loads or the spacing)
 *   stability    ns_lateral_factor (NS_LATERAL_ROW: the joist's row that it
 *                reads), ns_effective_length, ns_nominal,
 *                ns_slenderness_limit (0: the family has no such rule)
 *   bending      ns_bending_strength
 *   shear place  ns_shear_place, ns_part_left_out
 *   shear        ns_shear_strength; with NS_SHEAR_CRACKS C_M is k_cr
 *   notch        ns_notch_area, ns_notch_area_at_bearing, ns_notch_strength,
 *                ns_flat_end, NS_NOTCH_BY_PLACE (1: the place of the notch is
 *                read, from the line of the support; 2: from its face),
 *                NS_NOTCH_FRACTURE (1: what a notch in tension tears at is a
 *                value of its own, beside the shear of what is left)
 *   chords       ns_chord_column, ns_compression_and_bending,
 *                ns_tension_and_bending
 *   bearing      ns_bearing_factor, ns_bearing_strength; with
 *                NS_BEARING_SPREADS ns_support_factor for the record; with
 *                NS_BEARING_TIMED ns_bearing_time of permanent load
 *   sag          ns_sag_state, NS_SAG_MODE, NS_SHEAR_SAGS; with
 *                NS_LIMITS_BY_STANDARD ns_sag_limit, for a joist's limit of 1
 *   coverage     ns_family_lacks, NS_FAMILY_REPAIRS
 *   connections  ns_connection_strength, ns_connection_shear, ns_near_end,
 *                ns_connection_duration (repair/ alone)
 *   steel        ns_plate_bending, ns_plate_shear, NS_MOMENT_TO_NOTHING
 *                (repair/ alone)
 *
 * Units: in, lb, psi. F with a prime in a comment is an adjusted value. */
#ifndef NETSECTION_FAMILY_H
#define NETSECTION_FAMILY_H

#ifndef NS_FAMILY
#define NS_FAMILY nds
#endif
#define NS_QUOTED_(text) #text
#define NS_QUOTED(text) NS_QUOTED_(text)
#ifndef NS_FAMILY_STRENGTH
/* A blank would be part of the name. */
/* clang-format off */
#define NS_FAMILY_STRENGTH NS_QUOTED(NS_FAMILY/strength.h)
/* clang-format on */
#endif
#include NS_FAMILY_STRENGTH

/* A name with the family's: what is compiled once for each has one of its own.
 */
#define NS_JOINED_(family, name) ns_##family##_##name
#define NS_JOINED(family, name) NS_JOINED_(family, name)
#define NS_OF_FAMILY(name) NS_JOINED(NS_FAMILY, name)

#endif
