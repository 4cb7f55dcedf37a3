/* SPDX-License-Identifier: MIT
 * blocks.c - threads that take the next block until there are none. */
#include "sweep/blocks.h"

#include <stdatomic.h>

#include "sweep/threads.h"

struct job {
  const struct ns_blocks *blocks;
  atomic_llong next, done;
  atomic_bool stop;
};

struct hand {
  struct job *job;
  void *bench;
};

size_t ns_lines_of(size_t size) {
  return (size + NS_CACHE_LINE - 1) / NS_CACHE_LINE * NS_CACHE_LINE;
}

void *ns_first_line(void *room) {
  const uintptr_t line = NS_CACHE_LINE;
  return (void *)(((uintptr_t)room + line - 1) / line * line);
}

/* Works blocks until there are none or the job is stopped. */
static void work_off(struct job *j, void *bench, bool caller) {
  const struct ns_blocks *b = j->blocks;
  while (!atomic_load(&j->stop)) {
    const int64_t n = atomic_fetch_add(&j->next, 1);
    if (n >= b->count) return;
    b->work(b->task, bench, n);
    const int64_t done = atomic_fetch_add(&j->done, 1) + 1;
    if (caller && b->poll && !b->poll(b->data, done * NS_LANES))
      atomic_store(&j->stop, true);
  }
}

static void run(void *data) {
  const struct hand *h = data;
  work_off(h->job, h->bench, false);
}

int64_t ns_blocks_work(const struct ns_blocks *b, int threads) {
  struct hand hands[NS_MAX_THREADS];
  struct ns_threads more;
  struct job j = {.blocks = b};
  if (threads > NS_MAX_THREADS) threads = NS_MAX_THREADS;
  if (threads > b->count) threads = (int)b->count;
  if (threads < 1) return 0;
  for (int t = 0; t < threads; t++)
    hands[t] = (struct hand){.job = &j, .bench = b->bench[t]};
  ns_threads_start(&more, threads - 1, run, hands + 1, sizeof hands[0]);
  work_off(&j, hands[0].bench, true);
  ns_threads_join(&more);
  return atomic_load(&j.done);
}
