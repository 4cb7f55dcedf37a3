/* SPDX-License-Identifier: MIT
 * program.h - the files inside the single program, written by carry.lua, and
 * the libraries that it has built in. */
#ifndef NETSECTION_PROGRAM_H
#define NETSECTION_PROGRAM_H

#include "lua/bind.h"

extern const struct nsb_inside program_inside;

/* Inflates a block to its 'size' bytes. @return whether it is whole */
bool program_inflate(const struct nsb_block *block, unsigned char *to);

/* Takes the core for the widest registers that the processor has. All give the
 * same bits; NETSECTION_SET in the environment names a narrower set. */
void program_choose_set(void);

int luaopen_lpeg(lua_State *L);
/* Of lua-zlib and lua-expat what workbooks take. */
int program_open_zlib(lua_State *L);
int program_open_lxp(lua_State *L);

#endif
