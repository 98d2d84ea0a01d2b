/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Programs read by the strict reader and judged. `rough` and `prove` come to a
 * verdict by judge_programs alone: always from the bytes on disk. */
#ifndef NECKHEW_CLI_JUDGE_H
#define NECKHEW_CLI_JUDGE_H

#include <stddef.h>

#include "base/watch.h"
#include "job/job.h"
#include "model/facets.h"
#include "model/neck.h"
#include "proof/proof.h"
#include "proof/record.h"

struct judge_program {
	const char *path; /* the caller keeps both names alive */
	const char *name; /* for the verdict's sentences */
	size_t cutter; /* index in the job of the one that runs it */
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
 * that breaks the form is a broken promise, not a fault. `watch` is told how
 * far it is; it may be NULL. FAULT_FILE when a file cannot be read,
 * FAULT_MEMORY. Release with judge_free, also after a failure. */
enum fault judge_programs(struct judgement *out, const struct judge_program *programs, size_t count,
			  const struct job *job, const struct neck *neck,
			  const struct facets *facets, const struct watch *watch,
			  struct fault_list *faults);

/* A program text that no disk holds, for what is only shown. */
struct judge_text {
	const char *bytes;
	size_t size;
	struct judge_program about; /* its path is not looked at */
};

/* The same for texts in memory. */
enum fault judge_texts(struct judgement *out, const struct judge_text *texts, size_t count,
		       const struct job *job, const struct neck *neck, const struct facets *facets,
		       const struct watch *watch, struct fault_list *faults);

void judge_free(struct judgement *judgement);

#endif
