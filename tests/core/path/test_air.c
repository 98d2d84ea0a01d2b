/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Passes begin at the wood, each takes some, and little way is cut in air. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "path/side_entry.h"
#include "support/near.h"
#include "support/planned.h"
#include "support/sample_job.h"

/* Every pass takes wood of the blank as drawn; of its way at most `most_share`
 * takes none. */
static void assert_little_air(const struct job *job, double most_share)
{
	struct planned planned;
	struct proof_record record;

	planned_make(&planned, job);
	struct verdict verdict = planned_judged(&planned, job, &record);
	assert_proven(&verdict);
	for (size_t i = 0; i < planned.plan[0].pass_count; i++) {
		const struct plan_pass *pass = &planned.plan[0].pass[i];
		if (!(record.program[0].pass[i].volume_mm3 > 0.0))
			fail_msg("pass %zu, kind %d, level %.3f takes nothing", i, (int)pass->kind,
				 pass->level_mm);
	}
	assert_between(record.program[0].idle_mm / record.program[0].cutting_mm, 0.0, most_share,
		       "share cut in air");
	proof_record_free(&record);
	planned_free(&planned);
}

/* The ends of lines and the ways down weigh more on a neck so short. */
static void short_neck(void **state)
{
	(void)state;
	struct job job = sample_short_job();

	assert_little_air(&job, 0.12);
	job.blank.margin_mm = 0.5;
	assert_little_air(&job, 0.12);
}

static void steel_neck(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.carve.cell_mm = 0.4;
	assert_little_air(&job, 0.06);
}

/* A tall clamp is no reason to begin higher: the levels are those of the wood,
 * 29 mm high and half a millimetre higher with the margin. */
static void levels_begin_at_the_wood(void **state)
{
	(void)state;
	static const double clamp_mm[] = { 25.0, 32.0, 47.3 };
	double first[3];

	for (int margin = 0; margin < 2; margin++) {
		for (size_t k = 0; k < 3; k++) {
			struct job job = sample_short_job();
			struct planned planned;
			job.fixture.keep_out[0].top_mm = clamp_mm[k];
			job.blank.margin_mm = 0.5 * margin;
			planned_make(&planned, &job);
			first[k] = planned.plan[0].pass[0].level_mm;
			planned_free(&planned);
		}
		assert_near(first[1], first[0], 0.0, "a taller clamp, first level, mm");
		assert_near(first[2], first[0], 0.0, "a tall clamp, first level, mm");
		/* deeper than half the limit of 4 mm, and within it */
		assert_between(first[0], 25.0 + 0.5 * margin, 27.0 + 0.5 * margin, "level, mm");
	}
}

/* Beside the heel's cheek: the way in found is clear of wood, at the run's own
 * height, on the carved stretch, and shorter than the way down onto it. */
static void way_in_from_the_side(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct sample_model model;
	struct bench bench = { 0 };
	struct track run = { 0 };
	struct swath swath = { 0 };
	struct vec3 place;
	double radius = cutter_radius_mm(&job.cutter[0]);

	sample_model_make(&model, &job.neck);
	assert_int_equal(bench_build(&bench, &model.facets, model.neck, &job, 0, NULL, NULL),
			 FAULT_NONE);
	assert_int_equal(track_add(&run, vec3_make(60, 18, 10), NULL), FAULT_NONE);
	assert_int_equal(track_add(&run, vec3_make(80, 18, 10), NULL), FAULT_NONE);
	/* within the whole blank there is no way in but from outside of it */
	if (side_entry_find(&bench, &run, 10, &place))
		assert_true(place.y >= 20.0 + radius - 0.5);
	/* wood outward of y = 18 is taken away */
	for (double y = 20.0; y < 24.0; y += 0.5)
		assert_int_equal(stock_sweep(&bench.stock, vec3_make(40, y, 10),
					     vec3_make(86, y, 10), radius, &swath, NULL),
				 FAULT_NONE);
	assert_true(side_entry_find(&bench, &run, 10, &place));
	assert_between(place.y, 18.5, 18.0 + 2.0 * radius, "outward, mm");
	assert_between(place.x, job.carve.from_mm, job.carve.to_mm, "on the carved stretch, mm");
	assert_near(place.z, 10.0, 0.0011, "at the run's height, mm");
	assert_true(bench_bite_mm(&bench, place, radius, radius) <= 0.1);
	/* no lower than asked */
	if (side_entry_find(&bench, &run, 10.0005, &place))
		assert_true(place.z >= 10.0005);
	swath_free(&swath);
	free(run.p);
	bench_free(&bench);
	sample_model_free(&model);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(short_neck),
		cmocka_unit_test(steel_neck),
		cmocka_unit_test(levels_begin_at_the_wood),
		cmocka_unit_test(way_in_from_the_side),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
