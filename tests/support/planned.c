/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/planned.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "job/measure.h"
#include "support/moves.h"

#define FILE_NAME "neck.nc"

void planned_make(struct planned *out, const struct job *job)
{
	struct fault_list faults = { 0 };

	*out = (struct planned){ .job = *job };
	sample_model_make(&out->model, &out->job.neck);
	for (size_t i = 0; i < job->cutter_count; i++)
		if (plan_make(&out->plan[i], &out->model.facets, out->model.neck, &out->job, i,
			      i > 0 ? &out->plan[i - 1] : NULL, NULL, &faults) != FAULT_NONE)
			fail_msg("%s: %s", faults.record[0].setting, faults.record[0].message);
}

void planned_free(struct planned *planned)
{
	for (size_t i = 0; i < JOB_CUTTERS_MAX; i++)
		plan_free(&planned->plan[i]);
	sample_model_free(&planned->model);
}

static struct verdict judged(const struct planned *planned, const struct job *job,
			     const struct proof_program *programs, size_t count,
			     struct proof_record *record)
{
	struct proof_record own;
	struct verdict verdict;

	assert_int_equal(proof_judge(&verdict, record ? record : &own, job, planned->model.neck,
				     &planned->model.facets, programs, count, NULL, NULL),
			 FAULT_NONE);
	if (!record)
		proof_record_free(&own);
	return verdict;
}

/* Returns the blocks at which the plan's passes begin. */
static int *first_blocks(const struct plan *plan)
{
	int *first = calloc(plan->pass_count + 1, sizeof *first);
	size_t count = 0;

	assert_non_null(first);
	for (size_t i = 0; i < plan->motions.count; i++) {
		if (plan->motions.item[i].kind != MOTION_PASS)
			continue;
		assert_true(count < plan->pass_count);
		first[count++] = plan->motions.item[i].block;
	}
	assert_int_equal(count, plan->pass_count);
	return first;
}

struct verdict planned_judged(struct planned *planned, const struct job *job,
			      struct proof_record *record)
{
	struct proof_program program[JOB_CUTTERS_MAX] = { 0 };
	int *first[JOB_CUTTERS_MAX];
	size_t count = planned->job.cutter_count;

	assert_int_equal(job->cutter_count, count);
	for (size_t i = 0; i < count; i++) {
		struct plan *plan = &planned->plan[i];
		moves_number(&plan->motions);
		first[i] = first_blocks(plan);
		program[i] = (struct proof_program){ .file = FILE_NAME,
						     .cutter = i,
						     .motions = &plan->motions,
						     .pass_count = plan->pass_count,
						     .pass_first_block = first[i] };
	}
	struct verdict verdict = judged(planned, job, program, count, record);
	for (size_t i = 0; i < count; i++)
		free(first[i]);
	return verdict;
}

struct verdict planned_moves_judged(const struct planned *planned, const struct job *job,
				    struct motion_list *moves, struct proof_record *record)
{
	const struct proof_program program = { .file = FILE_NAME, .motions = moves };

	moves_number(moves);
	return judged(planned, job, &program, 1, record);
}

/* What the planner knows of a plan's passes. */
struct pass_lists {
	enum pass_kind *kind;
	enum feed_cap *cap;
	double *level_mm;
};

static struct pass_lists list_passes(const struct plan *plan)
{
	struct pass_lists lists = { calloc(plan->pass_count + 1, sizeof *lists.kind),
				    calloc(plan->pass_count + 1, sizeof *lists.cap),
				    calloc(plan->pass_count + 1, sizeof *lists.level_mm) };

	assert_true(lists.kind && lists.cap && lists.level_mm);
	for (size_t i = 0; i < plan->pass_count; i++) {
		lists.kind[i] = plan->pass[i].kind;
		lists.cap[i] = plan->pass[i].feed.cap;
		lists.level_mm[i] = plan->pass[i].level_mm;
	}
	return lists;
}

void planned_measured(struct job_result *out, const struct planned *planned,
		      const struct verdict *verdict, const struct proof_record *record)
{
	struct pass_lists lists[JOB_CUTTERS_MAX];
	struct measure_program program[JOB_CUTTERS_MAX] = { 0 };
	size_t count = planned->job.cutter_count;

	for (size_t i = 0; i < count; i++) {
		lists[i] = list_passes(&planned->plan[i]);
		program[i] =
			(struct measure_program){ .file = FILE_NAME,
						  .cutter = i,
						  .blocks = (int)planned->plan[i].motions.count,
						  .kind = lists[i].kind,
						  .level_mm = lists[i].level_mm,
						  .feed_cap = lists[i].cap };
	}
	assert_int_equal(measure_job(out, &planned->job, planned->model.neck,
				     &planned->model.facets, verdict, record, program, NULL),
			 FAULT_NONE);
	for (size_t i = 0; i < count; i++) {
		free(lists[i].kind);
		free(lists[i].cap);
		free(lists[i].level_mm);
	}
}

void print_broken(const char *words, const struct verdict *verdict)
{
	for (int i = 0; i < PROMISE_COUNT; i++) {
		const struct promise_result *result = &verdict->promise[i];
		const char *key = promise_text((enum promise)i)->key;
		if (!result->judged)
			print_error("%s: %s not judged\n", words, key);
		else if (!result->kept)
			print_error("%s: %s broken by program %d at block %d, %.4f against %.4f: "
				    "%s\n",
				    words, key, result->program, result->block, result->worst,
				    result->limit, result->why);
	}
}

void proven_or_fail(const struct verdict *verdict, const char *file, int line)
{
	if (verdict->proven)
		return;
	print_broken("not proven", verdict);
	_fail(file, line);
}
