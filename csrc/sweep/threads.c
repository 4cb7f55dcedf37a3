/* SPDX-License-Identifier: MIT
 * threads.c - threads of POSIX, and of Windows. */
#define _POSIX_C_SOURCE 200809L

#include "sweep/threads.h"

#ifdef _WIN32
#include <windows.h>
#else
#include <signal.h>
#endif

/* Stack of a thread, asked for since some C libraries give 128 kB: a review has
 * up to 460 kB of rows in one function. */
enum { NS_THREAD_STACK = 2 << 20 };

#ifdef _WIN32

static DWORD WINAPI begin(void *data) {
  const struct ns_thread *t = data;
  t->job(t->data);
  return 0;
}

static bool start(struct ns_thread *t) {
  t->handle = CreateThread(NULL, NS_THREAD_STACK, begin, t,
                           STACK_SIZE_PARAM_IS_A_RESERVATION, NULL);
  return t->handle != NULL;
}

static void join(struct ns_thread *t) {
  WaitForSingleObject(t->handle, INFINITE);
  CloseHandle(t->handle);
}

static int start_all(struct ns_threads *t, int wanted) {
  int n = 0;
  while (n < wanted && start(&t->one[n])) n++;
  return n;
}

#else

static void *begin(void *data) {
  const struct ns_thread *t = data;
  t->job(t->data);
  return NULL;
}

static void join(struct ns_thread *t) { pthread_join(t->handle, NULL); }

/* Started with every signal blocked, so that the caller's thread gets them. */
static int start_all(struct ns_threads *t, int wanted) {
  sigset_t all, before;
  pthread_attr_t large;
  int n = 0;
  if (pthread_attr_init(&large) != 0) return 0;
  if (pthread_attr_setstacksize(&large, NS_THREAD_STACK) != 0) wanted = 0;
  sigfillset(&all);
  if (pthread_sigmask(SIG_SETMASK, &all, &before) != 0) return 0;
  while (n < wanted &&
         pthread_create(&t->one[n].handle, &large, begin, &t->one[n]) == 0)
    n++;
  pthread_sigmask(SIG_SETMASK, &before, NULL);
  pthread_attr_destroy(&large);
  return n;
}

#endif

void ns_threads_start(struct ns_threads *t, int wanted, void (*job)(void *),
                      void *data, size_t step) {
  t->started = 0;
  if (wanted > NS_MAX_THREADS) wanted = NS_MAX_THREADS;
  for (int k = 0; k < wanted; k++) {
    t->one[k].job = job;
    t->one[k].data = (char *)data + step * (size_t)k;
  }
  if (wanted > 0) t->started = start_all(t, wanted);
}

void ns_threads_join(struct ns_threads *t) {
  for (int k = 0; k < t->started; k++) join(&t->one[k]);
}
