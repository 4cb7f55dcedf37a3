/* SPDX-License-Identifier: MIT
 * checks.h - the list of checks: a row each, read by the core in its order and
 * by Lua through the binding.
 *
 * X(name, word, unit, letter, about, hogs, kind, part, where, evaluate,
 *   state, support, cut, repair, words)
 *
 *   word      its name
 *   unit      of demand and capacity, then those of branches: "psi, 2 lb"
 *   letter    that stands for it in tables, or ""
 *   about     moment, shear, deflection, or something else
 *   hogs      the branch from which it is about M < 0, or 0
 *   kind      of STRENGTH, or of SERVICE: left out of a ratio of strength
 *   part      DECIDES, or is shown and INFORMS
 *   where     once in each STATE of the joist, at each SUPPORT, at each CUT;
 *             or worked by REPAIR alone or by itself (ns_joint)
 *   evaluate  its evaluator: NS_CHECK(evaluate) in a file of check/
 *   state...  the most checks of the mode in a state, at each support, at
 *             each cut, and of what a repair adds; NS_MAX_CHECKS is their sum
 *   words     BY_STANDARD: clause and lines of the calculation stand in the
 *             folder of the standard; OWN(basis, lines): its own, where a
 *             standard has none, lines parted by ';'
 *
 * The order settles ties. In the repaired state host-bending and host-shear
 * take the places of bending and shear.
 *
 * Checks from outside the tree (make CHECKS=folder) come after these: the
 * folder's rows.h defines NS_OWN_CHECK_LIST(X), rows of this form. */
#ifndef NETSECTION_CHECKS_H
#define NETSECTION_CHECKS_H

#ifdef NS_OWN_CHECKS
#include NS_OWN_CHECKS
#else
#define NS_OWN_CHECK_LIST(X)
#endif

#define NS_CHECK_LIST(X)                                                       \
  X(BENDING, "bending", "lb-in", "b", "moment", 2, STRENGTH, DECIDES, STATE,   \
    bending, 2, 0, 0, 1, BY_STANDARD)                                          \
  X(SHEAR, "shear", "lb", "v", "shear", 0, STRENGTH, DECIDES, STATE, shear, 1, \
    0, 0, 1, BY_STANDARD)                                                      \
  X(BEARING, "bearing", "lb", "c", "bearing", 0, STRENGTH, DECIDES, SUPPORT,   \
    bearing, 0, 1, 0, 2, BY_STANDARD)                                          \
  X(DEFLECTION_LIVE, "deflection-live", "in", "d", "deflection", 0, SERVICE,   \
    DECIDES, STATE, deflection_live, 1, 0, 0, 0, BY_STANDARD)                  \
  X(DEFLECTION_TOTAL, "deflection-total", "in", "d", "deflection", 0, SERVICE, \
    DECIDES, STATE, deflection_total, 1, 0, 0, 0, BY_STANDARD)                 \
  X(NET_BENDING, "net-bending", "psi", "b", "moment", 4, STRENGTH, DECIDES,    \
    CUT, net_bending, 0, 0, 1, 0, BY_STANDARD)                                 \
  X(NET_SHEAR, "net-shear", "lb", "v", "shear", 0, STRENGTH, DECIDES, CUT,     \
    net_shear, 0, 0, 1, 0, BY_STANDARD)                                        \
  X(NOTCH_SHEAR, "notch-shear", "lb", "v", "shear", 0, STRENGTH, DECIDES, CUT, \
    notch_shear, 0, 0, 1, 0, BY_STANDARD)                                      \
  X(OPENING_FRAME, "opening-frame", "psi", "b", "chords", 0, STRENGTH,         \
    DECIDES, CUT, opening_frame, 0, 0, 1, 0, BY_STANDARD)                      \
  X(LIP_TENSION, "lip-tension", "", "w", "chords", 0, STRENGTH, DECIDES, CUT,  \
    lip_tension, 0, 0, 1, 0, BY_STANDARD)                                      \
  X(WOOD_COMPRESSION, "wood-compression", ", 6 psi, 7 psi", "w", "chords", 0,  \
    STRENGTH, DECIDES, CUT, chord_compression, 0, 0, 1, 1, BY_STANDARD)        \
  X(CHORD_ALONE, "chord-alone", "psi, 2 lb, 4 lb", "w", "chords", 0, STRENGTH, \
    DECIDES, CUT, chord_alone, 0, 0, 1, 0, BY_STANDARD)                        \
  X(UPLIFT, "uplift", "lb", "u", "uplift", 0, STRENGTH, INFORMS, SUPPORT,      \
    uplift, 0, 1, 0, 2, BY_STANDARD)                                           \
  X(STABILITY, "stability", "", "t", "stability", 0, STRENGTH, INFORMS, STATE, \
    slenderness, 1, 0, 0, 0, BY_STANDARD)                                      \
  X(HOST_BENDING, "host-bending", "lb-in", "b", "moment", 2, STRENGTH,         \
    DECIDES, REPAIR, none, 0, 0, 0, 0, BY_STANDARD)                            \
  X(HOST_SHEAR, "host-shear", "lb", "v", "shear", 0, STRENGTH, DECIDES,        \
    REPAIR, none, 0, 0, 0, 1, BY_STANDARD)                                     \
  X(FASTENERS, "fasteners", "lb", "f", "fasteners", 0, STRENGTH, DECIDES,      \
    REPAIR, none, 0, 0, 0, 1, BY_STANDARD)                                     \
  X(CONNECTION_SHEAR, "connection-shear", "lb", "v", "fasteners", 0, STRENGTH, \
    DECIDES, REPAIR, none, 0, 0, 0, 2, BY_STANDARD)                            \
  X(STEEL, "steel", "lb, 2 lb-in, 4 lb-in", "s", "steel", 0, STRENGTH,         \
    DECIDES, REPAIR, none, 0, 0, 0, 2, BY_STANDARD)                            \
  X(WITHDRAWAL, "withdrawal", "lb", "f", "withdrawal", 0, STRENGTH, DECIDES,   \
    REPAIR, none, 0, 0, 0, 0, BY_STANDARD)                                     \
  X(NEIGHBOUR, "neighbour", "", "n", "neighbors", 0, STRENGTH, DECIDES,        \
    REPAIR, none, 0, 0, 0, 0, BY_STANDARD)                                     \
  X(COLUMN, "column", "lb, 2 ", "", "below", 0, STRENGTH, DECIDES, REPAIR,     \
    none, 0, 0, 0, 0, BY_STANDARD)                                             \
  X(SOIL, "soil-bearing", "lb", "", "below", 0, STRENGTH, DECIDES, REPAIR,     \
    none, 0, 0, 0, 0, BY_STANDARD)                                             \
  X(FOOTING, "footing", "in", "", "below", 0, STRENGTH, DECIDES, REPAIR, none, \
    0, 0, 0, 0, BY_STANDARD)                                                   \
  NS_OWN_CHECK_LIST(X)

#endif
