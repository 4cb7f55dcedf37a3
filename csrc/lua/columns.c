/* SPDX-License-Identifier: MIT
 * columns.c - numbers of many joists that calculate like one: a + b of two
 * such columns is the column of the sums. What Lua works out for one joist it
 * works out for thousands in one go, by the same lines, so both have the same
 * bits. A comparison has one answer; where the joists differ it raises the
 * column of their answers, by which the caller parts them. */
#include <string.h>

#include "joist/lanes.h"
#include "lua/noting.h"

/* What stands in a text for a number that is not one. */
#define MARK "\032"

struct nsb_numbers *nsb_lanes(lua_State *L, lua_Integer n) {
  const size_t size = sizeof(double) * (size_t)n;
  struct nsb_numbers *c =
      lua_newuserdatauv(L, sizeof(struct nsb_numbers) + size, 0);
  c->n = n;
  c->id = 0;
  luaL_setmetatable(L, NSB_LANED);
  return c;
}

static struct nsb_side side_of(lua_State *L, int index) {
  const struct nsb_numbers *c = luaL_testudata(L, index, NSB_LANED);
  if (c) return (struct nsb_side){.v = c->v, .n = c->n, .id = c->id};
  return (struct nsb_side){.one = luaL_checknumber(L, index), .n = -1};
}

static lua_Integer lanes_of(lua_State *L, struct nsb_side a,
                            struct nsb_side b) {
  if (a.n >= 0 && b.n >= 0 && a.n != b.n)
    luaL_error(L, "columns of %I and %I lanes", (LUAI_UACINT)a.n,
               (LUAI_UACINT)b.n);
  return a.n >= 0 ? a.n : b.n;
}

static double at(struct nsb_side s, lua_Integer i) {
  return s.v ? s.v[i] : s.one;
}

static const struct nsb_side NONE = {.n = -2};

NS_INLINE void each(enum ns_step_kind o, struct nsb_side a, struct nsb_side b,
                    double *to, lua_Integer n) {
  if (a.v && b.v)
    for (lua_Integer i = 0; i < n; i++) to[i] = ns_worked(o, a.v[i], b.v[i]);
  else if (a.v)
    for (lua_Integer i = 0; i < n; i++) to[i] = ns_worked(o, a.v[i], b.one);
  else
    for (lua_Integer i = 0; i < n; i++) to[i] = ns_worked(o, a.one, b.v[i]);
}

/* Of two plain numbers a plain number. */
NS_INLINE int operate(lua_State *L, enum ns_step_kind o) {
  const struct nsb_side a = side_of(L, 1), b = side_of(L, 2);
  const lua_Integer n = lanes_of(L, a, b);
  if (n < 0) {
    lua_pushnumber(L, ns_worked(o, a.one, b.one));
    return 1;
  }
  struct nsb_numbers *to = nsb_lanes(L, n);
  each(o, a, b, to->v, n);
  nsb_note(L, o, a, b, NONE, to);
  return 1;
}

static int lanes_add(lua_State *L) { return operate(L, NS_STEP_ADD); }
static int lanes_sub(lua_State *L) { return operate(L, NS_STEP_SUB); }
static int lanes_mul(lua_State *L) { return operate(L, NS_STEP_MUL); }
static int lanes_div(lua_State *L) { return operate(L, NS_STEP_DIV); }
static int core_most(lua_State *L) { return operate(L, NS_STEP_MOST); }
static int core_least(lua_State *L) { return operate(L, NS_STEP_LEAST); }
/* larger(a, b) -> 1 where a > b, else 0, lane by lane. */
static int core_larger(lua_State *L) { return operate(L, NS_STEP_LARGER); }

/* Of a column the sizes of its numbers; of a number its own. */
static int core_size(lua_State *L) {
  const struct nsb_side a = side_of(L, 1);
  if (a.n < 0) {
    lua_pushnumber(L, fabs(a.one));
    return 1;
  }
  struct nsb_numbers *to = nsb_lanes(L, a.n);
  for (lua_Integer i = 0; i < a.n; i++) to->v[i] = fabs(a.v[i]);
  nsb_note(L, NS_STEP_SIZE, a, NONE, NONE, to);
  return 1;
}

static int lanes_unm(lua_State *L) {
  const struct nsb_side a = side_of(L, 1);
  struct nsb_numbers *to = nsb_lanes(L, a.n);
  for (lua_Integer i = 0; i < a.n; i++) to->v[i] = -a.v[i];
  nsb_note(L, NS_STEP_MINUS, a, NONE, NONE, to);
  return 1;
}

/* Raises the column of answers where they differ. */
static int one_answer(lua_State *L, enum ns_step_kind kind, struct nsb_side a,
                      struct nsb_side b, const struct nsb_numbers *answers) {
  lua_Integer yes = 0;
  for (lua_Integer i = 0; i < answers->n; i++) yes += answers->v[i] != 0;
  if (yes > 0 && yes < answers->n) return lua_error(L);
  nsb_note_answer(L, kind, a, b, yes > 0);
  lua_pushboolean(L, yes > 0);
  return 1;
}

/* Two columns alone: a number and a column are never equal to Lua. */
static int lanes_eq(lua_State *L) {
  const struct nsb_side a = side_of(L, 1), b = side_of(L, 2);
  const lua_Integer n = lanes_of(L, a, b);
  struct nsb_numbers *to = nsb_lanes(L, n);
  for (lua_Integer i = 0; i < n; i++) to->v[i] = at(a, i) == at(b, i) ? 1 : 0;
  return one_answer(L, NS_STEP_EQUAL, a, b, to);
}

static int lanes_lt(lua_State *L) {
  const struct nsb_side a = side_of(L, 1), b = side_of(L, 2);
  const lua_Integer n = lanes_of(L, a, b);
  struct nsb_numbers *to = nsb_lanes(L, n);
  for (lua_Integer i = 0; i < n; i++) to->v[i] = at(a, i) < at(b, i) ? 1 : 0;
  return one_answer(L, NS_STEP_LESS, a, b, to);
}

static int lanes_le(lua_State *L) {
  const struct nsb_side a = side_of(L, 1), b = side_of(L, 2);
  const lua_Integer n = lanes_of(L, a, b);
  struct nsb_numbers *to = nsb_lanes(L, n);
  for (lua_Integer i = 0; i < n; i++) to->v[i] = at(a, i) <= at(b, i) ? 1 : 0;
  return one_answer(L, NS_STEP_LESS_EQUAL, a, b, to);
}

static int lanes_said(lua_State *L) {
  lua_pushliteral(L, MARK);
  return 1;
}

/* chosen(which, a, b) -> a in the lanes where 'which' is not 0, else b. */
static int core_chosen(lua_State *L) {
  const struct nsb_side c = side_of(L, 1), a = side_of(L, 2), b = side_of(L, 3);
  const lua_Integer most = lanes_of(L, a, b);
  const lua_Integer n = lanes_of(L, c, (struct nsb_side){.n = most});
  if (n < 0) {
    lua_pushnumber(L, c.one != 0 ? a.one : b.one);
    return 1;
  }
  struct nsb_numbers *to = nsb_lanes(L, n);
  for (lua_Integer i = 0; i < n; i++)
    to->v[i] = at(c, i) != 0 ? at(a, i) : at(b, i);
  nsb_note(L, NS_STEP_CHOSEN, c, a, b, to);
  return 1;
}

/* The whole number that 'whole' gives, lane by lane. */
static int rounded(lua_State *L, enum ns_step_kind kind,
                   double (*whole)(double)) {
  const struct nsb_side a = side_of(L, 1);
  if (a.n < 0) {
    lua_pushnumber(L, whole(a.one));
    return 1;
  }
  struct nsb_numbers *to = nsb_lanes(L, a.n);
  for (lua_Integer i = 0; i < a.n; i++) to->v[i] = whole(a.v[i]);
  nsb_note(L, kind, a, NONE, NONE, to);
  return 1;
}

/* rounded_up(a), rounded_down(a) -> the next whole number, lane by lane. */
static int core_rounded_up(lua_State *L) {
  return rounded(L, NS_STEP_UP, ceil);
}
static int core_rounded_down(lua_State *L) {
  return rounded(L, NS_STEP_DOWN, floor);
}

/* same(lanes) -> the number that all lanes have; where they differ, raises the
 * column of those below the middle of the largest and the least: the parts that
 * a caller makes are few steps deep. */
static int core_same(lua_State *L) {
  const struct nsb_side a = side_of(L, 1);
  if (a.n < 0) {
    lua_pushvalue(L, 1);
    return 1;
  }
  double least = a.v[0], most = a.v[0];
  for (lua_Integer i = 1; i < a.n; i++) {
    least = a.v[i] < least ? a.v[i] : least;
    most = a.v[i] > most ? a.v[i] : most;
  }
  const double middle = least + (most - least) / 2;
  struct nsb_numbers *to = nsb_lanes(L, a.n);
  for (lua_Integer i = 0; i < a.n; i++)
    to->v[i] =
        least < most ? (a.v[i] <= middle) & (a.v[i] < most) : a.v[i] == a.v[0];
  one_answer(L, NS_STEP_EQUAL, a, (struct nsb_side){.one = a.v[0], .n = -1},
             to);
  lua_pushnumber(L, a.v[0]);
  return 1;
}

/* highest(lanes) -> the largest of them; no lane may rest on more than that it
 * is no larger. */
static int core_highest(lua_State *L) {
  const struct nsb_side a = side_of(L, 1);
  double most = a.v ? a.v[0] : a.one;
  for (lua_Integer i = 1; i < a.n; i++) most = a.v[i] > most ? a.v[i] : most;
  if (a.v)
    nsb_note_answer(L, NS_STEP_LESS_EQUAL, a,
                    (struct nsb_side){.one = most, .n = -1}, true);
  lua_pushnumber(L, most);
  return 1;
}

/* ---- lists of numbers and columns ---- */

/* Field 'name' of item k of the list at 1, on the stack; none: n is -2. With
 * metamethods, since a check may stand on another (notch_screws.lua). */
static struct nsb_side item_side(lua_State *L, lua_Integer k,
                                 const char *name) {
  struct nsb_side s = {.n = -2};
  lua_rawgeti(L, 1, k);
  luaL_checktype(L, -1, LUA_TTABLE);
  lua_getfield(L, -1, name);
  if (lua_isboolean(L, -1))
    s = (struct nsb_side){.one = lua_toboolean(L, -1), .n = -1};
  else if (!lua_isnil(L, -1))
    s = side_of(L, -1);
  lua_remove(L, -2);
  return s;
}

/* Lanes of all ratios in a list of checks; -1: plain numbers. */
static lua_Integer lanes_in(lua_State *L, lua_Integer count) {
  lua_Integer n = -1;
  for (lua_Integer k = 1; k <= count; k++) {
    const struct nsb_side r = item_side(L, k, "ratio");
    if (r.n >= 0 && n >= 0 && r.n != n) luaL_error(L, "checks of other lanes");
    n = r.n >= 0 ? r.n : n;
    lua_pop(L, 1);
  }
  return n;
}

/* worst(checks) -> the largest ratio of those that decide (0 where there is
 * none) and the number of the first that has it (0), columns where the ratios
 * are. What is larger by rounding alone is no larger, as in state.c. */
static int core_worst(lua_State *L) {
  luaL_checktype(L, 1, LUA_TTABLE);
  const lua_Integer count = (lua_Integer)lua_rawlen(L, 1);
  const lua_Integer n = lanes_in(L, count), size = n < 0 ? 1 : n;
  struct nsb_numbers *ratio = nsb_lanes(L, size), *number = nsb_lanes(L, size);
  memset(ratio->v, 0, sizeof *ratio->v * (size_t)size);
  memset(number->v, 0, sizeof *number->v * (size_t)size);
  for (lua_Integer k = 1; k <= count; k++) {
    const struct nsb_side r = item_side(L, k, "ratio");
    const struct nsb_side b = item_side(L, k, "binding");
    const bool none = r.n == -2 || b.n == -2 || (b.n == -1 && b.one == 0);
    if (b.n >= 0 && b.n != n) return luaL_error(L, "checks of other lanes");
    for (lua_Integer i = 0; i < size && !none; i++)
      ns_worse(at(r, i), at(b, i), (double)k, &ratio->v[i], &number->v[i]);
    if (n >= 0) nsb_note_item(L, none ? NONE : r);
    if (n >= 0) nsb_note_item(L, none ? NONE : b);
    lua_pop(L, 2);
  }
  if (n >= 0) {
    nsb_note_list(L, NS_STEP_WORST, (int)count, NONE, ratio, number);
    return 2;
  }
  lua_pushnumber(L, ratio->v[0]);
  lua_pushinteger(L, (lua_Integer)number->v[0]);
  return 2;
}

/* by_number(list, numbers, name) -> of the list's item with the number of each
 * lane its field 'name', NaN where there is none. */
static int core_by_number(lua_State *L) {
  luaL_checktype(L, 1, LUA_TTABLE);
  const struct nsb_numbers *w = luaL_checkudata(L, 2, NSB_LANED);
  const char *name = luaL_checkstring(L, 3);
  const lua_Integer count = (lua_Integer)lua_rawlen(L, 1);
  struct nsb_numbers *to = nsb_lanes(L, w->n);
  for (lua_Integer i = 0; i < w->n; i++) to->v[i] = (double)NAN;
  for (lua_Integer k = 1; k <= count; k++) {
    const struct nsb_side s = item_side(L, k, name);
    const double wanted = (double)k;
    for (lua_Integer i = 0; i < w->n && s.n > -2; i++)
      to->v[i] = w->v[i] == wanted ? at(s, i) : to->v[i];
    nsb_note_item(L, s);
    lua_pop(L, 1);
  }
  nsb_note_list(L, NS_STEP_BY_NUMBER, (int)count,
                (struct nsb_side){.v = w->v, .n = w->n, .id = w->id}, to, NULL);
  return 1;
}

/* ---- from columns of points and back ---- */

static lua_Integer count_of(lua_State *L, int index) {
  const lua_Integer n = luaL_checkinteger(L, index);
  luaL_argcheck(L, n >= 1 && n <= 1 << 24, index, "a count of lanes expected");
  return n;
}

/* lanes(numbers, first, count, every) -> of an axis of a sweep that steps once
 * in so many points, the values at 'count' points after the point 'first'. */
static int core_lanes(lua_State *L) {
  const struct nsb_numbers *v = luaL_testudata(L, 1, NSB_LANED);
  if (!v) v = luaL_checkudata(L, 1, NSB_NUMBERS);
  const lua_Integer first = luaL_checkinteger(L, 2), n = count_of(L, 3),
                    every = luaL_checkinteger(L, 4);
  luaL_argcheck(L, first >= 0, 2, "a point expected");
  luaL_argcheck(L, every >= 1, 4, "1 or more expected");
  luaL_argcheck(L, v->n >= 1, 1, "an axis with steps expected");
  double *to = nsb_lanes(L, n)->v;
  for (lua_Integer i = 0; i < n; i++) to[i] = v->v[(first + i) / every % v->n];
  return 1;
}

/* numbered(n) -> lanes 0, 1, ... n - 1. */
static int core_numbered(lua_State *L) {
  const lua_Integer n = count_of(L, 1);
  double *to = nsb_lanes(L, n)->v;
  for (lua_Integer i = 0; i < n; i++) to[i] = (double)i;
  return 1;
}

/* parted(lanes, which, wanted) -> those lanes in which 'which' is not 0, or is
 * 0 where 'wanted' is false; one lane alone as a plain number. */
static int core_parted(lua_State *L) {
  const struct nsb_numbers *v = luaL_checkudata(L, 1, NSB_LANED);
  const struct nsb_numbers *w = luaL_checkudata(L, 2, NSB_LANED);
  const bool wanted = lua_toboolean(L, 3);
  lua_Integer n = 0, k = 0;
  luaL_argcheck(L, v->n == w->n, 2, "as many lanes expected");
  for (lua_Integer i = 0; i < w->n; i++) n += (w->v[i] != 0) == wanted;
  double *to = nsb_lanes(L, n)->v;
  for (lua_Integer i = 0; i < w->n; i++)
    if ((w->v[i] != 0) == wanted) to[k++] = v->v[i];
  return 1;
}

/* lane(lanes, i) -> the number of lane i. */
static int core_lane(lua_State *L) {
  const struct nsb_side a = side_of(L, 1);
  const lua_Integer i = luaL_checkinteger(L, 2);
  luaL_argcheck(L, i >= 1 && (a.n < 0 || i <= a.n), 2, "no such lane");
  if (a.v) nsb_note_lost(L, "a lane of a column");
  lua_pushnumber(L, at(a, i - 1));
  return 1;
}

/* first(lanes) -> the number of the first, which stands for all in a joist
 * whose columns are named beside it: nothing else follows from it. */
static int core_first(lua_State *L) {
  lua_pushnumber(L, at(side_of(L, 1), 0));
  return 1;
}

/* put(column, at, places, value): the value of each lane goes to its place
 * after the place 'at'; NaN is none. */
static int core_put(lua_State *L) {
  struct nsb_numbers *c = luaL_testudata(L, 1, NSB_NUMBERS);
  struct nsb_faults *f = c ? NULL : luaL_checkudata(L, 1, NSB_FAULTS);
  const lua_Integer start = luaL_checkinteger(L, 2), size = c ? c->n : f->n;
  const struct nsb_numbers *p = luaL_checkudata(L, 3, NSB_LANED);
  const struct nsb_side v = side_of(L, 4);
  luaL_argcheck(L, v.n < 0 || v.n == p->n, 4, "as many lanes expected");
  for (lua_Integer i = 0; i < p->n; i++) {
    const double to = (double)start + p->v[i];
    luaL_argcheck(L, to >= 0 && to < (double)size, 3, "no such place");
    if (c)
      c->v[(lua_Integer)to] = at(v, i);
    else
      f->v[(lua_Integer)to] = (uint32_t)at(v, i);
  }
  nsb_note_put(L, lua_touserdata(L, 1), p, v);
  return 0;
}

/* scatter(column, places, each, values, shift, at, count): 'each' numbers of a
 * lane go, one after another, to where its place is times 'each', less 'shift',
 * after the place 'at'; what is not among 'count' there is left out. 'values':
 * each x lanes numbers, or one for all. */
static int core_scatter(lua_State *L) {
  struct nsb_numbers *c = luaL_testudata(L, 1, NSB_NUMBERS);
  struct nsb_faults *f = c ? NULL : luaL_checkudata(L, 1, NSB_FAULTS);
  const struct nsb_numbers *p = luaL_checkudata(L, 2, NSB_LANED);
  const lua_Integer each = luaL_checkinteger(L, 3);
  const struct nsb_numbers *v = luaL_testudata(L, 4, NSB_NUMBERS);
  const struct nsb_faults *codes = v ? NULL : luaL_testudata(L, 4, NSB_FAULTS);
  const double one = v || codes ? 0 : luaL_checknumber(L, 4);
  const lua_Integer shift = luaL_checkinteger(L, 5),
                    to = luaL_checkinteger(L, 6),
                    count = luaL_checkinteger(L, 7), size = c ? c->n : f->n;
  luaL_argcheck(L, each >= 1, 3, "1 or more expected");
  luaL_argcheck(L, !v || v->n >= each * p->n, 4, "too few");
  luaL_argcheck(L, !codes || codes->n >= each * p->n, 4, "too few");
  luaL_argcheck(L, to >= 0 && count >= 0 && to <= size && count <= size - to, 7,
                "too many");
  for (lua_Integer i = 0; i < p->n; i++) {
    const lua_Integer from = (lua_Integer)p->v[i] * each - shift;
    for (lua_Integer k = 0; k < each; k++) {
      const lua_Integer n = i * each + k, place = from + k;
      if (place < 0 || place >= count) continue;
      const double x = v ? v->v[n] : codes ? codes->v[n] : one;
      if (c)
        c->v[to + place] = x;
      else
        f->v[to + place] = (uint32_t)x;
    }
  }
  return 0;
}

/* Numbers of a list, into 'to'; how many. */
static int whole_list(lua_State *L, int index, lua_Integer *to) {
  luaL_checktype(L, index, LUA_TTABLE);
  const lua_Unsigned n = lua_rawlen(L, index);
  luaL_argcheck(L, n >= 1 && n <= NS_MAX_AXES, index, "1 to 16 axes expected");
  for (int k = 0; k < (int)n; k++) {
    lua_rawgeti(L, index, k + 1);
    to[k] = luaL_checkinteger(L, -1);
    luaL_argcheck(L, to[k] >= 1, index, "1 or more expected");
    lua_pop(L, 1);
  }
  return (int)n;
}

/* turned(from, sizes, strides, to, at): numbers of points whose last axis is
 * the fastest, each to the place after 'at' that is the sum of steps times
 * strides along its axes. */
static int core_turned(lua_State *L) {
  const struct nsb_numbers *v = luaL_testudata(L, 1, NSB_NUMBERS);
  const struct nsb_faults *f = v ? NULL : luaL_checkudata(L, 1, NSB_FAULTS);
  struct nsb_numbers *to = v ? luaL_checkudata(L, 4, NSB_NUMBERS) : NULL;
  struct nsb_faults *codes = v ? NULL : luaL_checkudata(L, 4, NSB_FAULTS);
  lua_Integer size[NS_MAX_AXES], stride[NS_MAX_AXES], step[NS_MAX_AXES] = {0};
  const int axes = whole_list(L, 2, size);
  luaL_argcheck(L, whole_list(L, 3, stride) == axes, 3, "one for each axis");
  const lua_Integer at = luaL_checkinteger(L, 5), all = v ? v->n : f->n,
                    room = v ? to->n : codes->n;
  lua_Integer count = 1, last = at;
  for (int a = 0; a < axes; a++) {
    luaL_argcheck(L, size[a] <= all / count, 1, "too few");
    luaL_argcheck(L, stride[a] <= room && size[a] - 1 <= room / stride[a], 4,
                  "too few");
    count *= size[a];
    last += (size[a] - 1) * stride[a];
  }
  luaL_argcheck(L, at >= 0 && last < room, 4, "too few");
  for (lua_Integer n = 0, place = at; n < count; n++) {
    if (v)
      to->v[place] = v->v[n];
    else
      codes->v[place] = f->v[n];
    for (int a = axes - 1; a >= 0; a--) {
      place += stride[a];
      if (++step[a] < size[a]) break;
      place -= size[a] * stride[a];
      step[a] = 0;
    }
  }
  return 0;
}

/* faulty(faults, each) -> of lanes with 'each' points the column of those in
 * which a point has a fault; nothing where there is none. */
static int core_faulty(lua_State *L) {
  const struct nsb_faults *f = luaL_checkudata(L, 1, NSB_FAULTS);
  const lua_Integer each = luaL_checkinteger(L, 2);
  luaL_argcheck(L, each >= 1 && each <= f->n, 2, "a count of points expected");
  const lua_Integer n = f->n / each;
  bool any = false;
  double *to = nsb_lanes(L, n)->v;
  for (lua_Integer i = 0; i < n; i++) {
    bool wrong = false;
    for (lua_Integer k = 0; k < each; k++) wrong |= f->v[i * each + k] != 0;
    to[i] = wrong ? 1 : 0;
    any |= wrong;
  }
  return any ? 1 : 0;
}

static int lanes_len(lua_State *L) {
  const struct nsb_numbers *c = luaL_checkudata(L, 1, NSB_LANED);
  lua_pushinteger(L, c->n);
  return 1;
}

static const luaL_Reg operations[] = {
    {"__add", lanes_add},       {"__sub", lanes_sub},     {"__mul", lanes_mul},
    {"__div", lanes_div},       {"__unm", lanes_unm},     {"__lt", lanes_lt},
    {"__le", lanes_le},         {"__eq", lanes_eq},       {"__len", lanes_len},
    {"__tostring", lanes_said}, {"__concat", lanes_said}, {NULL, NULL}};

static const luaL_Reg functions[] = {{"most", core_most},
                                     {"least", core_least},
                                     {"larger", core_larger},
                                     {"chosen", core_chosen},
                                     {"rounded_up", core_rounded_up},
                                     {"rounded_down", core_rounded_down},
                                     {"same", core_same},
                                     {"highest", core_highest},
                                     {"worst", core_worst},
                                     {"by_number", core_by_number},
                                     {"lanes", core_lanes},
                                     {"numbered", core_numbered},
                                     {"parted", core_parted},
                                     {"lane", core_lane},
                                     {"first", core_first},
                                     {"put", core_put},
                                     {"size", core_size},
                                     {"scatter", core_scatter},
                                     {"turned", core_turned},
                                     {"faulty", core_faulty},
                                     {NULL, NULL}};

/* Puts columns that calculate into the module. */
int nsb_open_columns(lua_State *L) {
  luaL_newmetatable(L, NSB_LANED);
  luaL_setfuncs(L, operations, 0);
  lua_pop(L, 1);
  luaL_setfuncs(L, functions, 0);
  lua_pushliteral(L, MARK);
  lua_setfield(L, -2, "mark");
  return 0;
}
