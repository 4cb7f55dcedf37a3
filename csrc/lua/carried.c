/* SPDX-License-Identifier: MIT
 * carried.c - files that stand in the program itself instead of on a disk:
 * paths that begin with "inside:/". A module that is loaded by an interpreter
 * carries none. A block of files is inflated when the first of them is read,
 * and kept; what it says of its size is held to a bound. */
#include <stdlib.h>
#include <string.h>

#include "lua/bind.h"

#define INSIDE "inside:/"

enum { MOST_BLOCKS = 256, LARGEST_BLOCK = 1 << 20 };

static struct nsb_inside all;
static unsigned char *inflated[MOST_BLOCKS];

void nsb_carry(const struct nsb_inside *inside) { all = *inside; }

/* The name within the program that a path has; NULL for one on the disk. */
static const char *inside(const char *path) {
  const size_t n = sizeof INSIDE - 1;
  if (all.count == 0 || strncmp(path, INSIDE, n) != 0) return NULL;
  return path + n;
}

/* The place of the first name that is not before this one. */
static unsigned place_of(const char *name, size_t n) {
  unsigned low = 0, high = all.count;
  while (low < high) {
    const unsigned mid = (low + high) / 2;
    if (strncmp(all.files[mid].name, name, n) < 0)
      low = mid + 1;
    else
      high = mid;
  }
  return low;
}

bool nsb_is_inside(const char *path) { return inside(path) != NULL; }

const struct nsb_carried *nsb_carried_file(const char *path) {
  const char *name = inside(path);
  if (!name) return NULL;
  const unsigned k = place_of(name, strlen(name) + 1);
  return k < all.count && !strcmp(all.files[k].name, name) ? &all.files[k]
                                                           : NULL;
}

/* The bytes of a block; NULL, with a reason, where they are not there. */
static const unsigned char *bytes_of(unsigned k, const char **why) {
  if (k >= all.block_count || k >= MOST_BLOCKS ||
      all.blocks[k].size > LARGEST_BLOCK) {
    *why = "the list of files in the program is damaged";
    return NULL;
  }
  if (inflated[k]) return inflated[k];
  unsigned char *to = malloc(all.blocks[k].size + 1);
  if (!to) {
    *why = "not enough memory";
  } else if (!all.inflate(&all.blocks[k], to)) {
    *why = "the files in the program are damaged: get another copy of it";
    free(to);
    to = NULL;
  }
  return inflated[k] = to;
}

const char *nsb_carried_text(const struct nsb_carried *f, const char **why) {
  const unsigned char *block = bytes_of(f->block, why);
  if (!block) return NULL;
  const unsigned size = all.blocks[f->block].size;
  if (f->at <= size && f->size <= size - f->at)
    return (const char *)block + f->at;
  *why = "the list of files in the program is damaged";
  return NULL;
}

/* Pushes the names in a folder, "a" for "a.lua" as little as for "a/b/c".
 * @return whether there is such a folder */
bool nsb_push_carried(lua_State *L, const char *path) {
  const char *name = inside(path);
  char head[256];
  size_t n = name ? strlen(name) : 0;
  while (n > 0 && name[n - 1] == '/') n--;
  if (!name || n + 2 > sizeof head) return false;
  memcpy(head, name, n);
  if (n > 0) head[n++] = '/';
  lua_newtable(L);
  int found = 0;
  const char *last = "";
  size_t length = 0;
  for (unsigned k = place_of(head, n); k < all.count; k++) {
    if (strncmp(all.files[k].name, head, n) != 0) break;
    const char *entry = all.files[k].name + n;
    const size_t size = strcspn(entry, "/");
    if (found > 0 && size == length && !strncmp(entry, last, size)) continue;
    last = entry;
    length = size;
    lua_pushlstring(L, entry, size);
    lua_rawseti(L, -2, ++found);
  }
  if (found == 0) lua_pop(L, 1);
  return found > 0;
}
