/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The proof: moves read back from program texts, judged against the job.
 * Includes nothing of the planner. */
#ifndef NECKHEW_PROOF_PROOF_H
#define NECKHEW_PROOF_PROOF_H

#include <stddef.h>

#include "base/fault.h"
#include "base/watch.h"
#include "job/job.h"
#include "model/facets.h"
#include "model/neck.h"
#include "motion/motion.h"
#include "proof/record.h"
#include "proof/verdict.h"

/* One program as its reader understood it, in program coordinates. */
struct proof_program {
	const char *file;
	size_t cutter; /* index in the job of the one in the holder */
	const struct motion_list *motions; /* NULL when the text was refused */
	int form_block; /* the refused block; 0 when the form is good */
	const char *form_why; /* sentence; NULL when the form is good */
	/* For figures only, never for judging: the block each pass begins at,
	 * ascending. */
	size_t pass_count;
	const int *pass_first_block;
};

/* Judges the programs, run in this order on one blank. `facets` stand for the
 * finished surface. `record` keeps what was simulated, for figures; release it
 * with proof_record_free, also after a failure. `watch` is told how far it is;
 * NULL when nobody waits. Returns FAULT_NONE whenever a verdict was reached,
 * good or bad; out->proven tells which. */
enum fault proof_judge(struct verdict *out, struct proof_record *record, const struct job *job,
		       const struct neck *neck, const struct facets *facets,
		       const struct proof_program *programs, size_t count,
		       const struct watch *watch, struct fault_list *faults);

#endif
