/* SPDX-License-Identifier: MIT
 * wide.h - read before each file of Lua's own sources where they are compiled
 * for Windows: names of files, programs and variables are UTF-8 there, too. */
#ifndef NETSECTION_PROGRAM_WIDE_H
#define NETSECTION_PROGRAM_WIDE_H

#include <stdio.h>
#include <stdlib.h>

FILE *wide_fopen(const char *path, const char *mode);
FILE *wide_freopen(const char *path, const char *mode, FILE *f);
FILE *wide_popen(const char *command, const char *mode);
FILE *wide_tmpfile(void);
int wide_remove(const char *path);
int wide_rename(const char *from, const char *to);
int wide_system(const char *command);
char *wide_getenv(const char *name);
/* @return whether 'to', of so many bytes, holds the name of a new file */
int wide_tmpnam(char *to, int room);

#ifndef NETSECTION_WIDE_C /* which calls the system's own */
#define fopen wide_fopen
#define freopen wide_freopen
#define _popen wide_popen
#define tmpfile wide_tmpfile
#define remove wide_remove
#define rename wide_rename
#define system wide_system
#define getenv wide_getenv
#endif

/* Lua's own names for what it asks of a system (loslib.c). */
#define LUA_TMPNAMBUFSIZE 1100
#define lua_tmpnam(to, failed) ((failed) = !wide_tmpnam(to, LUA_TMPNAMBUFSIZE))

#endif
