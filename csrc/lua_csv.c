/* SPDX-License-Identifier: MIT
 * lua_csv.c - points of a sweep as lines of text. Written here since a sweep
 * has millions of them. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "lua_bind.h"

/* The shortest of 15 to 17 digits that reads back to the same bits, with a
 * point whatever the locale. */
static int number_text(char *to, size_t room, double v) {
  int n = 0;
  for (int digits = 15; digits <= 17; digits++) {
    n = snprintf(to, room, "%.*g", digits, v);
    if (strtod(to, NULL) == v) break;
  }
  for (int i = 0; i < n; i++)
    if (to[i] == ',') to[i] = '.';
  return n;
}

/* number_text(v) -> v as it stands in a file. */
static int core_number_text(lua_State *L) {
  char text[40];
  const double v = luaL_checknumber(L, 1);
  luaL_argcheck(L, isfinite(v), 1, "a finite number expected");
  lua_pushlstring(L, text, (size_t)number_text(text, sizeof text, v));
  return 1;
}

struct field {
  int texts; /* stack index of a list, 0: none */
  lua_Integer stride, steps;
  const struct nsb_numbers *column; /* null: an axis, whose steps are texts */
};

enum { MOST = NS_MAX_AXES + NS_MAX_OUTPUTS };

/* fields = {{texts =, stride =}, {column =, words =}, ...} */
static int read_fields(lua_State *L, struct field *f, lua_Integer count) {
  const int n = (int)lua_rawlen(L, 1);
  luaL_argcheck(L, n >= 1 && n <= MOST, 1, "1 to 48 fields expected");
  luaL_checkstack(L, n + 16, "fields");
  for (int k = 0; k < n; k++) {
    memset(&f[k], 0, sizeof f[k]);
    lua_rawgeti(L, 1, k + 1);
    luaL_argcheck(L, lua_istable(L, -1), 1, "a list of fields expected");
    if (lua_getfield(L, -1, "column") == LUA_TUSERDATA) {
      f[k].column = luaL_checkudata(L, -1, NSB_NUMBERS);
      luaL_argcheck(L, f[k].column->n >= count, 1, "a column is too short");
    }
    lua_getfield(L, -2, "stride");
    f[k].stride = lua_tointeger(L, -1);
    lua_pop(L, 2);
    const bool list =
        lua_getfield(L, -1, f[k].column ? "words" : "texts") == LUA_TTABLE;
    luaL_argcheck(L, list || f[k].column, 1, "texts or a column expected");
    luaL_argcheck(L, f[k].column || f[k].stride >= 1, 1, "a stride expected");
    lua_remove(L, -2);
    f[k].texts = list ? lua_gettop(L) : 0;
    f[k].steps = list ? (lua_Integer)lua_rawlen(L, -1) : 0;
    luaL_argcheck(L, !list || f[k].steps >= 1, 1, "a text at least");
  }
  return n;
}

static void add_text(lua_State *L, luaL_Buffer *b, int list, lua_Integer n) {
  lua_rawgeti(L, list, n);
  if (lua_type(L, -1) == LUA_TSTRING)
    luaL_addvalue(b);
  else
    lua_pop(L, 1);
}

static void add_field(lua_State *L, luaL_Buffer *b, const struct field *f,
                      lua_Integer point, lua_Integer i) {
  if (!f->column) {
    add_text(L, b, f->texts, point / f->stride % f->steps + 1);
  } else if (isfinite(f->column->v[i])) {
    const double v = f->column->v[i];
    if (f->texts)
      add_text(L, b, f->texts, (lua_Integer)v + 1);
    else
      luaL_addsize(b, (size_t)number_text(luaL_prepbuffsize(b, 40), 40, v));
  }
}

/* csv(fields, faults, reasons, first, count) -> the lines of 'count' points,
 * the first of which is point 'first' of the sweep and place 1 of the
 * columns; reasons[code] is the text of a fault. */
static int core_csv(lua_State *L) {
  struct field f[MOST];
  luaL_Buffer b;
  luaL_checktype(L, 1, LUA_TTABLE);
  const struct nsb_faults *fault = luaL_checkudata(L, 2, NSB_FAULTS);
  luaL_checktype(L, 3, LUA_TTABLE);
  const lua_Integer first = luaL_checkinteger(L, 4),
                    count = luaL_checkinteger(L, 5);
  luaL_argcheck(L, first >= 0, 4, "0 or more expected");
  luaL_argcheck(L, count >= 0 && count <= fault->n, 5, "too many");
  lua_settop(L, 5);
  const int n = read_fields(L, f, count);
  luaL_buffinit(L, &b);
  for (lua_Integer i = 0; i < count; i++) {
    for (int k = 0; k < n; k++) {
      if (k > 0) luaL_addchar(&b, ',');
      add_field(L, &b, &f[k], first + i, i);
    }
    luaL_addchar(&b, ',');
    if (fault->v[i] != 0) {
      if (lua_geti(L, 3, (lua_Integer)fault->v[i]) != LUA_TSTRING)
        return luaL_argerror(L, 3, "texts expected");
      luaL_addvalue(&b);
    }
    luaL_addstring(&b, "\r\n");
  }
  luaL_pushresult(&b);
  return 1;
}

static const luaL_Reg functions[] = {
    {"csv", core_csv}, {"number_text", core_number_text}, {NULL, NULL}};

int nsb_open_csv(lua_State *L) {
  luaL_setfuncs(L, functions, 0);
  return 0;
}
