/* SPDX-License-Identifier: MIT
 * odds.c - draws by chance for Lua: columns filled by distribution, and
 * the few functions that intervals are worked out with. */
#include <stdlib.h>
#include <string.h>

#include "lua/bind.h"
#include "odds/random.h"

/* A law that goes with an input before it: both are of normal scores. */
static void check_with(lua_State *L, const struct ns_law *law, int k) {
  const struct ns_law *o = &law[k];
  if (o->with == 0) return;
  const struct ns_law *to = o->with <= k ? &law[o->with - 1] : NULL;
  if (!to || to->with > 0 || o->of > NS_LAW_LOGNORMAL ||
      to->of > NS_LAW_LOGNORMAL || o->of == NS_LAW_FIXED ||
      to->of == NS_LAW_FIXED || !(o->r > -1 && o->r < 1))
    luaL_error(L,
               "law %d: 'with': an input before it, by itself, both normal "
               "or lognormal, and r between -1 and 1 expected",
               k + 1);
}

/* {of =, a =, b =, upto = {...}, with =, r =} at 'index'. */
static void read_law(lua_State *L, int index, struct ns_law *law) {
  const int of = nsb_word(L, index, "law", "of", ns_law_names);
  if (of < 0) luaL_error(L, "law.of: missing");
  memset(law, 0, sizeof *law);
  law->of = (enum ns_law_of)of;
  law->a = nsb_finite(L, index, "law", "a", 0);
  law->b = nsb_finite(L, index, "law", "b", 0);
  law->r = nsb_finite(L, index, "law", "r", 0);
  const double with = nsb_finite(L, index, "law", "with", 0);
  law->with = with >= 1 && with <= NS_MAX_INPUTS ? (int)with : 0;
  law->choices = nsb_list(L, index, "law", "upto", NS_MAX_CHOICES);
  for (int k = 0; k < law->choices; k++) {
    lua_rawgeti(L, -1, k + 1);
    law->upto[k] = lua_tonumber(L, -1);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  if (law->of == NS_LAW_CHOICE && law->choices < 1)
    luaL_error(L, "law.upto: one value at least");
}

static int64_t count_field(lua_State *L, const char *name, int64_t low,
                           int64_t high) {
  int whole = 0;
  nsb_get(L, 1, name);
  const lua_Integer v = lua_tointegerx(L, -1, &whole);
  if (!whole || v < low || v > high)
    luaL_error(L, "draw: %s: a whole number from %I to %I expected", name,
               (LUAI_UACINT)low, (LUAI_UACINT)high);
  lua_pop(L, 1);
  return v;
}

static enum ns_sampling sampling_of(lua_State *L) {
  static const char *const names[] = {"plain", "lhs", "sobol", NULL};
  const int how = nsb_word(L, 1, "draw", "how", names);
  if (how < 0) luaL_error(L, "draw: how: missing");
  return (enum ns_sampling)how;
}

/* The seed of the arguments. */
static uint64_t seed_of(lua_State *L) {
  int whole = 0;
  nsb_get(L, 1, "seed");
  const lua_Integer v = lua_tointegerx(L, -1, &whole);
  if (!whole) luaL_error(L, "draw: seed: a whole number expected");
  lua_pop(L, 1);
  return (uint64_t)v;
}

/* draw{how =, seed =, each =, replicates =, first =, variable =, laws = {...},
 * to = {columns}, threads =}: fills a column for each law. */
static int core_draw(lua_State *L) {
  double *to[NS_MAX_INPUTS];
  luaL_checktype(L, 1, LUA_TTABLE);
  struct ns_draws d = {.how = sampling_of(L), .seed = seed_of(L), .to = to};
  d.each = count_field(L, "each", 1, (int64_t)1 << 31);
  d.replicates = (int)count_field(L, "replicates", 1, 1 << 16);
  d.first = (int)count_field(L, "first", 0, 1 << 16);
  d.variable = (int)count_field(L, "variable", 0, 1 << 16);
  const int threads = (int)count_field(L, "threads", 1, NS_MAX_THREADS);
  d.inputs = nsb_list(L, 1, "draw", "laws", NS_MAX_INPUTS);
  struct ns_law *law =
      lua_newuserdatauv(L, sizeof *law * (size_t)(d.inputs + 1), 0);
  lua_insert(L, -2);
  for (int k = 0; k < d.inputs; k++) {
    read_law(L, nsb_item(L, "laws", k + 1), &law[k]);
    check_with(L, law, k);
    lua_pop(L, 1);
  }
  d.law = law;
  lua_pop(L, 1);
  if (nsb_list(L, 1, "draw", "to", NS_MAX_INPUTS) != d.inputs)
    return luaL_error(L, "draw: to: a column per law");
  for (int k = 0; k < d.inputs; k++) {
    lua_rawgeti(L, -1, k + 1);
    struct nsb_numbers *c = luaL_checkudata(L, -1, NSB_NUMBERS);
    if (c->n != d.each * d.replicates)
      return luaL_error(L, "draw: to[%d]: each x replicates places expected",
                        k + 1);
    to[k] = c->v;
    lua_pop(L, 1);
  }
  if (!ns_draw(&d, threads))
    return luaL_error(L, "draw: too many draws or inputs for this sample");
  return 0;
}

/* law_at(law, u) -> the value below which the part u of all lies. */
static int core_law_at(lua_State *L) {
  struct ns_law law;
  luaL_checktype(L, 1, LUA_TTABLE);
  const double u = luaL_checknumber(L, 2);
  luaL_argcheck(L, u > 0 && u < 1, 2, "between 0 and 1 expected");
  read_law(L, 1, &law);
  lua_pushnumber(L, ns_law_at(&law, u));
  return 1;
}

/* Numbers in order, those that are none (no capacity) last. What isnan gives
 * for one is another number on each system: compared here, never summed. */
static int by_size(const void *a, const void *b) {
  const double x = *(const double *)a, y = *(const double *)b;
  const int none = (isnan(x) != 0) - (isnan(y) != 0);
  return none ? none : (x > y) - (x < y);
}

/* quantiles(column, at, n, {p, ...}) -> a number per p, of the n places after
 * 'at', between the two that it falls between; nil where one of them is
 * none. */
static int core_quantiles(lua_State *L) {
  const struct nsb_numbers *c = luaL_checkudata(L, 1, NSB_NUMBERS);
  const lua_Integer at = luaL_checkinteger(L, 2), n = luaL_checkinteger(L, 3);
  luaL_argcheck(L, at >= 0 && at <= c->n, 2, "no such place");
  luaL_argcheck(L, n >= 1 && n <= c->n - at, 3, "1 or more, within the column");
  luaL_checktype(L, 4, LUA_TTABLE);
  const int ps = (int)lua_rawlen(L, 4);
  luaL_checkstack(L, ps + 4, "quantiles");
  double *v = lua_newuserdatauv(L, sizeof *v * (size_t)n, 0);
  memcpy(v, c->v + at, sizeof *v * (size_t)n);
  qsort(v, (size_t)n, sizeof *v, by_size);
  for (int k = 0; k < ps; k++) {
    lua_rawgeti(L, 4, k + 1);
    const double p = lua_tonumber(L, -1);
    luaL_argcheck(L, p >= 0 && p <= 1, 4, "numbers from 0 to 1 expected");
    lua_pop(L, 1);
    const double place = p * (double)(n - 1);
    const lua_Integer low = (lua_Integer)place;
    const lua_Integer high = low + 1 < n ? low + 1 : low;
    const double part = place - (double)low;
    const double q = part > 0 ? v[low] + part * (v[high] - v[low]) : v[low];
    if (isnan(q))
      lua_pushnil(L);
    else
      lua_pushnumber(L, q);
  }
  return ps;
}

/* 'n' places of the column at stack index 'index', after the place 'at'. */
static const double *places(lua_State *L, int index, lua_Integer at,
                            lua_Integer n) {
  const struct nsb_numbers *c = luaL_checkudata(L, index, NSB_NUMBERS);
  luaL_argcheck(L, at >= 0 && at <= c->n && n >= 0 && n <= c->n - at, index,
                "no such places");
  return c->v + at;
}

/* count(column, at, n, value or nil) -> how many of the places after 'at' hold
 * that number, or none. */
static int core_count(lua_State *L) {
  const lua_Integer at = luaL_checkinteger(L, 2), n = luaL_checkinteger(L, 3);
  const double *v = places(L, 1, at, n);
  const bool none = lua_isnoneornil(L, 4);
  const double wanted = none ? 0 : luaL_checknumber(L, 4);
  lua_Integer hits = 0;
  for (lua_Integer i = 0; i < n; i++)
    hits += none ? isnan(v[i]) != 0 : v[i] == wanted;
  lua_pushinteger(L, hits);
  return 1;
}

/* over(column, at, n, limit) -> how many are larger, or none: no capacity. */
static int core_over(lua_State *L) {
  const lua_Integer at = luaL_checkinteger(L, 2), n = luaL_checkinteger(L, 3);
  const double *v = places(L, 1, at, n), limit = luaL_checknumber(L, 4);
  lua_Integer hits = 0;
  for (lua_Integer i = 0; i < n; i++) hits += !(v[i] <= limit);
  lua_pushinteger(L, hits);
  return 1;
}

/* marked(column, value or nil) -> a column of 1 where it holds that, else
 * 0. */
static int core_marked(lua_State *L) {
  const struct nsb_numbers *c = luaL_checkudata(L, 1, NSB_NUMBERS);
  const bool none = lua_isnoneornil(L, 2);
  const double wanted = none ? 0 : luaL_checknumber(L, 2);
  struct nsb_numbers *to =
      lua_newuserdatauv(L, sizeof *to + sizeof(double) * (size_t)c->n, 0);
  to->n = c->n;
  for (lua_Integer i = 0; i < c->n; i++)
    to->v[i] = (none ? isnan(c->v[i]) != 0 : c->v[i] == wanted) ? 1 : 0;
  luaL_setmetatable(L, NSB_NUMBERS);
  return 1;
}

/* pair_sums(f, g, at, n, near) -> of the places after 'at', off a number near
 * the mean: sum of both, of their squares, of (f - g)^2, in order; nothing
 * where one of them is none. */
static int core_pair_sums(lua_State *L) {
  const lua_Integer at = luaL_checkinteger(L, 3), n = luaL_checkinteger(L, 4);
  const double *f = places(L, 1, at, n), *g = places(L, 2, at, n);
  const double near = luaL_checknumber(L, 5);
  double sum = 0, square = 0, apart = 0;
  for (lua_Integer i = 0; i < n; i++) {
    const double x = f[i] - near, y = g[i] - near;
    sum += x + y;
    square += x * x + y * y;
    apart += (x - y) * (x - y);
  }
  if (isnan(sum)) return 0;
  lua_pushnumber(L, sum);
  lua_pushnumber(L, square);
  lua_pushnumber(L, apart);
  return 3;
}

/* log(x), exp(x), power(x, y), sin(x), cos(x), normal_quantile(p): the same
 * bits on every system. */
static int core_log(lua_State *L) {
  const double x = luaL_checknumber(L, 1);
  luaL_argcheck(L, x > 0, 1, "above 0 expected");
  lua_pushnumber(L, ns_log(x));
  return 1;
}

static int core_power(lua_State *L) {
  lua_pushnumber(L, ns_power(luaL_checknumber(L, 1), luaL_checknumber(L, 2)));
  return 1;
}

static int core_sin(lua_State *L) {
  lua_pushnumber(L, ns_sin(luaL_checknumber(L, 1)));
  return 1;
}

static int core_cos(lua_State *L) {
  lua_pushnumber(L, ns_cos(luaL_checknumber(L, 1)));
  return 1;
}

static int core_exp(lua_State *L) {
  lua_pushnumber(L, ns_exp(luaL_checknumber(L, 1)));
  return 1;
}

static int core_normal_quantile(lua_State *L) {
  const double p = luaL_checknumber(L, 1);
  luaL_argcheck(L, p > 0 && p < 1, 1, "between 0 and 1 expected");
  lua_pushnumber(L, ns_normal_quantile(p));
  return 1;
}

/* philox(c0, c1, c2, c3, k0, k1) -> four words. */
static int core_philox(lua_State *L) {
  uint32_t in[6], out[4];
  for (int k = 0; k < 6; k++) in[k] = (uint32_t)luaL_checkinteger(L, k + 1);
  ns_philox(in, in + 4, out);
  for (int k = 0; k < 4; k++) lua_pushinteger(L, (lua_Integer)out[k]);
  return 4;
}

/* uniform(seed, replicate, draw, variable) -> a number between 0 and 1. */
static int core_uniform(lua_State *L) {
  lua_pushnumber(L, ns_uniform((uint64_t)luaL_checkinteger(L, 1),
                               (uint32_t)luaL_checkinteger(L, 2),
                               (uint64_t)luaL_checkinteger(L, 3),
                               (uint32_t)luaL_checkinteger(L, 4)));
  return 1;
}

/* sobol(dimension from 0, m) -> list of the first 2^m points' first m
 * bits, not scrambled. */
static int core_sobol(lua_State *L) {
  uint32_t v[NS_SOBOL_BITS], point = 0;
  const lua_Integer d = luaL_checkinteger(L, 1), m = luaL_checkinteger(L, 2);
  luaL_argcheck(L, d >= 0 && d < NS_SOBOL_DIMS, 1, "no such dimension");
  luaL_argcheck(L, m >= 0 && m <= NS_SOBOL_BITS, 2, "too many bits");
  ns_sobol_directions((int)d, (int)m, v);
  lua_createtable(L, 1 << m, 0);
  for (int i = 0; i < 1 << m; i++) {
    lua_pushinteger(L, (lua_Integer)point);
    lua_rawseti(L, -2, i + 1);
    int k = 0;
    while (k < m && ((i + 1) >> k & 1) == 0) k++;
    if (k < m) point ^= v[k];
  }
  return 1;
}

static const luaL_Reg functions[] = {{"draw", core_draw},
                                     {"law_at", core_law_at},
                                     {"quantiles", core_quantiles},
                                     {"count", core_count},
                                     {"over", core_over},
                                     {"marked", core_marked},
                                     {"pair_sums", core_pair_sums},
                                     {"log", core_log},
                                     {"exp", core_exp},
                                     {"power", core_power},
                                     {"sin", core_sin},
                                     {"cos", core_cos},
                                     {"normal_quantile", core_normal_quantile},
                                     {"philox", core_philox},
                                     {"uniform", core_uniform},
                                     {"sobol", core_sobol},
                                     {NULL, NULL}};

/* Puts draws by chance into the module. */
int nsb_open_odds(lua_State *L) {
  luaL_setfuncs(L, functions, 0);
  return 0;
}
