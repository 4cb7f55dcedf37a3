/* SPDX-License-Identifier: MIT
 * lua_bind.h - reading tables into the core's structs, with the path of
 * whatever is wrong in the message. */
#ifndef NETSECTION_LUA_BIND_H
#define NETSECTION_LUA_BIND_H

#include <lauxlib.h>
#include <lua.h>
#include <math.h>

#include "netsection.h"

/* As the fallback of nsb_number: the field is required. A double, which the
 * macro of math.h is not everywhere. */
#define NSB_REQUIRED ((double)NAN)

/* Number in field 'name' of the table at 'index'; 'otherwise' where absent,
 * an error where that is NSB_REQUIRED. */
double nsb_number(lua_State *L, int index, const char *path, const char *name,
                  double otherwise);
/* The same, and neither NaN nor infinity. */
double nsb_finite(lua_State *L, int index, const char *path, const char *name,
                  double otherwise);
/* Pushes item n of the list on top, which must be a table; its index. */
int nsb_item(lua_State *L, const char *path, int n);
bool nsb_flag(lua_State *L, int index, const char *name);
/* Index of the string field in a list of words; -1 where absent. */
int nsb_word(lua_State *L, int index, const char *path, const char *name,
             const char *const *words);
/* Pushes field 'name', which must be a table or absent; its length. */
int nsb_list(lua_State *L, int index, const char *path, const char *name,
             int most);
void nsb_set(lua_State *L, const char *name, double value);
void nsb_set_int(lua_State *L, const char *name, double value);
/* Model table at 'index' to shape and lane 'lane' of the block. */
void nsb_model(lua_State *L, int index, struct ns_shape *shape,
               struct ns_block *block, int lane);
void nsb_rules(lua_State *L, int index, struct ns_rules *rules);
void nsb_standard(lua_State *L, int index, struct ns_standard *standard);
/* Name of a field that a status blames, as "cuts[2].depth". */
void nsb_push_blame(lua_State *L, const struct ns_shape *shape,
                    const struct ns_result *result, int lane);
/* Row of a block that a path such as "cuts.1.depth" names, or null. */
double *nsb_row(struct ns_block *block, const struct ns_shape *shape,
                const char *path);
int nsb_open_beam(lua_State *L);
int nsb_open_dowel(lua_State *L);

#endif
