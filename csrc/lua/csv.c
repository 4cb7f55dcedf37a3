/* SPDX-License-Identifier: MIT
 * csv.c - points of a sweep as lines of a file, of which there are
 * millions: no string of Lua's is made for them. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "lua/bind.h"

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

/* A number as its text on the stack, for a message. */
const char *nsb_text(lua_State *L, double v) {
  char text[40];
  return lua_pushlstring(L, text, (size_t)number_text(text, sizeof text, v));
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
  const struct nsb_numbers *column; /* null: an axis, whose steps are texts;
                                       with a stride: whose steps are these */
};

enum { MOST = NS_MAX_AXES + NS_MAX_COLUMNS + NS_MAX_OUTPUTS };

/* fields = {{texts =, stride =}, {column =, words =}, ...} */
static int read_fields(lua_State *L, struct field *f, lua_Integer count) {
  const int n = (int)lua_rawlen(L, 2);
  luaL_argcheck(L, n >= 1 && n <= MOST, 2, "too many fields, or none");
  luaL_checkstack(L, n + 16, "fields");
  for (int k = 0; k < n; k++) {
    memset(&f[k], 0, sizeof f[k]);
    lua_rawgeti(L, 2, k + 1);
    luaL_argcheck(L, lua_istable(L, -1), 2, "a list of fields expected");
    if (nsb_get(L, -1, "column") == LUA_TUSERDATA)
      f[k].column = luaL_checkudata(L, -1, NSB_NUMBERS);
    nsb_get(L, -2, "stride");
    f[k].stride = lua_tointeger(L, -1);
    luaL_argcheck(
        L, !f[k].column || f[k].column->n >= (f[k].stride > 0 ? 1 : count), 2,
        "a column is too short");
    lua_pop(L, 2);
    const bool list =
        nsb_get(L, -1, f[k].column ? "words" : "texts") == LUA_TTABLE;
    luaL_argcheck(L, list || f[k].column, 2, "texts or a column expected");
    luaL_argcheck(L, f[k].column || f[k].stride >= 1, 2, "a stride expected");
    lua_remove(L, -2);
    f[k].texts = list ? lua_gettop(L) : 0;
    f[k].steps = list ? (lua_Integer)lua_rawlen(L, -1) : 0;
    luaL_argcheck(L, !list || f[k].steps >= 1, 2, "a text at least");
  }
  return n;
}

/* What waits to be written; 'failed' once the disk refused something. */
struct sink {
  FILE *out;
  size_t used;
  bool failed;
  char text[1 << 14];
};

/* Writes out what is buffered. */
static void flush(struct sink *s) {
  s->failed |= fwrite(s->text, 1, s->used, s->out) < s->used;
  s->used = 0;
}

/* Bytes into the buffer. */
static void put(struct sink *s, const char *text, size_t n) {
  if (n > sizeof s->text - s->used) flush(s);
  if (n > sizeof s->text) {
    s->failed |= fwrite(text, 1, n, s->out) < n;
  } else {
    memcpy(s->text + s->used, text, n);
    s->used += n;
  }
}

/* The string on top, which is popped. */
static void put_top(lua_State *L, struct sink *s) {
  size_t n = 0;
  const char *text =
      lua_type(L, -1) == LUA_TSTRING ? lua_tolstring(L, -1, &n) : "";
  put(s, text, n);
  lua_pop(L, 1);
}

/* A field with quotes where it needs them. */
static void put_field(lua_State *L, struct sink *s, const struct field *f,
                      lua_Integer point, lua_Integer i) {
  if (f->column && f->stride > 0) i = point / f->stride % f->column->n;
  if (!f->column) {
    lua_rawgeti(L, f->texts, point / f->stride % f->steps + 1);
    put_top(L, s);
  } else if (isfinite(f->column->v[i]) && f->texts) {
    lua_rawgeti(L, f->texts, (lua_Integer)f->column->v[i] + 1);
    put_top(L, s);
  } else if (isfinite(f->column->v[i])) {
    char text[40];
    put(s, text, (size_t)number_text(text, sizeof text, f->column->v[i]));
  }
}

/* csv(file, fields, faults, reasons, first, count, keep) -> true, or nil and
 * what the system says: writes the lines of 'count' points, the first of which
 * is point 'first' of the sweep and place 1 of the columns; reasons[code] is
 * the text of a fault. Where there is a column 'keep', those with a 1. */
static int core_csv(lua_State *L) {
  struct field f[MOST];
  struct sink s;
  const luaL_Stream *file = luaL_checkudata(L, 1, LUA_FILEHANDLE);
  luaL_argcheck(L, file->closef, 1, "an open file expected");
  luaL_checktype(L, 2, LUA_TTABLE);
  const struct nsb_faults *fault = luaL_checkudata(L, 3, NSB_FAULTS);
  luaL_checktype(L, 4, LUA_TTABLE);
  const lua_Integer first = luaL_checkinteger(L, 5),
                    count = luaL_checkinteger(L, 6);
  luaL_argcheck(L, first >= 0, 5, "0 or more expected");
  luaL_argcheck(L, count >= 0 && count <= fault->n, 6, "too many");
  const struct nsb_numbers *keep =
      lua_isnoneornil(L, 7) ? NULL : luaL_checkudata(L, 7, NSB_NUMBERS);
  luaL_argcheck(L, !keep || keep->n >= count, 7, "too short");
  lua_settop(L, 7);
  const int n = read_fields(L, f, count);
  s.out = file->f;
  s.used = 0;
  s.failed = false;
  errno = 0;
  for (lua_Integer i = 0; i < count && !s.failed; i++) {
    if (keep && keep->v[i] != 1) continue;
    for (int k = 0; k < n; k++) {
      if (k > 0) put(&s, ",", 1);
      put_field(L, &s, &f[k], first + i, i);
    }
    put(&s, ",", 1);
    if (fault->v[i] != 0) {
      lua_rawgeti(L, 4, (lua_Integer)fault->v[i]);
      put_top(L, &s);
    }
    put(&s, "\r\n", 2);
  }
  flush(&s);
  return s.failed ? luaL_fileresult(L, 0, NULL) : (lua_pushboolean(L, 1), 1);
}

static const luaL_Reg functions[] = {
    {"csv", core_csv}, {"number_text", core_number_text}, {NULL, NULL}};

/* Puts the writer of CSV lines into the module. */
int nsb_open_csv(lua_State *L) {
  luaL_setfuncs(L, functions, 0);
  return 0;
}
