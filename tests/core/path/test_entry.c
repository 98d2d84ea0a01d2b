/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The way down to a run of one way, in the wood of the short neck's blank. */
#include "path/entry.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/sample_bed.h"
#include "support/seed.h"

/* Deep in the blank, whose top is at 20; up and down as it comes. */
static void random_run(struct track *run, const gsl_rng *rng)
{
	struct vec3 p = { seed_between(rng, 0, 10), seed_between(rng, -12, 12), 16 };

	run->one_way = true;
	for (int i = 0; i < 12; i++) {
		p.z = fmin(fmax(p.z + seed_between(rng, -1.5, 1.5), 14.0), 19.0);
		p.z = round(p.z * 1000.0) / 1000.0;
		assert_int_equal(track_add(run, p, NULL), FAULT_NONE);
		p.x = round((p.x + seed_between(rng, 0.05, 4.0)) * 1000.0) / 1000.0;
	}
}

/* Once at its top it never rises, keeps above the run, sinks no more steeply
 * than the ramp but straight down at its end, and ends over the start. */
static void assert_sinks(const struct track *ramp, const struct track *run, double slope)
{
	const struct vec3 *p = ramp->p;

	for (size_t i = 1; i < ramp->count; i++) {
		double plan = hypot(p[i].x - p[i - 1].x, p[i].y - p[i - 1].y);
		assert_between(p[i - 1].z - p[i].z, -1e-9, slope * plan + 0.0021, "sinks, mm");
		for (size_t k = 1; k < run->count; k++) {
			double f = (p[i].x - run->p[k - 1].x) / (run->p[k].x - run->p[k - 1].x);
			if (f < 0.0 || f > 1.0)
				continue;
			double z = run->p[k - 1].z + f * (run->p[k].z - run->p[k - 1].z);
			assert_true(p[i].z > z - 0.0011);
		}
	}
	assert_near(p[ramp->count - 1].x, run->p[0].x, 1e-9, "ends over the start, mm");
	assert_near(p[ramp->count - 1].y, run->p[0].y, 1e-9, "ends over the start, mm");
}

static void ramps_of_one_way_runs_only_sink(void **state)
{
	struct sample_bed *bed = *state;
	gsl_rng *rng = seed_rng("ramps_of_one_way_runs_only_sink");
	double slope = tan(bed->job.cutter[0].ramp_angle_rad);

	for (unsigned long n = 0; n < 100; n++) {
		struct track run = { 0 }, ramp = { 0 };
		seed_nth(rng, n);
		random_run(&run, rng);
		assert_int_equal(entry_make(&ramp, &bed->bench, &run, 25.0, NULL), FAULT_NONE);
		assert_true(ramp.count >= 3);
		assert_true(ramp.p[0].z >= 20.0); /* above all wood there */
		assert_sinks(&ramp, &run, slope);
		/* a level beginning leaves nothing to plunge */
		double peak = run.p[0].z, way = 0.0;
		for (size_t i = 1; i < run.count && way < 30.0; i++) {
			peak = fmax(peak, run.p[i].z);
			way += run.p[i].x - run.p[i - 1].x;
		}
		assert_near(ramp.p[ramp.count - 1].z, peak, 0.05, "down to the highest, mm");
		track_free(&run);
		track_free(&ramp);
	}
	gsl_rng_free(rng);
}

/* Where nothing stands it goes straight down. */
static void nothing_there_no_ramp(void **state)
{
	struct sample_bed *bed = *state;
	struct track run = { .one_way = true }, ramp = { 0 };

	assert_int_equal(track_add(&run, vec3_make(10, 0, 21), NULL), FAULT_NONE);
	assert_int_equal(track_add(&run, vec3_make(20, 0, 21), NULL), FAULT_NONE);
	assert_int_equal(entry_make(&ramp, &bed->bench, &run, 25.0, NULL), FAULT_NONE);
	assert_int_equal(ramp.count, 1);
	assert_near(ramp.p[0].z, 21.0, 0.0, "the start itself, mm");
	track_free(&run);
	track_free(&ramp);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(ramps_of_one_way_runs_only_sink),
		cmocka_unit_test(nothing_there_no_ramp),
	};

	return cmocka_run_group_tests(tests, sample_bed_setup, sample_bed_teardown);
}
