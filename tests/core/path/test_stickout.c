/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stickout that would do, tried: with it the holder lifts the ball nowhere,
 * with a little less it does. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "path/stickout.h"
#include "support/near.h"
#include "support/sample_job.h"

static double least(const struct job *job, const struct sample_model *model)
{
	struct drop *drop;
	double least_mm = 0.0;

	assert_int_equal(drop_build(&drop, &model->facets, model->neck, job, &job->cutter[0], 0.004,
				    NULL),
			 FAULT_NONE);
	assert_int_equal(stickout_least(&least_mm, drop, &model->facets, job, &job->cutter[0],
					NULL),
			 FAULT_NONE);
	drop_free(drop);
	return least_mm;
}

/* Whether the tool lifts the ball by more than 0.05 mm anywhere on the neck's
 * carved part, 25 mm to either side. */
static bool lifts(const struct job *job, const struct sample_model *model)
{
	struct drop *drop;
	size_t hint = 0;
	bool any = false;

	assert_int_equal(drop_build(&drop, &model->facets, model->neck, job, &job->cutter[0], 0.004,
				    NULL),
			 FAULT_NONE);
	for (double x = job->carve.from_mm; x <= job->carve.to_mm; x += 0.7)
		for (double y = -25.0; y <= 25.0; y += 0.7)
			any = any ||
			      drop_tool_mm(drop, x, y) > drop_ball_mm(drop, x, y, &hint) + 0.05;
	drop_free(drop);
	return any;
}

static void assert_least(struct job job)
{
	struct sample_model model;

	sample_model_make(&model, &job.neck);
	double found = least(&job, &model);
	assert_true(found > job.cutter[0].stickout_mm);
	assert_true(lifts(&job, &model));
	job.cutter[0].stickout_mm = found;
	assert_false(lifts(&job, &model));
	/* the answer does not depend on the stickout it is asked with */
	assert_near(least(&job, &model), found, 1e-9, "asked again, mm");
	job.cutter[0].stickout_mm = found - 1.0;
	assert_true(lifts(&job, &model));
	sample_model_free(&model);
}

static void holder_needs_so_much(void **state)
{
	(void)state;
	struct job job = sample_short_job();

	job.cutter[0].stickout_mm = 22;
	job.cutter[0].flute_length_mm = 20;
	assert_least(job);
}

/* A wide part 6 mm above a slim holder asks for more than the holder. */
static void what_stands_above_counts(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct sample_model model;

	job.cutter[0].stickout_mm = 22;
	job.cutter[0].flute_length_mm = 20;
	job.cutter[0].holder_diameter_mm = 9;
	job.cutter[0].holder_length_mm = 6;
	sample_model_make(&model, &job.neck);
	double slim = least(&job, &model);
	sample_model_free(&model);
	job.cutter[0].part_count = 1;
	job.cutter[0].part[0] = (struct holder_part){ 60, 50 };
	assert_least(job);
	sample_model_make(&model, &job.neck);
	assert_true(least(&job, &model) > slim);
	sample_model_free(&model);
}

/* What the shank forbids no stickout allows. */
static void wide_shank_in_the_way(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct sample_model model;

	job.cutter[0].flute_length_mm = 14;
	job.cutter[0].shank_diameter_mm = 12;
	sample_model_make(&model, &job.neck);
	assert_true(isnan(least(&job, &model)));
	sample_model_free(&model);
}

/* No shorter than the flutes. */
static void low_necks_ask_for_the_flutes(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct sample_model model;

	job.cutter[0].flute_length_mm = 44;
	sample_model_make(&model, &job.neck);
	assert_near(least(&job, &model), 44.0, 1e-9, "mm");
	sample_model_free(&model);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(holder_needs_so_much),
		cmocka_unit_test(what_stands_above_counts),
		cmocka_unit_test(wide_shank_in_the_way),
		cmocka_unit_test(low_necks_ask_for_the_flutes),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
