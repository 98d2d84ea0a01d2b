/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The side view: stations, peghead, transition, nose, cap and slab. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/units.h"
#include "model/crest.h"
#include "model/taper.h"
#include "support/near.h"
#include "support/sample_job.h"

static struct crest built(const struct neck_spec *spec)
{
	struct crest crest;

	assert_int_equal(crest_build(&crest, spec, NULL), FAULT_NONE);
	return crest;
}

static struct neck_spec flat_heel_spec(void)
{
	struct neck_spec spec = sample_steel_job().neck;

	spec.heel = (struct heel_spec){ .kind = HEEL_FLAT,
					.height_mm = 25,
					.slab_length_mm = 70,
					.beyond_joint_mm = 60,
					.ease_length_mm = 25 };
	return spec;
}

static void wood_under_the_caliper(void **state)
{
	(void)state;
	struct neck_spec spec = sample_steel_job().neck;

	assert_near(crest_station_wood_mm(&spec, 0), 15.0, 0.0, "21 over a board of 6, mm");
	assert_near(crest_station_wood_mm(&spec, 1), 18.0, 0.0, "24 over a board of 6, mm");
	spec.over_fretboard = false;
	assert_near(crest_station_wood_mm(&spec, 1), 24.0, 0.0, "wood alone, mm");
}

static void straight_through_two_stations(void **state)
{
	(void)state;
	struct neck_spec spec = sample_steel_job().neck;
	struct crest crest = built(&spec);
	double x11 = taper_fret_x_mm(645.16, 11);

	for (int i = 0; i <= 200; i++)
		assert_near(crest_value_mm(&crest, x11 * i / 200.0), 15.0 + 3.0 * i / 200.0, 1e-9,
			    "the builder's straight edge, mm");
	crest_free(&crest);
}

/* Stations on one line leave the crest straight, however many there are;
 * others are met and not passed. */
static void many_stations(void **state)
{
	(void)state;
	struct neck_spec spec = sample_steel_job().neck;
	double x11 = taper_fret_x_mm(645.16, 11);
	static const double frets[] = { 0, 1, 3, 5, 7, 9, 11 };

	spec.station_count = 7;
	for (size_t i = 0; i < 7; i++) {
		spec.station[i] = spec.station[0];
		spec.station[i].fret = frets[i];
		spec.station[i].thickness_mm = 21.0 + 3.0 * taper_fret_x_mm(645.16, frets[i]) / x11;
	}
	struct crest crest = built(&spec);
	for (int i = 0; i <= 500; i++)
		assert_near(crest_value_mm(&crest, x11 * i / 500.0), 15.0 + 3.0 * i / 500.0, 1e-6,
			    "straight through seven stations, mm");
	crest_free(&crest);
	spec.station[3].thickness_mm = 22.9;
	crest = built(&spec);
	for (size_t i = 0; i < 7; i++)
		assert_near(crest_value_mm(&crest, taper_fret_x_mm(645.16, frets[i])),
			    spec.station[i].thickness_mm - 6.0, 1e-9, "at a station, mm");
	double before = 0.0;
	for (int i = 0; i <= 500; i++) {
		double z = crest_value_mm(&crest, x11 * i / 500.0);
		assert_true(z >= before - 1e-12);
		before = z;
	}
	crest_free(&crest);
}

static double slope(const struct crest *crest, double x, double step)
{
	return (crest_value_mm(crest, x + step) - crest_value_mm(crest, x)) / step;
}

/* No kink where two rules meet. */
static void smooth_joints(void **state)
{
	(void)state;
	struct neck_spec specs[2] = { sample_steel_job().neck, flat_heel_spec() };

	specs[1].peghead.volute_height_mm = 3;
	specs[1].peghead.volute_length_mm = 30;
	for (size_t i = 0; i < 2; i++) {
		struct crest crest = built(&specs[i]);
		const double joints[] = { -specs[i].peghead.transition_mm, 0.0, crest.heel_start_mm,
					  crest.heel_proper_mm };
		for (size_t k = 0; k < 4; k++) {
			double left = slope(&crest, joints[k], -1e-4);
			double right = slope(&crest, joints[k], 1e-4);
			assert_near(right, left, 2e-3, "slope on both sides of a joint");
			assert_near(crest_value_mm(&crest, joints[k] + 1e-9),
				    crest_value_mm(&crest, joints[k]), 1e-7, "height, mm");
		}
		crest_free(&crest);
	}
}

/* The transition starts and ends without curvature, as the straight lines it
 * joins. */
static void transition_has_no_curvature_at_its_ends(void **state)
{
	(void)state;
	struct neck_spec spec = sample_steel_job().neck;
	struct crest crest = built(&spec);
	double step = 0.05;

	for (int end = 0; end < 2; end++) {
		double x = end == 0 ? -38.0 + step : -step;
		double bend = (crest_value_mm(&crest, x - step) - 2.0 * crest_value_mm(&crest, x) +
			       crest_value_mm(&crest, x + step)) /
			      (step * step);
		assert_near(bend, 0.0, 1e-3, "curvature, 1/mm");
	}
	crest_free(&crest);
}

static void peghead_is_square_to_its_face(void **state)
{
	(void)state;
	struct neck_spec spec = sample_steel_job().neck;
	struct crest crest = built(&spec);
	double angle = units_rad_from_deg(14);

	for (double x = -80.0; x <= -38.0; x += 3.0) {
		double back = crest_value_mm(&crest, x), face = crest_base_mm(&crest, x);
		assert_near((back - face) * cos(angle), 15.0, 1e-9, "thickness, mm");
		assert_near(face, -x * tan(angle), 1e-9, "the face rises toward its end, mm");
	}
	/* 190 mm along the face rise 45.965 (common practice, no source) */
	assert_near(crest_base_mm(&crest, -190.0 * cos(angle)), 45.965, 5e-4, "rise, mm");
	assert_near(crest_base_mm(&crest, 0.0), 0.0, 0.0, "gluing face at the nut, mm");
	assert_near(crest_base_mm(&crest, 100.0), 0.0, 0.0, "gluing face, mm");
	crest_free(&crest);
}

static void volute_is_a_bump_and_nothing_else(void **state)
{
	(void)state;
	struct neck_spec plain = sample_steel_job().neck, bumped = plain;

	bumped.peghead.volute_height_mm = 3.5;
	bumped.peghead.volute_length_mm = 24.0;
	struct crest a = built(&plain), b = built(&bumped);
	assert_near(crest_value_mm(&b, -19.0) - crest_value_mm(&a, -19.0), 3.5, 1e-12,
		    "height in the middle of the transition, mm");
	for (double x = -80.0; x < 350.0; x += 0.5) {
		double more = crest_value_mm(&b, x) - crest_value_mm(&a, x);
		assert_between(more, fabs(x + 19.0) < 11.9 ? 1e-9 : 0.0,
			       fabs(x + 19.0) < 12.0 ? 3.5 : 0.0, "volute, mm");
	}
	crest_free(&a);
	crest_free(&b);
}

/* Radius of the circle through three neighbouring knots of the nose. */
static double radius_at(const struct curve *nose, size_t i)
{
	double ax = nose->x[i] - nose->x[i - 1], az = nose->y[i] - nose->y[i - 1];
	double bx = nose->x[i + 1] - nose->x[i], bz = nose->y[i + 1] - nose->y[i];

	return hypot(ax, az) * hypot(bx, bz) * hypot(ax + bx, az + bz) /
	       (2.0 * fabs(ax * bz - az * bx));
}

static void nose_keeps_its_figures(void **state)
{
	(void)state;
	struct neck_spec spec = sample_steel_job().neck;
	struct crest crest = built(&spec);
	double steepest = 0.0, tightest = INFINITY, before = 0.0;

	for (double x = crest.heel_start_mm; x < crest.heel_proper_mm; x += 0.01) {
		double z = crest_value_mm(&crest, x);
		assert_true(z > before);
		steepest = fmax(steepest, slope(&crest, x, 1e-5));
		before = z;
	}
	assert_near(atan(steepest), units_rad_from_deg(75), 1e-3, "nose angle, rad");
	/* the lower half: the fillet between shaft and nose */
	for (size_t i = 1; i + 1 < crest.nose.count && crest.nose.y[i + 1] < 45.0; i++)
		tightest = fmin(tightest, radius_at(&crest.nose, i));
	assert_near(tightest, 15.0, 0.1, "fillet's tightest radius, mm");
	assert_near(crest_value_mm(&crest, crest.heel_proper_mm), 82.0, 1e-6, "cap's front, mm");
	assert_near(crest.heel_proper_mm, taper_fret_x_mm(645.16, 14) - 16.0, 1e-9, "cap, mm");
	for (double x = crest.heel_proper_mm; x <= crest.to_mm; x += 1.0)
		assert_near(crest_value_mm(&crest, x), 82.0, 0.0, "cap, mm");
	crest_free(&crest);
}

static void flat_heel_is_a_slab(void **state)
{
	(void)state;
	struct neck_spec spec = flat_heel_spec();
	struct crest crest = built(&spec);
	double joint = taper_fret_x_mm(645.16, 14);

	assert_near(crest.to_mm, joint + 60.0, 1e-9, "end, mm");
	assert_near(crest.heel_proper_mm, joint - 10.0, 1e-9, "slab, mm");
	assert_near(crest.heel_start_mm, joint - 35.0, 1e-9, "ease, mm");
	assert_near(crest_value_mm(&crest, joint), 25.0, 0.0, "slab, mm");
	assert_between(crest_value_mm(&crest, joint - 20.0), 18.0, 25.0, "on the ease, mm");
	crest_free(&crest);
}

static void assert_refused(const struct neck_spec *spec, const char *setting, const char *words)
{
	struct fault_list faults = { 0 };
	struct crest crest;

	assert_int_equal(crest_build(&crest, spec, &faults), FAULT_GEOMETRY);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].setting, setting);
	assert_non_null(strstr(faults.record[0].message, words));
	crest_free(&crest);
}

static void heel_must_begin_behind_the_last_station(void **state)
{
	(void)state;
	struct neck_spec spec = sample_steel_job().neck;

	/* a rounder nose reaches back past the 11th fret */
	spec.heel.nose_radius_mm = 22;
	assert_refused(&spec, "heel", "the last station (fret 11) lies at 303.4 mm");
	spec.station[1].fret = 9;
	struct crest crest = built(&spec);
	assert_true(crest.heel_start_mm > taper_fret_x_mm(645.16, 9) + 1.0);
	crest_free(&crest);
	spec = flat_heel_spec();
	spec.heel.slab_length_mm = 120;
	assert_refused(&spec, "heel", "fret 11");
}

static void nose_must_fit_under_the_cap(void **state)
{
	(void)state;
	struct neck_spec spec = sample_steel_job().neck;

	spec.heel.height_mm = 30;
	assert_refused(&spec, "heel.nose_radius", "rises");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(wood_under_the_caliper),
		cmocka_unit_test(straight_through_two_stations),
		cmocka_unit_test(many_stations),
		cmocka_unit_test(smooth_joints),
		cmocka_unit_test(transition_has_no_curvature_at_its_ends),
		cmocka_unit_test(peghead_is_square_to_its_face),
		cmocka_unit_test(volute_is_a_bump_and_nothing_else),
		cmocka_unit_test(nose_keeps_its_figures),
		cmocka_unit_test(flat_heel_is_a_slab),
		cmocka_unit_test(heel_must_begin_behind_the_last_station),
		cmocka_unit_test(nose_must_fit_under_the_cap),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
