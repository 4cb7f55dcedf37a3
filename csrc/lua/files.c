/* SPDX-License-Identifier: MIT
 * files.c - what Lua's own library lacks for files: folders, kinds of
 * files, a file made beside the one it will replace, and putting it there.
 *
 * Nothing passes through a shell. A file that exists is never opened for
 * writing: the new one is made under a name of ours in the same folder,
 * without following links, and takes the place in one step. Paths are UTF-8 on
 * every system; those that begin with "inside:/" are of the program itself. */
#include "lua/files.h"

#include <errno.h>

/* read(path, most) -> the text of a file, its first 'most' bytes; or nil and
 * what the system says. */
static int core_read(lua_State *L) {
  const char *path = nsb_path(L, 1);
  const lua_Integer most = luaL_checkinteger(L, 2);
  luaL_argcheck(L, most >= 0, 2, "0 or more expected");
  const struct nsb_carried *in = nsb_carried_file(path);
  if (in) {
    const char *why = NULL, *text = nsb_carried_text(in, &why);
    if (!text) return nsb_refused(L, why);
    lua_pushlstring(L, text,
                    (lua_Unsigned)most < in->size ? (size_t)most : in->size);
    return 1;
  }
  luaL_Stream *p = nsb_new_handle(L); /* closed by Lua if memory runs out */
  FILE *f = p->f = nsb_open(path, false);
  if (!f) return nsb_failed(L);
  p->closef = nsb_closed;
  luaL_Buffer b;
  luaL_buffinit(L, &b);
  lua_Integer got = 0;
  for (size_t n = 1; n > 0 && got < most; got += (lua_Integer)n) {
    const lua_Integer left = most - got;
    char *to = luaL_prepbuffer(&b);
    n = fread(to, 1,
              left < (lua_Integer)LUAL_BUFFERSIZE ? (size_t)left
                                                  : LUAL_BUFFERSIZE,
              f);
    luaL_addsize(&b, n);
  }
  const bool bad = ferror(f);
  const int why = errno;
  luaL_pushresult(&b);
  p->f = NULL;
  fclose(f);
  errno = why;
  return bad ? nsb_failed(L) : 1;
}

/* change(path) -> a handle on a file that is there, to read and to write. */
static int core_change(lua_State *L) {
  const char *path = nsb_path(L, 1);
  luaL_Stream *p = nsb_new_handle(L);
  p->f = nsb_open(path, true);
  if (!p->f) return nsb_failed(L);
  p->closef = nsb_closed;
  return 1;
}

/* A new folder of ours beside a path. */
static int new_folder(lua_State *L, const char *path, bool open) {
  for (int k = 0; k < NSB_FILE_TRIES; k++) {
    if (nsb_new_folder(nsb_push_temporary(L, path), open)) return 1;
    if (errno != EEXIST) return nsb_failed(L);
    lua_pop(L, 1);
  }
  return nsb_failed(L);
}

/* private_folder() -> a new folder of ours that others cannot look into. */
static int core_private_folder(lua_State *L) {
  nsb_push_temporary_root(L);
  return new_folder(L, lua_tostring(L, -1), false);
}

/* folder_beside(path) -> a new folder of ours in the folder of a path. */
static int core_folder_beside(lua_State *L) {
  return new_folder(L, nsb_path(L, 1), true);
}

static const luaL_Reg functions[] = {{"entries", nsb_file_entries},
                                     {"make_folder", nsb_file_make_folder},
                                     {"kind", nsb_file_kind},
                                     {"read", core_read},
                                     {"change", core_change},
                                     {"beside", nsb_file_beside},
                                     {"settle", nsb_file_settle},
                                     {"move", nsb_file_move},
                                     {"exchange", nsb_file_exchange},
                                     {"lock", nsb_file_lock},
                                     {"remove", nsb_file_remove},
                                     {"private_folder", core_private_folder},
                                     {"folder_beside", core_folder_beside},
                                     {NULL, NULL}};

/* entries(path) -> names; make_folder(path) -> true; kind(path) -> "file",
 * "folder" or "other", what tells it from others, its size, whether it is a
 * link; read(path, most) -> text; change(path) -> handle; beside(path) ->
 * handle, name of ours, the path that it is for; settle(handle, name, path),
 * move(from, to), exchange(a, b), remove(path) -> true;
 * lock(path) -> handle. Each of them nil and
 * what the system says where it does not. */
int nsb_open_files(lua_State *L) {
  luaL_newlib(L, functions);
  nsb_open_run(L);
  nsb_open_talk(L);
  lua_setfield(L, -2, "files");
  return 0;
}
