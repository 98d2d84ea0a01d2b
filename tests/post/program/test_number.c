/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers as text: chosen cases, and random ones against the C library. */
#include <limits.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "program/number.h"
#include "support/seed.h"

static void rounds_to_nearest(void **state)
{
	(void)state;
	static const struct {
		double value;
		int decimals;
		long long scaled;
	} cases[] = {
		{ 0.0, 3, 0 },
		{ -0.0, 3, 0 },
		{ 1.0, 0, 1 },
		{ 12.3456, 3, 12346 },
		{ -12.3456, 3, -12346 },
		{ 0.0004999, 3, 0 },
		{ -0.0004999, 3, 0 },
		/* halves that a double holds go away from zero */
		{ 0.5, 0, 1 },
		{ -0.5, 0, -1 },
		{ 2.5, 0, 3 },
		{ 0.125, 2, 13 },
		{ -0.125, 2, -13 },
		/* 1.0005 as a double lies below the half, though x 1000 rounds onto it */
		{ 1.0005, 3, 1000 },
		{ -1.0005, 3, -1000 },
		/* and 0.0015 above it */
		{ 0.0015, 3, 2 },
		{ 1e6, 9, 1000000000000000LL },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		long long scaled = LLONG_MIN;
		assert_true(number_scale(&scaled, cases[i].value, cases[i].decimals));
		assert_int_equal(scaled, cases[i].scaled);
	}
}

static void rounds_down(void **state)
{
	(void)state;
	static const struct {
		double value;
		int decimals;
		long long scaled;
	} cases[] = {
		{ 1800.0, 1, 18000 },  { 1800.09, 1, 18000 },	    { 1799.9999999999, 1, 18000 },
		{ 1799.99, 1, 17999 }, { 1800.0 / 25.4, 3, 70866 }, { 0.04, 1, 0 },
		{ 0.0, 1, 0 },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		long long scaled = LLONG_MIN;
		assert_true(number_scale_down(&scaled, cases[i].value, cases[i].decimals));
		assert_int_equal(scaled, cases[i].scaled);
	}
}

static void refuses_what_is_no_figure(void **state)
{
	(void)state;
	const double bad[] = { NAN, INFINITY, -INFINITY, 1e300, -1e300, 1.1e12 };
	long long scaled = 77;

	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
		assert_false(number_scale(&scaled, bad[i], 3));
		assert_false(number_scale_down(&scaled, bad[i], 3));
	}
	assert_false(number_scale_down(&scaled, -0.001, 3));
	assert_false(number_scale(&scaled, 1.0, -1));
	assert_false(number_scale(&scaled, 1.0, NUMBER_DECIMALS_MOST + 1));
	assert_int_equal(scaled, 77);
}

static void writes_fixed_decimals(void **state)
{
	(void)state;
	static const struct {
		long long scaled;
		int decimals;
		const char *fixed, *brief;
	} cases[] = {
		{ 0, 0, "0", "0" },
		{ 0, 3, "0.000", "0" },
		{ 1, 3, "0.001", "0.001" },
		{ -1, 3, "-0.001", "-0.001" },
		{ -50, 3, "-0.050", "-0.05" },
		{ 3000, 3, "3.000", "3" },
		{ 2500, 3, "2.500", "2.5" },
		{ 100, 0, "100", "100" },
		{ 18000, 1, "1800.0", "1800" },
		{ 123456789, 4, "12345.6789", "12345.6789" },
		{ LLONG_MAX, 0, "9223372036854775807", "9223372036854775807" },
		{ LLONG_MIN, 9, "-9223372036.854775808", "-9223372036.854775808" },
	};
	char text[NUMBER_TEXT_SIZE];

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		assert_int_equal(number_text(text, cases[i].scaled, cases[i].decimals),
				 strlen(cases[i].fixed));
		assert_string_equal(text, cases[i].fixed);
		assert_int_equal(number_text_short(text, cases[i].scaled, cases[i].decimals),
				 strlen(cases[i].brief));
		assert_string_equal(text, cases[i].brief);
	}
}

/* The library rounds the exact value of a double; exact halves, where it may
 * choose the other side, do not occur among random values this long. */
static void agrees_with_the_library(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("agrees_with_the_library");

	for (int i = 0; i < 200000; i++) {
		const int decimals = (int)seed_whole(rng, 0, 6);
		const double size = pow(10.0, seed_between(rng, -7.0, 6.0));
		const double value = seed_between(rng, -size, size);
		char expected[64], text[NUMBER_TEXT_SIZE];
		long long scaled;
		assert_true(number_scale(&scaled, value, decimals));
		number_text(text, scaled, decimals);
		(void)snprintf(expected, sizeof expected, "%.*f", decimals, value);
		const bool zero = strspn(expected, "-0.") == strlen(expected);
		assert_string_equal(text, zero && *expected == '-' ? expected + 1 : expected);
	}
	gsl_rng_free(rng);
}

/* Values a hair from a half, where the product of the machine misleads. */
static void agrees_beside_halves(void **state)
{
	(void)state;

	for (int i = 1; i < 200000; i++) {
		const double value = (i + 0.5) / 1000.0;
		char expected[64], text[NUMBER_TEXT_SIZE];
		long long scaled;
		if (fma(value, 1000.0, -(i + 0.5)) == 0.0)
			continue; /* a true half: see rounds_to_nearest */
		assert_true(number_scale(&scaled, value, 3));
		number_text(text, scaled, 3);
		(void)snprintf(expected, sizeof expected, "%.3f", value);
		assert_string_equal(text, expected);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(rounds_to_nearest),
		cmocka_unit_test(rounds_down),
		cmocka_unit_test(refuses_what_is_no_figure),
		cmocka_unit_test(writes_fixed_decimals),
		cmocka_unit_test(agrees_with_the_library),
		cmocka_unit_test(agrees_beside_halves),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
