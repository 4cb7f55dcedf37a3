/* SPDX-License-Identifier: MIT
 * here.c - Lua with zlib on the machine that builds: it runs carry.lua, which
 * compiles the modules that the single program has inside and deflates them. */
#include <lauxlib.h>
#include <lualib.h>
#include <stdio.h>

#include "program/program.h"

int main(int argc, char **argv) {
  lua_State *L = luaL_newstate();
  if (!L || argc < 2) return 64;
  luaL_openlibs(L);
  luaL_requiref(L, "zlib", program_open_zlib, 0);
  lua_createtable(L, argc, 1);
  for (int i = 0; i < argc; i++) {
    lua_pushstring(L, argv[i]);
    lua_rawseti(L, -2, i - 1);
  }
  lua_setglobal(L, "arg");
  const int failed = luaL_loadfile(L, argv[1]) || lua_pcall(L, 0, 0, 0);
  if (failed) fprintf(stderr, "%s\n", luaL_tolstring(L, -1, NULL));
  lua_close(L);
  return failed;
}
