/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Light under a straight edge, on necks whose crest is straight, hollow, proud. */
#include "bench_sample.h"

#include <math.h>

#include "papers/heel_part.h"
#include "papers/light.h"
#include "support/near.h"

/* The sample's neck with `more_mm` of thickness at the station in the middle. */
static struct neck *neck_with(double more_mm)
{
	struct job job = bench_job();
	struct neck *neck;

	job.neck.station_count = 3;
	job.neck.station[1] = job.neck.station[2];
	job.neck.station[2] = job.neck.station[4];
	/* straight from 21 at the nut to 24.3 at fret 11, by x */
	double share = (1.0 - pow(2.0, -5.0 / 12.0)) / (1.0 - pow(2.0, -11.0 / 12.0));
	job.neck.station[1].thickness_mm = 21.0 + 3.3 * share + more_mm;
	assert_int_equal(neck_build(&neck, &job.neck, NULL), FAULT_NONE);
	return neck;
}

static void a_straight_neck_shows_none(void **state)
{
	struct neck *neck = neck_with(0.0);

	(void)state;
	for (int line = 0; line < LIGHT_LINES; line++) {
		struct light light =
			light_under(neck, (enum light_line)line, 0.0, neck_fret_x_mm(neck, 11.0));
		assert_near(light.most_mm, 0.0, LIGHT_NONE_MM, "largest gap, mm");
		for (int i = 0; i < LIGHT_PLACES; i++)
			assert_near(light.gap_mm[i], 0.0, LIGHT_NONE_MM, "gap, mm");
	}
	neck_free(neck);
}

static void hollow_and_proud_are_told_apart(void **state)
{
	(void)state;
	for (int sign = -1; sign <= 1; sign += 2) {
		struct neck *neck = neck_with(sign * 0.3);
		double to = neck_fret_x_mm(neck, 11.0), at5 = neck_fret_x_mm(neck, 5.0);
		struct light light = light_under(neck, LIGHT_CENTRE, 0.0, to);
		/* the station in the middle is off by 0.3; nothing overshoots it much */
		assert_between(-sign * light.most_signed_mm, 0.299, 0.36, "gap at most, mm");
		assert_near(light.most_mm, fabs(light.most_signed_mm), 2e-3, "without sign, mm");
		assert_near(light.most_at_mm, at5, 40.0, "where, mm");
		assert_true(-sign * light.gap_mm[1] > 0.2);
		neck_free(neck);
	}
}

static void gaps_stand_at_quarters(void **state)
{
	struct neck *neck = neck_with(0.4);
	double from = 20.0, to = 260.0;
	double z0 = neck_crest_mm(neck, from), z1 = neck_crest_mm(neck, to);
	struct light light = light_under(neck, LIGHT_CENTRE, from, to);

	(void)state;
	for (int i = 0; i < LIGHT_PLACES; i++) {
		double share = 0.25 * (i + 1);
		assert_near(light.gap_mm[i],
			    z0 + share * (z1 - z0) - neck_crest_mm(neck, from + share * 240.0),
			    1e-9, "gap, mm");
	}
	neck_free(neck);
}

/* The spec's hollow is by how much the cheeks dip half way up, 1 mm. */
static void the_cheeks_are_hollow_half_way_up(void **state)
{
	struct job job = bench_job();
	struct neck *neck;

	(void)state;
	assert_int_equal(neck_build(&neck, &job.neck, NULL), FAULT_NONE);
	for (int side = 0; side < SIDE_COUNT; side++) {
		struct cheek_hollow hollow =
			heel_part_hollow(neck, (enum neck_side)side, neck_to_mm(neck));
		assert_near(hollow.depth_mm, job.neck.heel.hollow_mm, 0.01, "hollow, mm");
		assert_near(hollow.height_mm, job.neck.heel.height_mm / 2.0, 1.5, "height, mm");
	}
	neck_free(neck);
	job.neck.heel.hollow_mm = 0.0;
	assert_int_equal(neck_build(&neck, &job.neck, NULL), FAULT_NONE);
	assert_near(heel_part_hollow(neck, SIDE_PLUS, neck_to_mm(neck)).depth_mm, 0.0, 0.01,
		    "no hollow, mm");
	neck_free(neck);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_straight_neck_shows_none),
		cmocka_unit_test(hollow_and_proud_are_told_apart),
		cmocka_unit_test(gaps_stand_at_quarters),
		cmocka_unit_test(the_cheeks_are_hollow_half_way_up),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
