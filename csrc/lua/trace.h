/* SPDX-License-Identifier: MIT
 * trace.h - a list of steps while it is noted and when it stands. Private to
 * noting.c, trace.c and replay.c. */
#ifndef NETSECTION_LUA_TRACE_H
#define NETSECTION_LUA_TRACE_H

#include "lua/noting.h"

/* Lists that grow while steps are noted, each a userdata of the trace. */
enum nsb_list {
  NSB_STEPS,
  NSB_ITEMS,
  NSB_REVIEWS,
  NSB_MODELS,
  NSB_JOINTS,
  NSB_COLUMNS,
  NSB_TAKES,
  NSB_SLOTS,
  NSB_VALUES,
  NSB_WIDE,
  NSB_MADE, /* what stands when all is noted */
  NSB_LISTS
};

/* A number of sixteen: of an input, a constant, or what a step gives. */
struct nsb_value {
  bool constant, needed;
  double one;
  int made;      /* the step that gives it */
  int row, last; /* where it stands; the last step that reads it */
};

struct nsb_grown {
  void *at;
  int n, room;
};

enum { NSB_HASH = 1 << 13, NSB_MOST_VALUES = 1 << 15 };

struct nsb_trace {
  struct ns_replay replay;
  const char *why; /* nothing can be made of it */
  int64_t first;   /* the number of the first value's column */
  struct nsb_grown list[NSB_LISTS];
  const void *target[NS_MAX_OUTPUTS + 1], *places;
  int targets, inputs;
  int review, cursor; /* the review that is being noted, its next take */
  bool again;         /* it is one that was noted before */
  int of_step[NSB_HASH], of_value[NSB_HASH]; /* 1 + number; 0: none */
};

/* One for the module: columns are numbered on from trace to trace. */
struct nsb_recorder {
  struct nsb_trace *open;
  int64_t next;
};

/* The recorder, on top of the stack. */
struct nsb_recorder *nsb_recorder(lua_State *L);
/* Makes it, for the module. */
void nsb_new_recorder(lua_State *L);

/* Room for so many more items of a list of the open trace, which are zero. */
void *nsb_add(lua_State *L, struct nsb_trace *t, enum nsb_list which, int n);
struct nsb_value *nsb_value(struct nsb_trace *t, int n);
struct ns_step *nsb_step(struct nsb_trace *t, int n);
struct ns_step_review *nsb_review(struct nsb_trace *t, int n);
/* The numbers of a review's joist, a row each. */
double *nsb_model_of(struct nsb_trace *t, int n);
/* All is noted: what is needed of it stays, and stands in rows. */
void nsb_finish(lua_State *L, struct nsb_trace *t);

#endif
