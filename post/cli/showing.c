/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/showing.h"

#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "base/tol.h"
#include "cli/load.h"
#include "job/measure.h"

/* Of a proof and its figures, the proof takes about so much. */
#define PROVEN_SHARE 0.85

enum fault showing_plan(struct showing *showing, struct progress *progress,
			struct fault_list *faults)
{
	enum fault fault = roughing_look(&showing->work, progress, faults);

	if (!fault)
		fault = roughing_measure(&showing->work, &showing->result, faults);
	showing->measured = !fault;
	return fault;
}

/* A program counts as one pass that begins before its first line. */
static const int whole_program[1] = { 0 };

static enum fault judge(struct showing *showing, const char *const *path, size_t count,
			const struct watch *watch, struct fault_list *faults)
{
	struct roughing *work = &showing->work;
	struct judge_program *programs = mem_array(count, sizeof *programs);

	if (!programs)
		return fault_no_memory(faults, "the programs");
	for (size_t i = 0; i < count; i++)
		programs[i] = (struct judge_program){ path[i], path[i],
						      work->job.cutter_count > 1 ? i : 0, 1,
						      whole_program };
	enum fault fault = facets_build(&work->facets, work->neck, TOL_FACET_MM, faults);
	if (!fault)
		fault = judge_programs(&work->judgement, programs, count, &work->job, work->neck,
				       &work->facets, watch, faults);
	free(programs);
	return fault;
}

static enum fault measure(struct showing *showing, const char *const *path, size_t count,
			  struct fault_list *faults)
{
	static const enum pass_kind kind[1];
	static const enum feed_cap cap[1];
	static const double level_mm[1];
	const struct roughing *work = &showing->work;
	struct measure_program *programs = mem_array(count, sizeof *programs);

	if (!programs)
		return fault_no_memory(faults, "the programs' figures");
	for (size_t i = 0; i < count; i++) {
		const char *slash = strrchr(path[i], '/');
		programs[i] =
			(struct measure_program){ .file = slash ? slash + 1 : path[i],
						  .cutter = work->job.cutter_count > 1 ? i : 0,
						  .blocks = work->judgement.blocks[i],
						  .kind = kind,
						  .level_mm = level_mm,
						  .feed_cap = cap };
	}
	enum fault fault = measure_job(&showing->result, &work->job, work->neck, &work->facets,
				       &work->judgement.verdict, &work->judgement.record, programs,
				       faults);
	free(programs);
	return fault;
}

enum fault showing_programs(struct showing *showing, const char *const *path, size_t count,
			    struct progress *progress, struct fault_list *faults)
{
	struct watch watch = progress_watch(progress);
	enum fault fault = load_match_programs(&showing->work.job, count, faults);

	if (fault)
		return fault;
	progress_step(progress, "proving", PROVEN_SHARE);
	fault = judge(showing, path, count, &watch, faults);
	progress_step(progress, "measuring", SHOWING_PROGRAMS_SHARE);
	if (fault || showing->work.judgement.record.program_count == 0)
		return fault;
	fault = measure(showing, path, count, faults);
	showing->measured = !fault;
	return fault;
}

void showing_free(struct showing *showing)
{
	job_result_free(&showing->result);
	roughing_free(&showing->work);
	*showing = (struct showing){ 0 };
}
