/* SPDX-License-Identifier: MIT
 * dowel.c - fasteners for Lua. Each function takes one table with the
 * fields of the core's struct (absent ones are 0, factors 1) and returns a
 * table with them and with all that the core filled, so that the lines of a
 * calculation find every number by its symbol. */
#include "ec5/johansen.h"
#include "lua/bind.h"

static const char *const kinds[] = {"nail", "wood screw", "lag screw", "bolt",
                                    NULL};

static const char *const modes[] = {"Im",   "Is", "II",   "IIIm",
                                    "IIIs", "IV", "rated"};
static const char *const refusals[] = {NULL, "too short", "not through",
                                       "too near"};
static const char *const limits[] = {"yield", "rupture", "bearing", "tear-out",
                                     "block shear"};

/* Number in a field of the argument; what the core makes of it, it says. */
static double field(lua_State *L, const char *name, double otherwise) {
  return nsb_finite(L, 1, "fastener", name, otherwise);
}

/* A factor of the arguments, 1 where it is not given. */
static double factor(lua_State *L, const char *name) {
  return field(L, name, 1);
}

/* The kind of fastener. */
static enum ns_fastener_kind kind_of(lua_State *L) {
  const int k = nsb_word(L, 1, "fastener", "kind", kinds);
  if (k < 0) luaL_error(L, "fastener.kind: missing");
  return (enum ns_fastener_kind)k;
}

/* A word into the table on top; null leaves it nil. */
static void set_word(lua_State *L, const char *name, const char *word) {
  lua_pushstring(L, word); /* nil for null */
  lua_setfield(L, -2, name);
}

/* Raises for inputs that the core refuses. */
static int wrong(lua_State *L, const char *what) {
  return luaL_error(L, "%s: a number is missing or out of range", what);
}

#define SET(name) nsb_set(L, #name, in.name);
#define SET_OUT(name) nsb_set(L, #name, out.name);

/* lateral{...} -> Z and its yield modes. */
static int lateral(lua_State *L) {
  struct ns_dowel in;
  struct ns_lateral out;
  luaL_checktype(L, 1, LUA_TTABLE);
#define X(name) in.name = field(L, #name, 0);
  NS_DOWEL_LIST(X)
#undef X
#define X(name) in.name = factor(L, #name);
  NS_FACTORS_LIST(X)
#undef X
  in.thread = field(L, "thread", -1);
  in.kind = kind_of(L);
  in.twin = nsb_flag(L, 1, "twin");
  in.by_equations = nsb_flag(L, 1, "by_equations");
  in.nominal_KD = nsb_flag(L, 1, "nominal_KD");
  in.table_Fe = nsb_flag(L, 1, "table_Fe");
  if (!ns_lateral_of(&in, &out)) return wrong(L, "lateral");
  lua_createtable(L, 0, 80);
  NS_DOWEL_LIST(SET)
  NS_LATERAL_LIST(SET_OUT)
  set_word(L, "mode", modes[out.mode]);
  set_word(L, "refused", refusals[out.refused]);
  return 1;
}

/* withdrawal{...} -> W and what it rests on. */
static int withdrawal(lua_State *L) {
  struct ns_pull in;
  struct ns_withdrawal out;
  luaL_checktype(L, 1, LUA_TTABLE);
#define X(name) in.name = field(L, #name, 0);
  NS_PULL_LIST(X)
#undef X
#define X(name) in.name = factor(L, #name);
  NS_FACTORS_LIST(X)
#undef X
  in.kind = kind_of(L);
  if (in.T == 0) in.T = ns_thread_length(in.kind, in.L);
  if (!ns_withdrawal_of(&in, &out)) return wrong(L, "withdrawal");
  lua_createtable(L, 0, 24);
  NS_PULL_LIST(SET)
  NS_WITHDRAWAL_LIST(SET_OUT)
  return 1;
}

/* Cg{...} -> group action factor. */
static int group_action(lua_State *L) {
  struct ns_group in;
  struct ns_group_action out;
  luaL_checktype(L, 1, LUA_TTABLE);
#define X(name) in.name = field(L, #name, 0);
  NS_GROUP_LIST(X)
#undef X
  in.steel = nsb_flag(L, 1, "steel");
  if (!ns_Cg_of(&in, &out)) return wrong(L, "Cg");
  lua_createtable(L, 0, 24);
  NS_GROUP_LIST(SET)
  NS_CG_LIST(SET_OUT)
  return 1;
}

/* distances{D, l, row_used, <multiples of D>} */
static int distances(lua_State *L) {
  struct ns_spacing in, out;
  luaL_checktype(L, 1, LUA_TTABLE);
#define X(name) in.name = field(L, #name, 0);
  NS_SPACING_LIST(X)
#undef X
  const double D = field(L, "D", 0), l = field(L, "l", 0);
  if (!ns_distances(&in, D, l, field(L, "row_used", 0), &out))
    return wrong(L, "distances");
  lua_createtable(L, 0, 16);
  NS_SPACING_LIST(SET_OUT)
  return 1;
}

/* C_delta{...} -> geometry factor. */
static int geometry_factor(lua_State *L) {
  struct ns_geometry in;
  struct ns_geometry_factor out;
  luaL_checktype(L, 1, LUA_TTABLE);
#define X(name) in.name = field(L, #name, 0);
  NS_GEOMETRY_LIST(X)
#undef X
  if (!ns_C_delta_of(&in, &out)) return wrong(L, "C_delta");
  lua_createtable(L, 0, 16);
  NS_GEOMETRY_LIST(SET)
  NS_C_DELTA_LIST(SET_OUT)
  set_word(L, "refused", refusals[out.refused]);
  return 1;
}

/* tear_out{...} -> strength of rows and groups in wood. */
static int tear_out(lua_State *L) {
  struct ns_tear in;
  struct ns_tear_out out;
  luaL_checktype(L, 1, LUA_TTABLE);
#define X(name) in.name = field(L, #name, 0);
  NS_TEAR_LIST(X)
#undef X
  if (!ns_tear_out_of(&in, &out)) return wrong(L, "tear_out");
  lua_createtable(L, 0, 24);
  NS_TEAR_LIST(SET)
  NS_TEAR_OUT_LIST(SET_OUT)
  return 1;
}

/* slip{...} -> slip modulus of one fastener, lb/in. */
static int slip(lua_State *L) {
  struct ns_slip in;
  struct ns_slip_modulus out;
  luaL_checktype(L, 1, LUA_TTABLE);
#define X(name) in.name = field(L, #name, 0);
  NS_SLIP_LIST(X)
#undef X
  in.kind = kind_of(L);
  in.steel = nsb_flag(L, 1, "steel");
  in.prebored = nsb_flag(L, 1, "prebored");
  in.european = nsb_flag(L, 1, "european");
  if (!ns_slip_of(&in, &out)) return wrong(L, "slip");
  lua_createtable(L, 0, 16);
  NS_SLIP_LIST(SET)
  NS_SLIP_MODULUS_LIST(SET_OUT)
  return 1;
}

/* strap{...} -> tension of a strap by each limit state. */
static int strap(lua_State *L) {
  struct ns_strap in;
  struct ns_steel out;
  luaL_checktype(L, 1, LUA_TTABLE);
#define X(name) in.name = field(L, #name, 0);
  NS_STRAP_LIST(X)
#undef X
  in.sheet = nsb_flag(L, 1, "sheet");
  if (!ns_steel_of(&in, &out)) return wrong(L, "steel");
  lua_createtable(L, 0, 40);
  NS_STRAP_LIST(SET)
  NS_STEEL_LIST(SET_OUT)
  set_word(L, "governs", limits[out.governs]);
  return 1;
}

/* sheet_screw{...} -> screws in sheet steel. */
static int sheet_screw(lua_State *L) {
  struct ns_sheet_screw in;
  struct ns_sheet out;
  luaL_checktype(L, 1, LUA_TTABLE);
#define X(name) in.name = field(L, #name, 0);
  NS_SHEET_SCREW_LIST(X)
#undef X
  if (!ns_sheet_screw_of(&in, &out)) return wrong(L, "screw_in_sheet");
  lua_createtable(L, 0, 24);
  NS_SHEET_SCREW_LIST(SET)
  NS_SHEET_LIST(SET_OUT)
  return 1;
}

/* Of EN 1995-1-1, N and mm. */
static int johansen(lua_State *L) {
  static const char *const en_kinds[] = {"nail", "screw", "bolt", "dowel",
                                         NULL};
  struct ns_johansen in;
  struct ns_johansen_out out;
  luaL_checktype(L, 1, LUA_TTABLE);
#define X(name) in.name = field(L, #name, 0);
  NS_JOHANSEN_LIST(X)
#undef X
  const int kind = nsb_word(L, 1, "fastener", "kind", en_kinds);
  if (kind < 0) luaL_error(L, "fastener.kind: missing");
  in.kind = (enum ns_en_fastener)kind;
  in.predrilled = nsb_flag(L, 1, "predrilled");
  if (!ns_johansen_of(&in, &out)) return wrong(L, "johansen");
  lua_createtable(L, 0, 48);
  NS_JOHANSEN_LIST(SET)
  NS_JOHANSEN_OUT_LIST(SET_OUT)
  lua_pushlstring(L, &"abcdef"[out.mode], 1);
  lua_setfield(L, -2, "mode");
  lua_pushboolean(L, out.too_short);
  lua_setfield(L, -2, "too_short");
  return 1;
}

/* shank_shear(F_nv, D_e) -> lb */
static int shank_shear(lua_State *L) {
  const double V =
      ns_shank_shear(luaL_checknumber(L, 1), luaL_checknumber(L, 2));
  if (!(V > 0)) return wrong(L, "shear");
  lua_pushnumber(L, V);
  return 1;
}

/* Puts the functions of fasteners into the module. */
int nsb_open_dowel(lua_State *L) {
  static const luaL_Reg functions[] = {{"lateral", lateral},
                                       {"withdrawal", withdrawal},
                                       {"Cg", group_action},
                                       {"distances", distances},
                                       {"C_delta", geometry_factor},
                                       {"tear_out", tear_out},
                                       {"slip", slip},
                                       {"steel", strap},
                                       {"sheet_screw", sheet_screw},
                                       {"johansen", johansen},
                                       {"shank_shear", shank_shear},
                                       {NULL, NULL}};
  luaL_newlib(L, functions);
  lua_setfield(L, -2, "dowel");
  return 0;
}
