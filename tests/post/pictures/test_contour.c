/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "pictures/contour.h"
#include "support/near.h"

#define N 41

struct tally {
	size_t lines, rings, points;
	double length_mm, nearest_mm, farthest_mm; /* of points from the origin */
	double y_least, y_most;
};

static void count_line(void *context, size_t count, const double *x, const double *y)
{
	struct tally *t = context;

	assert_true(count >= 2);
	t->lines++;
	t->rings += x[0] == x[count - 1] && y[0] == y[count - 1];
	t->points += count;
	for (size_t i = 0; i < count; i++) {
		t->nearest_mm = fmin(t->nearest_mm, hypot(x[i], y[i]));
		t->farthest_mm = fmax(t->farthest_mm, hypot(x[i], y[i]));
		t->y_least = fmin(t->y_least, y[i]);
		t->y_most = fmax(t->y_most, y[i]);
		if (i > 0)
			t->length_mm += hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
	}
}

static struct column_map grid(float *value)
{
	return (struct column_map){ N, N, -10.0, -10.0, 0.5, value };
}

static struct tally trace(const struct column_map *map, double level)
{
	struct tally t = { .nearest_mm = INFINITY, .y_least = INFINITY, .y_most = -INFINITY };

	assert_int_equal(contour_trace(map, level, count_line, &t, NULL), FAULT_NONE);
	return t;
}

static void a_cone_gives_a_circle(void **state)
{
	(void)state;
	static float value[N * N];
	struct column_map map = grid(value);

	for (size_t i = 0; i < N * N; i++)
		value[i] =
			(float)hypot(-10.0 + 0.5 * (double)(i % N), -10.0 + 0.5 * (double)(i / N));
	struct tally t = trace(&map, 6.1);
	assert_int_equal(t.lines, 1);
	assert_int_equal(t.rings, 1);
	/* along a grid edge the cone departs from a line by at most h^2 / 8 r */
	assert_between(t.nearest_mm, 6.1 - 0.006, 6.1 + 0.006, "nearest point, mm");
	assert_between(t.farthest_mm, 6.1 - 0.006, 6.1 + 0.006, "farthest point, mm");
	assert_near(t.length_mm, 2.0 * 3.14159265358979 * 6.1, 0.1, "circumference, mm");
}

static void a_slope_gives_one_open_line(void **state)
{
	(void)state;
	static float value[N * N];
	struct column_map map = grid(value);

	for (size_t i = 0; i < N * N; i++)
		value[i] = (float)(i / N);
	struct tally t = trace(&map, 12.5);
	assert_int_equal(t.lines, 1);
	assert_int_equal(t.rings, 0);
	assert_int_equal(t.points, N);
	assert_near(t.y_least, -3.75, 1e-9, "y of the line, mm");
	assert_near(t.y_most, -3.75, 1e-9, "y of the line, mm");
	assert_near(t.length_mm, 20.0, 1e-9, "length, mm");
}

static void nothing_runs_into_the_void(void **state)
{
	(void)state;
	static float value[N * N];
	struct column_map map = grid(value);

	for (size_t i = 0; i < N * N; i++)
		value[i] = i % N == 20 ? NAN : (float)(i / N);
	struct tally t = trace(&map, 12.5);
	assert_int_equal(t.lines, 2);
	assert_near(t.length_mm, 19.0, 1e-9, "length without the gap, mm");
	assert_int_equal(trace(&map, 100.0).lines, 0);
}

/* Four corners, high and low in turn: the mean says which pair is joined. */
static void a_saddle_is_cut_twice(void **state)
{
	(void)state;
	float high[4] = { 1.0f, 0.0f, 0.0f, 1.0f }, low[4] = { 1.0f, 0.0f, -2.0f, 1.0f };
	struct column_map map = { 2, 2, 0.0, 0.0, 1.0, high };

	struct tally t = trace(&map, 0.4);
	assert_int_equal(t.lines, 2);
	assert_near(t.length_mm, 2.0 * hypot(0.4, 0.4), 1e-6, "low corners cut off, mm");
	map.value = low;
	t = trace(&map, 0.4);
	assert_int_equal(t.lines, 2);
	assert_near(t.length_mm, hypot(0.6, 0.2) + hypot(0.2, 0.6), 1e-6,
		    "high corners cut off, mm");
}

static void smoothing_takes_means(void **state)
{
	(void)state;
	static float value[N * N];
	struct column_map map = grid(value), smooth;

	for (size_t i = 0; i < N * N; i++)
		value[i] = i % 2 ? 1.0f : 3.0f;
	value[0] = value[1] = NAN; /* half of a block of four is still there ... */
	value[2] = value[3] = value[N + 2] = NAN; /* ... a quarter is not enough */
	value[4] = 100.0f;
	assert_int_equal(contour_smooth(&smooth, &map, 2, 9.0, NULL), FAULT_NONE);
	assert_int_equal(smooth.nx, 20);
	assert_near(smooth.x0_mm, -9.75, 1e-12, "centre of the first block, mm");
	assert_near(smooth.cell_mm, 1.0, 1e-12, "size of a block, mm");
	assert_near((double)smooth.value[0], 2.0, 1e-6, "mean of what is there");
	assert_true(isnan(smooth.value[1]));
	assert_near((double)smooth.value[2], (9.0 + 1.0 + 1.0 + 3.0) / 4.0, 1e-6,
		    "mean under the ceiling");
	contour_map_free(&smooth);
	contour_map_free(NULL);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_cone_gives_a_circle),
		cmocka_unit_test(a_slope_gives_one_open_line),
		cmocka_unit_test(nothing_runs_into_the_void),
		cmocka_unit_test(a_saddle_is_cut_twice),
		cmocka_unit_test(smoothing_takes_means),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
