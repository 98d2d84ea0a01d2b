/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Wood that hangs together by strips, before and after its edges are taken. */
#include "path/foresee.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/sample_job.h"

#define CELL_MM 0.5
#define HOLDING_MM 0.7
#define THICK_MM 0.8
#define THIN_MM 0.6

/* The board, 60 x 40 mm; it holds all over. */
static void make_board(struct stock *stock)
{
	struct job job = sample_board_job();

	assert_int_equal(stock_build(stock, &job.blank, CELL_MM, NULL), FAULT_NONE);
}

static bool holds(const struct stock *stock, double x, double y)
{
	size_t i = stock_iy(stock, y) * stock->nx + stock_ix(stock, x);

	return (double)stock->top[i] - (double)stock->bottom[i] >= HOLDING_MM;
}

/* Brings the columns of a box down to a thickness. */
static void thin(struct stock *stock, size_t ix0, size_t ix1, size_t iy0, size_t iy1,
		 double thick_mm)
{
	for (size_t iy = iy0; iy < iy1; iy++)
		for (size_t ix = ix0; ix < ix1; ix++) {
			size_t i = iy * stock->nx + ix;
			stock->top[i] = stock->bottom[i] + (float)thick_mm;
		}
}

/* Two parts of the board joined by a strip of so many columns, which is as thick as
 * just holds; beside it the wood is a little thinner. `lengthwise`: the strip runs
 * along. `at`: index of its first column across. */
static void make_strip(struct stock *stock, bool lengthwise, size_t at, size_t columns)
{
	size_t nx, ny;

	make_board(stock);
	nx = stock->nx;
	ny = stock->ny;
	if (lengthwise) {
		thin(stock, nx / 3, 2 * nx / 3, 0, ny, THIN_MM);
		thin(stock, nx / 3, 2 * nx / 3, at, at + columns, THICK_MM);
	} else {
		thin(stock, 0, nx, ny / 3, 2 * ny / 3, THIN_MM);
		thin(stock, at, at + columns, ny / 3, 2 * ny / 3, THICK_MM);
	}
}

/* The strip is gone or not; the parts' own middles stay. */
static void assert_strip(struct stock *stock, bool lengthwise, size_t at, size_t columns, bool kept)
{
	struct stock firm;
	size_t middle = (lengthwise ? stock->nx : stock->ny) / 2, left = 0;

	assert_int_equal(foresee_firm(&firm, stock, HOLDING_MM, NULL), FAULT_NONE);
	for (size_t k = at; k < at + columns; k++) {
		double x = stock_x(stock, lengthwise ? middle : k);
		double y = stock_y(stock, lengthwise ? k : middle);
		assert_true(holds(stock, x, y)); /* what was looked at is as it was */
		left += holds(&firm, x, y);
	}
	assert_int_equal(left > 0, kept);
	assert_true(holds(&firm, lengthwise ? 10.0 : 30.0, lengthwise ? 0.0 : -15.0));
	assert_true(holds(&firm, lengthwise ? 50.0 : 30.0, lengthwise ? 0.0 : 15.0));
	stock_free(&firm);
}

/* 2.5 and 3.5 mm wide, along and across. */
static void narrow_strips_are_no_joint(void **state)
{
	(void)state;

	for (int lengthwise = 0; lengthwise < 2; lengthwise++)
		for (size_t columns = 5; columns <= 7; columns += 2) {
			struct stock stock;
			make_strip(&stock, lengthwise, 30, columns);
			assert_strip(&stock, lengthwise, 30, columns, columns == 7);
			stock_free(&stock);
		}
}

/* At the grid's border it has one edge only: 1.5 mm are taken from that alone. */
static void the_border_is_no_edge(void **state)
{
	(void)state;

	for (int lengthwise = 0; lengthwise < 2; lengthwise++)
		for (int end = 0; end < 2; end++)
			for (size_t columns = 3; columns <= 4; columns++) {
				struct stock stock;
				make_board(&stock);
				size_t most = lengthwise ? stock.ny : stock.nx;
				size_t at = end ? most - columns : 0;
				stock_free(&stock);
				make_strip(&stock, lengthwise, at, columns);
				assert_strip(&stock, lengthwise, at, columns, columns == 4);
				stock_free(&stock);
			}
}

/* What goes from an edge is 1.5 mm, whatever stands there. */
static void an_edge_loses_a_millimetre_and_a_half(void **state)
{
	(void)state;
	struct stock stock, firm;

	make_board(&stock);
	thin(&stock, stock_ix(&stock, 30.0), stock.nx, 0, stock.ny, THIN_MM);
	assert_int_equal(foresee_firm(&firm, &stock, HOLDING_MM, NULL), FAULT_NONE);
	assert_true(holds(&stock, 29.5, 0.0));
	assert_false(holds(&firm, 28.5, 0.0));
	assert_true(holds(&firm, 28.0, 0.0));
	size_t i = stock_iy(&firm, 0.0) * firm.nx + stock_ix(&firm, 28.0);
	assert_near((double)firm.top[i], 20.0, 0.0, "as tall as it was, mm");
	stock_free(&stock);
	stock_free(&firm);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(narrow_strips_are_no_joint),
		cmocka_unit_test(the_border_is_no_edge),
		cmocka_unit_test(an_edge_loses_a_millimetre_and_a_half),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
