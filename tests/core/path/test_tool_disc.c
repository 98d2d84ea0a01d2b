/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tool above its ball as discs. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "path/tool_disc.h"
#include "support/near.h"

static struct cutter cutter(void)
{
	return (struct cutter){ .ball_diameter_mm = 12,
				.flute_length_mm = 32,
				.shank_diameter_mm = 12,
				.stickout_mm = 50,
				.holder_diameter_mm = 34,
				.holder_length_mm = 22,
				.part_count = 3,
				.part = { { 50, 30 }, { 40, 10 }, { 104, 150 } } };
}

static void assert_disc(const struct tool_disc *disc, double radius_mm, double above_mm)
{
	assert_near(disc->radius_mm, radius_mm, 0.0, "radius, mm");
	assert_near(disc->above_mm, above_mm, 1e-12, "over the tip, mm");
}

/* Each part begins where the one before ends; the third, narrower than the
 * second, lies in its shadow but takes up its length. */
static void parts_stand_on_each_other(void **state)
{
	(void)state;
	struct cutter c = cutter();
	struct tool_discs discs = tool_discs_of(&c);

	assert_int_equal(discs.count, 4);
	assert_disc(&discs.disc[0], 6, 32);
	assert_true(discs.disc[0].shank && !discs.disc[1].shank);
	assert_disc(&discs.disc[1], 17, 50);
	assert_disc(&discs.disc[2], 25, 72);
	assert_disc(&discs.disc[3], 52, 112);
}

/* A shank as wide as the ball stays in what the flutes cut; a wider one does
 * not. */
static void slim_shanks_do_not_meet_wood(void **state)
{
	(void)state;
	struct cutter c = cutter();
	struct tool_discs discs = tool_discs_over_wood(&c);

	assert_int_equal(discs.count, 3);
	assert_disc(&discs.disc[0], 17, 50);
	c.shank_diameter_mm = 12.7;
	discs = tool_discs_over_wood(&c);
	assert_int_equal(discs.count, 4);
	assert_disc(&discs.disc[0], 6.35, 32);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(parts_stand_on_each_other),
		cmocka_unit_test(slim_shanks_do_not_meet_wood),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
