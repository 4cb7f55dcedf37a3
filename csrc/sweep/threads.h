/* SPDX-License-Identifier: MIT
 * threads.h - threads beside the caller's, by what the system has for them.
 * Signals stay with the caller's thread. Private to the core. */
#ifndef NETSECTION_THREADS_H
#define NETSECTION_THREADS_H

#include <stddef.h>

#ifndef _WIN32
#include <pthread.h>
#endif

#include "sweep/sweep.h"

struct ns_thread {
  void (*job)(void *);
  void *data;
#ifdef _WIN32
  void *handle;
#else
  pthread_t handle;
#endif
};

struct ns_threads {
  struct ns_thread one[NS_MAX_THREADS];
  int started;
};

/* Starts a job on 'wanted' threads, the k-th with data + k * step. Those that
 * cannot be started are done without. */
void ns_threads_start(struct ns_threads *t, int wanted, void (*job)(void *),
                      void *data, size_t step);

/* Waits until all have ended. */
void ns_threads_join(struct ns_threads *t);

#endif
