/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/roughing.h"

#include <stdlib.h>

#include "base/mem.h"
#include "base/tol.h"
#include "cli/program_head.h"
#include "files/text_file.h"
#include "job/measure.h"
#include "motion/travel_time.h"
#include "path/tabs.h"
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
static enum fault make_text(struct program_text *text, const struct roughing *work, size_t turn,
			    const char *title, const struct motion_list *motions, int *pass_block,
			    struct fault_list *faults)
{
	struct head_text head = { 0 };
	double minutes = 0.0;
	enum fault fault = time_of(&minutes, motions, &work->job.machine, faults);

	if (!fault)
		fault = program_head_make(&head, &work->job, turn, &work->plan[turn], motions,
					  title, minutes, faults);
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
				     size_t turn, struct fault_list *faults)
{
	return make_text(text, work, turn, "neckhew roughing program", &work->plan[turn].motions,
			 work->pass_block[turn], faults);
}

/* The first cutter sees the whole blank, so its bounds are the job's. */
static enum fault make_dry_run_text(struct program_text *text, const struct roughing *work,
				    struct fault_list *faults)
{
	return make_text(text, work, 0, "neckhew dry run: bounds of the job above the blank",
			 &work->plan[0].dry_run, NULL, faults);
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

static enum fault write_roughing(const struct roughing *work, const struct out_dir *out,
				 size_t turn, struct fault_list *faults)
{
	char name[PROGRAM_FILE_ROOM];
	struct program_text text = { 0 };
	enum fault fault = make_roughing_text(&text, work, turn, faults);

	program_roughing_file(name, turn, work->job.cutter_count);
	if (!fault)
		fault = write_text(out, name, &text, faults);
	program_text_free(&text);
	return fault;
}

static enum fault write_all(const struct roughing *work, const struct out_dir *out,
			    struct fault_list *faults)
{
	struct program_text dry_text = { 0 };
	enum fault fault = make_dry_run_text(&dry_text, work, faults);

	if (!fault)
		fault = write_text(out, PROGRAM_DRY_RUN_FILE, &dry_text, faults);
	for (size_t i = 0; i < work->job.cutter_count && !fault; i++)
		fault = write_roughing(work, out, i, faults);
	program_text_free(&dry_text);
	return fault;
}

static void tell_broken(const struct judge_program *programs, const struct verdict *verdict,
			struct fault_list *faults)
{
	for (int i = 0; i < PROMISE_COUNT; i++) {
		const struct promise_result *result = &verdict->promise[i];
		if (result->judged && !result->kept)
			(void)fault_add(faults, FAULT_PROOF, programs[result->program].name,
					result->block, NULL, "not proven (%s): %s",
					promise_text((enum promise)i)->key, result->why);
	}
	(void)fault_add(faults, FAULT_PROOF, NULL, 0, NULL,
			"The program was not proven safe, so nothing was written.");
}

/* Judges programs by the bytes on disk. */
static enum fault prove(const struct roughing *work, const struct judge_program *programs,
			size_t count, struct judgement *judgement, const struct watch *watch,
			struct fault_list *faults)
{
	enum fault fault = judge_programs(judgement, programs, count, &work->job, work->neck,
					  &work->facets, watch, faults);

	if (fault || judgement->verdict.proven)
		return fault;
	tell_broken(programs, &judgement->verdict, faults);
	return FAULT_PROOF;
}

static enum fault prove_dry_run(const struct roughing *work, const struct out_dir *out,
				struct fault_list *faults)
{
	char *path = out_dir_file(out, PROGRAM_DRY_RUN_FILE, faults);
	const struct judge_program program = { .path = path, .name = PROGRAM_DRY_RUN_FILE };
	struct judgement dry = { 0 };
	enum fault fault = path ? prove(work, &program, 1, &dry, NULL, faults) : FAULT_MEMORY;

	judge_free(&dry);
	free(path);
	return fault;
}

/* Who is who among the programs; paths come where there are files. */
struct cast {
	char name[JOB_CUTTERS_MAX][PROGRAM_FILE_ROOM];
	struct judge_program program[JOB_CUTTERS_MAX];
};

static void make_cast(struct cast *cast, const struct roughing *work)
{
	*cast = (struct cast){ 0 };
	for (size_t i = 0; i < work->job.cutter_count; i++)
		cast->program[i] = (struct judge_program){
			.name = program_roughing_file(cast->name[i], i, work->job.cutter_count),
			.cutter = i,
			.pass_count = work->plan[i].pass_count,
			.pass_first_block = work->pass_block[i],
		};
}

static enum fault prove_roughing(struct roughing *work, const struct out_dir *out,
				 const struct watch *watch, struct fault_list *faults)
{
	char *path[JOB_CUTTERS_MAX] = { NULL };
	size_t count = work->job.cutter_count;
	enum fault fault = FAULT_NONE;
	struct cast cast;

	make_cast(&cast, work);
	for (size_t i = 0; i < count && !fault; i++) {
		cast.program[i].path = path[i] = out_dir_file(out, cast.name[i], faults);
		fault = path[i] ? FAULT_NONE : FAULT_MEMORY;
	}
	if (!fault)
		fault = prove(work, cast.program, count, &work->judgement, watch, faults);
	for (size_t i = 0; i < count; i++)
		free(path[i]);
	return fault;
}

static enum fault plan_turn(struct roughing *work, size_t turn, const struct watch *watch,
			    struct fault_list *faults)
{
	struct plan *plan = &work->plan[turn];
	enum fault fault = plan_make(plan, &work->facets, work->neck, &work->job, turn,
				     turn > 0 ? &work->plan[turn - 1] : NULL, watch, faults);

	if (fault)
		return fault;
	work->pass_block[turn] = mem_array(plan->pass_count, sizeof *work->pass_block[turn]);
	return work->pass_block[turn] ? FAULT_NONE : fault_no_memory(faults, "the passes");
}

static enum fault plan(struct roughing *work, struct progress *progress, struct fault_list *faults)
{
	struct watch watch = progress_watch(progress);

	progress_step(progress, "planning", ROUGHING_PLANNED);
	enum fault fault = facets_build(&work->facets, work->neck, TOL_FACET_MM, faults);
	if (!fault)
		fault = tabs_choose(&work->job, &work->facets, work->neck, faults);
	for (size_t i = 0; i < work->job.cutter_count && !fault; i++)
		fault = plan_turn(work, i, i == 0 ? &watch : NULL, faults);
	return fault;
}

enum fault roughing_run(struct roughing *work, const struct out_dir *out, struct progress *progress,
			struct fault_list *faults)
{
	struct watch watch = progress_watch(progress);
	enum fault fault = plan(work, progress, faults);

	progress_step(progress, "writing", ROUGHING_WRITTEN);
	if (!fault)
		fault = write_all(work, out, faults);
	progress_step(progress, "proving", ROUGHING_PROVEN);
	if (!fault)
		fault = prove_dry_run(work, out, faults);
	if (!fault)
		fault = prove_roughing(work, out, &watch, faults);
	progress_step(progress, "measuring", ROUGHING_MEASURED);
	return fault;
}

enum fault roughing_look(struct roughing *work, struct progress *progress,
			 struct fault_list *faults)
{
	struct watch watch = progress_watch(progress);
	struct program_text text[JOB_CUTTERS_MAX] = { { 0 } };
	struct judge_text program[JOB_CUTTERS_MAX] = { { 0 } };
	size_t count = work->job.cutter_count;
	enum fault fault = plan(work, progress, faults);
	struct cast cast;

	for (size_t i = 0; i < count && !fault; i++)
		fault = make_roughing_text(&text[i], work, i, faults);
	progress_step(progress, "proving", ROUGHING_PROVEN);
	make_cast(&cast, work);
	for (size_t i = 0; i < count; i++)
		program[i] = (struct judge_text){ text[i].bytes, text[i].size, cast.program[i] };
	if (!fault)
		fault = judge_texts(&work->judgement, program, count, &work->job, work->neck,
				    &work->facets, &watch, faults);
	for (size_t i = 0; i < count; i++)
		program_text_free(&text[i]);
	progress_step(progress, "measuring", ROUGHING_MEASURED);
	return fault;
}

/* What a plan knows of its passes, as measure_job wants it. */
struct pass_lists {
	enum pass_kind *kind;
	double *level_mm;
	enum feed_cap *cap;
	struct pass_why *why;
};

static enum fault list_passes(struct pass_lists *lists, const struct plan *plan,
			      struct fault_list *faults)
{
	size_t count = plan->pass_count;

	*lists = (struct pass_lists){ mem_array(count, sizeof *lists->kind),
				      mem_array(count, sizeof *lists->level_mm),
				      mem_array(count, sizeof *lists->cap),
				      mem_array(count, sizeof *lists->why) };
	if (!lists->kind || !lists->level_mm || !lists->cap || !lists->why)
		return fault_no_memory(faults, "the passes");
	for (size_t i = 0; i < count; i++) {
		lists->kind[i] = plan->pass[i].kind;
		lists->level_mm[i] = plan->pass[i].level_mm;
		lists->cap[i] = plan->pass[i].feed.cap;
		lists->why[i] = plan->pass[i].why;
	}
	return FAULT_NONE;
}

enum fault roughing_measure(const struct roughing *work, struct job_result *result,
			    struct fault_list *faults)
{
	struct measure_program program[JOB_CUTTERS_MAX] = { { 0 } };
	struct pass_lists lists[JOB_CUTTERS_MAX] = { { 0 } };
	size_t count = work->job.cutter_count;
	enum fault fault = FAULT_NONE;
	struct cast cast;

	make_cast(&cast, work);
	for (size_t i = 0; i < count && !fault; i++) {
		fault = list_passes(&lists[i], &work->plan[i], faults);
		program[i] = (struct measure_program){
			.file = cast.name[i],
			.cutter = i,
			.blocks = work->judgement.blocks ? work->judgement.blocks[i] : 0,
			.kind = lists[i].kind,
			.level_mm = lists[i].level_mm,
			.feed_cap = lists[i].cap,
			.why = lists[i].why,
		};
	}
	if (!fault)
		fault = measure_job(result, &work->job, work->neck, &work->facets,
				    &work->judgement.verdict, &work->judgement.record, program,
				    faults);
	for (size_t i = 0; i < count; i++) {
		free(lists[i].kind);
		free(lists[i].level_mm);
		free(lists[i].cap);
		free(lists[i].why);
	}
	return fault;
}

void roughing_free(struct roughing *work)
{
	judge_free(&work->judgement);
	for (size_t i = 0; i < JOB_CUTTERS_MAX; i++) {
		free(work->pass_block[i]);
		plan_free(&work->plan[i]);
	}
	facets_free(&work->facets);
	neck_free(work->neck);
	*work = (struct roughing){ 0 };
}
