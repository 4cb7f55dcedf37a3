/* SPDX-License-Identifier: MIT
 * npy.c - columns of numbers as bytes of a file: eight to a number, the
 * lowest first, whatever the machine, with their CRC-32. */
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "lua/bind.h"

/* CRC-32 (ISO 3309) of more bytes, four bits at a time. */
static uint32_t crc_of(uint32_t crc, const unsigned char *at, size_t n) {
  static const uint32_t part[16] = {
      0x00000000, 0x1db71064, 0x3b6e20c8, 0x26d930ac, 0x76dc4190, 0x6b6b51f4,
      0x4db26158, 0x5005713c, 0xedb88320, 0xf00f9344, 0xd6d6a3e8, 0xcb61b38c,
      0x9b64c2b0, 0x86d3d2d4, 0xa00ae278, 0xbdbdf21c};
  crc = ~crc;
  for (size_t i = 0; i < n; i++) {
    crc ^= at[i];
    crc = crc >> 4 ^ part[crc & 15];
    crc = crc >> 4 ^ part[crc & 15];
  }
  return ~crc;
}

/* crc32(text, crc before or 0) -> crc */
static int core_crc32(lua_State *L) {
  size_t n = 0;
  const char *text = luaL_checklstring(L, 1, &n);
  const uint32_t crc = (uint32_t)luaL_optinteger(L, 2, 0);
  lua_pushinteger(L, (lua_Integer)crc_of(crc, (const unsigned char *)text, n));
  return 1;
}

enum { ROOM = 1024 };

/* write_numbers(file, column, n, crc before) -> crc; or nil and what the
 * system says. */
static int core_write_numbers(lua_State *L) {
  unsigned char bytes[8 * ROOM];
  const luaL_Stream *file = luaL_checkudata(L, 1, LUA_FILEHANDLE);
  luaL_argcheck(L, file->closef, 1, "an open file expected");
  const struct nsb_numbers *c = luaL_checkudata(L, 2, NSB_NUMBERS);
  const lua_Integer n = luaL_checkinteger(L, 3);
  uint32_t crc = (uint32_t)luaL_checkinteger(L, 4);
  luaL_argcheck(L, n >= 0 && n <= c->n, 3, "too many");
  errno = 0;
  for (lua_Integer i = 0; i < n; i += ROOM) {
    const int m = n - i < ROOM ? (int)(n - i) : ROOM;
    for (int k = 0; k < m; k++) {
      uint64_t bits;
      memcpy(&bits, &c->v[i + k], sizeof bits);
      for (int b = 0; b < 8; b++)
        bytes[8 * k + b] = (unsigned char)(bits >> 8 * b);
    }
    crc = crc_of(crc, bytes, 8 * (size_t)m);
    if (fwrite(bytes, 8, (size_t)m, file->f) < (size_t)m)
      return luaL_fileresult(L, 0, NULL);
  }
  lua_pushinteger(L, (lua_Integer)crc);
  return 1;
}

/* spread(steps, stride, first, count, to): what an axis of numbers is at
 * 'count' points from 'first' on. */
static int core_spread(lua_State *L) {
  const struct nsb_numbers *c = luaL_checkudata(L, 1, NSB_NUMBERS);
  const lua_Integer stride = luaL_checkinteger(L, 2),
                    first = luaL_checkinteger(L, 3),
                    count = luaL_checkinteger(L, 4);
  struct nsb_numbers *to = luaL_checkudata(L, 5, NSB_NUMBERS);
  luaL_argcheck(L, c->n >= 1, 1, "a step at least");
  luaL_argcheck(L, stride >= 1 && first >= 0, 2, "1 or more expected");
  luaL_argcheck(L, count >= 0 && count <= to->n, 4, "too many");
  for (lua_Integer i = 0; i < count; i++)
    to->v[i] = c->v[(first + i) / stride % c->n];
  return 0;
}

static const luaL_Reg functions[] = {{"crc32", core_crc32},
                                     {"write_numbers", core_write_numbers},
                                     {"spread", core_spread},
                                     {NULL, NULL}};

/* Puts the writer of binary columns into the module. */
int nsb_open_npy(lua_State *L) {
  luaL_setfuncs(L, functions, 0);
  return 0;
}
