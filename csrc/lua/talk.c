/* SPDX-License-Identifier: MIT
 * talk.c - a program that is talked to while it runs, without a shell: it
 * reads messages at its file descriptor 3 and writes them at 4, each ended by
 * a NUL. What it says otherwise goes to a file. Nothing of it stays when the
 * talk is closed or collected. */
#include "lua/posix.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#ifndef _WIN32
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>
#endif

#include "lua/bind.h"

#define TALK "netsection.talk"

static int no(lua_State *L, const char *why) {
  lua_pushnil(L);
  lua_pushstring(L, why);
  return 2;
}

#ifdef _WIN32

static int core_talk(lua_State *L) {
  return no(L, "programs are not talked to on this system");
}

int nsb_open_talk(lua_State *L) {
  lua_pushcfunction(L, core_talk);
  lua_setfield(L, -2, "talk");
  return 0;
}

#else

enum { TALK_WORDS = 32, ABOVE = 10, CHUNK = 1 << 16, LONGEST = 1 << 30 };

#ifndef MSG_NOSIGNAL
#define MSG_NOSIGNAL 0 /* the socket itself is told so, see ends */
#endif

struct talk {
  pid_t pid; /* 0: closed */
  int fd;
  char *got; /* what came and was not taken yet */
  size_t used, size, looked;
};

static double seconds_now(void) {
  struct timespec now;
  clock_gettime(CLOCK_MONOTONIC, &now);
  return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

/* The two ends of a line, both above the descriptors that a child is given. */
static bool ends(int *ours, int *its) {
  int pair[2], high[2] = {-1, -1};
  if (socketpair(AF_UNIX, SOCK_STREAM, 0, pair) != 0) return false;
  for (int k = 0; k < 2; k++) {
    high[k] = fcntl(pair[k], F_DUPFD_CLOEXEC, ABOVE);
    close(pair[k]);
  }
  if (high[0] < 0 || high[1] < 0) {
    for (int k = 0; k < 2; k++)
      if (high[k] >= 0) close(high[k]);
    return false;
  }
#ifdef SO_NOSIGPIPE
  const int on = 1;
  setsockopt(high[0], SOL_SOCKET, SO_NOSIGPIPE, &on, sizeof on);
#endif
  const struct timeval patience = {.tv_sec = 60};
  setsockopt(high[0], SOL_SOCKET, SO_SNDTIMEO, &patience, sizeof patience);
  *ours = high[0];
  *its = high[1];
  return true;
}

/* Ends the program: it is given some seconds after its line is closed. */
static void end_talk(struct talk *t, double seconds) {
  const struct timespec nap = {0, 2000000};
  int status;
  if (t->pid == 0) return;
  close(t->fd);
  free(t->got);
  const double last = seconds_now() + seconds;
  pid_t gone = 0;
  while (gone == 0 && seconds_now() < last) {
    gone = waitpid(t->pid, &status, WNOHANG);
    if (gone < 0 && errno == EINTR) gone = 0;
    if (gone == 0) nanosleep(&nap, NULL);
  }
  kill(-t->pid, SIGKILL); /* with those that it started: it leads a group */
  if (gone == 0) {
    kill(t->pid, SIGKILL);
    while (waitpid(t->pid, &status, 0) < 0 && errno == EINTR) {
    }
  }
  *t = (struct talk){0};
}

static struct talk *open_talk(lua_State *L) {
  struct talk *t = luaL_checkudata(L, 1, TALK);
  luaL_argcheck(L, t->pid != 0, 1, "the talk is closed");
  return t;
}

/* t:send(text) -> true; or nil and why it did not go. */
static int talk_send(lua_State *L) {
  const struct talk *t = open_talk(L);
  size_t n = 0;
  const char *text = luaL_checklstring(L, 2, &n);
  luaL_argcheck(L, strlen(text) == n, 2, "no NUL in a message");
  for (size_t at = 0; at <= n;) { /* with the NUL at its end */
    const ssize_t sent = send(t->fd, text + at, n + 1 - at, MSG_NOSIGNAL);
    if (sent < 0 && errno == EINTR) continue;
    if (sent < 0) return no(L, strerror(errno));
    at += (size_t)sent;
  }
  lua_pushboolean(L, 1);
  return 1;
}

/* Takes the first message out of what came. @return whether there is one */
static bool take_message(lua_State *L, struct talk *t) {
  const char *end =
      t->got ? memchr(t->got + t->looked, 0, t->used - t->looked) : NULL;
  t->looked = t->used;
  if (!end) return false;
  const size_t n = (size_t)(end - t->got);
  lua_pushlstring(L, t->got, n);
  t->used -= n + 1;
  memmove(t->got, end + 1, t->used);
  t->looked = 0;
  return true;
}

/* t:receive(seconds) -> the next message; or nil and why there is none. */
static int talk_receive(lua_State *L) {
  struct talk *t = open_talk(L);
  const double seconds = luaL_checknumber(L, 2);
  luaL_argcheck(L, seconds > 0 && seconds < 1e6, 2, "seconds above 0 expected");
  const double last = seconds_now() + seconds;
  while (!take_message(L, t)) {
    if (t->size - t->used < CHUNK) {
      const size_t size = 2 * t->size + CHUNK;
      char *more = size < LONGEST ? realloc(t->got, size) : NULL;
      if (!more) return no(L, "the message is too long");
      t->got = more;
      t->size = size;
    }
    const double left = last - seconds_now();
    if (left <= 0) return no(L, "it took too long");
    struct pollfd one = {.fd = t->fd, .events = POLLIN};
    const int ready = poll(&one, 1, (int)(left * 1000) + 1);
    if (ready < 0 && errno != EINTR) return no(L, strerror(errno));
    if (ready <= 0) continue;
    const ssize_t n = recv(t->fd, t->got + t->used, CHUNK, 0);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return no(L, "it ended");
    t->used += (size_t)n;
  }
  return 1;
}

static int talk_close(lua_State *L) {
  end_talk(luaL_checkudata(L, 1, TALK), 5);
  return 0;
}

static int talk_gone(lua_State *L) {
  end_talk(luaL_checkudata(L, 1, TALK), 0);
  return 0;
}

/* talk({program, word, ...}, path of what it says otherwise) -> a talk; or nil
 * and why there is none. */
static int core_talk(lua_State *L) {
  char *word[TALK_WORDS + 1] = {NULL};
  luaL_checktype(L, 1, LUA_TTABLE);
  const char *out = luaL_checkstring(L, 2);
  const lua_Unsigned n = lua_rawlen(L, 1);
  luaL_argcheck(L, n >= 1 && n <= TALK_WORDS, 1, "1 to 32 words expected");
  luaL_checkstack(L, TALK_WORDS + 8, "words");
  for (lua_Unsigned k = 0; k < n; k++) {
    size_t length = 0;
    const bool text = lua_rawgeti(L, 1, (lua_Integer)k + 1) == LUA_TSTRING;
    luaL_argcheck(L, text, 1, "a list of texts expected");
    const char *said = lua_tolstring(L, -1, &length);
    luaL_argcheck(L, strlen(said) == length, 1, "no NUL in a word");
    memcpy(&word[k], &said, sizeof said); /* it is not written to */
  }
  struct talk *t = lua_newuserdatauv(L, sizeof *t, 0);
  *t = (struct talk){0};
  luaL_setmetatable(L, TALK);
  int its = -1;
  if (!ends(&t->fd, &its)) return no(L, strerror(errno));
  const int wrong = nsb_spawn(word, out, its, &t->pid);
  close(its);
  if (wrong != 0) {
    close(t->fd);
    *t = (struct talk){0};
    return no(L,
              wrong == ENOENT ? "the program was not found" : strerror(wrong));
  }
  return 1;
}

int nsb_open_talk(lua_State *L) {
  static const luaL_Reg methods[] = {{"send", talk_send},
                                     {"receive", talk_receive},
                                     {"close", talk_close},
                                     {NULL, NULL}};
  luaL_newmetatable(L, TALK);
  lua_pushcfunction(L, talk_gone);
  lua_setfield(L, -2, "__gc");
  luaL_newlib(L, methods);
  lua_setfield(L, -2, "__index");
  lua_pushboolean(L, 0);
  lua_setfield(L, -2, "__metatable");
  lua_pop(L, 1);
  lua_pushcfunction(L, core_talk);
  lua_setfield(L, -2, "talk");
  return 0;
}

#endif
