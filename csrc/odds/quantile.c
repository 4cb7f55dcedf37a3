/* SPDX-License-Identifier: MIT
 * quantile.c - distributions by inversion. Log and exp are of + - x / alone,
 * without fused products, so that their bits are the same on every system. */
#include <math.h>
#include <string.h>

#include "odds/random.h"

#define X(name, word) word,
const char *const ns_law_names[] = {NS_LAW_LIST(X) NULL};
#undef X

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

/* Quotient of two polynomials of degree 7. */
static double over(const double *n, const double *d, double r) {
  double up = n[7], low = d[7];
  for (int k = 6; k >= 0; k--) {
    up = up * r + n[k];
    low = low * r + d[k];
  }
  return up / low;
}

/* Rational functions of q = p - 1/2 in the middle and of sqrt(-ln p) in the
 * tails (AS 241). */
double ns_normal_quantile(double p) {
  static const double
      a[] = {3.3871328727963666080e0,  1.3314166789178437745e+2,
             1.9715909503065514427e+3, 1.3731693765509461125e+4,
             4.5921953931549871457e+4, 6.7265770927008700853e+4,
             3.3430575583588128105e+4, 2.5090809287301226727e+3},
      b[] = {1.0,
             4.2313330701600911252e+1,
             6.8718700749205790830e+2,
             5.3941960214247511077e+3,
             2.1213794301586595867e+4,
             3.9307895800092710610e+4,
             2.8729085735721942674e+4,
             5.2264952788528545610e+3},
      c[] = {1.42343711074968357734e0,  4.63033784615654529590e0,
             5.76949722146069140550e0,  3.64784832476320460504e0,
             1.27045825245236838258e0,  2.41780725177450611770e-1,
             2.27238449892691845833e-2, 7.74545014278341407640e-4},
      d[] = {1.0,
             2.05319162663775882187e0,
             16.7638483018380384940e-1,
             6.89767334985100004550e-1,
             1.48103976427480074590e-1,
             1.51986665636164571966e-2,
             5.47593808499534494600e-4,
             1.05075007164441684324e-9},
      e[] = {6.65790464350110377720e0,  5.46378491116411436990e0,
             1.78482653991729133580e0,  2.96560571828504891230e-1,
             2.65321895265761230930e-2, 1.24266094738807843860e-3,
             2.71155556874348757815e-5, 2.01033439929228813265e-7},
      f[] = {1.0,
             5.99832206555887937690e-1,
             1.36929880922735805310e-1,
             1.48753612908506148525e-2,
             7.86869131145613259100e-4,
             1.84631831751005468180e-5,
             1.42151175831644588870e-7,
             2.04426310338993978564e-15};
  const double q = p - 0.5;
  if (!(p > 0 && p < 1)) return (double)NAN;
  if (q <= 0.425 && q >= -0.425) return q * over(a, b, 0.180625 - q * q);
  const double r = sqrt(-ns_log(q < 0 ? p : 1 - p));
  const double z = r <= 5 ? over(c, d, r - 1.6) : over(e, f, r - 5);
  return q < 0 ? -z : z;
}

/* Number of the choice that a draw picks. */
static double choice_at(const struct ns_law *law, double u) {
  int k = 0;
  while (k < law->choices - 1 && u >= law->upto[k]) k++;
  return k + 1;
}

/* The value at a normal score. */
double ns_law_of_score(const struct ns_law *law, double z) {
  return law->of == NS_LAW_LOGNORMAL ? law->a * ns_exp(law->b * z)
                                     : law->a + law->b * z;
}

/* The value at the probability u. */
double ns_law_at(const struct ns_law *law, double u) {
  /* Gumbel: F = exp(-exp(-(x - m)/s)), mean m + 0.5772 s, sd s pi/sqrt(6). */
  const double s = law->a * law->b * 0.77969680123367610;
  switch (law->of) {
  case NS_LAW_NORMAL:
  case NS_LAW_LOGNORMAL:
    return ns_law_of_score(law, ns_normal_quantile(u));
  case NS_LAW_GUMBEL:
    return law->a - 0.57721566490153286 * s - s * ns_log(-ns_log(u));
  case NS_LAW_CHOICE:
    return choice_at(law, u);
  default:
    return law->a;
  }
}
