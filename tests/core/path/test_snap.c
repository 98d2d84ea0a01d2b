/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "path/snap.h"
#include "support/near.h"
#include "support/seed.h"

static void known_places(void **state)
{
	(void)state;
	const struct snap snap = { { 0.5, 0.25, 10.0 }, 0.001 };

	assert_near(snap_x(&snap, 1.2344), 1.234, 1e-12, "x, mm");
	assert_near(snap_x(&snap, 1.2346), 1.235, 1e-12, "x, mm");
	assert_near(snap_y(&snap, -7.00049), -7.0, 1e-12, "y, mm");
	assert_near(snap_up(&snap, 12.0001), 12.001, 1e-12, "z goes up, mm");
	assert_near(snap_up(&snap, -12.0001), -12.0, 1e-12, "z goes up below 0 too, mm");
	assert_near(snap_up(&snap, 12.0), 12.0, 1e-12, "a stateable z stays, mm");
}

/* A zero that is itself no whole number of steps shifts the grid. */
static void grid_counts_from_the_zero(void **state)
{
	(void)state;
	const struct snap snap = { { 0.0003, 0, 0.0007 }, 0.001 };

	assert_near(snap_x(&snap, 5.0), 5.0003, 1e-12, "x, mm");
	assert_near(snap_up(&snap, 5.0), 5.0007, 1e-12, "z, mm");
}

static double off_grid(double value, double zero, double step)
{
	double steps = (value - zero) / step;

	return fabs(steps - floor(steps + 0.5));
}

static void any_place(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("any_place");

	for (int i = 0; i < 20000; i++) {
		double step = seed_whole(rng, 0, 1) ? 0.001 : MM_PER_INCH / 10000.0;
		struct snap snap = { .step_mm = step };
		snap.zero_mm = vec3_make(seed_between(rng, -99, 99), seed_between(rng, -99, 99),
					 seed_between(rng, -99, 99));
		double value = seed_between(rng, -400, 400);
		double x = snap_x(&snap, value), z = snap_up(&snap, value);
		assert_between(x - value, -0.5001 * step, 0.5001 * step, "nearest, mm");
		assert_between(z - value, -0.0011 * step, 1.0001 * step, "not below, mm");
		assert_between(off_grid(x, snap.zero_mm.x, step), 0.0, 1e-6, "whole steps");
		assert_between(off_grid(z, snap.zero_mm.z, step), 0.0, 1e-6, "whole steps");
		/* what is snapped stays where it is */
		assert_near(snap_up(&snap, z), z, 1e-9, "again, mm");
		assert_near(snap_x(&snap, x), x, 1e-9, "again, mm");
	}
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(known_places),
		cmocka_unit_test(grid_counts_from_the_zero),
		cmocka_unit_test(any_place),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
