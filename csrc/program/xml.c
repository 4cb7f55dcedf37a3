/* SPDX-License-Identifier: MIT
 * xml.c - expat as the module "lxp": of lua-expat's functions new, and a
 * parser's parse, stop and close, as its manual has them, for the events of
 * EVENTS.
 *
 * A callback runs in a protected call, so that no error leaves expat in the
 * middle of a step; the parser stops then, and parse raises it. Whatever takes
 * memory is done within that call. */
#include <expat.h>
#include <lauxlib.h>
#include <limits.h>
#include <string.h>

#include "program/program.h"

#define PARSER "netsection.lxp"

struct parser {
  XML_Parser expat;
  lua_State *L; /* of the call of parse that runs */
  bool failed;  /* by a callback, whose error is on top of the stack */
};

struct event {
  const char *name;
  const char *text; /* not ended by a zero where 'size' is given */
  size_t size;
  const char *const *more; /* pairs of an element, or what a type says */
  int inner; /* whether a document type has a set of its own; -1 */
};

static const char *const EVENTS[] = {"StartElement",  "EndElement",
                                     "CharacterData", "StartDoctypeDecl",
                                     "Comment",       NULL};

/* Pushes the attributes of an element: by name, and their names in order. */
static void push_attributes(lua_State *L, const char *const *pair) {
  lua_newtable(L);
  for (int i = 1; *pair; i++, pair += 2) {
    lua_pushstring(L, pair[0]);
    lua_pushvalue(L, -1);
    lua_rawseti(L, -3, i);
    lua_pushstring(L, pair[1]);
    lua_rawset(L, -3);
  }
}

/* deliver(parser, event): what a callback is given, and its call. */
static int deliver(lua_State *L) {
  const struct event *e = lua_touserdata(L, 2);
  lua_getiuservalue(L, 1, 1);
  if (lua_getfield(L, -1, e->name) == LUA_TNIL) return 0;
  const int base = lua_gettop(L);
  lua_pushvalue(L, 1);
  lua_pushlstring(L, e->text, e->size);
  if (e->inner >= 0) {
    lua_pushstring(L, e->more[0]);
    lua_pushstring(L, e->more[1]);
    lua_pushboolean(L, e->inner);
  } else if (e->more) {
    push_attributes(L, e->more);
  }
  lua_call(L, lua_gettop(L) - base, 0);
  return 0;
}

static void happened(struct parser *p, struct event e) {
  lua_State *L = p->L;
  if (p->failed) return;
  lua_pushcfunction(L, deliver);
  lua_pushvalue(L, 1);
  lua_pushlightuserdata(L, &e);
  if (lua_pcall(L, 2, 0, 0) == LUA_OK) return;
  p->failed = true;
  XML_StopParser(p->expat, XML_FALSE);
}

static void on_start(void *data, const XML_Char *name, const XML_Char **pairs) {
  happened(data, (struct event){"StartElement", name, strlen(name),
                                (const char *const *)pairs, -1});
}

static void on_end(void *data, const XML_Char *name) {
  happened(data, (struct event){"EndElement", name, strlen(name), NULL, -1});
}

static void on_text(void *data, const XML_Char *text, int n) {
  happened(data, (struct event){"CharacterData", text, n > 0 ? (size_t)n : 0,
                                NULL, -1});
}

static void on_doctype(void *data, const XML_Char *name, const XML_Char *system,
                       const XML_Char *public, int inner) {
  const char *said[] = {system, public};
  happened(data, (struct event){"StartDoctypeDecl", name, strlen(name), said,
                                inner != 0});
}

static void on_comment(void *data, const XML_Char *text) {
  happened(data, (struct event){"Comment", text, strlen(text), NULL, -1});
}

/* The parser of a call, which its callbacks may not use up. */
static struct parser *to_use(lua_State *L) {
  struct parser *p = luaL_checkudata(L, 1, PARSER);
  if (!p->expat) luaL_error(L, "lxp: the parser is closed");
  if (p->L) luaL_error(L, "lxp: not from within a callback");
  return p;
}

static int push_problem(lua_State *L, XML_Parser expat) {
  lua_pushnil(L);
  lua_pushstring(L, XML_ErrorString(XML_GetErrorCode(expat)));
  lua_pushinteger(L, (lua_Integer)XML_GetCurrentLineNumber(expat));
  lua_pushinteger(L, (lua_Integer)XML_GetCurrentColumnNumber(expat) + 1);
  lua_pushinteger(L, (lua_Integer)XML_GetCurrentByteIndex(expat) + 1);
  return 5;
}

/* parser:parse(text) -> parser, or nil, what is wrong, line, column, place;
 * without text: the document is at its end */
static int parse(lua_State *L) {
  struct parser *p = to_use(L);
  size_t n = 0;
  const char *text = luaL_optlstring(L, 2, "", &n);
  luaL_argcheck(L, n < INT_MAX, 2, "a piece under 2 GB expected");
  luaL_checkstack(L, LUA_MINSTACK, "too deep");
  p->L = L;
  p->failed = false;
  const enum XML_Status status =
      XML_Parse(p->expat, text, (int)n, lua_isnoneornil(L, 2));
  p->L = NULL;
  if (p->failed) return lua_error(L);
  if (status != XML_STATUS_OK) return push_problem(L, p->expat);
  lua_settop(L, 1);
  return 1;
}

static int stop(lua_State *L) {
  struct parser *p = luaL_checkudata(L, 1, PARSER);
  if (p->expat && p->L) XML_StopParser(p->expat, XML_FALSE);
  lua_settop(L, 1);
  return 1;
}

static int close_parser(lua_State *L) {
  struct parser *p = luaL_checkudata(L, 1, PARSER);
  if (p->expat) XML_ParserFree(to_use(L)->expat);
  p->expat = NULL;
  lua_settop(L, 1);
  return 1;
}

/* Its callbacks are those that are named in EVENTS. */
static void check_callbacks(lua_State *L) {
  luaL_checktype(L, 1, LUA_TTABLE);
  for (lua_pushnil(L); lua_next(L, 1); lua_pop(L, 1)) {
    int k = 0;
    while (EVENTS[k] && lua_type(L, -2) == LUA_TSTRING &&
           strcmp(EVENTS[k], lua_tostring(L, -2)) != 0)
      k++;
    luaL_argcheck(L, lua_type(L, -2) == LUA_TSTRING && EVENTS[k], 1,
                  "callbacks for StartElement, EndElement, CharacterData, "
                  "StartDoctypeDecl, Comment expected");
    luaL_argcheck(L, lua_type(L, -1) == LUA_TFUNCTION, 1, "functions expected");
  }
}

/* new(callbacks, separator, false) -> parser; text comes in the pieces that
 * expat gives, which lua-expat without the false would put together */
static int new_parser(lua_State *L) {
  const char *separator = luaL_optstring(L, 2, NULL);
  check_callbacks(L);
  luaL_argcheck(L, lua_isboolean(L, 3) && !lua_toboolean(L, 3), 3,
                "false expected: text is not merged");
  lua_settop(L, 2);
  struct parser *p = lua_newuserdatauv(L, sizeof *p, 1);
  memset(p, 0, sizeof *p);
  luaL_setmetatable(L, PARSER);
  lua_pushvalue(L, 1);
  lua_setiuservalue(L, -2, 1);
  p->expat = separator ? XML_ParserCreateNS(NULL, separator[0])
                       : XML_ParserCreate(NULL);
  if (!p->expat) return luaL_error(L, "lxp: no memory");
  XML_SetUserData(p->expat, p);
  XML_SetElementHandler(p->expat, on_start, on_end);
  XML_SetCharacterDataHandler(p->expat, on_text);
  XML_SetStartDoctypeDeclHandler(p->expat, on_doctype);
  XML_SetCommentHandler(p->expat, on_comment);
  return 1;
}

int program_open_lxp(lua_State *L) {
  static const luaL_Reg methods[] = {
      {"parse", parse}, {"stop", stop}, {"close", close_parser}, {NULL, NULL}};
  luaL_newmetatable(L, PARSER);
  lua_pushcfunction(L, close_parser);
  lua_setfield(L, -2, "__gc");
  luaL_newlib(L, methods);
  lua_setfield(L, -2, "__index");
  lua_newtable(L);
  lua_pushcfunction(L, new_parser);
  lua_setfield(L, -2, "new");
  return 1;
}
