/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A second, smaller ball: it goes only where the first left wood, and both
 * together leave what the second alone would have left. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/tol.h"
#include "support/near.h"
#include "support/planned.h"
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
	struct planned planned;
	struct job_result result;
};

static void make_outcome(struct outcome *out, const struct job *job)
{
	struct proof_record record;

	planned_make(&out->planned, job);
	struct verdict verdict = planned_judged(&out->planned, job, &record);
	assert_proven(&verdict);
	planned_measured(&out->result, &out->planned, &verdict, &record);
	proof_record_free(&record);
}

static void free_outcome(struct outcome *out)
{
	job_result_free(&out->result);
	planned_free(&out->planned);
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
	struct job job = sample_short_job(), again;
	struct fault_list faults = { 0 };
	struct planned first;
	struct plan second;

	job.neck.allowance = (struct allowance_spec){ 0.8, 0.8, 0.8, 0.8, 3.0 };
	planned_make(&first, &job);
	again = job;
	again.cutter_count = 2;
	again.cutter[1] = job.cutter[0];
	assert_int_equal(plan_make(&second, &first.model.facets, first.model.neck, &again, 1,
				   &first.plan[0], NULL, &faults),
			 FAULT_PLAN);
	assert_string_equal(faults.record[0].setting, "use.then");
	assert_non_null(strstr(faults.record[0].message, "ball 8"));
	plan_free(&second);
	planned_free(&first);
}

/* The proof holds each program against its own cutter: with the balls changed
 * over, the larger one comes into the neck. */
static void balls_changed_over_are_refused(void **state)
{
	(void)state;
	struct job job = two_ball_job(), wrong = job;
	struct planned both;

	planned_make(&both, &job);
	struct verdict right = planned_judged(&both, &job, NULL);
	assert_proven(&right);
	wrong.cutter[0] = job.cutter[1];
	wrong.cutter[1] = job.cutter[0];
	struct verdict verdict = planned_judged(&both, &wrong, NULL);
	assert_false(verdict.proven);
	assert_false(verdict.promise[PROMISE_ALLOWANCE].kept);
	assert_int_equal(verdict.promise[PROMISE_ALLOWANCE].program, 1);
	planned_free(&both);
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
