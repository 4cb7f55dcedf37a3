/* SPDX-License-Identifier: MIT
 * random.h - numbers drawn by chance, the same on every machine: a generator
 * on counters, so that any draw can be had by itself and no order of threads
 * matters; samples that fill the space more evenly than chance does; and
 * distributions by inversion, on a log and an exp of our own, since those of
 * the C library differ in their last bits from system to system. */
#ifndef NETSECTION_RANDOM_H
#define NETSECTION_RANDOM_H

#include <stdbool.h>
#include <stdint.h>

#include "joist/elementary.h"

#define NS_MAX_INPUTS 40  /* uncertain inputs of one question */
#define NS_MAX_CHOICES 64 /* values of one of them */
#define NS_SOBOL_DIMS 80  /* two samples of NS_MAX_INPUTS side by side */
_Static_assert(2 * NS_MAX_INPUTS <= NS_SOBOL_DIMS, "a dimension for each");
#define NS_SOBOL_BITS 16 /* at most 2^16 of its points in a replicate */

/* Philox-4x32-10: four words from a counter and a key (Salmon, Moraes, Dror,
 * Shaw, "Parallel random numbers: as easy as 1, 2, 3", 2011). */
void ns_philox(const uint32_t counter[4], const uint32_t key[2],
               uint32_t word[4]);
/* Inside (0, 1): 52 bits and a half, never 0 or 1. Variables 2b and 2b + 1
 * share the counter (draw low, draw high, b, replicate). */
double ns_uniform(uint64_t seed, uint32_t replicate, uint64_t draw,
                  uint32_t variable);

/* z with Phi(z) = p, 0 < p < 1: Wichura, algorithm AS 241, PPND16 (1988). */
double ns_normal_quantile(double p);

/* How a replicate's draws are laid out: each by itself; one in each of n equal
 * strata of every variable, in an order shuffled for each; or the points of
 * Sobol's sequence, scrambled as Owen has it. */
enum ns_sampling { NS_PLAIN, NS_LHS, NS_SOBOL };

/* A variable's n uniforms of one replicate, n from 1 to 2^31. For NS_SOBOL n is
 * a power of two to 2^NS_SOBOL_BITS, and 'variable' below NS_SOBOL_DIMS. False,
 * and nothing is written, where it is not so. */
bool ns_sample(enum ns_sampling how, uint64_t seed, uint32_t replicate,
               int variable, int64_t n, double *u);
/* The first m bits of the first 2^m points of Sobol's sequence, in Gray-code
 * order and not scrambled: direction numbers v[0] to v[m - 1], by which bit
 * k of i's Gray code turns the point over. Dimensions count from 0. */
void ns_sobol_directions(int dimension, int m, uint32_t *v);

/* X(name, word): of 'a' and 'b' as said. */
#define NS_LAW_LIST(X)                                                         \
  X(FIXED, "fixed")         /* a */                                            \
  X(NORMAL, "normal")       /* mean a, standard deviation b */                 \
  X(LOGNORMAL, "lognormal") /* median a, standard deviation b of ln x */       \
  X(GUMBEL, "gumbel")       /* largest value: mean a, coefficient b */         \
  X(CHOICE, "choice")       /* number of the value, from 1, by 'upto' */

#define X(name, word) NS_LAW_##name,
enum ns_law_of { NS_LAW_LIST(X) NS_LAWS };
#undef X
extern const char *const ns_law_names[];

struct ns_law {
  enum ns_law_of of;
  int with; /* 1 + the input it goes with, which goes with none; 0: none */
  double a, b;
  double r; /* correlation of the two normal scores: a Gaussian copula */
  int choices;
  double upto[NS_MAX_CHOICES]; /* sums of weights up to and with each value */
};
/* Value below which the part u of all lies, 0 < u < 1. */
double ns_law_at(const struct ns_law *law, double u);
/* The value of a normal or lognormal law at a normal score. */
double ns_law_of_score(const struct ns_law *law, double z);

/* Draws of several inputs: to[k] gets 'each' values of replicate 0, of
 * replicate 1, and so on. */
struct ns_draws {
  enum ns_sampling how;
  uint64_t seed;
  int64_t each;             /* draws of one replicate */
  int replicates, first;    /* the first replicate's number */
  int inputs, variable;     /* the first input's variable */
  const struct ns_law *law; /* of each input */
  double *const *to;        /* each x replicates values, of each input */
};
/* On so many threads; the same bytes on any number. False where a sample cannot
 * be had, or there is no memory for one that goes with another. */
bool ns_draw(const struct ns_draws *draws, int threads);

#endif
