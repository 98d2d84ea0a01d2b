/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Columns of a blank with a margin: all the wood there may be, and what stands
 * in a blank with less after the same cuts. Lengths mm. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "stock/stock.h"
#include "support/near.h"
#include "support/real_blank.h"
#include "support/seed.h"

static struct blank uneven(void)
{
	return (struct blank){
		.top = { 5, { -20, 0, 30, 30, 50 }, { 26, 18, 18, 40, 40 } },
		.bottom = { 3, { -20, 0, 50 }, { 6, 0, 0 } },
		.side = { [BLANK_MINUS] = { 4, { -20, 10, 10, 50 }, { 15, 15, 9, 12 } },
			  [BLANK_PLUS] = { 2, { -20, 50 }, { 11, 17 } } },
		.margin_mm = 0.8,
	};
}

static struct stock built(const struct blank *blank, double cell_mm)
{
	struct stock stock;

	assert_int_equal(stock_build(&stock, blank, cell_mm, NULL), FAULT_NONE);
	return stock;
}

/* Top of a blank's wood at a place; its bottom where there is none. */
static double wood_at(const struct blank *blank, double x, double y)
{
	enum blank_side side = y < 0.0 ? BLANK_MINUS : BLANK_PLUS;
	double bottom = outline_value_mm(&blank->bottom, x);

	if (x < blank_from_mm(blank) || x > blank_to_mm(blank) ||
	    fabs(y) > outline_value_mm(blank_side(blank, side), x))
		return bottom;
	return fmax(bottom, outline_value_mm(&blank->top, x));
}

/* No real blank has wood above the columns or the ceilings of its cell. */
static void columns_hold_every_real_blank(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("columns_hold_every_real_blank");
	struct blank drawn = uneven(), real;
	struct stock stock = built(&drawn, 0.4);

	for (int n = 0; n < 60; n++) {
		real_blank(&real, &drawn, rng);
		for (int i = 0; i < 3000; i++) {
			double x = seed_between(rng, -21, 51), y = seed_between(rng, -18, 18);
			size_t ix = stock_ix(&stock, x), iy = stock_iy(&stock, y);
			size_t at = iy * stock.nx + ix;
			double here = wood_at(&real, stock_x(&stock, ix), stock_y(&stock, iy));
			assert_true((double)stock.top[at] >= here - 1e-5);
			if (wood_at(&real, x, y) > outline_value_mm(&real.bottom, x))
				assert_true((double)stock.ceiling[at] >=
					    wood_at(&real, x, y) - 1e-5);
		}
	}
	stock_free(&stock);
	gsl_rng_free(rng);
}

/* One side's margin is no excuse for wood on the other: the columns end where
 * that side may lie at most. */
static void sides_end_where_they_may(void **state)
{
	(void)state;
	struct blank drawn = uneven();
	struct stock stock = built(&drawn, 0.1);

	for (size_t ix = 0; ix < stock.nx; ix++) {
		double x = stock_x(&stock, ix), minus = 0.0, plus = 0.0;
		for (size_t iy = 0; iy < stock.ny; iy++) {
			if (!(stock.top[iy * stock.nx + ix] > stock.bottom[iy * stock.nx + ix]))
				continue;
			minus = fmax(minus, -stock_y(&stock, iy));
			plus = fmax(plus, stock_y(&stock, iy));
		}
		if (x < -20.8 || x > 50.8) {
			assert_near(plus, 0.0, 0.0, "no wood beyond the ends");
			continue;
		}
		assert_between(minus, blank_side_most_mm(&drawn, BLANK_MINUS, x, x) - 0.1001,
			       blank_side_most_mm(&drawn, BLANK_MINUS, x, x) + 1e-9, "mm");
		assert_between(plus, blank_side_most_mm(&drawn, BLANK_PLUS, x, x) - 0.1001,
			       blank_side_most_mm(&drawn, BLANK_PLUS, x, x) + 1e-9, "mm");
	}
	stock_free(&stock);
}

/* Cutting all the wood there may be and confining it then gives the columns
 * that cutting the smaller blank gives. */
static void confined_as_if_cut(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("confined_as_if_cut");
	struct blank drawn = uneven(), plain;
	struct stock most, alone;
	struct swath swath = { 0 }, other = { 0 };

	/* no step on a column, where a last bit would tell its side */
	drawn.top.x_mm[2] = drawn.top.x_mm[3] = 30.07;
	drawn.side[BLANK_MINUS].x_mm[1] = drawn.side[BLANK_MINUS].x_mm[2] = 10.13;
	most = built(&drawn, 0.4);
	plain = drawn;
	plain.margin_mm = 0.0;
	alone = built(&plain, 0.4);
	for (int n = 0; n < 40; n++) {
		struct vec3 a = { seed_between(rng, -20, 50), seed_between(rng, -18, 18),
				  seed_between(rng, 4, 30) };
		struct vec3 b = { seed_between(rng, -20, 50), seed_between(rng, -18, 18),
				  seed_between(rng, 4, 30) };
		assert_int_equal(stock_sweep(&most, a, b, 4.0, &swath, NULL), FAULT_NONE);
		assert_int_equal(stock_sweep(&alone, a, b, 4.0, &other, NULL), FAULT_NONE);
	}
	stock_confine(most.top, &most, &drawn, STOCK_DRAWN);
	for (size_t iy = 1; iy + 1 < most.ny; iy++)
		for (size_t ix = 1; ix + 1 < most.nx; ix++) {
			/* the two grids begin at different places */
			double x = stock_x(&most, ix), y = stock_y(&most, iy);
			size_t at = stock_iy(&alone, y) * alone.nx + stock_ix(&alone, x);
			if (fabs(stock_x(&alone, stock_ix(&alone, x)) - x) > 1e-9 ||
			    fabs(stock_y(&alone, stock_iy(&alone, y)) - y) > 1e-9 ||
			    fabs(x + 20.0) < 1e-9 || fabs(x - 50.0) < 1e-9)
				continue;
			assert_near((double)most.top[iy * most.nx + ix], (double)alone.top[at],
				    1e-5, "top, mm");
		}
	stock_free(&most);
	stock_free(&alone);
	swath_free(&swath);
	swath_free(&other);
	gsl_rng_free(rng);
}

/* The least blank lies in every real one. */
static void least_is_in_every_real_blank(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("least_is_in_every_real_blank");
	struct blank drawn = uneven(), real;
	struct stock stock = built(&drawn, 0.4);
	float *least = malloc(stock.nx * stock.ny * sizeof *least);

	assert_non_null(least);
	stock_confine(least, &stock, &drawn, STOCK_LEAST);
	for (int n = 0; n < 60; n++) {
		real_blank(&real, &drawn, rng);
		for (size_t i = 0; i < stock.nx * stock.ny; i++) {
			double x = stock_x(&stock, i % stock.nx), y = stock_y(&stock, i / stock.nx);
			if (least[i] > stock.bottom[i])
				assert_true((double)least[i] <= wood_at(&real, x, y) + 1e-5);
		}
	}
	free(least);
	stock_free(&stock);
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(columns_hold_every_real_blank),
		cmocka_unit_test(sides_end_where_they_may),
		cmocka_unit_test(confined_as_if_cut),
		cmocka_unit_test(least_is_in_every_real_blank),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
