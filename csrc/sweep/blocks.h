/* SPDX-License-Identifier: MIT
 * blocks.h - blocks of sixteen handed out one by one to threads. Each writes to
 * places of its own, so their order does not matter. Private to the core. */
#ifndef NETSECTION_BLOCKS_H
#define NETSECTION_BLOCKS_H

#include "sweep/sweep.h"

/* Works block n of a task with what a thread has of its own. */
typedef void ns_block_work(const void *task, void *bench, int64_t n);

struct ns_blocks {
  int64_t count;
  ns_block_work *work;
  const void *task;
  void *bench[NS_MAX_THREADS]; /* of the caller's thread first */
  ns_poll *poll;               /* of the caller's thread */
  void *data;
};

/* Works them all; how many were done, fewer where 'poll' said so. */
int64_t ns_blocks_work(const struct ns_blocks *blocks, int threads);

/* A size in whole cache lines, and the first line of a room. */
size_t ns_lines_of(size_t size);
void *ns_first_line(void *room);

#endif
