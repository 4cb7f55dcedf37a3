/* SPDX-License-Identifier: MIT
 * posix.h - read before any header of the system: what POSIX and the systems
 * add to C is wanted, outside Windows. */
#ifndef NETSECTION_LUA_POSIX_H
#define NETSECTION_LUA_POSIX_H

#ifdef __APPLE__
#define _DARWIN_C_SOURCE
#elif !defined(_WIN32)
#define _GNU_SOURCE
#endif

#endif
