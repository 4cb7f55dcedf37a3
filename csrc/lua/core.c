/* SPDX-License-Identifier: MIT
 * core.c - the module netsection.core: reviews, factors and lists.
 *
 * Everything that lasts is inside one userdata, so an error at any point
 * leaves nothing behind. */
#include <string.h>

#include "lua/bind.h"

/* What stays of a review of one joist: the numbers behind its checks. */
struct review {
  int checks;
  double rec[][NS_RECORDS];
};

/* The review of an argument. */
static const struct review *check_review(lua_State *L, int index) {
  return luaL_checkudata(L, index, NSB_REVIEW);
}

/* rules(packs) -> rule packs for the core. */
static int core_rules(lua_State *L) {
  struct ns_rules *r = lua_newuserdatauv(L, sizeof *r, 0);
  nsb_rules(L, 1, r);
  luaL_setmetatable(L, NSB_RULES);
  return 1;
}

/* standard(numbers) -> a standard for the core. */
static int core_standard(lua_State *L) {
  struct ns_standard *s = lua_newuserdatauv(L, sizeof *s, 0);
  nsb_standard(L, 1, s);
  luaL_setmetatable(L, NSB_STANDARD);
  return 1;
}

/* One joist in the workspace, in every lane. */
static struct nsb_workspace *lay_out(lua_State *L, int standard) {
  struct nsb_workspace *d = nsb_the_workspace(L);
  d->standard =
      *(const struct ns_standard *)luaL_checkudata(L, standard, NSB_STANDARD);
  memset(&d->block, 0, sizeof d->block);
  nsb_model(L, 1, &d->shape, &d->block, 0);
  nsb_spread(&d->block, &d->shape);
  return d;
}

/* Reviews the joist of argument 1 in lane 0 of the workspace. */
static struct nsb_workspace *review_one(lua_State *L) {
  const struct ns_rules *rules = luaL_checkudata(L, 2, NSB_RULES);
  struct nsb_workspace *d = lay_out(L, 3);
  ns_review(&d->shape, rules, &d->standard, &d->block, nsb_work(d), &d->result);
  return d;
}

/* Pushes records and summary of one lane, or nil and what is wrong. */
static int push_review(lua_State *L, const struct ns_shape *shape,
                       const struct ns_result *r, int i) {
  if (r->status[i] != NS_OK) {
    lua_pushnil(L);
    nsb_push_fault(L, (int)r->status[i], (int)r->bad_part[i],
                   (int)r->bad_field[i]);
    return 2;
  }
  struct review *kept = lua_newuserdatauv(
      L, sizeof *kept + sizeof kept->rec[0] * (size_t)r->checks, 0);
  kept->checks = r->checks;
  for (int k = 0; k < r->checks; k++)
    for (int f = 0; f < NS_RECORDS; f++)
      kept->rec[k][f] = r->check[k].rec[f][i];
  luaL_setmetatable(L, NSB_REVIEW);
  nsb_push_summary(L, shape, r, i);
  return 2;
}

/* review(model, rules, standard) -> records, summary: {uncut =, cut =, items =,
 * cuts =, action =, ...} with a list of checks in each state; or nil and what
 * is wrong: {text =, cut =, line =, point =, field =, low =, high =, unit =}.
 */
static int core_review(lua_State *L) {
  const struct nsb_workspace *d = review_one(L);
  return push_review(L, &d->shape, &d->result, 0);
}

/* reviews({packed ...}, rules, standard) -> for each joist, up to sixteen of
 * one topology, a list of what review gives: {records, summary} or {nil, what
 * is wrong}. */
static int core_reviews(lua_State *L) {
  const struct ns_rules *rules = luaL_checkudata(L, 2, NSB_RULES);
  const struct ns_standard *standard = luaL_checkudata(L, 3, NSB_STANDARD);
  struct nsb_workspace *d = nsb_the_workspace(L);
  luaL_checktype(L, 1, LUA_TTABLE);
  const int n = (int)lua_rawlen(L, 1);
  luaL_argcheck(L, n >= 1 && n <= NS_LANES, 1, "1 to 16 joists expected");
  for (int i = 0; i < n; i++) {
    lua_rawgeti(L, 1, i + 1);
    nsb_unpack(d, luaL_checkudata(L, -1, NSB_PACKED), i, i == 0);
    luaL_argcheck(L, i == 0 || nsb_alike(d, luaL_checkudata(L, -1, NSB_PACKED)),
                  1, "joists of one topology expected");
    lua_pop(L, 1);
  }
  for (int i = n; i < NS_LANES; i++) nsb_copy_lane(&d->block, i, 0);
  d->standard = *standard;
  ns_review(&d->shape, rules, &d->standard, &d->block, nsb_work(d), &d->result);
  lua_createtable(L, n, 0);
  for (int i = 0; i < n; i++) {
    lua_createtable(L, 2, 0);
    push_review(L, &d->shape, &d->result, i);
    lua_rawseti(L, -3, 2);
    lua_rawseti(L, -2, 1);
    lua_rawseti(L, -2, i + 1);
  }
  return 1;
}

/* check(model, standard) -> nothing where the joist can be worked, else what
 * is wrong with it. */
static int core_check(lua_State *L) {
  struct nsb_workspace *d = lay_out(L, 2);
  const struct ns_result *r = &d->result;
  ns_check_block(&d->shape, &d->standard, &d->block, nsb_work(d), &d->result);
  if (r->status[0] == NS_OK) return 0;
  nsb_push_fault(L, (int)r->status[0], (int)r->bad_part[0],
                 (int)r->bad_field[0]);
  return 1;
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
  struct nsb_workspace *d = review_one(L);
  luaL_argcheck(L, d->result.status[0] == NS_OK, 1, "a model that is wrong");
  luaL_argcheck(L, !ns_has_other_loads(&d->shape, &d->block), 1,
                "a model under one combination expected");
  luaL_argcheck(L, what < NS_DRAW_FIXED || d->shape.fix.kind != NS_NO_FIX, 4,
                "no repair");
  luaL_argcheck(L, what < NS_DRAW_NEW || d->shape.fix.kind == NS_BESIDE, 4,
                "no member beside it");
  const int n = ns_curve_points(nsb_work(d), what, per, c, room);
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

/* stiffness(model, rules, standard) -> EI of the joist as cut and as it was,
 * from break to break: {{from =, to =, cut =, uncut =}}, lb-in2; over a gap as
 * if the wood were whole. */
static int core_stiffness(lua_State *L) {
  struct ns_stiffness *c = lua_newuserdatauv(L, sizeof *c * NS_MAX_BREAKS, 0);
  struct nsb_workspace *d = review_one(L);
  luaL_argcheck(L, d->result.status[0] == NS_OK, 1, "a model that is wrong");
  const int n = ns_stiffness_along(nsb_work(d), c, NS_MAX_BREAKS);
  lua_createtable(L, n, 0);
  for (int k = 0; k < n; k++) {
    lua_createtable(L, 0, 4);
    nsb_set(L, "from", c[k].from);
    nsb_set(L, "to", c[k].to);
    nsb_set(L, "cut", c[k].cut);
    nsb_set(L, "uncut", c[k].uncut);
    lua_rawseti(L, -2, k + 1);
  }
  return 1;
}

/* A block reviewed 'times' over, of which nothing is read back but a sum: what
 * the core alone costs, for the bench. */
static int core_spin(lua_State *L) {
  const struct ns_rules *rules = luaL_checkudata(L, 2, NSB_RULES);
  const struct ns_standard *standard = luaL_checkudata(L, 3, NSB_STANDARD);
  const lua_Integer times = luaL_checkinteger(L, 4);
  struct nsb_workspace *r = nsb_the_workspace(L);
  double sum = 0;
  memset(&r->block, 0, sizeof r->block);
  nsb_model(L, 1, &r->shape, &r->block, 0);
  nsb_spread(&r->block, &r->shape);
  for (int i = 0; i < NS_LANES; i++) r->block.joist[NS_J_live][i] += i;
  for (lua_Integer k = 0; k < times; k++) {
    r->block.joist[NS_J_dead][0] = 10 + 1e-3 * (double)(k % 100);
    ns_rate(&r->shape, rules, standard, &r->block, nsb_work(r), &r->result);
    sum += r->result.cut.ratio[0];
  }
  lua_pushnumber(L, sum);
  return 1;
}

/* A list of fields as a table. */
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
  struct ns_check *k = nsb_new_joint(L);
  k->cut = k->support = -1;
  const double demand = nsb_finite(L, 1, "joint", "demand", NSB_REQUIRED);
  for (int i = 0; i < NS_LANES; i++) {
    k->on[i] = k->binding[i] = 1;
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
  luaL_setmetatable(L, NSB_REVIEW);
  nsb_push_check(L, k, 0, 0);
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

/* CP(F_cE, Fc_star) */
static int core_CP(lua_State *L) {
  lua_pushnumber(L, ns_CP(positive(L, 1), positive(L, 2)));
  return 1;
}

/* l_e(case, l_u, d): effective length, in. */
static int core_l_e(lua_State *L) {
  static const char *const cases[] = {
      "any",        "uniform",        "point",    "point braced", "2 points",
      "3 points",   "4 points",       "5 points", "6 points",     "7 points",
      "cantilever", "cantilever tip", NULL};
  const int c = luaL_checkoption(L, 1, "any", cases);
  lua_pushnumber(L, ns_l_e((enum ns_le_case)c, positive(L, 2), positive(L, 3)));
  return 1;
}

/* Cb(l_b, to_end): bearing area factor. */
static int core_Cb(lua_State *L) {
  const double to_end = luaL_checknumber(L, 2);
  luaL_argcheck(L, to_end >= 0 && to_end < 1e12, 2, "0 or more expected");
  lua_pushnumber(L, ns_Cb(positive(L, 1), to_end));
  return 1;
}

/* Cfu(width, thick_4): flat use factor. */
static int core_Cfu(lua_State *L) {
  lua_pushnumber(L, ns_Cfu(positive(L, 1), lua_toboolean(L, 2)));
  return 1;
}

/* adjust(model, standard, property, combination) -> value and its factors. */
static int core_adjust(lua_State *L) {
  static const char *const names[] = {"Fb", "Ft", "Fv",   "Fc_perp",
                                      "Fc", "E",  "Emin", NULL};
  const struct ns_standard *s = luaL_checkudata(L, 2, NSB_STANDARD);
  const int p = luaL_checkoption(L, 3, NULL, names);
  const int c = (int)luaL_optinteger(L, 4, s->combos) - 1;
  struct ns_standard one;
  luaL_argcheck(L, ns_combination(s, c, &one), 4, "no such combination");
  struct ns_shape shape;
  struct ns_factors f;
  struct ns_block *b = lua_newuserdatauv(L, sizeof *b, 0);
  memset(b, 0, sizeof *b);
  nsb_model(L, 1, &shape, b, 0);
  ns_adjusted(b->joist, &one, (enum ns_property)p, 0, &f);
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

/* The bands y1..y2 and z1..z2 that are gone, as one where they meet, the first
 * of them where there is but one. */
static void read_bands(lua_State *L, double d, double y[2], double z[2]) {
  y[0] = nsb_finite(L, 1, "section", "y1", 0);
  y[1] = nsb_finite(L, 1, "section", "y2", 0);
  z[0] = nsb_finite(L, 1, "section", "z1", 0);
  z[1] = nsb_finite(L, 1, "section", "z2", 0);
  luaL_argcheck(L, y[0] >= 0 && y[1] <= d && z[0] >= 0 && z[1] <= d, 1,
                "y1, y2, z1, z2: between 0 and d expected");
  luaL_argcheck(L, y[0] <= y[1] && z[0] <= z[1], 1,
                "y1 up to y2 and z1 up to z2 expected");
  const bool none = y[0] == y[1], second = z[1] > z[0];
  const bool meet = second && !none && z[0] <= y[1] && y[0] <= z[1];
  if (!meet && !(none && second)) return;
  y[0] = none || z[0] < y[0] ? z[0] : y[0];
  y[1] = none || z[1] > y[1] ? z[1] : y[1];
  z[0] = z[1] = 0;
}

/* section{b=, d=, y1=, y2=} -> the net section of one rectangle. */
static int core_section(lua_State *L) {
  static const char *const fields[] = {"b",  "d",  "y1",     "y2",
                                       "z1", "z2", "length", NULL};
  struct ns_section o;
  double y[2], z[2];
  luaL_checktype(L, 1, LUA_TTABLE);
  nsb_only(L, 1, "section", fields);
  memset(&o, 0, sizeof o);
  const double b = nsb_finite(L, 1, "section", "b", NSB_REQUIRED);
  const double d = nsb_finite(L, 1, "section", "d", NSB_REQUIRED);
  luaL_argcheck(L, b > 1e-3 && b < 1e6 && d > 1e-3 && d < 1e6, 1,
                "b and d: lengths above 0 expected");
  read_bands(L, d, y, z);
  /* A round hole unless a length is given. */
  const double size = y[1] - y[0];
  const double length = nsb_finite(L, 1, "section", "length", -1);
  for (int i = 0; i < NS_LANES; i++) {
    o.b[i] = b;
    o.H[i] = o.d[i] = d;
    o.y1[i] = y[0];
    o.y2[i] = y[1];
    o.z1[i] = z[0];
    o.z2[i] = z[1];
    o.L[i] = length < 0 ? size / 2 : length;
    o.size[0][i] = size > length ? size : length;
    o.size[1][i] = z[1] - z[0];
  }
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

/* Those that work on the workspace. */
static const luaL_Reg workspace_functions[] = {{"review", core_review},
                                               {"reviews", core_reviews},
                                               {"check", core_check},
                                               {"curve", core_curve},
                                               {"stiffness", core_stiffness},
                                               {"spin", core_spin},
                                               {NULL, NULL}};

static const luaL_Reg functions[] = {{"rules", core_rules},
                                     {"standard", core_standard},
                                     {"record", core_record},
                                     {"fields", core_fields},
                                     {"CL", core_CL},
                                     {"CP", core_CP},
                                     {"l_e", core_l_e},
                                     {"Cb", core_Cb},
                                     {"Cfu", core_Cfu},
                                     {"adjust", core_adjust},
                                     {"section", core_section},
                                     {"joint", core_joint},
                                     {NULL, NULL}};

#if defined(__GNUC__)
__attribute__((visibility("default")))
#endif
int luaopen_netsection_core(lua_State *L);

/* Opens the module netsection.core. */
int luaopen_netsection_core(lua_State *L) {
  luaL_checkversion(L);
  luaL_newmetatable(L, NSB_REVIEW);
  luaL_newmetatable(L, NSB_RULES);
  luaL_newmetatable(L, NSB_STANDARD);
  lua_pop(L, 3);
  luaL_newlib(L, functions);
  nsb_push_workspace(L);
  lua_pushvalue(L, -1);
  lua_insert(L, -3);
  luaL_setfuncs(L, workspace_functions, 1);
  nsb_open_sweep(L);
  nsb_open_kept(L);
  nsb_open_noting(L);
  nsb_open_columns(L);
  nsb_open_csv(L);
  nsb_open_files(L);
  nsb_open_system(L);
  nsb_open_beam(L);
  nsb_open_dowel(L);
  nsb_open_end_sister(L);
  nsb_open_grid(L);
  nsb_open_odds(L);
  nsb_open_stream(L);
  nsb_open_npy(L);
  lua_pushstring(L, ns_version());
  lua_setfield(L, -2, "version");
  return 1;
}
