/* SPDX-License-Identifier: MIT
 * random.c - the generator, and samples that are laid out in strata.
 *
 * A scrambled sample of n = 2^m points has one point in each of n strata of
 * every variable, as a Latin hypercube has; the two differ in which. Below the
 * first m bits no two points share a stratum, so the scramble of the lower
 * bits is a fresh number for each: Owen's nested scramble is exact here, and
 * costs one random bit for each node of a tree of m levels. */
#include "odds/random.h"

/* Counters of the generator that are no draws, by the top bits of the
 * replicate: shuffles and scrambles. */
#define SHUFFLE 0x40000000u
#define SCRAMBLE 0x80000000u
#define SCRAMBLE_LOW 0xC0000000u
#define MAX_REPLICATE 0x3FFFFFFFu

/* (hi, lo) of a 32 x 32 bit product; one round mixes them crosswise. */
void ns_philox(const uint32_t counter[4], const uint32_t key[2],
               uint32_t word[4]) {
  uint32_t c0 = counter[0], c1 = counter[1], c2 = counter[2], c3 = counter[3];
  uint32_t k0 = key[0], k1 = key[1];
  for (int round = 0; round < 10; round++) {
    const uint64_t p0 = (uint64_t)0xD2511F53u * c0;
    const uint64_t p1 = (uint64_t)0xCD9E8D57u * c2;
    c0 = (uint32_t)(p1 >> 32) ^ c1 ^ k0;
    c1 = (uint32_t)p1;
    c2 = (uint32_t)(p0 >> 32) ^ c3 ^ k1;
    c3 = (uint32_t)p0;
    k0 += 0x9E3779B9u;
    k1 += 0xBB67AE85u;
  }
  word[0] = c0;
  word[1] = c1;
  word[2] = c2;
  word[3] = c3;
}

/* Four words of a draw, by counting. */
static void words_of(uint64_t seed, uint32_t replicate, uint64_t draw,
                     uint32_t block, uint32_t word[4]) {
  const uint32_t key[2] = {(uint32_t)seed, (uint32_t)(seed >> 32)};
  const uint32_t counter[4] = {(uint32_t)draw, (uint32_t)(draw >> 32), block,
                               replicate};
  ns_philox(counter, key, word);
}

/* u = (26 bits, 26 bits, 1/2) / 2^52. */
static double unit_of(const uint32_t *word) {
  return ((double)(word[0] >> 6) * 67108864.0 + (double)(word[1] >> 6) + 0.5) /
         4503599627370496.0;
}

/* A draw between 0 and 1. */
double ns_uniform(uint64_t seed, uint32_t replicate, uint64_t draw,
                  uint32_t variable) {
  uint32_t word[4];
  words_of(seed, replicate, draw, variable / 2, word);
  return unit_of(word + 2 * (variable & 1));
}

/* A place within stratum s of n: exact up to the division, and below 1. */
static double place_in(uint32_t s, uint32_t word, int64_t n) {
  return ((double)s + ((double)word + 0.5) / 4294967296.0) / (double)n;
}

/* Stratum i goes to a place of its own by Fisher and Yates's shuffle. Two draws
 * of a counter's four words serve: one for the order, one for the place. */
static void hypercube(uint64_t seed, uint32_t replicate, int variable,
                      int64_t n, double *u) {
  uint32_t word[4];
  for (int64_t i = 0; i < n; i++) {
    words_of(seed, replicate | SHUFFLE, (uint64_t)i, (uint32_t)variable, word);
    const double mine = place_in((uint32_t)i, word[0], n);
    const int64_t j = (int64_t)(((uint64_t)word[1] * (uint64_t)(i + 1)) >> 32);
    if (j < i) u[i] = u[j];
    u[j] = mine;
  }
}

/* Owen's scramble of the first m bits of a point: the flip of a bit hangs on
 * the bits before it, node 2^level + prefix of a tree. */
static uint32_t flipped(uint32_t point, int m, const uint32_t *flips) {
  uint32_t to = 0;
  for (int level = 0; level < m; level++) {
    const uint32_t node = (1u << level) + (point >> (m - level));
    const uint32_t bit = point >> (m - level - 1) & 1u;
    to = to << 1 | (bit ^ (flips[node >> 5] >> (node & 31) & 1u));
  }
  return to;
}

/* Points of one variable, each stratum once, scrambled. */
static void scrambled(uint64_t seed, uint32_t replicate, int variable, int m,
                      double *u) {
  uint32_t flips[(1u << NS_SOBOL_BITS) / 32 + 4], v[NS_SOBOL_BITS], word[4];
  const uint32_t n = 1u << m;
  for (uint32_t k = 0; k < n; k += 128)
    words_of(seed, replicate | SCRAMBLE, k / 128, (uint32_t)variable,
             flips + k / 32);
  ns_sobol_directions(variable, m, v);
  uint32_t point = 0;
  for (uint32_t i = 0; i < n; i++) {
    words_of(seed, replicate | SCRAMBLE_LOW, i, (uint32_t)variable, word);
    u[i] = place_in(flipped(point, m, flips), word[0], n);
    /* Gray code: from i to i + 1 the bit turns that is the lowest of i + 1. */
    int k = 0;
    while (k < m && ((i + 1) >> k & 1u) == 0) k++;
    if (k < m) point ^= v[k];
  }
}

/* m where n is 2^m, else -1. */
static int log2_of(int64_t n) {
  int m = 0;
  while (m < 62 && ((int64_t)1 << m) < n) m++;
  return ((int64_t)1 << m) == n ? m : -1;
}

/* Draws of a variable for n points; false for what cannot be. */
bool ns_sample(enum ns_sampling how, uint64_t seed, uint32_t replicate,
               int variable, int64_t n, double *u) {
  if (n < 1 || n > (int64_t)1 << 31 || variable < 0 ||
      replicate > MAX_REPLICATE)
    return false;
  if (how == NS_SOBOL) {
    const int m = log2_of(n);
    if (m < 0 || m > NS_SOBOL_BITS || variable >= NS_SOBOL_DIMS) return false;
    scrambled(seed, replicate, variable, m, u);
  } else if (how == NS_LHS) {
    hypercube(seed, replicate, variable, n, u);
  } else {
    for (int64_t i = 0; i < n; i++)
      u[i] = ns_uniform(seed, replicate, (uint64_t)i, (uint32_t)variable);
  }
  return true;
}
