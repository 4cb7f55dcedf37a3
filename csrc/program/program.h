/* SPDX-License-Identifier: MIT
 * program.h - the files inside the single program, written by carry.lua. */
#ifndef NETSECTION_PROGRAM_H
#define NETSECTION_PROGRAM_H

#include "lua/bind.h"

extern const struct nsb_carried program_files[];
extern const int program_file_count;

#endif
