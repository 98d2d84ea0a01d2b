/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From what the proof saw to the figures that people read. */
#ifndef NECKHEW_JOB_MEASURE_H
#define NECKHEW_JOB_MEASURE_H

#include "base/fault.h"
#include "job/job.h"
#include "job/result.h"
#include "model/facets.h"
#include "model/neck.h"
#include "proof/record.h"

/* What the record does not know of a program. */
struct measure_program {
	const char *file;
	size_t cutter; /* index in the job */
	int blocks; /* lines of its text */
	/* Of each pass, as planned; index as in the record. */
	const enum pass_kind *kind;
	const double *level_mm;
	const enum feed_cap *feed_cap;
	const struct pass_why *why; /* NULL for a program that comes from no plan */
};

/* Measures everything. Release with job_result_free, also after a failure. */
enum fault measure_job(struct job_result *out, const struct job *job, const struct neck *neck,
		       const struct facets *facets, const struct verdict *verdict,
		       const struct proof_record *record, const struct measure_program *programs,
		       struct fault_list *faults);

#endif
