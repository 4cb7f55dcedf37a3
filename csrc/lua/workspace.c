/* SPDX-License-Identifier: MIT
 * workspace.c - the room that reviews work in, one for a module: an upvalue of
 * the functions that need it.
 *
 * It is large, and a joist touches the part that its topology needs. So it
 * comes from calloc when a joist is first reviewed: pages that are not written
 * take no memory, and nothing has to be cleared. */
#include <stdlib.h>

#include "lua/bind.h"

#define ROOM "netsection.workspace"

/* What Lua owns of it. */
struct owned {
  void *room; /* null before the first review */
};

/* Memory that is asked for while the workspace is in use may run a finalizer of
 * the caller's, which would then put another joist on it: that call is refused.
 */
struct nsb_workspace *nsb_the_workspace(lua_State *L) {
  if (lua_gc(L, LUA_GCCOUNT) < 0)
    luaL_error(L, "a finalizer may review no joist");
  struct owned *o = lua_touserdata(L, lua_upvalueindex(1));
  const uintptr_t line = NS_CACHE_LINE;
  if (!o->room)
    o->room = calloc(1, sizeof(struct nsb_workspace) + ns_work_size + line);
  if (!o->room) luaL_error(L, "not enough memory");
  const uintptr_t at = (uintptr_t)o->room;
  return (struct nsb_workspace *)((at + line - 1) / line * line);
}

/* The work room of a workspace. */
struct ns_work *nsb_work(struct nsb_workspace *d) {
  return (struct ns_work *)(void *)d->work;
}

/* Gives it back. */
static int let_go(lua_State *L) {
  struct owned *o = luaL_checkudata(L, 1, ROOM);
  free(o->room);
  o->room = NULL;
  return 0;
}

/* Pushes a workspace that is not there yet. */
void nsb_push_workspace(lua_State *L) {
  struct owned *o = lua_newuserdatauv(L, sizeof *o, 0);
  o->room = NULL;
  luaL_newmetatable(L, ROOM);
  lua_pushcfunction(L, let_go);
  lua_setfield(L, -2, "__gc");
  lua_setmetatable(L, -2);
}
