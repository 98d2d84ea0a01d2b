/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The main job's middle: plan, write, read back from disk, prove. Fails
 * closed: whatever is not proven never leaves the hidden folder. */
#ifndef NECKHEW_CLI_ROUGHING_H
#define NECKHEW_CLI_ROUGHING_H

#include "cli/judge.h"
#include "cli/progress.h"
#include "files/out_dir.h"
#include "job/job.h"
#include "job/result.h"
#include "model/facets.h"
#include "model/neck.h"
#include "path/plan.h"

/* How far the whole of `neckhew rough` is when each step ends. Measured on
 * examples/steel-string with two processors: of its time 52 % go into the plan,
 * 30 % into the proof, 5 % into figures, 12 % into page, pictures, papers and
 * meshes. */
#define ROUGHING_PLANNED 0.52
#define ROUGHING_WRITTEN 0.53
#define ROUGHING_PROVEN 0.83
#define ROUGHING_MEASURED 0.88

/* Start with { 0 }, fill job and neck; the rest is roughing_run's. */
struct roughing {
	struct job job;
	struct neck *neck;
	struct facets facets;
	struct plan plan[JOB_CUTTERS_MAX]; /* of each cutter */
	int *pass_block[JOB_CUTTERS_MAX]; /* line each pass begins at */
	struct judgement judgement;
};

/* Plans, writes dry run and programs into the output's hidden folder, reads the files
 * back and judges them. FAULT_PROOF when a promise is broken; the faults then
 * say which, where and by how much. */
enum fault roughing_run(struct roughing *work, const struct out_dir *out, struct progress *progress,
			struct fault_list *faults);

/* The same for looking only: the programs stay texts in memory, are read back
 * from there and judged, and nothing is written. A broken promise is no fault
 * here: work->judgement tells. */
enum fault roughing_look(struct roughing *work, struct progress *progress,
			 struct fault_list *faults);

/* Figures of a run. Release with job_result_free. */
enum fault roughing_measure(const struct roughing *work, struct job_result *result,
			    struct fault_list *faults);

void roughing_free(struct roughing *work);

#endif
