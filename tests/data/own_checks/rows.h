/* SPDX-License-Identifier: MIT
 * rows.h - a check from outside the tree: make CHECKS=tests/data/own_checks. */
#define NS_OWN_CHECK_LIST(X)                                                   \
  X(SEAT_LENGTH, "seat-length", "in", "l", "bearing", 0, STRENGTH, DECIDES,    \
    SUPPORT, seat_length, 0, 1, 0, 0,                                          \
    OWN("office rule", "demand : least length of a seat; "                     \
                       "l_b : length of this one; ratio = demand/l_b"))
