/* SPDX-License-Identifier: MIT
 * stream.c - what a stream of points is summed up in: moments, counts in
 * bins, and order statistics by the bits of numbers. Columns come piece by
 * piece; what is kept does not grow with how many. */
#include <stdlib.h>
#include <string.h>

#include "lua/bind.h"

/* A key in the order of the numbers: the bits of a positive one with its sign
 * turned, those of a negative one all turned. -0 counts as 0. */
static uint64_t key_of(double v) {
  uint64_t bits;
  v += 0.0;
  memcpy(&bits, &v, sizeof bits);
  return bits >> 63 ? ~bits : bits | (uint64_t)1 << 63;
}

static double number_of(uint64_t key) {
  const uint64_t bits = key >> 63 ? key & ~((uint64_t)1 << 63) : ~key;
  double v;
  memcpy(&v, &bits, sizeof v);
  return v;
}

static struct nsb_numbers *column_of(lua_State *L, int index) {
  return luaL_checkudata(L, index, NSB_NUMBERS);
}

/* moments(column, n, near, count, sum, square) -> the last three, to which the
 * numbers of the column are added one by one, off a number near their mean: the
 * same bits however a stream is cut into pieces. */
static int core_moments(lua_State *L) {
  const struct nsb_numbers *c = column_of(L, 1);
  const lua_Integer n = luaL_checkinteger(L, 2);
  const double near = luaL_checknumber(L, 3);
  lua_Integer count = luaL_checkinteger(L, 4);
  double sum = luaL_checknumber(L, 5), square = luaL_checknumber(L, 6);
  luaL_argcheck(L, n >= 0 && n <= c->n, 2, "too many");
  for (lua_Integer i = 0; i < n; i++) {
    if (isnan(c->v[i])) continue;
    const double v = c->v[i] - near;
    sum += v;
    square += v * v;
    count++;
  }
  lua_pushinteger(L, count);
  lua_pushnumber(L, sum);
  lua_pushnumber(L, square);
  return 3;
}

/* bins(column, n, low, high, counts) -> how many are below low and above
 * high; the rest is counted, high in the last bin. */
static int core_bins(lua_State *L) {
  const struct nsb_numbers *c = column_of(L, 1);
  const lua_Integer n = luaL_checkinteger(L, 2);
  const double low = luaL_checknumber(L, 3), high = luaL_checknumber(L, 4);
  struct nsb_numbers *to = column_of(L, 5);
  luaL_argcheck(L, n >= 0 && n <= c->n, 2, "too many");
  luaL_argcheck(L, low < high, 4, "above low expected");
  lua_Integer under = 0, over = 0;
  for (lua_Integer i = 0; i < n; i++) {
    const double v = c->v[i];
    if (isnan(v)) continue;
    under += v < low;
    over += v > high;
    if (v < low || v > high) continue;
    lua_Integer k = (lua_Integer)((v - low) / (high - low) * (double)to->n);
    if (k >= to->n) k = to->n - 1;
    to->v[k] += 1;
  }
  lua_pushinteger(L, under);
  lua_pushinteger(L, over);
  return 2;
}

/* A prefix of so many bits of a key, as a whole number. */
static uint64_t head_of(uint64_t key, int bits) {
  return bits > 0 ? key >> (64 - bits) : 0;
}

/* tally(column, n, prefix, bits, more, counts): counts the numbers whose keys
 * begin with 'prefix' of so many bits by their next 'more' bits. */
static int core_tally(lua_State *L) {
  const struct nsb_numbers *c = column_of(L, 1);
  const lua_Integer n = luaL_checkinteger(L, 2);
  const uint64_t prefix = (uint64_t)luaL_checkinteger(L, 3);
  const lua_Integer bits = luaL_checkinteger(L, 4),
                    more = luaL_checkinteger(L, 5);
  struct nsb_numbers *to = column_of(L, 6);
  luaL_argcheck(L, n >= 0 && n <= c->n, 2, "too many");
  luaL_argcheck(L, bits >= 0 && more >= 1 && more <= 24 && bits + more <= 64, 4,
                "64 bits at most");
  luaL_argcheck(L, to->n == (lua_Integer)1 << more, 6, "a count for each");
  const uint64_t mask = ((uint64_t)1 << more) - 1;
  for (lua_Integer i = 0; i < n; i++) {
    if (isnan(c->v[i])) continue;
    const uint64_t key = key_of(c->v[i]);
    if (head_of(key, (int)bits) == prefix)
      to->v[key >> (64 - bits - more) & mask] += 1;
  }
  return 0;
}

/* picked(column, n, prefix, bits, to, filled) -> filled: those whose keys
 * begin so are put behind the 'filled' places of 'to'. */
static int core_picked(lua_State *L) {
  const struct nsb_numbers *c = column_of(L, 1);
  const lua_Integer n = luaL_checkinteger(L, 2);
  const uint64_t prefix = (uint64_t)luaL_checkinteger(L, 3);
  const lua_Integer bits = luaL_checkinteger(L, 4);
  struct nsb_numbers *to = column_of(L, 5);
  lua_Integer filled = luaL_checkinteger(L, 6);
  luaL_argcheck(L, n >= 0 && n <= c->n, 2, "too many");
  luaL_argcheck(L, bits >= 0 && bits <= 64, 4, "64 bits at most");
  luaL_argcheck(L, filled >= 0, 6, "0 or more expected");
  for (lua_Integer i = 0; i < n; i++) {
    if (isnan(c->v[i]) || head_of(key_of(c->v[i]), (int)bits) != prefix)
      continue;
    if (filled >= to->n) return luaL_error(L, "picked: more than were counted");
    to->v[filled++] = c->v[i];
  }
  lua_pushinteger(L, filled);
  return 1;
}

/* group(counts, rank from 0) -> the group, from 0, in which the number of that
 * rank lies, how many are in it, and its rank among them. */
static int core_group(lua_State *L) {
  const struct nsb_numbers *c = column_of(L, 1);
  lua_Integer rank = luaL_checkinteger(L, 2);
  luaL_argcheck(L, rank >= 0, 2, "0 or more expected");
  for (lua_Integer k = 0; k < c->n; k++) {
    const lua_Integer n = (lua_Integer)c->v[k];
    if (rank < n) {
      lua_pushinteger(L, k);
      lua_pushinteger(L, n);
      lua_pushinteger(L, rank);
      return 3;
    }
    rank -= n;
  }
  return luaL_error(L, "group: fewer numbers than that");
}

/* counted(counts) -> {k, n, ...}: the groups from 0 that hold any, in order,
 * and how many each holds. */
static int core_counted(lua_State *L) {
  const struct nsb_numbers *c = column_of(L, 1);
  lua_Integer m = 0;
  lua_newtable(L);
  for (lua_Integer k = 0; k < c->n; k++) {
    if (!(c->v[k] > 0)) continue;
    lua_pushinteger(L, k);
    lua_rawseti(L, -2, ++m);
    lua_pushinteger(L, (lua_Integer)c->v[k]);
    lua_rawseti(L, -2, ++m);
  }
  return 1;
}

static int by_key(const void *a, const void *b) {
  const double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

/* sort(column): its numbers in order; none of them may be missing. */
static int core_sort(lua_State *L) {
  struct nsb_numbers *c = column_of(L, 1);
  qsort(c->v, (size_t)c->n, sizeof *c->v, by_key);
  return 0;
}

/* key_number(prefix of 64 bits) -> the number with that key. */
static int core_key_number(lua_State *L) {
  lua_pushnumber(L, number_of((uint64_t)luaL_checkinteger(L, 1)));
  return 1;
}

static const luaL_Reg functions[] = {{"moments", core_moments},
                                     {"bins", core_bins},
                                     {"tally", core_tally},
                                     {"picked", core_picked},
                                     {"key_number", core_key_number},
                                     {"sort", core_sort},
                                     {"group", core_group},
                                     {"counted", core_counted},
                                     {NULL, NULL}};

/* Puts the counting of streams into the module. */
int nsb_open_stream(lua_State *L) {
  luaL_setfuncs(L, functions, 0);
  return 0;
}
