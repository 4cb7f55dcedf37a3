/* SPDX-License-Identifier: MIT
 * system.c - what else is asked of the system: how many processors there are,
 * a clock of the wall, whether a person sees what is told. */
#ifdef __APPLE__
#define _DARWIN_C_SOURCE
#elif !defined(_WIN32)
#define _GNU_SOURCE
#endif

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

/* processors() -> how many; clock() -> seconds from some moment on, of the wall
 * and not of one thread; is_terminal() -> whether standard error is one. */
int nsb_open_system(lua_State *L) {
  static const luaL_Reg functions[] = {{"processors", core_processors},
                                       {"clock", core_clock},
                                       {"is_terminal", core_is_terminal},
                                       {NULL, NULL}};
  luaL_setfuncs(L, functions, 0);
  return 0;
}
