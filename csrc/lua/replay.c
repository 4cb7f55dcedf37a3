/* SPDX-License-Identifier: MIT
 * replay.c - for Lua: what is noted while its lines work for some joists, and
 * the same for others on threads. */
#include <string.h>

#include "lua/trace.h"

/* ---- for Lua ---- */

/* Item k of a list on the stack: a column. */
static struct nsb_numbers *lanes_item(lua_State *L, int list, int k) {
  lua_rawgeti(L, list, k);
  struct nsb_numbers *c = luaL_testudata(L, -1, NSB_LANED);
  if (!c) luaL_error(L, "note: %d: lanes expected", k);
  lua_pop(L, 1);
  return c;
}

static int length(lua_State *L, int list, int most) {
  luaL_checktype(L, list, LUA_TTABLE);
  const lua_Unsigned n = lua_rawlen(L, list);
  luaL_argcheck(L, n <= (lua_Unsigned)most, list, "too many");
  return (int)n;
}

/* Numbers that were sure in traces before and failed later. */
static void read_failed(lua_State *L, struct nsb_trace *t, int list) {
  const int n = length(L, list, 1 << 10);
  for (int k = 1; k <= n; k++) {
    lua_rawgeti(L, list, k);
    const struct nsb_trace *o = luaL_checkudata(L, -1, NSB_TRACE);
    for (int v = 0; v < o->list[NSB_REVIEWS].n; v++) {
      const struct ns_step_review *w =
          (const struct ns_step_review *)o->list[NSB_REVIEWS].at + v;
      for (int i = w->take; i < w->take + w->takes; i++)
        if (atomic_load(&o->replay.failed[i])) {
          struct ns_take *to = nsb_add(L, t, NSB_WIDE, 1);
          *to = o->replay.take[i];
          to->slot = v;
        }
    }
    lua_pop(L, 1);
  }
}

/* note(inputs, places, targets, traces): notes what follows from the columns
 * of a list and goes by 'places' into columns of another. */
static int core_note(lua_State *L) {
  const int inputs = length(L, 1, NS_MAX_COLUMNS);
  const void *places = luaL_checkudata(L, 2, NSB_LANED);
  const int targets = length(L, 3, NS_MAX_OUTPUTS + 1);
  lua_settop(L, 4);
  struct nsb_trace *t = lua_newuserdatauv(L, sizeof *t, NSB_LISTS + 1);
  memset(t, 0, sizeof *t);
  luaL_setmetatable(L, NSB_TRACE);
  lua_newtable(L);
  lua_setiuservalue(L, 5, NSB_LISTS + 1);
  struct nsb_recorder *r = nsb_recorder(L);
  if (r->open) r->next = r->open->first + r->open->list[NSB_VALUES].n;
  r->open = NULL;
  lua_pushvalue(L, 5);
  lua_setiuservalue(L, -2, 1);
  t->places = places;
  t->targets = targets;
  t->inputs = inputs;
  t->first = r->next;
  for (int k = 0; k < targets; k++) {
    lua_rawgeti(L, 3, k + 1);
    t->target[k] = lua_touserdata(L, -1);
    lua_pop(L, 1);
  }
  for (int k = 0; k < inputs; k++) lanes_item(L, 1, k + 1)->id = t->first + k;
  struct nsb_value *v = nsb_add(L, t, NSB_VALUES, inputs);
  for (int k = 0; k < inputs; k++)
    v[k] = (struct nsb_value){.row = -1, .last = -1, .made = -1};
  read_failed(L, t, 4);
  r->open = t;
  return 0;
}

/* noted(good) -> the trace of what was noted; else nothing, and why. */
static int core_noted(lua_State *L) {
  luaL_checktype(L, 1, LUA_TBOOLEAN);
  const bool good = lua_toboolean(L, 1);
  struct nsb_recorder *r = nsb_recorder(L);
  struct nsb_trace *t = r->open;
  lua_getiuservalue(L, -1, 1);
  if (t) r->next = t->first + t->list[NSB_VALUES].n;
  if (t && good && !t->why) nsb_finish(L, t);
  r->open = NULL;
  lua_pushnil(L);
  lua_setiuservalue(L, -3, 1);
  if (t && good && !t->why) return 1;
  lua_pushnil(L);
  lua_pushstring(L, t && t->why ? t->why : "nothing was noted");
  return 2;
}

/* What the caller's thread looks at: an interruption, which shows as a hook
 * that was not there. */
struct watch {
  lua_State *main;
  lua_Hook hook;
};

static bool watch(void *data, int64_t done) {
  const struct watch *w = data;
  (void)done;
  return lua_gethook(w->main) == w->hook;
}

/* The columns that steps put into, after the place 'at'. */
static void read_targets(lua_State *L, struct ns_replay_run *run,
                         const struct nsb_trace *t, int list, lua_Integer at,
                         lua_Integer places) {
  luaL_argcheck(L, length(L, list, NS_MAX_OUTPUTS + 1) == t->targets, list,
                "as many columns as were noted");
  for (int k = 0; k < t->targets; k++) {
    lua_rawgeti(L, list, k + 1);
    struct nsb_numbers *c = luaL_testudata(L, -1, NSB_NUMBERS);
    struct nsb_faults *f = c ? NULL : luaL_checkudata(L, -1, NSB_FAULTS);
    if (at + places > (c ? c->n : f->n)) luaL_error(L, "replay: no such place");
    run->target[k] = c ? (struct ns_target){.numbers = c->v + at}
                       : (struct ns_target){.codes = f->v + at};
    lua_pop(L, 1);
  }
}

/* How many places there are up to the last of a column. */
static lua_Integer last_place(lua_State *L, const struct nsb_numbers *p) {
  double most = -1;
  for (lua_Integer i = 0; i < p->n; i++) {
    luaL_argcheck(L, p->v[i] >= 0 && p->v[i] < 1e15, 3, "no such place");
    most = p->v[i] > most ? p->v[i] : most;
  }
  return (lua_Integer)most + 1;
}

/* Lanes that are left as 1, on the stack; nil: none. */
static int push_left(lua_State *L, const unsigned char *left, lua_Integer n) {
  bool any = false;
  for (lua_Integer i = 0; i < n; i++) any |= left[i] != 0;
  if (!any) return 0;
  double *to = nsb_lanes(L, n)->v;
  for (lua_Integer i = 0; i < n; i++) to[i] = left[i];
  return 1;
}

/* replay(trace, inputs, places, at, targets, threads) -> the lanes in which a
 * step came out otherwise as 1; nothing where all were worked. */
static int core_replay(lua_State *L) {
  const struct nsb_trace *t = luaL_checkudata(L, 1, NSB_TRACE);
  const struct nsb_numbers *p = luaL_checkudata(L, 3, NSB_LANED);
  const lua_Integer at = luaL_checkinteger(L, 4);
  lua_Integer threads = luaL_checkinteger(L, 6);
  luaL_argcheck(L, t->list[NSB_MADE].n > 0, 1, "a trace expected");
  luaL_argcheck(L, length(L, 2, NS_MAX_COLUMNS) == t->inputs, 2,
                "as many columns as were noted");
  luaL_argcheck(L, at >= 0, 4, "no such place");
  threads = threads < 1                ? 1
            : threads > NS_MAX_THREADS ? NS_MAX_THREADS
                                       : threads;
  const double *input[NS_MAX_COLUMNS];
  struct ns_replay_run run = {
      .replay = &t->replay, .count = p->n, .input = input, .place = p->v};
  for (int k = 0; k < t->inputs; k++) {
    const struct nsb_numbers *c = lanes_item(L, 2, k + 1);
    luaL_argcheck(L, c->n == p->n, 2, "as many lanes as places");
    input[k] = c->v;
  }
  read_targets(L, &run, t, 5, at, last_place(L, p));
  unsigned char *left = lua_newuserdatauv(L, (size_t)p->n, 0);
  memset(left, 1, (size_t)p->n);
  run.left = left;
  lua_rawgeti(L, LUA_REGISTRYINDEX, LUA_RIDX_MAINTHREAD);
  struct watch w = {.main = lua_tothread(L, -1)};
  w.hook = lua_gethook(w.main);
  struct nsb_room *room =
      nsb_room_for(L, ns_replay_room(&t->replay, (int)threads));
  const int64_t done =
      ns_replay_work(&run, (int)threads, nsb_work(nsb_the_workspace(L)),
                     room->bytes, watch, &w);
  room->busy = false;
  if (done < run.count) return luaL_error(L, "interrupted!");
  return push_left(L, left, p->n);
}

/* Puts the noting of steps into the module, with it on top of the stack and the
 * workspace under it. */
int nsb_open_noting(lua_State *L) {
  static const luaL_Reg functions[] = {
      {"note", core_note}, {"noted", core_noted}, {NULL, NULL}};
  luaL_newmetatable(L, NSB_TRACE);
  lua_pop(L, 1);
  nsb_new_recorder(L);
  luaL_setfuncs(L, functions, 0);
  lua_pushvalue(L, -2);
  lua_pushcclosure(L, core_replay, 1);
  lua_setfield(L, -2, "replay");
  return 0;
}
