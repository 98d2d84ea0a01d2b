/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "pictures/scale.h"
#include "support/near.h"

static void steps_are_round_and_few_enough(void **state)
{
	(void)state;
	assert_near(scale_step(10.0, 5), 2.0, 0.0, "10 in 5 parts");
	assert_near(scale_step(10.0, 4), 5.0, 0.0, "10 in 4 parts");
	assert_near(scale_step(450.0, 12), 50.0, 0.0, "450 in 12 parts");
	assert_near(scale_step(1.0, 10), 0.1, 1e-15, "1 in 10 parts");
	assert_near(scale_step(0.0, 5), 1.0, 0.0, "no span");
	assert_near(scale_step(NAN, 5), 1.0, 0.0, "no number");
	for (int i = 1; i < 4000; i++) {
		double span = 0.013 * i, step = scale_step(span, 7);
		double mantissa = step / pow(10.0, floor(log10(step) + 1e-9));
		assert_between(span / step, 0.0, 7.0 + 1e-4, "steps in the span");
		assert_between(span / step, 2.7, 7.1, "not needlessly few");
		assert_true(fabs(mantissa - 1.0) < 1e-9 || fabs(mantissa - 2.0) < 1e-9 ||
			    fabs(mantissa - 5.0) < 1e-9);
	}
}

static void ceilings_are_the_next_multiple(void **state)
{
	(void)state;
	assert_near(scale_ceiling(-74.9, 50.0), -50.0, 0.0, "below zero");
	assert_near(scale_ceiling(0.3, 0.1), 0.3, 1e-12, "on a multiple in spite of binary");
	assert_near(scale_ceiling(0.31, 0.1), 0.4, 1e-12, "above one");
}

static void numbers_need_no_locale(void **state)
{
	(void)state;
	char text[NUMBER_MAX];

	assert_string_equal(scale_number(text, 1.005, 1), "1.0");
	assert_string_equal(scale_number(text, 12.346, 2), "12.35");
	assert_string_equal(scale_number(text, 0.06, 2), "0.06");
	assert_string_equal(scale_number(text, -3.5, 1), "\xe2\x88\x92"
							 "3.5");
	assert_string_equal(scale_number(text, -0.001, 2), "0.00");
	assert_string_equal(scale_number(text, 1234.0, 0), "1234");
	assert_string_equal(scale_number(text, NAN, 2), "\xe2\x80\x93");
	assert_string_equal(scale_number(text, -INFINITY, 2), "\xe2\x80\x93");
	assert_string_equal(scale_number(text, 1e300, 2), "\xe2\x80\x93");
	assert_int_equal(scale_decimals(0.05), 2);
	assert_int_equal(scale_decimals(0.2), 1);
	assert_int_equal(scale_decimals(50.0), 0);
}

static void frets_have_names(void **state)
{
	(void)state;
	char text[NUMBER_MAX];

	assert_string_equal(scale_fret(text, 0.0), "nut");
	assert_string_equal(scale_fret(text, 11.0), "11");
	assert_string_equal(scale_fret(text, 5.5), "5.5");
}

static void places_follow_the_axis(void **state)
{
	(void)state;
	const struct map_axis axis = { -50.0, 150.0, 10.0, 110.0, 50.0, "x, mm" };
	const struct map_axis up = { 0.0, 10.0, 90.0, 40.0, 5.0, "z, mm" };

	assert_near(scale_place_mm(&axis, 0.0), 35.0, 1e-12, "x on paper, mm");
	assert_near(scale_place_mm(&up, 2.0), 80.0, 1e-12, "upright axes run backward, mm");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(steps_are_round_and_few_enough),
		cmocka_unit_test(ceilings_are_the_next_multiple),
		cmocka_unit_test(numbers_need_no_locale),
		cmocka_unit_test(frets_have_names),
		cmocka_unit_test(places_follow_the_axis),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
