/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A second, smaller ball: it goes only where the first left wood, and both
 * together leave what the second alone would have left. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/tol.h"
#include "job/measure.h"
#include "path/plan.h"
#include "proof/proof.h"
#include "support/near.h"
#include "support/sample_job.h"

/* The short neck with a nose fillet too tight for a ball of 12. */
static struct job two_ball_job(void)
{
	struct job job = sample_short_job();

	job.neck.heel.nose_radius_mm = 4.0;
	job.cutter_count = 2;
	job.cutter[1] = job.cutter[0];
	job.cutter[1].ball_diameter_mm = job.cutter[1].shank_diameter_mm = 6.0;
	job.cutter[1].depth_limit_mm = job.cutter[1].stepover_limit_mm = 3.0;
	(void)strcpy(job.cutter[1].name, "ball 6");
	job.cutter[0].ball_diameter_mm = job.cutter[0].shank_diameter_mm = 12.0;
	(void)strcpy(job.cutter[0].name, "ball 12");
	job.fixture.riser_height_mm = 14.0;
	return job;
}

/* Programs of a job, proven and measured. */
struct outcome {
	struct sample_model model;
	struct plan plan[2];
	struct verdict verdict;
	struct proof_record record;
	struct job_result result;
};

static int *number_blocks(struct plan *plan)
{
	int *first = calloc(plan->pass_count, sizeof *first);
	size_t count = 0;

	assert_non_null(first);
	for (size_t i = 0; i < plan->motions.count; i++) {
		plan->motions.item[i].block = (int)i + 1;
		if (plan->motions.item[i].kind == MOTION_PASS)
			first[count++] = (int)i + 1;
	}
	assert_int_equal(count, plan->pass_count);
	return first;
}

static void judge(struct outcome *out, const struct job *job, int *const first[2])
{
	struct proof_program program[2] = { { 0 } };

	for (size_t i = 0; i < job->cutter_count; i++)
		program[i] = (struct proof_program){ .file = "neck.nc",
						     .cutter = i,
						     .motions = &out->plan[i].motions,
						     .pass_count = out->plan[i].pass_count,
						     .pass_first_block = first[i] };
	assert_int_equal(proof_judge(&out->verdict, &out->record, job, out->model.neck,
				     &out->model.facets, program, job->cutter_count, NULL, NULL),
			 FAULT_NONE);
}

static void measure(struct outcome *out, const struct job *job)
{
	enum pass_kind kind[200] = { PASS_LEVEL };
	enum feed_cap cap[200] = { FEED_BY_CHIP_LOAD };
	double level_mm[200] = { 0 };
	struct measure_program program[2];

	for (size_t i = 0; i < job->cutter_count; i++) {
		assert_true(out->plan[i].pass_count <= 200);
		program[i] = (struct measure_program){ .file = "neck.nc",
						       .cutter = i,
						       .kind = kind,
						       .level_mm = level_mm,
						       .feed_cap = cap };
	}
	assert_int_equal(measure_job(&out->result, job, out->model.neck, &out->model.facets,
				     &out->verdict, &out->record, program, NULL),
			 FAULT_NONE);
}

static void make_outcome(struct outcome *out, const struct job *job)
{
	int *first[2] = { NULL, NULL };

	*out = (struct outcome){ 0 };
	sample_model_make(&out->model, &job->neck);
	for (size_t i = 0; i < job->cutter_count; i++) {
		assert_int_equal(plan_make(&out->plan[i], &out->model.facets, out->model.neck, job,
					   i, i > 0 ? &out->plan[i - 1] : NULL, NULL, NULL),
				 FAULT_NONE);
		first[i] = number_blocks(&out->plan[i]);
	}
	judge(out, job, first);
	int broken = verdict_first_broken(&out->verdict);
	if (broken >= 0)
		fail_msg("%s: %s", promise_text((enum promise)broken)->key,
			 out->verdict.promise[broken].why);
	measure(out, job);
	free(first[0]);
	free(first[1]);
}

static void free_outcome(struct outcome *out)
{
	job_result_free(&out->result);
	proof_record_free(&out->record);
	plan_free(&out->plan[0]);
	plan_free(&out->plan[1]);
	sample_model_free(&out->model);
}

static double thickest_over(const struct job_result *result)
{
	double most = 0.0;

	for (int zone = 0; zone < ZONE_COUNT; zone++)
		if (isfinite(result->zone[zone].most_mm))
			most = fmax(most,
				    result->zone[zone].most_mm - result->zone[zone].allowance_mm);
	return most;
}

static void assert_same_stock(const struct job_result *both, const struct job_result *alone,
			      double scallop_mm)
{
	for (int zone = 0; zone < ZONE_COUNT; zone++) {
		const struct zone_figures *a = &both->zone[zone], *b = &alone->zone[zone];
		assert_true(a->least_mm >= a->allowance_mm - TOL_PROOF_MM);
		assert_near(a->most_mm, b->most_mm, scallop_mm, "most stock, mm");
		assert_near(a->mean_mm, b->mean_mm, scallop_mm, "mean stock, mm");
	}
	/* on reachable surface no more than the scallop and 0.05 */
	assert_true(thickest_over(both) <= scallop_mm + 0.05);
}

static void the_second_ball_cuts_less_than_a_third(void **state)
{
	(void)state;
	struct job job = two_ball_job(), small = job;
	struct outcome both, alone;

	small.cutter_count = 1;
	small.cutter[0] = job.cutter[1];
	make_outcome(&both, &job);
	make_outcome(&alone, &small);
	double second = both.result.program[1].cutting_length_mm;
	double whole = alone.result.program[0].cutting_length_mm;
	print_message("  cutting length: second ball %.0f mm, alone %.0f mm\n", second, whole);
	assert_true(second > 0.0);
	assert_true(second < whole / 3.0);
	assert_same_stock(&both.result, &alone.result, job.carve.scallop_limit_mm);
	/* what the first left, the second took */
	assert_true(both.result.program[0].left_most_mm >
		    both.result.program[1].left_most_mm + 0.3);
	assert_true(both.result.program[0].left_mm3 > both.result.program[1].left_mm3);
	free_outcome(&both);
	free_outcome(&alone);
}

/* The same ball once more has nothing to do, where the stock is even: at a step
 * of it lines and contours may leave a little more than a scallop between. */
static void a_cutter_without_work_is_refused(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct fault_list faults = { 0 };
	struct sample_model model;
	struct plan first, second;

	job.neck.allowance = (struct allowance_spec){ 0.8, 0.8, 0.8, 0.8, 3.0 };
	job.cutter_count = 2;
	job.cutter[1] = job.cutter[0];
	sample_model_make(&model, &job.neck);
	assert_int_equal(plan_make(&first, &model.facets, model.neck, &job, 0, NULL, NULL, NULL),
			 FAULT_NONE);
	assert_int_equal(plan_make(&second, &model.facets, model.neck, &job, 1, &first, NULL,
				   &faults),
			 FAULT_PLAN);
	assert_string_equal(faults.record[0].setting, "use.then");
	assert_non_null(strstr(faults.record[0].message, "ball 8"));
	plan_free(&first);
	plan_free(&second);
	sample_model_free(&model);
}

/* The proof holds each program against its own cutter: with the balls changed
 * over, the larger one comes into the neck. */
static void balls_changed_over_are_refused(void **state)
{
	(void)state;
	struct job job = two_ball_job(), wrong;
	struct outcome both;
	struct proof_record record;
	struct verdict verdict;

	make_outcome(&both, &job);
	wrong = job;
	wrong.cutter[0] = job.cutter[1];
	wrong.cutter[1] = job.cutter[0];
	struct proof_program program[2] = {
		{ .file = "a", .cutter = 0, .motions = &both.plan[0].motions },
		{ .file = "b", .cutter = 1, .motions = &both.plan[1].motions },
	};
	assert_int_equal(proof_judge(&verdict, &record, &wrong, both.model.neck, &both.model.facets,
				     program, 2, NULL, NULL),
			 FAULT_NONE);
	assert_false(verdict.proven);
	assert_false(verdict.promise[PROMISE_ALLOWANCE].kept);
	assert_int_equal(verdict.promise[PROMISE_ALLOWANCE].program, 1);
	proof_record_free(&record);
	free_outcome(&both);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_second_ball_cuts_less_than_a_third),
		cmocka_unit_test(a_cutter_without_work_is_refused),
		cmocka_unit_test(balls_changed_over_are_refused),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
