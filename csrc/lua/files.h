/* SPDX-License-Identifier: MIT
 * files.h - what the files of each system share. */
#ifndef NETSECTION_LUA_FILES_H
#define NETSECTION_LUA_FILES_H

#include <stdio.h>

#include "lua/bind.h"

enum { NSB_FILE_TRIES = 64, NSB_PATH = 4096 };

/* nil and what the system says; of errno. */
int nsb_refused(lua_State *L, const char *why);
int nsb_failed(lua_State *L);
/* A path without a NUL in it; raises for anything else. */
const char *nsb_path(lua_State *L, int index);
/* Pushes a name of ours in the folder of a path. */
const char *nsb_push_temporary(lua_State *L, const char *path);
/* A handle of Lua's own kind on a descriptor. */
int nsb_push_handle(lua_State *L, int fd);
/* Pushes a handle that is not open yet; what closes one. */
luaL_Stream *nsb_new_handle(lua_State *L);
int nsb_closed(lua_State *L);
/* What nsb_file_kind gives for a file or folder within the program. */
int nsb_carried_kind(lua_State *L);

/* Each for Lua (see files.c), by the calls of a system. */
int nsb_file_entries(lua_State *L);
int nsb_file_make_folder(lua_State *L);
int nsb_file_kind(lua_State *L);
int nsb_file_beside(lua_State *L);
int nsb_file_settle(lua_State *L);
int nsb_file_move(lua_State *L);
int nsb_file_exchange(lua_State *L);
int nsb_file_lock(lua_State *L);
int nsb_file_remove(lua_State *L);

/* Pushes the folder for temporary files, with its separator. */
void nsb_push_temporary_root(lua_State *L);
/* A new folder, 'open' to others or not; errno where it cannot be. */
bool nsb_new_folder(const char *path, bool open);
/* An existing file to be read, or changed. */
FILE *nsb_open(const char *path, bool change);

#endif
