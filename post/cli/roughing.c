/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/roughing.h"

#include <stdlib.h>

#include "base/mem.h"
#include "base/tol.h"
#include "cli/program_head.h"
#include "files/text_file.h"
#include "job/measure.h"
#include "motion/travel_time.h"
#include "program/file_names.h"
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

/* One program as a text. `pass_block` gets the line of each pass; it may be
 * NULL. */
/* NOLINTBEGIN(readability-non-const-parameter): written through program_head */
static enum fault make_text(struct program_text *text, const struct roughing *work,
			    const char *title, const struct motion_list *motions, int *pass_block,
			    struct fault_list *faults)
{
	struct head_text head = { 0 };
	double minutes = 0.0;
	enum fault fault = time_of(&minutes, motions, &work->job.machine, faults);

	if (!fault)
		fault = program_head_make(&head, &work->job, &work->plan, motions, title, minutes,
					  faults);
	const struct program_head lines = { .line_count = head.count,
					    .line = (const char *const *)head.line,
					    .pass_count = head.label_count,
					    .pass_label = (const char *const *)head.label,
					    .pass_block = pass_block };
	if (!fault)
		fault = program_write(text, motions, &lines, &work->job.machine, faults);
	program_head_free(&head);
	return fault;
}
/* NOLINTEND(readability-non-const-parameter) */

static enum fault make_roughing_text(struct program_text *text, const struct roughing *work,
				     struct fault_list *faults)
{
	return make_text(text, work, "neckhew roughing program", &work->plan.motions,
			 work->pass_block, faults);
}

static enum fault make_dry_run_text(struct program_text *text, const struct roughing *work,
				    struct fault_list *faults)
{
	return make_text(text, work, "neckhew dry run: bounds of the job above the blank",
			 &work->plan.dry_run, NULL, faults);
}

/* Writes a program text into the hidden folder. */
static enum fault write_text(const struct out_dir *out, const char *name,
			     const struct program_text *text, struct fault_list *faults)
{
	char *path = out_dir_file(out, name, faults);
	enum fault fault = path ? FAULT_NONE : FAULT_MEMORY;

	if (!fault)
		fault = text_file_write(path, text->bytes, text->size, faults);
	free(path);
	return fault;
}

static enum fault write_both(const struct roughing *work, const struct out_dir *out,
			     struct fault_list *faults)
{
	struct program_text text = { 0 }, dry_text = { 0 };
	enum fault fault = make_roughing_text(&text, work, faults);

	if (!fault)
		fault = write_text(out, PROGRAM_ROUGHING_FILE, &text, faults);
	if (!fault)
		fault = make_dry_run_text(&dry_text, work, faults);
	if (!fault)
		fault = write_text(out, PROGRAM_DRY_RUN_FILE, &dry_text, faults);
	program_text_free(&text);
	program_text_free(&dry_text);
	return fault;
}

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
			size_t pass_count, struct judgement *judgement, const struct watch *watch,
			struct fault_list *faults)
{
	char *path = out_dir_file(out, name, faults);
	const struct judge_program program = { path, name, pass_count,
					       pass_count > 0 ? work->pass_block : NULL };
	enum fault fault = path ? FAULT_NONE : FAULT_MEMORY;

	*judgement = (struct judgement){ 0 };
	if (!fault)
		fault = judge_programs(judgement, &program, 1, &work->job, work->neck,
				       &work->facets, watch, faults);
	free(path);
	if (fault || judgement->verdict.proven)
		return fault;
	tell_broken(name, &judgement->verdict, faults);
	return FAULT_PROOF;
}

static enum fault prove_both(struct roughing *work, const struct out_dir *out,
			     const struct watch *watch, struct fault_list *faults)
{
	struct judgement dry;
	enum fault fault = prove(work, out, PROGRAM_DRY_RUN_FILE, 0, &dry, NULL, faults);

	judge_free(&dry);
	return fault ? fault
		     : prove(work, out, PROGRAM_ROUGHING_FILE, work->plan.pass_count,
			     &work->judgement, watch, faults);
}

static enum fault plan(struct roughing *work, struct progress *progress, struct fault_list *faults)
{
	struct watch watch = progress_watch(progress);

	progress_step(progress, "planning", ROUGHING_PLANNED);
	enum fault fault = facets_build(&work->facets, work->neck, TOL_FACET_MM, faults);
	if (!fault)
		fault = plan_make(&work->plan, &work->facets, work->neck, &work->job, &watch,
				  faults);
	if (fault)
		return fault;
	work->pass_block = mem_array(work->plan.pass_count, sizeof *work->pass_block);
	return work->pass_block ? FAULT_NONE : fault_no_memory(faults, "the passes");
}

enum fault roughing_run(struct roughing *work, const struct out_dir *out, struct progress *progress,
			struct fault_list *faults)
{
	struct watch watch = progress_watch(progress);
	enum fault fault = plan(work, progress, faults);

	progress_step(progress, "writing", ROUGHING_WRITTEN);
	if (!fault)
		fault = write_both(work, out, faults);
	progress_step(progress, "proving", ROUGHING_PROVEN);
	if (!fault)
		fault = prove_both(work, out, &watch, faults);
	progress_step(progress, "measuring", ROUGHING_MEASURED);
	return fault;
}

enum fault roughing_look(struct roughing *work, struct progress *progress,
			 struct fault_list *faults)
{
	struct watch watch = progress_watch(progress);
	struct program_text text = { 0 };
	enum fault fault = plan(work, progress, faults);

	if (!fault)
		fault = make_roughing_text(&text, work, faults);
	progress_step(progress, "proving", ROUGHING_PROVEN);
	const struct judge_text program = { .bytes = text.bytes,
					    .size = text.size,
					    .about = { NULL, PROGRAM_ROUGHING_FILE,
						       work->plan.pass_count, work->pass_block } };
	if (!fault)
		fault = judge_texts(&work->judgement, &program, 1, &work->job, work->neck,
				    &work->facets, &watch, faults);
	program_text_free(&text);
	progress_step(progress, "measuring", ROUGHING_MEASURED);
	return fault;
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
	const struct measure_program program = { .file = PROGRAM_ROUGHING_FILE,
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
