/* A Lua host with the binding linked in, for running scripts under sanitizers:
 *   host SCRIPT [ARGUMENT...]   runs the script as the plain interpreter would
 *   host --oom SCRIPT           lets each memory request of its parts fail in
 * turn
 *   host -e TEXT                runs the text
 * Where the environment names a file by NETSECTION_LINES, it adds to it which
 * lines of lua/netsection were reached, a source and its lines in a row; so do
 * the hosts that a script starts.
 * A module 'host' lets a script say which files the program carries.
 * No library has to be preloaded, since the whole program is ours.
 * SPDX-License-Identifier: MIT */
#include <lauxlib.h>
#include <lua.h>
#include <lualib.h>

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "lua/bind.h"

int luaopen_netsection_core(lua_State *L);

/* What the allocator keeps: bytes in use, and when it has to refuse. */
typedef struct Meter {
  size_t live;  /* bytes that Lua holds now */
  bool armed;   /* count and refuse? */
  long left;    /* growing requests still granted while armed */
  long refused; /* growing requests refused since armed */
} Meter;

/* Lua's allocator. Only growing requests are counted: Lua relies on shrinking
 * to succeed. Once one is refused, all later ones are too, so that the full
 * collection and second try of Lua do not hide the failure. */
static void *metered(void *ud, void *block, size_t old_size, size_t size) {
  Meter *meter = ud;
  size_t held = block == NULL ? 0 : old_size; /* of no block it is a type tag */
  if (size == 0) {
    free(block);
    meter->live -= held;
    return NULL;
  }
  if (meter->armed && size > held) {
    if (meter->left == 0) {
      meter->refused++;
      return NULL;
    }
    meter->left--;
  }
  void *moved = realloc(block, size);
  if (moved != NULL) meter->live = meter->live - held + size;
  return moved;
}

/* Lines reached of one source. Texts of sources are known by their address,
 * which stays while the functions do; a list of them is searched by hash. */
enum { SOURCES = 4096, LINES = 4096 };

typedef struct Source {
  const char *address;
  bool ours;
  char name[128];
  unsigned char *reached;
} Source;

static Source sources[SOURCES];
static const char *lines_path;

static Source *source_of(lua_Debug *ar) {
  size_t i = ((uintptr_t)ar->source >> 4) % SOURCES;
  for (size_t n = 0; n < SOURCES; n++, i = (i + 1) % SOURCES) {
    Source *s = &sources[i];
    if (s->address == ar->source) return s;
    if (s->address != NULL) continue;
    s->address = ar->source;
    const char *path = strstr(ar->source, "lua/netsection/");
    s->ours = path != NULL && ar->source[0] == '@' &&
              (path == ar->source + 1 || path[-1] == '/') &&
              strlen(path) < sizeof s->name;
    if (s->ours) strcpy(s->name, path);
    if (s->ours) s->reached = calloc(LINES, 1);
    return s;
  }
  return NULL;
}

static void on_line(lua_State *L, lua_Debug *ar) {
  if (lua_getinfo(L, "S", ar) == 0) return;
  Source *s = source_of(ar);
  if (s != NULL && s->reached != NULL && ar->currentline < LINES)
    s->reached[ar->currentline] = 1;
}

/* Stands for debug.sethook while lines are noted: a script that takes its own
 * hook away again gets the one that notes back. */
static int set_hook(lua_State *L) {
  lua_pushvalue(L, lua_upvalueindex(1));
  lua_insert(L, 1);
  lua_call(L, lua_gettop(L) - 1, 0);
  if (lua_gethook(L) == NULL) lua_sethook(L, on_line, LUA_MASKLINE, 0);
  return 0;
}

static void note_lines(lua_State *L) {
  lua_getglobal(L, "debug");
  lua_getfield(L, -1, "sethook");
  lua_pushcclosure(L, set_hook, 1);
  lua_setfield(L, -2, "sethook");
  lua_pop(L, 1);
  lua_sethook(L, on_line, LUA_MASKLINE, 0);
}

/* At the end of the program, also one that os.exit ends. */
static void tell_lines(void) {
  FILE *out = fopen(lines_path, "a");
  if (out == NULL) return;
  for (size_t i = 0; i < SOURCES; i++) {
    if (sources[i].reached == NULL) continue;
    fprintf(out, "%s:", sources[i].name);
    for (int n = 0; n < LINES; n++)
      if (sources[i].reached[n]) fprintf(out, " %d", n);
    fputc('\n', out);
  }
  fclose(out);
}

static int add_traceback(lua_State *L) {
  luaL_traceback(L, L, luaL_tolstring(L, 1, NULL), 1);
  return 1;
}

/* Sets the global table 'arg' as the plain interpreter does. */
static void set_arg(lua_State *L, int argc, char **argv) {
  lua_createtable(L, argc, 2);
  for (int i = 0; i < argc; i++) {
    lua_pushstring(L, argv[i]);
    lua_rawseti(L, -2, i - 1);
  }
  lua_setglobal(L, "arg");
}

/* Files that a program carries, made from lists of a script and kept until
 * others are. */
static struct nsb_inside carried;

/* A block is copied; one that is said to have other bytes than it has is
 * damaged. */
static bool copy_block(const struct nsb_block *block, unsigned char *to) {
  if (block->packed != block->size) return false;
  memcpy(to, block->bytes, block->size);
  return true;
}

static void *list_of(lua_State *L, const char *name, size_t each, unsigned *n) {
  lua_getfield(L, 1, name);
  luaL_checktype(L, -1, LUA_TTABLE);
  *n = (unsigned)lua_rawlen(L, -1);
  void *p = calloc(*n + 1, each);
  if (p == NULL) luaL_error(L, "not enough memory");
  return p;
}

/* Whole number k of the item at the top of the stack. */
static unsigned number_in(lua_State *L, int k) {
  lua_rawgeti(L, -1, k);
  const unsigned v = (unsigned)luaL_checkinteger(L, -1);
  lua_pop(L, 1);
  return v;
}

/* carry {blocks = {{text, size as said}}, files = {{name, block from 0, place,
 * size}}}: names in their order. It is called once: blocks stay. */
static int host_carry(lua_State *L) {
  struct nsb_block *b = list_of(L, "blocks", sizeof *b, &carried.block_count);
  for (unsigned k = 0; k < carried.block_count; k++) {
    size_t n;
    lua_rawgeti(L, -1, (lua_Integer)k + 1);
    lua_rawgeti(L, -1, 1);
    const char *text = luaL_checklstring(L, -1, &n);
    unsigned char *bytes = malloc(n + 1);
    if (bytes == NULL) return luaL_error(L, "not enough memory");
    memcpy(bytes, text, n);
    lua_pop(L, 1);
    b[k] = (struct nsb_block){bytes, (unsigned)n, number_in(L, 2), 0};
    lua_pop(L, 1);
  }
  struct nsb_carried *f = list_of(L, "files", sizeof *f, &carried.count);
  for (unsigned k = 0; k < carried.count; k++) {
    lua_rawgeti(L, -1, (lua_Integer)k + 1);
    lua_rawgeti(L, -1, 1);
    const char *name = luaL_checkstring(L, -1);
    char *own = malloc(strlen(name) + 1);
    if (own == NULL) return luaL_error(L, "not enough memory");
    strcpy(own, name);
    lua_pop(L, 1);
    f[k] = (struct nsb_carried){own, number_in(L, 2), number_in(L, 3),
                                number_in(L, 4)};
    lua_pop(L, 1);
  }
  carried.blocks = b;
  carried.files = f;
  carried.inflate = copy_block;
  nsb_carry(&carried);
  return 0;
}

static int open_host(lua_State *L) {
  const luaL_Reg functions[] = {{"carry", host_carry}, {NULL, NULL}};
  luaL_newlib(L, functions);
  return 1;
}

static int report(lua_State *L, const char *what) {
  const char *text = luaL_tolstring(L, -1, NULL);
  fprintf(stderr, "host: %s: %s\n", what, text);
  return EXIT_FAILURE;
}

static int run(lua_State *L, int argc, char **argv) {
  lua_pushcfunction(L, add_traceback);
  bool text = argc > 2 && strcmp(argv[1], "-e") == 0;
  int loaded = text ? luaL_loadstring(L, argv[2]) : luaL_loadfile(L, argv[1]);
  if (loaded != LUA_OK) return report(L, "cannot load");
  for (int i = 2; i < argc; i++) lua_pushstring(L, argv[i]);
  if (lua_pcall(L, argc - 2, 0, 1) != LUA_OK) return report(L, argv[1]);
  return EXIT_SUCCESS;
}

/* Was the error at the top of the stack one of memory? */
static bool out_of_memory(lua_State *L, int status) {
  const char *text = lua_tostring(L, -1);
  return status == LUA_ERRMEM ||
         (text != NULL && strstr(text, "not enough memory") != NULL);
}

/* Calls field `name` of the part at index `part`, with `args` values from the
 * top of the stack; one result stays there. */
static int call_field(lua_State *L, int part, const char *name, int args) {
  lua_getfield(L, part, name);
  lua_insert(L, -1 - args);
  return lua_pcall(L, args, 1, 0);
}

/* What `make` of the part gives, on the stack: nil where it has none. */
static int prepare(lua_State *L, int part) {
  if (lua_getfield(L, part, "make") == LUA_TNIL) return LUA_OK;
  lua_pop(L, 1);
  return call_field(L, part, "make", 0);
}

/* Calls `run` of the part with the n-th growing request and all later ones
 * refused, n = 0, 1, 2 ... until a call has none refused. Every failing call
 * must end in an error of memory, and none may lose any. */
static int starve(lua_State *L, Meter *meter, int part) {
  lua_getfield(L, part, "name");
  const char *name = lua_tostring(L, -1);
  int top = lua_gettop(L);
  for (long n = 0;; n++) {
    lua_settop(L, top);
    if (prepare(L, part) != LUA_OK) return report(L, name);
    meter->left = n;
    meter->refused = 0;
    meter->armed = true;
    int status = call_field(L, part, "run", 1);
    meter->armed = false;
    if (status != LUA_OK && !out_of_memory(L, status)) {
      fprintf(stderr, "host: with request %ld refused\n", n);
      return report(L, name);
    }
    if (status == LUA_OK && meter->refused == 0) {
      printf("%s: %ld failing memory requests survived\n", name, n);
      return EXIT_SUCCESS;
    }
  }
}

/* Starves each part of the list that the script returns, after each was run
 * once unhindered, so that its modules are loaded. */
static int starve_all(lua_State *L, Meter *meter, const char *script) {
  if (luaL_dofile(L, script) != LUA_OK) return report(L, script);
  int list = lua_gettop(L);
  if (!lua_istable(L, list)) {
    fprintf(stderr, "host: %s returns no list of parts\n", script);
    return EXIT_FAILURE;
  }
  for (lua_Integer i = 1; lua_geti(L, list, i) == LUA_TTABLE; i++) {
    int part = lua_gettop(L);
    if (prepare(L, part) != LUA_OK || call_field(L, part, "run", 1) != LUA_OK)
      return report(L, script);
    if (starve(L, meter, part) != EXIT_SUCCESS) return EXIT_FAILURE;
    lua_settop(L, list);
    fflush(stdout);
  }
  return EXIT_SUCCESS;
}

int main(int argc, char **argv) {
  bool oom = argc == 3 && strcmp(argv[1], "--oom") == 0;
  bool text = argc > 2 && strcmp(argv[1], "-e") == 0;
  if (argc < 2 || (argv[1][0] == '-' && !oom && !text)) {
    fprintf(stderr, "usage: host SCRIPT [ARGUMENT...] | host -e TEXT | host "
                    "--oom SCRIPT\n");
    return EXIT_FAILURE;
  }
  lines_path = getenv("NETSECTION_LINES");
  if (lines_path != NULL && atexit(tell_lines) != 0) return EXIT_FAILURE;
  Meter meter = {0};
  lua_State *L = lua_newstate(metered, &meter);
  if (L == NULL) return EXIT_FAILURE;
  luaL_openlibs(L);
  luaL_getsubtable(L, LUA_REGISTRYINDEX, LUA_PRELOAD_TABLE);
  lua_pushcfunction(L, luaopen_netsection_core);
  lua_setfield(L, -2, "netsection.core");
  lua_pushcfunction(L, open_host);
  lua_setfield(L, -2, "host");
  lua_settop(L, 0);
  set_arg(L, argc - oom, argv + oom);
  if (lines_path != NULL) note_lines(L);

  int code = oom ? starve_all(L, &meter, argv[2]) : run(L, argc, argv);
  lua_close(L);
  if (meter.live != 0) {
    fprintf(stderr, "host: %zu bytes were not given back\n", meter.live);
    code = EXIT_FAILURE;
  }
  return code;
}
