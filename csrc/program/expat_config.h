/* SPDX-License-Identifier: MIT
 * expat_config.h - what expat's own files ask of a configuration, said by hand,
 * since no script of theirs looks at the system here: names of spaces are told,
 * entities counted against their growth, and where a system has no call for
 * chance that every C library declares, the file of it is read. */
#ifndef NETSECTION_PROGRAM_EXPAT_CONFIG_H
#define NETSECTION_PROGRAM_EXPAT_CONFIG_H

#define XML_NS 1
#define XML_DTD 1
#define XML_GE 1
#define XML_CONTEXT_BYTES 1024

#if defined(__BYTE_ORDER__) && __BYTE_ORDER__ == __ORDER_BIG_ENDIAN__
#define BYTEORDER 4321
#else
#define BYTEORDER 1234
#endif

#ifndef _WIN32
#define XML_DEV_URANDOM 1
#endif

#endif
