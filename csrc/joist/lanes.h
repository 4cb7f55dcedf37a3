/* SPDX-License-Identifier: MIT
 * lanes.h - how the kernels are written so that a compiler can vectorise.
 *
 * A quantity is a row of NS_LANES doubles, one per joist. Loops over lanes
 * hold straight-line arithmetic: conditions are ternaries joined by & and |,
 * and sqrt is the only library call. No lane ever reads another, so a joist
 * reviewed alone and a joist in a full block give the same bits. */
#ifndef NETSECTION_LANES_H
#define NETSECTION_LANES_H

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

#include "joist/joist.h"

/* Lanes are apart by design, which the compiler need not prove. */
#if defined(__GNUC__) && !defined(__clang__)
#define LANES(i) _Pragma("GCC ivdep") for (int i = 0; i < NS_LANES; i++)
#else
#define LANES(i) for (int i = 0; i < NS_LANES; i++)
#endif

/* One build, several instruction sets, picked when the library is loaded.
 * Empty where the loader cannot pick (no ifunc) and under tools that object.
 * Helpers are inlined into every clone, or they would run in the least. A build
 * for one set alone (NS_ONE_SET) leaves inlining to the compiler. */
#ifndef NS_CLONES
#if !defined(NS_ONE_SET) && defined(__GNUC__) && !defined(__clang__) &&        \
    defined(__x86_64__) && defined(__linux__) && defined(__GLIBC__)
#define NS_CLONES __attribute__((target_clones("default", "avx2", "avx512f")))
#else
#define NS_CLONES
#endif
#endif
#if defined(NS_COUNTED) /* each branch counts once, not at every call */
#define NS_INLINE static __attribute__((noinline, unused))
#elif defined(__GNUC__) && !defined(NS_ONE_SET)
#define NS_INLINE static inline __attribute__((always_inline))
#else
#define NS_INLINE static inline
#endif

NS_INLINE double ns_max(double a, double b) { return a > b ? a : b; }
NS_INLINE double ns_min(double a, double b) { return a < b ? a : b; }
NS_INLINE double ns_abs(double a) { return a < 0 ? -a : a; }

/* A loop divides ten times slower than it multiplies, and the compiler must not
 * turn x / 3 into x * (1 / 3) by itself: the last digit differs. */
#define NS_3RD (1.0 / 3)
#define NS_5TH (1.0 / 5)
#define NS_6TH (1.0 / 6)
#define NS_24TH (1.0 / 24)
#define NS_120TH (1.0 / 120)

/* Integral of w u over a length h where w is linear and u cubic. */
NS_INLINE double ns_integral(double h, double w, double dw, double u, double du,
                             double ddu, double dddu) {
  const double u1 = h * du, u2 = h * h * ddu / 2,
               u3 = h * h * h * dddu * NS_6TH;
  const double g = h * dw;
  return h * (w * (u + u1 / 2 + u2 * NS_3RD + u3 / 4) +
              g * (u / 2 + u1 * NS_3RD + u2 / 4 + u3 * NS_5TH));
}

/* Every lane the same. */
NS_INLINE void ns_fill(double *restrict to, double value) {
  LANES(i) to[i] = value;
}

/* A row taken over. */
NS_INLINE void ns_copy(double *restrict to, const double *restrict from) {
  LANES(i) to[i] = from[i];
}

/* True where the row is not zero in some lane: the one place where lanes
 * steer the flow, always to skip work that would change nothing. */
NS_INLINE bool ns_any(const double *restrict row) {
  int64_t some = 0; /* as wide as a double: no packing of masks */
  LANES(i) some |= row[i] != 0 ? (int64_t)1 : (int64_t)0;
  return some != 0;
}

#endif
