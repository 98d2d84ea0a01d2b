/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/roughing.h"

#include <stdlib.h>

#include "base/mem.h"
#include "base/tol.h"
#include "cli/program_head.h"
#include "files/text_file.h"
#include "job/measure.h"
#include "motion/travel_time.h"
#include "program/write.h"

static enum fault time_of(double *minutes, const struct motion_list *motions,
			  const struct machine *machine, struct fault_list *faults)
{
	double *seconds = mem_array(motions->count, sizeof *seconds), sum = 0.0;

	if (!seconds)
		return fault_no_memory(faults, "the moves' times");
	enum fault fault = travel_times(seconds, motions, machine, faults);
	for (size_t i = 0; i < motions->count && !fault; i++)
		sum += seconds[i];
	free(seconds);
	*minutes = sum / 60.0;
	return fault;
}

/* Writes one program text into the hidden folder. `pass_block` gets the line of
 * each pass; it may be NULL. */
/* NOLINTBEGIN(readability-non-const-parameter): written through program_head */
static enum fault write_program(const struct roughing *work, const struct out_dir *out,
				const char *name, const char *title,
				const struct motion_list *motions, int *pass_block,
				struct fault_list *faults)
{
	struct program_text text = { 0 };
	struct head_text head = { 0 };
	char *path = out_dir_file(out, name, faults);
	double minutes = 0.0;
	enum fault fault = path ? FAULT_NONE : FAULT_MEMORY;

	if (!fault)
		fault = time_of(&minutes, motions, &work->job.machine, faults);
	if (!fault)
		fault = program_head_make(&head, &work->job, &work->plan, motions, title, minutes,
					  faults);
	const struct program_head lines = { .line_count = head.count,
					    .line = (const char *const *)head.line,
					    .pass_count = head.label_count,
					    .pass_label = (const char *const *)head.label,
					    .pass_block = pass_block };
	if (!fault)
		fault = program_write(&text, motions, &lines, &work->job.machine, faults);
	if (!fault)
		fault = text_file_write(path, text.bytes, text.size, faults);
	program_text_free(&text);
	program_head_free(&head);
	free(path);
	return fault;
}
/* NOLINTEND(readability-non-const-parameter) */

static void tell_broken(const char *file, const struct verdict *verdict, struct fault_list *faults)
{
	for (int i = 0; i < PROMISE_COUNT; i++) {
		const struct promise_result *result = &verdict->promise[i];
		if (result->judged && !result->kept)
			(void)fault_add(faults, FAULT_PROOF, file, result->block, NULL,
					"not proven (%s): %s", promise_text((enum promise)i)->key,
					result->why);
	}
	(void)fault_add(faults, FAULT_PROOF, NULL, 0, NULL,
			"The program was not proven safe, so nothing was written.");
}

/* Reads one program back from disk and judges it. */
static enum fault prove(const struct roughing *work, const struct out_dir *out, const char *name,
			size_t pass_count, struct judgement *judgement, struct fault_list *faults)
{
	char *path = out_dir_file(out, name, faults);
	const struct judge_program program = { path, name, pass_count,
					       pass_count > 0 ? work->pass_block : NULL };
	enum fault fault = path ? FAULT_NONE : FAULT_MEMORY;

	*judgement = (struct judgement){ 0 };
	if (!fault)
		fault = judge_programs(judgement, &program, 1, &work->job, work->neck,
				       &work->facets, faults);
	free(path);
	if (fault || judgement->verdict.proven)
		return fault;
	tell_broken(name, &judgement->verdict, faults);
	return FAULT_PROOF;
}

static enum fault prove_both(struct roughing *work, const struct out_dir *out,
			     struct fault_list *faults)
{
	struct judgement dry;
	enum fault fault = prove(work, out, ROUGHING_DRY_RUN, 0, &dry, faults);

	judge_free(&dry);
	return fault ? fault
		     : prove(work, out, ROUGHING_PROGRAM, work->plan.pass_count, &work->judgement,
			     faults);
}

enum fault roughing_run(struct roughing *work, const struct out_dir *out,
			struct terminal_progress *progress, struct fault_list *faults)
{
	terminal_progress_step(progress, "planning");
	enum fault fault = facets_build(&work->facets, work->neck, TOL_FACET_MM, faults);
	if (!fault)
		fault = plan_make(&work->plan, &work->facets, work->neck, &work->job, faults);
	if (!fault) {
		work->pass_block = mem_array(work->plan.pass_count, sizeof *work->pass_block);
		if (!work->pass_block)
			fault = fault_no_memory(faults, "the passes");
	}
	terminal_progress_step(progress, "writing the program");
	if (!fault)
		fault = write_program(work, out, ROUGHING_PROGRAM, "neckhew roughing program",
				      &work->plan.motions, work->pass_block, faults);
	if (!fault)
		fault = write_program(work, out, ROUGHING_DRY_RUN,
				      "neckhew dry run: bounds of the job above the blank",
				      &work->plan.dry_run, NULL, faults);
	terminal_progress_step(progress, "proving");
	return fault ? fault : prove_both(work, out, faults);
}

/* What the plan knows of its passes, as measure_job wants it. */
struct pass_lists {
	enum pass_kind *kind;
	double *level;
	enum feed_cap *cap;
};

static enum fault measure(const struct roughing *work, const struct pass_lists *lists,
			  struct job_result *result, struct fault_list *faults)
{
	for (size_t i = 0; i < work->plan.pass_count; i++) {
		lists->kind[i] = work->plan.pass[i].kind;
		lists->level[i] = work->plan.pass[i].level_mm;
		lists->cap[i] = work->plan.pass[i].feed.cap;
	}
	const struct measure_program program = { .file = ROUGHING_PROGRAM,
						 .blocks = work->judgement.blocks
								   ? work->judgement.blocks[0]
								   : 0,
						 .kind = lists->kind,
						 .level_mm = lists->level,
						 .feed_cap = lists->cap };
	return measure_job(result, &work->job, work->neck, &work->facets, &work->judgement.verdict,
			   &work->judgement.record, &program, faults);
}

enum fault roughing_measure(const struct roughing *work, struct job_result *result,
			    struct fault_list *faults)
{
	size_t count = work->plan.pass_count;
	struct pass_lists lists = { mem_array(count, sizeof *lists.kind),
				    mem_array(count, sizeof *lists.level),
				    mem_array(count, sizeof *lists.cap) };
	enum fault fault = lists.kind && lists.level && lists.cap
				   ? measure(work, &lists, result, faults)
				   : fault_no_memory(faults, "the passes");

	free(lists.kind);
	free(lists.level);
	free(lists.cap);
	return fault;
}

void roughing_free(struct roughing *work)
{
	judge_free(&work->judgement);
	free(work->pass_block);
	plan_free(&work->plan);
	facets_free(&work->facets);
	neck_free(work->neck);
	*work = (struct roughing){ 0 };
}
