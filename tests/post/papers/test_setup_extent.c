/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much room a job takes. */
#include "bench_sample.h"

#include "papers/setup_extent.h"
#include "support/near.h"

static void assert_vec(struct vec3 v, double x, double y, double z)
{
	assert_near(v.x, x, 1e-9, "x, mm");
	assert_near(v.y, y, 1e-9, "y, mm");
	assert_near(v.z, z, 1e-9, "z, mm");
}

static void moves_of_all_programs_are_counted(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	(void)state;
	job.fixture.work_zero_mm = vec3_make(10.0, 2.0, -18.0);
	bench_sample_make(&sample, &job);
	struct setup_box moves = setup_moves(&sample.result);
	assert_vec(moves.least, -71.5, -42.25, -9.5);
	assert_vec(moves.most, 374.25, 41.25, 98.75);
	moves = setup_moves_on_neck(&sample.content);
	assert_vec(moves.least, -61.5, -40.25, -27.5);
	assert_vec(moves.most, 384.25, 43.25, 80.75);
	bench_sample_free(&sample);
}

static void nothing_sticks_out_of_the_extent(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	(void)state;
	bench_sample_make(&sample, &job);
	struct setup_box all = setup_extent(&sample.content);
	/* x: blank; y: the clamp's 55; z: bed under an 18 mm riser, highest move */
	assert_vec(all.least, -75.0, -55.0, -18.0);
	assert_vec(all.most, 375.0, 55.0, 98.75);
	assert_near(setup_bed_mm(&sample.job), -18.0, 0.0, "bed, mm");
	sample.job.fixture.keep_out[0].top_mm = 130.0;
	sample.job.fixture.hold[0].x_to_mm = 402.0;
	assert_vec(setup_extent(&sample.content).most, 402.0, 55.0, 130.0);
	bench_sample_free(&sample);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(moves_of_all_programs_are_counted),
		cmocka_unit_test(nothing_sticks_out_of_the_extent),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
