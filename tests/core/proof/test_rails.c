/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rails cut into and left alone, on a short neck in a wide board. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "proof/rails.h"
#include "support/near.h"
#include "support/sample_job.h"

struct board {
	struct job job;
	struct neck *neck;
	struct stock stock;
	struct swath swath;
};

/* A board 45 mm to either side; rails begin at 15 mm of neck at most, 1 mm of
 * stock and a channel of 12 mm. */
static void make_board(struct board *board)
{
	*board = (struct board){ .job = sample_short_job() };
	board->job.blank.half_width.value_mm[0] = board->job.blank.half_width.value_mm[1] = 45.0;
	board->job.carve.waste = (struct waste_spec){ .kind = WASTE_RAILS, .channel_mm = 12.0 };
	board->neck = sample_neck_built(&board->job.neck);
	assert_int_equal(stock_build(&board->stock, &board->job.blank, 0.4, NULL), FAULT_NONE);
}

static void free_board(struct board *board)
{
	stock_free(&board->stock);
	swath_free(&board->swath);
	neck_free(board->neck);
}

static void groove(struct board *board, double y, double z)
{
	assert_int_equal(stock_sweep(&board->stock, vec3_make(20, y, z), vec3_make(42, y, z), 4.0,
				     &board->swath, NULL),
			 FAULT_NONE);
}

static struct promise_result judged(const struct board *board)
{
	struct verdict verdict;

	verdict_start(&verdict);
	verdict_judged(&verdict, PROMISE_KEEP_OUT, 0.0);
	assert_int_equal(rails_judge(&verdict, &board->stock, &board->job, board->neck, NULL),
			 FAULT_NONE);
	return verdict.promise[PROMISE_KEEP_OUT];
}

/* The channel may be cut right through: at x = 20 to 42 the neck is at most 14.1
 * wide, so a groove of 8 mm about y = 21 lies within it. */
static void the_channel_is_free(void **state)
{
	(void)state;
	struct board board;

	make_board(&board);
	assert_true(judged(&board).kept);
	groove(&board, 21.0, -4.0);
	groove(&board, -21.0, -4.0);
	assert_true(judged(&board).kept);
	free_board(&board);
}

/* A groove 0.5 mm into a rail's top, of either side. */
static void a_cut_into_a_rail_is_seen(void **state)
{
	(void)state;
	for (int side = -1; side <= 1; side += 2) {
		struct board board;
		make_board(&board);
		groove(&board, side * 36.0, 19.5);
		struct promise_result result = judged(&board);
		assert_false(result.kept);
		assert_near(result.worst, -0.5, 0.01, "depth of the cut, mm");
		assert_non_null(strstr(result.why, "A rail is cut 0.5"));
		assert_non_null(strstr(result.why, side < 0 ? "Y -" : "Y 3"));
		/* where the waste is to be cleared nothing is asked */
		board.job.carve.waste.kind = WASTE_CLEARED;
		assert_true(judged(&board).kept);
		free_board(&board);
	}
}

/* A channel cut 3 mm too wide is seen too. */
static void a_channel_too_wide_is_seen(void **state)
{
	(void)state;
	struct board board;

	make_board(&board);
	groove(&board, 27.0, -4.0);
	assert_false(judged(&board).kept);
	free_board(&board);
}

/* A board too narrow for rails of 6 mm has none to lose. */
static void no_rail_no_judgement(void **state)
{
	(void)state;
	struct board board;

	make_board(&board);
	board.job.blank.half_width.value_mm[0] = board.job.blank.half_width.value_mm[1] = 30.0;
	groove(&board, 29.0, 0.0);
	assert_true(judged(&board).kept);
	free_board(&board);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_channel_is_free),
		cmocka_unit_test(a_cut_into_a_rail_is_seen),
		cmocka_unit_test(a_channel_too_wide_is_seen),
		cmocka_unit_test(no_rail_no_judgement),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
