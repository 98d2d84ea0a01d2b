/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heights of rapids over a board 20 mm high with a step 29 mm high. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "path/lift.h"
#include "support/near.h"
#include "support/sample_bed.h"

/* Clearance 2 mm, ball and shank 8 mm, holder 20 mm at 45 mm. */
static void the_way_over_clears_what_stands(void **state)
{
	struct bench *bench = &((struct sample_bed *)*state)->bench;
	struct vec3 from = { 5, -5, 10 }, to = { 30, 5, 12 };

	assert_near(lift_clear_mm(bench, from, to), 22.0, 0.001, "over the board, mm");
	to.x = 60.0;
	assert_near(lift_clear_mm(bench, from, to), 31.0, 0.001, "over the step, mm");
	assert_near(lift_stop_mm(bench, from), 22.0, 0.001, "above the board, mm");
	assert_near(lift_stop_mm(bench, to), 31.0, 0.001, "above the step, mm");
	/* over empty air there is nothing to clear but the way itself */
	assert_near(lift_clear_mm(bench, (struct vec3){ 5, 60, 10 }, (struct vec3){ 30, 60, 12 }),
		    12.0, 0.001, "beside the board, mm");
}

/* A tool that starts 0.1 mm over the wood must not cross at that height: rapids
 * keep 0.2 mm. At 0.3 mm it may. */
static void wood_close_under_the_way_counts(void **state)
{
	struct bench *bench = &((struct sample_bed *)*state)->bench;

	assert_near(lift_clear_mm(bench, (struct vec3){ 5, 0, 20.1 }, (struct vec3){ 30, 0, 20.1 }),
		    22.0, 0.001, "a tenth over the wood, mm");
	assert_near(lift_clear_mm(bench, (struct vec3){ 5, 0, 20.3 }, (struct vec3){ 30, 0, 20.3 }),
		    20.3, 0.001, "three tenths over it, mm");
}

/* The clamp at x = -40 to -34 stands 32 mm high. */
static void keep_outs_are_cleared(void **state)
{
	struct bench *bench = &((struct sample_bed *)*state)->bench;
	struct vec3 from = { -20, 0, 22 }, to = { -37, 0, 22 };

	assert_between(lift_clear_mm(bench, from, to), 34.0, 36.0, "over the clamp, mm");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_way_over_clears_what_stands),
		cmocka_unit_test(wood_close_under_the_way_counts),
		cmocka_unit_test(keep_outs_are_cleared),
	};

	return cmocka_run_group_tests(tests, sample_bed_setup, sample_bed_teardown);
}
