/* SPDX-License-Identifier: MIT
 * lua_core.c - the module netsection.core: reviews, batches and lists.
 *
 * Everything that lasts is inside one userdata, so an error at any point
 * leaves nothing behind. */
#include <stdint.h>
#include <string.h>

#include "lua_bind.h"

#define REVIEW "netsection.review"
#define RULES "netsection.rules"
#define STANDARD "netsection.standard"

/* Everything a block of reviews is worked with: large, one for the module, an
 * upvalue of the functions that use it. No Lua code runs while it is in use. */
struct desk {
  struct ns_shape shape;
  struct ns_standard standard;
  _Alignas(NS_CACHE_LINE) struct ns_block block;
  _Alignas(NS_CACHE_LINE) struct ns_result result;
  _Alignas(NS_CACHE_LINE) double work[]; /* struct ns_work */
};

/* Lua aligns by less: the desk begins at the first cache line of its memory. */
static struct desk *the_desk(lua_State *L) {
  const uintptr_t at = (uintptr_t)lua_touserdata(L, lua_upvalueindex(1));
  const uintptr_t line = NS_CACHE_LINE;
  return (struct desk *)((at + line - 1) / line * line);
}

static struct ns_work *work_of(struct desk *d) {
  return (struct ns_work *)(void *)d->work;
}

/* What stays of a review of one joist: the numbers behind its checks. */
struct review {
  int checks;
  double rec[][NS_RECORDS];
};

static const struct review *check_review(lua_State *L, int index) {
  return luaL_checkudata(L, index, REVIEW);
}

static int core_rules(lua_State *L) {
  struct ns_rules *r = lua_newuserdatauv(L, sizeof *r, 0);
  nsb_rules(L, 1, r);
  luaL_setmetatable(L, RULES);
  return 1;
}

static int core_standard(lua_State *L) {
  struct ns_standard *s = lua_newuserdatauv(L, sizeof *s, 0);
  nsb_standard(L, 1, s);
  luaL_setmetatable(L, STANDARD);
  return 1;
}

/* Every lane is the same joist, so that no lane is left unset. */
static void spread(double (*rows)[NS_LANES], int count) {
  for (int r = 0; r < count; r++)
    for (int i = 1; i < NS_LANES; i++) rows[r][i] = rows[r][0];
}

static void spread_block(struct ns_block *b, const struct ns_shape *s) {
  spread(b->joist, NS_JOIST_ROWS);
  for (int c = 0; c < s->cuts; c++) spread(b->cut[c], NS_CUT_ROWS);
  for (int l = 0; l < s->lines; l++) spread(b->line[l], NS_LINE_ROWS);
  for (int p = 0; p < s->points; p++) spread(b->point[p], NS_POINT_ROWS);
  spread(b->fix, NS_FIX_ROWS);
  spread(b->other, NS_JOIST_ROWS);
}

static void push_check(lua_State *L, const struct ns_check *k, int index) {
  lua_createtable(L, 0, 16);
  lua_pushstring(L, ns_mode_names[k->mode]);
  lua_setfield(L, -2, "mode");
  lua_pushstring(L, ns_member_names[k->member]);
  lua_setfield(L, -2, "member");
  nsb_set_int(L, "index", index + 1);
  if (k->cut >= 0) nsb_set_int(L, "cut", k->cut + 1);
  if (k->support >= 0) nsb_set_int(L, "support", k->support + 1);
  lua_pushboolean(L, k->binding[0] != 0);
  lua_setfield(L, -2, "binding");
  nsb_set(L, "demand", k->demand[0]);
  nsb_set(L, "capacity", k->capacity[0]);
  nsb_set(L, "ratio", k->ratio[0]);
  nsb_set(L, "at", k->at[0]);
  nsb_set_int(L, "combination", k->combo[0] + 1);
  nsb_set_int(L, "branch", k->branch[0]);
}

/* The checks of a state that apply, in order; 'governing' is one of them. */
static void push_checks(lua_State *L, const struct ns_state *s,
                        const struct ns_result *r) {
  int n = 0;
  lua_createtable(L, s->count, 0);
  for (int k = s->first; k < s->first + s->count; k++) {
    if (r->check[k].on[0] == 0) continue;
    push_check(L, &r->check[k], k);
    if (k == (int)s->governing[0]) {
      lua_pushvalue(L, -1);
      lua_setfield(L, -4, "governing");
    }
    lua_rawseti(L, -2, ++n);
  }
  lua_setfield(L, -2, "checks");
}

static void push_state(lua_State *L, const struct ns_state *s,
                       const struct ns_shape *shape,
                       const struct ns_result *r) {
  lua_createtable(L, 0, 16);
  push_checks(L, s, r);
  nsb_set(L, "ratio", s->ratio[0]);
  nsb_set(L, "strength", s->strength[0]);
  nsb_set(L, "not_permitted", s->not_permitted[0]);
  nsb_set(L, "moment", s->moment[0]);
  nsb_set(L, "moment_at", s->moment_at[0]);
  nsb_set(L, "shear", s->shear[0]);
  nsb_set(L, "shear_at", s->shear_at[0]);
  nsb_set(L, "live", s->deflection[0][0]);
  nsb_set(L, "total", s->deflection[1][0]);
  nsb_set(L, "Cr", s->Cr[0]);
  lua_createtable(L, shape->spans + 1, 0);
  for (int j = 0; j <= shape->spans; j++) {
    lua_createtable(L, 0, 3);
    nsb_set(L, "most", s->reaction[j][0][0]);
    nsb_set(L, "least", s->reaction[j][1][0]);
    nsb_set(L, "dead", s->reaction[j][2][0]);
    lua_rawseti(L, -2, j + 1);
  }
  lua_setfield(L, -2, "reactions");
}

static void push_cut(lua_State *L, const struct ns_cut_result *c) {
  lua_createtable(L, 0, 24);
  const struct {
    const char *name;
    double value;
  } fields[] = {{"x1", c->x1[0]},
                {"x2", c->x2[0]},
                {"y1", c->y1[0]},
                {"y2", c->y2[0]},
                {"accepted", c->accepted[0]},
                {"covered", c->covered[0]},
                {"within", c->within[0]},
                {"M_most", c->M[0][0]},
                {"M_least", c->M[1][0]},
                {"V_most", c->V[0][0]},
                {"V_least", c->V[1][0]},
                {"M_full", c->M_full[0]},
                {"V_full", c->V_full[0]},
                {"V_mid_most", c->V_mid[0][0]},
                {"V_mid_least", c->V_mid[1][0]},
                {"lip_force", c->lip[0][0]}};
  for (size_t k = 0; k < sizeof fields / sizeof *fields; k++)
    nsb_set(L, fields[k].name, fields[k].value);
  nsb_set_int(L, "gate", c->gate[0]);
  nsb_set_int(L, "merged", c->merged[0]);
}

static void push_items(lua_State *L, const struct ns_result *r) {
  lua_createtable(L, r->items, 0);
  for (int k = 0; k < r->items; k++) {
    lua_createtable(L, 0, 6);
    nsb_set_int(L, "rule", r->item[k].rule + 1);
    nsb_set_int(L, "cut", r->item[k].cut + 1);
    nsb_set_int(L, "support", r->item[k].support + 1);
    nsb_set(L, "measured", r->item[k].measured[0]);
    nsb_set(L, "limit", r->item[k].limit[0]);
    nsb_set(L, "ok", r->item[k].ok[0]);
    lua_rawseti(L, -2, k + 1);
  }
}

/* Adds to the fixed state what the repair does. */
static void push_fix(lua_State *L, const struct ns_fix_result *f,
                     const struct ns_shape *shape) {
  const struct {
    const char *name;
    double value;
  } fields[] = {{"share", f->share[0]}, {"T", f->T[0]},
                {"z", f->z[0]},         {"c", f->c[0]},
                {"f_c", f->f_c[0]},     {"turn_k", f->turn_k[0]},
                {"sag_D", f->sag_D[0]}};
  for (size_t k = 0; k < sizeof fields / sizeof *fields; k++)
    nsb_set(L, fields[k].name, fields[k].value);
  lua_createtable(L, shape->fix.stations, 0);
  for (int l = 0; l < shape->fix.stations; l++) {
    lua_createtable(L, 0, 3);
    nsb_set(L, "most", f->G[l][0][0]);
    nsb_set(L, "least", f->G[l][1][0]);
    nsb_set(L, "full", f->G[l][2][0]);
    lua_rawseti(L, -2, l + 1);
  }
  lua_setfield(L, -2, "stations");
  lua_createtable(L, 2, 0);
  for (int e = 0; e < 2; e++) {
    lua_createtable(L, 0, 2);
    nsb_set(L, "most", f->R[e][0][0]);
    nsb_set(L, "least", f->R[e][1][0]);
    lua_rawseti(L, -2, e + 1);
  }
  lua_setfield(L, -2, "own_reactions");
}

static void push_summary(lua_State *L, const struct desk *d) {
  const struct ns_result *r = &d->result;
  lua_createtable(L, 0, 8);
  push_state(L, &r->uncut, &d->shape, r);
  lua_setfield(L, -2, "uncut");
  push_state(L, &r->cut, &d->shape, r);
  lua_setfield(L, -2, "cut");
  if (d->shape.fix.kind != NS_NO_FIX) {
    push_state(L, &r->fixed, &d->shape, r);
    push_fix(L, &r->fix, &d->shape);
    lua_setfield(L, -2, "fixed");
  }
  push_items(L, r);
  lua_setfield(L, -2, "items");
  lua_createtable(L, d->shape.cuts, 0);
  for (int c = 0; c < d->shape.cuts; c++) {
    push_cut(L, &r->cuts[c]);
    lua_rawseti(L, -2, c + 1);
  }
  lua_setfield(L, -2, "cuts");
  nsb_set(L, "within", r->within[0]);
  nsb_set_int(L, "action", r->action[0]);
  nsb_set(L, "missing", r->missing[0]);
}

/* One joist on the desk, in every lane, reviewed. */
static struct desk *review_one(lua_State *L) {
  const struct ns_rules *rules = luaL_checkudata(L, 2, RULES);
  const struct ns_standard *standard = luaL_checkudata(L, 3, STANDARD);
  struct desk *d = the_desk(L);
  memset(&d->block, 0, sizeof d->block);
  nsb_model(L, 1, &d->shape, &d->block, 0);
  spread_block(&d->block, &d->shape);
  d->standard = *standard;
  ns_review(&d->shape, rules, &d->standard, &d->block, work_of(d), &d->result);
  return d;
}

/* review(model, rules, standard) -> records, summary: {uncut =, cut =, items =,
 * cuts =, action =, ...} with a list of checks in each state; or nil and what
 * is wrong: {text =, cut =, line =, point =, field =, low =, high =, unit =}.
 */
static int core_review(lua_State *L) {
  const struct desk *d = review_one(L);
  const struct ns_result *r = &d->result;
  if (r->status[0] != NS_OK) {
    lua_pushnil(L);
    nsb_push_blame(L, &d->shape, r, 0);
    return 2;
  }
  struct review *kept = lua_newuserdatauv(
      L, sizeof *kept + sizeof kept->rec[0] * (size_t)r->checks, 0);
  kept->checks = r->checks;
  for (int k = 0; k < r->checks; k++)
    for (int f = 0; f < NS_RECORDS; f++)
      kept->rec[k][f] = r->check[k].rec[f][0];
  luaL_setmetatable(L, REVIEW);
  push_summary(L, d);
  return 2;
}

/* record(review, n, index) -> one number behind a check; the index is that
 * of the symbol in fields().symbol. */
static int core_record(lua_State *L) {
  const struct review *r = check_review(L, 1);
  const lua_Integer n = luaL_checkinteger(L, 2), f = luaL_checkinteger(L, 3);
  luaL_argcheck(L, n >= 1 && n <= r->checks, 2, "no such check");
  luaL_argcheck(L, f >= 1 && f <= NS_RECORDS, 3, "no such symbol");
  lua_pushnumber(L, r->rec[n - 1][f - 1]);
  return 1;
}

/* curve(model, rules, standard, what, per_segment) -> list of places with V, M
 * and capacities: "uncut", "cut", "fixed" the joist, "new" what is beside it.
 */
static int core_curve(lua_State *L) {
  static const char *const names[] = {"uncut", "cut", "fixed", "new", NULL};
  const enum ns_drawn what =
      (enum ns_drawn)luaL_checkoption(L, 4, "cut", names);
  const int per = (int)luaL_optinteger(L, 5, 12);
  luaL_argcheck(L, per >= 1 && per <= 64, 5, "1 to 64");
  const int room = NS_MAX_BREAKS * (per + 3);
  struct ns_curve *c = lua_newuserdatauv(L, sizeof *c * (size_t)room, 0);
  struct desk *d = review_one(L);
  luaL_argcheck(L, d->result.status[0] == NS_OK, 1, "a model that is wrong");
  luaL_argcheck(L, what < NS_DRAW_FIXED || d->shape.fix.kind != NS_NO_FIX, 4,
                "no repair");
  luaL_argcheck(L, what < NS_DRAW_NEW || d->shape.fix.kind == NS_BESIDE, 4,
                "no member beside it");
  const int n = ns_curve_points(work_of(d), what, per, c, room);
  lua_createtable(L, n, 0);
  for (int k = 0; k < n; k++) {
    lua_createtable(L, 0, 10);
    nsb_set(L, "x", c[k].x);
    nsb_set(L, "V", c[k].V_full);
    nsb_set(L, "M", c[k].M_full);
    nsb_set(L, "V_max", c[k].V[0]);
    nsb_set(L, "V_min", c[k].V[1]);
    nsb_set(L, "M_max", c[k].M[0]);
    nsb_set(L, "M_min", c[k].M[1]);
    nsb_set(L, "M_cap", c[k].M_cap[0]);
    nsb_set(L, "M_cap_neg", c[k].M_cap[1]);
    nsb_set(L, "V_cap", c[k].V_cap);
    lua_rawseti(L, -2, k + 1);
  }
  return 1;
}

struct column {
  double *row;
  const char *path;
  int values; /* stack index of the table */
};

static const double *output_row(const struct ns_result *r, const char *name) {
  const struct {
    const char *name;
    const double *row;
  } rows[] = {{"status", r->status},
              {"action", r->action},
              {"uncut.ratio", r->uncut.ratio},
              {"uncut.strength", r->uncut.strength},
              {"uncut.governing", r->uncut.mode},
              {"cut.ratio", r->cut.ratio},
              {"cut.strength", r->cut.strength},
              {"cut.governing", r->cut.mode},
              {"cut.not_permitted", r->cut.not_permitted},
              {"within", r->within}};
  for (size_t k = 0; k < sizeof rows / sizeof *rows; k++)
    if (strcmp(rows[k].name, name) == 0) return rows[k].row;
  return NULL;
}

/* Worst ratio of one mode in one state, "uncut:bending" or "cut:net-shear":
 * false where the name is not of that form. */
static bool mode_row(const struct ns_result *r, const char *name, double *row) {
  const char *mode = strchr(name, ':');
  const bool cut = mode && strncmp(name, "cut:", 4) == 0;
  int wanted = NS_MODES;
  if (!cut && strncmp(name, "uncut:", 6) != 0) return false;
  for (int k = 0; k < NS_MODES; k++)
    if (strcmp(ns_mode_names[k], mode + 1) == 0) wanted = k;
  if (wanted == NS_MODES) return false;
  const struct ns_state *s = cut ? &r->cut : &r->uncut;
  memset(row, 0, sizeof(ns_lane));
  for (int n = s->first; n < s->first + s->count; n++) {
    const struct ns_check *k = &r->check[n];
    if ((int)k->mode != wanted) continue;
    for (int i = 0; i < NS_LANES; i++)
      if (k->on[i] != 0 && k->ratio[i] > row[i]) row[i] = k->ratio[i];
  }
  return true;
}

/* Lanes past the last joist repeat it. */
static void fill_lanes(lua_State *L, const struct column *c, int columns,
                       int first, int count) {
  for (int k = 0; k < columns; k++)
    for (int i = 0; i < NS_LANES; i++) {
      const int at = first + (i < count ? i : count - 1);
      if (lua_rawgeti(L, c[k].values, at + 1) != LUA_TNUMBER)
        luaL_error(L, "column %s[%d]: number expected, got %s", c[k].path,
                   at + 1, luaL_typename(L, -1));
      c[k].row[i] = lua_tonumber(L, -1);
      lua_pop(L, 1);
    }
}

static void take_lanes(lua_State *L, const struct ns_result *r, int outputs,
                       int names, int tables, int first, int count) {
  for (int o = 0; o < outputs; o++) {
    ns_lane of_mode;
    lua_rawgeti(L, names, o + 1);
    if (lua_type(L, -1) != LUA_TSTRING)
      luaL_error(L, "output %d: string expected, got %s", o + 1,
                 luaL_typename(L, -1));
    const char *name = lua_tostring(L, -1);
    const double *row = output_row(r, name);
    if (!row) {
      if (!mode_row(r, name, of_mode)) luaL_error(L, "no output '%s'", name);
      row = of_mode;
    }
    const bool word = row == r->uncut.mode || row == r->cut.mode;
    for (int i = 0; i < count; i++) {
      if (r->status[i] != NS_OK && row != r->status)
        lua_pushboolean(L, 0);
      else if (word) /* no check at all: the list ends in a null, pushed as nil
                      */
        lua_pushstring(L, ns_mode_names[(int)row[i]]);
      else
        lua_pushnumber(L, row[i]);
      lua_rawseti(L, tables + o, first + i + 1);
    }
    lua_pop(L, 1);
  }
}

/* batch: a joist that cannot be worked gives false in every column but that
 * of its status.
 *
 * batch(model, rules, standard, n, {path = {n numbers}}, {outputs}) -> one
 * table of n numbers per output. The model is the joist that the columns
 * vary; sixteen lanes at a time go through ns_review. */
static int core_batch(lua_State *L) {
  enum { MOST = 32 };
  struct column columns[MOST];
  int used = 0;
  const struct ns_rules *rules = luaL_checkudata(L, 2, RULES);
  const struct ns_standard *standard = luaL_checkudata(L, 3, STANDARD);
  const int n = (int)luaL_checkinteger(L, 4);
  luaL_argcheck(L, n >= 1, 4, "one joist at least");
  luaL_checktype(L, 5, LUA_TTABLE);
  luaL_checktype(L, 6, LUA_TTABLE);
  luaL_checkstack(L, 2 * MOST + 8, "too many columns");
  lua_settop(L, 6);
  struct desk *r = the_desk(L);
  memset(&r->block, 0, sizeof r->block);
  nsb_model(L, 1, &r->shape, &r->block, 0);
  spread_block(&r->block, &r->shape);
  lua_pushnil(L);
  while (lua_next(L, 5)) {
    luaL_argcheck(L, used < MOST && lua_type(L, -2) == LUA_TSTRING, 5,
                  "up to 32 columns by the name of their field expected");
    const char *path = lua_tostring(L, -2);
    if (!lua_istable(L, -1))
      return luaL_error(L, "column %s: table expected, got %s", path,
                        luaL_typename(L, -1));
    columns[used].row = nsb_row(&r->block, &r->shape, path);
    if (!columns[used].row) return luaL_error(L, "no field '%s'", path);
    columns[used].path = path;
    columns[used].values = lua_gettop(L);
    used++;
    lua_pushvalue(L, -2);
  }
  const int outputs = (int)lua_rawlen(L, 6);
  luaL_argcheck(L, outputs >= 1 && outputs <= MOST, 6, "1 to 32 outputs");
  const int tables = lua_gettop(L) + 1;
  for (int o = 0; o < outputs; o++) lua_createtable(L, n, 0);
  for (int first = 0; first < n; first += NS_LANES) {
    const int count = n - first < NS_LANES ? n - first : NS_LANES;
    fill_lanes(L, columns, used, first, count);
    ns_review(&r->shape, rules, standard, &r->block, work_of(r), &r->result);
    take_lanes(L, &r->result, outputs, 6, tables, first, count);
  }
  return outputs;
}

/* Like batch, but each block is reviewed 'times' over and nothing is read
 * back but a sum: what the core alone costs, for the bench. */
static int core_spin(lua_State *L) {
  const struct ns_rules *rules = luaL_checkudata(L, 2, RULES);
  const struct ns_standard *standard = luaL_checkudata(L, 3, STANDARD);
  const lua_Integer times = luaL_checkinteger(L, 4);
  struct desk *r = the_desk(L);
  double sum = 0;
  memset(&r->block, 0, sizeof r->block);
  nsb_model(L, 1, &r->shape, &r->block, 0);
  spread_block(&r->block, &r->shape);
  for (int i = 0; i < NS_LANES; i++) r->block.joist[NS_J_live][i] += i;
  for (lua_Integer k = 0; k < times; k++) {
    r->block.joist[NS_J_dead][0] = 10 + 1e-3 * (double)(k % 100);
    ns_review(&r->shape, rules, standard, &r->block, work_of(r), &r->result);
    sum += r->result.cut.ratio[0];
  }
  lua_pushnumber(L, sum);
  return 1;
}

static void push_fields(lua_State *L, const struct ns_field *f) {
  lua_newtable(L);
  for (int k = 1; f->name; f++, k++) {
    lua_createtable(L, 0, 6);
    lua_pushstring(L, f->name);
    lua_setfield(L, -2, "name");
    nsb_set(L, "rows", f->rows);
    nsb_set(L, "low", f->low);
    nsb_set(L, "high", f->high);
    lua_pushstring(L, f->unit);
    lua_setfield(L, -2, "unit");
    lua_pushstring(L, f->meaning);
    lua_setfield(L, -2, "meaning");
    lua_rawseti(L, -2, k);
  }
}

/* fields() -> the lists of joist, cut, line, point, fix fields and symbols. */
static int core_fields(lua_State *L) {
  lua_createtable(L, 0, 5);
  push_fields(L, ns_joist_fields);
  lua_setfield(L, -2, "joist");
  push_fields(L, ns_cut_fields);
  lua_setfield(L, -2, "cut");
  push_fields(L, ns_line_fields);
  lua_setfield(L, -2, "line");
  push_fields(L, ns_point_fields);
  lua_setfield(L, -2, "point");
  push_fields(L, ns_fix_fields);
  lua_setfield(L, -2, "fix");
  lua_newtable(L);
  for (int k = 0; ns_record_symbols[k].name; k++) {
    lua_createtable(L, 0, 3);
    nsb_set_int(L, "index", k + 1);
    lua_pushstring(L, ns_record_symbols[k].unit);
    lua_setfield(L, -2, "unit");
    lua_pushstring(L, ns_record_symbols[k].meaning);
    lua_setfield(L, -2, "meaning");
    lua_setfield(L, -2, ns_record_symbols[k].name);
  }
  lua_setfield(L, -2, "symbol");
  return 1;
}

/* joint{mode=, branch=, demand=, symbols of the record ...} -> a review that
 * holds this one check, and the check: what a connection by itself takes. */
static int core_joint(lua_State *L) {
  luaL_checktype(L, 1, LUA_TTABLE);
  struct ns_check *k = lua_newuserdatauv(L, sizeof *k, 0);
  memset(k, 0, sizeof *k);
  const int mode = nsb_word(L, 1, "joint", "mode", ns_mode_names);
  luaL_argcheck(L, mode >= 0, 1, "mode expected");
  k->mode = (enum ns_mode)mode;
  k->cut = k->support = -1;
  const double branch = nsb_finite(L, 1, "joint", "branch", 1);
  const double demand = nsb_finite(L, 1, "joint", "demand", NSB_REQUIRED);
  for (int i = 0; i < NS_LANES; i++) {
    k->on[i] = k->binding[i] = 1;
    k->branch[i] = branch;
    k->demand[i] = demand;
  }
  for (int f = 0; ns_record_symbols[f].name; f++) {
    const double v = nsb_finite(L, 1, "joint", ns_record_symbols[f].name, 0);
    for (int i = 0; i < NS_LANES; i++) k->rec[f][i] = v;
  }
  ns_joint(k);
  struct review *kept =
      lua_newuserdatauv(L, sizeof *kept + sizeof kept->rec[0], 0);
  kept->checks = 1;
  for (int f = 0; f < NS_RECORDS; f++) kept->rec[0][f] = k->rec[f][0];
  luaL_setmetatable(L, REVIEW);
  push_check(L, k, 0);
  return 2;
}

/* A number above 0 and below what any wood has. */
static double positive(lua_State *L, int arg) {
  const double v = luaL_checknumber(L, arg);
  luaL_argcheck(L, v > 1e-9 && v < 1e12, arg, "a number above 0 expected");
  return v;
}

/* CL(Fb_star, E_min, l_e, b, d), l_e(case, l_u, d), Cb(l_b, to_end),
 * Cfu(width, thick_4): the factors by themselves. */
static int core_CL(lua_State *L) {
  lua_pushnumber(L, ns_CL(positive(L, 1), positive(L, 2), positive(L, 3),
                          positive(L, 4), positive(L, 5)));
  return 1;
}

static int core_l_e(lua_State *L) {
  static const char *const cases[] = {
      "any",        "uniform",        "point",    "point braced", "2 points",
      "3 points",   "4 points",       "5 points", "6 points",     "7 points",
      "cantilever", "cantilever tip", NULL};
  const int c = luaL_checkoption(L, 1, "any", cases);
  lua_pushnumber(L, ns_l_e((enum ns_le_case)c, positive(L, 2), positive(L, 3)));
  return 1;
}

static int core_Cb(lua_State *L) {
  const double to_end = luaL_checknumber(L, 2);
  luaL_argcheck(L, to_end >= 0 && to_end < 1e12, 2, "0 or more expected");
  lua_pushnumber(L, ns_Cb(positive(L, 1), to_end));
  return 1;
}

static int core_Cfu(lua_State *L) {
  lua_pushnumber(L, ns_Cfu(positive(L, 1), lua_toboolean(L, 2)));
  return 1;
}

/* adjust(model, standard, property, combination) -> value and its factors. */
static int core_adjust(lua_State *L) {
  static const char *const names[] = {"Fb", "Ft", "Fv",   "Fc_perp",
                                      "Fc", "E",  "Emin", NULL};
  const struct ns_standard *s = luaL_checkudata(L, 2, STANDARD);
  const int p = luaL_checkoption(L, 3, NULL, names);
  const int c = (int)luaL_optinteger(L, 4, s->combos) - 1;
  luaL_argcheck(L, c >= 0 && c < s->combos, 4, "no such combination");
  struct ns_shape shape;
  struct ns_factors f;
  struct ns_block *b = lua_newuserdatauv(L, sizeof *b, 0);
  memset(b, 0, sizeof *b);
  nsb_model(L, 1, &shape, b, 0);
  ns_adjust(b->joist, s, (enum ns_property)p, c, &f);
  lua_createtable(L, 0, 8);
  nsb_set(L, "value", f.value[0]);
  nsb_set(L, "CD", f.CD[0]);
  nsb_set(L, "CM", f.CM[0]);
  nsb_set(L, "Ct", f.Ct[0]);
  nsb_set(L, "CF", f.CF[0]);
  nsb_set(L, "Ci", f.Ci[0]);
  nsb_set(L, "K", f.K[0]);
  return 1;
}

/* section{b=, d=, y1=, y2=} -> the net section of one rectangle. */
static int core_section(lua_State *L) {
  struct ns_section o;
  luaL_checktype(L, 1, LUA_TTABLE);
  memset(&o, 0, sizeof o);
  for (int i = 0; i < NS_LANES; i++) {
    o.b[i] = nsb_finite(L, 1, "section", "b", NSB_REQUIRED);
    o.H[i] = o.d[i] = nsb_finite(L, 1, "section", "d", NSB_REQUIRED);
    o.y1[i] = nsb_finite(L, 1, "section", "y1", 0);
    o.y2[i] = nsb_finite(L, 1, "section", "y2", 0);
    o.z1[i] = nsb_finite(L, 1, "section", "z1", 0);
    o.z2[i] = nsb_finite(L, 1, "section", "z2", 0);
  }
  luaL_argcheck(L,
                o.b[0] > 1e-3 && o.b[0] < 1e6 && o.d[0] > 1e-3 && o.d[0] < 1e6,
                1, "b and d: lengths above 0 expected");
  luaL_argcheck(
      L, o.y1[0] >= 0 && o.y2[0] <= o.d[0] && o.z1[0] >= 0 && o.z2[0] <= o.d[0],
      1, "y1, y2, z1, z2: between 0 and d expected");
  ns_section_of(&o);
  lua_createtable(L, 0, 12);
  nsb_set(L, "A", o.A[0]);
  nsb_set(L, "y_b", o.y_b[0]);
  nsb_set(L, "I", o.I[0]);
  nsb_set(L, "S_b", o.S_b[0]);
  nsb_set(L, "S_t", o.S_t[0]);
  nsb_set(L, "S_min", o.least[0]);
  nsb_set(L, "h_b", o.h_b[0]);
  nsb_set(L, "h_t", o.h_t[0]);
  nsb_set(L, "lost", o.lost[0]);
  nsb_set(L, "A_v", o.A_v[0]);
  return 1;
}

/* Those that work on the desk. */
static const luaL_Reg desk_functions[] = {{"review", core_review},
                                          {"curve", core_curve},
                                          {"batch", core_batch},
                                          {"spin", core_spin},
                                          {NULL, NULL}};

static const luaL_Reg functions[] = {
    {"rules", core_rules},   {"standard", core_standard},
    {"record", core_record}, {"fields", core_fields},
    {"CL", core_CL},         {"l_e", core_l_e},
    {"Cb", core_Cb},         {"Cfu", core_Cfu},
    {"adjust", core_adjust}, {"section", core_section},
    {"joint", core_joint},   {NULL, NULL}};

#if defined(__GNUC__)
__attribute__((visibility("default")))
#endif
int luaopen_netsection_core(lua_State *L);

int luaopen_netsection_core(lua_State *L) {
  luaL_checkversion(L);
  luaL_newmetatable(L, REVIEW);
  luaL_newmetatable(L, RULES);
  luaL_newmetatable(L, STANDARD);
  lua_pop(L, 3);
  luaL_newlib(L, functions);
  lua_newuserdatauv(L, sizeof(struct desk) + ns_work_size + NS_CACHE_LINE, 0);
  luaL_setfuncs(L, desk_functions, 1);
  nsb_open_beam(L);
  nsb_open_dowel(L);
  lua_pushstring(L, ns_version());
  lua_setfield(L, -2, "version");
  return 1;
}
