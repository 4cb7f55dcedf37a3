/* SPDX-License-Identifier: MIT
 * sweep.c - points of a grid, sixteen at a time, on as many threads as the
 * caller wants. */
#include "sweep/sweep.h"

#include <math.h>
#include <string.h>

#include "sweep/blocks.h"
#include "work/work.h"

/* What one thread works with. */
struct bench {
  struct ns_block block;
  struct ns_result result;
  int64_t model[NS_LANES]; /* which one fills each lane; -1: none */
  struct ns_work *work;
};

size_t ns_sweep_room(int threads) {
  return ns_lines_of(sizeof(struct bench)) * (size_t)threads +
         ns_lines_of(ns_work_size) * (size_t)(threads - 1) + NS_CACHE_LINE;
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

static void work(const void *sweep, void *bench, int64_t n) {
  work_block(sweep, bench, n);
}

/* The bench of each thread, then the working room of all but the caller's. */
static void share_out(struct ns_blocks *b, int threads, struct ns_work *own,
                      char *room) {
  const size_t each = ns_lines_of(sizeof(struct bench));
  char *more = room + each * (size_t)threads;
  for (int t = 0; t < threads; t++, room += each) {
    struct bench *bench = (void *)room;
    for (int i = 0; i < NS_LANES; i++) bench->model[i] = -1;
    bench->work = t == 0 ? own : (void *)more;
    b->bench[t] = bench;
    if (t == 0) continue;
    ns_forget(bench->work);
    more += ns_lines_of(ns_work_size);
  }
}

/* Works all points on threads, the caller's too; gives how many were worked. */
int64_t ns_sweep(const struct ns_sweep *s, int threads, struct ns_work *own,
                 void *room, ns_poll *poll, void *data) {
  struct ns_blocks b = {.count = (s->count + NS_LANES - 1) / NS_LANES,
                        .work = work,
                        .task = s,
                        .poll = poll,
                        .data = data};
  if (threads > NS_MAX_THREADS) threads = NS_MAX_THREADS;
  if (threads > b.count) threads = (int)b.count;
  if (threads < 1) return 0;
  share_out(&b, threads, own, ns_first_line(room));
  const int64_t done = ns_blocks_work(&b, threads) * NS_LANES;
  return done < s->count ? done : s->count;
}
