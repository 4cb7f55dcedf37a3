/* SPDX-License-Identifier: MIT
 * main.c - the single program: Lua, LPeg, zlib, expat, the core and all Lua and
 * plot files of the module inside. What it does is said in start.lua; here the
 * state is made, words of the command line are handed over in UTF-8, and Ctrl-C
 * stops a script where it is. */
#include <lauxlib.h>
#include <lualib.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>

#include "lua/bind.h"
#include "program/program.h"

#ifdef _WIN32
#include <fcntl.h>
#include <io.h>
/* After the others: it gives common words other meanings. */
#include "lua/windows.h"
#include <shellapi.h>
#endif

int luaopen_netsection_core(lua_State *L);

static lua_State *running;

static void stop(lua_State *L, lua_Debug *at) {
  (void)at;
  lua_sethook(L, NULL, 0, 0);
  luaL_error(L, "interrupted!");
}

/* Only what a signal handler may do: a hook stops Lua at its next step. */
static void on_signal(int signal_number) {
  signal(signal_number, SIG_DFL);
  lua_sethook(running, stop,
              LUA_MASKCALL | LUA_MASKRET | LUA_MASKLINE | LUA_MASKCOUNT, 1);
}

static int with_traceback(lua_State *L) {
  luaL_traceback(L, L, luaL_tolstring(L, 1, NULL), 1);
  return 1;
}

/* Modules in C that are inside. */
static void preload(lua_State *L) {
  const luaL_Reg modules[] = {{"lpeg", luaopen_lpeg},
                              {"lxp", program_open_lxp},
                              {"netsection.core", luaopen_netsection_core},
                              {"zlib", program_open_zlib},
                              {NULL, NULL}};
  luaL_getsubtable(L, LUA_REGISTRYINDEX, LUA_PRELOAD_TABLE);
  luaL_setfuncs(L, modules, 0);
  lua_pop(L, 1);
}

/* start(words): in a protected call, so that memory that runs out is told. */
static int start(lua_State *L) {
  const struct nsb_carried *first = nsb_carried_file("inside:/start.lua");
  const char *why = NULL, *text = first ? nsb_carried_text(first, &why) : NULL;
  if (!text) return luaL_error(L, "%s", why ? why : "start.lua is not inside");
  luaL_openlibs(L);
  preload(L);
  lua_pushcfunction(L, with_traceback);
  if (luaL_loadbufferx(L, text, first->size, "@start.lua", "bt") != 0)
    return lua_error(L);
  lua_pushvalue(L, 1);
  if (lua_pcall(L, 1, 1, -3) != LUA_OK) return lua_error(L);
  return 1;
}

/* @return the exit code */
static int run(int argc, char **argv) {
  lua_State *L = luaL_newstate();
  if (!L) {
    fputs("netsection: no memory\n", stderr);
    return 70;
  }
  running = L;
  program_choose_set();
  signal(SIGINT, on_signal);
  nsb_carry(&program_inside);
  lua_pushcfunction(L, start);
  lua_createtable(L, argc, 1);
  for (int i = 0; i < argc; i++) {
    lua_pushstring(L, argv[i]);
    lua_rawseti(L, -2, i);
  }
  int code = 70;
  if (lua_pcall(L, 1, 1, 0) == LUA_OK)
    code = (int)lua_tointeger(L, -1);
  else
    fprintf(stderr, "netsection: %s\n", luaL_tolstring(L, -1, NULL));
  lua_close(L);
  return code;
}

#ifdef _WIN32

/* The words of the command line in UTF-8, which live as long as the program. */
static char **words_of(int *n) {
  wchar_t **wide = CommandLineToArgvW(GetCommandLineW(), n);
  char **words = wide ? calloc((size_t)*n + 1, sizeof *words) : NULL;
  for (int k = 0; words && k < *n; k++) {
    const int size = 4 * (int)wcslen(wide[k]) + 1;
    words[k] = malloc((size_t)size);
    if (!words[k] || !nsb_narrow(wide[k], words[k], size)) return NULL;
  }
  return words;
}

/* Started by a double click it has a window of its own, which would close
 * before anybody has read it. */
static void wait_for_reader(void) {
  DWORD processes[2];
  if (GetConsoleProcessList(processes, 2) != 1) return;
  fputs("\nPress Enter to close this window.\n", stderr);
  getchar();
}

int main(void) {
  int argc = 0;
  char **argv = words_of(&argc);
  const UINT before = GetConsoleOutputCP();
  if (!argv) return 70;
  _setmode(_fileno(stdout), _O_BINARY); /* the same bytes as elsewhere */
  _setmode(_fileno(stderr), _O_BINARY);
  SetConsoleOutputCP(CP_UTF8);
  const int code = run(argc, argv);
  fflush(stdout);
  wait_for_reader();
  if (before) SetConsoleOutputCP(before);
  return code;
}

#else

int main(int argc, char **argv) { return run(argc, argv); }

#endif
