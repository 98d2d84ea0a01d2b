/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Contour lines where shank and holder keep terraces: near a terrace's own height
 * the outermost place of that height is now on the neck, now at the terrace's far
 * end, and no line may be cut from one to the other. */
#include "path/contour.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/sample_bed.h"

/* On the terrace beside the heel of the terrace job, mm. */
#define TERRACE_X_MM 60.0
#define TERRACE_Y_MM 16.0

/* How far neighbouring places of the runs lie apart across at most, where they do
 * not follow each other along, mm. */
static double widest_leap_mm(const struct runs *runs)
{
	double widest = 0.0;

	for (size_t i = 0; i < runs->count; i++)
		for (size_t k = 1; k < runs->run[i].count; k++) {
			struct vec3 d = vec3_sub(runs->run[i].p[k], runs->run[i].p[k - 1]);
			if (fabs(d.y) > 50.0 * fabs(d.x))
				widest = fmax(widest, fabs(d.y));
		}
	return widest;
}

/* Nearest to the centre line and farthest from it, mm. */
static void assert_from_to(const struct runs *runs, double near_mm, double far_mm)
{
	double least = INFINITY, most = 0.0;

	for (size_t i = 0; i < runs->count; i++)
		for (size_t k = 0; k < runs->run[i].count; k++) {
			least = fmin(least, fabs(runs->run[i].p[k].y));
			most = fmax(most, fabs(runs->run[i].p[k].y));
		}
	assert_between(least, 0.0, near_mm, "nearest, mm");
	assert_between(most, far_mm, INFINITY, "farthest, mm");
}

static void contours_do_not_leap_over_a_terrace(void **state)
{
	(void)state;
	static const double over_mm[] = { 0.0, 0.011, 0.05, 0.2, 0.6 };
	struct job job = sample_terrace_job();
	struct sample_bed bed;

	sample_bed_make(&bed, &job);
	const struct profile *profile = &bed.bench.profile;
	double terrace_mm =
		profile_bare_mm(profile, profile_ix(profile, TERRACE_X_MM), TERRACE_Y_MM);
	assert_between(terrace_mm, 33.0, 34.0, "terrace, mm");
	for (size_t i = 0; i < sizeof over_mm / sizeof *over_mm; i++) {
		struct runs runs = { 0 };
		double steepness;
		assert_int_equal(contour_level(&runs, &bed.bench, terrace_mm + over_mm[i], false,
					       &steepness, NULL),
				 FAULT_NONE);
		assert_between(widest_leap_mm(&runs), 0.0, 1.0, "leap, mm");
		/* both ends are there, each in runs of its own */
		if (over_mm[i] > 0.0)
			assert_from_to(&runs, 10.0, 14.0);
		runs_free(&runs);
	}
	sample_bed_free(&bed);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(contours_do_not_leap_over_a_terrace),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
