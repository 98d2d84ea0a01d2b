/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Times of single moves and corners against closed forms, and where a machine
 * must come to rest. Figures: constant acceleration and the tangent circle,
 * worked out with 40 digits. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "motion/travel_time.h"
#include "support/moves.h"
#include "support/near.h"

/* Feeds in these lists: 50 mm/s. */
#define FEED 3000.0

static void rest_to_rest(void **state)
{
	(void)state;
	static const struct {
		double length_mm, seconds;
	} cases[] = {
		{ 100.0, 2.1 },	   { 360.0, 7.3 },    { 5.0, 0.2 },
		{ 4.0, 0.178885 }, { 1.0, 0.089443 }, { 0.0, 0.0 },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_near(travel_time_s(cases[i].length_mm, 0.0, 0.0, 50.0, 500.0),
			    cases[i].seconds, 5e-7, "rest to rest: L/v + v/a or 2 sqrt(L/a)");
}

static void between_speeds(void **state)
{
	(void)state;
	assert_near(travel_time_s(10.0, 20.0, 0.0, 50.0, 500.0), 0.268, 1e-12,
		    "10 mm from 20 mm/s to rest");
	assert_near(travel_time_s(10.0, 20.0, 30.0, 50.0, 500.0), 0.226, 1e-12,
		    "10 mm from 20 to 30 mm/s");
	assert_near(travel_time_s(0.4, 20.0, 0.0, 50.0, 500.0), 0.04, 1e-12,
		    "0.4 mm is just enough to brake from 20 mm/s");
	assert_near(travel_time_s(10.0, 30.0, 20.0, 50.0, 500.0), 0.226, 1e-12,
		    "a profile read backward takes the same time");
}

static void impossible_is_nan(void **state)
{
	(void)state;
	assert_true(isnan(travel_time_s(0.1, 20.0, 0.0, 50.0, 500.0)));
	assert_true(isnan(travel_time_s(0.399, 20.0, 0.0, 50.0, 500.0)));
	assert_true(isnan(travel_time_s(0.1, 0.0, 20.0, 50.0, 500.0)));
	assert_true(isnan(travel_time_s(10.0, 51.0, 0.0, 50.0, 500.0)));
	assert_true(isnan(travel_time_s(10.0, 0.0, 51.0, 50.0, 500.0)));
	assert_true(isnan(travel_time_s(-1.0, 0.0, 0.0, 50.0, 500.0)));
	assert_true(isnan(travel_time_s(1.0, 0.0, 0.0, 0.0, 500.0)));
	assert_true(isnan(travel_time_s(1.0, 0.0, 0.0, 50.0, 0.0)));
	assert_true(isnan(travel_time_s(NAN, 0.0, 0.0, 50.0, 500.0)));
}

static void corner_speeds(void **state)
{
	(void)state;
	static const struct {
		double turn_deg, deviation_mm, a, speed;
	} cases[] = {
		{ 5.0, 0.02, 500.0, 102.4531 }, { 10.0, 0.02, 500.0, 51.1655 },
		{ 30.0, 0.02, 500.0, 16.8368 }, { 45.0, 0.02, 500.0, 11.0168 },
		{ 90.0, 0.02, 500.0, 4.9135 },	{ 135.0, 0.02, 500.0, 2.4898 },
		{ 90.0, 0.01, 250.0, 2.4567 },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_near(corner_speed_mm_per_s(units_rad_from_deg(cases[i].turn_deg),
						  cases[i].deviation_mm, cases[i].a),
			    cases[i].speed, 6e-5, "speed on the tangent circle");
	assert_true(isinf(corner_speed_mm_per_s(0.0, 0.02, 500.0)));
	assert_near(corner_speed_mm_per_s(PI, 0.02, 500.0), 0.0, 0.0, "straight back is a stop");
}

/* One diagonal of two axes: each limit is met by the axis that reaches it
 * first, on its share of the way. */
static void limits_follow_direction(void **state)
{
	(void)state;
	struct machine machine = moves_machine(6000.0, 9000.0, 1000.0, 0.02);
	struct motion_list list = { 0 };
	double seconds[4];

	machine.feed_limit_mm_per_min[AXIS_Y] = 1200.0; /* 20 mm/s */
	machine.rapid_mm_per_min[AXIS_X] = 3600.0; /* 60 mm/s */
	machine.acceleration_mm_per_s2[AXIS_X] = 300.0;
	moves_rapid(&list, 0.0, 0.0, 0.0);
	moves_cut(&list, 30.0, 40.0, 0.0, 6000.0);
	moves_still(&list, MOTION_SPINDLE_OFF);
	moves_rapid(&list, 60.0, 80.0, 0.0);
	assert_int_equal(travel_times(seconds, &list, &machine, NULL), FAULT_NONE);
	/* x has share 0.6, y 0.8: 20 / 0.8 = 25 mm/s, 300 / 0.6 = 500 mm/s2 */
	assert_near(seconds[1], 50.0 / 25.0 + 25.0 / 500.0, 1e-12, "cut limited by y's feed");
	/* rapid: 60 / 0.6 = 100 mm/s */
	assert_near(seconds[3], 50.0 / 100.0 + 100.0 / 500.0, 1e-12, "rapid limited by x");
	motion_list_free(&list);
}

static void square_corner(void **state)
{
	(void)state;
	struct machine machine = moves_machine(6000.0, 9000.0, 500.0, 0.02);
	struct motion_list list = { 0 };
	double corner = corner_speed_mm_per_s(PI / 2.0, 0.02, 500.0), seconds[3];

	moves_rapid(&list, 0.0, 0.0, 0.0);
	moves_cut(&list, 100.0, 0.0, 0.0, FEED);
	moves_cut(&list, 100.0, 60.0, 0.0, FEED);
	assert_int_equal(travel_times(seconds, &list, &machine, NULL), FAULT_NONE);
	assert_near(seconds[1], travel_time_s(100.0, 0.0, corner, 50.0, 500.0), 1e-9,
		    "up to the corner");
	assert_near(seconds[2], travel_time_s(60.0, corner, 0.0, 50.0, 500.0), 1e-9,
		    "from the corner on");
	/* the pull swings from one axis to the other: the weaker one decides */
	machine.acceleration_mm_per_s2[AXIS_Y] = 125.0;
	assert_int_equal(travel_times(seconds, &list, &machine, NULL), FAULT_NONE);
	assert_near(seconds[1], travel_time_s(100.0, 0.0, corner / 2.0, 50.0, 500.0), 1e-9,
		    "a quarter of the acceleration halves the corner speed");
	motion_list_free(&list);
}

/* Seconds for 60 mm straight on with `kind` in the middle. */
static double interrupted_s(enum motion_kind kind)
{
	struct machine machine = moves_machine(6000.0, 9000.0, 500.0, 0.02);
	struct motion_list list = { 0 };

	moves_rapid(&list, 0.0, 0.0, 0.0);
	moves_cut(&list, 30.0, 0.0, 0.0, FEED);
	moves_still(&list, kind);
	moves_cut(&list, 60.0, 0.0, 0.0, FEED);
	double seconds = moves_seconds(&list, &machine);
	motion_list_free(&list);
	return seconds;
}

static void where_it_stands_still(void **state)
{
	(void)state;
	double through = 60.0 / 50.0 + 50.0 / 500.0, stopped = through + 50.0 / 500.0;

	assert_near(interrupted_s(MOTION_PASS), through, 1e-9, "a pass mark is no stop");
	assert_near(interrupted_s(MOTION_SPINDLE_ON), stopped, 1e-9, "spindle on is a stop");
	assert_near(interrupted_s(MOTION_SPINDLE_OFF), stopped, 1e-9, "spindle off is a stop");
	assert_near(interrupted_s(MOTION_DWELL), stopped, 1e-9, "a dwell is a stop");
	assert_near(interrupted_s(MOTION_END), stopped, 1e-9, "the end is a stop");
}

static void dwell_counts(void **state)
{
	(void)state;
	struct machine machine = moves_machine(6000.0, 9000.0, 500.0, 0.02);
	struct motion_list list = { 0 };

	moves_still(&list, MOTION_SPINDLE_ON);
	moves_dwell(&list, 3.5);
	moves_still(&list, MOTION_END);
	assert_near(moves_seconds(&list, &machine), 3.5, 0.0, "nothing moves, the dwell counts");
	motion_list_free(&list);
}

static void unknown_start(void **state)
{
	(void)state;
	struct machine machine = moves_machine(6000.0, 3000.0, 500.0, 0.02);
	struct motion_list list = { 0 };
	double seconds[4];
	const struct motion up = { .kind = MOTION_RAPID, .to = { 0, 0, 50 }, .known = KNOWN_Z };
	const struct motion over = { .kind = MOTION_RAPID,
				     .to = { 70, 0, 10 },
				     .known = KNOWN_X | KNOWN_Z };

	assert_int_equal(motion_list_add(&list, &up, NULL), FAULT_NONE);
	assert_int_equal(motion_list_add(&list, &over, NULL), FAULT_NONE);
	moves_rapid(&list, 170.0, 5.0, 10.0);
	moves_rapid(&list, 270.0, 5.0, 10.0);
	assert_int_equal(travel_times(seconds, &list, &machine, NULL), FAULT_NONE);
	assert_near(seconds[0], 0.0, 0.0, "from nowhere known");
	assert_near(seconds[1], 40.0 / 50.0 + 0.1, 1e-12, "z alone was known");
	assert_near(seconds[2], 100.0 / 50.0 + 0.1, 1e-12, "x and z were known: rest to rest");
	assert_near(seconds[3], 100.0 / 50.0 + 0.1, 1e-12, "all known: starts from rest");
	motion_list_free(&list);
}

/* Time of one turn of a circle cut in `facets` straight moves, entered and
 * left along tangents. */
static double circle_s(double radius_mm, int facets, const struct machine *machine)
{
	struct motion_list list = { 0 };
	double *seconds = calloc((size_t)facets + 3, sizeof *seconds), sum = 0.0;

	assert_non_null(seconds);
	moves_rapid(&list, radius_mm, -50.0, 0.0);
	for (int i = 0; i <= facets; i++) {
		double angle = 2.0 * PI * i / facets;
		moves_cut(&list, radius_mm * cos(angle), radius_mm * sin(angle), 0.0, 60000.0);
	}
	moves_cut(&list, radius_mm, 50.0, 0.0, 60000.0);
	assert_int_equal(travel_times(seconds, &list, machine, NULL), FAULT_NONE);
	for (int i = 0; i < facets; i++)
		sum += seconds[i + 2];
	free(seconds);
	motion_list_free(&list);
	return sum;
}

/* v2 = a R however finely the arc is divided. At angle t the pull is shared as
 * cos t : sin t, so the axes give a / max(|cos t|, |sin t|). */
static void arcs_obey_their_radius(void **state)
{
	(void)state;
	struct machine machine = moves_machine(60000.0, 60000.0, 500.0, 0.02);
	double radius_mm = 8.0, expected = 0.0;

	for (int i = 0; i < 10000; i++) {
		double angle = 2.0 * PI * (i + 0.5) / 10000.0;
		double a = 500.0 / fmax(fabs(cos(angle)), fabs(sin(angle)));
		expected += 2.0 * PI * radius_mm / 10000.0 / sqrt(a * radius_mm);
	}
	for (int facets = 125; facets <= 16000; facets *= 2)
		assert_near(circle_s(radius_mm, facets, &machine), expected, 0.015 * expected,
			    "a circle takes its length over sqrt(a R)");
}

/* Two long moves with a turn of one degree; `stray_mm` of path at half a
 * degree between them. */
static double bent_line_s(double stray_mm, const struct machine *machine)
{
	struct motion_list list = { 0 };
	double half = units_rad_from_deg(0.5), x = 100.0 + stray_mm * cos(half);
	double y = stray_mm * sin(half);

	moves_rapid(&list, 0.0, 0.0, 0.0);
	moves_cut(&list, 100.0, 0.0, 0.0, 6000.0);
	moves_cut(&list, x, y, 0.0, 6000.0);
	moves_cut(&list, x + 100.0 * cos(2.0 * half), y + 100.0 * sin(2.0 * half), 0.0, 6000.0);
	double seconds = moves_seconds(&list, machine);
	motion_list_free(&list);
	return seconds;
}

static void stray_short_move(void **state)
{
	(void)state;
	struct machine machine = moves_machine(6000.0, 6000.0, 500.0, 0.02);
	double plain = bent_line_s(0.0, &machine);

	assert_near(bent_line_s(0.002, &machine), plain, 1e-3 * plain, "2 um change nothing");
	assert_near(bent_line_s(0.019, &machine), plain, 1e-3 * plain, "19 um change nothing");
}

static void faults(void **state)
{
	(void)state;
	struct machine machine = moves_machine(6000.0, 6000.0, 500.0, 0.02);
	struct motion_list list = { 0 };
	double seconds[2];

	moves_rapid(&list, 0.0, 0.0, 0.0);
	moves_cut(&list, 1.0, 0.0, 0.0, 0.0);
	assert_int_equal(travel_times(seconds, &list, &machine, NULL), FAULT_INTERNAL);
	list.item[1].feed_mm_per_min = NAN;
	assert_int_equal(travel_times(seconds, &list, &machine, NULL), FAULT_INTERNAL);
	list.item[1].feed_mm_per_min = 600.0;
	list.item[1].to.y = INFINITY;
	assert_int_equal(travel_times(seconds, &list, &machine, NULL), FAULT_INTERNAL);
	list.item[1].to.y = 0.0;
	assert_int_equal(travel_times(seconds, &list, &machine, NULL), FAULT_NONE);
	machine.acceleration_mm_per_s2[AXIS_Z] = 0.0;
	assert_int_equal(travel_times(seconds, &list, &machine, NULL), FAULT_INTERNAL);
	motion_list_free(&list);
}

static void empty_and_endless_lists(void **state)
{
	(void)state;
	struct machine machine = moves_machine(6000.0, 6000.0, 500.0, 0.02);
	struct motion_list list = { 0 };
	struct fault_list faults = { 0 };
	double seconds[1];

	assert_int_equal(travel_times(seconds, &list, &machine, &faults), FAULT_NONE);
	list.count = SIZE_MAX;
	assert_int_equal(travel_times(seconds, &list, &machine, &faults), FAULT_MEMORY);
	assert_int_equal(faults.count, 1);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(rest_to_rest),
		cmocka_unit_test(between_speeds),
		cmocka_unit_test(impossible_is_nan),
		cmocka_unit_test(corner_speeds),
		cmocka_unit_test(limits_follow_direction),
		cmocka_unit_test(square_corner),
		cmocka_unit_test(where_it_stands_still),
		cmocka_unit_test(dwell_counts),
		cmocka_unit_test(unknown_start),
		cmocka_unit_test(arcs_obey_their_radius),
		cmocka_unit_test(stray_short_move),
		cmocka_unit_test(faults),
		cmocka_unit_test(empty_and_endless_lists),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
