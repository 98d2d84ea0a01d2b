/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two sides of a blank, and the most and the least that its margin allows. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "machine/blank.h"
#include "support/near.h"
#include "support/real_blank.h"
#include "support/seed.h"

/* A step at 300, a slope down from -100 to 0, sides each by itself. */
static struct blank uneven(void)
{
	return (struct blank){
		.top = { 5, { -100, 0, 300, 300, 360 }, { 50, 24, 24, 86, 86 } },
		.bottom = { 3, { -100, 0, 360 }, { 20, 0, 0 } },
		.side = { [BLANK_MINUS] = { 2, { -100, 360 }, { 20, 43 } },
			  [BLANK_PLUS] = { 4, { -100, 0, 0, 360 }, { 38, 38, 26, 31 } } },
		.margin_mm = 0.5,
	};
}

static void sides_each_by_itself(void **state)
{
	(void)state;
	struct blank blank = uneven();

	assert_int_equal(blank_check(&blank, NULL), FAULT_NONE);
	assert_false(blank_sides_alike(&blank));
	assert_near(outline_value_mm(blank_side(&blank, BLANK_MINUS), 130), 31.5, 1e-12, "mm");
	assert_near(outline_value_mm(blank_side(&blank, BLANK_PLUS), -50), 38.0, 1e-12, "mm");
	assert_near(blank_widest_mm(&blank, -100, 0), 38.0, 0.0, "peghead's widest side, mm");
	assert_near(blank_widest_mm(&blank, 300, 360), 43.0, 0.0, "body's widest side, mm");
	assert_near(blank_widest_most_mm(&blank), 43.5, 1e-12, "widest with the margin, mm");
	blank.half_width = blank.side[BLANK_PLUS];
	assert_true(blank_side(&blank, BLANK_MINUS) == &blank.half_width);
}

static void most_and_least(void **state)
{
	(void)state;
	struct blank blank = uneven();

	assert_near(blank_from_most_mm(&blank), -100.5, 1e-12, "begin at the outside, mm");
	assert_near(blank_to_most_mm(&blank), 360.5, 1e-12, "end at the outside, mm");
	assert_near(blank_highest_most_mm(&blank), 86.5, 1e-12, "highest, mm");
	/* flat: up and down by the margin */
	assert_near(blank_top_most_mm(&blank, 100, 100), 24.5, 1e-12, "mm");
	assert_near(blank_top_least_mm(&blank, 100, 100), 23.5, 1e-12, "mm");
	/* falling by 0.26 per mm: the slope itself to and fro besides */
	assert_near(blank_top_most_mm(&blank, -50, -50), 37.5 + 0.13, 1e-9, "mm");
	assert_near(blank_top_least_mm(&blank, -50, -50), 36.5 - 0.13, 1e-9, "mm");
	/* the step may stand half a millimetre on either side */
	assert_near(blank_top_most_mm(&blank, 299.6, 299.6), 86.5, 1e-12, "mm");
	assert_near(blank_top_most_mm(&blank, 299.4, 299.4), 24.5, 1e-12, "mm");
	assert_near(blank_top_least_mm(&blank, 300.4, 300.4), 23.5, 1e-12, "mm");
	assert_near(blank_top_least_mm(&blank, 300.6, 300.6), 85.5, 1e-12, "mm");
	/* and so may that of one side */
	assert_near(blank_side_most_mm(&blank, BLANK_PLUS, 0.4, 0.4), 38.5, 1e-12, "mm");
	assert_near(blank_side_least_mm(&blank, BLANK_PLUS, -0.4, -0.4), 25.5, 1e-12, "mm");
	assert_near(blank_side_least_mm(&blank, BLANK_MINUS, 360, 360), 43 - 0.025 - 0.5, 1e-9,
		    "mm");
}

/* Without a margin all is as drawn. */
static void no_margin(void **state)
{
	(void)state;
	struct blank blank = uneven();

	blank.margin_mm = 0.0;
	assert_int_equal(blank_check(&blank, NULL), FAULT_NONE);
	assert_near(blank_top_most_mm(&blank, 250, 250), 24.0, 0.0, "mm");
	assert_near(blank_top_least_mm(&blank, 250, 250), 24.0, 0.0, "mm");
	assert_near(blank_to_most_mm(&blank), 360.0, 0.0, "mm");
}

/* Whatever a saw leaves within the margin lies between least and most. */
static void sawn_blanks_lie_between(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("sawn_blanks_lie_between");

	for (int n = 0; n < 50; n++) {
		struct blank drawn = uneven(), real;
		drawn.margin_mm = seed_between(rng, 0.05, 2.0);
		real_blank(&real, &drawn, rng);
		assert_true(blank_from_mm(&real) >= blank_from_most_mm(&drawn));
		assert_true(blank_to_mm(&real) <= blank_to_most_mm(&drawn));
		for (int i = 0; i < 500; i++) {
			double x = seed_between(rng, -100, 360);
			enum blank_side side = i % 2 ? BLANK_PLUS : BLANK_MINUS;
			assert_between(outline_value_mm(&real.top, x),
				       blank_top_least_mm(&drawn, x, x) - 1e-9,
				       blank_top_most_mm(&drawn, x, x) + 1e-9, "top, mm");
			assert_between(outline_value_mm(blank_side(&real, side), x),
				       blank_side_least_mm(&drawn, side, x, x) - 1e-9,
				       blank_side_most_mm(&drawn, side, x, x) + 1e-9, "side, mm");
		}
	}
	gsl_rng_free(rng);
}

static void assert_refused(const struct blank *blank, const char *setting, const char *words)
{
	struct fault_list faults = { 0 };

	assert_int_equal(blank_check(blank, &faults), FAULT_SETTING);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].setting, setting);
	if (!strstr(faults.record[0].message, words))
		fail_msg("%s", faults.record[0].message);
}

static void refusals(void **state)
{
	(void)state;
	struct blank blank = uneven();

	blank.half_width = blank.side[BLANK_PLUS];
	assert_refused(&blank, "blank", "take it out");
	blank = uneven();
	blank.side[BLANK_MINUS].count = blank.side[BLANK_PLUS].count = 0;
	assert_refused(&blank, "blank", "must be given");
	blank = uneven();
	blank.side[BLANK_MINUS].count = 0;
	assert_refused(&blank, "blank.minus_side", "0 points");
	blank = uneven();
	blank.side[BLANK_PLUS].x_mm[3] = 359;
	assert_refused(&blank, "blank.plus_side", "same ends");
	blank = uneven();
	blank.side[BLANK_MINUS].value_mm[0] = -1;
	assert_refused(&blank, "blank.minus_side", "more than 0");
	blank = uneven();
	blank.margin_mm = 20.0;
	assert_refused(&blank, "blank.margin", "x = -100.00 mm");
	blank.margin_mm = -0.1;
	assert_refused(&blank, "blank.margin", "less than 0");
	blank.margin_mm = NAN;
	assert_refused(&blank, "blank.margin", "less than 0");
	blank = uneven();
	blank.bottom.value_mm[1] = blank.bottom.value_mm[2] = 23.5;
	blank.bottom.value_mm[0] = 23.5;
	assert_refused(&blank, "blank.margin", "0.50 mm thick");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(sides_each_by_itself),
		cmocka_unit_test(most_and_least),
		cmocka_unit_test(no_margin),
		cmocka_unit_test(sawn_blanks_lie_between),
		cmocka_unit_test(refusals),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
