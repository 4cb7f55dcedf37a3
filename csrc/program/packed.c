/* SPDX-License-Identifier: MIT
 * packed.c - zlib, for the files inside the single program and as the module
 * "zlib": of lua-zlib's functions deflate, inflate, crc32 and version, as its
 * manual has them. */
#include <lauxlib.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#define ZLIB_CONST /* it only reads what it is given */
#include <zlib.h>

#include "program/program.h"

#define STREAM "netsection.zlib"

struct stream {
  z_stream z;
  int (*step)(z_stream *z, int flush);
  int (*end)(z_stream *z);
  bool done;
};

bool program_inflate(const struct nsb_block *block, unsigned char *to) {
  z_stream z = {0};
  z.next_in = block->bytes;
  z.avail_in = block->packed;
  z.next_out = to;
  z.avail_out = block->size;
  if (inflateInit2(&z, -MAX_WBITS) != Z_OK) return false;
  const int code = inflate(&z, Z_FINISH);
  const bool whole =
      code == Z_STREAM_END && z.avail_in == 0 && z.avail_out == 0;
  inflateEnd(&z);
  return whole && crc32(0, to, block->size) == block->sum;
}

static int release(lua_State *L) {
  struct stream *s = luaL_checkudata(L, 1, STREAM);
  if (s->end) s->end(&s->z);
  s->end = NULL;
  return 0;
}

/* Raises what a call of zlib says that is no progress. */
static void check(lua_State *L, const struct stream *s, int code) {
  if (code == Z_OK || code == Z_STREAM_END || code == Z_BUF_ERROR) return;
  luaL_error(L, "zlib: %s", s->z.msg ? s->z.msg : zError(code));
}

/* How much is put out: lua-zlib's words, without data all there is. */
static int flush_of(lua_State *L, const struct stream *s) {
  static const char *const words[] = {"none", "sync", "full", "finish", NULL};
  static const int flush[] = {Z_NO_FLUSH, Z_SYNC_FLUSH, Z_FULL_FLUSH, Z_FINISH};
  if (s->step == inflate) return Z_SYNC_FLUSH;
  return flush[luaL_checkoption(L, 2, lua_isnoneornil(L, 1) ? "finish" : "none",
                                words)];
}

/* stream(data, flush) -> what it gives, whether it is at its end, bytes in, out
 */
static int run(lua_State *L) {
  struct stream *s = luaL_checkudata(L, lua_upvalueindex(1), STREAM);
  size_t n = 0;
  const char *data = luaL_optlstring(L, 1, "", &n);
  const int flush = flush_of(L, s);
  luaL_argcheck(L, n < INT_MAX, 1, "a piece under 2 GB expected");
  if (s->done) return luaL_error(L, "zlib: the stream is at its end");
  s->z.next_in = (const Bytef *)data;
  s->z.avail_in = (uInt)n;
  luaL_Buffer b;
  luaL_buffinit(L, &b);
  do {
    s->z.next_out = (Bytef *)luaL_prepbuffer(&b);
    s->z.avail_out = LUAL_BUFFERSIZE;
    const int code = s->step(&s->z, flush);
    check(L, s, code);
    luaL_addsize(&b, LUAL_BUFFERSIZE - s->z.avail_out);
    s->done = code == Z_STREAM_END;
  } while (s->z.avail_out == 0 && !s->done);
  luaL_pushresult(&b);
  lua_pushboolean(L, s->done);
  lua_pushinteger(L, (lua_Integer)s->z.total_in);
  lua_pushinteger(L, (lua_Integer)s->z.total_out);
  return 4;
}

static struct stream *new_stream(lua_State *L) {
  struct stream *s = lua_newuserdatauv(L, sizeof *s, 0);
  memset(s, 0, sizeof *s);
  luaL_setmetatable(L, STREAM);
  return s;
}

/* inflate(window bits) -> stream */
static int open_inflate(lua_State *L) {
  const int bits = (int)luaL_optinteger(L, 1, MAX_WBITS + 32);
  struct stream *s = new_stream(L);
  check(L, s, inflateInit2(&s->z, bits));
  s->step = inflate;
  s->end = inflateEnd;
  lua_pushcclosure(L, run, 1);
  return 1;
}

/* deflate(level, window bits) -> stream */
static int open_deflate(lua_State *L) {
  const int level = (int)luaL_optinteger(L, 1, Z_DEFAULT_COMPRESSION);
  const int bits = (int)luaL_optinteger(L, 2, MAX_WBITS);
  struct stream *s = new_stream(L);
  check(L, s, deflateInit2(&s->z, level, Z_DEFLATED, bits, 9, 0));
  s->step = deflate;
  s->end = deflateEnd;
  lua_pushcclosure(L, run, 1);
  return 1;
}

/* sum(data) -> the sum of all data so far, how many bytes they are */
static int add_to_sum(lua_State *L) {
  size_t n = 0;
  const char *data = luaL_optlstring(L, 1, "", &n);
  uLong sum = (uLong)lua_tointeger(L, lua_upvalueindex(1));
  const lua_Integer so_far = lua_tointeger(L, lua_upvalueindex(2));
  sum = crc32_z(sum, (const Bytef *)data, n);
  lua_pushinteger(L, (lua_Integer)sum);
  lua_copy(L, -1, lua_upvalueindex(1));
  lua_pushinteger(L, so_far + (lua_Integer)n);
  lua_copy(L, -1, lua_upvalueindex(2));
  return 2;
}

static int open_crc32(lua_State *L) {
  lua_pushinteger(L, 0);
  lua_pushinteger(L, 0);
  lua_pushcclosure(L, add_to_sum, 2);
  return 1;
}

/* version() -> three numbers, 1, 2, 13 */
static int version(lua_State *L) {
  const char *at = zlibVersion();
  int n = 0;
  for (; n < 3 && *at; n++) {
    char *end = NULL;
    lua_pushinteger(L, strtol(at, &end, 10));
    at = *end == '.' ? end + 1 : "";
  }
  return n;
}

int program_open_zlib(lua_State *L) {
  static const luaL_Reg functions[] = {{"inflate", open_inflate},
                                       {"deflate", open_deflate},
                                       {"crc32", open_crc32},
                                       {"version", version},
                                       {NULL, NULL}};
  luaL_newmetatable(L, STREAM);
  lua_pushcfunction(L, release);
  lua_setfield(L, -2, "__gc");
  luaL_newlib(L, functions);
  return 1;
}
