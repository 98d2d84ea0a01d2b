/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the programs of a job are called in its output folder. */
#ifndef NECKHEW_PROGRAM_FILE_NAMES_H
#define NECKHEW_PROGRAM_FILE_NAMES_H

#include <stddef.h>

#define PROGRAM_DRY_RUN_FILE "dry-run.nc"
#define PROGRAM_FILE_ROOM 32

/* Writes the name of the program of cutter `turn`, from 0, of `count`:
 * "rough.nc" when there is one cutter, else "rough-1.nc" and so on. Returns
 * `name`. */
const char *program_roughing_file(char name[PROGRAM_FILE_ROOM], size_t turn, size_t count);

#endif
