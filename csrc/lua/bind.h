/* SPDX-License-Identifier: MIT
 * bind.h - reading tables into the core's structs, with the path of
 * whatever is wrong in the message. */
#ifndef NETSECTION_LUA_BIND_H
#define NETSECTION_LUA_BIND_H

#include <lauxlib.h>
#include <lua.h>
#include <math.h>

#include "netsection.h"
#include "sweep/sweep.h"

/* Everything a block of reviews is worked with: large, one for the module, an
 * upvalue of the functions that use it. No Lua code runs while it is in use. */
struct nsb_workspace {
  struct ns_shape shape;
  struct ns_standard standard;
  _Alignas(NS_CACHE_LINE) struct ns_block block;
  _Alignas(NS_CACHE_LINE) struct ns_result result;
  _Alignas(NS_CACHE_LINE) double work[]; /* struct ns_work */
};
void nsb_push_workspace(lua_State *L);
/* It begins at the first cache line of its memory: calloc aligns by less. */
struct nsb_workspace *nsb_the_workspace(lua_State *L);
struct ns_work *nsb_work(struct nsb_workspace *workspace);

/* A joist as the core reads it, outside any block: core.packed(model). */
struct nsb_packed {
  struct ns_shape shape;
  double row[NS_BLOCK_ROWS];
};
/* Puts a joist into a lane of the workspace, and its topology on the workspace.
 */
void nsb_unpack(struct nsb_workspace *workspace,
                const struct nsb_packed *packed, int lane, bool shape);
bool nsb_alike(const struct nsb_workspace *workspace,
               const struct nsb_packed *packed);
void nsb_copy_lane(struct ns_block *block, int to, int from);

/* Columns: of numbers, NaN where there is none, and of faults (sweep.h). */
struct nsb_numbers {
  lua_Integer n;
  int64_t id; /* in what is noted (noting.h), 0: none */
  double v[];
};
struct nsb_faults {
  lua_Integer n;
  uint32_t v[];
};

/* Names of metatables. */
#define NSB_NUMBERS "netsection.numbers"
#define NSB_FAULTS "netsection.faults"
#define NSB_PACKED "netsection.packed"
#define NSB_LANED "netsection.lanes"
#define NSB_REVIEW "netsection.review"
#define NSB_TRACE "netsection.trace"
#define NSB_RULES "netsection.rules"
#define NSB_STANDARD "netsection.standard"

/* As the fallback of nsb_number: the field is required. A double, which the
 * macro of math.h is not everywhere. */
#define NSB_REQUIRED ((double)NAN)

/* What is on top as a text for a message, in its place: bytes that a terminal
 * would not print are question marks. */
const char *nsb_shown(lua_State *L);
/* Pushes field 'name' of the table at 'index'; its type. Like all reading here
 * it asks no metamethod: no code of a caller runs while a table is read. */
int nsb_get(lua_State *L, int index, const char *name);
/* Pushes a copy of the table at 'index', with copies of the tables in it down
 * to 'depth': what is only pointed to then stays, whatever a caller's code does
 * to its own tables. */
void nsb_plain(lua_State *L, int index, int depth);

/* A number as text with a point whatever the locale, pushed. */
const char *nsb_text(lua_State *L, double v);

/* Number in field 'name' of the table at 'index'; 'otherwise' where absent,
 * an error where that is NSB_REQUIRED. */
double nsb_number(lua_State *L, int index, const char *path, const char *name,
                  double otherwise);
/* A number that is neither NaN nor infinity. */
double nsb_finite(lua_State *L, int index, const char *path, const char *name,
                  double otherwise);
/* Pushes item n of the list on top, which must be a table; its index. */
int nsb_item(lua_State *L, const char *path, int n);
bool nsb_flag(lua_State *L, int index, const char *name);
/* Raises for a field of the table at 'index' that 'names', which ends with
 * NULL, does not have. */
void nsb_only(lua_State *L, int index, const char *path,
              const char *const *names);
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
/* Fills every lane of a block with the first, so that none is left unset. */
void nsb_spread(struct ns_block *block, const struct ns_shape *shape);
void nsb_rules(lua_State *L, int index, struct ns_rules *rules);
void nsb_standard(lua_State *L, int index, struct ns_standard *standard);
/* Pushes what is wrong: {text =, cut =, line =, point =, field =, low =, high
 * =, unit =} from a status, a part and a row (see ns_result). */
void nsb_push_fault(lua_State *L, int status, int part, int row);
/* Pushes the summary of one lane: states with their checks, rule items, cuts.
 */
void nsb_push_summary(lua_State *L, const struct ns_shape *shape,
                      const struct ns_result *result, int lane);
/* Pushes an empty check of a connection with the mode and the branch that the
 * table at 1 names. */
struct ns_check *nsb_new_joint(lua_State *L);
/* A row of a struct of results by name; whole: it is pushed as an integer. */
struct nsb_named {
  const char *name;
  size_t offset;
  bool whole;
};
/* Ended by a row without a name. */
extern const struct nsb_named nsb_state_rows[], nsb_cut_rows[], nsb_fix_rows[];
/* Pushes a column of n lanes that calculates (see columns.c). */
struct nsb_numbers *nsb_lanes(lua_State *L, lua_Integer n);
void nsb_push_check(lua_State *L, const struct ns_check *check, int index,
                    int lane);
/* Row of a block that a path such as "cuts.1.depth" names, or null. */
double *nsb_row(struct ns_block *block, const struct ns_shape *shape,
                const char *path);
int nsb_open_beam(lua_State *L);
/* With the module on top of the stack and the workspace under it. */
int nsb_open_sweep(lua_State *L);
/* Room for threads, kept between calls and made larger where it has to be; a
 * call from within another's progress gets its own. On the stack. */
struct nsb_room {
  bool busy;
  double bytes[];
};
struct nsb_room *nsb_room_for(lua_State *L, size_t bytes);
int nsb_open_csv(lua_State *L);
int nsb_open_files(lua_State *L);
int nsb_open_system(lua_State *L);
/* Seconds from some moment on, of the wall. */
double nsb_now(void);

/* Files that a program has inside (see carried.c), several in a block of bytes,
 * which is deflated (RFC 1951). */
struct nsb_block {
  const unsigned char *bytes;
  unsigned packed, size, sum; /* bytes, bytes inflated, their CRC-32 */
};
struct nsb_carried {
  const char *name; /* below "inside:/" */
  unsigned block, at, size;
};
struct nsb_inside {
  const struct nsb_carried *files; /* sorted by their names */
  const struct nsb_block *blocks;
  unsigned count, block_count;
  /* Inflates a block to its 'size' bytes. @return whether it is whole */
  bool (*inflate)(const struct nsb_block *block, unsigned char *to);
};
/* Hands over the files of a program. */
void nsb_carry(const struct nsb_inside *all);
bool nsb_is_inside(const char *path);
const struct nsb_carried *nsb_carried_file(const char *path);
/* The bytes of one; NULL, with a reason, where its block is damaged. */
const char *nsb_carried_text(const struct nsb_carried *f, const char **why);
bool nsb_push_carried(lua_State *L, const char *path);

int nsb_open_run(lua_State *L);

/* Starts a program in a group of its own, without input, its words to the file
 * 'out', 'line' as its descriptors 3 and 4 (-1: none); 0, or errno. Not on
 * Windows. */
int nsb_spawn(char **word, const char *out, int line, int *pid);

int nsb_open_talk(lua_State *L);
int nsb_open_dowel(lua_State *L);
int nsb_open_end_sister(lua_State *L);
int nsb_open_grid(lua_State *L);
int nsb_open_odds(lua_State *L);
int nsb_open_stream(lua_State *L);
int nsb_open_npy(lua_State *L);
int nsb_open_columns(lua_State *L);
/* With the module on top of the stack and the workspace under it. */
int nsb_open_kept(lua_State *L);
int nsb_open_noting(lua_State *L);

#endif
