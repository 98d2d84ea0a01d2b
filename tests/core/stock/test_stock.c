/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The blank as columns, and the highest wood along a line against looking at
 * every column. Lengths mm. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "stock/stock.h"
#include "support/near.h"
#include "support/seed.h"

/* Low shaft, high block from x = 30, sawn askew in front; bottom raised at the
 * peghead; narrower toward the body. */
static struct blank stepped(void)
{
	return (struct blank){
		.top = { 5, { -20, 0, 30, 30, 50 }, { 26, 18, 18, 40, 40 } },
		.bottom = { 3, { -20, 0, 50 }, { 6, 0, 0 } },
		.half_width = { 4, { -20, 10, 10, 50 }, { 15, 15, 9, 12 } },
	};
}

/* Height of the blank's wood at a place, or its bottom where there is none. */
static double wood_at(const struct blank *blank, double x, double y)
{
	if (x < -20.0 || x > 50.0 || fabs(y) > outline_value_mm(&blank->half_width, x))
		return outline_value_mm(&blank->bottom, x);
	return outline_value_mm(&blank->top, x);
}

static struct stock built(const struct blank *blank, double cell_mm)
{
	struct stock stock;

	assert_int_equal(stock_build(&stock, blank, cell_mm, NULL), FAULT_NONE);
	return stock;
}

static void columns_are_the_blank(void **state)
{
	(void)state;
	static const double cells[] = { 0.2, 0.37, 1.0 };
	struct blank blank = stepped();

	for (size_t c = 0; c < 3; c++) {
		struct stock stock = built(&blank, cells[c]);
		assert_true(stock.ny % 2 == 1);
		assert_near(stock_y(&stock, stock.ny / 2), 0.0, 1e-9, "row on the centre line");
		assert_true(stock_x(&stock, 0) < -20.0 && stock_x(&stock, stock.nx - 1) > 50.0);
		assert_true(stock_y(&stock, 0) < -15.0 && stock_y(&stock, stock.ny - 1) > 15.0);
		for (size_t iy = 0; iy < stock.ny; iy++)
			for (size_t ix = 0; ix < stock.nx; ix++) {
				size_t i = iy * stock.nx + ix;
				double x = stock_x(&stock, ix), y = stock_y(&stock, iy);
				assert_near((double)stock.top[i], wood_at(&blank, x, y), 1e-5,
					    "mm");
				assert_near((double)stock.bottom[i],
					    outline_value_mm(&blank.bottom, x), 1e-5, "mm");
				assert_true(stock.ceiling[i] >= stock.top[i]);
			}
		stock_free(&stock);
	}
}

/* Wood anywhere in a column's cell lies under its ceiling, at steps and edges
 * too, and a ceiling is nowhere higher than the blank near it. */
static void ceilings_cover_their_cells(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("ceilings_cover_their_cells");
	struct blank blank = stepped();

	for (int n = 0; n < 20; n++) {
		double cell = seed_between(rng, 0.2, 2.0);
		struct stock stock = built(&blank, cell);
		for (int i = 0; i < 5000; i++) {
			double x = seed_between(rng, -22, 52), y = seed_between(rng, -17, 17);
			size_t at = stock_iy(&stock, y) * stock.nx + stock_ix(&stock, x);
			if (wood_at(&blank, x, y) > outline_value_mm(&blank.bottom, x))
				assert_true((double)stock.ceiling[at] >=
					    wood_at(&blank, x, y) - 1e-5);
			assert_true((double)stock.ceiling[at] <=
				    outline_most_mm(&blank.top, x - cell, x + cell) + 1e-5);
		}
		stock_free(&stock);
	}
	gsl_rng_free(rng);
}

static void too_many_columns(void **state)
{
	(void)state;
	static const double cells[] = { 0.004, 0.0, -1.0, NAN };
	struct blank blank = stepped();

	for (size_t i = 0; i < 4; i++) {
		struct fault_list faults = { 0 };
		struct stock stock;
		assert_int_equal(stock_build(&stock, &blank, cells[i], &faults), FAULT_SETTING);
		assert_string_equal(faults.record[0].setting, "carve.cell");
		assert_non_null(strstr(faults.record[0].message, "larger cells"));
		stock_free(&stock);
	}
	stock_free(NULL);
}

static double line_distance(struct vec3 a, struct vec3 b, double x, double y)
{
	double dx = b.x - a.x, dy = b.y - a.y, length2 = dx * dx + dy * dy;
	double t = length2 > 0.0 ? ((x - a.x) * dx + (y - a.y) * dy) / length2 : 0.0;

	t = fmin(fmax(t, 0.0), 1.0);
	return hypot(x - a.x - t * dx, y - a.y - t * dy);
}

/* Highest ceiling of all cells that could come within the radius, as far as
 * their half diagonals go; *least that of cells that surely do, as far as their
 * inscribed circles go. */
static double looked_at_all(const struct stock *stock, struct vec3 a, struct vec3 b, double radius,
			    double *least)
{
	double most = -INFINITY;

	*least = -INFINITY;
	for (size_t iy = 0; iy < stock->ny; iy++)
		for (size_t ix = 0; ix < stock->nx; ix++) {
			size_t i = iy * stock->nx + ix;
			double d = line_distance(a, b, stock_x(stock, ix), stock_y(stock, iy));
			if (stock->ceiling[i] <= stock->bottom[i])
				continue;
			if (d <= radius + 0.7072 * stock->cell_mm)
				most = fmax(most, (double)stock->ceiling[i]);
			if (d <= radius + 0.4999 * stock->cell_mm)
				*least = fmax(*least, (double)stock->ceiling[i]);
		}
	return most;
}

static struct vec3 any_tip(const gsl_rng *rng)
{
	double x = seed_between(rng, -40, 70), y = seed_between(rng, -30, 30);

	return vec3_make(x, y, seed_between(rng, 2, 45));
}

static void assert_highest(struct stock *stock, const gsl_rng *rng)
{
	struct vec3 a = any_tip(rng), b = seed_whole(rng, 0, 3) ? any_tip(rng) : a;
	double radius = seed_between(rng, 0.5, 12.0), least;
	double most = looked_at_all(stock, a, b, radius, &least);
	double enough = seed_between(rng, -5, 45);

	assert_between(stock_highest_mm(stock, a, b, radius, -INFINITY), least, most, "mm");
	double bounded = stock_highest_mm(stock, a, b, radius, enough);
	if (bounded > enough)
		assert_between(bounded, least, most, "highest, mm");
	else
		assert_true(least <= enough);
}

/* On the whole blank, then while it is being cut. */
static void highest_along_a_line(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("highest_along_a_line");
	struct blank blank = stepped();
	struct stock stock = built(&blank, 0.7);
	struct swath swath = { 0 };

	for (int i = 0; i < 400; i++) {
		assert_highest(&stock, rng);
		assert_int_equal(stock_sweep(&stock, any_tip(rng), any_tip(rng), 3.0, &swath, NULL),
				 FAULT_NONE);
	}
	swath_free(&swath);
	stock_free(&stock);
	gsl_rng_free(rng);
}

static void nothing_far_from_the_blank(void **state)
{
	(void)state;
	struct blank blank = stepped();
	struct stock stock = built(&blank, 0.5);

	for (int side = -1; side <= 1; side += 2) {
		struct vec3 along = vec3_make(15.0 + side * 200.0, 0, 5);
		struct vec3 across = vec3_make(15, side * 100.0, 5);
		assert_true(stock_highest_mm(&stock, along, along, 5, -INFINITY) < -1e300);
		assert_true(stock_highest_mm(&stock, across, across, 5, -INFINITY) < -1e300);
	}
	stock_free(&stock);
}

static void columns_by_place(void **state)
{
	(void)state;
	struct blank blank = stepped();
	struct stock stock = built(&blank, 0.4);

	for (size_t ix = 0; ix < stock.nx; ix++) {
		assert_int_equal(stock_ix(&stock, stock_x(&stock, ix) + 0.19), ix);
		assert_int_equal(stock_ix(&stock, stock_x(&stock, ix) - 0.19), ix);
	}
	assert_int_equal(stock_ix(&stock, -1e9), 0);
	assert_int_equal(stock_iy(&stock, 1e9), stock.ny - 1);
	stock_free(&stock);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(columns_are_the_blank),
		cmocka_unit_test(ceilings_cover_their_cells),
		cmocka_unit_test(too_many_columns),
		cmocka_unit_test(highest_along_a_line),
		cmocka_unit_test(nothing_far_from_the_blank),
		cmocka_unit_test(columns_by_place),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
