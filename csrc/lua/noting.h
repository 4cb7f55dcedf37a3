/* SPDX-License-Identifier: MIT
 * noting.h - noting what is done with columns while a repair's lines of Lua
 * work for some joists, so that it can be done again for others without Lua
 * (sweep/replay.h). What is not noted leaves a column without a number; a step
 * that needs one ends the noting, and the joists are worked by Lua as before.
 */
#ifndef NETSECTION_LUA_NOTING_H
#define NETSECTION_LUA_NOTING_H

#include "lua/bind.h"
#include "sweep/replay.h"

/* One side of an operation: a column, or a number for all lanes (n is -1), or
 * nothing (-2). */
struct nsb_side {
  const double *v;
  double one;
  lua_Integer n;
  int64_t id;
};

struct nsb_trace;
/* What is being noted; null: nothing is. */
struct nsb_trace *nsb_noting(lua_State *L);

/* A column that follows from others; one side is enough where it needs one. */
void nsb_note(lua_State *L, enum ns_step_kind kind, struct nsb_side a,
              struct nsb_side b, struct nsb_side c, struct nsb_numbers *to);
/* A comparison with one answer for all. */
void nsb_note_answer(lua_State *L, enum ns_step_kind kind, struct nsb_side a,
                     struct nsb_side b, bool answer);
/* A list, item by item (-2: none), then what is made of it. */
void nsb_note_item(lua_State *L, struct nsb_side item);
void nsb_note_list(lua_State *L, enum ns_step_kind kind, int count,
                   struct nsb_side a, struct nsb_numbers *to,
                   struct nsb_numbers *more);
void nsb_note_put(lua_State *L, const void *target, const void *places,
                  struct nsb_side v);
/* What cannot be noted: a number went out of a column. */
void nsb_note_lost(lua_State *L, const char *why);

/* A review, whose arguments are the table at 1: its joist, then its columns,
 * then what is taken of it. */
void nsb_note_review(lua_State *L, const struct nsb_packed *model,
                     const struct ns_rules *rules,
                     const struct ns_standard *standard);
void nsb_note_column(lua_State *L, int row, const struct nsb_numbers *from);
void nsb_note_reviewed(lua_State *L);
/* A check of a state, after those before it. */
void nsb_note_slot(lua_State *L, int state, const struct ns_slot *slot);
/* Whether a number was the same for all before and was not later. */
bool nsb_note_varies(lua_State *L, struct ns_take take);
/* The number of its column, 0 where it is one for all. */
int64_t nsb_note_take(lua_State *L, struct ns_take take);

/* A connection by itself: from: a side for each symbol of the record. */
void nsb_note_joint(lua_State *L, enum ns_mode mode, int branch,
                    struct nsb_side demand, const struct nsb_side *from,
                    struct nsb_numbers *const *to);

#endif
