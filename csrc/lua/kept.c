/* SPDX-License-Identifier: MIT
 * kept.c - reviews of many joists of one topology at once, for Lua: the tables
 * of one review (summary.c), in which what differs from joist to joist is a
 * column that calculates (columns.c) and the rest a plain number. */
#include <stddef.h>
#include <string.h>

#include "lua/bind.h"

/* A check is one of many joists' by what it is about. */
struct slot {
  enum ns_mode mode;
  enum ns_member member;
  int cut, support, nth; /* nth: among those alike in its state */
};

/* What is kept of a check: 'on' and whether it decides always; demand, capacity
 * and place where they are asked for. */
enum { ON, DECIDES, RATIO, DEMAND, CAPACITY, AT, CHECK_ROWS };

struct state {
  const struct ns_state *of;
  int slots, order[NS_MAX_CHECKS];
  struct slot slot[NS_MAX_CHECKS];
  double *check;     /* slots x rows x n numbers */
  double *governing; /* place of the governing check */
};

/* One call: where its rows stand in a result, and room for all of them. */
struct kept {
  lua_Integer n;
  int rows, most, each; /* most: slots of a state; each: rows of a check */
  size_t row[NS_MAX_CUTS * 32 + 4 * NS_MAX_STATIONS + 128];
  double *to;
  int states;
  struct state state[2];
};

/* The row of a result at an offset. */
static const double *row_at(const struct ns_result *r, size_t offset) {
  return (const double *)(const void *)((const char *)r + offset);
}

/* Puts a row on the list of what is kept. */
static void want(struct kept *o, const struct ns_result *r, const void *at) {
  o->row[o->rows++] = (size_t)((const char *)at - (const char *)r);
}

/* Puts the rows of a list of names on it. */
static void want_rows(struct kept *o, const struct ns_result *r,
                      const struct nsb_named *list, const void *from) {
  for (; list->name; list++) want(o, r, (const char *)from + list->offset);
}

/* Rows in the order in which they are pushed. */
static void list_rows(struct kept *o, const struct ns_shape *h,
                      const struct ns_result *r) {
  const bool fixed = h->fix.kind != NS_NO_FIX;
  o->rows = 0;
  o->states = fixed ? 2 : 1;
  o->state[0].of = &r->cut;
  o->state[1].of = &r->fixed;
  for (int s = 0; s < o->states; s++) {
    want_rows(o, r, nsb_state_rows, o->state[s].of);
    for (int j = 0; j <= h->spans; j++)
      for (int k = 0; k < 3; k++) want(o, r, o->state[s].of->reaction[j][k]);
  }
  if (fixed) {
    want_rows(o, r, nsb_fix_rows, &r->fix);
    for (int l = 0; l < h->fix.stations; l++)
      for (int k = 0; k < 3; k++) want(o, r, r->fix.G[l][k]);
    for (int e = 0; e < 4; e++) want(o, r, r->fix.R[e / 2][e % 2]);
  }
  for (int c = 0; c < h->cuts; c++) want_rows(o, r, nsb_cut_rows, &r->cuts[c]);
  for (int j = 0; j <= h->spans; j++) want(o, r, r->seat[j]);
  want(o, r, r->no_seat);
  o->most = NS_CUT_CHECKS * h->cuts + (fixed ? NS_FIX_CHECKS : 0);
  for (int m = 0; m < NS_MODES; m++)
    o->most +=
        ns_check_rows[m].state + ns_check_rows[m].support * (h->spans + 1);
  if (o->most > NS_MAX_CHECKS) o->most = NS_MAX_CHECKS;
}

/* Bytes that all rows of n joists take. */
static size_t room_of(const struct kept *o) {
  const size_t checks = (size_t)o->states * (size_t)(o->most * o->each + 1);
  return ((size_t)o->rows + checks) * (size_t)o->n * sizeof(double);
}

/* Room is kept between calls as an upvalue and made larger where it has to. */
static void give_room(lua_State *L, struct kept *o) {
  const size_t size = room_of(o), each = (size_t)o->n;
  if (lua_rawlen(L, lua_upvalueindex(2)) < size) {
    lua_newuserdatauv(L, size, 0);
    lua_replace(L, lua_upvalueindex(2));
  }
  double *at = lua_touserdata(L, lua_upvalueindex(2));
  o->to = at;
  at += (size_t)o->rows * each;
  for (int s = 0; s < o->states; s++) {
    o->state[s].slots = 0;
    o->state[s].governing = at;
    o->state[s].check = at + each;
    at += each * (size_t)(o->most * o->each + 1);
  }
}

/* Whether two checks are about one thing. */
static bool alike(const struct slot *p, const struct slot *q) {
  return p->mode == q->mode && p->member == q->member && p->cut == q->cut &&
         p->support == q->support && p->nth == q->nth;
}

/* What check k of a state is about. */
static struct slot slot_of(const struct ns_result *r, int first, int k) {
  const struct ns_check *c = &r->check[k];
  struct slot s = {c->mode, c->member, c->cut, c->support, 0};
  for (int n = first; n < k; n++) {
    const struct ns_check *b = &r->check[n];
    s.nth += b->mode == c->mode && b->member == c->member && b->cut == c->cut &&
             b->support == c->support;
  }
  return s;
}

/* Where a number of a check is kept for all joists. */
static double *check_row(const struct kept *o, const struct state *s, int slot,
                         int row) {
  return s->check +
         ((size_t)slot * (size_t)o->each + (size_t)row) * (size_t)o->n;
}

/* The slot of a check; a check that earlier blocks did not have is off there,
 * and stands behind the one before it. */
static int find_slot(const struct kept *o, struct state *s,
                     const struct slot *key, int *place) {
  for (int p = *place; p < s->slots; p++)
    if (alike(&s->slot[s->order[p]], key)) {
      *place = p + 1;
      return s->order[p];
    }
  if (s->slots >= o->most) return -1;
  const int n = s->slots++;
  s->slot[n] = *key;
  memmove(&s->order[*place + 1], &s->order[*place],
          sizeof s->order[0] * (size_t)(n - *place));
  s->order[(*place)++] = n;
  memset(check_row(o, s, n, ON), 0, sizeof(double) * (size_t)o->n);
  return n;
}

/* Numbers of a check of one block into its rows. */
static void keep_check(const struct kept *o, const struct state *s, int slot,
                       const struct ns_check *k, lua_Integer at, int count) {
  const bool seat = k->mode == NS_BEARING; /* no seat is no ratio */
  const double *from[] = {
      [DEMAND] = k->demand, [CAPACITY] = k->capacity, [AT] = k->at};
  double *on = check_row(o, s, slot, ON) + at;
  double *decides = check_row(o, s, slot, DECIDES) + at;
  double *ratio = check_row(o, s, slot, RATIO) + at;
  for (int i = 0; i < count; i++) {
    const bool none = seat && k->binding[i] == 0;
    on[i] = k->on[i] != 0 ? 1 : 0;
    decides[i] = (k->binding[i] != 0) | none ? 1 : 0;
    ratio[i] = none | (k->on[i] == 0) ? (double)NAN : k->ratio[i];
  }
  for (int f = DEMAND; f < o->each; f++)
    memcpy(check_row(o, s, slot, f) + at, from[f],
           sizeof(double) * (size_t)count);
}

/* @return false where a check finds no room, which ends the work */
static bool keep_block(struct kept *o, const struct ns_result *r,
                       lua_Integer at, int count) {
  const size_t size = sizeof(double) * (size_t)count;
  for (int k = 0; k < o->rows; k++)
    memcpy(o->to + (size_t)k * (size_t)o->n + at, row_at(r, o->row[k]), size);
  for (int n = 0; n < o->states; n++) {
    struct state *s = &o->state[n];
    int place = 0;
    bool got[NS_MAX_CHECKS] = {false};
    for (int k = s->of->first; k < s->of->first + s->of->count; k++) {
      const struct slot key = slot_of(r, s->of->first, k);
      const int slot = find_slot(o, s, &key, &place);
      if (slot < 0) return false;
      got[slot] = true;
      keep_check(o, s, slot, &r->check[k], at, count);
    }
    for (int k = 0; k < s->slots; k++)
      if (!got[k]) memset(check_row(o, s, k, ON) + at, 0, size);
    for (int i = 0; i < count; i++) {
      const int g = (int)s->of->governing[i];
      s->governing[at + i] = g < 0 ? (double)NAN : r->check[g].at[i];
    }
  }
  return true;
}

/* ---- the tables ---- */

/* A number where all lanes have it, else their column. */
static void push(lua_State *L, const double *row, lua_Integer n) {
  lua_Integer i = 1;
  while (i < n && row[i] == row[0]) i++;
  if (i >= n && !isnan(row[0]))
    lua_pushnumber(L, row[0]);
  else
    memcpy(nsb_lanes(L, n)->v, row, sizeof(double) * (size_t)n);
}

/* A column into the table on top. */
static void set(lua_State *L, const char *name, const double *row,
                lua_Integer n) {
  push(L, row, n);
  lua_setfield(L, -2, name);
}

/* The next rows, in the order of list_rows. */
static void set_rows(lua_State *L, const struct kept *o, int *next,
                     const struct nsb_named *list) {
  for (; list->name; list++)
    set(L, list->name, o->to + (size_t)(*next)++ * (size_t)o->n, o->n);
}

/* The next rows as columns of the table on top, by name. */
static void set_next(lua_State *L, const struct kept *o, int *next,
                     const char *const *names) {
  for (; *names; names++)
    set(L, *names, o->to + (size_t)(*next)++ * (size_t)o->n, o->n);
}

/* In how many joists a row is not nil. */
static lua_Integer sum(const double *row, lua_Integer n) {
  lua_Integer some = 0;
  for (lua_Integer i = 0; i < n; i++) some += row[i] != 0;
  return some;
}

/* Whether a check decides: one answer of the lanes where it is on, or a column.
 */
static void set_binding(lua_State *L, const double *on, const double *decides,
                        lua_Integer n) {
  lua_Integer yes = 0, all = 0;
  for (lua_Integer i = 0; i < n; i++) {
    all += on[i] != 0;
    yes += (on[i] != 0) & (decides[i] != 0);
  }
  if (yes == 0 || yes == all)
    lua_pushboolean(L, yes > 0);
  else
    push(L, decides, n);
  lua_setfield(L, -2, "binding");
}

/* A check of all joists as a table of columns. */
static void push_check(lua_State *L, const struct kept *o,
                       const struct state *s, int slot) {
  static const char *const names[] = {"demand", "capacity", "at"};
  const struct slot *k = &s->slot[slot];
  const double *on = check_row(o, s, slot, ON);
  lua_createtable(L, 0, 12);
  lua_pushstring(L, ns_mode_names[k->mode]);
  lua_setfield(L, -2, "mode");
  lua_pushstring(L, ns_member_names[k->member]);
  lua_setfield(L, -2, "member");
  if (k->cut >= 0) nsb_set_int(L, "cut", k->cut + 1);
  if (k->support >= 0) nsb_set_int(L, "support", k->support + 1);
  if (sum(on, o->n) < o->n) set(L, "on", on, o->n);
  set_binding(L, on, check_row(o, s, slot, DECIDES), o->n);
  if (k->mode != NS_UPLIFT) set(L, "ratio", check_row(o, s, slot, RATIO), o->n);
  for (int f = DEMAND; f < o->each; f++)
    set(L, names[f - DEMAND], check_row(o, s, slot, f), o->n);
}

/* A state of all joists as a table of columns. */
static void push_state(lua_State *L, const struct kept *o,
                       const struct state *s, int spans, int *next) {
  static const char *const sides[] = {"most", "least", "dead", NULL};
  int n = 0;
  lua_createtable(L, 0, 16);
  set_rows(L, o, next, nsb_state_rows);
  lua_createtable(L, spans + 1, 0);
  for (int j = 0; j <= spans; j++) {
    lua_createtable(L, 0, 3);
    set_next(L, o, next, sides);
    lua_rawseti(L, -2, j + 1);
  }
  lua_setfield(L, -2, "reactions");
  set(L, "governing_at", s->governing, o->n);
  lua_createtable(L, s->slots, 0);
  for (int p = 0; p < s->slots; p++) {
    if (sum(check_row(o, s, s->order[p], ON), o->n) == 0) continue;
    push_check(L, o, s, s->order[p]);
    lua_rawseti(L, -2, ++n);
  }
  lua_setfield(L, -2, "checks");
}

/* Adds to the fixed state, which is on top, what the repair does. */
static void push_fix(lua_State *L, const struct kept *o, int stations,
                     int *next) {
  static const char *const forces[] = {"most", "least", "full", NULL};
  static const char *const ends[] = {"most", "least", NULL};
  set_rows(L, o, next, nsb_fix_rows);
  lua_createtable(L, stations, 0);
  for (int l = 0; l < stations; l++) {
    lua_createtable(L, 0, 3);
    set_next(L, o, next, forces);
    lua_rawseti(L, -2, l + 1);
  }
  lua_setfield(L, -2, "stations");
  lua_createtable(L, 2, 0);
  for (int e = 0; e < 2; e++) {
    lua_createtable(L, 0, 2);
    set_next(L, o, next, ends);
    lua_rawseti(L, -2, e + 1);
  }
  lua_setfield(L, -2, "own_reactions");
}

/* The tables of a review with columns in them. */
static void push_all(lua_State *L, const struct kept *o,
                     const struct ns_shape *h) {
  static const char *const states[] = {"cut", "fixed"};
  int next = 0;
  lua_createtable(L, 0, 8);
  for (int s = 0; s < o->states; s++)
    push_state(L, o, &o->state[s], h->spans, &next);
  if (o->states > 1) push_fix(L, o, h->fix.stations, &next);
  for (int s = o->states; s > 0; s--) lua_setfield(L, -1 - s, states[s - 1]);
  lua_createtable(L, h->cuts, 0);
  for (int c = 0; c < h->cuts; c++) {
    lua_createtable(L, 0, 32);
    set_rows(L, o, &next, nsb_cut_rows);
    lua_rawseti(L, -2, c + 1);
  }
  lua_setfield(L, -2, "cuts");
  lua_createtable(L, h->spans + 1, 0);
  for (int j = 0; j <= h->spans; j++) {
    push(L, o->to + (size_t)next++ * (size_t)o->n, o->n);
    lua_rawseti(L, -2, j + 1);
  }
  lua_setfield(L, -2, "seat");
  set(L, "no_seat", o->to + (size_t)next * (size_t)o->n, o->n);
}

/* ---- the work ---- */

struct varied {
  double *row; /* of the workspace's block */
  const double *values;
};

/* Columns that vary, each with the row that it sets. */
static int read_columns(lua_State *L, struct nsb_workspace *d, struct varied *v,
                        lua_Integer n) {
  const int count = nsb_list(L, 1, "kept", "columns", NS_MAX_COLUMNS);
  for (int k = 0; k < count; k++) {
    const int t = nsb_item(L, "columns", k + 1);
    nsb_get(L, t, "values");
    const struct nsb_numbers *c = luaL_checkudata(L, -1, NSB_LANED);
    if (c->n != n) luaL_error(L, "kept: columns[%d]: other lanes", k + 1);
    nsb_get(L, t, "path");
    const char *path = luaL_checkstring(L, -1);
    v[k] = (struct varied){nsb_row(&d->block, &d->shape, path), c->v};
    if (!v[k].row) luaL_error(L, "kept: no field '%s'", path);
    lua_pop(L, 3);
  }
  lua_pop(L, 1);
  return count;
}

/* Userdata of the arguments; raises for another type. */
static void *field_of(lua_State *L, const char *name, const char *type) {
  nsb_get(L, 1, name);
  void *p = luaL_testudata(L, -1, type);
  if (!p) luaL_error(L, "kept: %s: %s expected", name, type);
  lua_pop(L, 1);
  return p;
}

/* kept{model = packed, columns = {{path =, values = lanes}}, count = lanes,
 * rules =, standard =, checks = true for demand, capacity and place of each} ->
 * the tables of a review without its uncut state; nothing where a joist is
 * wrong. Then the faults of all lanes, 0 where there is none. */
static int core_kept(lua_State *L) {
  struct varied varied[NS_MAX_COLUMNS];
  luaL_checktype(L, 1, LUA_TTABLE);
  const struct ns_rules *rules = field_of(L, "rules", NSB_RULES);
  const struct nsb_packed *p = field_of(L, "model", NSB_PACKED);
  struct nsb_workspace *d = nsb_the_workspace(L);
  d->standard =
      *(const struct ns_standard *)field_of(L, "standard", NSB_STANDARD);
  struct kept *o = lua_newuserdatauv(L, sizeof *o, 0);
  o->n = (lua_Integer)nsb_finite(L, 1, "kept", "count", NSB_REQUIRED);
  luaL_argcheck(L, o->n >= 1 && o->n <= 1 << 20, 1, "a count of lanes");
  o->each = nsb_flag(L, 1, "checks") ? CHECK_ROWS : DEMAND;
  for (int i = 0; i < NS_LANES; i++) nsb_unpack(d, p, i, i == 0);
  const int columns = read_columns(L, d, varied, o->n);
  list_rows(o, &d->shape, &d->result);
  give_room(L, o);
  struct nsb_numbers *fault = nsb_lanes(L, o->n);
  bool room = true, wrong = false;
  for (lua_Integer at = 0; at < o->n && room; at += NS_LANES) {
    const struct ns_result *r = &d->result;
    const lua_Integer rest = o->n - at;
    const int count = rest < NS_LANES ? (int)rest : NS_LANES;
    for (int c = 0; c < columns; c++)
      for (int i = 0; i < NS_LANES; i++)
        varied[c].row[i] = varied[c].values[at + (i < count ? i : count - 1)];
    ns_rate(&d->shape, rules, &d->standard, &d->block, nsb_work(d), &d->result);
    const bool many = r->status[0] == NS_TOO_MANY; /* of the topology */
    for (int i = 0; i < count; i++) {
      const double s = many ? NS_TOO_MANY : r->status[i];
      fault->v[at + i] =
          s == NS_OK ? 0 : NS_FAULT(s, r->bad_part[i], r->bad_field[i]);
      wrong |= s != NS_OK;
    }
    room = many || keep_block(o, r, at, count);
  }
  if (!room) return luaL_error(L, "kept: a check found no room");
  if (wrong) {
    lua_pushnil(L);
    lua_insert(L, -2);
    return 2;
  }
  push_all(L, o, &d->shape);
  lua_insert(L, -2);
  return 2;
}

/* A number of a check that a table names: of all lanes, or a column. */
struct given {
  double *row;
  const double *values;
};

/* Whether the value of a field is a column, which is noted; else its number
 * fills the row. */
static bool read_given(lua_State *L, const char *name, double *row,
                       double otherwise, lua_Integer *n, struct given *g) {
  nsb_get(L, 1, name);
  const struct nsb_numbers *c = luaL_testudata(L, -1, NSB_LANED);
  lua_pop(L, 1);
  if (!c) {
    const double v = nsb_finite(L, 1, "joint", name, otherwise);
    for (int i = 0; i < NS_LANES; i++) row[i] = v;
    return false;
  }
  if (*n >= 0 && c->n != *n) luaL_error(L, "joint: %s: other lanes", name);
  *n = c->n;
  *g = (struct given){row, c->v};
  return true;
}

/* joints{mode =, branch =, demand =, symbols of the record ...}, as joint, some
 * of them columns -> the check, its demand, capacity and ratio columns. */
static int core_joints(lua_State *L) {
  struct given given[NS_RECORDS + 1];
  int columns = 0;
  lua_Integer n = -1;
  ns_lane demand;
  struct ns_check *k = nsb_new_joint(L);
  columns += read_given(L, "demand", demand, NSB_REQUIRED, &n, given);
  for (int f = 0; ns_record_symbols[f].name; f++)
    columns += read_given(L, ns_record_symbols[f].name, k->rec[f], 0, &n,
                          &given[columns]);
  luaL_argcheck(L, n >= 1, 1, "a column expected");
  lua_createtable(L, 0, 12);
  lua_pushstring(L, ns_mode_names[k->mode]);
  lua_setfield(L, -2, "mode");
  lua_pushboolean(L, true);
  lua_setfield(L, -2, "binding");
  nsb_set_int(L, "branch", k->branch[0]);
  double *to[3];
  static const char *const names[] = {"demand", "capacity", "ratio"};
  for (int f = 0; f < 3; f++) {
    to[f] = nsb_lanes(L, n)->v;
    lua_setfield(L, -2, names[f]);
  }
  for (lua_Integer at = 0; at < n; at += NS_LANES) {
    const int count = n - at < NS_LANES ? (int)(n - at) : NS_LANES;
    for (int c = 0; c < columns; c++)
      for (int i = 0; i < NS_LANES; i++)
        given[c].row[i] = given[c].values[at + (i < count ? i : count - 1)];
    memcpy(k->demand, demand, sizeof demand);
    ns_joint(k);
    const double *from[] = {k->demand, k->capacity, k->ratio};
    for (int f = 0; f < 3; f++)
      memcpy(to[f] + at, from[f], sizeof(double) * (size_t)count);
  }
  return 1;
}

/* Puts kept(...) and joint columns into the module. */
int nsb_open_kept(lua_State *L) {
  lua_pushvalue(L, -2);
  lua_newuserdatauv(L, sizeof(double), 0);
  lua_pushcclosure(L, core_kept, 2);
  lua_setfield(L, -2, "kept");
  lua_pushcfunction(L, core_joints);
  lua_setfield(L, -2, "joints");
  return 0;
}
