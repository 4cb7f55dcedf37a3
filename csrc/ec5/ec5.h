/* SPDX-License-Identifier: MIT
 * ec5.h - design values of EN 1995-1-1. */
#ifndef NETSECTION_EC5_H
#define NETSECTION_EC5_H

#include "nds/nds.h"

/* X_d of a property in a combination, psi; out's rows hold the factors: CD
 * k_mod, CF k_h, CM k_cr, Cr k_sys (of shear; of bending it is put on later),
 * K gamma_M. */
void ns_ec5_adjust(double (*joist)[NS_LANES], const struct ns_standard *s,
                   enum ns_property property, int combo,
                   struct ns_factors *out);

#endif
