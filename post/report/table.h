/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The short table a run ends with: passes, thickness at the stations,
 * hand-finish stock and verdict, at most 80 columns wide. */
#ifndef NECKHEW_REPORT_TABLE_H
#define NECKHEW_REPORT_TABLE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/fault.h"
#include "job/job.h"
#include "job/result.h"

/* Prints the whole table. `colour` asks for terminal colours; whether they
 * are wanted is the caller's to know, and nothing is said by colour alone.
 * FAULT_FILE when `out` did not take it all. */
enum fault table_print(FILE *out, const struct job *job, const struct job_result *result,
		       bool colour, struct fault_list *faults);

/* Prints the hand-finish stock of the zones alone, beginning with an empty line. */
void table_zones_print(FILE *out, const struct job_result *result, bool colour);

/* Prints the verdict alone; `file` names the programs by their index in it. */
enum fault table_verdict_print(FILE *out, const struct verdict *verdict, size_t file_count,
			       const char *const *file, bool colour, struct fault_list *faults);

#endif
