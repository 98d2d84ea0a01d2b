/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Units. Source: international yard and pound agreement of 1959, 1 in =
 * 25.4 mm exactly (NIST SP 811, appendix B); the rest is arithmetic. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "support/near.h"

static void inch_is_exact(void **state)
{
	(void)state;
	assert_near(MM_PER_INCH, 25.4, 0.0, "1959 agreement, mm");
	assert_near(units_mm_per(UNIT_INCH), 25.4, 0.0, "one inch, mm");
	assert_near(units_mm_per(UNIT_MM), 1.0, 0.0, "one millimetre, mm");
}

static void lengths_in_inches(void **state)
{
	(void)state;
	static const struct {
		double mm, inch;
	} cases[] = {
		{ 22.0, 0.866142 }, { 21.0, 0.826772 }, { 25.0, 0.984252 },   { 24.0, 0.944882 },
		{ 43.0, 1.692913 }, { 1.0, 0.039370 },	{ 305.0, 12.007874 }, { 406.0, 15.984252 },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_near(units_inch_from_mm(cases[i].mm), cases[i].inch, 5e-7, "length, in");
}

/* Fractions that shops use, and 25.4 in, where a doubled conversion would give
 * a figure that looks right. */
static void exact_fractions(void **state)
{
	(void)state;
	static const struct {
		double mm, inch;
	} cases[] = {
		{ 44.45, 1.75 }, { 6.35, 0.25 },  { 12.7, 0.5 },
		{ 304.8, 12.0 }, { 406.4, 16.0 }, { 645.16, 25.4 },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		assert_near(units_inch_from_mm(cases[i].mm), cases[i].inch, 1e-14, "length, in");
		assert_near(cases[i].inch * units_mm_per(UNIT_INCH), cases[i].mm, 1e-12,
			    "length, mm");
	}
}

/* Three decimals of an inch, as callipers are read (common practice, no
 * source): never more than 0.0064 mm from the metric figure. */
static void shop_roundings(void **state)
{
	(void)state;
	static const struct {
		double mm, rounded_inch, back_mm;
	} cases[] = {
		{ 22.0, 0.866, 21.9964 },
		{ 21.0, 0.827, 21.0058 },
		{ 25.0, 0.984, 24.9936 },
		{ 24.0, 0.945, 24.0030 },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		double back_mm = cases[i].rounded_inch * units_mm_per(UNIT_INCH);
		assert_near(cases[i].rounded_inch, units_inch_from_mm(cases[i].mm), 0.0005,
			    "the nearest thousandth, in");
		assert_near(back_mm, cases[i].back_mm, 1e-9, "what the thousandth is, mm");
		assert_near(back_mm, cases[i].mm, 0.0064001, "its error, mm");
	}
}

static void feeds_in_inches(void **state)
{
	(void)state;
	assert_near(units_inch_from_mm(3000.0), 118.110236, 5e-7, "feed, in/min");
	assert_near(100.0 * units_mm_per(UNIT_INCH), 2540.0, 0.0, "feed, mm/min");
}

static void angles(void **state)
{
	(void)state;
	assert_near(units_rad_from_deg(180.0), PI, 0.0, "half a turn, rad");
	assert_near(units_rad_from_deg(14.0), 0.24434609527920614, 1e-16, "a peghead's, rad");
	assert_near(units_deg_from_rad(PI / 6.0), 30.0, 1e-13, "a twelfth of a turn, degrees");
	for (int step = -96; step <= 96; step++) {
		double deg = 7.5 * step;
		assert_near(units_deg_from_rad(units_rad_from_deg(deg)), deg, 1e-12,
			    "there and back, degrees");
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(inch_is_exact),   cmocka_unit_test(lengths_in_inches),
		cmocka_unit_test(exact_fractions), cmocka_unit_test(shop_roundings),
		cmocka_unit_test(feeds_in_inches), cmocka_unit_test(angles),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
