/* SPDX-License-Identifier: MIT
 * grid.c - a floor as a grid for Lua: core.grid{...} reads and factors it,
 * grid:solve{...} answers loads. Joists, stations and pieces count from 1. */
#include <string.h>

#include "lua/bind.h"

#define GRID "netsection.grid"
#define ANSWER "netsection.grid_answer"

/* Everything in one piece of memory that Lua owns. */
struct grid {
  struct ns_grid g;
  double *y, *x, *EI, *along, *c, *width, *band;
  struct ns_strip *strip;
  unsigned char *wood, *held;
};

struct answer {
  struct ns_grid_load load;
  double *q, *P, *u, *left; /* left: loads less what holds against them */
  double rows[];
};

static size_t count(const struct ns_grid *g, bool nodes) {
  return (size_t)g->joists * (size_t)(g->stations - (nodes ? 0 : 1));
}

/* Length of the list in a field of the table at 1. */
static int length(lua_State *L, const char *name, int least, int most) {
  const int n = nsb_list(L, 1, "grid", name, most);
  lua_pop(L, 1);
  if (n < least)
    luaL_error(L, "grid.%s: a list of %d at least expected", name, least);
  return n;
}

/* Number n of the list on top. */
static double item(lua_State *L, const char *name, int n) {
  if (lua_rawgeti(L, -1, n) != LUA_TNUMBER)
    luaL_error(L, "%s[%d]: number expected, got %s", name, n,
               luaL_typename(L, -1));
  const double v = lua_tonumber(L, -1);
  lua_pop(L, 1);
  if (!isfinite(v)) luaL_error(L, "%s[%d]: a finite number expected", name, n);
  return v;
}

static int index_of(lua_State *L, const char *name, int n, int most) {
  const double v = item(L, name, n);
  if (!(v >= 1 && v <= most && v == floor(v)))
    luaL_error(L, "%s[%d]: 1 to %d expected", name, n, most);
  return (int)v - 1;
}

/* Field 'name' of the table at 1 as numbers; rising where 'rises'. */
static void numbers(lua_State *L, const char *name, int n, double *to,
                    bool rises) {
  nsb_list(L, 1, "grid", name, n);
  for (int k = 0; k < n; k++) {
    to[k] = item(L, name, k + 1);
    if (rises && k > 0 && !(to[k] > to[k - 1]))
      luaL_error(L, "grid.%s: rising numbers expected", name);
    if (!rises && !(to[k] >= 0)) luaL_error(L, "grid.%s: 0 or more", name);
  }
  lua_pop(L, 1);
}

/* Pushes the list that is item i of a list of lists in a field. */
static int list_at(lua_State *L, const char *name, int i, int least, int most) {
  nsb_get(L, 1, name);
  if (lua_type(L, -1) != LUA_TTABLE || lua_rawgeti(L, -1, i + 1) != LUA_TTABLE)
    luaL_error(L, "grid.%s[%d]: a list expected", name, i + 1);
  lua_remove(L, -2);
  const lua_Unsigned n = lua_rawlen(L, -1);
  if (n < (lua_Unsigned)least || n > (lua_Unsigned)most)
    luaL_error(L, "grid.%s[%d]: %d to %d items expected", name, i + 1, least,
               most);
  return (int)n;
}

static void read_joist(lua_State *L, struct grid *o, int i) {
  const int stations = o->g.stations;
  const size_t row = (size_t)i * (size_t)(stations - 1);
  list_at(L, "EI", i, stations - 1, stations - 1);
  for (int e = 0; e < stations - 1; e++) {
    const double EI = item(L, "EI", e + 1);
    if (!(EI >= 0 && EI < 1e18)) luaL_error(L, "grid.EI: 0 to 1e18 expected");
    o->EI[row + (size_t)e] = EI;
  }
  lua_pop(L, 1);
  list_at(L, "wood", i, 2, 2);
  const int a = index_of(L, "wood", 1, stations);
  const int b = index_of(L, "wood", 2, stations);
  for (int e = 0; e < stations - 1; e++)
    o->wood[row + (size_t)e] = e >= a && e < b;
  lua_pop(L, 1);
  const int n = list_at(L, "held", i, 0, stations);
  for (int k = 1; k <= n; k++)
    o->held[(size_t)i * (size_t)stations +
            (size_t)index_of(L, "held", k, stations)] = 1;
  lua_pop(L, 1);
}

static int whole(lua_State *L, const char *name, int otherwise, int most) {
  const double v = nsb_finite(L, -1, "strips", name, otherwise);
  if (!(v >= 1 && v <= most && v == floor(v)))
    luaL_error(L, "strips.%s: 1 to %d expected", name, most);
  return (int)v - 1;
}

/* strips = {{station =, EI =, width =, first =, last =, c = {...}}}: the width
 * of deck in a strip, 0 for blocks; math.huge in c for a hinge. */
static void read_strips(lua_State *L, struct grid *o) {
  const int n = o->g.joists;
  nsb_list(L, 1, "grid", "strips", o->g.strips);
  for (int k = 0; k < o->g.strips; k++) {
    struct ns_strip *t = &o->strip[k];
    nsb_item(L, "strips", k + 1);
    t->station = whole(L, "station", 0, o->g.stations);
    t->first = whole(L, "first", 1, n);
    t->last = whole(L, "last", n, n);
    t->EI = nsb_finite(L, -1, "strips", "EI", NSB_REQUIRED);
    if (!(t->EI >= 0 && t->EI < 1e18))
      luaL_error(L, "strips.EI: 0 to 1e18 expected");
    o->width[k] = nsb_finite(L, -1, "strips", "width", 0);
    double *c = o->c + (size_t)k * (size_t)n;
    for (int i = 0; i < n; i++) c[i] = 0;
    if (nsb_get(L, -1, "c") == LUA_TTABLE)
      for (int i = 0; i < n; i++) {
        lua_rawgeti(L, -1, i + 1);
        c[i] = lua_tonumber(L, -1);
        lua_pop(L, 1);
        if (!(c[i] >= 0)) luaL_error(L, "strips.c: 0 or more expected");
      }
    lua_pop(L, 2);
    t->c = c;
  }
  lua_pop(L, 1);
}

static struct grid *new_grid(lua_State *L) {
  struct ns_grid g = {0};
  g.joists = length(L, "y", 1, NS_MAX_GRID_JOISTS);
  g.stations = length(L, "x", 2, NS_MAX_GRID_STATIONS);
  g.strips = length(L, "strips", 0, 4 * NS_MAX_GRID_STATIONS);
  const size_t n = (size_t)g.joists, K = (size_t)g.stations;
  const size_t S = (size_t)g.strips, pieces = count(&g, false);
  const size_t numbers_of = n + K + pieces + n + S * n + S + ns_grid_room(&g);
  const size_t size = sizeof(struct grid) + numbers_of * sizeof(double) +
                      S * sizeof(struct ns_strip) + pieces + count(&g, true);
  struct grid *o = lua_newuserdatauv(L, size, 0);
  o->g = g;
  o->y = (double *)(o + 1);
  o->x = o->y + n;
  o->EI = o->x + K;
  o->along = o->EI + pieces;
  o->c = o->along + n;
  o->width = o->c + S * n;
  o->band = o->width + S;
  o->strip = (struct ns_strip *)(o->band + ns_grid_room(&g));
  o->wood = (unsigned char *)(o->strip + S);
  o->held = o->wood + pieces;
  memset(o->held, 0, count(&g, true));
  o->g.y = o->y;
  o->g.x = o->x;
  o->g.EI = o->EI;
  o->g.along = o->along;
  o->g.wood = o->wood;
  o->g.held = o->held;
  o->g.strip = o->strip;
  return o;
}

/* grid{y=, x=, EI={{...}}, along=, wood={{first, last}}, held={{station}},
 * strips=} -> grid; or nil and why it stands on nothing */
static int grid_new(lua_State *L) {
  luaL_checktype(L, 1, LUA_TTABLE);
  lua_settop(L, 1);
  struct grid *o = new_grid(L);
  numbers(L, "y", o->g.joists, o->y, true);
  numbers(L, "x", o->g.stations, o->x, true);
  length(L, "along", o->g.joists, o->g.joists);
  numbers(L, "along", o->g.joists, o->along, false);
  for (int i = 0; i < o->g.joists; i++) read_joist(L, o, i);
  read_strips(L, o);
  if (!ns_grid_factor(&o->g, o->band)) {
    lua_pushnil(L);
    lua_pushstring(L, "part of the floor is held by nothing");
    return 2;
  }
  luaL_setmetatable(L, GRID);
  return 1;
}

static struct grid *check_grid(lua_State *L) {
  return luaL_checkudata(L, 1, GRID);
}

/* The answer at 1 and its grid. */
static struct answer *check_answer(lua_State *L, const struct grid **o) {
  struct answer *a = luaL_checkudata(L, 1, ANSWER);
  lua_getiuservalue(L, 1, 1);
  *o = lua_touserdata(L, -1);
  lua_pop(L, 1);
  return a;
}

/* q = {[joist] = {lb/in of each piece}} */
static void read_q(lua_State *L, const struct ns_grid *g, double *q) {
  memset(q, 0, sizeof *q * count(g, false));
  nsb_list(L, 2, "solve", "q", g->joists);
  for (int i = 0; !lua_isnil(L, -1) && i < g->joists; i++) {
    if (lua_rawgeti(L, -1, i + 1) == LUA_TTABLE)
      for (int e = 0; e < g->stations - 1; e++)
        q[(size_t)i * (size_t)(g->stations - 1) + (size_t)e] =
            item(L, "q", e + 1);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
}

/* P = {{joist, station, lb}} */
static void read_P(lua_State *L, const struct ns_grid *g, double *P) {
  memset(P, 0, sizeof *P * count(g, true));
  const int n = nsb_list(L, 2, "solve", "P", 100000);
  for (int k = 1; k <= n; k++) {
    nsb_item(L, "P", k);
    const int i = index_of(L, "P", 1, g->joists);
    const int at = index_of(L, "P", 2, g->stations);
    P[(size_t)i * (size_t)g->stations + (size_t)at] += item(L, "P", 3);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
}

/* grid:solve{q =, P =} -> answer */
static int grid_solve(lua_State *L) {
  const struct grid *o = check_grid(L);
  const struct ns_grid *g = &o->g;
  luaL_checktype(L, 2, LUA_TTABLE);
  lua_settop(L, 2);
  const size_t q = count(g, false), P = count(g, true);
  const size_t unknowns = (size_t)ns_grid_unknowns(g);
  struct answer *a = lua_newuserdatauv(
      L, sizeof *a + sizeof(double) * (q + P + 2 * unknowns), 1);
  a->q = a->rows;
  a->P = a->q + q;
  a->u = a->P + P;
  a->left = a->u + unknowns;
  a->load = (struct ns_grid_load){a->q, a->P};
  read_q(L, g, a->q);
  read_P(L, g, a->P);
  ns_grid_solve(g, o->band, &a->load, a->u, a->left);
  ns_grid_left_over(g, &a->load, a->u, a->left);
  lua_pushvalue(L, 1);
  lua_setiuservalue(L, -2, 1);
  luaL_setmetatable(L, ANSWER);
  return 1;
}

static int joist_arg(lua_State *L, const struct ns_grid *g) {
  const lua_Integer i = luaL_checkinteger(L, 2);
  luaL_argcheck(L, i >= 1 && i <= g->joists, 2, "no such joist");
  return (int)i - 1;
}

/* First and last station of a joist. */
static void ends_of(const struct ns_grid *g, int i, int *a, int *b) {
  const unsigned char *wood = g->wood + (size_t)i * (size_t)(g->stations - 1);
  *a = 0;
  *b = g->stations - 1;
  while (*a < *b && !wood[*a]) ++*a;
  while (*b > *a && !wood[*b - 1]) --*b;
}

/* A joist's end may lie this far past its last station, in: places nearer than
 * that are one station (grid/mesh.lua). */
#define NEAR_END 0.1

/* answer:at(joist, x [, "left"|"right"]) -> {w =, slope =, M =, V =} */
static int answer_at(lua_State *L) {
  static const char *const sides[] = {"left", "right", NULL};
  const struct grid *o;
  const struct answer *a = check_answer(L, &o);
  const int i = joist_arg(L, &o->g);
  double x = luaL_checknumber(L, 3);
  int first, last;
  ends_of(&o->g, i, &first, &last);
  const double from = o->x[first], to = o->x[last];
  luaL_argcheck(L, x >= from - NEAR_END && x <= to + NEAR_END, 3,
                "not on the joist");
  x = x < from ? from : x > to ? to : x;
  const bool right = luaL_checkoption(L, 4, "right", sides) == 1;
  struct ns_grid_place p;
  ns_grid_at(&o->g, &a->load, a->u, i, x, right && x < o->x[last], &p);
  lua_createtable(L, 0, 4);
  nsb_set(L, "w", p.w);
  nsb_set(L, "slope", p.slope);
  nsb_set(L, "M", p.M);
  nsb_set(L, "V", p.V);
  return 1;
}

/* answer:reactions(joist) -> {lb, upward, at each of its bearings} */
static int answer_reactions(lua_State *L) {
  const struct grid *o;
  const struct answer *a = check_answer(L, &o);
  const int i = joist_arg(L, &o->g);
  int n = 0;
  lua_newtable(L);
  for (int k = 0; k < o->g.stations; k++) {
    if (!o->held[(size_t)i * (size_t)o->g.stations + (size_t)k]) continue;
    lua_pushnumber(L, a->left[2 * (k * o->g.joists + i)]);
    lua_rawseti(L, -2, ++n);
  }
  return 1;
}

static void push_place(lua_State *L, const char *name, double x, double value) {
  lua_createtable(L, 0, 2);
  nsb_set(L, "x", x);
  nsb_set(L, "value", value);
  lua_setfield(L, -2, name);
}

enum { M_MOST, M_LEAST, W_MOST, W_LEAST, V_MOST, EXTREMES };

static void take(double best[2], double x, double v, bool first) {
  if (first || v > best[1]) best[0] = x, best[1] = v;
}

/* answer:extremes(joist) -> {M_max =, M_min =, w_max =, w_min =, V_max =}, each
 * {x =, value =}; at stations, both sides, and between them */
static int answer_extremes(lua_State *L) {
  const struct grid *o;
  const struct answer *a = check_answer(L, &o);
  const int i = joist_arg(L, &o->g);
  double best[EXTREMES][2] = {{0}};
  int first, last;
  bool none = true;
  ends_of(&o->g, i, &first, &last);
  for (int k = first; k < last; k++)
    for (int part = 0; part < 3; part++) {
      const double x = o->x[k] + part * (o->x[k + 1] - o->x[k]) / 2;
      struct ns_grid_place p;
      ns_grid_at(&o->g, &a->load, a->u, i, x, part < 2, &p);
      take(best[M_MOST], x, p.M, none);
      take(best[M_LEAST], x, -p.M, none);
      take(best[W_MOST], x, p.w, none);
      take(best[W_LEAST], x, -p.w, none);
      take(best[V_MOST], x, fabs(p.V), none);
      none = false;
    }
  luaL_argcheck(L, !none, 2, "no wood");
  lua_createtable(L, 0, EXTREMES);
  push_place(L, "M_max", best[M_MOST][0], best[M_MOST][1]);
  push_place(L, "M_min", best[M_LEAST][0], -best[M_LEAST][1]);
  push_place(L, "w_max", best[W_MOST][0], best[W_MOST][1]);
  push_place(L, "w_min", best[W_LEAST][0], -best[W_LEAST][1]);
  push_place(L, "V_max", best[V_MOST][0], best[V_MOST][1]);
  return 1;
}

/* answer:deck() -> per joist {M_max =, M_min =}: moments of the strips of deck
 * over it, lb-in per in, sagging positive, with their places */
static int answer_deck(lua_State *L) {
  const struct grid *o;
  const struct answer *a = check_answer(L, &o);
  const int n = o->g.joists;
  double most[NS_MAX_GRID_JOISTS][2] = {{0}}, least[NS_MAX_GRID_JOISTS][2];
  double M[NS_MAX_GRID_JOISTS];
  memset(least, 0, sizeof least);
  for (int k = 0; k < o->g.strips; k++) {
    const struct ns_strip *t = &o->strip[k];
    if (!(o->width[k] > 0)) continue;
    ns_strip_moments(&o->g, t, a->u, M);
    for (int i = 0; i < n; i++) {
      take(most[i], o->x[t->station], M[i] / o->width[k], false);
      take(least[i], o->x[t->station], -M[i] / o->width[k], false);
    }
  }
  lua_createtable(L, n, 0);
  for (int i = 0; i < n; i++) {
    lua_createtable(L, 0, 2);
    push_place(L, "M_max", most[i][0], most[i][1]);
    push_place(L, "M_min", least[i][0], -least[i][1]);
    lua_rawseti(L, -2, i + 1);
  }
  return 1;
}

/* grid:modes({lb s2/in2 of each joist}, n) -> {{hertz =, moves = {...}}} */
static int grid_modes(lua_State *L) {
  const struct grid *o = check_grid(L);
  const struct ns_grid *g = &o->g;
  luaL_checktype(L, 2, LUA_TTABLE);
  const int modes = (int)luaL_optinteger(L, 3, 3);
  luaL_argcheck(L, modes >= 1 && modes <= NS_MAX_GRID_MODES, 3,
                "1 to 6 modes expected");
  lua_settop(L, 2);
  const size_t unknowns = (size_t)ns_grid_unknowns(g);
  double *mass = lua_newuserdatauv(
      L,
      sizeof(double) * (count(g, true) + unknowns * 2 * NS_GRID_TRIALS +
                        (size_t)(modes * g->joists)),
      0);
  double *moves = mass + count(g, true);
  double *work = moves + modes * g->joists, hertz[NS_MAX_GRID_MODES];
  memset(mass, 0, sizeof *mass * count(g, true));
  for (int i = 0; i < g->joists; i++) {
    lua_pushvalue(L, 2);
    const double m = item(L, "mass", i + 1);
    lua_pop(L, 1);
    luaL_argcheck(L, m > 0, 2, "masses above 0 expected");
    for (int e = 0; e < g->stations - 1; e++) {
      if (!g->wood[(size_t)i * (size_t)(g->stations - 1) + (size_t)e]) continue;
      const double half = m * (g->x[e + 1] - g->x[e]) / 2;
      mass[(size_t)i * (size_t)g->stations + (size_t)e] += half;
      mass[(size_t)i * (size_t)g->stations + (size_t)e + 1] += half;
    }
  }
  const int n = ns_grid_modes(g, o->band, mass, modes, hertz, moves, work);
  lua_createtable(L, n, 0);
  for (int k = 0; k < n; k++) {
    lua_createtable(L, 0, 2);
    nsb_set(L, "hertz", hertz[k]);
    lua_createtable(L, g->joists, 0);
    for (int i = 0; i < g->joists; i++) {
      lua_pushnumber(L, moves[k * g->joists + i]);
      lua_rawseti(L, -2, i + 1);
    }
    lua_setfield(L, -2, "moves");
    lua_rawseti(L, -2, k + 1);
  }
  return 1;
}

int nsb_open_grid(lua_State *L) {
  static const luaL_Reg of_grid[] = {
      {"solve", grid_solve}, {"modes", grid_modes}, {NULL, NULL}};
  static const luaL_Reg of_answer[] = {{"at", answer_at},
                                       {"reactions", answer_reactions},
                                       {"extremes", answer_extremes},
                                       {"deck", answer_deck},
                                       {NULL, NULL}};
  luaL_newmetatable(L, GRID);
  luaL_newlib(L, of_grid);
  lua_setfield(L, -2, "__index");
  luaL_newmetatable(L, ANSWER);
  luaL_newlib(L, of_answer);
  lua_setfield(L, -2, "__index");
  lua_pop(L, 2);
  lua_pushcfunction(L, grid_new);
  lua_setfield(L, -2, "grid");
  return 0;
}
