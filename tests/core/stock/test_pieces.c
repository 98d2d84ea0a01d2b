/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A board 60 x 40 x 20 mm cut into pieces. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "stock/pieces.h"
#include "support/near.h"
#include "support/sample_job.h"

#define SKIN_MM 0.8

struct board {
	struct job job;
	struct stock stock;
	struct swath swath;
	struct pieces pieces;
};

static void make_board(struct board *board)
{
	*board = (struct board){ .job = sample_board_job() };
	assert_int_equal(stock_build(&board->stock, &board->job.blank, 0.2, NULL), FAULT_NONE);
}

static void free_board(struct board *board)
{
	pieces_free(&board->pieces);
	stock_free(&board->stock);
	swath_free(&board->swath);
}

static void groove(struct board *board, double x, double z)
{
	assert_int_equal(stock_sweep(&board->stock, vec3_make(x, -30, z), vec3_make(x, 30, z), 3.0,
				     &board->swath, NULL),
			 FAULT_NONE);
}

static void find(struct board *board)
{
	pieces_free(&board->pieces);
	assert_int_equal(pieces_find(&board->pieces, &board->stock, &board->job.fixture, SKIN_MM,
				     NULL),
			 FAULT_NONE);
}

static void a_whole_board_is_one_piece(void **state)
{
	(void)state;
	struct board board;

	make_board(&board);
	find(&board);
	assert_int_equal(board.pieces.count, 1);
	assert_true(board.pieces.piece[0].held);
	assert_null(pieces_loose(&board.pieces, &board.stock, 0.0));
	/* 60 x 40 mm in columns of 0.04 mm2, and a column more each way */
	assert_between((double)board.pieces.piece[0].columns * 0.04, 2400.0, 2425.0, "area, mm2");
	free_board(&board);
}

/* Screws lie at x = 45 to 58: of three pieces the last is held, and the larger
 * of the others is named. Grooves 6 mm wide, less what their round bottoms leave
 * of 20 mm wood: nothing. */
static void two_grooves_make_three_pieces(void **state)
{
	(void)state;
	struct board board;

	make_board(&board);
	groove(&board, 12.0, -3.0);
	groove(&board, 36.0, -3.0);
	find(&board);
	assert_int_equal(board.pieces.count, 3);
	const struct piece *loose = pieces_loose(&board.pieces, &board.stock, 9.0);
	assert_non_null(loose);
	assert_near(stock_x(&board.stock, loose->ix0), 15.0, 0.3, "its beginning, mm");
	assert_near(stock_x(&board.stock, loose->ix1), 33.0, 0.3, "its end, mm");
	assert_near(stock_y(&board.stock, loose->iy0), -20.0, 0.3, "its side, mm");
	assert_near(stock_y(&board.stock, loose->iy1), 20.0, 0.3, "its other side, mm");
	size_t in = stock_iy(&board.stock, 0.0) * board.stock.nx + stock_ix(&board.stock, 24.0);
	assert_ptr_equal(&board.pieces.piece[board.pieces.label[in] - 1], loose);
	size_t gone = stock_iy(&board.stock, 0.0) * board.stock.nx + stock_ix(&board.stock, 12.0);
	assert_int_equal(board.pieces.label[gone], 0);
	/* none is larger than 18 x 40 mm and what the rims add */
	assert_null(pieces_loose(&board.pieces, &board.stock, 760.0));
	free_board(&board);
}

static void a_skin_holds_or_not(void **state)
{
	(void)state;
	struct board board;

	make_board(&board);
	groove(&board, 20.0, SKIN_MM + 0.05);
	find(&board);
	assert_int_equal(board.pieces.count, 1);
	groove(&board, 20.0, SKIN_MM - 0.05);
	find(&board);
	assert_int_equal(board.pieces.count, 2);
	free_board(&board);
}

static void without_holding_places_the_largest_is_held(void **state)
{
	(void)state;
	struct board board;

	make_board(&board);
	board.job.fixture.hold_count = 0;
	groove(&board, 40.0, -3.0);
	find(&board);
	const struct piece *loose = pieces_loose(&board.pieces, &board.stock, 9.0);
	assert_non_null(loose);
	assert_near(stock_x(&board.stock, loose->ix1), 60.0, 0.3, "the smaller one's end, mm");
	free_board(&board);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_whole_board_is_one_piece),
		cmocka_unit_test(two_grooves_make_three_pieces),
		cmocka_unit_test(a_skin_holds_or_not),
		cmocka_unit_test(without_holding_places_the_largest_is_held),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
