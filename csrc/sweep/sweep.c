/* SPDX-License-Identifier: MIT
 * sweep.c - points of a grid, sixteen at a time, on as many threads as the
 * caller wants. Blocks are handed out one by one; each writes to places of
 * its own, so their order does not matter. */
#include "sweep/sweep.h"

#include <math.h>
#include <stdatomic.h>
#include <string.h>

#include "sweep/threads.h"
#include "work/work.h"

/* What one thread works with. */
struct bench {
  struct ns_block block;
  struct ns_result result;
  int64_t model[NS_LANES]; /* which one fills each lane; -1: none */
  struct ns_work *work;
};

struct job {
  const struct ns_sweep *sweep;
  int64_t blocks;
  atomic_llong next, done;
  atomic_bool stop;
  ns_poll *poll; /* of the caller's thread */
  void *data;
};

struct hand {
  struct job *job;
  struct bench *bench;
};

/* A size in whole cache lines. */
static size_t lines_of(size_t size) {
  return (size + NS_CACHE_LINE - 1) / NS_CACHE_LINE * NS_CACHE_LINE;
}

/* The first cache line of the room. */
static void *first_line(void *room) {
  const uintptr_t line = NS_CACHE_LINE;
  return (void *)(((uintptr_t)room + line - 1) / line * line);
}

size_t ns_sweep_room(int threads) {
  return lines_of(sizeof(struct bench)) * (size_t)threads +
         lines_of(ns_work_size) * (size_t)(threads - 1) + NS_CACHE_LINE;
}

/* A block as rows, one after the other. */
static double (*rows_of(struct ns_block *b))[NS_LANES] {
  return (double(*)[NS_LANES])(void *)b;
}

/* A packed joist into a lane, unless it is there. */
static void load_model(const struct ns_sweep *s, struct bench *b, int lane,
                       int64_t model) {
  if (b->model[lane] == model) return;
  double(*rows)[NS_LANES] = rows_of(&b->block);
  const double *from = s->model[model];
  for (size_t r = 0; r < NS_BLOCK_ROWS; r++) rows[r][lane] = from[r];
  b->model[lane] = model;
}

/* Point n of the sweep into a lane: its joist, then what its axes set. */
static void load_point(const struct ns_sweep *s, struct bench *b, int lane,
                       int64_t n) {
  int64_t step[NS_MAX_AXES], point = s->first + n;
  for (int a = s->axes - 1; a >= 0; a--) {
    step[a] = point % s->size[a];
    point /= s->size[a];
  }
  load_model(s, b, lane, point);
  double(*rows)[NS_LANES] = rows_of(&b->block);
  for (int c = 0; c < s->columns; c++) {
    const struct ns_column *k = &s->column[c];
    rows[k->row][lane] = k->values[k->axis < 0 ? n : step[k->axis]];
  }
}

/* Lanes past the last point repeat it. */
static void work_block(const struct ns_sweep *s, struct bench *b, int64_t n) {
  const int64_t at = n * NS_LANES, rest = s->count - at;
  const int count = rest < NS_LANES ? (int)rest : NS_LANES;
  const struct ns_result *r = &b->result;
  ns_lane row;
  for (int i = 0; i < NS_LANES; i++)
    load_point(s, b, i, at + (i < count ? i : count - 1));
  ns_rate(s->shape, s->rules, s->standard, &b->block, b->work, &b->result);
  if (r->status[0] == NS_TOO_MANY) /* of the topology: no lane was worked */
    for (int i = 0; i < NS_LANES; i++) b->result.status[i] = NS_TOO_MANY;
  for (int i = 0; i < count; i++)
    s->fault[at + i] =
        r->status[i] == NS_OK
            ? 0
            : NS_FAULT(r->status[i], r->bad_part[i], r->bad_field[i]);
  for (int o = 0; o < s->outputs; o++) {
    ns_keep_quantity(s->shape, r, &s->output[o], row);
    memcpy(s->to[o] + at, row, sizeof *row * (size_t)count);
  }
}

/* Works blocks until there are none or the job is stopped. */
static void work_off(struct job *j, struct bench *b, bool caller) {
  for (int i = 0; i < NS_LANES; i++) b->model[i] = -1;
  while (!atomic_load(&j->stop)) {
    const int64_t n = atomic_fetch_add(&j->next, 1);
    if (n >= j->blocks) return;
    work_block(j->sweep, b, n);
    const int64_t done = atomic_fetch_add(&j->done, 1) + 1;
    if (caller && j->poll && !j->poll(j->data, done * NS_LANES))
      atomic_store(&j->stop, true);
  }
}

static void run(void *data) {
  const struct hand *h = data;
  work_off(h->job, h->bench, false);
}

/* The bench of each thread, then the working room of all but the caller's. */
static void share_out(struct job *j, struct hand *hands, int threads,
                      struct ns_work *own, char *room) {
  char *work = room + lines_of(sizeof(struct bench)) * (size_t)threads;
  for (int t = 0; t < threads; t++, room += lines_of(sizeof(struct bench))) {
    hands[t] = (struct hand){.job = j, .bench = (void *)room};
    hands[t].bench->work = t == 0 ? own : (void *)work;
    if (t == 0) continue;
    ns_forget(hands[t].bench->work);
    work += lines_of(ns_work_size);
  }
}

/* Works all points on threads, the caller's too; gives how many were worked. */
int64_t ns_sweep(const struct ns_sweep *s, int threads, struct ns_work *own,
                 void *room, ns_poll *poll, void *data) {
  struct hand hands[NS_MAX_THREADS];
  struct ns_threads more;
  struct job j = {.sweep = s,
                  .blocks = (s->count + NS_LANES - 1) / NS_LANES,
                  .poll = poll,
                  .data = data};
  if (threads > NS_MAX_THREADS) threads = NS_MAX_THREADS;
  if (threads > j.blocks) threads = (int)j.blocks;
  if (threads < 1) return 0;
  share_out(&j, hands, threads, own, first_line(room));
  ns_threads_start(&more, threads - 1, run, hands + 1, sizeof hands[0]);
  work_off(&j, hands[0].bench, true);
  ns_threads_join(&more);
  const int64_t done = atomic_load(&j.done) * NS_LANES;
  return done < s->count ? done : s->count;
}
