/* SPDX-License-Identifier: MIT
 * sweep.c - sweeps for Lua: joists packed as the core reads them, columns
 * of plain numbers, and the call that works the points between.
 *
 * Columns are userdata made before any thread starts; threads see arrays and
 * no lua_State. */
#include <string.h>

#include "lua/bind.h"

/* ---- packed joists ---- */

/* A block as rows, one after the other. */
static double (*rows_of(struct ns_block *b))[NS_LANES] {
  return (double(*)[NS_LANES])(void *)b;
}

/* A packed joist into a lane of the workspace. */
void nsb_unpack(struct nsb_workspace *d, const struct nsb_packed *p, int lane,
                bool shape) {
  double(*rows)[NS_LANES] = rows_of(&d->block);
  if (shape) d->shape = p->shape;
  for (size_t r = 0; r < NS_BLOCK_ROWS; r++) rows[r][lane] = p->row[r];
}

/* Whether a packed joist is of the workspace's topology. */
bool nsb_alike(const struct nsb_workspace *d, const struct nsb_packed *p) {
  return memcmp(&d->shape, &p->shape, sizeof p->shape) == 0;
}

/* One lane of a block into another. */
void nsb_copy_lane(struct ns_block *b, int to, int from) {
  double(*rows)[NS_LANES] = rows_of(b);
  for (size_t r = 0; r < NS_BLOCK_ROWS; r++) rows[r][to] = rows[r][from];
}

/* packed(model) -> the joist; topology(packed) -> a text that is the same for
 * joists which fit into one block. */
static int core_packed(lua_State *L) {
  struct nsb_workspace *d = nsb_the_workspace(L);
  memset(&d->block, 0, sizeof d->block);
  nsb_model(L, 1, &d->shape, &d->block, 0);
  struct nsb_packed *p = lua_newuserdatauv(L, sizeof *p, 0);
  memcpy(&p->shape, &d->shape, sizeof p->shape);
  double(*rows)[NS_LANES] = rows_of(&d->block);
  for (size_t r = 0; r < NS_BLOCK_ROWS; r++) p->row[r] = rows[r][0];
  luaL_setmetatable(L, NSB_PACKED);
  return 1;
}

/* topology(packed) -> text that is the same for joists of one topology. */
static int core_topology(lua_State *L) {
  const struct nsb_packed *p = luaL_checkudata(L, 1, NSB_PACKED);
  lua_pushlstring(L, (const char *)&p->shape, sizeof p->shape);
  return 1;
}

/* ---- columns ---- */

/* Bytes of n items; raises for more than memory can have. */
static size_t checked_size(lua_State *L, lua_Integer n, size_t item) {
  luaL_argcheck(L, n >= 0 && n <= (lua_Integer)((SIZE_MAX / 4) / item), 1,
                "a number of places expected");
  return item * (size_t)n;
}

/* numbers(n) or numbers{list} -> a column of numbers; one that was not set is
 * nil. */
static int core_numbers(lua_State *L) {
  const bool list = lua_istable(L, 1);
  const lua_Integer n =
      list ? (lua_Integer)lua_rawlen(L, 1) : luaL_checkinteger(L, 1);
  const size_t size = checked_size(L, n, sizeof(double));
  struct nsb_numbers *c = lua_newuserdatauv(L, sizeof *c + size, 0);
  c->n = n;
  for (lua_Integer i = 0; i < n; i++) {
    c->v[i] = (double)NAN;
    if (!list) continue;
    if (lua_rawgeti(L, 1, i + 1) != LUA_TNUMBER)
      return luaL_error(L, "numbers[%I]: number expected, got %s",
                        (LUAI_UACINT)(i + 1), luaL_typename(L, -1));
    c->v[i] = lua_tonumber(L, -1);
    lua_pop(L, 1);
  }
  luaL_setmetatable(L, NSB_NUMBERS);
  return 1;
}

/* faults(n) -> a column of codes, 0 where a point has its numbers. */
static int core_faults(lua_State *L) {
  const lua_Integer n = luaL_checkinteger(L, 1);
  const size_t size = checked_size(L, n, sizeof(uint32_t));
  struct nsb_faults *c = lua_newuserdatauv(L, sizeof *c + size, 0);
  c->n = n;
  memset(c->v, 0, size);
  luaL_setmetatable(L, NSB_FAULTS);
  return 1;
}

/* numbers[i], nil past the end. */
static int numbers_index(lua_State *L) {
  const struct nsb_numbers *c = luaL_checkudata(L, 1, NSB_NUMBERS);
  int whole = 0;
  const lua_Integer i = lua_tointegerx(L, 2, &whole);
  if (!whole || i < 1 || i > c->n || isnan(c->v[i - 1])) return 0;
  lua_pushnumber(L, c->v[i - 1]);
  return 1;
}

/* #numbers. */
static int numbers_len(lua_State *L) {
  const struct nsb_numbers *c = luaL_checkudata(L, 1, NSB_NUMBERS);
  lua_pushinteger(L, c->n);
  return 1;
}

/* faults[i] -> what is wrong with point i, or nil. */
static int faults_index(lua_State *L) {
  const struct nsb_faults *c = luaL_checkudata(L, 1, NSB_FAULTS);
  int whole = 0;
  const lua_Integer i = lua_tointegerx(L, 2, &whole);
  if (!whole || i < 1 || i > c->n) return 0;
  lua_pushinteger(L, (lua_Integer)c->v[i - 1]);
  return 1;
}

/* set(column, i, number or nil): for points that are worked one at a time. */
static int core_set(lua_State *L) {
  struct nsb_numbers *c = luaL_testudata(L, 1, NSB_NUMBERS);
  const lua_Integer i = luaL_checkinteger(L, 2);
  luaL_checkany(L, 3);
  if (c) {
    luaL_argcheck(L, i >= 1 && i <= c->n, 2, "no such place");
    c->v[i - 1] = lua_isnil(L, 3) ? (double)NAN : luaL_checknumber(L, 3);
    return 0;
  }
  struct nsb_faults *f = luaL_checkudata(L, 1, NSB_FAULTS);
  const lua_Integer code = luaL_checkinteger(L, 3);
  luaL_argcheck(L, i >= 1 && i <= f->n, 2, "no such place");
  luaL_argcheck(L, code >= 0 && code <= UINT32_MAX, 3, "a code expected");
  f->v[i - 1] = (uint32_t)code;
  return 0;
}

/* fill(column, at, count, value): 'count' places after the place 'at'. */
static int core_fill(lua_State *L) {
  struct nsb_numbers *c = luaL_testudata(L, 1, NSB_NUMBERS);
  struct nsb_faults *f = c ? NULL : luaL_checkudata(L, 1, NSB_FAULTS);
  const lua_Integer at = luaL_checkinteger(L, 2),
                    count = luaL_checkinteger(L, 3), n = c ? c->n : f->n;
  luaL_argcheck(L, at >= 0 && at <= n, 2, "no such place");
  luaL_argcheck(L, count >= 0 && count <= n - at, 3, "too many");
  const double v = luaL_checknumber(L, 4);
  luaL_argcheck(L, c || (v >= 0 && v <= UINT32_MAX), 4, "a code expected");
  for (lua_Integer i = at; i < at + count; i++)
    if (c)
      c->v[i] = v;
    else
      f->v[i] = (uint32_t)v;
  return 0;
}

/* extreme(column, sign) -> place of its largest (sign 1) or least
 * (-1) number, the first of them, or nothing where it holds none. */
static int core_extreme(lua_State *L) {
  const struct nsb_numbers *c = luaL_checkudata(L, 1, NSB_NUMBERS);
  const double sign = luaL_checknumber(L, 2) < 0 ? -1 : 1;
  lua_Integer best = -1;
  for (lua_Integer i = 0; i < c->n; i++)
    if (!isnan(c->v[i]) && (best < 0 || sign * c->v[i] > sign * c->v[best]))
      best = i;
  if (best < 0) return 0;
  lua_pushinteger(L, best + 1);
  return 1;
}

/* ---- the sweep ---- */

/* Userdata n of a list; raises for another type. */
static void *item_of(lua_State *L, const char *list, int n, const char *type) {
  lua_rawgeti(L, -1, n);
  void *p = luaL_testudata(L, -1, type);
  if (!p) luaL_error(L, "sweep: %s[%d]: %s expected", list, n, type);
  lua_pop(L, 1);
  return p;
}

/* Packed joists of one topology; their rows are pointed to from a userdata
 * that stays on the stack. */
static void read_models(lua_State *L, struct ns_sweep *s) {
  const int n = nsb_list(L, 1, "sweep", "models", 1 << 24);
  if (n < 1) luaL_error(L, "sweep: models: one at least");
  const double **row = lua_newuserdatauv(L, sizeof *row * (size_t)n, 0);
  lua_insert(L, -2);
  for (int k = 0; k < n; k++) {
    const struct nsb_packed *p = item_of(L, "models", k + 1, NSB_PACKED);
    if (k == 0) s->shape = &p->shape;
    if (memcmp(s->shape, &p->shape, sizeof p->shape) != 0)
      luaL_error(L, "sweep: models[%d]: another topology", k + 1);
    row[k] = p->row;
  }
  lua_pop(L, 1);
  s->model = row;
  s->models = n;
}

/* Number of steps of each axis. */
static void read_axes(lua_State *L, struct ns_sweep *s) {
  s->axes = nsb_list(L, 1, "sweep", "sizes", NS_MAX_AXES);
  for (int a = 0; a < s->axes; a++) {
    lua_rawgeti(L, -1, a + 1);
    const lua_Integer size = lua_tointeger(L, -1);
    if (size < 1) luaL_error(L, "sweep: sizes[%d]: 1 or more", a + 1);
    s->size[a] = size;
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
}

/* columns = {{axis =, path =, values = numbers}, ...}; axis 0: a value for each
 * point that is worked. */
static void read_columns(lua_State *L, struct ns_sweep *s) {
  struct nsb_workspace *d = nsb_the_workspace(L);
  s->columns = nsb_list(L, 1, "sweep", "columns", NS_MAX_COLUMNS);
  for (int k = 0; k < s->columns; k++) {
    const int t = nsb_item(L, "columns", k + 1);
    const double axis = nsb_finite(L, t, "column", "axis", NSB_REQUIRED);
    if (!(axis >= 0 && axis <= s->axes))
      luaL_error(L, "sweep: columns[%d].axis: no such axis", k + 1);
    nsb_get(L, t, "values");
    const struct nsb_numbers *v = luaL_testudata(L, -1, NSB_LANED);
    if (!v) v = luaL_checkudata(L, -1, NSB_NUMBERS);
    if (v->n != (axis < 1 ? s->count : s->size[(int)axis - 1]))
      luaL_error(L, "sweep: columns[%d].values: as many as the axis has steps",
                 k + 1);
    nsb_get(L, t, "path");
    const char *path = luaL_checkstring(L, -1);
    const double *row = nsb_row(&d->block, s->shape, path);
    if (!row) luaL_error(L, "sweep: no field '%s'", nsb_shown(L));
    s->column[k] = (struct ns_column){
        .axis = (int)axis - 1,
        .row = (int)((row - rows_of(&d->block)[0]) / NS_LANES),
        .values = v->v};
    lua_pop(L, 3);
  }
  lua_pop(L, 1);
}

/* False for what no joist of this shape could have, whatever its counts. */
static bool in_shape(const struct ns_shape *h, const struct ns_output *o) {
  const enum ns_quantity t = o->quantity;
  if (o->state == NS_FIXED && h->fix.kind == NS_NO_FIX) return false;
  if (t >= NS_QUANTITY_REACTION && t <= NS_QUANTITY_CUT_GATE && o->index < 0)
    return false;
  if (t >= NS_QUANTITY_STATION && t <= NS_QUANTITY_STATION_LEAST &&
      o->index < 0)
    return false;
  if (t >= NS_QUANTITY_SHARE && t <= NS_QUANTITY_SAG)
    return o->state == NS_FIXED;
  return t < NS_QUANTITY_CHECK || o->mode >= 0;
}

/* outputs = {{quantity =, state =, mode =, index =}, ...}, to = {numbers, ...},
 * which are written from the place after 'at'. */
static void read_outputs(lua_State *L, struct ns_sweep *s, lua_Integer at) {
  static const char *const states[] = {"uncut", "cut", "fixed", NULL};
  s->outputs = nsb_list(L, 1, "sweep", "outputs", NS_MAX_OUTPUTS);
  for (int k = 0; k < s->outputs; k++) {
    const int t = nsb_item(L, "outputs", k + 1);
    const int quantity =
        nsb_word(L, t, "output", "quantity", ns_quantity_names);
    const int state = nsb_word(L, t, "output", "state", states);
    const double index = nsb_finite(L, t, "output", "index", 0);
    if (quantity < 0)
      luaL_error(L, "sweep: outputs[%d].quantity: missing", k + 1);
    s->output[k] = (struct ns_output){
        .quantity = (enum ns_quantity)quantity,
        .state = state < 0 ? NS_UNCUT : (enum ns_state_of)state,
        .mode = nsb_word(L, t, "output", "mode", ns_mode_names),
        .index = index >= 1 && index <= 100 ? (int)index - 1 : -1};
    if (!in_shape(s->shape, &s->output[k]))
      luaL_error(L, "sweep: outputs[%d]: the joist has no such number", k + 1);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  if (nsb_list(L, 1, "sweep", "to", NS_MAX_OUTPUTS) != s->outputs)
    luaL_error(L, "sweep: to: a column per output");
  for (int k = 0; k < s->outputs; k++) {
    struct nsb_numbers *to = item_of(L, "to", k + 1, NSB_NUMBERS);
    if (at > to->n || s->count > to->n - at)
      luaL_error(L, "sweep: to[%d]: too short", k + 1);
    s->to[k] = to->v + at;
  }
  lua_pop(L, 1);
  nsb_get(L, 1, "fault");
  struct nsb_faults *f = luaL_checkudata(L, -1, NSB_FAULTS);
  if (at > f->n || s->count > f->n - at) luaL_error(L, "sweep: fault: short");
  s->fault = f->v + at;
  lua_pop(L, 1);
}

/* What the caller's thread looks at between blocks: an interruption, which
 * shows as a hook that was not there, and a function that is told how far
 * the work is, some ten times a second. */
struct watch {
  lua_State *L, *main;
  lua_Hook hook;
  int progress; /* stack index, 0: none */
  double last;
  bool interrupted, failed;
};

static bool watch(void *data, int64_t done) {
  struct watch *w = data;
  if (lua_gethook(w->main) != w->hook) {
    w->interrupted = true;
    return false;
  }
  if (!w->progress) return true;
  const double t = nsb_now();
  if (t - w->last < 0.1) return true;
  w->last = t;
  lua_pushvalue(w->L, w->progress);
  lua_pushinteger(w->L, (lua_Integer)done);
  w->failed = lua_pcall(w->L, 1, 1, 0) != LUA_OK;
  if (w->failed) return false;
  const bool on = lua_isnil(w->L, -1) || lua_toboolean(w->L, -1);
  lua_pop(w->L, 1);
  return on;
}

/* A whole number of the arguments. */
static lua_Integer whole_field(lua_State *L, const char *name,
                               lua_Integer otherwise) {
  lua_Integer v = otherwise;
  if (nsb_get(L, 1, name) != LUA_TNIL) {
    int whole = 0;
    v = lua_tointegerx(L, -1, &whole);
    if (!whole || v < 0) luaL_error(L, "sweep: %s: a count expected", name);
  }
  lua_pop(L, 1);
  return v;
}

/* Points of a sweep, the most there is where they are more. */
static int64_t points_of(const struct ns_sweep *s) {
  int64_t n = s->models;
  for (int a = 0; a < s->axes; a++)
    n = n > INT64_MAX / s->size[a] ? INT64_MAX : n * s->size[a];
  return n;
}

/* Userdata of the arguments; raises for another type. */
static void *pack_field(lua_State *L, const char *name, const char *type) {
  nsb_get(L, 1, name);
  void *p = luaL_testudata(L, -1, type);
  if (!p) luaL_error(L, "sweep: %s: %s expected", name, type);
  lua_pop(L, 1);
  return p;
}

static const char ROOM = 0; /* its place in the registry */

struct nsb_room *nsb_room_for(lua_State *L, size_t bytes) {
  const size_t size = sizeof(struct nsb_room) + bytes;
  lua_rawgetp(L, LUA_REGISTRYINDEX, &ROOM);
  struct nsb_room *kept = lua_touserdata(L, -1);
  if (!kept || kept->busy || lua_rawlen(L, -1) < size) {
    const bool replace = !kept || !kept->busy;
    kept = lua_newuserdatauv(L, size, 0);
    memset(kept, 0, size); /* once */
    if (replace) {
      lua_pushvalue(L, -1);
      lua_rawsetp(L, LUA_REGISTRYINDEX, &ROOM);
    }
  }
  kept->busy = true;
  return kept;
}

/* sweep{models =, sizes =, columns =, outputs =, to =, fault =, at =, first =,
 * count =, threads =, rules =, standard =, progress =} -> points done, and
 * true where it was interrupted. 'first' and 'at' count from 0. Arrays that
 * are only pointed to stay reachable from a copy of the table. */
static int core_sweep(lua_State *L) {
  struct ns_sweep *s = lua_newuserdatauv(L, sizeof *s, 0);
  memset(s, 0, sizeof *s);
  luaL_checktype(L, 1, LUA_TTABLE);
  nsb_plain(L, 1, 3); /* the columns stay, whatever 'progress' does */
  lua_replace(L, 1);
  s->rules = pack_field(L, "rules", NSB_RULES);
  s->standard = pack_field(L, "standard", NSB_STANDARD);
  read_models(L, s);
  read_axes(L, s);
  s->first = whole_field(L, "first", 0);
  s->count = whole_field(L, "count", 0);
  const int64_t all = points_of(s);
  if (s->first > all || s->count > all - s->first)
    return luaL_error(L, "sweep: count: past the last point");
  read_columns(L, s);
  read_outputs(L, s, whole_field(L, "at", 0));
  lua_Integer threads = whole_field(L, "threads", 1);
  threads = threads < 1                ? 1
            : threads > NS_MAX_THREADS ? NS_MAX_THREADS
                                       : threads;
  luaL_checkstack(L, 8, "progress");
  struct watch w = {.L = L, .last = nsb_now()};
  lua_rawgeti(L, LUA_REGISTRYINDEX, LUA_RIDX_MAINTHREAD);
  w.main = lua_tothread(L, -1);
  w.hook = lua_gethook(w.main);
  if (nsb_get(L, 1, "progress") == LUA_TFUNCTION) w.progress = lua_gettop(L);
  struct nsb_room *room = nsb_room_for(L, ns_sweep_room((int)threads));
  const int64_t done = ns_sweep(s, (int)threads, nsb_work(nsb_the_workspace(L)),
                                room->bytes, watch, &w);
  room->busy = false;
  if (w.failed) return lua_error(L);
  lua_pushinteger(L, (lua_Integer)done);
  lua_pushboolean(L, w.interrupted);
  return 2;
}

/* fault_text(fault) -> what is wrong with a point, as review says it. */
static int core_fault_text(lua_State *L) {
  const uint32_t f = (uint32_t)luaL_checkinteger(L, 1);
  nsb_push_fault(L, NS_FAULT_STATUS(f), NS_FAULT_PART(f), NS_FAULT_FIELD(f));
  return 1;
}

static const luaL_Reg functions[] = {{"topology", core_topology},
                                     {"numbers", core_numbers},
                                     {"faults", core_faults},
                                     {"set", core_set},
                                     {"fill", core_fill},
                                     {"extreme", core_extreme},
                                     {"fault_text", core_fault_text},
                                     {NULL, NULL}};

/* A metatable with an index and a length. */
static void metatable(lua_State *L, const char *name, lua_CFunction index,
                      lua_CFunction len) {
  luaL_newmetatable(L, name);
  lua_pushcfunction(L, index);
  lua_setfield(L, -2, "__index");
  if (len) {
    lua_pushcfunction(L, len);
    lua_setfield(L, -2, "__len");
  }
  lua_pop(L, 1);
}

/* A list of words as a table. */
static void push_words(lua_State *L, const char *const *words) {
  lua_newtable(L);
  for (int k = 0; words[k]; k++) {
    lua_pushstring(L, words[k]);
    lua_rawseti(L, -2, k + 1);
  }
}

/* A text into the table on top. */
static void set_text(lua_State *L, const char *name, const char *text) {
  lua_pushstring(L, text);
  lua_setfield(L, -2, name);
}

/* A flag into the table on top. */
static void set_flag(lua_State *L, const char *name, bool flag) {
  lua_pushboolean(L, flag);
  lua_setfield(L, -2, name);
}

/* The list of checks, a table for each row. */
static void push_checks(lua_State *L) {
  lua_createtable(L, NS_MODES, 0);
  for (int m = 0; m < NS_MODES; m++) {
    const struct ns_check_row *row = &ns_check_rows[m];
    lua_createtable(L, 0, 10);
    set_text(L, "mode", row->word);
    set_text(L, "unit", row->unit);
    set_text(L, "letter", row->letter);
    set_text(L, "by", row->about);
    set_text(L, "basis", row->basis);
    set_text(L, "lines", row->lines);
    nsb_set_int(L, "hogs", row->hogs);
    set_flag(L, "strength", row->strength);
    set_flag(L, "decides", row->decides);
    set_flag(L, "repair", row->where == NS_AT_REPAIR);
    lua_rawseti(L, -2, m + 1);
  }
}

/* Puts sweeps, columns and the lists of words into the module. */
int nsb_open_sweep(lua_State *L) {
  luaL_newmetatable(L, NSB_PACKED);
  lua_pop(L, 1);
  metatable(L, NSB_NUMBERS, numbers_index, numbers_len);
  metatable(L, NSB_FAULTS, faults_index, NULL);
  luaL_setfuncs(L, functions, 0);
  lua_pushvalue(L, -2);
  lua_pushcclosure(L, core_packed, 1);
  lua_setfield(L, -2, "packed");
  lua_pushvalue(L, -2);
  lua_pushcclosure(L, core_sweep, 1);
  lua_setfield(L, -2, "sweep");
  push_words(L, ns_quantity_names);
  lua_setfield(L, -2, "quantities");
  push_checks(L);
  lua_setfield(L, -2, "checks");
  push_words(L, ns_mode_names);
  lua_setfield(L, -2, "modes");
  return 0;
}
