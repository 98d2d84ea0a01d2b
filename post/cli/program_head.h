/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The comments at a program's head and at its passes: what the operator reads
 * on the control before pressing start. */
#ifndef NECKHEW_CLI_PROGRAM_HEAD_H
#define NECKHEW_CLI_PROGRAM_HEAD_H

#include <stddef.h>

#include "base/fault.h"
#include "job/job.h"
#include "motion/motion.h"
#include "path/plan.h"
#include "program/write.h"

struct head_text {
	size_t count, capacity;
	char **line;
	size_t label_count;
	char **label;
};

/* Lines and pass labels for a program of `motions` lasting `minutes`, run by
 * the job's cutter of index `turn`. Release
 * with program_head_free, also after a failure. */
enum fault program_head_make(struct head_text *out, const struct job *job, size_t turn,
			     const struct plan *plan, const struct motion_list *motions,
			     const char *title, double minutes, struct fault_list *faults);
void program_head_free(struct head_text *head);

#endif
