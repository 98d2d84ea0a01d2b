/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looking up what the router left. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "papers/rounding_stock.h"
#include "support/near.h"

#define NX 4
#define NY 9

/* Columns 1 mm apart, x 0..3, y -4..4; value 10 x + |y| on the plus side, 100
 * more on the minus side; nothing beyond |y| = 3. */
static struct column_map make_map(float value[NX * NY])
{
	for (int iy = 0; iy < NY; iy++)
		for (int ix = 0; ix < NX; ix++) {
			int y = iy - 4;
			float stock = (float)(10 * ix + (y < 0 ? 100 - y : y));
			value[iy * NX + ix] = y < -3 || y > 3 ? NAN : stock;
		}
	return (struct column_map){ NX, NY, 0.0, -4.0, 1.0, value };
}

static void the_nearest_column_answers(void **state)
{
	float value[NX * NY];
	struct column_map map = make_map(value);

	(void)state;
	assert_near(rounding_stock_at_mm(&map, 2.2, 1.9, SIDE_PLUS), 22.0, 1e-5, "stock, mm");
	assert_near(rounding_stock_at_mm(&map, 1.0, 2.0, SIDE_MINUS), 112.0, 1e-5, "stock, mm");
	/* at the very edge the next column farther in that knows */
	assert_near(rounding_stock_at_mm(&map, 0.0, 4.0, SIDE_PLUS), 3.0, 1e-5, "borrowed, mm");
	assert_near(rounding_stock_at_mm(&map, 0.0, 6.0, SIDE_MINUS), 103.0, 1e-5, "borrowed, mm");
	assert_true(isnan(rounding_stock_at_mm(&map, 0.0, 20.0, SIDE_PLUS)));
	assert_true(isnan(rounding_stock_at_mm(&map, 9.0, 1.0, SIDE_PLUS)));
}

static void bounds_are_taken_on_one_side(void **state)
{
	float value[NX * NY];
	struct column_map map = make_map(value);

	(void)state;
	assert_near(rounding_stock_least_mm(&map, 1.0, SIDE_PLUS), 10.0, 1e-5, "least, mm");
	assert_near(rounding_stock_most_mm(&map, 1.0, SIDE_PLUS), 13.0, 1e-5, "most, mm");
	assert_near(rounding_stock_least_mm(&map, 1.0, SIDE_MINUS), 111.0, 1e-5, "least, mm");
	assert_near(rounding_stock_most_mm(&map, 1.0, SIDE_MINUS), 113.0, 1e-5, "most, mm");
	assert_true(isnan(rounding_stock_least_mm(&map, -5.0, SIDE_PLUS)));
	for (int i = 0; i < NX * NY; i++)
		value[i] = NAN;
	assert_true(isnan(rounding_stock_most_mm(&map, 1.0, SIDE_PLUS)));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_nearest_column_answers),
		cmocka_unit_test(bounds_are_taken_on_one_side),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
