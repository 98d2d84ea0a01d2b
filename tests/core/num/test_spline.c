/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Against closed forms, and against GSL's natural spline where both mean the
 * same curve. */
#include "num/spline.h"

#include <gsl/gsl_spline.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "num/curve.h"
#include "support/near.h"
#include "support/seed.h"

/* All polynomials up to the third degree are reproduced by open ends. */
static void cubics_come_back(void **state)
{
	(void)state;
	static const double x[] = { 0.0, 0.3, 1.0, 1.2, 2.0, 3.5 };
	double y[6], slope[6];

	for (size_t i = 0; i < 6; i++)
		y[i] = 2.0 + x[i] * (3.0 + x[i] * (0.1 + 0.2 * x[i]));
	spline_slopes(slope, 6, x, y, SPLINE_OPEN, SPLINE_OPEN);
	for (size_t i = 0; i < 6; i++)
		assert_near(slope[i], 3.0 + x[i] * (0.2 + 0.6 * x[i]), 1e-12, "slope of a cubic");
}

static void few_points(void **state)
{
	(void)state;
	static const double x[] = { 0.0, 1.0, 3.0 }, y[] = { 0.0, 1.0, 9.0 };
	double slope[3];

	spline_slopes(slope, 2, x, y, SPLINE_OPEN, SPLINE_OPEN);
	assert_near(slope[0], 1.0, 1e-15, "a straight line");
	assert_near(slope[1], 1.0, 1e-15, "a straight line");
	spline_slopes(slope, 3, x, y, SPLINE_OPEN, SPLINE_OPEN);
	assert_near(slope[1], 2.0, 1e-12, "x squared at 1");
	assert_near(slope[2], 6.0, 1e-12, "x squared at 3");
}

static void straight_ends_are_gsl_s_natural_spline(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("straight_ends_are_gsl_s_natural_spline");

	for (int i = 0; i < 200; i++) {
		double x[12], y[12], slope[12];
		size_t count = seed_whole(rng, 3, 12);
		for (size_t k = 0; k < count; k++) {
			/* near a line: nothing swings back, so nothing is cut */
			x[k] = (double)k + seed_between(rng, 0.0, 0.4);
			y[k] = 5.0 * x[k] + seed_between(rng, -0.2, 0.2);
		}
		gsl_spline *spline = gsl_spline_alloc(gsl_interp_cspline, count);
		assert_non_null(spline);
		assert_int_equal(gsl_spline_init(spline, x, y, count), 0);
		spline_slopes(slope, count, x, y, SPLINE_STRAIGHT, SPLINE_STRAIGHT);
		for (size_t k = 0; k < count; k++)
			assert_near(slope[k], gsl_spline_eval_deriv(spline, x[k], NULL), 1e-9,
				    "slope of the natural spline");
		gsl_spline_free(spline);
	}
	gsl_rng_free(rng);
}

/* A quarter of a sine with its true ends: fourth order in the step. */
static void a_sine_is_followed_closely(void **state)
{
	(void)state;
	double x[9], y[9], slope[9], worst = 0.0, h = PI / 16.0;

	for (size_t i = 0; i < 9; i++) {
		x[i] = h * (double)i;
		y[i] = sin(x[i]);
	}
	spline_slopes(slope, 9, x, y, SPLINE_OPEN, SPLINE_LEVEL);
	for (size_t i = 0; i < 8; i++) {
		for (int k = 1; k < 20; k++) {
			double w[4], t = k / 20.0;
			curve_hermite(t, h, w);
			worst = fmax(worst, fabs(w[0] * y[i] + w[1] * slope[i] + w[2] * y[i + 1] +
						 w[3] * slope[i + 1] - sin(x[i] + t * h)));
		}
	}
	assert_near(slope[8], 0.0, 0.0, "level at its top");
	/* 5/384 h^4 of a complete spline, and the open end's part */
	assert_between(worst, 0.0, 5.0 * h * h * h * h / 384.0, "departure from the sine");
}

static void nothing_swings_back(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("nothing_swings_back");

	for (int i = 0; i < 2000; i++) {
		double x[20], y[20], slope[20];
		size_t count = seed_whole(rng, 2, 20);
		x[0] = y[0] = 0.0;
		for (size_t k = 1; k < count; k++) {
			x[k] = x[k - 1] + seed_between(rng, 0.01, 1.0);
			y[k] = y[k - 1] -
			       (seed_whole(rng, 0, 3) ? pow(10.0, seed_between(rng, -4, 1)) : 0.0);
		}
		spline_slopes(slope, count, x, y, (enum spline_end)seed_whole(rng, 0, 2),
			      (enum spline_end)seed_whole(rng, 0, 2));
		for (size_t k = 0; k + 1 < count; k++) {
			double before = y[k];
			for (int s = 1; s <= 40; s++) {
				double w[4];
				curve_hermite(s / 40.0, x[k + 1] - x[k], w);
				double now = w[0] * y[k] + w[1] * slope[k] + w[2] * y[k + 1] +
					     w[3] * slope[k + 1];
				assert_true(now <= before + 1e-12);
				before = now;
			}
		}
	}
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(cubics_come_back),
		cmocka_unit_test(few_points),
		cmocka_unit_test(straight_ends_are_gsl_s_natural_spline),
		cmocka_unit_test(a_sine_is_followed_closely),
		cmocka_unit_test(nothing_swings_back),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
