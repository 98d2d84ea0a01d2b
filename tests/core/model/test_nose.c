/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The nose in side view: its radius, its angle, how it leaves the shaft, and
 * where it reaches a height. */
#include "model/nose.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "model/neck.h"
#include "support/near.h"
#include "support/sample_job.h"

/* Radius of the circle through three points of the neck's side view. */
static double radius_mm(const struct neck *neck, double x, double reach)
{
	double ax = reach, az = neck_crest_mm(neck, x) - neck_crest_mm(neck, x - reach);
	double bx = reach, bz = neck_crest_mm(neck, x + reach) - neck_crest_mm(neck, x);

	return hypot(ax, az) * hypot(bx, bz) * hypot(ax + bx, az + bz) /
	       (2.0 * fabs(ax * bz - az * bx));
}

static double angle_rad(const struct neck *neck, double x)
{
	return atan((neck_crest_mm(neck, x + 1e-4) - neck_crest_mm(neck, x - 1e-4)) / 2e-4);
}

/* Over the middle half of the turn, four sixths of its angle, a radius gauge
 * lies on the fillet. */
static void the_fillet_has_its_radius(void **state)
{
	static const double radii_mm[] = { 8.0, 12.0, 15.0 };
	static const double angles_deg[] = { 60.0, 75.0, 84.0 };

	(void)state;
	for (size_t i = 0; i < 9; i++) {
		struct neck_spec spec = sample_steel_job().neck;
		double last = units_rad_from_deg(angles_deg[i % 3]);
		int seen = 0;
		spec.heel.nose_radius_mm = radii_mm[i / 3];
		spec.heel.nose_angle_rad = last;
		spec.station[1].fret = 9;
		struct neck *neck = sample_neck_built(&spec);
		double start = neck_heel_start_mm(neck), first = angle_rad(neck, start - 1.0);
		for (double x = start; x < neck_heel_proper_mm(neck) - 3.0; x += 0.05) {
			double share = (angle_rad(neck, x) - first) / (last - first);
			if (share < 0.2 || share > 0.8)
				continue;
			assert_near(radius_mm(neck, x, 0.1), radii_mm[i / 3],
				    0.01 * radii_mm[i / 3], "radius of the fillet, mm");
			seen++;
		}
		assert_true(seen > 50);
		neck_free(neck);
	}
}

/* From the shaft on the curvature grows evenly from nothing; hand and light find
 * no seam. */
static void curvature_goes_on_from_the_shaft(void **state)
{
	struct neck_spec spec = sample_steel_job().neck;
	struct neck *neck = sample_neck_built(&spec);
	double start = neck_heel_start_mm(neck);

	(void)state;
	assert_true(radius_mm(neck, start - 0.3, 0.2) > 1e5);
	/* turned by 74.5 degrees over 15 * 1.30 / 0.75 = 26 mm, a quarter of which is
	 * easement: 1 mm on, the curvature is 1 / 6.5 of that of the radius */
	assert_near(1.0 / radius_mm(neck, start + 1.0, 0.2), 1.0 / (6.5 * 15.0), 5e-4,
		    "curvature, 1/mm");
	neck_free(neck);
}

static void the_flank_has_its_angle(void **state)
{
	struct neck_spec spec = sample_steel_job().neck;
	struct neck *neck = sample_neck_built(&spec);
	double steepest = 0.0;

	(void)state;
	for (double x = neck_heel_start_mm(neck); x < neck_heel_proper_mm(neck); x += 0.02)
		steepest = fmax(steepest, angle_rad(neck, x));
	assert_near(steepest, units_rad_from_deg(75), 1e-4, "steepest, rad");
	for (double x = neck_heel_proper_mm(neck) - 10.0; x < neck_heel_proper_mm(neck) - 3.5;
	     x += 0.1)
		assert_near(angle_rad(neck, x), units_rad_from_deg(75), 1e-5, "the flank, rad");
	neck_free(neck);
}

static void reaching_a_height(void **state)
{
	struct heel_spec heel = sample_steel_job().neck.heel;
	const double shaft_x[] = { 0, 300 }, shaft_z[] = { 15, 18 };
	struct curve shaft, nose;

	(void)state;
	assert_int_equal(curve_steffen(&shaft, 2, shaft_x, shaft_z, NULL), FAULT_NONE);
	assert_int_equal(nose_build(&nose, &heel, &shaft, 340.0, NULL), FAULT_NONE);
	assert_near(nose.x[nose.count - 1], 340.0, 1e-9, "ends at the cap's front, mm");
	assert_near(nose.y[nose.count - 1], 82.0, 1e-9, "at its height, mm");
	assert_near(nose.y[0], curve_value(&shaft, nose.x[0]), 1e-12, "begins on the shaft, mm");
	double from = 325.0, from_z = curve_value(&nose, from);
	for (double z = from_z + 0.01; z < 81.999; z += 0.37)
		assert_near(curve_value(&nose, nose_reach_mm(&nose, from, z)), z, 1e-8,
			    "height there, mm");
	assert_near(nose_reach_mm(&nose, from, 83.0), 340.0, 1e-12, "above it, mm");
	/* below: along the line that touches the nose at `from` */
	assert_near(nose_reach_mm(&nose, from, from_z - 10.0),
		    from - 10.0 / curve_slope(&nose, from), 1e-9, "below it, mm");
	curve_free(&nose);
	heel.height_mm = 30;
	assert_int_equal(nose_build(&nose, &heel, &shaft, 340.0, NULL), FAULT_GEOMETRY);
	curve_free(&nose);
	curve_free(&shaft);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_fillet_has_its_radius),
		cmocka_unit_test(curvature_goes_on_from_the_shaft),
		cmocka_unit_test(the_flank_has_its_angle),
		cmocka_unit_test(reaching_a_height),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
