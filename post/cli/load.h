/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every command that takes a neck file begins with, and how all of them
 * tell faults. */
#ifndef NECKHEW_CLI_LOAD_H
#define NECKHEW_CLI_LOAD_H

#include <stdio.h>

#include "base/fault.h"
#include "job/job.h"
#include "model/neck.h"

/* Reads the neck file, builds the neck and checks the job; all faults of both
 * checks are added, with file and line. Returns the first code, and then
 * *neck is NULL. Free the neck with neck_free. */
enum fault load_job(struct job *job, struct neck **neck, const char *path,
		    struct fault_list *faults);

/* FAULT_PROGRAM unless `count` programs can be told to the job's cutters: any
 * number to a single one, else at most one to each. */
enum fault load_match_programs(const struct job *job, size_t count, struct fault_list *faults);

/* Prints one line for each fault: "file:line: setting: message", with the
 * parts left out that are not known. */
void load_print_faults(const struct fault_list *faults, FILE *to);

#endif
