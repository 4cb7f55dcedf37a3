/* SPDX-License-Identifier: MIT
 * sets.c - the core for several sets of instructions in one program. What holds
 * loops over lanes is linked once for each set, and the functions of it that
 * others call carry the set's name behind theirs (entries.h, written by the
 * Makefile). Their own names stand here and jump to those of the chosen set. */
#include "program/program.h"

#ifdef PROGRAM_ENTRIES

#include <stdlib.h>
#include <string.h>

typedef void entry(void);

#ifdef PROGRAM_HAS_avx2
#define AVX2(name) name##_avx2
#else
#define AVX2(name) name##_default
#endif
#ifdef PROGRAM_HAS_avx512f
#define AVX512(name) name##_avx512f
#else
#define AVX512(name) AVX2(name)
#endif

#define ENTRY(name)                                                            \
  entry name##_default, AVX2(name), AVX512(name);                              \
  entry *chosen_##name = name##_default;                                       \
  __asm__(".text\n.globl " #name "\n.type " #name ", @function\n" #name        \
          ":\n\tjmp *chosen_" #name "(%rip)\n");
#include PROGRAM_ENTRIES
#undef ENTRY

void program_choose_set(void) {
  static const struct {
    entry **chosen, *avx2, *avx512f;
  } rows[] = {
#define ENTRY(name) {&chosen_##name, AVX2(name), AVX512(name)},
#include PROGRAM_ENTRIES
  };
  const char *most = getenv("NETSECTION_SET");
  __builtin_cpu_init();
  const bool widest = !most && __builtin_cpu_supports("avx512f");
  const bool wide = widest || ((!most || !strcmp(most, "avx2")) &&
                               __builtin_cpu_supports("avx2"));
  for (size_t k = 0; wide && k < sizeof rows / sizeof *rows; k++)
    *rows[k].chosen = widest ? rows[k].avx512f : rows[k].avx2;
}

#else /* one set alone */

void program_choose_set(void) {}

#endif
