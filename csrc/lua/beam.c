/* SPDX-License-Identifier: MIT
 * beam.c - a beam by itself: spans, EI, hinges and loads as given. */
#include <math.h>
#include <string.h>

#include "lua/bind.h"

#define BEAM "netsection.beam"
#define MOST_LOADS 64 /* each makes one or two breaks, which are counted */

/* Every load is put in one of two cases; 'live' ones may be enveloped. */
static const double all[3] = {1, 1, 1};

/* Every lane the same. */
static void set(ns_lane row, double v) {
  for (int i = 0; i < NS_LANES; i++) row[i] = v;
}

/* A further break at x. */
static void add_break(lua_State *L, struct ns_beam *s, double x) {
  if (s->breaks >= NS_MAX_BREAKS) luaL_error(L, "beam: too many parts");
  set(s->x[s->breaks++], x);
}

/* Spans and overhangs: supports and both ends. */
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

/* A place on the beam; raises for one past its ends. */
static double within(lua_State *L, const char *path, const char *name,
                     double first, double last) {
  const double x = nsb_finite(L, -1, path, name, NSB_REQUIRED);
  if (!(x >= first && x <= last))
    luaL_error(L, "%s.%s: on the beam expected, got %s", path, name,
               nsb_text(L, x));
  return x;
}

/* gap = {from, to}: no wood there, a hinge and a slide at its middle. */
static void read_gap(lua_State *L, struct ns_beam *s, double first, double last,
                     double gap[2]) {
  gap[0] = gap[1] = 0;
  s->gap = nsb_list(L, 1, "beam", "gap", 2) == 2;
  for (int k = 0; s->gap && k < 2; k++) {
    lua_rawgeti(L, -1, k + 1);
    gap[k] = lua_tonumber(L, -1);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  if (!s->gap) return;
  if (!(gap[0] > first && gap[1] > gap[0] && gap[1] < last))
    luaL_error(L, "gap: {from, to} on the beam, in that order, expected");
  if (s->hinges == NS_MAX_HINGES) luaL_error(L, "beam: too many hinges");
  const double mid = (gap[0] + gap[1]) / 2;
  add_break(L, s, gap[0]);
  add_break(L, s, gap[1]);
  add_break(L, s, mid);
  set(s->slide, mid);
  set(s->hinge[s->hinges], mid);
  set(s->hinge_k[s->hinges++], 0);
}

/* One span of the first beam takes in the whole of the second. */
static void check_second(lua_State *L, const struct ns_beam *s, double a,
                         double b) {
  bool in = false;
  for (int j = 0; j < s->spans; j++)
    in |= a >= s->support[j][0] && b <= s->support[j + 1][0];
  if (!in || !(b > a)) luaL_error(L, "beside: 'from' to 'to' within one span");
}

/* Fasteners between the two beams: places and stiffness. */
static void read_stations(lua_State *L, struct ns_beam *s, double a, double b) {
  s->stations =
      nsb_list(L, lua_gettop(L), "beside", "stations", NS_MAX_STATIONS);
  for (int k = 0; k < s->stations; k++) {
    nsb_item(L, "stations", k + 1);
    const double x = within(L, "stations", "at", a, b);
    const double stiff = nsb_number(L, -1, "stations", "k", NSB_REQUIRED);
    if (!(stiff > 0)) luaL_error(L, "stations[%d].k: above 0 expected", k + 1);
    set(s->station[k], x);
    set(s->station_k[k], stiff);
    add_break(L, s, x);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  if (s->stations == 0) luaL_error(L, "beside.stations: one at least");
}

/* beside = {from=, to=, EI=, bears = {left=, right=}, stations = {{at=, k=}}}
 */
static void read_beside(lua_State *L, struct ns_beam *s, double first,
                        double last, double gap[2]) {
  s->stations = 0;
  read_gap(L, s, first, last, gap);
  if (nsb_get(L, 1, "beside") != LUA_TTABLE) {
    lua_pop(L, 1);
    if (s->gap) luaL_error(L, "beam.gap: a beam beside it expected");
    return;
  }
  const double a = within(L, "beside", "from", first, last);
  const double b = within(L, "beside", "to", first, last);
  check_second(L, s, a, b);
  const double EI = nsb_finite(L, -1, "beside", "EI", NSB_REQUIRED);
  if (!(EI > 0)) luaL_error(L, "beside.EI: above 0 expected");
  set(s->second[0], a);
  set(s->second[1], b);
  set(s->second_EI, EI);
  add_break(L, s, a);
  add_break(L, s, b);
  s->bears[0] = s->bears[1] = false;
  if (nsb_get(L, -1, "bears") == LUA_TTABLE) {
    s->bears[0] = nsb_flag(L, lua_gettop(L), "left");
    s->bears[1] = nsb_flag(L, lua_gettop(L), "right");
  }
  lua_pop(L, 1);
  read_stations(L, s, a, b);
  lua_pop(L, 1);
}

/* Loads over the gap stand on the beam beside. */
static void mark_gap(struct ns_beam *s, const double gap[2]) {
  for (int k = 0; s->stations > 0 && k < s->breaks; k++) {
    const double next = s->x[k + 1 < s->breaks ? k + 1 : k][0];
    const double mid = (s->x[k][0] + next) / 2;
    set(s->on_new[k], s->gap && mid > gap[0] && mid < gap[1] ? 1 : 0);
  }
}

/* Places of steps, loads and hinges become breaks. */
static void read_places(lua_State *L, struct ns_beam *s, double first,
                        double last, double gap[2]) {
  if (nsb_get(L, 1, "EI") == LUA_TTABLE) {
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
  s->sprung = false;
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
  read_beside(L, s, first, last, gap);
  const int n = nsb_list(L, 1, "beam", "loads", MOST_LOADS);
  for (int k = 0; k < n; k++) {
    nsb_item(L, "loads", k + 1);
    if (nsb_get(L, -1, "P") == LUA_TNIL) {
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

/* EI of the beam, one number or steps. */
static void read_EI(lua_State *L, struct ns_beam *s) {
  const int type = nsb_get(L, 1, "EI");
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
    if (a > b)
      luaL_error(L, "EI: 'from' up to 'to' expected, got %s, %s",
                 nsb_text(L, a), nsb_text(L, b));
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
      luaL_error(L, "beam.EI: above 0 expected from %s",
                 nsb_text(L, s->x[k][0]));
  }
}

/* A load of the list on the beam, into its case. */
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
  if (a > b)
    luaL_error(L, "loads: 'from' up to 'to' expected, got %s, %s",
               nsb_text(L, a), nsb_text(L, b));
  if (c == 1 && (P < 0 || w1 < 0 || w2 < 0))
    luaL_error(L, "loads: live load acts downward, 0 or more: one that lifts "
                  "is put in as dead load");
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

/* All loads; what the list lacks is nil. */
static void read_loads(lua_State *L, struct ns_beam *s) {
  for (int k = 0; k < s->breaks; k++)
    for (int c = 0; c < 2; c++) {
      set(s->w[c][k], 0);
      set(s->dw[c][k], 0);
      set(s->P[c][k], 0);
    }
  const int n = nsb_list(L, 1, "beam", "loads", MOST_LOADS);
  for (int k = 0; k < n; k++) {
    nsb_item(L, "loads", k + 1);
    add_load(L, s);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
}

/* Length of a list, 0 where it is none. */
static int list_length(lua_State *L, int index, const char *name) {
  const bool list = nsb_get(L, index, name) == LUA_TTABLE;
  const lua_Unsigned n = list ? lua_rawlen(L, -1) : 0;
  lua_pop(L, 1);
  return n < 100 ? (int)n : 100;
}

/* What the beam may need, read before the rest: its limits are checked then,
 * and that no finalizer has changed the lists in between. */
static int most_unknowns(lua_State *L) {
  int n = list_length(L, 1, "spans") + list_length(L, 1, "hinges") + 4;
  if (nsb_get(L, 1, "beside") == LUA_TTABLE)
    n += list_length(L, lua_gettop(L), "stations");
  lua_pop(L, 1);
  return n < NS_MAX_UNKNOWNS ? n : NS_MAX_UNKNOWNS;
}

/* beam{spans=, overhang_left=, overhang_right=, EI=, hinges=, loads=, gap=,
 * beside=} */
static int beam_new(lua_State *L) {
  static const char *const fields[] = {
      "spans", "overhang_left", "overhang_right", "EI", "hinges",
      "loads", "gap",           "beside",         NULL};
  double first, last, gap[2];
  luaL_checktype(L, 1, LUA_TTABLE);
  lua_settop(L, 1);
  nsb_only(L, 1, "beam", fields);
  const int most = most_unknowns(L);
  struct ns_beam *s = lua_newuserdatauv(L, ns_beam_size(most), 0);
  ns_beam_room(s, s + 1);
  s->breaks = 0;
  read_supports(L, s, &first, &last);
  read_places(L, s, first, last, gap);
  if (s->spans + s->hinges + s->stations + 3 > most && most < NS_MAX_UNKNOWNS)
    return luaL_error(L, "beam: its lists changed while they were read");
  ns_beam_sort(s);
  mark_gap(s, gap);
  read_EI(L, s);
  read_loads(L, s);
  ns_beam_solve(s);
  if (s->unstable[0] != 0)
    return luaL_error(L, "beam: a mechanism, no equilibrium");
  if (s->by_spans) ns_beam_answers(s); /* places between breaks are asked for */
  luaL_setmetatable(L, BEAM);
  return 1;
}

/* The beam of a method. */
static struct ns_beam *check_beam(lua_State *L) {
  return luaL_checkudata(L, 1, BEAM);
}

/* V, M, slope and deflection as a table. */
static void push_station(lua_State *L, const struct ns_station *o) {
  lua_createtable(L, 0, 4);
  nsb_set(L, "V", o->V);
  nsb_set(L, "M", o->M);
  nsb_set(L, "slope", o->slope);
  nsb_set(L, "deflection", o->deflection);
}

/* A place at argument 2, from which side it is looked at, at 3. */
static double check_x(lua_State *L, bool *right) {
  static const char *const sides[] = {"left", "right", NULL};
  const double x = luaL_checknumber(L, 2);
  *right = luaL_checkoption(L, 3, "right", sides) == 1;
  return x;
}

/* beam:at(x [, "left"|"right"]) -> {V=, M=, slope=, deflection=} */
static int beam_at(lua_State *L) {
  const struct ns_beam *s = check_beam(L);
  bool right;
  const double x = check_x(L, &right);
  luaL_argcheck(L, x >= s->x[0][0] && x <= s->x[s->breaks - 1][0], 2,
                "not on the beam");
  struct ns_station o;
  ns_beam_at(s, x, right, 0, all, &o);
  push_station(L, &o);
  return 1;
}

/* Place on the second beam at argument 2, side at 3. */
static double check_second_x(lua_State *L, const struct ns_beam *s,
                             bool *right) {
  const double x = check_x(L, right);
  luaL_argcheck(L, s->stations > 0, 1, "no beam beside it");
  luaL_argcheck(L, x >= s->second[0][0] && x <= s->second[1][0], 2,
                "not on the beam beside it");
  return x;
}

/* beam:beside_at(x [, side]) -> {V=, M=, slope=, deflection=} */
static int beam_beside_at(lua_State *L) {
  const struct ns_beam *s = check_beam(L);
  bool right;
  const double x = check_second_x(L, s, &right);
  struct ns_station o;
  ns_second_at(s, x, right, 0, all, &o);
  push_station(L, &o);
  return 1;
}

/* beam:station(n) -> force of station n, downward on the beam beside */
static int beam_station(lua_State *L) {
  const struct ns_beam *s = check_beam(L);
  const lua_Integer n = luaL_checkinteger(L, 2);
  luaL_argcheck(L, n >= 1 && n <= s->stations, 2, "no such station");
  lua_pushnumber(
      L, -(s->tie[0][n - 1][0] + s->tie[1][n - 1][0] + s->tie[2][n - 1][0]));
  return 1;
}

/* beam:station_envelope(n) -> most and least of the same under patch load */
static int beam_station_envelope(lua_State *L) {
  const struct ns_beam *s = check_beam(L);
  const lua_Integer n = luaL_checkinteger(L, 2);
  ns_lane most, least;
  luaL_argcheck(L, n >= 1 && n <= s->stations, 2, "no such station");
  ns_station_range(s, (int)n - 1, most, least);
  lua_pushnumber(L, -(s->tie[0][n - 1][0] + least[0]));
  lua_pushnumber(L, -(s->tie[0][n - 1][0] + most[0]));
  return 2;
}

/* reactions() -> {R, ...}, both cases in full, lb. */
static int beam_reactions(lua_State *L) {
  const struct ns_beam *s = check_beam(L);
  lua_createtable(L, s->spans + 1, 0);
  for (int j = 0; j <= s->spans; j++) {
    lua_pushnumber(L, s->R[0][j][0] + s->R[1][j][0] + s->R[2][j][0]);
    lua_rawseti(L, -2, j + 1);
  }
  return 1;
}

/* A place and a value as a table. */
static void push_place(lua_State *L, const char *name, const double *v) {
  lua_createtable(L, 0, 2);
  nsb_set(L, "x", v[0]);
  nsb_set(L, "value", v[1]);
  lua_setfield(L, -2, name);
}

/* extremes() -> largest and least M and deflection with their places. */
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

typedef void envelope_of(const struct ns_beam *s, int k, const double *t,
                         bool right, struct ns_envelope *e);

/* Dead load in full, each piece of live load there or not. */
static void push_envelope(lua_State *L, const struct ns_beam *s, double x,
                          bool right, const struct ns_station *D,
                          envelope_of *find) {
  struct ns_envelope e;
  const int k = D->segment;
  const double h = s->x[k + 1][0] - s->x[k][0],
               t = h > 0 ? (x - s->x[k][0]) / h : 0;
  ns_lane at;
  set(at, t);
  if (t >= 1)
    find(s, k + 1, NULL, right, &e);
  else
    find(s, k, t > 0 ? at : NULL, right, &e);
  lua_createtable(L, 0, 4);
  nsb_set(L, "V_max", D->V + e.V[0][0]);
  nsb_set(L, "V_min", D->V + e.V[1][0]);
  nsb_set(L, "M_max", D->M + e.M[0][0]);
  nsb_set(L, "M_min", D->M + e.M[1][0]);
}

static const double dead[3] = {1, 0, 0};

/* beam:envelope(x [, side]) -> most and least V and M */
static int beam_envelope(lua_State *L) {
  const struct ns_beam *s = check_beam(L);
  bool right;
  const double x = check_x(L, &right);
  luaL_argcheck(L, x >= s->x[0][0] && x <= s->x[s->breaks - 1][0], 2,
                "not on the beam");
  struct ns_station D;
  ns_beam_at(s, x, right, 0, dead, &D);
  push_envelope(L, s, x, right, &D, ns_beam_envelope);
  return 1;
}

/* beam:beside_envelope(x [, side]) -> the same on the beam beside */
static int beam_beside_envelope(lua_State *L) {
  const struct ns_beam *s = check_beam(L);
  bool right;
  const double x = check_second_x(L, s, &right);
  struct ns_station D;
  ns_second_at(s, x, right, 0, dead, &D);
  push_envelope(L, s, x, right, &D, ns_second_envelope);
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

/* What a beam is called in print. */
static int beam_tostring(lua_State *L) {
  const int n = check_beam(L)->spans;
  lua_pushfstring(L, "beam of %d span%s", n, n == 1 ? "" : "s");
  return 1;
}

/* Puts beam(...) and its methods into the module. */
int nsb_open_beam(lua_State *L) {
  static const luaL_Reg methods[] = {
      {"at", beam_at},
      {"reactions", beam_reactions},
      {"extremes", beam_extremes},
      {"envelope", beam_envelope},
      {"beside_at", beam_beside_at},
      {"beside_envelope", beam_beside_envelope},
      {"station", beam_station},
      {"station_envelope", beam_station_envelope},
      {"reaction_range", beam_reaction_range},
      {NULL, NULL}};
  luaL_newmetatable(L, BEAM);
  luaL_newlib(L, methods);
  lua_setfield(L, -2, "__index");
  lua_pushcfunction(L, beam_tostring);
  lua_setfield(L, -2, "__tostring");
  lua_pop(L, 1);
  lua_pushcfunction(L, beam_new);
  lua_setfield(L, -2, "beam");
  return 0;
}
