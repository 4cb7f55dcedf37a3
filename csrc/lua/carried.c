/* SPDX-License-Identifier: MIT
 * carried.c - files that stand in the program itself instead of on a disk:
 * paths that begin with "inside:/". A module that is loaded by an interpreter
 * carries none. */
#include <string.h>

#include "lua/bind.h"

#define INSIDE "inside:/"

static const struct nsb_carried *list; /* in the order of their names */
static int count;

void nsb_carry(const struct nsb_carried *files, int n) {
  list = files;
  count = n;
}

/* The name within the program that a path has; NULL for one on the disk. */
static const char *inside(const char *path) {
  const size_t n = sizeof INSIDE - 1;
  if (count == 0 || strncmp(path, INSIDE, n) != 0) return NULL;
  return path + n;
}

/* The place of the first name that is not before this one. */
static int place_of(const char *name, size_t n) {
  int low = 0, high = count;
  while (low < high) {
    const int mid = (low + high) / 2;
    if (strncmp(list[mid].name, name, n) < 0)
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
  const int k = place_of(name, strlen(name) + 1);
  return k < count && !strcmp(list[k].name, name) ? &list[k] : NULL;
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
  for (int k = place_of(head, n); k < count; k++) {
    if (strncmp(list[k].name, head, n) != 0) break;
    const char *entry = list[k].name + n;
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
