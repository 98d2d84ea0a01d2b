/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "files/plain_number.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/seed.h"

static double read_number(const char *text)
{
	double value = NAN;

	if (!plain_number(&value, text, strlen(text)))
		fail_msg("%s was not taken for a number", text);
	return value;
}

/* The C library's reading, in the locale "C", is the outside judge. */
static void random_figures_agree_with_the_c_library(void **state)
{
	(void)state;
	static const char *const forms[] = { "%.0f",  "%.1f", "%.3f",  "%.6f",
					     "%.17f", "%e",   "%.15e", "%+.4f" };
	gsl_rng *rng = seed_rng("plain numbers");

	for (int i = 0; i < 20000; i++) {
		char text[64];
		double drawn = seed_between(rng, -1.0, 1.0) * pow(10.0, seed_between(rng, -9, 9));
		(void)snprintf(text, sizeof text, forms[seed_whole(rng, 0, 7)], drawn);
		double expected = strtod(text, NULL);
		assert_near(read_number(text), expected, fabs(expected) * 1e-15, text);
	}
	gsl_rng_free(rng);
}

static void short_decimals_are_exact(void **state)
{
	(void)state;
	for (int i = 0; i < 200000; i++) {
		char text[32];
		(void)snprintf(text, sizeof text, "%d.%03d", i / 1000, i % 1000);
		assert_true(read_number(text) == strtod(text, NULL));
	}
}

static void the_length_counts_not_the_nul(void **state)
{
	(void)state;
	double value = 0.0;

	assert_true(plain_number(&value, "12.5,3", 4));
	assert_near(value, 12.5, 0, "12.5 of 12.5,3");
	assert_false(plain_number(&value, "12.5,3", 5));
	assert_false(plain_number(&value, "1", 0));
	assert_near(value, 12.5, 0, "kept at a refusal");
}

static void extremes(void **state)
{
	(void)state;
	double value = 0.0;

	assert_near(read_number("0"), 0.0, 0, "zero");
	assert_near(read_number("-0.0"), 0.0, 0, "minus zero");
	assert_near(read_number("1e-400"), 0.0, 0, "too small to tell from zero");
	assert_near(read_number("123456789012345678901234567890"), 1.2345678901234568e29, 1e15,
		    "thirty digits");
	assert_near(read_number("0.00000000000000000000000000000123"), 1.23e-30, 1e-45,
		    "many noughts");
	assert_false(plain_number(&value, "1e400", 5));
	assert_false(plain_number(&value, "1e99999999999999999999", 22));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(random_figures_agree_with_the_c_library),
		cmocka_unit_test(short_decimals_are_exact),
		cmocka_unit_test(the_length_counts_not_the_nul),
		cmocka_unit_test(extremes),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
