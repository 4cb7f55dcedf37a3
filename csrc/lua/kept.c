/* SPDX-License-Identifier: MIT
 * kept.c - reviews of many joists of one topology at once, for Lua: the tables
 * of one review (summary.c), in which what differs from joist to joist is a
 * column that calculates (columns.c) and the rest a plain number. */
#include <stddef.h>
#include <string.h>

#include "lua/noting.h"

struct state {
  const struct ns_state *of;
  int slots, order[NS_MAX_CHECKS];
  struct ns_slot slot[NS_MAX_CHECKS];
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
} /* no more than NS_MAX_CHECKS, which has the most of each in three states */

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

/* Where a number of a check is kept for all joists. */
static double *check_row(const struct kept *o, const struct state *s, int slot,
                         int row) {
  return s->check +
         ((size_t)slot * (size_t)o->each + (size_t)row) * (size_t)o->n;
}

/* So many joists, a block at most, have no such check. */
static void keep_none(const struct kept *o, const struct state *s, int slot,
                      lua_Integer at, int count) {
  ns_lane none;
  for (int f = 0; f < o->each; f++) {
    ns_slot_numbers(NULL, (enum ns_slot_row)f, none);
    memcpy(check_row(o, s, slot, f) + at, none, sizeof *none * (size_t)count);
  }
}

/* The slot of a check; joists of earlier blocks do not have it, and it stands
 * behind the one before it. */
static int find_slot(const struct kept *o, struct state *s,
                     const struct ns_slot *key, lua_Integer at, int *place) {
  for (int p = *place; p < s->slots; p++)
    if (ns_slots_alike(&s->slot[s->order[p]], key)) {
      *place = p + 1;
      return s->order[p];
    }
  if (s->slots >= o->most) return -1;
  const int n = s->slots++;
  s->slot[n] = *key;
  memmove(&s->order[*place + 1], &s->order[*place],
          sizeof s->order[0] * (size_t)(n - *place));
  s->order[(*place)++] = n;
  for (lua_Integer before = 0; before < at; before += NS_LANES)
    keep_none(o, s, n, before, NS_LANES);
  return n;
}

/* Numbers of a check of one block into its rows. */
static void keep_check(const struct kept *o, const struct state *s, int slot,
                       const struct ns_check *k, lua_Integer at, int count) {
  ns_lane numbers;
  for (int f = 0; f < o->each; f++) {
    ns_slot_numbers(k, (enum ns_slot_row)f, numbers);
    memcpy(check_row(o, s, slot, f) + at, numbers,
           sizeof *numbers * (size_t)count);
  }
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
    struct ns_slot key[NS_MAX_CHECKS];
    ns_slots_of(r, s->of, key);
    for (int k = 0; k < s->of->count; k++) {
      const int slot = find_slot(o, s, &key[k], at, &place);
      if (slot < 0) return false;
      got[slot] = true;
      keep_check(o, s, slot, &r->check[s->of->first + k], at, count);
    }
    for (int k = 0; k < s->slots; k++)
      if (!got[k]) keep_none(o, s, k, at, count);
    for (int i = 0; i < count; i++) {
      const int g = (int)s->of->governing[i];
      s->governing[at + i] = g < 0 ? (double)NAN : r->check[g].at[i];
    }
  }
  return true;
}

/* ---- the tables ---- */

/* A number where all lanes have it, else their column; 'what' it is of the
 * review is noted. */
static void push(lua_State *L, const double *row, lua_Integer n,
                 struct ns_take what) {
  lua_Integer i = 1;
  while (i < n && row[i] == row[0]) i++;
  what.sure = i >= n && !isnan(row[0]) && !nsb_note_varies(L, what);
  what.one = what.sure ? row[0] : 0;
  if (what.sure) {
    nsb_note_take(L, what);
    lua_pushnumber(L, row[0]);
    return;
  }
  struct nsb_numbers *c = nsb_lanes(L, n);
  memcpy(c->v, row, sizeof(double) * (size_t)n);
  c->id = nsb_note_take(L, what);
}

/* A column into the table on top. */
static void set(lua_State *L, const char *name, const double *row,
                lua_Integer n, struct ns_take what) {
  push(L, row, n, what);
  lua_setfield(L, -2, name);
}

/* The next row on the stack. */
static void push_next(lua_State *L, const struct kept *o, int *next) {
  const struct ns_take what = {.kind = NS_TAKE_ROW, .offset = o->row[*next]};
  push(L, o->to + (size_t)(*next)++ * (size_t)o->n, o->n, what);
}

/* The next rows, in the order of list_rows. */
static void set_rows(lua_State *L, const struct kept *o, int *next,
                     const struct nsb_named *list) {
  for (; list->name; list++) {
    push_next(L, o, next);
    lua_setfield(L, -2, list->name);
  }
}

/* The next rows as columns of the table on top, by name. */
static void set_next(lua_State *L, const struct kept *o, int *next,
                     const char *const *names) {
  for (; *names; names++) {
    push_next(L, o, next);
    lua_setfield(L, -2, *names);
  }
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
                        lua_Integer n, struct ns_take what) {
  lua_Integer yes = 0, all = 0;
  for (lua_Integer i = 0; i < n; i++) {
    all += on[i] != 0;
    yes += (on[i] != 0) & (decides[i] != 0);
  }
  what.row = NS_SLOT_DECIDES;
  what.sure = (yes == 0 || yes == all) && !nsb_note_varies(L, what);
  if (what.sure) {
    what.one = yes > 0 ? 1 : 0;
    nsb_note_take(L, what);
    lua_pushboolean(L, yes > 0);
  } else {
    struct nsb_numbers *c = nsb_lanes(L, n);
    memcpy(c->v, decides, sizeof(double) * (size_t)n);
    c->id = nsb_note_take(L, what);
  }
  lua_setfield(L, -2, "binding");
}

/* Whether all joists have a check, or which do. */
static void set_on(lua_State *L, const double *on, lua_Integer n,
                   struct ns_take what) {
  what.row = NS_SLOT_ON;
  what.sure = sum(on, n) == n && !nsb_note_varies(L, what);
  what.one = what.sure ? 1 : 0;
  const int64_t id = nsb_note_take(L, what);
  if (what.sure) return;
  struct nsb_numbers *c = nsb_lanes(L, n);
  memcpy(c->v, on, sizeof(double) * (size_t)n);
  c->id = id;
  lua_setfield(L, -2, "on");
}

/* A check of all joists as a table of columns. */
static void push_check(lua_State *L, const struct kept *o,
                       const struct state *s, int slot, struct ns_take what) {
  static const char *const names[] = {"demand", "capacity", "at"};
  const struct ns_slot *k = &s->slot[slot];
  const double *on = check_row(o, s, slot, NS_SLOT_ON);
  nsb_note_slot(L, what.state, k);
  lua_createtable(L, 0, 12);
  lua_pushstring(L, ns_mode_names[k->mode]);
  lua_setfield(L, -2, "mode");
  lua_pushstring(L, ns_member_names[k->member]);
  lua_setfield(L, -2, "member");
  if (k->cut >= 0) nsb_set_int(L, "cut", k->cut + 1);
  if (k->support >= 0) nsb_set_int(L, "support", k->support + 1);
  set_on(L, on, o->n, what);
  set_binding(L, on, check_row(o, s, slot, NS_SLOT_DECIDES), o->n, what);
  what.row = NS_SLOT_RATIO;
  if (k->mode != NS_UPLIFT)
    set(L, "ratio", check_row(o, s, slot, NS_SLOT_RATIO), o->n, what);
  for (int f = NS_SLOT_DEMAND; f < o->each; f++) {
    what.row = (enum ns_slot_row)f;
    set(L, names[f - NS_SLOT_DEMAND], check_row(o, s, slot, f), o->n, what);
  }
}

/* A state of all joists as a table of columns. */
static void push_state(lua_State *L, const struct kept *o, int state, int spans,
                       int *next) {
  static const char *const sides[] = {"most", "least", "dead", NULL};
  const struct state *s = &o->state[state];
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
  set(L, "governing_at", s->governing, o->n,
      (struct ns_take){.kind = NS_TAKE_GOVERNING, .state = state});
  lua_createtable(L, s->slots, 0);
  for (int p = 0; p < s->slots; p++) {
    if (sum(check_row(o, s, s->order[p], NS_SLOT_ON), o->n) == 0) continue;
    push_check(
        L, o, s, s->order[p],
        (struct ns_take){.kind = NS_TAKE_CHECK, .state = state, .slot = n});
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
  for (int s = 0; s < o->states; s++) push_state(L, o, s, h->spans, &next);
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
    push_next(L, o, &next);
    lua_rawseti(L, -2, j + 1);
  }
  lua_setfield(L, -2, "seat");
  push_next(L, o, &next);
  lua_setfield(L, -2, "no_seat");
}

/* ---- the work ---- */

struct varied {
  double *row; /* of the workspace's block */
  const double *values;
  const struct nsb_numbers *column;
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
    v[k] = (struct varied){nsb_row(&d->block, &d->shape, path), c->v, c};
    if (!v[k].row) luaL_error(L, "kept: no field '%s'", path);
    lua_pop(L, 3);
  }
  lua_pop(L, 1);
  return count;
}

/* Notes a review that went well, before what is taken of it. */
static void note(lua_State *L, struct nsb_workspace *d,
                 const struct nsb_packed *p, const struct ns_rules *rules,
                 const struct ns_standard *standard, const struct varied *v,
                 int columns) {
  const double *first = (const double *)(const void *)&d->block;
  nsb_note_review(L, p, rules, standard);
  for (int c = 0; c < columns; c++)
    nsb_note_column(L, (int)((v[c].row - first) / NS_LANES), v[c].column);
  nsb_note_reviewed(L);
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
  const struct ns_standard *standard = field_of(L, "standard", NSB_STANDARD);
  d->standard = *standard;
  struct kept *o = lua_newuserdatauv(L, sizeof *o, 0);
  o->n = (lua_Integer)nsb_finite(L, 1, "kept", "count", NSB_REQUIRED);
  luaL_argcheck(L, o->n >= 1 && o->n <= 1 << 20, 1, "a count of lanes");
  o->each = nsb_flag(L, 1, "checks") ? NS_SLOT_ROWS : NS_SLOT_DEMAND;
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
    for (int i = 0; i < count; i++) {
      const double s = r->status[i];
      fault->v[at + i] =
          s == NS_OK ? 0 : NS_FAULT(s, r->bad_part[i], r->bad_field[i]);
      wrong |= s != NS_OK;
    }
    room = keep_block(o, r, at, count);
  }
  if (!room) return luaL_error(L, "kept: a check found no room");
  if (wrong) {
    lua_pushnil(L);
    lua_insert(L, -2);
    return 2;
  }
  note(L, d, p, rules, standard, varied, columns);
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
                       double otherwise, lua_Integer *n, struct given *g,
                       struct nsb_side *side) {
  nsb_get(L, 1, name);
  const struct nsb_numbers *c = luaL_testudata(L, -1, NSB_LANED);
  lua_pop(L, 1);
  if (!c) {
    const double v = nsb_finite(L, 1, "joint", name, otherwise);
    for (int i = 0; i < NS_LANES; i++) row[i] = v;
    *side = (struct nsb_side){.one = v, .n = -1};
    return false;
  }
  *side = (struct nsb_side){.v = c->v, .n = c->n, .id = c->id};
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
  struct nsb_side of_demand, from[NS_RECORDS];
  columns +=
      read_given(L, "demand", demand, NSB_REQUIRED, &n, given, &of_demand);
  for (int f = 0; ns_record_symbols[f].name; f++)
    columns += read_given(L, ns_record_symbols[f].name, k->rec[f], 0, &n,
                          &given[columns], &from[f]);
  luaL_argcheck(L, n >= 1, 1, "a column expected");
  lua_createtable(L, 0, 12);
  lua_pushstring(L, ns_mode_names[k->mode]);
  lua_setfield(L, -2, "mode");
  lua_pushboolean(L, true);
  lua_setfield(L, -2, "binding");
  nsb_set_int(L, "branch", k->branch[0]);
  struct nsb_numbers *to[3];
  static const char *const names[] = {"demand", "capacity", "ratio"};
  for (int f = 0; f < 3; f++) {
    to[f] = nsb_lanes(L, n);
    lua_setfield(L, -2, names[f]);
  }
  nsb_note_joint(L, k->mode, (int)k->branch[0], of_demand, from, to);
  for (lua_Integer at = 0; at < n; at += NS_LANES) {
    const int count = n - at < NS_LANES ? (int)(n - at) : NS_LANES;
    for (int c = 0; c < columns; c++)
      for (int i = 0; i < NS_LANES; i++)
        given[c].row[i] = given[c].values[at + (i < count ? i : count - 1)];
    memcpy(k->demand, demand, sizeof demand);
    ns_joint(k);
    const double *made[] = {k->demand, k->capacity, k->ratio};
    for (int f = 0; f < 3; f++)
      memcpy(to[f]->v + at, made[f], sizeof(double) * (size_t)count);
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
