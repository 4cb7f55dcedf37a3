/* SPDX-License-Identifier: MIT
 * draws.c - draws of several inputs, an input's replicate at a time, on as many
 * threads as are wanted. Each writes to places of its own, and the generator
 * counts, so the bytes are the same on any number. */
#define _POSIX_C_SOURCE 200809L

#include <pthread.h>
#include <math.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdlib.h>

#include "odds/random.h"
#include "sweep/sweep.h"

struct stint {
  const struct ns_draws *draws;
  int pieces;
  atomic_int next;
  atomic_bool failed;
};

/* Uniform draws of input k, replicate r. */
static bool sample(const struct ns_draws *d, int k, int r, double *to) {
  return ns_sample(d->how, d->seed, (uint32_t)(d->first + r), d->variable + k,
                   d->each, to);
}

/* Correlated with another input: of two scores z of their own that share
 * nothing, its score is r z1 + sqrt(1 - r^2) z2, whichever laws they have. */
static bool draw_with(const struct ns_draws *d, int k, int r, double *to) {
  const struct ns_law *law = &d->law[k];
  const double own = sqrt(1 - law->r * law->r);
  double *other = malloc(sizeof *other * (size_t)d->each);
  const bool ok =
      other && sample(d, law->with - 1, r, other) && sample(d, k, r, to);
  for (int64_t i = 0; ok && i < d->each; i++)
    to[i] = ns_law_of_score(law, law->r * ns_normal_quantile(other[i]) +
                                     own * ns_normal_quantile(to[i]));
  free(other);
  return ok;
}

/* Draws of one input and replicate; false where it has no room. */
static bool draw_piece(const struct ns_draws *d, int piece) {
  const int k = piece / d->replicates, r = piece % d->replicates;
  double *to = d->to[k] + d->each * r;
  if (d->law[k].with > 0) return draw_with(d, k, r, to);
  if (!sample(d, k, r, to)) return false;
  for (int64_t i = 0; i < d->each; i++) to[i] = ns_law_at(&d->law[k], to[i]);
  return true;
}

/* A thread: takes pieces until there are none. */
static void *draw_off(void *data) {
  struct stint *s = data;
  for (;;) {
    const int piece = atomic_fetch_add(&s->next, 1);
    if (piece >= s->pieces) return NULL;
    if (!draw_piece(s->draws, piece)) atomic_store(&s->failed, true);
  }
}

/* Threads that cannot be started are done without; signals stay with the
 * caller's. */
bool ns_draw(const struct ns_draws *d, int threads) {
  pthread_t hand[NS_MAX_THREADS];
  struct stint s = {.draws = d, .pieces = d->inputs * d->replicates};
  sigset_t all, before;
  int started = 0;
  if (threads > NS_MAX_THREADS) threads = NS_MAX_THREADS;
  if (threads > s.pieces) threads = s.pieces;
  sigfillset(&all);
  if (threads > 1 && pthread_sigmask(SIG_SETMASK, &all, &before) == 0) {
    while (started < threads - 1 &&
           pthread_create(&hand[started], NULL, draw_off, &s) == 0)
      started++;
    pthread_sigmask(SIG_SETMASK, &before, NULL);
  }
  draw_off(&s);
  for (int t = 0; t < started; t++) pthread_join(hand[t], NULL);
  return !atomic_load(&s.failed);
}
