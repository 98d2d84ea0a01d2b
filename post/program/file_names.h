/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the programs of a job are called in its output folder. */
#ifndef NECKHEW_PROGRAM_FILE_NAMES_H
#define NECKHEW_PROGRAM_FILE_NAMES_H

#define PROGRAM_ROUGHING_FILE "rough.nc"
#define PROGRAM_DRY_RUN_FILE "dry-run.nc"

#endif
