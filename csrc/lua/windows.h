/* SPDX-License-Identifier: MIT
 * windows.h - texts of the module, in UTF-8, and those of Windows. After the
 * other headers: the system's own gives common words other meanings. */
#ifndef NETSECTION_LUA_WINDOWS_H
#define NETSECTION_LUA_WINDOWS_H

#include <windows.h>

/* @return 'to', which holds so many units; NULL for text that is none */
static inline wchar_t *nsb_wide(const char *text, wchar_t *to, int room) {
  return MultiByteToWideChar(CP_UTF8, MB_ERR_INVALID_CHARS, text, -1, to, room)
             ? to
             : NULL;
}

static inline char *nsb_narrow(const wchar_t *text, char *to, int room) {
  return WideCharToMultiByte(CP_UTF8, 0, text, -1, to, room, NULL, NULL) ? to
                                                                         : NULL;
}

#endif
