/* SPDX-License-Identifier: MIT
 * files.c - what Lua's own library lacks for files: folders, kinds of
 * files, a file made beside the one it will replace, and putting it there.
 *
 * Nothing passes through a shell. A file that exists is never opened for
 * writing: the new one is made under a name of ours in the same folder,
 * without following links, and takes the place in one step. */
#if defined(__APPLE__)
#define _DARWIN_C_SOURCE
#elif !defined(_WIN32)
#define _GNU_SOURCE
#endif

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <time.h>

#ifdef _WIN32
#include <direct.h>
#include <io.h>
#include <windows.h>
#else
#include <dirent.h>
#include <limits.h>
#include <sys/file.h>
#include <unistd.h>
#endif
#ifdef __linux__
#include <sys/syscall.h>
#endif

#include "lua/bind.h"

/* Begins every name that is ours for the time being. */
#define NSB_TEMPORARY ".netsection-"
enum { NSB_TRIES = 64, NSB_PATH = 4096 };

/* nil and what the system says. */
static int refused(lua_State *L, const char *why) {
  lua_pushnil(L);
  lua_pushstring(L, why);
  return 2;
}

static int failed(lua_State *L) { return refused(L, strerror(errno)); }

/* A path without a NUL in it; raises for anything else. */
static const char *path_of(lua_State *L, int index) {
  size_t n = 0;
  const char *path = luaL_checklstring(L, index, &n);
  luaL_argcheck(L, n > 0 && strlen(path) == n, index,
                "a path without a NUL expected");
  luaL_argcheck(L, n < NSB_PATH, index, "a path of under 4096 bytes expected");
  return path;
}

/* A number that two processes, or two calls of one, do not share. */
static unsigned long long fresh(void) {
  static unsigned long long calls;
  struct timespec t = {0};
  timespec_get(&t, TIME_UTC);
#ifdef _WIN32
  const unsigned long long process = GetCurrentProcessId();
#else
  const unsigned long long process = (unsigned long long)getpid();
#endif
  unsigned long long z = process << 40 ^ (unsigned long long)t.tv_sec << 20 ^
                         (unsigned long long)t.tv_nsec;
  z += ++calls * 0x9E3779B97F4A7C15ull;
  z = (z ^ z >> 30) * 0xBF58476D1CE4E5B9ull;
  z = (z ^ z >> 27) * 0x94D049BB133111EBull;
  return z ^ z >> 31;
}

/* Pushes a name of ours in the folder of a path. */
static const char *push_temporary(lua_State *L, const char *path) {
  size_t n = strlen(path);
  while (n > 0 && path[n - 1] != '/' && path[n - 1] != '\\') n--;
#ifndef _WIN32
  while (n > 0 && path[n - 1] != '/') n--;
#endif
  lua_pushlstring(L, path, n);
  char name[40];
  snprintf(name, sizeof name, NSB_TEMPORARY "%016llx.part", fresh());
  lua_pushstring(L, name);
  lua_concat(L, 2);
  return lua_tostring(L, -1);
}

static int closed(lua_State *L) {
  luaL_Stream *p = luaL_checkudata(L, 1, LUA_FILEHANDLE);
  FILE *f = p->f;
  p->f = NULL;
  return luaL_fileresult(L, f == NULL || fclose(f) == 0, NULL);
}

/* A handle of Lua's own kind on a descriptor. */
static int push_handle(lua_State *L, int fd) {
  luaL_Stream *p = lua_newuserdatauv(L, sizeof *p, 0);
  p->closef = NULL;
  luaL_setmetatable(L, LUA_FILEHANDLE);
#ifdef _WIN32
  p->f = _fdopen(fd, "wb");
#else
  p->f = fdopen(fd, "wb");
#endif
  p->closef = closed;
  return p->f != NULL;
}

#ifdef _WIN32

static wchar_t *wide(const char *text, wchar_t *to) {
  return MultiByteToWideChar(CP_UTF8, 0, text, -1, to, NSB_PATH) ? to : NULL;
}

static int system_failed(lua_State *L) {
  char text[256] = "refused by the system";
  FormatMessageA(FORMAT_MESSAGE_FROM_SYSTEM | FORMAT_MESSAGE_IGNORE_INSERTS,
                 NULL, GetLastError(), 0, text, sizeof text, NULL);
  text[strcspn(text, "\r\n")] = 0;
  return refused(L, GetLastError() == ERROR_SHARING_VIOLATION
                        ? "it is open in another program"
                        : text);
}

/* entries(path) -> names in a folder, or nil and why. */
static int core_entries(lua_State *L) {
  wchar_t pattern[NSB_PATH + 3];
  if (!wide(path_of(L, 1), pattern)) return system_failed(L);
  wcscat(pattern, L"\\*");
  WIN32_FIND_DATAW one;
  HANDLE h = FindFirstFileW(pattern, &one);
  if (h == INVALID_HANDLE_VALUE) return system_failed(L);
  lua_newtable(L);
  int n = 0;
  do {
    char name[4 * MAX_PATH];
    if (!wcscmp(one.cFileName, L".") || !wcscmp(one.cFileName, L"..")) continue;
    if (!WideCharToMultiByte(CP_UTF8, 0, one.cFileName, -1, name, sizeof name,
                             NULL, NULL))
      continue;
    lua_pushstring(L, name);
    lua_rawseti(L, -2, ++n);
  } while (FindNextFileW(h, &one));
  FindClose(h);
  return 1;
}

/* make_folder(path) -> true, or nil and why. */
static int core_make_folder(lua_State *L) {
  wchar_t path[NSB_PATH];
  if (!wide(path_of(L, 1), path) || !CreateDirectoryW(path, NULL))
    return system_failed(L);
  lua_pushboolean(L, 1);
  return 1;
}

/* kind(path) -> "file", "folder" or "other", or nil and why. */
static int core_kind(lua_State *L) {
  wchar_t path[NSB_PATH];
  if (!wide(path_of(L, 1), path)) return system_failed(L);
  HANDLE h = CreateFileW(path, 0, 7, NULL, OPEN_EXISTING,
                         FILE_FLAG_BACKUP_SEMANTICS, NULL);
  if (h == INVALID_HANDLE_VALUE) return system_failed(L);
  BY_HANDLE_FILE_INFORMATION f;
  const bool ok = GetFileInformationByHandle(h, &f);
  const bool disk = GetFileType(h) == FILE_TYPE_DISK;
  CloseHandle(h);
  if (!ok) return system_failed(L);
  const bool folder = f.dwFileAttributes & FILE_ATTRIBUTE_DIRECTORY;
  lua_pushstring(L, folder ? "folder" : disk ? "file" : "other");
  lua_pushfstring(L, "%d:%d:%d", (int)f.dwVolumeSerialNumber,
                  (int)f.nFileIndexHigh, (int)f.nFileIndexLow);
  lua_pushinteger(L, (lua_Integer)f.nFileSizeHigh << 32 | f.nFileSizeLow);
  const DWORD own = GetFileAttributesW(path);
  lua_pushboolean(L, own != INVALID_FILE_ATTRIBUTES &&
                         own & FILE_ATTRIBUTE_REPARSE_POINT);
  return 4;
}

/* beside(path) -> a new open file beside it, its name, the path it is for. */
static int core_beside(lua_State *L) {
  const char *path = path_of(L, 1);
  wchar_t to[NSB_PATH];
  if (!wide(path, to)) return system_failed(L);
  const DWORD is = GetFileAttributesW(to);
  if (is != INVALID_FILE_ATTRIBUTES && is & FILE_ATTRIBUTE_DIRECTORY)
    return refused(L, "it is a folder");
  for (int k = 0; k < NSB_TRIES; k++) {
    wchar_t part[NSB_PATH];
    if (!wide(push_temporary(L, path), part)) return system_failed(L);
    const int fd = _wopen(part, _O_CREAT | _O_EXCL | _O_WRONLY | _O_BINARY,
                          _S_IREAD | _S_IWRITE);
    if (fd >= 0 && push_handle(L, fd)) {
      lua_insert(L, -2);
      lua_pushstring(L, path);
      return 3;
    }
    if (errno != EEXIST) return failed(L);
  }
  return failed(L);
}

/* settle(file, from, to): written to disk and put in its place. */
static int core_settle(lua_State *L) {
  luaL_Stream *p = luaL_checkudata(L, 1, LUA_FILEHANDLE);
  wchar_t from[NSB_PATH], to[NSB_PATH];
  luaL_argcheck(L, p->closef != NULL, 1, "an open file expected");
  if (!wide(path_of(L, 2), from) || !wide(path_of(L, 3), to))
    return system_failed(L);
  FILE *f = p->f;
  bool ok = fflush(f) == 0 && _commit(_fileno(f)) == 0;
  p->closef = NULL;
  p->f = NULL;
  ok = (fclose(f) == 0) & ok;
  if (!ok) return failed(L);
  if (!MoveFileExW(from, to, MOVEFILE_REPLACE_EXISTING))
    return system_failed(L);
  lua_pushboolean(L, 1);
  return 1;
}

/* move(from, to) -> true, or nil and why. */
static int core_move(lua_State *L) {
  wchar_t from[NSB_PATH], to[NSB_PATH];
  if (!wide(path_of(L, 1), from) || !wide(path_of(L, 2), to) ||
      !MoveFileExW(from, to, 0))
    return system_failed(L);
  lua_pushboolean(L, 1);
  return 1;
}

static int core_exchange(lua_State *L) {
  path_of(L, 1);
  path_of(L, 2);
  return refused(L, "not on this system");
}

static int core_lock(lua_State *L) {
  path_of(L, 1);
  return refused(L, "not on this system");
}

/* remove(path) -> true, or nil and why. */
static int core_remove(lua_State *L) {
  wchar_t path[NSB_PATH];
  if (!wide(path_of(L, 1), path)) return system_failed(L);
  if (!DeleteFileW(path) && !RemoveDirectoryW(path)) return system_failed(L);
  lua_pushboolean(L, 1);
  return 1;
}

/* Folder for temporary files. */
static const char *temporary_root(void) {
  const char *root = getenv("TEMP");
  return root ? root : ".";
}

#else

/* entries(path) -> names in a folder, or nil and why. */
static int core_entries(lua_State *L) {
  DIR *d = opendir(path_of(L, 1));
  if (!d) return failed(L);
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

/* make_folder(path) -> true, or nil and why. */
static int core_make_folder(lua_State *L) {
  if (mkdir(path_of(L, 1), 0777) != 0) return failed(L);
  lua_pushboolean(L, 1);
  return 1;
}

/* kind(path) -> "file", "folder" or "other", or nil and why. */
static int core_kind(lua_State *L) {
  struct stat s, own;
  if (stat(path_of(L, 1), &s) != 0) return failed(L);
  if (lstat(path_of(L, 1), &own) != 0) return failed(L);
  lua_pushstring(L, S_ISREG(s.st_mode) ? "file"
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

/* beside(path) -> a new open file beside it, its name, the path it is for. */
static int core_beside(lua_State *L) {
  const char *path = path_of(L, 1);
  struct stat old;
  char *real = NULL;
  const bool there = stat(path, &old) == 0;
  if (there && !S_ISREG(old.st_mode))
    return refused(L, S_ISDIR(old.st_mode) ? "it is a folder"
                                           : "it is no regular file");
  if (there && (real = realpath(path, NULL)) == NULL) return failed(L);
  if (!there && lstat(path, &old) == 0)
    return refused(L, "it is a link that leads nowhere");
  lua_pushstring(L, real ? real : path);
  free(real);
  const int target = lua_gettop(L);
  for (int k = 0; k < NSB_TRIES; k++) {
    const char *part = push_temporary(L, lua_tostring(L, target));
    const int fd =
        open(part, O_CREAT | O_EXCL | O_WRONLY | O_NOFOLLOW | O_CLOEXEC, 0666);
    if (fd < 0 && errno == EEXIST) continue;
    if (fd < 0) return failed(L);
    if ((there && !keep(fd, &old)) || !push_handle(L, fd)) {
      close(fd);
      unlink(part);
      return refused(L, "its owner and mode cannot be kept");
    }
    lua_insert(L, -2);
    lua_pushvalue(L, target);
    return 3;
  }
  return failed(L);
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

/* settle(file, from, to): written to disk and put in its place. */
static int core_settle(lua_State *L) {
  luaL_Stream *p = luaL_checkudata(L, 1, LUA_FILEHANDLE);
  const char *from = path_of(L, 2), *to = path_of(L, 3);
  luaL_argcheck(L, p->closef != NULL, 1, "an open file expected");
  FILE *f = p->f;
  bool ok = fflush(f) == 0 && fsync(fileno(f)) == 0;
  const int why = errno;
  p->closef = NULL;
  p->f = NULL;
  const bool shut = fclose(f) == 0;
  if (!ok) errno = why;
  if (!ok || !shut || rename(from, to) != 0) return failed(L);
  sync_folder_of(to);
  lua_pushboolean(L, 1);
  return 1;
}

/* move(from, to) -> true, or nil and why. */
static int core_move(lua_State *L) {
  if (rename(path_of(L, 1), path_of(L, 2)) != 0) return failed(L);
  lua_pushboolean(L, 1);
  return 1;
}

/* exchange(a, b): the two change places in one step, where the system can. */
static int core_exchange(lua_State *L) {
  const char *a = path_of(L, 1), *b = path_of(L, 2);
#if defined(__linux__) && defined(SYS_renameat2)
  const int ok = (int)syscall(SYS_renameat2, AT_FDCWD, a, AT_FDCWD, b, 2);
#elif defined(__APPLE__) && defined(RENAME_SWAP)
  const int ok = renamex_np(a, b, RENAME_SWAP);
#else
  const int ok = (errno = ENOSYS, (void)a, (void)b, -1);
#endif
  if (ok != 0) return failed(L);
  lua_pushboolean(L, 1);
  return 1;
}

/* lock(path) -> a handle that holds the file until it is closed or the process
 * ends, however it ends. */
static int core_lock(lua_State *L) {
  const int fd = open(path_of(L, 1), O_RDWR | O_NOFOLLOW | O_CLOEXEC);
  if (fd < 0) return failed(L);
  if (flock(fd, LOCK_EX | LOCK_NB) != 0 || !push_handle(L, fd)) {
    const int why = errno;
    close(fd);
    errno = why;
    return failed(L);
  }
  return 1;
}

/* remove(path) -> true, or nil and why. */
static int core_remove(lua_State *L) {
  if (remove(path_of(L, 1)) != 0) return failed(L);
  lua_pushboolean(L, 1);
  return 1;
}

/* Folder for temporary files. */
static const char *temporary_root(void) {
  const char *root = getenv("TMPDIR");
  return root && root[0] == '/' ? root : "/tmp";
}

#endif

/* A new folder of ours beside a path, with the mode given. */
static int new_folder(lua_State *L, const char *path, unsigned mode) {
  for (int k = 0; k < NSB_TRIES; k++) {
    const char *name = push_temporary(L, path);
#ifdef _WIN32
    (void)mode;
    if (_mkdir(name) == 0) return 1;
#else
    if (mkdir(name, (mode_t)mode) == 0) return 1;
#endif
    if (errno != EEXIST) return failed(L);
    lua_pop(L, 1);
  }
  return failed(L);
}

/* private_folder() -> a new folder of ours that others cannot look into. */
static int core_private_folder(lua_State *L) {
  const char *root = lua_pushfstring(L, "%s/", temporary_root());
  return new_folder(L, root, 0700);
}

/* folder_beside(path) -> a new folder of ours in the folder of a path. */
static int core_folder_beside(lua_State *L) {
  return new_folder(L, path_of(L, 1), 0777);
}

static const luaL_Reg functions[] = {{"entries", core_entries},
                                     {"make_folder", core_make_folder},
                                     {"kind", core_kind},
                                     {"beside", core_beside},
                                     {"settle", core_settle},
                                     {"move", core_move},
                                     {"exchange", core_exchange},
                                     {"lock", core_lock},
                                     {"remove", core_remove},
                                     {"private_folder", core_private_folder},
                                     {"folder_beside", core_folder_beside},
                                     {NULL, NULL}};

/* entries(path) -> names; make_folder(path) -> true; kind(path) -> "file",
 * "folder" or "other", what tells it from others, its size; beside(path) ->
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
