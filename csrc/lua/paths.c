/* SPDX-License-Identifier: MIT
 * paths.c - paths, names of ours beside them, handles of Lua on files. */
#include "lua/posix.h"

#include <errno.h>
#include <string.h>
#include <time.h>

#include "lua/files.h"

#ifdef _WIN32
#include "lua/windows.h"
#else
#include <unistd.h>
#endif

/* Begins every name that is ours for the time being. */
#define NSB_TEMPORARY ".netsection-"

int nsb_refused(lua_State *L, const char *why) {
  lua_pushnil(L);
  lua_pushstring(L, why);
  return 2;
}

int nsb_failed(lua_State *L) { return nsb_refused(L, strerror(errno)); }

const char *nsb_path(lua_State *L, int index) {
  size_t n = 0;
  const char *path = luaL_checklstring(L, index, &n);
  luaL_argcheck(L, n > 0 && strlen(path) == n, index,
                "a path without a NUL expected");
  luaL_argcheck(L, n < NSB_PATH, index, "a path of under 4096 bytes expected");
  return path;
}

#ifdef _WIN32
static unsigned long long process(void) { return GetCurrentProcessId(); }

static unsigned long long moment(void) {
  LARGE_INTEGER count;
  FILETIME now;
  QueryPerformanceCounter(&count);
  GetSystemTimeAsFileTime(&now);
  return (unsigned long long)now.dwHighDateTime << 32 ^ now.dwLowDateTime ^
         (unsigned long long)count.QuadPart << 20;
}
#else
static unsigned long long process(void) { return (unsigned long long)getpid(); }

static unsigned long long moment(void) {
  struct timespec t = {0};
  clock_gettime(CLOCK_REALTIME, &t);
  return (unsigned long long)t.tv_sec << 20 ^ (unsigned long long)t.tv_nsec;
}
#endif

/* A number that two processes, or two calls of one, do not share. */
static unsigned long long fresh(void) {
  static unsigned long long calls;
  unsigned long long z = process() << 40 ^ moment();
  z += ++calls * 0x9E3779B97F4A7C15ull;
  z = (z ^ z >> 30) * 0xBF58476D1CE4E5B9ull;
  z = (z ^ z >> 27) * 0x94D049BB133111EBull;
  return z ^ z >> 31;
}

static bool separates(char c) {
#ifdef _WIN32
  return c == '/' || c == '\\' || c == ':';
#else
  return c == '/';
#endif
}

const char *nsb_push_temporary(lua_State *L, const char *path) {
  size_t n = strlen(path);
  while (n > 0 && !separates(path[n - 1])) n--;
  lua_pushlstring(L, path, n);
  char name[40];
  snprintf(name, sizeof name, NSB_TEMPORARY "%016llx.part", fresh());
  lua_pushstring(L, name);
  lua_concat(L, 2);
  return lua_tostring(L, -1);
}

int nsb_closed(lua_State *L) {
  luaL_Stream *p = luaL_checkudata(L, 1, LUA_FILEHANDLE);
  FILE *f = p->f;
  p->f = NULL;
  return luaL_fileresult(L, f == NULL || fclose(f) == 0, NULL);
}

luaL_Stream *nsb_new_handle(lua_State *L) {
  luaL_Stream *p = lua_newuserdatauv(L, sizeof *p, 0);
  p->closef = NULL;
  p->f = NULL;
  luaL_setmetatable(L, LUA_FILEHANDLE);
  return p;
}

int nsb_push_handle(lua_State *L, int fd) {
  luaL_Stream *p = nsb_new_handle(L);
#ifdef _WIN32
  p->f = _fdopen(fd, "wb");
#else
  p->f = fdopen(fd, "wb");
#endif
  p->closef = nsb_closed;
  return p->f != NULL;
}

int nsb_carried_kind(lua_State *L) {
  const char *path = nsb_path(L, 1);
  const struct nsb_carried *f = nsb_carried_file(path);
  if (!f && !nsb_push_carried(L, path))
    return nsb_refused(L, "the program carries nothing of this name");
  lua_pushstring(L, f ? "file" : "folder");
  lua_pushvalue(L, 1);
  lua_pushinteger(L, f ? (lua_Integer)f->size : 0);
  lua_pushboolean(L, 0);
  return 4;
}
