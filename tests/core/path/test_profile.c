/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lattice of lowest tips over a real neck, and its crossings on made-up
 * heights. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/tol.h"
#include "path/profile.h"
#include "support/near.h"
#include "support/sample_job.h"

static void lattice_over_a_neck(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct sample_model model;
	struct drop *drop;
	struct profile profile;
	size_t hint = 0;

	sample_model_make(&model, &job.neck);
	assert_int_equal(drop_build(&drop, &model.facets, model.neck, &job, &job.cutter[0],
				    TOL_PLAN_MARGIN_MM, NULL),
			 0);
	assert_int_equal(profile_build(&profile, drop, -20.0, 85.9, 24.0, NULL), FAULT_NONE);
	assert_near(profile_x(&profile, 0), -20.0, 0.0, "first place, mm");
	assert_near(profile_x(&profile, profile.nx - 1), 85.9, 1e-9, "last place, mm");
	assert_between(profile.dx_mm, 0.5, 1.0, "places apart, mm");
	assert_true(profile.y0_mm <= -24.0);
	assert_near(profile.y0_mm + (double)(profile.ny - 1) * profile.dy_mm, -profile.y0_mm, 1e-9,
		    "as far to both sides, mm");
	for (size_t ix = 0; ix < profile.nx; ix += 7)
		for (size_t iy = 0; iy < profile.ny; iy++) {
			double x = profile_x(&profile, ix);
			double y = profile.y0_mm + (double)iy * profile.dy_mm;
			double tip = drop_tip_mm(drop, x, y, &hint);
			assert_near(profile.tip_mm[ix * profile.ny + iy], tip, 0.0, "tip, mm");
			if (iy + 1 < profile.ny)
				assert_near(profile_tip_mm(&profile, ix, y), tip, 1e-9, "tip, mm");
		}
	profile_free(&profile);
	drop_free(drop);
	sample_model_free(&model);
}

/* z = 10 - |y| as far as 8 mm, 0 beyond; or as steep as told. */
struct ridge {
	double tip[3 * 41];
	struct profile profile;
};

static void make_ridge(struct ridge *ridge, double slope)
{
	ridge->profile = (struct profile){ .nx = 3,
					   .ny = 41,
					   .x0_mm = 100,
					   .dx_mm = 1,
					   .y0_mm = -10,
					   .dy_mm = 0.5,
					   .tip_mm = ridge->tip };
	for (size_t i = 0; i < 3 * 41; i++) {
		double y = fabs(-10.0 + 0.5 * (double)(i % 41));
		ridge->tip[i] = y <= 8.0 ? 10.0 - slope * y : 0.0;
	}
}

static void between_lattice_points(void **state)
{
	(void)state;
	struct ridge ridge;

	make_ridge(&ridge, 1.0);
	for (double y = 0.0; y <= 8.0; y += 0.13) {
		assert_near(profile_tip_mm(&ridge.profile, 1, y), 10.0 - y, 1e-9, "tip, mm");
		assert_near(profile_tip_mm(&ridge.profile, 1, -y), 10.0 - y, 1e-9, "tip, mm");
	}
	assert_near(profile_slope(&ridge.profile, 1, 3.1), 1.0, 1e-9, "slope");
	assert_near(profile_slope(&ridge.profile, 1, -5.7), 1.0, 1e-9, "slope");
	assert_near(profile_slope(&ridge.profile, 1, 0.0), 0.0, 1e-9, "slope on the ridge");
	make_ridge(&ridge, 0.25);
	assert_near(profile_slope(&ridge.profile, 0, 4.0), 0.25, 1e-9, "slope");
}

static void nearest_place(void **state)
{
	(void)state;
	struct ridge ridge;

	make_ridge(&ridge, 1.0);
	assert_int_equal(profile_ix(&ridge.profile, -5.0), 0);
	assert_int_equal(profile_ix(&ridge.profile, 100.49), 0);
	assert_int_equal(profile_ix(&ridge.profile, 100.51), 1);
	assert_int_equal(profile_ix(&ridge.profile, 500.0), 2);
}

static void crossings(void **state)
{
	(void)state;
	struct ridge ridge;

	make_ridge(&ridge, 1.0);
	for (double level = 2.2; level < 9.9; level += 0.37)
		for (int side = -1; side <= 1; side += 2)
			assert_near(profile_find_mm(&ridge.profile, 1, side, level), 10.0 - level,
				    1e-9, "where the level is met, mm");
	/* in the drop from 2 to 0 between 8 and 8.5 */
	assert_between(profile_find_mm(&ridge.profile, 1, 1.0, 1.0), 8.0, 8.5, "mm");
	/* nowhere above, nowhere down to it */
	assert_near(profile_find_mm(&ridge.profile, 1, 1.0, 10.5), -1.0, 0.0, "too high");
	assert_near(profile_find_mm(&ridge.profile, 1, 1.0, -0.5), -1.0, 0.0, "too low");
}

/* Two humps on a side: the outer one counts. */
static void outermost_crossing(void **state)
{
	(void)state;
	struct ridge ridge;

	make_ridge(&ridge, 1.0);
	ridge.tip[41 + 34] = 9.0; /* y = 7 */
	assert_between(profile_find_mm(&ridge.profile, 1, 1.0, 6.0), 7.0, 7.5, "mm");
	assert_near(profile_find_mm(&ridge.profile, 1, -1.0, 6.0), 4.0, 1e-9, "other side, mm");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(lattice_over_a_neck), cmocka_unit_test(between_lattice_points),
		cmocka_unit_test(nearest_place),       cmocka_unit_test(crossings),
		cmocka_unit_test(outermost_crossing),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
