/* SPDX-License-Identifier: MIT
 * arithmetic.c - see arithmetic.h. */
#include "program/arithmetic.h"

#include <math.h>

#include "joist/elementary.h"

double program_power(double x, double y) {
  if (y == 2) return x * x;
  const double size = x < 0 ? -x : x;
  if (size > 0 && size < 1e100 && y > -1000 && y < 1000) {
    if (x > 0) return ns_power(x, y);
    const double half = y / 2;
    if (y == floor(y))
      return half == floor(half) ? ns_power(size, y) : -ns_power(size, y);
  }
  return pow(x, y); /* zeros, infinities and what is no number */
}
