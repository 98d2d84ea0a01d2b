/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Curves against figures worked by hand from M. Steffen, Astron. Astrophys. 239
 * (1990) 443: slope at a point (sg s0 + sg s1) min(|s0|, |s1|, |p| / 2) with p
 * of the parabola through three points; and by what the method guarantees. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "num/curve.h"
#include "support/near.h"
#include "support/seed.h"

#define POINTS_MAX 12

static struct curve steffen(size_t count, const double *x, const double *y)
{
	struct curve curve;

	assert_int_equal(curve_steffen(&curve, count, x, y, NULL), FAULT_NONE);
	return curve;
}

static void slopes_and_values(void **state)
{
	(void)state;
	const double x[] = { 0.0, 1.0, 3.0, 4.0 }, y[] = { 0.0, 1.0, 2.0, 5.0 };
	const double slope[] = { 7.0 / 6.0, 5.0 / 6.0, 1.0, 23.0 / 6.0 };
	struct curve curve = steffen(4, x, y);

	for (size_t i = 0; i < 4; i++)
		assert_near(curve_slope(&curve, x[i]), slope[i], 1e-12, "slope at a point");
	assert_near(curve_value(&curve, 0.5), 0.5416667, 5e-8, "S(0.5)");
	assert_near(curve_value(&curve, 2.0), 1.4583333, 5e-8, "S(2)");
	assert_near(curve_value(&curve, 3.5), 3.1458333, 5e-8, "S(3.5)");
	curve_free(&curve);
}

/* A natural cubic swings to -0.1004 and 1.1272 on this step. */
static void step_without_overshoot(void **state)
{
	(void)state;
	const double x[] = { 0.0, 1.0, 2.0, 3.0, 4.0 }, y[] = { 0.0, 0.0, 0.0, 1.0, 1.0 };
	struct curve curve = steffen(5, x, y);

	assert_near(curve_value(&curve, 2.25), 0.15625, 1e-15, "S(2.25)");
	assert_near(curve_value(&curve, 2.5), 0.5, 1e-15, "S(2.5)");
	for (int step = 0; step <= 16; step++) {
		double at = step / 8.0;
		assert_near(curve_value(&curve, at), 0.0, 0.0, "flat before the step");
		assert_near(curve_value(&curve, 2.0 + fmax(at, 1.0)), 1.0, 0.0, "flat behind it");
	}
	curve_free(&curve);
}

/* Thickness of a neck over x, both in mm. */
static void neck_thickness(void **state)
{
	(void)state;
	const double x[] = { 0.0, 150.0, 303.0, 360.0 }, y[] = { 21.0, 22.5, 24.0, 25.0 };
	struct curve curve = steffen(4, x, y);

	assert_near(curve_value(&curve, 75.0), 21.753640, 5e-7, "thickness at 75 mm");
	assert_near(curve_value(&curve, 225.0), 23.131532, 5e-7, "thickness at 225 mm");
	assert_near(curve_value(&curve, 330.0), 24.443830, 5e-7, "thickness at 330 mm");
	curve_free(&curve);
}

static void plateaus(void **state)
{
	(void)state;
	const double x[] = { 0.0, 1.0, 2.0, 3.0, 4.0, 5.0 };
	const double y[] = { 0.0, 0.0, 1.0, 3.0, 3.0, 4.0 };
	const double slope[] = { 0.0, 0.0, 1.5, 0.0, 0.0, 1.5 };
	struct curve curve = steffen(6, x, y);

	for (size_t i = 0; i < 6; i++)
		assert_near(curve_slope(&curve, x[i]), slope[i], 1e-14, "slope at a point");
	assert_near(curve_value(&curve, 1.5), 0.3125, 1e-14, "S(1.5)");
	assert_near(curve_value(&curve, 2.5), 2.1875, 1e-14, "S(2.5)");
	curve_free(&curve);
}

static void two_points_are_a_line(void **state)
{
	(void)state;
	const double x[] = { 10.0, 14.0 }, y[] = { 3.0, 1.0 };
	struct curve curve = steffen(2, x, y);

	for (int step = 12; step <= 36; step++) {
		double at = step / 2.0;
		assert_near(curve_value(&curve, at), 8.0 - at / 2.0, 1e-14, "on the line");
		assert_near(curve_slope(&curve, at), -0.5, 1e-15, "its slope");
	}
	curve_free(&curve);
}

static void straight_beyond_ends(void **state)
{
	(void)state;
	const double x[] = { 0.0, 1.0, 3.0, 4.0 }, y[] = { 0.0, 1.0, 2.0, 5.0 };
	struct curve curve = steffen(4, x, y);

	assert_near(curve_value(&curve, -3.0), -3.5, 1e-12, "before the first point");
	assert_near(curve_slope(&curve, -3.0), 7.0 / 6.0, 1e-12, "slope there");
	assert_near(curve_value(&curve, 7.0), 16.5, 1e-12, "behind the last point");
	assert_near(curve_slope(&curve, 7.0), 23.0 / 6.0, 1e-12, "slope there");
	curve_free(&curve);
}

/* Points at uneven places; every third y repeats the one before. */
static size_t random_points(const gsl_rng *rng, double x[POINTS_MAX], double y[POINTS_MAX])
{
	size_t count = seed_whole(rng, 3, POINTS_MAX);
	double at = seed_between(rng, -100.0, 100.0);

	for (size_t i = 0; i < count; i++) {
		at += pow(10.0, seed_between(rng, -2.0, 2.0));
		x[i] = at;
		y[i] = seed_between(rng, -30.0, 30.0);
		if (i > 0 && seed_whole(rng, 0, 2) == 0)
			y[i] = y[i - 1];
	}
	return count;
}

static void monotone_between_points(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("monotone_between_points");
	double x[POINTS_MAX], y[POINTS_MAX];

	for (int i = 0; i < 1000; i++) {
		size_t count = random_points(rng, x, y);
		struct curve curve = steffen(count, x, y);
		for (size_t k = 0; k + 1 < count; k++) {
			double rise = y[k + 1] - y[k], before = y[k];
			for (int step = 1; step <= 50; step++) {
				double at = x[k] + (x[k + 1] - x[k]) * step / 50.0;
				double value = curve_value(&curve, at);
				double toward = rise < 0.0 ? before - value : value - before;
				assert_true(toward >= -1e-11);
				before = value;
			}
			assert_near(before, y[k + 1], 1e-11, "ends at the next point");
		}
		curve_free(&curve);
	}
	gsl_rng_free(rng);
}

static void slope_is_continuous_and_true(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("slope_is_continuous_and_true");
	double x[POINTS_MAX], y[POINTS_MAX];

	for (int i = 0; i < 300; i++) {
		size_t count = random_points(rng, x, y);
		struct curve curve = steffen(count, x, y);
		for (size_t k = 1; k < count; k++) {
			double width = x[k] - x[k - 1], step = 1e-4 * width;
			double steep = 1.0 + 60.0 / width; /* bounds what slopes can be here */
			double at = x[k - 1] + seed_between(rng, 0.01, 0.99) * width;
			double rise =
				curve_value(&curve, at + step) - curve_value(&curve, at - step);
			assert_near(curve_slope(&curve, at), rise / (2.0 * step), 1e-6 * steep,
				    "slope is the value's derivative");
			assert_near(curve_slope(&curve, x[k] - 1e-9 * width), curve.slope[k],
				    1e-6 * steep, "slope from before a point");
			assert_near(curve_slope(&curve, nextafter(x[k], INFINITY)), curve.slope[k],
				    1e-6 * (steep + fabs(curve.slope[k])), "slope from behind it");
		}
		curve_free(&curve);
	}
	gsl_rng_free(rng);
}

/* Hermite weights give back any cubic from its ends. */
static void weights_give_back_cubics(void **state)
{
	(void)state;
	const double width = 2.5; /* y = x3 - 2 x2 + 3 x - 4 over 0..2.5 */
	double w[4], d[4];
	const double y1 = width * width * width - 2.0 * width * width + 3.0 * width - 4.0;
	const double slope1 = 3.0 * width * width - 4.0 * width + 3.0;

	for (int step = 0; step <= 16; step++) {
		double t = step / 16.0;
		double x = t * width;
		curve_hermite(t, width, w);
		curve_hermite_slope(t, width, d);
		assert_near(w[0] + w[2], 1.0, 1e-15, "values' weights add up to 1");
		assert_near(w[0] * -4.0 + w[1] * 3.0 + w[2] * y1 + w[3] * slope1,
			    ((x - 2.0) * x + 3.0) * x - 4.0, 1e-13, "the cubic");
		assert_near(d[0] * -4.0 + d[1] * 3.0 + d[2] * y1 + d[3] * slope1,
			    (3.0 * x - 4.0) * x + 3.0, 1e-13, "its slope");
	}
}

static void unusable_points(void **state)
{
	(void)state;
	const double good[] = { 0.0, 1.0, 2.0 }, same[] = { 0.0, 1.0, 1.0 };
	const double back[] = { 0.0, 2.0, 1.0 }, nan_at[] = { 0.0, NAN, 2.0 };
	const double inf_at[] = { 0.0, 1.0, INFINITY };
	const double *const bad_x[] = { same, back, nan_at, inf_at };
	struct fault_list faults = { 0 };
	struct curve curve;

	for (size_t i = 0; i < 4; i++)
		assert_int_equal(curve_steffen(&curve, 3, bad_x[i], good, &faults), FAULT_INTERNAL);
	assert_int_equal(curve_steffen(&curve, 3, good, nan_at, &faults), FAULT_INTERNAL);
	assert_int_equal(curve_steffen(&curve, 1, good, good, &faults), FAULT_INTERNAL);
	assert_int_equal(curve_steffen(&curve, 0, good, good, &faults), FAULT_INTERNAL);
	assert_int_equal(faults.count, 7);
	assert_null(curve.x);
	curve_free(&curve);
	curve_free(NULL);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(slopes_and_values),
		cmocka_unit_test(step_without_overshoot),
		cmocka_unit_test(neck_thickness),
		cmocka_unit_test(plateaus),
		cmocka_unit_test(two_points_are_a_line),
		cmocka_unit_test(straight_beyond_ends),
		cmocka_unit_test(monotone_between_points),
		cmocka_unit_test(slope_is_continuous_and_true),
		cmocka_unit_test(weights_give_back_cubics),
		cmocka_unit_test(unusable_points),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
