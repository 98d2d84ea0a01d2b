/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pieces of a board 60 x 40 x 20 mm cut off and not cut off. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "base/tol.h"
#include "proof/loose.h"
#include "support/near.h"
#include "support/sample_job.h"

struct board {
	struct job job;
	struct stock stock;
	struct swath swath;
};

static void make_board(struct board *board, size_t holds)
{
	*board = (struct board){ .job = sample_board_job() };
	board->job.fixture.hold_count = holds;
	assert_int_equal(stock_build(&board->stock, &board->job.blank, 0.2, NULL), FAULT_NONE);
}

static void free_board(struct board *board)
{
	stock_free(&board->stock);
	swath_free(&board->swath);
}

/* A groove of the 6 mm ball with its tip at z. */
static void groove(struct board *board, double x0, double y0, double x1, double y1, double z)
{
	assert_int_equal(stock_sweep(&board->stock, vec3_make(x0, y0, z), vec3_make(x1, y1, z), 3.0,
				     &board->swath, NULL),
			 FAULT_NONE);
}

static struct promise_result judged(const struct board *board)
{
	struct verdict verdict;

	verdict_start(&verdict);
	assert_int_equal(loose_judge(&verdict, &board->stock, &board->job, 0, 77, NULL),
			 FAULT_NONE);
	assert_true(verdict.promise[PROMISE_LOOSE].judged);
	return verdict.promise[PROMISE_LOOSE];
}

static void whole_board_is_held(void **state)
{
	(void)state;
	for (size_t holds = 0; holds < 2; holds++) {
		struct board board;
		make_board(&board, holds);
		struct promise_result result = judged(&board);
		assert_true(result.kept);
		assert_near(result.worst, 0.0, 0.0, "loose, mm2");
		assert_near(result.limit, TOL_LOOSE_AREA_MM2, 0.0, "limit, mm2");
		free_board(&board);
	}
}

/* Through the board across at x = 20: the side away from the screws is loose,
 * 17 x 40 mm and what the round groove leaves standing. */
static void strip_cut_free(void **state)
{
	(void)state;
	struct board board;

	make_board(&board, 1);
	groove(&board, 20, -30, 20, 30, -1);
	struct promise_result result = judged(&board);
	assert_false(result.kept);
	assert_int_equal(result.block, 77);
	assert_between(result.worst, 17.0 * 40.0, 20.0 * 40.0, "loose, mm2");
	assert_non_null(strstr(result.why, "cut loose"));
	/* a second screw on it holds it */
	board.job.fixture.hold_count = 2;
	board.job.fixture.hold[1] = (struct place){ "screw", 5, 6, 0, 1, 0, PLACE_BOX };
	assert_true(judged(&board).kept);
	free_board(&board);
}

/* The groove stops short of the edge: a bridge stays. */
static void bridge_holds(void **state)
{
	(void)state;
	struct board board;

	make_board(&board, 1);
	groove(&board, 20, -30, 20, 10, -1);
	assert_true(judged(&board).kept);
	groove(&board, 20, 10, 20, 30, -1);
	assert_false(judged(&board).kept);
	free_board(&board);
}

/* Wood thinner than 0.8 mm under the groove holds nothing (common practice, no
 * source); thicker does. */
static void skins(void **state)
{
	(void)state;
	struct board board;

	make_board(&board, 1);
	groove(&board, 20, -30, 20, 30, 0.9);
	assert_true(judged(&board).kept);
	groove(&board, 20, -30, 20, 30, 0.7);
	assert_false(judged(&board).kept);
	free_board(&board);
}

/* Without holding places the largest piece counts as held. */
static void without_holding_places(void **state)
{
	(void)state;
	struct board board;

	make_board(&board, 0);
	groove(&board, 20, -30, 20, 30, -1);
	struct promise_result result = judged(&board);
	assert_false(result.kept);
	assert_between(result.worst, 17.0 * 40.0, 20.0 * 40.0, "the smaller piece, mm2");
	free_board(&board);
}

/* A corner of the board: a crumb smaller than the limit is dust. */
static void crumbs_are_dust(void **state)
{
	(void)state;
	for (int size = 0; size < 2; size++) {
		/* of the square that is left */
		double side = (size == 0 ? 0.6 : 1.6) * sqrt(TOL_LOOSE_AREA_MM2);
		struct board board;
		make_board(&board, 1);
		/* 3 mm is the ball's half width at the height of the board */
		groove(&board, side + 3.0, -30, side + 3.0, 30, -3.5);
		groove(&board, -10, 20 - side - 3.0, side + 3.0, 20 - side - 3.0, -3.5);
		/* what else stood on that side goes too */
		for (double y = -22; y < 20 - side - 3.0; y += 2.0)
			groove(&board, -10, y, side + 3.0, y, -3.5);
		struct promise_result result = judged(&board);
		assert_true(result.worst > 0.0);
		assert_int_equal(result.kept, size == 0);
		free_board(&board);
	}
}

/* The place named is in program coordinates and lies on the piece. */
static void place_of_the_piece(void **state)
{
	(void)state;
	struct board board;
	double x, y;

	make_board(&board, 1);
	board.job.fixture.work_zero_mm = vec3_make(100, 200, 0);
	groove(&board, 20, -30, 20, 30, -1);
	struct promise_result result = judged(&board);
	const char *place = strstr(result.why, "near X ");
	assert_non_null(place);
	assert_int_equal(sscanf(place, "near X %lf Y %lf", &x, &y), 2);
	assert_between(x + 100.0, 0.0, 20.0, "x of the piece, mm");
	assert_between(y + 200.0, -20.0, 20.0, "y of the piece, mm");
	free_board(&board);
}

/* With a margin of 1 mm the board reaches to y = 21 at most and to 19 at least.
 * A groove that just clears its edge as drawn may leave a strip there. */
static void strip_that_only_a_wide_blank_has(void **state)
{
	(void)state;
	for (int margin = 0; margin < 2; margin++) {
		struct board board = { .job = sample_board_job() };
		board.job.blank.margin_mm = margin;
		assert_int_equal(stock_build(&board.stock, &board.job.blank, 0.2, NULL),
				 FAULT_NONE);
		assert_true(judged(&board).kept);
		groove(&board, -5, 17.4, 65, 17.4, -1);
		struct promise_result result = judged(&board);
		assert_int_equal(result.kept, margin == 0);
		/* 62 mm long; the groove is under 0.8 mm deep to 2.75 mm beside its line */
		if (margin > 0)
			assert_between(result.worst, 62.0 * 0.65, 62.0 * 1.05, "loose, mm2");
		free_board(&board);
	}
}

/* The same groove ends at x = 40, short of the screws. In the widest blank the
 * strip still hangs on there; in others it may be sawn away just there, and
 * loose before. */
static void strip_that_hangs_on_what_need_not_be(void **state)
{
	(void)state;
	struct board board = { .job = sample_board_job() };

	board.job.blank.margin_mm = 1.0;
	assert_int_equal(stock_build(&board.stock, &board.job.blank, 0.2, NULL), FAULT_NONE);
	groove(&board, -5, 17.2, 40, 17.2, -1);
	assert_false(judged(&board).kept);
	/* a millimetre farther in, there is a strip in any blank, which holds */
	stock_free(&board.stock);
	assert_int_equal(stock_build(&board.stock, &board.job.blank, 0.2, NULL), FAULT_NONE);
	groove(&board, -5, 13.0, 40, 13.0, -1);
	assert_true(judged(&board).kept);
	free_board(&board);
}

/* A step of the plan outline, which may lie to and fro by the margin: what is
 * beside it hangs on the wide part, although all wood inward of it is gone. */
static void corner_of_a_step_holds(void **state)
{
	(void)state;
	struct board board = { .job = sample_board_job() };

	board.job.blank.half_width = (struct outline){ 4, { 0, 30, 30, 60 }, { 12, 12, 20, 20 } };
	board.job.blank.margin_mm = 1.0;
	assert_int_equal(stock_build(&board.stock, &board.job.blank, 0.2, NULL), FAULT_NONE);
	groove(&board, -5, 10.5, 40, 10.5, -1);
	struct promise_result result = judged(&board);
	/* but for the narrow part's edge, which is gone or loose dust */
	assert_true(result.kept);
	free_board(&board);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(whole_board_is_held),
		cmocka_unit_test(strip_that_only_a_wide_blank_has),
		cmocka_unit_test(strip_that_hangs_on_what_need_not_be),
		cmocka_unit_test(corner_of_a_step_holds),
		cmocka_unit_test(strip_cut_free),
		cmocka_unit_test(bridge_holds),
		cmocka_unit_test(skins),
		cmocka_unit_test(without_holding_places),
		cmocka_unit_test(crumbs_are_dust),
		cmocka_unit_test(place_of_the_piece),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
