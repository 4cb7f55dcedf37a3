/* SPDX-License-Identifier: MIT
 * end_sister.c - forces of a lost end's sister for Lua, of one joist or of
 * many: a number that is a column makes the answers columns. */
#include "lua/bind.h"
#include "repair/end_sister.h"

static const char *const forces[] = {
#define X(name, word) word,
    NS_END_FORCE_LIST(X)
#undef X
        NULL};

/* Numbers that differ from lane to lane, and where they go. */
enum { MOST_COLUMNS = 6 + 4 * NS_END_LINES + 2 * NS_MAX_POINTS + 3 + 6 };
struct columns {
  int n;
  lua_Integer lanes;
  struct {
    double *to;
    const double *v;
  } column[MOST_COLUMNS];
};

/* The number or the column in field 'name' of the table at 'index'. */
static void read_number(lua_State *L, int index, const char *name, double *to,
                        struct columns *c) {
  nsb_get(L, index, name);
  const struct nsb_numbers *v = luaL_testudata(L, -1, NSB_LANED);
  lua_pop(L, 1);
  if (!v) {
    *to = nsb_finite(L, index, "end", name, NSB_REQUIRED);
    return;
  }
  if (c->n > 0 && c->lanes != v->n) luaL_error(L, "end: %s: other lanes", name);
  c->lanes = v->n;
  c->column[c->n].to = to;
  c->column[c->n++].v = v->v;
}

static void read_loads(lua_State *L, struct ns_end *g, struct columns *c) {
  g->lines = nsb_list(L, 1, "end", "lines", NS_END_LINES);
  for (int k = 0; k < g->lines; k++) {
    const int t = nsb_item(L, "lines", k + 1);
    read_number(L, t, "a", &g->line[k].a, c);
    read_number(L, t, "b", &g->line[k].b, c);
    read_number(L, t, "w1", &g->line[k].w1, c);
    read_number(L, t, "w2", &g->line[k].w2, c);
    g->line[k].live = nsb_flag(L, t, "live");
    lua_pop(L, 1);
  }
  g->points = nsb_list(L, 1, "end", "points", NS_MAX_POINTS);
  for (int k = 0; k < g->points; k++) {
    const int t = nsb_item(L, "points", k + 1);
    read_number(L, t, "at", &g->point[k].at, c);
    read_number(L, t, "P", &g->point[k].P, c);
    g->point[k].live = nsb_flag(L, t, "live");
    lua_pop(L, 1);
  }
  lua_pop(L, 2);
}

/* Joist, loads and combinations of the table at 1. */
static void read_end(lua_State *L, struct ns_end *g, struct columns *c) {
  luaL_checktype(L, 1, LUA_TTABLE);
  read_number(L, 1, "L", &g->L, c);
  read_number(L, 1, "l", &g->l, c);
  read_number(L, 1, "x_i", &g->x_i, c);
  read_number(L, 1, "x_o", &g->x_o, c);
  read_number(L, 1, "face", &g->face, c);
  read_number(L, 1, "d", &g->d, c);
  read_loads(L, g, c);
  g->combos = nsb_list(L, 1, "end", "combinations", NS_MAX_COMBOS);
  for (int k = 0; k < g->combos; k++) {
    const int t = nsb_item(L, "combinations", k + 1);
    g->combo[k].D = nsb_finite(L, t, "combination", "D", NSB_REQUIRED);
    g->combo[k].L = nsb_finite(L, t, "combination", "L", NSB_REQUIRED);
    g->combo[k].CD = nsb_finite(L, t, "combination", "CD", NSB_REQUIRED);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
}

/* Puts the numbers of a lane in. */
static void fill_lane(const struct columns *c, lua_Integer lane) {
  for (int k = 0; k < c->n; k++) *c->column[k].to = c->column[k].v[lane];
}

static const char *const answers[] = {"dead", "most", "least", "live",
                                      "V",    "CD",   "index", "x"};
enum { ANSWERS = 8 };

/* A table of the numbers of one joist, or of a column for each. */
static void push_answers(lua_State *L, const struct columns *c,
                         const char *const *names, int n, double **to) {
  lua_createtable(L, 0, n);
  for (int k = 0; k < n; k++) {
    if (c->n > 0) {
      to[k] = nsb_lanes(L, c->lanes)->v;
      lua_setfield(L, -2, names[k]);
    }
  }
}

/* end_force(joist, force, x or {a, b}, sign) -> dead, most, least, live, V, CD,
 * index, x of a force at x, or where it asks most between a and b; sign 1, -1,
 * or 0 for either. */
static int core_end_force(lua_State *L) {
  struct ns_end g;
  struct columns c = {0};
  double a, b = 0, *to[ANSWERS];
  lua_settop(L, 4);
  read_end(L, &g, &c);
  const int force = luaL_checkoption(L, 2, NULL, forces);
  const bool range = lua_istable(L, 3);
  luaL_argcheck(L, range || lua_isnumber(L, 3) || lua_isuserdata(L, 3), 3,
                "a place or two expected");
  lua_createtable(L, 0, 1); /* x as a field, to be read like the rest */
  lua_pushvalue(L, 3);
  lua_setfield(L, -2, "x");
  read_number(L, range ? 3 : 5, range ? "from" : "x", &a, &c);
  if (range) read_number(L, 3, "to", &b, &c);
  const lua_Integer sign = luaL_checkinteger(L, 4);
  luaL_argcheck(L, sign >= -1 && sign <= 1, 4, "1, -1 or 0 expected");
  push_answers(L, &c, answers, ANSWERS, to);
  for (lua_Integer i = 0; i < (c.n > 0 ? c.lanes : 1); i++) {
    fill_lane(&c, i);
    const enum ns_end_force which = (enum ns_end_force)force;
    const struct ns_end_answer q = range
                                       ? ns_end_peak(&g, which, a, b, (int)sign)
                                       : ns_end_at(&g, which, a, (int)sign);
    const double v[ANSWERS] = {q.dead, q.most, q.least, q.live,
                               q.V,    q.CD,   q.index, q.x};
    for (int k = 0; k < ANSWERS; k++)
      if (c.n > 0)
        to[k][i] = v[k];
      else
        nsb_set(L, answers[k], v[k]);
  }
  return 1;
}

static const char *const sags[] = {"live", "live_at", "total", "total_at"};
enum { SAGS = 4 };

/* end_sag(joist, {EI_host =, EI_sister =, K_i =, K_o =, creep =, more =}) ->
 * live, live_at, total, total_at. */
static int core_end_sag(lua_State *L) {
  struct ns_end g;
  struct ns_end_sag s;
  struct columns c = {0};
  double *to[SAGS];
  lua_settop(L, 2);
  read_end(L, &g, &c);
  luaL_checktype(L, 2, LUA_TTABLE);
  read_number(L, 2, "EI_host", &s.EI_host, &c);
  read_number(L, 2, "EI_sister", &s.EI_sister, &c);
  read_number(L, 2, "K_i", &s.K_i, &c);
  read_number(L, 2, "K_o", &s.K_o, &c);
  read_number(L, 2, "creep", &s.creep, &c);
  read_number(L, 2, "more", &s.more, &c);
  push_answers(L, &c, sags, SAGS, to);
  for (lua_Integer i = 0; i < (c.n > 0 ? c.lanes : 1); i++) {
    fill_lane(&c, i);
    ns_end_sag(&g, &s);
    const double v[SAGS] = {s.live, s.live_at, s.total, s.total_at};
    for (int k = 0; k < SAGS; k++)
      if (c.n > 0)
        to[k][i] = v[k];
      else
        nsb_set(L, sags[k], v[k]);
  }
  return 1;
}

/* Puts the forces of a lost end's sister into the module. */
int nsb_open_end_sister(lua_State *L) {
  static const luaL_Reg functions[] = {
      {"end_force", core_end_force}, {"end_sag", core_end_sag}, {NULL, NULL}};
  luaL_setfuncs(L, functions, 0);
  return 0;
}
