/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What `neckhew show` needs: the result of a plan made in memory, or of program
 * files. Nothing is written. A broken promise is no fault here; the verdict
 * tells. */
#ifndef NECKHEW_CLI_SHOWING_H
#define NECKHEW_CLI_SHOWING_H

#include <stdbool.h>
#include <stddef.h>

#include "cli/progress.h"
#include "cli/roughing.h"
#include "job/result.h"

/* The whole of the work, for progress_begin. */
#define SHOWING_PLAN_SHARE ROUGHING_MEASURED
#define SHOWING_PROGRAMS_SHARE 1.0

/* Start with { 0 }, fill work.job and work.neck. */
struct showing {
	struct roughing work;
	/* False when a program could not be read: nothing was replayed, and there
	 * is no result but the verdict in work.judgement. */
	bool measured;
	struct job_result result;
};

/* Plans the job. The result's passes are those of the plan. */
enum fault showing_plan(struct showing *showing, struct progress *progress,
			struct fault_list *faults);

/* Reads the program files, to be run in this order on one blank. Each counts as
 * one pass in the result, of no kind or level. */
enum fault showing_programs(struct showing *showing, const char *const *path, size_t count,
			    struct progress *progress, struct fault_list *faults);

void showing_free(struct showing *showing);

#endif
