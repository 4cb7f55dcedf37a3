/* SPDX-License-Identifier: MIT
 * csa.h - factored values of CSA O86. */
#ifndef NETSECTION_CSA_H
#define NETSECTION_CSA_H

#include "nds/nds.h"

/* phi F of a property in a combination, psi; out's rows hold the factors: CD
 * K_D, CM K_S, CF K_Z, Ci K_T, Cr K_H (of bending it is put on later), K phi.
 */
void ns_csa_adjust(double (*joist)[NS_LANES], const struct ns_standard *s,
                   enum ns_property property, int combo,
                   struct ns_factors *out);

#endif
