/* SPDX-License-Identifier: MIT
 * elementary.h - powers, logarithms, sines by + - * / alone. Those of C
 * libraries differ in the last bit, from system to system and even from
 * processor to processor; these do not, without fused products. Private. */
#ifndef NETSECTION_ELEMENTARY_H
#define NETSECTION_ELEMENTARY_H

/* ln x for x > 0 and e^x, within 2 units of the last place. */
double ns_log(double x);
double ns_exp(double x);
/* x^y for x >= 0 (NAN below), to within one unit of the last place. */
double ns_power(double x, double y);
/* Of an angle in radians, |x| < 1e5. */
double ns_sin(double x);
double ns_cos(double x);

#endif
