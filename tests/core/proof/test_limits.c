/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A good program, and each rule of machine and order broken once. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "proof/limits.h"
#include "support/moves.h"
#include "support/near.h"
#include "support/sample_job.h"

/* Highest thing on the bed; a tool is safe 0.2 above it. */
#define TOP 20.0

/* Blocks of the good program, 1-based. */
enum { SPINDLE = 1, UP, OVER, DOWN, CUT_X, CUT_SLOPE, RETRACT, OFF, END };

static struct motion_list good(void)
{
	struct motion_list list = { 0 };

	moves_still(&list, MOTION_SPINDLE_ON);
	moves_rapid(&list, 0, 0, 23);
	moves_rapid(&list, 10, 5, 23);
	moves_cut(&list, 10, 5, 8, 600);
	moves_cut(&list, 60, 5, 8, 3000);
	moves_cut(&list, 90, 45, 10, 3000);
	moves_rapid(&list, 90, 45, 23);
	moves_still(&list, MOTION_SPINDLE_OFF);
	moves_still(&list, MOTION_END);
	list.item[SPINDLE - 1].spindle_rpm = 16000;
	list.item[UP - 1].known = KNOWN_Z;
	moves_number(&list);
	return list;
}

static void remove_block(struct motion_list *list, int block)
{
	size_t i = (size_t)block - 1;

	list->count--;
	memmove(&list->item[i], &list->item[i + 1], (list->count - i) * sizeof *list->item);
}

static struct verdict judged(const struct job *job, const struct motion_list *list)
{
	struct verdict verdict;

	verdict_start(&verdict);
	limits_judge(&verdict, job, &job->cutter[0], list, 0, TOP);
	return verdict;
}

/* Exactly that promise is broken, at that block, in these words. */
static void assert_broken(struct motion_list list, enum promise promise, int block,
			  const char *words)
{
	struct job job = sample_board_job();
	struct verdict verdict = judged(&job, &list);

	for (int i = 0; i < PROMISE_COUNT; i++) {
		const struct promise_result *result = &verdict.promise[i];
		if (result->judged && !result->kept && i != (int)promise)
			fail_msg("%s: %s", promise_text((enum promise)i)->key, result->why);
	}
	const struct promise_result *result = &verdict.promise[promise];
	assert_true(result->judged && !result->kept);
	assert_int_equal(result->block, block);
	if (!strstr(result->why, words))
		fail_msg("%s", result->why);
	motion_list_free(&list);
}

static void good_program_keeps_all(void **state)
{
	(void)state;
	struct job job = sample_board_job();
	struct motion_list list = good();
	struct verdict verdict = judged(&job, &list);
	static const enum promise judges[] = { PROMISE_START, PROMISE_SPINDLE, PROMISE_FEED,
					       PROMISE_TRAVEL };

	for (size_t i = 0; i < 4; i++)
		assert_true(verdict.promise[judges[i]].judged && verdict.promise[judges[i]].kept);
	assert_near(verdict.promise[PROMISE_SPINDLE].worst, 16000, 0.0, "rpm");
	/* 3000 along X alone is all that X allows */
	assert_near(verdict.promise[PROMISE_FEED].worst, 1.0, 1e-12, "share of an axis limit");
	/* Z from 8 to 23 of 140: the axis with least to spare */
	assert_near(verdict.promise[PROMISE_TRAVEL].worst, 125.0, 1e-12, "spare travel, mm");
	assert_near(verdict.promise[PROMISE_START].worst, 23.0 - 20.2, 1e-12, "end, mm");
	motion_list_free(&list);
}

static void spindle_before_cutting(void **state)
{
	(void)state;
	struct motion_list list = good();

	remove_block(&list, SPINDLE);
	assert_broken(list, PROMISE_START, DOWN, "before the spindle is switched on");
	list = good();
	list.item[OVER - 1].kind = MOTION_SPINDLE_OFF;
	assert_broken(list, PROMISE_START, DOWN, "the spindle");
}

static void position_known_before_motion(void **state)
{
	(void)state;
	struct motion_list list = good();

	/* X and Y before Z is known */
	remove_block(&list, UP);
	list.item[OVER - 2].known = KNOWN_X | KNOWN_Y;
	assert_broken(list, PROMISE_START, OVER, "known to stand above everything");
	list = good();
	list.item[UP - 1].to.z = 20.19;
	assert_broken(list, PROMISE_START, UP, "Z 20.200 or higher");
	list = good();
	list.item[UP - 1].known = KNOWN_ALL;
	assert_broken(list, PROMISE_START, UP, "a rapid of Z alone");
	list = good();
	list.item[UP - 1].kind = MOTION_CUT;
	assert_broken(list, PROMISE_START, UP, "a rapid of Z alone");
	list = good();
	list.item[OVER - 1].to.z = 19;
	assert_broken(list, PROMISE_START, OVER, "above everything");
}

static void safe_end(void **state)
{
	(void)state;
	struct motion_list list = good();

	remove_block(&list, OFF);
	assert_broken(list, PROMISE_START, END, "the spindle running");
	list = good();
	list.item[RETRACT - 1].to.z = 19.5;
	assert_broken(list, PROMISE_START, END, "ends with the tool at Z 19.500");
	list = good();
	remove_block(&list, END);
	assert_broken(list, PROMISE_START, OFF, "no end");
	list = good();
	list.count = 0;
	assert_broken(list, PROMISE_START, 0, "no end");
}

static void axis_feeds(void **state)
{
	(void)state;
	struct motion_list list = good();

	list.item[CUT_X - 1].feed_mm_per_min = 3002;
	assert_broken(list, PROMISE_FEED, CUT_X, "X would feed at 3002");
	list = good();
	list.item[DOWN - 1].feed_mm_per_min = 1300;
	assert_broken(list, PROMISE_FEED, DOWN, "Z would feed at 1300");
	/* 3, 4 and a little: Y takes 0.8 of the feed */
	list = good();
	list.item[CUT_SLOPE - 1].feed_mm_per_min = 3800;
	assert_broken(list, PROMISE_FEED, CUT_SLOPE, "Y would feed at 3038");
	list = good();
	list.item[CUT_SLOPE - 1].feed_mm_per_min = 3700;
	struct job job = sample_board_job();
	assert_true(judged(&job, &list).promise[PROMISE_FEED].kept);
	motion_list_free(&list);
}

static void spindle_range(void **state)
{
	(void)state;
	struct motion_list list = good();

	list.item[SPINDLE - 1].spindle_rpm = 24100;
	assert_broken(list, PROMISE_SPINDLE, SPINDLE, "it runs 6000 to 24000");
	list = good();
	list.item[SPINDLE - 1].spindle_rpm = 5900;
	assert_broken(list, PROMISE_SPINDLE, SPINDLE, "told 5900 rpm");
}

static void travel(void **state)
{
	(void)state;
	struct motion_list list = good();

	/* bounds count, not places: 10 back to -531 is 621 of 620 from 90 */
	list.item[OVER - 1].to.x = -531;
	assert_broken(list, PROMISE_TRAVEL, CUT_SLOPE, "X needs 621.0 mm");
	list = good();
	list.item[OVER - 1].to.x = -530;
	struct job job = sample_board_job();
	assert_true(judged(&job, &list).promise[PROMISE_TRAVEL].kept);
	motion_list_free(&list);
	list = good();
	list.item[RETRACT - 1].to.z = 149;
	assert_broken(list, PROMISE_TRAVEL, RETRACT, "Z needs 141.0 mm");
	list = good();
	list.item[CUT_SLOPE - 1].to.y = 430;
	list.item[RETRACT - 1].to.y = 430;
	assert_broken(list, PROMISE_TRAVEL, CUT_SLOPE, "Y needs 425.0 mm");
}

/* Heights are told in program coordinates, the fixture's in the neck's. */
static void work_zero_shifts_the_safe_height(void **state)
{
	(void)state;
	struct job job = sample_board_job();
	struct motion_list list = good();

	job.fixture.work_zero_mm.z = -10;
	struct verdict verdict = judged(&job, &list);
	assert_false(verdict.promise[PROMISE_START].kept);
	assert_int_equal(verdict.promise[PROMISE_START].block, UP);
	job.fixture.work_zero_mm.z = 10;
	assert_true(judged(&job, &list).promise[PROMISE_START].kept);
	motion_list_free(&list);
}

/* The good program for a spindle that is switched by hand. */
static struct motion_list by_hand(void)
{
	struct motion_list list = good();

	list.item[SPINDLE - 1].kind = list.item[OFF - 1].kind = MOTION_STOP;
	return list;
}

/* Judges and uses up; the promise's sentence, "" when it is kept. */
static const char *told(struct verdict *out, const struct job *job, struct motion_list list,
			enum promise promise)
{
	*out = judged(job, &list);
	motion_list_free(&list);
	return out->promise[promise].why;
}

static void switched_by_hand(void **state)
{
	(void)state;
	struct job job = sample_board_job();
	struct verdict verdict;
	struct motion_list list = by_hand();

	job.machine.reads.spindle = SPINDLE_BY_HAND;
	assert_string_equal(told(&verdict, &job, by_hand(), PROMISE_START), "");
	assert_near(verdict.promise[PROMISE_SPINDLE].worst, job.cutter[0].spindle_rpm, 0.0,
		    "the speed that the operator is told, rpm");
	remove_block(&list, SPINDLE); /* then the only stop comes at the end */
	assert_non_null(strstr(told(&verdict, &job, list, PROMISE_START),
			       "without a stop before it to switch the spindle on"));
	assert_int_equal(verdict.promise[PROMISE_START].block, DOWN);
	list = by_hand();
	remove_block(&list, OFF);
	assert_non_null(strstr(told(&verdict, &job, list, PROMISE_START), "spindle running"));
	list = by_hand(); /* the second stop switches it off, before the last cut */
	list.item[OVER - 1].kind = MOTION_STOP;
	assert_non_null(strstr(told(&verdict, &job, list, PROMISE_START), "without a stop"));
	list = by_hand();
	list.item[OFF - 1] = list.item[RETRACT - 1];
	list.item[RETRACT - 1].kind = MOTION_STOP;
	assert_non_null(strstr(told(&verdict, &job, list, PROMISE_START),
			       "stops for the spindle at Z 10.000"));
	assert_int_equal(verdict.promise[PROMISE_START].block, RETRACT);
	assert_non_null(strstr(told(&verdict, &job, good(), PROMISE_START), "switched by hand"));
	assert_int_equal(verdict.promise[PROMISE_START].block, SPINDLE);
	job.cutter[0].spindle_rpm = job.machine.spindle_most_rpm + 100.0;
	assert_non_null(strstr(told(&verdict, &job, by_hand(), PROMISE_SPINDLE), "rpm"));
	job = sample_board_job();
	assert_non_null(strstr(told(&verdict, &job, by_hand(), PROMISE_START),
			       "spindle is not switched by hand"));
}

static void parking_place(void **state)
{
	(void)state;
	struct job job = sample_board_job();
	struct motion_list list = good();
	struct verdict verdict;

	job.machine.parks = true;
	job.machine.park_x_mm = 90.01;
	job.machine.park_y_mm = 45.0;
	assert_string_equal(told(&verdict, &job, good(), PROMISE_START), "");
	job.machine.park_y_mm = 45.03;
	assert_non_null(
		strstr(told(&verdict, &job, good(), PROMISE_START),
		       "ends at X 90.000 Y 45.000; the machine parks at X 90.010 Y 45.030"));
	assert_int_equal(verdict.promise[PROMISE_START].block, END);
	list.item[0] = list.item[list.count - 1];
	list.count = 1; /* a program without a move leaves the tool where it was */
	assert_string_equal(told(&verdict, &job, list, PROMISE_START), "");
}

/* A piece of an arc is charged with what the arc may lean and stray. */
static void pieces_of_arcs(void **state)
{
	(void)state;
	struct job job = sample_board_job();
	struct motion_list list = good();
	struct verdict verdict;

	/* y has share 0.8 of 3000 mm/min, z 2 / hypot(50, 2) */
	list.item[CUT_X - 1].feed_mm_per_min = 1000.0;
	list.item[CUT_SLOPE - 1].lean = vec3_make(0.01, 0.01, 0.0);
	list.item[CUT_SLOPE - 1].feed_mm_per_min = 3000.0 / 0.8096;
	list.item[CUT_SLOPE - 1].stray_mm = 0.25;
	assert_string_equal(told(&verdict, &job, list, PROMISE_FEED), "");
	assert_near(verdict.promise[PROMISE_FEED].worst, (40.0 / hypot(50.0, 2.0) + 0.01) / 0.8096,
		    1e-9, "share of y's limit");
	assert_near(verdict.promise[PROMISE_TRAVEL].worst, 125.0 - 0.5, 1e-12,
		    "spare travel less the stray either way, mm");
	list = good();
	list.item[CUT_SLOPE - 1].lean = vec3_make(0.0, 0.02, 0.0);
	list.item[CUT_SLOPE - 1].feed_mm_per_min = 3000.0 / 0.81;
	assert_non_null(strstr(told(&verdict, &job, list, PROMISE_FEED), "Y would feed"));
	list = good();
	list.item[CUT_X - 1].lean = vec3_make(0.0, 0.0, 0.5);
	assert_non_null(strstr(told(&verdict, &job, list, PROMISE_FEED), "Z would feed at 1500"));
}

/* Holder face over the bed: z, zero and riser (10), stickout. The good program
 * goes from 8 to 23. */
static void z_between_its_ends(void **state)
{
	(void)state;
	static const struct {
		double gap, travel;
		int block; /* 0: fits */
	} cases[] = {
		{ 0, 1000, 0 }, /* not known */
		{ 78, 15, 0 }, /* 10 + 45 + 8 = 63 to 78 */
		{ 77.9, 15, UP }, { 78.1, 15, DOWN }, /* ends at 63.1 */
		{ 60, 40, UP },	  { 200, 100, UP }, /* never comes down to 100 */
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct job job = sample_board_job();
		struct motion_list list = good();
		job.machine.z_gap_mm = cases[i].gap;
		job.machine.travel_mm[AXIS_Z] = cases[i].travel;
		job.fixture.riser_height_mm = 10;
		job.cutter[0].stickout_mm = 45;
		struct verdict verdict = judged(&job, &list);
		const struct promise_result *travel = &verdict.promise[PROMISE_TRAVEL];
		assert_true(travel->judged);
		assert_int_equal(travel->kept, cases[i].block == 0);
		if (cases[i].block)
			assert_int_equal(travel->block, cases[i].block);
		motion_list_free(&list);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(z_between_its_ends),
		cmocka_unit_test(good_program_keeps_all),
		cmocka_unit_test(spindle_before_cutting),
		cmocka_unit_test(position_known_before_motion),
		cmocka_unit_test(safe_end),
		cmocka_unit_test(axis_feeds),
		cmocka_unit_test(spindle_range),
		cmocka_unit_test(travel),
		cmocka_unit_test(work_zero_shifts_the_safe_height),
		cmocka_unit_test(switched_by_hand),
		cmocka_unit_test(parking_place),
		cmocka_unit_test(pieces_of_arcs),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
