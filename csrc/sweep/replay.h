/* SPDX-License-Identifier: MIT
 * replay.h - what a repair's lines did with the numbers of some joists, as a
 * list of steps: the same is done again for others, sixteen at a time, on
 * threads. Each comparison is a step too: a joist in which it comes out
 * otherwise is left, and its places stay as they were. */
#ifndef NETSECTION_REPLAY_H
#define NETSECTION_REPLAY_H

#include <stdatomic.h>

#include "joist/lanes.h"
#include "sweep/slot.h"
#include "sweep/sweep.h"

enum ns_step_kind {
  NS_STEP_ADD,
  NS_STEP_SUB,
  NS_STEP_MUL,
  NS_STEP_DIV,
  NS_STEP_MOST,
  NS_STEP_LEAST,
  NS_STEP_LARGER, /* 1 where a > b, else 0 */
  NS_STEP_SIZE,
  NS_STEP_MINUS,
  NS_STEP_UP,
  NS_STEP_DOWN,
  NS_STEP_CHOSEN,     /* b where a is not 0, else c */
  NS_STEP_EQUAL,      /* comparisons that came out 'expected' */
  NS_STEP_LESS,       /* a < b */
  NS_STEP_LESS_EQUAL, /* a <= b */
  NS_STEP_REVIEW,     /* 'list', whose result serves for review 'more' too */
  NS_STEP_JOINT,
  NS_STEP_WORST,     /* of pairs: ratio and whether it decides */
  NS_STEP_BY_NUMBER, /* of a list the one with the number a */
  NS_STEP_PUT,       /* a to target 'to' */
  NS_STEP_NONE       /* one that was taken out */
};

/* Numbers are known by the rows of sixteen in which they stand; -1: none. */
struct ns_step {
  enum ns_step_kind kind;
  int expected;
  int to, more; /* what it gives */
  int a, b, c;  /* what it takes */
  int list, count;
};

/* A row of the block that a review takes from a row of numbers. */
struct ns_step_column {
  int row, from;
};

/* A number of a review: a row of the result at an offset, the place of the
 * governing check of a state, or a row of a check. Where it is sure it was one
 * number for all, and has to be it again. */
enum ns_take_kind { NS_TAKE_ROW, NS_TAKE_GOVERNING, NS_TAKE_CHECK };
struct ns_take {
  enum ns_take_kind kind;
  int state, slot; /* state 0: cut, 1: fixed; slot: from the state's first */
  enum ns_slot_row row;
  size_t offset;
  int to;
  bool sure;
  double one;
};

struct ns_step_review {
  struct ns_shape shape;
  const struct ns_rules *rules;
  const struct ns_standard *standard;
  const double *fixed; /* a number for each of the replay's rows of a block */
  int column, columns, take, takes;
  int slot[2], slots[2]; /* checks of the states that were there, in order */
};

struct ns_step_joint {
  enum ns_mode mode;
  int branch;
  int from[NS_RECORDS], demand;
  int to[3]; /* demand, capacity, ratio */
};

struct ns_replay {
  int steps, rows, inputs, constants, block_rows;
  const struct ns_step *step;
  const int *list;
  const struct ns_step_review *review;
  const struct ns_step_joint *joint;
  const struct ns_step_column *column;
  const struct ns_take *take;
  atomic_uchar *failed; /* takes that were another number */
  const struct ns_slot *slot;
  const int *input;    /* row of each input */
  const int *constant; /* row of each constant */
  const double *value; /* of each constant */
  const int *block_row;
};

/* A column that steps put into. */
struct ns_target {
  double *numbers; /* or */
  uint32_t *codes;
};

struct ns_replay_run {
  const struct ns_replay *replay;
  int64_t count;
  const double *const *input;
  const double *place; /* of each joist in the targets */
  struct ns_target target[NS_MAX_OUTPUTS + 1];
  unsigned char *left; /* 1 for each joist that was not worked */
};

/* What one number is by another: shared with the columns of Lua, so that both
 * have the same bits. Of two equal numbers the larger and the smaller are the
 * first. */
NS_INLINE double ns_worked(enum ns_step_kind o, double a, double b) {
  switch (o) {
  case NS_STEP_ADD:
    return a + b;
  case NS_STEP_SUB:
    return a - b;
  case NS_STEP_MUL:
    return a * b;
  case NS_STEP_DIV:
    return a / b;
  case NS_STEP_MOST:
    return a < b ? b : a;
  case NS_STEP_LEAST:
    return b < a ? b : a;
  default:
    return a > b ? 1 : 0;
  }
}

/* The k-th of a list of checks joins the worst so far. What is larger by
 * rounding alone is no larger, as in state.c; NaN: not there. */
NS_INLINE void ns_worse(double q, double decides, double k, double *ratio,
                        double *number) {
  const bool counts = (q > -1) & (decides != 0);
  const bool more = counts & ((q > *ratio * (1 + 1e-12)) | (*number == 0));
  *ratio = counts & (q > *ratio) ? q : *ratio;
  *number = more ? k : *number;
}

/* Room that so many threads need, in bytes, beside the working room of the
 * caller's. */
size_t ns_replay_room(const struct ns_replay *replay, int threads);
/* Works all joists; how many were looked at, less where 'poll' said so. */
int64_t ns_replay_work(const struct ns_replay_run *run, int threads,
                       struct ns_work *own, void *room, ns_poll *poll,
                       void *data);

#endif
