/* SPDX-License-Identifier: MIT
 * joint.h - a connection held to its demand. */
#ifndef NETSECTION_JOINT_H
#define NETSECTION_JOINT_H

#include "joist/result.h"

/* Capacity and ratio of a connection, of steel or of wood pressed by it, from
 * the demand and the numbers in its record: see joint.c. */
void ns_joint(struct ns_check *check);

#endif
