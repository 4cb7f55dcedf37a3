/* SPDX-License-Identifier: MIT
 * lua_beam.c - a beam by itself: spans, EI, hinges and loads as given. */
#include <math.h>
#include <string.h>

#include "lua_bind.h"

#define BEAM "netsection.beam"

/* Every load is put in one of two cases; 'live' ones may be enveloped. */
static const double all[3] = {1, 1, 1};

static void set(ns_lane row, double v) {
  for (int i = 0; i < NS_LANES; i++) row[i] = v;
}

static void add_break(lua_State *L, struct ns_beam *s, double x) {
  if (s->breaks >= NS_MAX_BREAKS) luaL_error(L, "beam: too many parts");
  set(s->x[s->breaks++], x);
}

static void read_supports(lua_State *L, struct ns_beam *s, double *first,
                          double *last) {
  double x = 0;
  s->spans = nsb_list(L, 1, "beam", "spans", NS_MAX_SPANS);
  if (s->spans < 1) luaL_error(L, "beam.spans: one span at least");
  set(s->support[0], 0);
  add_break(L, s, 0);
  for (int k = 1; k <= s->spans; k++) {
    if (lua_rawgeti(L, -1, k) != LUA_TNUMBER)
      luaL_error(L, "beam.spans[%d]: number expected, got %s", k,
                 luaL_typename(L, -1));
    const double span = lua_tonumber(L, -1);
    if (!(span > 0 && isfinite(span)))
      luaL_error(L, "beam.spans[%d]: a length above 0 expected", k);
    lua_pop(L, 1);
    x += span;
    set(s->support[k], x);
    add_break(L, s, x);
  }
  lua_pop(L, 1);
  *first = -nsb_finite(L, 1, "beam", "overhang_left", 0);
  *last = x + nsb_finite(L, 1, "beam", "overhang_right", 0);
  if (!(*first <= 0 && *last >= x))
    luaL_error(L, "beam: an overhang is 0 or more");
  s->left = *first < 0;
  s->right = *last > x;
  if (s->left) add_break(L, s, *first);
  if (s->right) add_break(L, s, *last);
}

static double within(lua_State *L, const char *path, const char *name,
                     double first, double last) {
  const double x = nsb_finite(L, -1, path, name, NSB_REQUIRED);
  if (!(x >= first && x <= last))
    luaL_error(L, "%s.%s: on the beam expected, got %f", path, name, x);
  return x;
}

/* Places of steps, loads and hinges become breaks. */
static void read_places(lua_State *L, struct ns_beam *s, double first,
                        double last) {
  if (lua_getfield(L, 1, "EI") == LUA_TTABLE) {
    lua_pop(L, 1);
    const int n = nsb_list(L, 1, "beam", "EI", NS_MAX_STEPS);
    for (int k = 0; k < n; k++) {
      nsb_item(L, "EI", k + 1);
      add_break(L, s, within(L, "EI", "from", first, last));
      add_break(L, s, within(L, "EI", "to", first, last));
      lua_pop(L, 1);
    }
  }
  lua_pop(L, 1);
  s->hinges = nsb_list(L, 1, "beam", "hinges", NS_MAX_HINGES);
  for (int k = 0; k < s->hinges; k++) {
    nsb_item(L, "hinges", k + 1);
    const double x =
        within(L, "hinges", "at", s->support[0][0], s->support[s->spans][0]);
    if (x == s->support[0][0] || x == s->support[s->spans][0])
      luaL_error(L, "hinges[%d].at: between the end supports expected", k + 1);
    set(s->hinge[k], x);
    const double stiff = nsb_finite(L, -1, "hinges", "stiffness", 0);
    if (!(stiff >= 0)) luaL_error(L, "hinges[%d].stiffness: 0 or more", k + 1);
    set(s->hinge_k[k], stiff);
    add_break(L, s, x);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  const int n = nsb_list(L, 1, "beam", "loads", NS_MAX_LINES + NS_MAX_POINTS);
  for (int k = 0; k < n; k++) {
    nsb_item(L, "loads", k + 1);
    if (lua_getfield(L, -1, "P") == LUA_TNIL) {
      lua_pop(L, 1);
      add_break(L, s, within(L, "loads", "from", first, last));
      add_break(L, s, within(L, "loads", "to", first, last));
    } else {
      lua_pop(L, 1);
      add_break(L, s, within(L, "loads", "at", first, last));
    }
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
}

static void read_EI(lua_State *L, struct ns_beam *s) {
  const int type = lua_getfield(L, 1, "EI");
  if (type != LUA_TNUMBER && type != LUA_TTABLE)
    luaL_error(L, "beam.EI: number or list of steps expected");
  const double whole = type == LUA_TNUMBER ? lua_tonumber(L, -1) : 0;
  for (int k = 0; k < s->breaks; k++) set(s->EI[k], whole);
  const int n = type == LUA_TTABLE ? (int)lua_rawlen(L, -1) : 0;
  for (int e = 0; e < n; e++) {
    nsb_item(L, "EI", e + 1);
    const double a = nsb_finite(L, -1, "EI", "from", NSB_REQUIRED);
    const double b = nsb_finite(L, -1, "EI", "to", NSB_REQUIRED);
    const double EI = nsb_finite(L, -1, "EI", "EI", NSB_REQUIRED);
    for (int k = 0; k < s->breaks - 1; k++) {
      const double mid = (s->x[k][0] + s->x[k + 1][0]) / 2;
      if (mid > a && mid < b) set(s->EI[k], EI);
    }
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  set(s->EI[s->breaks - 1], 1);
  for (int k = 0; k < s->breaks - 1; k++) {
    if (s->x[k + 1][0] == s->x[k][0]) set(s->EI[k], 1);
    if (!(s->EI[k][0] > 0 && s->EI[k][0] < 1e300))
      luaL_error(L, "beam.EI: above 0 expected from %f", s->x[k][0]);
  }
}

static void add_load(lua_State *L, struct ns_beam *s) {
  static const char *const cases[] = {"dead", "live", NULL};
  const int c = nsb_word(L, -1, "loads", "case", cases) == 1;
  const double P = nsb_finite(L, -1, "loads", "P", 0);
  const double at = nsb_finite(L, -1, "loads", "at", 0);
  const double w1 = nsb_finite(L, -1, "loads", "w1", 0);
  const double w2 = nsb_finite(L, -1, "loads", "w2", w1);
  const double a = nsb_finite(L, -1, "loads", "from", 0);
  const double b = nsb_finite(L, -1, "loads", "to", 0);
  const double g = b > a ? (w2 - w1) / (b - a) : 0;
  for (int k = 0; k < s->breaks; k++) {
    const double x = s->x[k][0];
    const double mid = k < s->breaks - 1 ? (x + s->x[k + 1][0]) / 2 : x;
    const bool first = k == 0 || s->x[k - 1][0] != x;
    if (mid > a && mid < b) {
      set(s->w[c][k], s->w[c][k][0] + w1 + g * (x - a));
      set(s->dw[c][k], s->dw[c][k][0] + g);
    }
    if (P != 0 && x == at && first) set(s->P[c][k], s->P[c][k][0] + P);
  }
}

static void read_loads(lua_State *L, struct ns_beam *s) {
  for (int k = 0; k < s->breaks; k++)
    for (int c = 0; c < 2; c++) {
      set(s->w[c][k], 0);
      set(s->dw[c][k], 0);
      set(s->P[c][k], 0);
    }
  const int n = nsb_list(L, 1, "beam", "loads", NS_MAX_LINES + NS_MAX_POINTS);
  for (int k = 0; k < n; k++) {
    nsb_item(L, "loads", k + 1);
    add_load(L, s);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
}

/* beam{spans=, overhang_left=, overhang_right=, EI=, hinges=, loads=} */
static int beam_new(lua_State *L) {
  double first, last;
  luaL_checktype(L, 1, LUA_TTABLE);
  lua_settop(L, 1);
  struct ns_beam *s = lua_newuserdatauv(L, sizeof *s, 0);
  s->breaks = 0;
  read_supports(L, s, &first, &last);
  read_places(L, s, first, last);
  ns_beam_sort(s);
  read_EI(L, s);
  read_loads(L, s);
  ns_beam_solve(s);
  if (s->unstable[0] != 0)
    return luaL_error(L, "beam: a mechanism, no equilibrium");
  luaL_setmetatable(L, BEAM);
  return 1;
}

static struct ns_beam *check_beam(lua_State *L) {
  return luaL_checkudata(L, 1, BEAM);
}

/* beam:at(x [, "left"|"right"]) -> {V=, M=, slope=, deflection=} */
static int beam_at(lua_State *L) {
  static const char *const sides[] = {"left", "right", NULL};
  const struct ns_beam *s = check_beam(L);
  const double x = luaL_checknumber(L, 2);
  const bool right = luaL_checkoption(L, 3, "right", sides) == 1;
  luaL_argcheck(L, x >= s->x[0][0] && x <= s->x[s->breaks - 1][0], 2,
                "not on the beam");
  struct ns_station o;
  ns_beam_at(s, x, right, 0, all, &o);
  lua_createtable(L, 0, 4);
  nsb_set(L, "V", o.V);
  nsb_set(L, "M", o.M);
  nsb_set(L, "slope", o.slope);
  nsb_set(L, "deflection", o.deflection);
  return 1;
}

static int beam_reactions(lua_State *L) {
  const struct ns_beam *s = check_beam(L);
  lua_createtable(L, s->spans + 1, 0);
  for (int j = 0; j <= s->spans; j++) {
    lua_pushnumber(L, s->R[0][j][0] + s->R[1][j][0] + s->R[2][j][0]);
    lua_rawseti(L, -2, j + 1);
  }
  return 1;
}

static void push_place(lua_State *L, const char *name, const double *v) {
  lua_createtable(L, 0, 2);
  nsb_set(L, "x", v[0]);
  nsb_set(L, "value", v[1]);
  lua_setfield(L, -2, name);
}

static int beam_extremes(lua_State *L) {
  struct ns_extremes o;
  ns_beam_extremes(check_beam(L), 0, all, &o);
  lua_createtable(L, 0, 4);
  push_place(L, "M_max", o.M_most);
  push_place(L, "M_min", o.M_least);
  push_place(L, "deflection_max", o.sag_most);
  push_place(L, "deflection_min", o.sag_least);
  return 1;
}

/* beam:envelope(x [, side]) -> most and least V and M where each piece of
 * live load may be there or not; dead load in full. */
static int beam_envelope(lua_State *L) {
  static const char *const sides[] = {"left", "right", NULL};
  static const double dead[3] = {1, 0, 0};
  const struct ns_beam *s = check_beam(L);
  const double x = luaL_checknumber(L, 2);
  const bool right = luaL_checkoption(L, 3, "right", sides) == 1;
  luaL_argcheck(L, x >= s->x[0][0] && x <= s->x[s->breaks - 1][0], 2,
                "not on the beam");
  struct ns_station D;
  struct ns_envelope e;
  ns_beam_at(s, x, right, 0, dead, &D);
  int k = D.segment;
  const double h = s->x[k + 1][0] - s->x[k][0],
               t = h > 0 ? (x - s->x[k][0]) / h : 0;
  ns_lane at;
  set(at, t);
  if (t >= 1)
    ns_beam_envelope(s, k + 1, NULL, right, &e);
  else
    ns_beam_envelope(s, k, t > 0 ? at : NULL, right, &e);
  lua_createtable(L, 0, 4);
  nsb_set(L, "V_max", D.V + e.V[0][0]);
  nsb_set(L, "V_min", D.V + e.V[1][0]);
  nsb_set(L, "M_max", D.M + e.M[0][0]);
  nsb_set(L, "M_min", D.M + e.M[1][0]);
  return 1;
}

/* beam:reaction_range(n) -> most and least reaction of support n. */
static int beam_reaction_range(lua_State *L) {
  const struct ns_beam *s = check_beam(L);
  const lua_Integer n = luaL_checkinteger(L, 2);
  ns_lane most, least;
  luaL_argcheck(L, n >= 1 && n <= s->spans + 1, 2, "no such support");
  ns_beam_reaction(s, (int)n - 1, most, least);
  lua_pushnumber(L, s->R[0][n - 1][0] + most[0]);
  lua_pushnumber(L, s->R[0][n - 1][0] + least[0]);
  return 2;
}

int nsb_open_beam(lua_State *L) {
  static const luaL_Reg methods[] = {{"at", beam_at},
                                     {"reactions", beam_reactions},
                                     {"extremes", beam_extremes},
                                     {"envelope", beam_envelope},
                                     {"reaction_range", beam_reaction_range},
                                     {NULL, NULL}};
  luaL_newmetatable(L, BEAM);
  luaL_newlib(L, methods);
  lua_setfield(L, -2, "__index");
  lua_pop(L, 1);
  lua_pushcfunction(L, beam_new);
  lua_setfield(L, -2, "beam");
  return 0;
}
