/* SPDX-License-Identifier: MIT
 * run.c - runs another program without a shell, for so long and no
 * longer. What it says goes to a file; it gets no input. */
#include "lua/posix.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#ifndef _WIN32
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>
extern char **environ;
#endif

#include "lua/bind.h"

#ifdef _WIN32
#include "lua/windows.h"
#endif

enum { MOST_WORDS = 32 };

static int said(lua_State *L, const char *why) {
  lua_pushnil(L);
  lua_pushstring(L, why);
  return 2;
}

#ifdef _WIN32

/* A word of a command line as the C runtime of Windows takes it apart. */
static void add_word(luaL_Buffer *b, const char *word) {
  luaL_addchar(b, '"');
  for (size_t i = 0, back = 0;; i++) {
    if (word[i] == '\\') {
      back++;
      continue;
    }
    const bool mark = word[i] == '"' || word[i] == 0;
    for (size_t k = 0; k < (mark ? 2 * back : back); k++) luaL_addchar(b, '\\');
    back = 0;
    if (word[i] == 0) break;
    if (word[i] == '"') luaL_addchar(b, '\\');
    luaL_addchar(b, word[i]);
  }
  luaL_addstring(b, "\" ");
}

/* The file of a program named without its folder, on PATH alone: Windows would
 * look in the folder in which it was started first. */
static bool find_program(const char *name, wchar_t *to, DWORD room) {
  static wchar_t path[32768];
  wchar_t wide[MAX_PATH];
  if (!nsb_wide(name, wide, MAX_PATH)) return false;
  if (wcspbrk(wide, L"/\\:")) {
    if (wcslen(wide) >= room) return false;
    wcscpy(to, wide);
    return true;
  }
  const DWORD n = GetEnvironmentVariableW(L"PATH", path, 32768);
  if (n == 0 || n >= 32768) return false;
  const DWORD got = SearchPathW(path, wide, L".exe", room, to, NULL);
  return got > 0 && got < room && wcsncmp(to, L".\\", 2) != 0;
}

/* Waits for a process, at most so long; with it end all that it started. */
static bool ended(const PROCESS_INFORMATION *p, HANDLE group, double seconds,
                  DWORD *code) {
  const DWORD all = (DWORD)(seconds * 1000);
  const bool in_time = WaitForSingleObject(p->hProcess, all) == WAIT_OBJECT_0;
  if (!in_time && (!group || !TerminateJobObject(group, 1)))
    TerminateProcess(p->hProcess, 1);
  WaitForSingleObject(p->hProcess, INFINITE);
  GetExitCodeProcess(p->hProcess, code);
  CloseHandle(p->hThread);
  CloseHandle(p->hProcess);
  if (group) CloseHandle(group);
  return in_time;
}

static HANDLE open_for_child(const wchar_t *path, DWORD access, DWORD how) {
  SECURITY_ATTRIBUTES open = {sizeof open, NULL, TRUE};
  return CreateFileW(path, access, FILE_SHARE_READ | FILE_SHARE_WRITE, &open,
                     how, FILE_ATTRIBUTE_NORMAL, NULL);
}

static int start(lua_State *L, const char **word, const char *out,
                 double seconds) {
  luaL_Buffer b;
  wchar_t line[8192], to[4096], program[4096];
  luaL_buffinit(L, &b);
  for (int k = 0; word[k]; k++) add_word(&b, word[k]);
  luaL_pushresult(&b);
  if (!nsb_wide(lua_tostring(L, -1), line, 8192) || !nsb_wide(out, to, 4096))
    return said(L, "a command line too long");
  if (!find_program(word[0], program, 4096))
    return said(L, "the program was not found");
  HANDLE file = open_for_child(to, GENERIC_WRITE, CREATE_ALWAYS);
  if (file == INVALID_HANDLE_VALUE) return said(L, "its output has no file");
  HANDLE nothing = open_for_child(L"NUL", GENERIC_READ, OPEN_EXISTING);
  STARTUPINFOW how = {.cb = sizeof how,
                      .dwFlags = STARTF_USESTDHANDLES,
                      .hStdInput = nothing,
                      .hStdOutput = file,
                      .hStdError = file};
  PROCESS_INFORMATION p;
  DWORD code = 1;
  const bool ran =
      CreateProcessW(program, line, NULL, NULL, TRUE,
                     CREATE_NO_WINDOW | CREATE_SUSPENDED, NULL, NULL, &how, &p);
  CloseHandle(file);
  CloseHandle(nothing);
  if (!ran) return said(L, "the program was not found");
  HANDLE group = CreateJobObjectW(NULL, NULL);
  if (group) AssignProcessToJobObject(group, p.hProcess);
  ResumeThread(p.hThread);
  if (!ended(&p, group, seconds, &code))
    return said(L, "it took too long and was stopped");
  lua_pushinteger(L, (lua_Integer)code);
  return 1;
}

#else

/* Waits for a process, at most so long. @return its status, -1 where it was
 * stopped for taking longer. */
static int wait_for(pid_t pid, double seconds) {
  const struct timespec nap = {0, 2000000};
  struct timespec from, now;
  int status = 0;
  clock_gettime(CLOCK_MONOTONIC, &from);
  for (;;) {
    const pid_t got = waitpid(pid, &status, WNOHANG);
    if (got == pid) return status;
    if (got < 0 && errno != EINTR) return -1;
    clock_gettime(CLOCK_MONOTONIC, &now);
    const double past = (double)(now.tv_sec - from.tv_sec) +
                        (double)(now.tv_nsec - from.tv_nsec) * 1e-9;
    if (past > seconds) break;
    nanosleep(&nap, NULL);
  }
  kill(-pid, SIGKILL); /* with those that it started: it leads a group */
  kill(pid, SIGKILL);
  while (waitpid(pid, &status, 0) < 0 && errno == EINTR) {
  }
  return -1;
}

int nsb_spawn(char **word, const char *out, int line, int *its) {
  posix_spawn_file_actions_t files;
  posix_spawnattr_t how;
  pid_t pid = 0;
  posix_spawnattr_init(&how);
  posix_spawnattr_setflags(&how, POSIX_SPAWN_SETPGROUP);
  posix_spawnattr_setpgroup(&how, 0);
  posix_spawn_file_actions_init(&files);
  posix_spawn_file_actions_addopen(&files, 0, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&files, 1, out, O_WRONLY | O_CREAT | O_TRUNC,
                                   0600);
  posix_spawn_file_actions_adddup2(&files, 1, 2);
  for (int fd = 3; line >= 0 && fd <= 4; fd++)
    posix_spawn_file_actions_adddup2(&files, line, fd);
  const int wrong = posix_spawnp(&pid, word[0], &files, &how, word, environ);
  posix_spawnattr_destroy(&how);
  posix_spawn_file_actions_destroy(&files);
  *its = (int)pid;
  return wrong;
}

static int start(lua_State *L, const char **word, const char *out,
                 double seconds) {
  char *list[MOST_WORDS + 1];
  int pid = 0;
  memcpy(list, word, sizeof list);
  const int wrong = nsb_spawn(list, out, -1, &pid);
  if (wrong == ENOENT) return said(L, "the program was not found");
  if (wrong != 0) return said(L, strerror(wrong));
  const int status = wait_for(pid, seconds);
  if (status == -1) return said(L, "it took too long and was stopped");
  if (WIFSIGNALED(status)) return said(L, "it was stopped by a signal");
  lua_pushinteger(L, WEXITSTATUS(status));
  return 1;
}

#endif

/* run({program, word, ...}, path of its output, seconds) -> exit code; or nil
 * and why there is none. */
static int core_run(lua_State *L) {
  const char *word[MOST_WORDS + 1] = {NULL};
  luaL_checktype(L, 1, LUA_TTABLE);
  const char *out = luaL_checkstring(L, 2);
  const double seconds = luaL_checknumber(L, 3);
  luaL_argcheck(L, seconds > 0 && seconds < 1e6, 3, "seconds above 0 expected");
  const lua_Unsigned n = lua_rawlen(L, 1);
  luaL_argcheck(L, n >= 1 && n <= MOST_WORDS, 1, "1 to 32 words expected");
  luaL_checkstack(L, MOST_WORDS + 8, "words");
  for (lua_Unsigned k = 0; k < n; k++) {
    size_t length = 0;
    const bool text = lua_rawgeti(L, 1, (lua_Integer)k + 1) == LUA_TSTRING;
    luaL_argcheck(L, text, 1, "a list of texts expected");
    word[k] = lua_tolstring(L, -1, &length);
    luaL_argcheck(L, strlen(word[k]) == length, 1, "no NUL in a word");
  }
  return start(L, word, out, seconds);
}

int nsb_open_run(lua_State *L) {
  lua_pushcfunction(L, core_run);
  lua_setfield(L, -2, "run");
  return 0;
}
