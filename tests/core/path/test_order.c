/* SPDX-License-Identifier: GPL-3.0-or-later */
/* In which order runs are cut. */
#include "path/order.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define RUNS 5

/* Lengthwise lines at y = -20, -10, 0, 10, 20 from x = 0 to 100. */
static struct runs lines(void)
{
	struct runs runs = { 0 };

	for (int i = 0; i < RUNS; i++) {
		struct track *run = runs_add(&runs);
		assert_non_null(run);
		assert_int_equal(track_add(run, vec3_make(0, 10.0 * i - 20, 5), NULL), 0);
		assert_int_equal(track_add(run, vec3_make(100, 10.0 * i - 20, 5), NULL), 0);
	}
	return runs;
}

/* Cuts them all and tells in which order; `reversed` gets a letter for each. */
static void cut_all(enum emit_order order, struct runs *runs, struct vec3 at, size_t turn[RUNS],
		    char reversed[RUNS + 1])
{
	bool done[RUNS] = { false }, reverse = false;

	for (int i = 0; i < RUNS; i++) {
		size_t next = order_next(order, runs, done, at, &reverse);
		assert_in_range(next, 0, RUNS - 1);
		assert_false(done[next]);
		done[next] = true;
		turn[i] = next;
		reversed[i] = reverse ? 'r' : 'f';
		at = runs->run[next].p[reverse ? 0 : 1];
	}
	reversed[RUNS] = '\0';
	assert_int_equal(order_next(order, runs, done, at, &reverse), RUNS);
}

static void assert_order(const size_t *turn, size_t a, size_t b, size_t c, size_t d, size_t e)
{
	const size_t expected[RUNS] = { a, b, c, d, e };

	for (int i = 0; i < RUNS; i++)
		assert_int_equal(turn[i], expected[i]);
}

static void orders_of_lines_for_both_ways(void **state)
{
	(void)state;
	struct runs runs = lines();
	size_t turn[RUNS];
	char reversed[RUNS + 1];

	cut_all(EMIT_NEAREST, &runs, vec3_make(0, -21, 9), turn, reversed);
	assert_order(turn, 0, 1, 2, 3, 4);
	assert_string_equal(reversed, "frfrf");
	cut_all(EMIT_OUTSIDE_IN, &runs, vec3_make(100, 5, 9), turn, reversed);
	assert_order(turn, 4, 3, 2, 0, 1);
	assert_string_equal(reversed, "rfrfr");
	cut_all(EMIT_SIDE_BY_SIDE, &runs, vec3_make(100, -21, 9), turn, reversed);
	assert_order(turn, 4, 3, 2, 0, 1);
	runs_free(&runs);
}

/* Only their beginnings count; they are never turned. */
static void one_way_lines_are_not_turned(void **state)
{
	(void)state;
	static const enum emit_order orders[] = { EMIT_NEAREST, EMIT_OUTSIDE_IN, EMIT_SIDE_BY_SIDE,
						  EMIT_BODY_FIRST, EMIT_PEGHEAD_FIRST };
	struct runs runs = lines();
	size_t turn[RUNS];
	char reversed[RUNS + 1];

	for (size_t i = 0; i < RUNS; i++)
		runs.run[i].one_way = true;
	for (size_t i = 0; i < sizeof orders / sizeof *orders; i++) {
		cut_all(orders[i], &runs, vec3_make(100, 21, 9), turn, reversed);
		assert_string_equal(reversed, "fffff");
	}
	runs_free(&runs);
}

static void crosswise_lines_begin_at_either_end(void **state)
{
	(void)state;
	static const double x[RUNS] = { 10, 50, 30, 50, 20 };
	struct runs runs = { 0 };
	size_t turn[RUNS];
	char reversed[RUNS + 1];

	for (int i = 0; i < RUNS; i++) {
		double y = i == 3 ? -30 : 10; /* two pieces of the line at 50 */
		struct track *run = runs_add(&runs);
		assert_non_null(run);
		assert_int_equal(track_add(run, vec3_make(x[i], y, 5), NULL), 0);
		assert_int_equal(track_add(run, vec3_make(x[i], y + 10, 5), NULL), 0);
	}
	cut_all(EMIT_BODY_FIRST, &runs, vec3_make(0, 20, 9), turn, reversed);
	assert_order(turn, 1, 3, 2, 4, 0);
	assert_string_equal(reversed, "rrfrf");
	cut_all(EMIT_PEGHEAD_FIRST, &runs, vec3_make(0, 20, 9), turn, reversed);
	assert_order(turn, 0, 4, 2, 1, 3);
	runs_free(&runs);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(orders_of_lines_for_both_ways),
		cmocka_unit_test(one_way_lines_are_not_turned),
		cmocka_unit_test(crosswise_lines_begin_at_either_end),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
