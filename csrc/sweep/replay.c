/* SPDX-License-Identifier: MIT
 * replay.c - steps that Lua once went through with columns, gone through again
 * with sixteen joists at a time: their rows stay near the processor, no step
 * asks for memory, and threads need no Lua. */
#include "sweep/replay.h"

#include <math.h>
#include <string.h>

#include "joist/lanes.h"
#include "nds/joint.h"
#include "sweep/blocks.h"
#include "work/work.h"

/* What one thread works with; its rows of numbers stand behind it. */
struct bench {
  struct ns_block block;
  struct ns_result result;
  struct ns_check joint;
  /* alive: the steps hold; going: so they do but for numbers that were sure,
   * which are all looked at, for the next time they are noted */
  ns_lane alive, going;
  struct ns_work *work;
  bool fresh; /* nothing is in the room yet */
};

static size_t bench_size(const struct ns_replay *r) {
  return ns_lines_of(sizeof(struct bench)) +
         ns_lines_of(sizeof(ns_lane) * (size_t)(r->rows + 1));
}

size_t ns_replay_room(const struct ns_replay *r, int threads) {
  return bench_size(r) * (size_t)threads +
         ns_lines_of(ns_work_size) * (size_t)(threads - 1) + NS_CACHE_LINE;
}

static double (*rows_of(struct bench *b))[NS_LANES] {
  char *behind = (char *)b + ns_lines_of(sizeof *b);
  return (double(*)[NS_LANES])(void *)behind;
}

/* The joists in which 'holds' is 0 are left. */
NS_INLINE void hold(struct bench *b, const double *restrict holds) {
  double *restrict alive = b->alive, *restrict going = b->going;
  LANES(i) alive[i] = holds[i] != 0 ? alive[i] : 0;
  LANES(i) going[i] = holds[i] != 0 ? going[i] : 0;
}

/* ---- arithmetic ---- */

#define TWO(kind)                                                              \
  case kind:                                                                   \
    LANES(i) to[i] = ns_worked(kind, a[i], b[i]);                              \
    return

NS_CLONES static void calculate(enum ns_step_kind kind,
                                const double *restrict a,
                                const double *restrict b,
                                const double *restrict c, double *restrict to) {
  switch (kind) {
    TWO(NS_STEP_ADD);
    TWO(NS_STEP_SUB);
    TWO(NS_STEP_MUL);
    TWO(NS_STEP_DIV);
    TWO(NS_STEP_MOST);
    TWO(NS_STEP_LEAST);
    TWO(NS_STEP_LARGER);
  case NS_STEP_SIZE:
    LANES(i) to[i] = fabs(a[i]);
    return;
  case NS_STEP_MINUS:
    LANES(i) to[i] = -a[i];
    return;
  case NS_STEP_CHOSEN:
    LANES(i) to[i] = a[i] != 0 ? b[i] : c[i];
    return;
  case NS_STEP_UP:
    for (int i = 0; i < NS_LANES; i++) to[i] = ceil(a[i]);
    return;
  default:
    for (int i = 0; i < NS_LANES; i++) to[i] = floor(a[i]);
  }
}

NS_CLONES static void compare(struct bench *bench, const struct ns_step *s,
                              const double *restrict a,
                              const double *restrict b) {
  const double yes = s->expected ? 1 : 0, no = 1 - yes;
  ns_lane holds;
  if (s->kind == NS_STEP_EQUAL)
    LANES(i) holds[i] = a[i] == b[i] ? yes : no;
  else if (s->kind == NS_STEP_LESS)
    LANES(i) holds[i] = a[i] < b[i] ? yes : no;
  else
    LANES(i) holds[i] = a[i] <= b[i] ? yes : no;
  hold(bench, holds);
}

NS_CLONES static void worst_of(const struct ns_replay *r,
                               const struct ns_step *s,
                               double (*rows)[NS_LANES]) {
  double *restrict ratio = rows[s->to], *restrict number = rows[s->more];
  const int *list = r->list + s->list;
  ns_fill(ratio, 0);
  ns_fill(number, 0);
  for (int k = 0; k < s->count; k++) {
    if (list[2 * k] < 0 || list[2 * k + 1] < 0) continue;
    const double *restrict q = rows[list[2 * k]], *restrict decides =
                                                      rows[list[2 * k + 1]];
    const double n = k + 1;
    LANES(i) ns_worse(q[i], decides[i], n, &ratio[i], &number[i]);
  }
}

NS_CLONES static void by_number(const struct ns_replay *r,
                                const struct ns_step *s,
                                double (*rows)[NS_LANES]) {
  double *restrict to = rows[s->to];
  const double *restrict number = rows[s->a];
  ns_fill(to, (double)NAN);
  for (int k = 0; k < s->count; k++) {
    const int from = r->list[s->list + k];
    if (from < 0) continue;
    const double *restrict v = rows[from];
    const double wanted = k + 1;
    LANES(i) to[i] = number[i] == wanted ? v[i] : to[i];
  }
}

static void work_joint(const struct ns_step_joint *j, struct bench *b,
                       double (*rows)[NS_LANES]) {
  struct ns_check *k = &b->joint;
  k->mode = j->mode;
  ns_fill(k->branch, j->branch);
  ns_copy(k->demand, rows[j->demand]);
  memset(k->rec, 0, sizeof k->rec);
  for (int f = 0; f < NS_RECORDS; f++)
    if (j->from[f] >= 0) ns_copy(k->rec[f], rows[j->from[f]]);
  ns_joint(k);
  const double *from[] = {k->demand, k->capacity, k->ratio};
  for (int f = 0; f < 3; f++)
    if (j->to[f] >= 0) ns_copy(rows[j->to[f]], from[f]);
}

/* ---- reviews ---- */

/* The rows of a block that reviews set: numbers that all joists have, then
 * columns. */
static void fill_block(const struct ns_replay *r,
                       const struct ns_step_review *v, struct bench *b,
                       double (*rows)[NS_LANES]) {
  double(*block)[NS_LANES] = (double(*)[NS_LANES])(void *)&b->block;
  for (int k = 0; k < r->block_rows; k++)
    ns_fill(block[r->block_row[k]], v->fixed[k]);
  for (int k = 0; k < v->columns; k++) {
    const struct ns_step_column *c = &r->column[v->column + k];
    ns_copy(block[c->row], rows[c->from]);
  }
}

/* The checks of a state by the slots that were noted; one that was not there
 * then leaves the joists that have it. */
static void find_checks(const struct ns_replay *r,
                        const struct ns_step_review *v, struct bench *b,
                        int state, const struct ns_check **found) {
  const struct ns_state *s = state ? &b->result.fixed : &b->result.cut;
  const struct ns_slot *slot = r->slot + v->slot[state];
  struct ns_slot own[NS_MAX_CHECKS];
  int place = 0;
  ns_slots_of(&b->result, s, own);
  for (int k = 0; k < v->slots[state]; k++) found[k] = NULL;
  for (int k = 0; k < s->count; k++) {
    const struct ns_check *c = &b->result.check[s->first + k];
    int p = place;
    while (p < v->slots[state] && !ns_slots_alike(&slot[p], &own[k])) p++;
    if (p < v->slots[state]) {
      found[p] = c;
      place = p + 1;
      continue;
    }
    ns_lane off;
    LANES(i) off[i] = c->on[i] != 0 ? 0 : 1;
    hold(b, off);
  }
}

/* Joists in which a number is not the one that it was for all; where it does
 * not count ('on' is 0) it is none. */
NS_CLONES static void look(const struct ns_replay *r, const struct ns_take *t,
                           struct bench *b, const double *restrict v,
                           const double *restrict on) {
  double *restrict alive = b->alive;
  const double *restrict going = b->going;
  const double one = t->one;
  ns_lane other;
  LANES(i) other[i] = (v[i] == one) | (on[i] == 0) ? 0 : 1;
  LANES(i) alive[i] = other[i] != 0 ? 0 : alive[i];
  LANES(i) other[i] = going[i] != 0 ? other[i] : 0;
  if (ns_any(other))
    atomic_store_explicit(&r->failed[t - r->take], 1, memory_order_relaxed);
}

/* Places of the governing checks of a state. */
static void governing_at(const struct ns_result *r, const struct ns_state *s,
                         double *to) {
  for (int i = 0; i < NS_LANES; i++) {
    const int g = (int)s->governing[i];
    to[i] = g < 0 ? (double)NAN : r->check[g].at[i];
  }
}

static void take_number(const struct ns_replay *r, const struct ns_take *t,
                        struct bench *b, double (*rows)[NS_LANES],
                        const struct ns_check *(*found)[NS_MAX_CHECKS]) {
  ns_lane room, on;
  double *to = t->to >= 0 ? rows[t->to] : room;
  const double *from = to;
  const struct ns_result *q = &b->result;
  if (t->kind == NS_TAKE_ROW)
    from = (const double *)(const void *)((const char *)q + t->offset);
  else if (t->kind == NS_TAKE_GOVERNING)
    governing_at(q, t->state ? &q->fixed : &q->cut, to);
  else
    ns_slot_numbers(found[t->state][t->slot], t->row, to);
  if (t->to >= 0 && from != to) ns_copy(to, from);
  if (!t->sure) return;
  if (t->kind == NS_TAKE_CHECK && t->row == NS_SLOT_DECIDES)
    ns_slot_numbers(found[t->state][t->slot], NS_SLOT_ON, on);
  else
    ns_fill(on, 1);
  look(r, t, b, from, on);
}

/* What is taken of a review, out of the result. */
static void take(const struct ns_replay *r, const struct ns_step_review *v,
                 struct bench *b, double (*rows)[NS_LANES]) {
  const struct ns_check *found[2][NS_MAX_CHECKS];
  for (int s = 0; s < 2; s++)
    if (s == 0 || v->shape.fix.kind != NS_NO_FIX)
      find_checks(r, v, b, s, found[s]);
  for (int k = 0; k < v->takes; k++)
    take_number(r, &r->take[v->take + k], b, rows, found);
}

static void work_review(const struct ns_replay *r, const struct ns_step *s,
                        struct bench *b, double (*rows)[NS_LANES]) {
  const struct ns_step_review *v = &r->review[s->list];
  ns_lane good;
  fill_block(r, v, b, rows);
  ns_rate(&v->shape, v->rules, v->standard, &b->block, b->work, &b->result);
  LANES(i) good[i] = b->result.status[i] == NS_OK ? 1 : 0;
  hold(b, good);
  if (!ns_any(b->going)) return;
  take(r, v, b, rows);
  if (s->more >= 0) take(r, &r->review[s->more], b, rows);
}

/* ---- the work ---- */

/* Lanes past the last joist repeat it. */
static void load(const struct ns_replay_run *run, double (*rows)[NS_LANES],
                 int64_t at, int count) {
  const struct ns_replay *r = run->replay;
  for (int k = 0; k < r->inputs; k++)
    for (int i = 0; i < NS_LANES && r->input[k] >= 0; i++)
      rows[r->input[k]][i] = run->input[k][at + (i < count ? i : count - 1)];
}

/* Puts the numbers of the joists that are left to where they belong. */
static void put(const struct ns_replay_run *run, const struct ns_step *s,
                const struct bench *b, const double *from, int64_t at,
                int count) {
  const struct ns_target *t = &run->target[s->to];
  for (int i = 0; i < count; i++) {
    const int64_t place = (int64_t)run->place[at + i];
    if (b->alive[i] == 0) continue;
    if (t->numbers)
      t->numbers[place] = from[i];
    else
      t->codes[place] = (uint32_t)from[i];
  }
}

/* One step; puts come last, when all comparisons are made. */
static void go(const struct ns_replay *r, const struct ns_step *s,
               struct bench *b, double (*rows)[NS_LANES]) {
  switch (s->kind) {
  case NS_STEP_EQUAL:
  case NS_STEP_LESS:
  case NS_STEP_LESS_EQUAL:
    compare(b, s, rows[s->a], rows[s->b]);
    return;
  case NS_STEP_REVIEW:
    work_review(r, s, b, rows);
    return;
  case NS_STEP_JOINT:
    work_joint(&r->joint[s->list], b, rows);
    return;
  case NS_STEP_WORST:
    worst_of(r, s, rows);
    return;
  case NS_STEP_BY_NUMBER:
    by_number(r, s, rows);
    return;
  case NS_STEP_PUT:
    return;
  default:
    calculate(s->kind, rows[s->a], s->b < 0 ? rows[s->a] : rows[s->b],
              s->c < 0 ? rows[s->a] : rows[s->c], rows[s->to]);
  }
}

/* What a thread has before its first block. */
static void begin(const struct ns_replay *r, struct bench *b,
                  double (*rows)[NS_LANES]) {
  memset(&b->block, 0, sizeof b->block);
  memset(&b->joint, 0, sizeof b->joint);
  for (int k = 0; k < r->constants; k++)
    if (r->constant[k] >= 0) ns_fill(rows[r->constant[k]], r->value[k]);
  b->fresh = false;
}

static void work(const void *task, void *bench, int64_t n) {
  const struct ns_replay_run *run = task;
  const struct ns_replay *r = run->replay;
  struct bench *b = bench;
  double(*rows)[NS_LANES] = rows_of(b);
  const int64_t at = n * NS_LANES, rest = run->count - at;
  const int count = rest < NS_LANES ? (int)rest : NS_LANES;
  if (b->fresh) begin(r, b, rows);
  load(run, rows, at, count);
  for (int i = 0; i < NS_LANES; i++)
    b->alive[i] = b->going[i] = i < count ? 1 : 0;
  for (int k = 0; k < r->steps; k++) {
    const enum ns_step_kind kind = r->step[k].kind;
    go(r, &r->step[k], b, rows);
    if (kind >= NS_STEP_EQUAL && kind <= NS_STEP_REVIEW && !ns_any(b->going))
      break;
  }
  if (ns_any(b->alive))
    for (int k = 0; k < r->steps; k++)
      if (r->step[k].kind == NS_STEP_PUT)
        put(run, &r->step[k], b, rows[r->step[k].a], at, count);
  for (int i = 0; i < count; i++) run->left[at + i] = b->alive[i] == 0;
}

int64_t ns_replay_work(const struct ns_replay_run *run, int threads,
                       struct ns_work *own, void *room, ns_poll *poll,
                       void *data) {
  const size_t each = bench_size(run->replay);
  struct ns_blocks b = {.count = (run->count + NS_LANES - 1) / NS_LANES,
                        .work = work,
                        .task = run,
                        .poll = poll,
                        .data = data};
  if (threads > NS_MAX_THREADS) threads = NS_MAX_THREADS;
  if (threads > b.count) threads = (int)b.count;
  if (threads < 1) return 0;
  char *at = ns_first_line(room), *more = at + each * (size_t)threads;
  for (int t = 0; t < threads; t++, at += each) {
    struct bench *bench = (void *)at;
    bench->fresh = true;
    bench->work = t == 0 ? own : (void *)more;
    b.bench[t] = bench;
    if (t == 0) continue;
    ns_forget(bench->work);
    more += ns_lines_of(ns_work_size);
  }
  const int64_t done = ns_blocks_work(&b, threads) * NS_LANES;
  return done < run->count ? done : run->count;
}
