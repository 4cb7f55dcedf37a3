/* SPDX-License-Identifier: MIT
 * elementary.c - see elementary.h. A number that needs more digits than a
 * double has is two of them, the second what the first lacks. */
#include "joist/elementary.h"

#include <math.h>

/* ln 2 as a number with zeros at its end, so that its small multiples are
 * exact, and the rest. */
static const double LN2_HIGH = 6.93147180369123816490e-01;
static const double LN2_LOW = 1.90821492927058770002e-10;

/* x = f 2^e, f from sqrt(1/2) to sqrt(2); ln f = 2 (s + s^3/3 + s^5/5 + ...),
 * s = (f - 1)/(f + 1), |s| < 0.172. */
double ns_log(double x) {
  if (!(x > 0)) return x == 0 ? -HUGE_VAL : (double)NAN;
  if (x > 1.79769313486231570815e+308) return x;
  int e = 0;
  double f = frexp(x, &e); /* exact */
  if (f < 0.70710678118654752440) {
    f *= 2;
    e--;
  }
  const double s = (f - 1) / (f + 1), q = s * s;
  double sum = 0;
  for (int k = 23; k >= 3; k -= 2) sum = (sum + 1.0 / k) * q;
  return e * LN2_HIGH + (2 * s + (2 * s * sum + e * LN2_LOW));
}

/* e^x = 2^n e^r, |r| <= ln(2)/2; e^r by its series. */
double ns_exp(double x) {
  if (!(x < 709.7)) return x >= 709.7 ? HUGE_VAL : x;
  if (x < -745) return 0;
  const double z = x / 0.69314718055994530942;
  const int n = (int)(z < 0 ? z - 0.5 : z + 0.5);
  const double r = (x - n * LN2_HIGH) - n * LN2_LOW;
  double sum = 1;
  for (int k = 16; k >= 1; k--) sum = 1 + r * sum / k;
  return ldexp(sum, n); /* exact but for numbers below the normal ones */
}

struct pair {
  double high, low;
};

static struct pair sum_of(double a, double b) {
  const double s = a + b, c = s - a;
  return (struct pair){s, (a - (s - c)) + (b - c)};
}

/* Half the digits of a factor, so that products of halves are exact. */
static double upper_half(double x) {
  const double scaled = 134217729 * x; /* 2^27 + 1 */
  return scaled - (scaled - x);
}

static struct pair product_of(double a, double b) {
  const double p = a * b, ah = upper_half(a), bh = upper_half(b);
  const double al = a - ah, bl = b - bh;
  return (struct pair){p, ((ah * bh - p) + ah * bl + al * bh) + al * bl};
}

/* As ns_log, the first two terms with twice the digits. */
static struct pair long_log(double x) {
  int e = 0;
  double f = frexp(x, &e); /* exact */
  if (f < 0.70710678118654752440) {
    f *= 2;
    e--;
  }
  const struct pair below = sum_of(f, 1);
  const double high = (f - 1) / below.high; /* s of ns_log */
  const struct pair back = product_of(high, below.high);
  const double rest =
      (((f - 1) - back.high) - back.low - high * below.low) / below.high;
  const double q = high * high;
  double sum = 0;
  for (int k = 23; k >= 3; k -= 2) sum = (sum + 1.0 / k) * q;
  const struct pair l = sum_of(e * LN2_HIGH, 2 * high);
  return sum_of(l.high, l.low + (2 * rest + 2 * high * sum + e * LN2_LOW));
}

double ns_power(double x, double y) {
  if (y == 0 || x == 1) return 1;
  if (x == 0) return y > 0 ? 0 : HUGE_VAL;
  if (!(x > 0) || y != y) return (double)NAN;
  if (x > 1.79769313486231570815e+308) return y > 0 ? x : 0;
  const struct pair l = long_log(x);
  struct pair p = product_of(y, l.high);
  p.low += y * l.low;
  if (!(p.high < 709.7)) return HUGE_VAL;
  if (p.high < -745) return 0;
  const double z = p.high / 0.69314718055994530942;
  const int n = (int)(z < 0 ? z - 0.5 : z + 0.5);
  const double first = p.high - n * LN2_HIGH, r = first - n * LN2_LOW;
  const double rest = ((first - r) - n * LN2_LOW) + p.low;
  double sum = 0; /* e^r - 1 - r */
  for (int k = 18; k >= 2; k--) sum = (sum + 1) * (r / k);
  sum *= r;
  return ldexp(1 + (r + (sum + rest * (1 + r + sum))), n);
}

/* x less the nearest multiple of pi/2, which is given in three pieces so that
 * small multiples of the first two are exact. @return the multiple, mod 4 */
static int quarter(double x, double *rest) {
  static const double PIECE[] = {1.57079632673412561417e+00,
                                 6.07710050630396597660e-11,
                                 2.02226624879595063154e-21};
  const double z = x / PIECE[0];
  const int n = (int)(z < 0 ? z - 0.5 : z + 0.5);
  *rest = ((x - n * PIECE[0]) - n * PIECE[1]) - n * PIECE[2];
  return n & 3;
}

static double sine_series(double r) {
  double sum = 0;
  for (int k = 19; k >= 3; k -= 2) sum = -(sum + 1) * (r * r / (k * (k - 1)));
  return r + r * sum;
}

static double cosine_series(double r) {
  double sum = 0;
  for (int k = 18; k >= 2; k -= 2) sum = -(sum + 1) * (r * r / (k * (k - 1)));
  return 1 + sum;
}

static double turned(int n, double r) {
  const double v = n & 1 ? cosine_series(r) : sine_series(r);
  return n & 2 ? -v : v;
}

double ns_sin(double x) {
  double r = 0;
  if (!(x > -1e5 && x < 1e5)) return (double)NAN;
  const int n = quarter(x, &r);
  return turned(n, r);
}

double ns_cos(double x) {
  double r = 0;
  if (!(x > -1e5 && x < 1e5)) return (double)NAN;
  const int n = quarter(x, &r);
  return turned(n + 1, r);
}
