/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "machine/blank.h"
#include "support/near.h"
#include "support/seed.h"

/* A stepped blank: low shaft, high heel block, sloped peghead end. */
static struct blank stepped(void)
{
	return (struct blank){
		.top = { 5, { -100, 0, 300, 300, 360 }, { 50, 24, 24, 86, 86 } },
		.bottom = { 3, { -100, 0, 360 }, { 25, 0, 0 } },
		.half_width = { 2, { -100, 360 }, { 36, 32 } },
	};
}

static void value_between_points(void **state)
{
	(void)state;
	struct blank blank = stepped();

	assert_near(outline_value_mm(&blank.top, -50.0), 37.0, 1e-12, "half way down, mm");
	assert_near(outline_value_mm(&blank.top, 150.0), 24.0, 1e-12, "on the shaft, mm");
	assert_near(outline_value_mm(&blank.half_width, 130.0), 34.0, 1e-12, "half width, mm");
}

static void value_at_a_step_is_the_larger(void **state)
{
	(void)state;
	struct blank blank = stepped();
	struct outline down = { 4, { 0, 10, 10, 20 }, { 9, 9, 2, 2 } };

	assert_near(outline_value_mm(&blank.top, 300.0), 86.0, 0.0, "step up, mm");
	assert_near(outline_value_mm(&blank.top, 299.999), 24.0, 1e-12, "just before, mm");
	assert_near(outline_value_mm(&down, 10.0), 9.0, 0.0, "step down, mm");
	assert_near(outline_value_mm(&down, 10.001), 2.0, 1e-12, "just behind, mm");
}

static void beyond_the_ends_the_end_value_holds(void **state)
{
	(void)state;
	struct blank blank = stepped();

	assert_near(outline_value_mm(&blank.top, -1e6), 50.0, 0.0, "far before, mm");
	assert_near(outline_value_mm(&blank.top, 1e6), 86.0, 0.0, "far behind, mm");
	assert_near(outline_value_mm(&blank.top, -100.0), 50.0, 0.0, "first point, mm");
	assert_near(outline_value_mm(&blank.top, 360.0), 86.0, 0.0, "last point, mm");
}

static void most_and_least_see_ends_and_steps(void **state)
{
	(void)state;
	struct blank blank = stepped();

	assert_near(outline_most_mm(&blank.top, 100.0, 300.0), 86.0, 0.0, "most up to step, mm");
	assert_near(outline_most_mm(&blank.top, 100.0, 299.0), 24.0, 1e-12, "most before it, mm");
	assert_near(outline_least_mm(&blank.top, 300.0, 350.0), 24.0, 0.0, "least from step, mm");
	assert_near(outline_least_mm(&blank.top, 301.0, 350.0), 86.0, 1e-12, "least behind it, mm");
	assert_near(outline_most_mm(&blank.top, -50.0, 100.0), 37.0, 1e-12, "most on slope, mm");
	assert_near(outline_least_mm(&blank.top, -50.0, -25.0), 30.5, 1e-12, "least on slope, mm");
}

/* No value between two x lies outside what most and least say. */
static void most_and_least_bound_every_value(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("most_and_least_bound_every_value");
	struct blank blank = stepped();

	for (int i = 0; i < 2000; i++) {
		double from = seed_between(rng, -150.0, 400.0);
		double to = from + seed_between(rng, 0.0, 300.0);
		double value = outline_value_mm(&blank.top, seed_between(rng, from, to));
		assert_between(value, outline_least_mm(&blank.top, from, to) - 1e-9,
			       outline_most_mm(&blank.top, from, to) + 1e-9, "value, mm");
	}
	gsl_rng_free(rng);
}

static void extent_and_height(void **state)
{
	(void)state;
	struct blank blank = stepped();

	assert_near(blank_from_mm(&blank), -100.0, 0.0, "begin, mm");
	assert_near(blank_to_mm(&blank), 360.0, 0.0, "end, mm");
	assert_near(blank_highest_mm(&blank), 86.0, 0.0, "highest, mm");
}

static void good_blank_passes(void **state)
{
	(void)state;
	struct blank blank = stepped();
	struct fault_list faults = { 0 };

	assert_int_equal(blank_check(&blank, &faults), FAULT_NONE);
	assert_int_equal(faults.count, 0);
}

/* Checks that the blank is refused for that setting, once, in these words. */
static void assert_refused(const struct blank *blank, const char *setting, const char *words)
{
	struct fault_list faults = { 0 };

	assert_int_equal(blank_check(blank, &faults), FAULT_SETTING);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].setting, setting);
	assert_non_null(strstr(faults.record[0].message, words));
}

static void outline_faults(void **state)
{
	(void)state;
	struct blank blank = stepped();

	blank.top.count = 1;
	assert_refused(&blank, "blank.top", "1 points");
	blank = stepped();
	blank.top.count = BLANK_POINTS_MAX + 1;
	assert_refused(&blank, "blank.top", "513 points");
	blank = stepped();
	blank.top.x_mm[2] = -1.0;
	assert_refused(&blank, "blank.top", "before the point that precedes it");
	blank = stepped();
	blank.top.x_mm[1] = 300.0;
	assert_refused(&blank, "blank.top", "Three points");
	blank = stepped();
	blank.top.value_mm[3] = NAN;
	assert_refused(&blank, "blank.top", "no place");
	blank = stepped();
	blank.half_width.x_mm[1] = blank.half_width.x_mm[0];
	assert_refused(&blank, "blank.half_width", "begins or ends with a step");
}

static void outlines_against_each_other(void **state)
{
	(void)state;
	struct blank blank = stepped();

	blank.bottom.x_mm[2] = 350.0;
	assert_refused(&blank, "blank.bottom", "same ends");
	blank = stepped();
	blank.half_width.x_mm[0] = -99.0;
	assert_refused(&blank, "blank.half_width", "same ends");
	blank = stepped();
	blank.bottom.value_mm[0] = 50.0;
	assert_refused(&blank, "blank.bottom", "does not lie below");
	blank = stepped();
	blank.half_width.value_mm[1] = 0.0;
	assert_refused(&blank, "blank.half_width", "more than 0");
}

/* Top and bottom may step up at one x as long as wood is left on either side. */
static void steps_at_one_place(void **state)
{
	(void)state;
	struct blank blank = stepped();
	struct fault_list faults = { 0 };

	blank.bottom = (struct outline){ 4, { -100, 300, 300, 360 }, { 0, 0, 40, 40 } };
	assert_int_equal(blank_check(&blank, &faults), FAULT_NONE);
	blank.bottom.x_mm[1] = blank.bottom.x_mm[2] = 299.0;
	assert_refused(&blank, "blank.bottom", "does not lie below");
}

static void ends_may_differ_by_rounding(void **state)
{
	(void)state;
	struct blank blank = stepped();

	blank.bottom.x_mm[2] += 0.0005;
	assert_int_equal(blank_check(&blank, NULL), FAULT_NONE);
	blank.bottom.x_mm[2] += 0.001;
	assert_int_equal(blank_check(&blank, NULL), FAULT_SETTING);
}

static void every_fault_is_told(void **state)
{
	(void)state;
	struct blank blank = stepped();
	struct fault_list faults = { 0 };

	blank.top.count = 0;
	blank.bottom.x_mm[1] = -200.0;
	blank.half_width.value_mm[0] = -1.0;
	assert_int_equal(blank_check(&blank, &faults), FAULT_SETTING);
	assert_int_equal(faults.count, 3);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(value_between_points),
		cmocka_unit_test(value_at_a_step_is_the_larger),
		cmocka_unit_test(beyond_the_ends_the_end_value_holds),
		cmocka_unit_test(most_and_least_see_ends_and_steps),
		cmocka_unit_test(most_and_least_bound_every_value),
		cmocka_unit_test(extent_and_height),
		cmocka_unit_test(good_blank_passes),
		cmocka_unit_test(outline_faults),
		cmocka_unit_test(outlines_against_each_other),
		cmocka_unit_test(steps_at_one_place),
		cmocka_unit_test(ends_may_differ_by_rounding),
		cmocka_unit_test(every_fault_is_told),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
