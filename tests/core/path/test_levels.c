/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far apart levels and their lines lie, and what sets it. */
#include "path/levels.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/tol.h"
#include "support/near.h"

static struct cutter ball(double diameter_mm, double depth_mm, double stepover_mm)
{
	return (struct cutter){ .ball_diameter_mm = diameter_mm,
				.depth_limit_mm = depth_mm,
				.stepover_limit_mm = stepover_mm };
}

/* Ridge between lines s apart: R - sqrt(R^2 - s^2 / 4), geometry of a circle. */
static double ridge(double radius, double apart)
{
	return radius - sqrt(radius * radius - apart * apart / 4.0);
}

static void each_limit_has_its_name(void **state)
{
	(void)state;
	static const struct {
		double diameter, depth, stepover, apart;
		enum step_cap cap;
	} cases[] = {
		{ 12.7, 5, 5, 5, STEP_BY_CUTTER },
		{ 12, 6, 40, 7.2, STEP_BY_BALL }, /* 1.2 x 6 */
		{ 12, 3, 7, 7 * 0.9, STEP_BY_DEPTH }, /* ridge 1.13 of 3 leaves under half */
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct cutter cutter = ball(cases[i].diameter, cases[i].depth, cases[i].stepover);
		struct levels levels;
		assert_int_equal(levels_choose(&levels, &cutter, NULL), FAULT_NONE);
		assert_int_equal(levels.step_cap, cases[i].cap);
		assert_near(levels.stepover_mm, cases[i].apart, 1e-9, "lines apart, mm");
		double left = cases[i].depth - ridge(cases[i].diameter / 2.0, levels.stepover_mm);
		assert_between(left - levels.drop_mm, 0.3, 0.6, "kept in reserve, mm");
	}
}

static void too_shallow_a_cutter_is_refused(void **state)
{
	(void)state;
	struct cutter cutter = ball(8, 0.5, 4);
	struct fault_list faults = { 0 };
	struct levels levels;

	assert_int_equal(levels_choose(&levels, &cutter, &faults), FAULT_PLAN);
	assert_string_equal(faults.record[0].setting, "cutter.depth_limit");
}

/* Down from many tops: no drop is too deep, no level leaves a skin that neither
 * holds nor is cut through, and the last is the floor. */
static void levels_come_down_to_the_floor(void **state)
{
	(void)state;
	struct cutter cutter = ball(12.7, 5, 5);
	struct levels levels;
	int skins = 0;

	assert_int_equal(levels_choose(&levels, &cutter, NULL), FAULT_NONE);
	double least = TOL_HOLDING_SKIN_MM + ridge(6.35, levels.stepover_mm);
	for (double top = 20.0; top < 30.0; top += 0.13) {
		enum level_cap cap = LEVEL_BY_DEPTH;
		double z = top;
		for (int guard = 0; cap != LEVEL_BY_FLOOR; guard++) {
			double next = levels_next(&levels, z, -7.0, &cap);
			assert_true(guard < 40);
			assert_between(z - next, 0.0, levels.drop_mm + LEVELS_LEAST_MM, "drop, mm");
			/* ridges stand between the lines of a level that goes through */
			assert_true(next <= -ridge(6.35, levels.stepover_mm) || next > least);
			skins += cap == LEVEL_BY_SKIN;
			if (cap == LEVEL_BY_DEPTH)
				assert_near(z - next, levels.drop_mm, 1e-9, "a full drop, mm");
			z = next;
		}
		assert_near(z, -7.0, 0.0, "the floor, mm");
	}
	assert_true(skins > 0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(each_limit_has_its_name),
		cmocka_unit_test(too_shallow_a_cutter_is_refused),
		cmocka_unit_test(levels_come_down_to_the_floor),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
