/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A job planned, and its plans judged and measured as if they had been read back
 * from program texts: each item of a list of moves is one block. */
#ifndef NECKHEW_TESTS_SUPPORT_PLANNED_H
#define NECKHEW_TESTS_SUPPORT_PLANNED_H

#include "job/job.h"
#include "job/result.h"
#include "path/plan.h"
#include "proof/proof.h"
#include "support/sample_job.h"

struct planned {
	struct job job;
	struct sample_model model;
	struct plan plan[JOB_CUTTERS_MAX]; /* of each of the job's cutters, in turn */
};

/* Plans the job as it is, unchecked. Fails the test in the planner's words when
 * it makes no plan. Release with planned_free. */
void planned_make(struct planned *out, const struct job *job);
void planned_free(struct planned *planned);

/* What the proof says of all the plans as programs of `job`: the planned one, or
 * another of as many cutters. `record` may be NULL; else release it with
 * proof_record_free. Fails the test when there is no verdict, or when a plan's
 * passes are not those that its moves tell of. */
struct verdict planned_judged(struct planned *planned, const struct job *job,
			      struct proof_record *record);

/* The same of these moves alone, as one program of the first cutter whose passes
 * nobody tells. */
struct verdict planned_moves_judged(const struct planned *planned, const struct job *job,
				    struct motion_list *moves, struct proof_record *record);

/* Measures the judged plans of the planned job; fails the test on a fault. Release
 * with job_result_free. */
void planned_measured(struct job_result *out, const struct planned *planned,
		      const struct verdict *verdict, const struct proof_record *record);

/* Prints what is known of each promise that is not kept or was not judged, a line
 * each, behind the words. */
void print_broken(const char *words, const struct verdict *verdict);

/* Fails the running test unless every promise is kept; prints those that are not. */
#define assert_proven(verdict) proven_or_fail((verdict), __FILE__, __LINE__)

/* What the macro calls. */
void proven_or_fail(const struct verdict *verdict, const char *file, int line);

#endif
