/* SPDX-License-Identifier: MIT
 * system.c - what else is asked of the system: how many processors there are,
 * a clock of the wall, whether a person sees what is told. */
#include "lua/posix.h"

#include <stdint.h>
#include <string.h>
#include <time.h>

#include "lua/bind.h"

#ifdef _WIN32
#include <io.h>
#include <windows.h>
#else
#include <unistd.h>
#endif

double nsb_now(void) {
#ifdef _WIN32
  LARGE_INTEGER count, each;
  QueryPerformanceCounter(&count);
  QueryPerformanceFrequency(&each);
  return (double)count.QuadPart / (double)each.QuadPart;
#else
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
#endif
}

static int core_processors(lua_State *L) {
#ifdef _WIN32
  SYSTEM_INFO system;
  GetSystemInfo(&system);
  const long n = (long)system.dwNumberOfProcessors;
#else
  const long n = sysconf(_SC_NPROCESSORS_ONLN);
#endif
  lua_pushinteger(L, n < 1 ? 1 : n > NS_MAX_THREADS ? NS_MAX_THREADS : n);
  return 1;
}

static int core_clock(lua_State *L) {
  lua_pushnumber(L, nsb_now());
  return 1;
}

static int core_is_terminal(lua_State *L) {
#ifdef _WIN32
  lua_pushboolean(L, _isatty(_fileno(stderr)));
#else
  lua_pushboolean(L, isatty(STDERR_FILENO));
#endif
  return 1;
}

/* less(a, b) -> whether a text stands before another by its bytes, whatever the
 * order of the host's locale. */
static int core_less(lua_State *L) {
  size_t n, m;
  const char *a = luaL_checklstring(L, 1, &n);
  const char *b = luaL_checklstring(L, 2, &m);
  const int order = memcmp(a, b, n < m ? n : m);
  lua_pushboolean(L, order < 0 || (order == 0 && n < m));
  return 1;
}

/* hash(text) -> FNV-1a of 64 bits (Fowler, Noll, Vo). */
static int core_hash(lua_State *L) {
  size_t n;
  const char *text = luaL_checklstring(L, 1, &n);
  uint64_t h = UINT64_C(0xCBF29CE484222325);
  for (size_t i = 0; i < n; i++)
    h = (h ^ (unsigned char)text[i]) * UINT64_C(0x100000001B3);
  lua_pushinteger(L, (lua_Integer)h);
  return 1;
}

/* processors() -> how many; clock() -> seconds from some moment on, of the wall
 * and not of one thread; is_terminal() -> whether standard error is one. */
int nsb_open_system(lua_State *L) {
  static const luaL_Reg functions[] = {{"processors", core_processors},
                                       {"clock", core_clock},
                                       {"is_terminal", core_is_terminal},
                                       {"less", core_less},
                                       {"hash", core_hash},
                                       {NULL, NULL}};
  luaL_setfuncs(L, functions, 0);
  return 0;
}
