/* SPDX-License-Identifier: MIT
 * here.c - Lua with zlib on the machine that builds: it runs carry.lua, which
 * compiles the modules that the single program has inside and deflates them. */
#include <lauxlib.h>
#include <lualib.h>
#include <stdio.h>

/* Of Lua's own sources, which it is compiled with. */
#include <lmem.h>
#include <lobject.h>

#include "program/program.h"

static void drop_locals(lua_State *L, Proto *f) {
  luaM_freemem(L, f->locvars, (size_t)f->sizelocvars * sizeof *f->locvars);
  f->locvars = NULL;
  f->sizelocvars = 0;
  for (int i = 0; i < f->sizep; i++) drop_locals(L, f->p[i]);
}

/* without_locals(f): a function of Lua that forgets what its local variables
 * are called, in it and in the functions within; its lines and all else stay.
 */
static int without_locals(lua_State *L) {
  luaL_argcheck(L, lua_isfunction(L, 1) && !lua_iscfunction(L, 1), 1,
                "a function of Lua expected");
  drop_locals(L, ((const LClosure *)lua_topointer(L, 1))->p);
  lua_settop(L, 1);
  return 1;
}

static int open_here(lua_State *L) {
  const luaL_Reg functions[] = {{"without_locals", without_locals},
                                {NULL, NULL}};
  luaL_newlib(L, functions);
  return 1;
}

int main(int argc, char **argv) {
  lua_State *L = luaL_newstate();
  if (!L || argc < 2) return 64;
  luaL_openlibs(L);
  luaL_requiref(L, "zlib", program_open_zlib, 0);
  luaL_requiref(L, "here", open_here, 0);
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
