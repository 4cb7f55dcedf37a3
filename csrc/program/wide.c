/* SPDX-License-Identifier: MIT
 * wide.c - what wide.h promises. */
#ifdef _WIN32

#include <errno.h>
#include <fcntl.h>
#include <io.h>
#include <stdbool.h>
#include <sys/stat.h>

#define NETSECTION_WIDE_C
#include "program/wide.h"

#include "lua/windows.h"

enum { PATH_ROOM = 4096, TEXT_ROOM = 32768 };

static bool both(const char *a, wchar_t *wide_a, const char *b, wchar_t *wide_b,
                 int room_b) {
  errno = ENOENT;
  return nsb_wide(a, wide_a, PATH_ROOM) && nsb_wide(b, wide_b, room_b);
}

FILE *wide_fopen(const char *path, const char *mode) {
  wchar_t p[PATH_ROOM], m[16];
  return both(path, p, mode, m, 16) ? _wfopen(p, m) : NULL;
}

FILE *wide_freopen(const char *path, const char *mode, FILE *f) {
  wchar_t p[PATH_ROOM], m[16];
  return both(path, p, mode, m, 16) ? _wfreopen(p, m, f) : NULL;
}

FILE *wide_popen(const char *command, const char *mode) {
  wchar_t c[TEXT_ROOM], m[16];
  if (!nsb_wide(command, c, TEXT_ROOM) || !nsb_wide(mode, m, 16)) return NULL;
  return _wpopen(c, m);
}

int wide_remove(const char *path) {
  wchar_t p[PATH_ROOM];
  errno = ENOENT;
  if (!nsb_wide(path, p, PATH_ROOM)) return -1;
  if (GetFileAttributesW(p) != INVALID_FILE_ATTRIBUTES &&
      GetFileAttributesW(p) & FILE_ATTRIBUTE_DIRECTORY)
    return RemoveDirectoryW(p) ? 0 : -1;
  return _wremove(p);
}

int wide_rename(const char *from, const char *to) {
  wchar_t f[PATH_ROOM], t[PATH_ROOM];
  return both(from, f, to, t, PATH_ROOM) ? _wrename(f, t) : -1;
}

int wide_system(const char *command) {
  wchar_t c[TEXT_ROOM];
  if (!command) return _wsystem(NULL);
  if (!nsb_wide(command, c, TEXT_ROOM)) return -1;
  const int code = _wsystem(c);
  if (code != -1) errno = 0; /* what looking for the shell left is no error */
  return code;
}

/* Good until the next call. */
char *wide_getenv(const char *name) {
  static char value[4 * TEXT_ROOM];
  wchar_t n[256];
  const wchar_t *got = nsb_wide(name, n, 256) ? _wgetenv(n) : NULL;
  return got ? nsb_narrow(got, value, sizeof value) : NULL;
}

/* A new, empty file in the user's folder for such. */
static bool new_file(wchar_t *path) {
  wchar_t root[MAX_PATH + 2];
  const DWORD n = GetTempPathW(MAX_PATH + 1, root);
  return n > 0 && n <= MAX_PATH && GetTempFileNameW(root, L"lua", 0, path) != 0;
}

int wide_tmpnam(char *to, int room) {
  wchar_t path[MAX_PATH + 2];
  return new_file(path) && nsb_narrow(path, to, room) != NULL;
}

/* Deleted when it is closed. */
FILE *wide_tmpfile(void) {
  wchar_t path[MAX_PATH + 2];
  return new_file(path) ? _wfopen(path, L"w+bD") : NULL;
}

#else
typedef int no_wide_here; /* a file of C holds something */
#endif
