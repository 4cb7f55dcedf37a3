/* A library that stands before the C library (LD_PRELOAD) and lets a call of
 * the system fail, so that tests can ask what becomes of files, programs and
 * threads then. It is told what to do by names of files that are removed:
 *
 *   os.remove "fail:fsync 1 5"     the next call of fsync fails with errno 5
 *   os.remove "fail:rename 2 18"   the one after the next
 *   os.remove "fail:open 1 17 3"   the next three
 *   os.remove "fail:trace PATH"    calls are noted in a file, one a line, with
 *                                  the names of the files that they are about
 *
 * Removing one gives true where this library is there. Built and used by
 * test_failing_system.lua.
 * SPDX-License-Identifier: MIT */
#define _GNU_SOURCE
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <pthread.h>
#include <spawn.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

static struct plan {
  char name[32];
  int next, error, times;
} plans[8];
static char trace[512];

static void note(const char *what, const char *from, const char *to) {
  if (trace[0] == 0) return;
  const int fd = (int)syscall(SYS_openat, AT_FDCWD, trace,
                              O_WRONLY | O_APPEND | O_CREAT, 0600);
  if (fd < 0) return;
  dprintf(fd, "%s\t%s\t%s\n", what, from, to);
  close(fd);
}

/* True where a call is to fail now; errno says how. */
static bool fails(const char *name) {
  for (size_t k = 0; k < sizeof plans / sizeof *plans; k++) {
    struct plan *p = &plans[k];
    if (p->times == 0 || strcmp(p->name, name) != 0) continue;
    if (--p->next > 0) return false;
    p->times--;
    errno = p->error;
    return true;
  }
  return false;
}

static int told(const char *text) {
  struct plan p = {.times = 1};
  if (strncmp(text, "trace ", 6) == 0) {
    snprintf(trace, sizeof trace, "%s", text + 6);
    return 0;
  }
  if (strcmp(text, "nothing") == 0) {
    memset(plans, 0, sizeof plans);
    return 0;
  }
  const int n =
      sscanf(text, "%31s %d %d %d", p.name, &p.next, &p.error, &p.times);
  for (size_t k = 0; n >= 3 && k < sizeof plans / sizeof *plans; k++)
    if (plans[k].times == 0) {
      plans[k] = p;
      return 0;
    }
  errno = EINVAL;
  return -1;
}

/* The function of the C library by a name. */
#define REAL(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))
#define FAILING(type, name, bad, parameters, ...)                              \
  type name parameters {                                                       \
    if (fails(#name)) return bad;                                              \
    return REAL(name)(__VA_ARGS__);                                            \
  }

FAILING(int, fflush, EOF, (FILE * f), f)
FAILING(char *, realpath, NULL, (const char *path, char *to), path, to)
FAILING(int, fchmod, -1, (int fd, mode_t mode), fd, mode)
FAILING(int, fchown, -1, (int fd, uid_t u, gid_t g), fd, u, g)
FAILING(int, fstat, -1, (int fd, struct stat *s), fd, s)
FAILING(int, stat, -1, (const char *path, struct stat *s), path, s)
FAILING(int, lstat, -1, (const char *path, struct stat *s), path, s)
FAILING(int, mkdir, -1, (const char *path, mode_t mode), path, mode)
FAILING(DIR *, opendir, NULL, (const char *path), path)
FAILING(FILE *, fdopen, NULL, (int fd, const char *mode), fd, mode)
FAILING(int, flock, -1, (int fd, int how), fd, how)
FAILING(int, socketpair, -1, (int d, int t, int p, int *two), d, t, p, two)
FAILING(int, poll, -1, (struct pollfd * p, nfds_t n, int ms), p, n, ms)
FAILING(ssize_t, recv, -1, (int fd, void *to, size_t n, int how), fd, to, n,
        how)
FAILING(ssize_t, send, -1, (int fd, const void *of, size_t n, int how), fd, of,
        n, how)
FAILING(pid_t, waitpid, -1, (pid_t pid, int *status, int how), pid, status, how)
FAILING(int, ferror, 1, (FILE * f), f)

/* These say what is wrong by what they return. */
FAILING(int, posix_spawnp, errno,
        (pid_t * pid, const char *file, const posix_spawn_file_actions_t *files,
         const posix_spawnattr_t *how, char *const *words, char *const *around),
        pid, file, files, how, words, around)
FAILING(int, pthread_create, errno,
        (pthread_t * one, const pthread_attr_t *how, void *(*job)(void *),
         void *data),
        one, how, job, data)
FAILING(int, pthread_attr_init, errno, (pthread_attr_t * how), how)
FAILING(int, pthread_attr_setstacksize, errno,
        (pthread_attr_t * how, size_t size), how, size)
FAILING(int, pthread_sigmask, errno,
        (int what, const sigset_t *set, sigset_t *old), what, set, old)

int fsync(int fd) {
  char link[64], path[512] = "";
  snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
  if (readlink(link, path, sizeof path - 1) < 0) path[0] = 0;
  note("fsync", path, "");
  return fails("fsync") ? -1 : REAL(fsync)(fd);
}

int rename(const char *from, const char *to) {
  note("rename", from, to);
  return fails("rename") ? -1 : REAL(rename)(from, to);
}

int remove(const char *path) {
  if (strncmp(path, "fail:", 5) == 0) return told(path + 5);
  note("remove", path, "");
  return fails("remove") ? -1 : REAL(remove)(path);
}

int fclose(FILE *f) {
  const bool bad = fails("fclose");
  const int why = errno, shut = REAL(fclose)(f);
  if (!bad) return shut;
  errno = why;
  return EOF;
}

int open(const char *path, int how, ...) {
  va_list rest;
  va_start(rest, how);
  const mode_t mode = how & O_CREAT ? va_arg(rest, mode_t) : 0;
  va_end(rest);
  note("open", path, how & O_CREAT ? "new" : "");
  return fails("open") ? -1 : REAL(open)(path, how, mode);
}

int fcntl(int fd, int what, ...) {
  va_list rest;
  va_start(rest, what);
  void *given = va_arg(rest, void *);
  va_end(rest);
  return fails("fcntl") ? -1 : REAL(fcntl)(fd, what, given);
}

long syscall(long number, ...) {
  va_list rest;
  va_start(rest, number);
  long a[6];
  for (int k = 0; k < 6; k++) a[k] = va_arg(rest, long);
  va_end(rest);
  if (number == SYS_renameat2) {
    note("exchange", (const char *)a[1], (const char *)a[3]);
    if (fails("exchange")) return -1;
  }
  return REAL(syscall)(number, a[0], a[1], a[2], a[3], a[4], a[5]);
}

/* Only requests of 64 kB and more are counted, which are the module's own. */
void *realloc(void *block, size_t size) {
  static void *(*real)(void *, size_t);
  if (!real) real = REAL(realloc);
  return size >= 1 << 16 && fails("realloc") ? NULL : real(block, size);
}
