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

/* Small balls bite too little to go from a skin that holds right through the
 * gluing face. No level of theirs leaves ridges thicker than a skin that holds
 * over lines that are thinner: each would lie loose as a strip. */
static void small_balls_leave_no_strips(void **state)
{
	(void)state;
	static const double diameters[] = { 2.4, 3, 4, 6, 8 };
	int met = 0;

	for (size_t i = 0; i < sizeof diameters / sizeof *diameters; i++)
		for (double depth = 0.33; depth < 0.48; depth += 0.01) {
			double diameter = diameters[i];
			struct cutter cutter = ball(diameter, depth * diameter, 0.45 * diameter);
			struct levels levels;
			if (cutter.depth_limit_mm < 1.0)
				continue;
			assert_int_equal(levels_choose(&levels, &cutter, NULL), FAULT_NONE);
			double up = ridge(diameter / 2.0, levels.stepover_mm) + LEVELS_LEFTOVER_MM;
			for (double top = 20.0; top < 24.0; top += 0.07) {
				enum level_cap cap = LEVEL_BY_DEPTH;
				for (double z = top; cap != LEVEL_BY_FLOOR;) {
					z = levels_next(&levels, z, -4.0, &cap);
					assert_true(z > TOL_HOLDING_SKIN_MM ||
						    z + up < TOL_HOLDING_SKIN_MM);
					met += z > 0.0 && z < TOL_HOLDING_SKIN_MM;
				}
			}
		}
	assert_true(met > 0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(each_limit_has_its_name),
		cmocka_unit_test(too_shallow_a_cutter_is_refused),
		cmocka_unit_test(levels_come_down_to_the_floor),
		cmocka_unit_test(small_balls_leave_no_strips),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
