/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Program files on disk, read by the strict reader and judged. The one way by
 * which `rough` and `prove` come to a verdict: always from the bytes on disk. */
#ifndef NECKHEW_CLI_JUDGE_H
#define NECKHEW_CLI_JUDGE_H

#include <stddef.h>

#include "job/job.h"
#include "model/facets.h"
#include "model/neck.h"
#include "proof/proof.h"
#include "proof/record.h"

struct judge_program {
	const char *path; /* the caller keeps it alive */
	const char *name; /* for the verdict's sentences */
	/* For figures only: the line each pass begins at; 0 and NULL when unknown. */
	size_t pass_count;
	const int *pass_first_block;
};

struct judgement {
	struct verdict verdict;
	struct proof_record record;
	size_t program_count;
	int *blocks; /* lines in each program */
};

/* Reads the programs and judges them as run in this order on one blank. A text
 * that breaks the form is a broken promise, not a fault. FAULT_FILE when a
 * file cannot be read, FAULT_MEMORY. Release with judge_free, also after a
 * failure. */
enum fault judge_programs(struct judgement *out, const struct judge_program *programs, size_t count,
			  const struct job *job, const struct neck *neck,
			  const struct facets *facets, struct fault_list *faults);
void judge_free(struct judgement *judgement);

#endif
