/* SPDX-License-Identifier: MIT
 * files_posix.c - files by the calls of POSIX (see files.c). */
#include "lua/posix.h"

#include "lua/files.h"

#ifndef _WIN32

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <unistd.h>
#ifdef __linux__
#include <sys/syscall.h>
#endif

int nsb_file_entries(lua_State *L) {
  const char *path = nsb_path(L, 1);
  if (nsb_push_carried(L, path)) return 1;
  DIR *d = opendir(path);
  if (!d) return nsb_failed(L);
  lua_newtable(L);
  int n = 0;
  for (const struct dirent *e; (e = readdir(d)) != NULL;) {
    if (!strcmp(e->d_name, ".") || !strcmp(e->d_name, "..")) continue;
    lua_pushstring(L, e->d_name);
    lua_rawseti(L, -2, ++n);
  }
  closedir(d);
  return 1;
}

int nsb_file_make_folder(lua_State *L) {
  if (mkdir(nsb_path(L, 1), 0777) != 0) return nsb_failed(L);
  lua_pushboolean(L, 1);
  return 1;
}

int nsb_file_kind(lua_State *L) {
  struct stat s, own;
  if (nsb_is_inside(nsb_path(L, 1))) return nsb_carried_kind(L);
  if (stat(nsb_path(L, 1), &s) != 0) return nsb_failed(L);
  if (lstat(nsb_path(L, 1), &own) != 0) return nsb_failed(L);
  lua_pushstring(L, S_ISREG(s.st_mode)   ? "file"
                    : S_ISDIR(s.st_mode) ? "folder"
                                         : "other");
  lua_pushfstring(L, "%I:%I", (LUAI_UACINT)s.st_dev, (LUAI_UACINT)s.st_ino);
  lua_pushinteger(L, (lua_Integer)s.st_size);
  lua_pushboolean(L, S_ISLNK(own.st_mode));
  return 4;
}

/* The mode and owner that the file of before had; false where they cannot be
 * kept. */
static bool keep(int fd, const struct stat *old) {
  struct stat new_;
  if (fstat(fd, &new_) != 0) return false;
  const bool same = new_.st_uid == old->st_uid && new_.st_gid == old->st_gid;
  if (!same && fchown(fd, old->st_uid, old->st_gid) != 0) return false;
  return fchmod(fd, old->st_mode & 07777) == 0;
}

int nsb_file_beside(lua_State *L) {
  const char *path = nsb_path(L, 1);
  struct stat old;
  char *real = NULL;
  const bool there = stat(path, &old) == 0;
  if (there && !S_ISREG(old.st_mode))
    return nsb_refused(L, S_ISDIR(old.st_mode) ? "it is a folder"
                                               : "it is no regular file");
  if (there && (real = realpath(path, NULL)) == NULL) return nsb_failed(L);
  if (!there && lstat(path, &old) == 0)
    return nsb_refused(L, "it is a link that leads nowhere");
  lua_pushstring(L, real ? real : path);
  free(real);
  const int target = lua_gettop(L);
  for (int k = 0; k < NSB_FILE_TRIES; k++) {
    const char *part = nsb_push_temporary(L, lua_tostring(L, target));
    const int fd =
        open(part, O_CREAT | O_EXCL | O_WRONLY | O_NOFOLLOW | O_CLOEXEC, 0666);
    if (fd < 0 && errno == EEXIST) continue;
    if (fd < 0) return nsb_failed(L);
    if ((there && !keep(fd, &old)) || !nsb_push_handle(L, fd)) {
      close(fd);
      unlink(part);
      return nsb_refused(L, "its owner and mode cannot be kept");
    }
    lua_insert(L, -2);
    lua_pushvalue(L, target);
    return 3;
  }
  return nsb_failed(L);
}

/* Asks the system to keep the names of a folder, too. Some file systems do
 * not know this: no matter. */
static void sync_folder_of(const char *path) {
  char folder[NSB_PATH] = ".";
  const char *end = strrchr(path, '/');
  if (end) {
    const size_t n = end == path ? 1 : (size_t)(end - path);
    memcpy(folder, path, n);
    folder[n] = 0;
  }
  const int fd = open(folder, O_RDONLY | O_CLOEXEC);
  if (fd < 0) return;
  fsync(fd);
  close(fd);
}

int nsb_file_settle(lua_State *L) {
  luaL_Stream *p = luaL_checkudata(L, 1, LUA_FILEHANDLE);
  const char *from = nsb_path(L, 2), *to = nsb_path(L, 3);
  luaL_argcheck(L, p->closef != NULL, 1, "an open file expected");
  FILE *f = p->f;
  bool ok = fflush(f) == 0 && fsync(fileno(f)) == 0;
  const int why = errno;
  p->closef = NULL;
  p->f = NULL;
  const bool shut = fclose(f) == 0;
  if (!ok) errno = why;
  if (!ok || !shut || rename(from, to) != 0) return nsb_failed(L);
  sync_folder_of(to);
  lua_pushboolean(L, 1);
  return 1;
}

int nsb_file_move(lua_State *L) {
  if (rename(nsb_path(L, 1), nsb_path(L, 2)) != 0) return nsb_failed(L);
  lua_pushboolean(L, 1);
  return 1;
}

/* exchange(a, b): the two change places in one step, where the system can. */
int nsb_file_exchange(lua_State *L) {
  const char *a = nsb_path(L, 1), *b = nsb_path(L, 2);
#if defined(__linux__) && defined(SYS_renameat2)
  const int ok = (int)syscall(SYS_renameat2, AT_FDCWD, a, AT_FDCWD, b, 2);
#elif defined(__APPLE__) && defined(RENAME_SWAP)
  const int ok = renamex_np(a, b, RENAME_SWAP);
#else
  const int ok = (errno = ENOSYS, (void)a, (void)b, -1);
#endif
  if (ok != 0) return nsb_failed(L);
  lua_pushboolean(L, 1);
  return 1;
}

/* lock(path) -> a handle that holds the file until it is closed or the process
 * ends, however it ends. */
int nsb_file_lock(lua_State *L) {
  const int fd = open(nsb_path(L, 1), O_RDWR | O_NOFOLLOW | O_CLOEXEC);
  if (fd < 0) return nsb_failed(L);
  if (flock(fd, LOCK_EX | LOCK_NB) != 0 || !nsb_push_handle(L, fd)) {
    const int why = errno;
    close(fd);
    errno = why;
    return nsb_failed(L);
  }
  return 1;
}

int nsb_file_remove(lua_State *L) {
  if (remove(nsb_path(L, 1)) != 0) return nsb_failed(L);
  lua_pushboolean(L, 1);
  return 1;
}

void nsb_push_temporary_root(lua_State *L) {
  const char *root = getenv("TMPDIR");
  lua_pushfstring(L, "%s/", root && root[0] == '/' ? root : "/tmp");
}

bool nsb_new_folder(const char *path, bool open) {
  return mkdir(path, open ? 0777 : 0700) == 0;
}

FILE *nsb_open(const char *path, bool change) {
  return fopen(path, change ? "r+b" : "rb");
}

#else
typedef int nsb_no_posix_here; /* a file of C holds something */
#endif
