/* SPDX-License-Identifier: MIT
 * arithmetic.h - read before each of Lua's own files: its ^ gives the same bits
 * in the program of every system, which the pow of C libraries does not. */
#ifndef NETSECTION_PROGRAM_ARITHMETIC_H
#define NETSECTION_PROGRAM_ARITHMETIC_H

double program_power(double x, double y);

#define luai_numpow(L, x, y) ((void)L, program_power(x, y))

#endif
