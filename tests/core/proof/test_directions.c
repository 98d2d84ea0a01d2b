/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Moves with the way and against it, on both sides of the limits. The neck's
 * stretches here: peghead up to x = 0, shaft to 100, nose to 120, heel. */
#include "proof/directions.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "support/near.h"

#define BLOCK 7

struct bar {
	struct job job;
	struct directions directions;
	struct verdict verdict;
	struct vec3 at;
};

static struct bar bar_of(struct cutting whole)
{
	struct bar bar = { .at = { 10, 5, 10 } };

	bar.job.machine.decimals = 3;
	for (int i = 0; i < STRETCH_COUNT; i++)
		bar.job.cutting[i] = whole;
	verdict_start(&bar.verdict);
	verdict_judged(&bar.verdict, PROMISE_DIRECTION, DIRECTION_RISE_MM);
	return bar;
}

static void start(struct bar *bar)
{
	static const struct stretches stretches = { { 0, 100, 120 } };

	directions_start(&bar->directions, &bar->job, &stretches);
}

static void cut_taking(struct bar *bar, double x, double y, double z, double taken_mm)
{
	struct directed_move move = { .from = bar->at,
				      .to = { x, y, z },
				      .taken_mm = taken_mm,
				      .ramp_rad = units_rad_from_deg(8),
				      .block = BLOCK };

	directions_judge(&bar->directions, &bar->verdict, &move);
	bar->at = move.to;
}

static void cut(struct bar *bar, double x, double y, double z)
{
	cut_taking(bar, x, y, z, 1.0);
}

static void assert_kept(const struct bar *bar, bool kept)
{
	const struct promise_result *result = &bar->verdict.promise[PROMISE_DIRECTION];

	assert_int_equal(result->kept, kept);
	assert_int_equal(result->block, kept ? 0 : BLOCK);
	assert_int_equal(result->why[0] == '\0', kept);
}

static void nothing_asked_nothing_broken(void **state)
{
	(void)state;
	struct bar bar = bar_of((struct cutting){ 0 });

	start(&bar);
	cut(&bar, 60, 5, 90);
	cut(&bar, 10, 5, 10);
	assert_kept(&bar, true);
	assert_near(bar.verdict.promise[PROMISE_DIRECTION].worst, 0.0, 0.0, "figure, mm");
}

/* A slope of 0.2: up 0.49 is passed over, 0.51 is not; in one move or several. */
static void a_rise_has_a_limit(void **state)
{
	(void)state;
	static const double rise[] = { 0.49, 0.51 };

	for (int i = 0; i < 2; i++)
		for (int moves = 1; moves <= 3; moves += 2) {
			struct bar bar = bar_of((struct cutting){ .grain = CUT_DOWNHILL });
			start(&bar);
			for (int k = 1; k <= moves; k++)
				cut(&bar, 10 + k * rise[i] * 5.0 / moves, 5,
				    10 + k * rise[i] / moves);
			assert_kept(&bar, i == 0);
			assert_near(bar.verdict.promise[PROMISE_DIRECTION].worst, rise[i], 1e-9,
				    "rise, mm");
			assert_near(bar.verdict.promise[PROMISE_DIRECTION].limit, 0.5, 0.0,
				    "limit, mm");
		}
}

/* 0.1 per mm is gentle, however long; 0.11 is steep. Down is always well. */
static void gentle_rises_do_not_count(void **state)
{
	(void)state;
	struct bar bar = bar_of((struct cutting){ .grain = CUT_DOWNHILL });

	start(&bar);
	cut(&bar, 90, 5, 18);
	cut(&bar, 50, 5, 0);
	assert_kept(&bar, true);
	cut(&bar, 60, 5, 1.1);
	assert_kept(&bar, false);
}

static void what_does_not_count_as_rising(void **state)
{
	(void)state;
	struct bar bar = bar_of((struct cutting){ .grain = CUT_DOWNHILL });

	start(&bar);
	cut_taking(&bar, 20, 5, 15, 0.05); /* dust */
	cut(&bar, 20, 5, 25); /* straight up */
	cut(&bar, 21, 9, 28); /* more across than along */
	cut(&bar, 19, 9, 27.6); /* back and down */
	for (int i = 0; i < 5; i++) { /* small steps with cuts down between them */
		cut(&bar, bar.at.x + 1, 9, bar.at.z + 0.4);
		cut(&bar, bar.at.x + 1, 9, bar.at.z - 0.4);
	}
	cut(&bar, bar.at.x + 1, 9, bar.at.z + 0.4);
	directions_leave(&bar.directions); /* a rapid between */
	cut(&bar, bar.at.x + 1, 9, bar.at.z + 0.4);
	assert_kept(&bar, true);
}

/* A contour that keeps its height widens: against the grain. */
static void widening_counts_as_rising(void **state)
{
	(void)state;

	for (int side = -1; side <= 1; side += 2)
		for (int narrow = 0; narrow < 2; narrow++) {
			struct bar bar = bar_of((struct cutting){ .grain = CUT_DOWNHILL });
			start(&bar);
			bar.at = vec3_make(narrow ? 40 : 30, side * (narrow ? 7 : 5), 10);
			/* heights as a program's figures state them */
			cut(&bar, 35, side * 6, 10.002);
			cut(&bar, narrow ? 30 : 40, side * (narrow ? 5 : 7), 10.001);
			assert_kept(&bar, narrow);
		}
}

/* Clockwise around the neck is climb: up on the +y side, down on the other. */
static void against_the_way_has_a_limit(void **state)
{
	(void)state;
	static const double length[] = { 4.9, 5.1 };

	for (int way = CUT_CLIMB; way <= CUT_CONVENTIONAL; way++)
		for (int side = -1; side <= 1; side += 2)
			for (int i = 0; i < 2; i++) {
				struct bar bar =
					bar_of((struct cutting){ .way = (enum cut_way)way });
				double with = side * (way == CUT_CLIMB ? 1.0 : -1.0);
				start(&bar);
				bar.at = vec3_make(50, side * 8, 10);
				cut(&bar, 50 + with * 30, side * 8, 10);
				assert_kept(&bar, true);
				cut(&bar, bar.at.x - with * length[i], side * 8, 10);
				assert_kept(&bar, i == 0);
			}
}

/* To and fro at 8 degrees: 0.14 per mm. Half of that is still a ramp. */
static void a_ramp_may_go_either_way(void **state)
{
	(void)state;
	struct bar bar = bar_of((struct cutting){ .way = CUT_CLIMB });

	start(&bar);
	cut(&bar, 30, 5, 10 - 20 * 0.14);
	cut(&bar, 10, 5, 10 - 40 * 0.14);
	assert_kept(&bar, true);
	cut(&bar, 30, 5, bar.at.z);
	cut(&bar, 10, 5, bar.at.z - 20 * 0.06);
	assert_kept(&bar, false);
}

/* Where the grain is asked as well, level parts may go 20 mm with the slope. */
static void level_parts_of_a_slope_may_go_on(void **state)
{
	(void)state;
	static const double length[] = { 19.5, 20.5 };

	for (int i = 0; i < 2; i++) {
		struct bar bar = bar_of((struct cutting){ 0, CUT_CLIMB, CUT_DOWNHILL });
		start(&bar);
		bar.at = vec3_make(60, 5, 30);
		cut(&bar, 50, 5, 20); /* down the slope, against climb: the slope goes first */
		assert_kept(&bar, true);
		cut(&bar, 50 - length[i], 5, 20);
		assert_kept(&bar, i == 0);
	}
}

/* A slope ends a level part whether it takes wood or not; a level stretch without
 * wood does not. 15 mm on either side of it are too long together, and after a
 * slope 20.5 mm are too long alone. */
static void a_slope_without_wood_ends_a_level_part(void **state)
{
	(void)state;
	static const double fall_mm[] = { 0.0, 4.0, 4.0 }, length_mm[] = { 15.0, 15.0, 20.5 };

	for (int i = 0; i < 3; i++)
		for (int up = -1; up <= 1; up += 2) {
			struct bar bar = bar_of((struct cutting){ 0, CUT_CLIMB, CUT_DOWNHILL });
			start(&bar);
			bar.at = vec3_make(70, 5, 20);
			cut(&bar, 55, 5, 20);
			assert_kept(&bar, true);
			cut_taking(&bar, 45, 5, 20 + up * fall_mm[i], 0.0);
			cut(&bar, 45 - length_mm[i], 5, bar.at.z);
			assert_kept(&bar, i == 1);
		}
}

/* A crosswise cut 5 mm deep by which wood on its right, and some on its left, goes. */
static void cut_across(struct bar *bar, double by_y, double right_share)
{
	struct directed_move move = { .from = bar->at,
				      .to = { bar->at.x, bar->at.y + by_y, bar->at.z },
				      .taken_mm = 5.0,
				      .left_mm3 = 60.0 * (1.0 - right_share),
				      .right_mm3 = 60.0 * right_share,
				      .ramp_rad = units_rad_from_deg(8),
				      .block = BLOCK };

	directions_judge(&bar->directions, &bar->verdict, &move);
	bar->at = move.to;
}

/* Climb has the wood on the right, whichever way the lines go; a slot, as the first
 * line of a level is, has it on both sides and is neither; lengthwise moves of
 * such a stretch are joints. */
static void crosswise_lines_go_by_where_the_wood_stood(void **state)
{
	(void)state;

	for (int way = CUT_CLIMB; way <= CUT_CONVENTIONAL; way++)
		for (int sign = -1; sign <= 1; sign += 2) {
			struct bar bar = bar_of(
				(struct cutting){ CUT_CROSSWISE, (enum cut_way)way, CUT_DOWNHILL });
			double right = way == CUT_CLIMB ? 0.9 : 0.1;
			start(&bar);
			cut_across(&bar, sign * 40, right);
			cut(&bar, 40, bar.at.y, 30);
			cut_across(&bar, sign * 40, 0.5);
			cut_across(&bar, sign * 40, 0.7);
			cut_across(&bar, sign * 40, 0.3);
			cut_across(&bar, sign * 400, 1.0 - right); /* 0.15 mm2: scraps */
			cut_across(&bar, sign * 11, 1.0 - right);
			assert_kept(&bar, true);
			cut_across(&bar, sign * 2, 1.0 - right);
			assert_kept(&bar, false);
		}
}

/* Each stretch has its own rule. */
static void the_stretch_of_the_middle_counts(void **state)
{
	(void)state;
	struct bar bar = bar_of((struct cutting){ 0 });

	bar.job.cutting[STRETCH_NOSE].grain = CUT_DOWNHILL;
	start(&bar);
	cut(&bar, 99, 5, 60); /* up the shaft */
	cut(&bar, 100.5, 5, 62); /* its middle is the shaft's */
	assert_kept(&bar, true);
	cut(&bar, 102, 5, 64);
	assert_kept(&bar, false);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(nothing_asked_nothing_broken),
		cmocka_unit_test(a_rise_has_a_limit),
		cmocka_unit_test(gentle_rises_do_not_count),
		cmocka_unit_test(what_does_not_count_as_rising),
		cmocka_unit_test(widening_counts_as_rising),
		cmocka_unit_test(against_the_way_has_a_limit),
		cmocka_unit_test(a_ramp_may_go_either_way),
		cmocka_unit_test(level_parts_of_a_slope_may_go_on),
		cmocka_unit_test(a_slope_without_wood_ends_a_level_part),
		cmocka_unit_test(crosswise_lines_go_by_where_the_wood_stood),
		cmocka_unit_test(the_stretch_of_the_middle_counts),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
