/* SPDX-License-Identifier: MIT
 * files_windows.c - files by the calls of Windows (see files.c). */
#include "lua/files.h"

#ifdef _WIN32

#include <errno.h>
#include <fcntl.h>
#include <io.h>
#include <sys/stat.h>

#include "lua/windows.h"

enum { NSB_SHARE_ALL = FILE_SHARE_READ | FILE_SHARE_WRITE | FILE_SHARE_DELETE };

static wchar_t *path_wide(const char *text, wchar_t *to) {
  return nsb_wide(text, to, NSB_PATH);
}

/* nil and words for an error of the system. */
static int told(lua_State *L, DWORD code) {
  wchar_t text[256];
  char said[1024];
  if (code == ERROR_SHARING_VIOLATION || code == ERROR_LOCK_VIOLATION)
    return nsb_refused(L, "it is open in another program");
  if (code == ERROR_FILE_NOT_FOUND || code == ERROR_PATH_NOT_FOUND)
    return nsb_refused(L, "No such file or directory");
  if (!FormatMessageW(FORMAT_MESSAGE_FROM_SYSTEM |
                          FORMAT_MESSAGE_IGNORE_INSERTS,
                      NULL, code, 0, text, 256, NULL) ||
      !nsb_narrow(text, said, sizeof said))
    return nsb_refused(L, "refused by the system");
  for (char *c = said; *c; c++)
    if (*c == '\r' || *c == '\n') *c = 0;
  return nsb_refused(L, said);
}

static int system_failed(lua_State *L) { return told(L, GetLastError()); }

/* Of a file that is replaced or moved: Windows says "access is denied" of one
 * that another program has open. */
static int move_failed(lua_State *L) {
  const DWORD code = GetLastError();
  if (code == ERROR_ACCESS_DENIED)
    return nsb_refused(L, "it is open in another program, or protected");
  return told(L, code);
}

static int yes(lua_State *L) {
  lua_pushboolean(L, 1);
  return 1;
}

int nsb_file_entries(lua_State *L) {
  wchar_t pattern[NSB_PATH + 3];
  if (nsb_push_carried(L, nsb_path(L, 1))) return 1;
  if (!path_wide(nsb_path(L, 1), pattern)) return system_failed(L);
  wcscat(pattern, L"\\*");
  WIN32_FIND_DATAW one;
  HANDLE h = FindFirstFileW(pattern, &one);
  if (h == INVALID_HANDLE_VALUE) return system_failed(L);
  lua_newtable(L);
  int n = 0;
  do {
    char name[4 * MAX_PATH];
    if (!wcscmp(one.cFileName, L".") || !wcscmp(one.cFileName, L"..")) continue;
    if (!nsb_narrow(one.cFileName, name, sizeof name)) continue;
    lua_pushstring(L, name);
    lua_rawseti(L, -2, ++n);
  } while (FindNextFileW(h, &one));
  FindClose(h);
  return 1;
}

int nsb_file_make_folder(lua_State *L) {
  wchar_t path[NSB_PATH];
  if (!path_wide(nsb_path(L, 1), path) || !CreateDirectoryW(path, NULL))
    return system_failed(L);
  return yes(L);
}

int nsb_file_kind(lua_State *L) {
  wchar_t path[NSB_PATH];
  if (nsb_is_inside(nsb_path(L, 1))) return nsb_carried_kind(L);
  if (!path_wide(nsb_path(L, 1), path)) return system_failed(L);
  HANDLE h = CreateFileW(path, 0, NSB_SHARE_ALL, NULL, OPEN_EXISTING,
                         FILE_FLAG_BACKUP_SEMANTICS, NULL);
  if (h == INVALID_HANDLE_VALUE) return system_failed(L);
  BY_HANDLE_FILE_INFORMATION f = {0};
  const bool disk = GetFileType(h) == FILE_TYPE_DISK;
  const bool ok = !disk || GetFileInformationByHandle(h, &f);
  const DWORD why = GetLastError();
  CloseHandle(h);
  if (!ok) return told(L, why);
  const bool folder = f.dwFileAttributes & FILE_ATTRIBUTE_DIRECTORY;
  lua_pushstring(L, folder ? "folder" : disk ? "file" : "other");
  lua_pushfstring(L, "%I:%I:%I", (LUAI_UACINT)f.dwVolumeSerialNumber,
                  (LUAI_UACINT)f.nFileIndexHigh, (LUAI_UACINT)f.nFileIndexLow);
  lua_pushinteger(L, (lua_Integer)f.nFileSizeHigh << 32 | f.nFileSizeLow);
  const DWORD own = GetFileAttributesW(path);
  lua_pushboolean(L, own != INVALID_FILE_ATTRIBUTES &&
                         own & FILE_ATTRIBUTE_REPARSE_POINT);
  return 4;
}

/* Why a path takes no file, or NULL. */
static const char *no_file(const wchar_t *path) {
  const DWORD is = GetFileAttributesW(path);
  if (is != INVALID_FILE_ATTRIBUTES && is & FILE_ATTRIBUTE_DIRECTORY)
    return "it is a folder";
  HANDLE h = CreateFileW(path, 0, NSB_SHARE_ALL, NULL, OPEN_EXISTING, 0, NULL);
  if (h == INVALID_HANDLE_VALUE) return NULL;
  const bool disk = GetFileType(h) == FILE_TYPE_DISK;
  CloseHandle(h);
  return disk ? NULL : "it is no regular file";
}

int nsb_file_beside(lua_State *L) {
  const char *path = nsb_path(L, 1);
  wchar_t to[NSB_PATH];
  if (!path_wide(path, to)) return system_failed(L);
  const char *why = no_file(to);
  if (why) return nsb_refused(L, why);
  for (int k = 0; k < NSB_FILE_TRIES; k++) {
    wchar_t part[NSB_PATH];
    if (!path_wide(nsb_push_temporary(L, path), part)) return system_failed(L);
    const int fd =
        _wopen(part, _O_CREAT | _O_EXCL | _O_WRONLY | _O_BINARY | _O_NOINHERIT,
               _S_IREAD | _S_IWRITE);
    if (fd >= 0 && nsb_push_handle(L, fd)) {
      lua_insert(L, -2);
      lua_pushstring(L, path);
      return 3;
    }
    if (errno != EEXIST) return nsb_failed(L);
  }
  return nsb_failed(L);
}

int nsb_file_settle(lua_State *L) {
  luaL_Stream *p = luaL_checkudata(L, 1, LUA_FILEHANDLE);
  wchar_t from[NSB_PATH], to[NSB_PATH];
  luaL_argcheck(L, p->closef != NULL, 1, "an open file expected");
  if (!path_wide(nsb_path(L, 2), from) || !path_wide(nsb_path(L, 3), to))
    return system_failed(L);
  FILE *f = p->f;
  const bool ok = fflush(f) == 0 && _commit(_fileno(f)) == 0;
  const int why = errno;
  p->closef = NULL;
  p->f = NULL;
  const bool shut = fclose(f) == 0;
  if (!ok) errno = why;
  if (!ok || !shut) return nsb_failed(L);
  if (!MoveFileExW(from, to, MOVEFILE_REPLACE_EXISTING)) return move_failed(L);
  return yes(L);
}

int nsb_file_move(lua_State *L) {
  wchar_t from[NSB_PATH], to[NSB_PATH];
  if (!path_wide(nsb_path(L, 1), from) || !path_wide(nsb_path(L, 2), to))
    return system_failed(L);
  if (!MoveFileExW(from, to, 0)) return move_failed(L);
  return yes(L);
}

int nsb_file_exchange(lua_State *L) {
  nsb_path(L, 1);
  nsb_path(L, 2);
  return nsb_refused(L, "not on this system");
}

/* lock(path) -> a handle that holds the file until it is closed or the process
 * ends: nobody else can open it to write, but it can be deleted. */
int nsb_file_lock(lua_State *L) {
  wchar_t path[NSB_PATH];
  if (!path_wide(nsb_path(L, 1), path)) return system_failed(L);
  HANDLE h = CreateFileW(path, GENERIC_READ | GENERIC_WRITE,
                         FILE_SHARE_READ | FILE_SHARE_DELETE, NULL,
                         OPEN_EXISTING, FILE_ATTRIBUTE_NORMAL, NULL);
  if (h == INVALID_HANDLE_VALUE) return system_failed(L);
  const int fd = _open_osfhandle((intptr_t)h, _O_BINARY);
  if (fd < 0) {
    CloseHandle(h);
    return nsb_failed(L);
  }
  if (nsb_push_handle(L, fd)) return 1;
  _close(fd);
  return nsb_failed(L);
}

int nsb_file_remove(lua_State *L) {
  wchar_t path[NSB_PATH];
  if (!path_wide(nsb_path(L, 1), path)) return system_failed(L);
  if (!DeleteFileW(path) && !RemoveDirectoryW(path)) return move_failed(L);
  return yes(L);
}

void nsb_push_temporary_root(lua_State *L) {
  wchar_t root[MAX_PATH + 2];
  char narrow[4 * MAX_PATH];
  const DWORD n = GetTempPathW(MAX_PATH + 1, root);
  const bool ok = n > 0 && n <= MAX_PATH + 1 &&
                  nsb_narrow(root, narrow, sizeof narrow) != NULL;
  lua_pushstring(L, ok ? narrow : ".\\");
}

/* Of the system's error, as far as it matters for what is tried next. */
static bool folder_failed(void) {
  const DWORD code = GetLastError();
  errno = code == ERROR_ALREADY_EXISTS   ? EEXIST
          : code == ERROR_PATH_NOT_FOUND ? ENOENT
                                         : EACCES;
  return false;
}

bool nsb_new_folder(const char *path, bool open) {
  wchar_t wide[NSB_PATH];
  (void)open; /* a folder has the rights of the one above it */
  if (path_wide(path, wide) && CreateDirectoryW(wide, NULL)) return true;
  return folder_failed();
}

FILE *nsb_open(const char *path, bool change) {
  wchar_t wide[NSB_PATH];
  errno = ENOENT;
  return path_wide(path, wide) ? _wfopen(wide, change ? L"r+b" : L"rb") : NULL;
}

#else
typedef int nsb_no_windows_here; /* a file of C holds something */
#endif
