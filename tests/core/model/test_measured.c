/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measured sections against the curves that their points were taken from. */
#include "model/measured.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/units.h"
#include "model/neck.h"
#include "model/section.h"
#include "support/any_outline.h"
#include "support/near.h"
#include "support/sample_job.h"
#include "support/seed.h"

static struct measured made(struct section_outline outline)
{
	struct measured measured;
	struct fault_list faults = { 0 };

	if (measured_make(&measured, &outline, "s", &faults))
		fail_msg("%s", faults.record[0].message);
	return measured;
}

/* Departure of the outline from a curve, square to it: in shares, where a neck's
 * half is 22 mm. Heights come so close to the crest that steep places count. */
static double departure(const struct measured *measured, double fullness)
{
	double worst = 0.0;

	for (int i = 0; i <= 2000; i++) {
		double v = 1.0 - pow((double)i / 2000.0, 3.0), step = 1e-6;
		double b = section_superellipse(v, fullness);
		double low = fmax(v - step, 0.0), high = fmin(v + step, 1.0);
		double slope = (section_superellipse(high, fullness) -
				section_superellipse(low, fullness)) /
			       (high - low);
		worst = fmax(worst, fabs(measured_share(measured, v) - b) / hypot(1.0, slope));
	}
	return worst;
}

static void seventeen_points_give_back_the_curve(void **state)
{
	(void)state;
	struct measured circle = made(outline_of(2.0, 0.0, 17));
	struct measured oval = made(outline_of(2.4, 0.0, 17));
	struct measured deep = made(outline_of(3.0, 0.0, 17));

	/* x 22 mm: less than a micrometre, and a few */
	assert_between(departure(&circle, 2.0), 0.0, 2e-6, "circle, share");
	assert_between(departure(&oval, 2.4), 0.0, 2e-4, "fullness 2.4, share");
	assert_between(departure(&deep, 3.0), 0.0, 2e-4, "fullness 3, share");
}

/* b^2 / (2 (1 - v)) is the radius at the crest of a unit circle: 1. A cubic
 * spline bends by up to h^2 / 12 too little at its knots, h being pi / 16. */
static void the_crest_stays_round(void **state)
{
	(void)state;
	struct measured circle = made(outline_of(2.0, 0.0, 9));

	for (double down = 1e-9; down < 1e-3; down *= 10.0) {
		double b = measured_share(&circle, 1.0 - down);
		assert_near(b * b / (2.0 * down), 1.0, 0.0035, "radius at the crest, shares");
	}
}

/* Curvature of the outline on both sides of each knot. */
static double curvature(const struct measured *measured, double angle)
{
	double v[3], b[3], step = 1e-4;

	for (int i = 0; i < 3; i++)
		measured_at(measured, angle + (i - 1) * step, &v[i], &b[i]);
	double dv = (v[2] - v[0]) / (2.0 * step), db = (b[2] - b[0]) / (2.0 * step);
	double ddv = (v[2] - 2.0 * v[1] + v[0]) / (step * step);
	double ddb = (b[2] - 2.0 * b[1] + b[0]) / (step * step);
	return (db * ddv - dv * ddb) / pow(dv * dv + db * db, 1.5);
}

static void curvature_runs_on_over_the_points(void **state)
{
	(void)state;
	static const double fullness[] = { 2.0, 2.3, 2.8 };

	for (size_t s = 0; s < 3; s++) {
		struct measured measured = made(outline_of(fullness[s], 0.0, 13));
		for (size_t i = 1; i + 1 < measured.count; i++) {
			double below = curvature(&measured, measured.angle_rad[i] - 3e-4);
			double above = curvature(&measured, measured.angle_rad[i] + 3e-4);
			assert_near(below, above, 0.01, "curvature, 1 / half-width");
		}
	}
}

static void any_outline_falls_and_passes_its_points(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("any_outline_falls_and_passes_its_points");

	for (int n = 0; n < 500; n++) {
		struct section_outline outline = any_outline(rng);
		struct measured measured = made(outline);
		double before = 1.0;
		for (size_t i = 0; i < outline.count; i++)
			assert_near(measured_share(&measured, outline.height[i]),
				    outline.breadth[i], 1e-6, "share at a point");
		for (int i = 0; i <= 3000; i++) {
			double share = measured_share(&measured, i / 3000.0);
			assert_true(share <= before + 1e-12);
			before = share;
		}
		assert_near(measured_share(&measured, 1.0), outline.breadth[outline.count - 1], 0,
			    "share at the crest");
	}
	gsl_rng_free(rng);
}

static void assert_refused(struct section_outline outline, const char *part)
{
	struct measured measured;
	struct fault_list faults = { 0 };

	assert_int_equal(measured_make(&measured, &outline, "stations[1].shape", &faults),
			 FAULT_SETTING);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].setting, "stations[1].shape");
	if (!strstr(faults.record[0].message, part))
		fail_msg("%s", faults.record[0].message);
}

static void wrong_tables_are_refused(void **state)
{
	(void)state;
	struct section_outline good = outline_of(2.0, 0.0, 9), bad;

	assert_refused((struct section_outline){ 0 }, "needs its outline");
	(void)((bad = good), bad.count = 3);
	assert_refused(bad, "has 3 points; it can have 4 to 33");
	(void)((bad = good), bad.count = SECTION_POINTS_MAX + 1);
	assert_refused(bad, "it can have 4 to 33");
	(void)((bad = good), bad.height[3] = bad.height[2]);
	assert_refused(bad, "Point 4 of the measured outline is at height");
	(void)((bad = good), bad.breadth[3] = bad.breadth[2] + 0.001);
	assert_refused(bad, "cannot lean out");
	(void)((bad = good), bad.breadth[3] = -0.1);
	assert_refused(bad, "0 to 1");
	(void)((bad = good), bad.height[3] = NAN);
	assert_refused(bad, "0 to 1");
	(void)((bad = good), bad.breadth[0] = 0.99);
	assert_refused(bad, "must begin at the edge");
	(void)((bad = good), bad.height[8] = 0.999);
	assert_refused(bad, "must end at the crest");
	assert_refused(outline_of(2.5, 0.81, 9), "flat of up to 0.8");
}

/* Measured and formula sections of one curve make one neck. */
static void a_neck_of_measured_sections_is_that_of_its_formula(void **state)
{
	(void)state;
	struct neck_spec spec = sample_short_job().neck;
	struct neck *formula, *measured;

	for (size_t i = 0; i < spec.station_count; i++)
		spec.station[i].bass = spec.station[i].treble =
			(struct section_spec){ .family = SECTION_C, .fullness = 2.0 };
	assert_int_equal(neck_build(&formula, &spec, NULL), FAULT_NONE);
	for (size_t i = 0; i < spec.station_count; i++) {
		spec.station[i].bass.family = SECTION_MEASURED;
		spec.station[i].bass.outline = outline_of(2.0, 0.0, 17);
	}
	assert_int_equal(neck_build(&measured, &spec, NULL), FAULT_NONE);
	for (double x = 5.0; x < 200.0; x += 7.3)
		for (double v = 0.0; v < 0.999; v += 0.037)
			assert_near(neck_half_breadth_mm(measured, SIDE_PLUS, x, v),
				    neck_half_breadth_mm(formula, SIDE_PLUS, x, v), 0.02,
				    "half-breadth, mm");
	neck_free(formula);
	neck_free(measured);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(seventeen_points_give_back_the_curve),
		cmocka_unit_test(the_crest_stays_round),
		cmocka_unit_test(curvature_runs_on_over_the_points),
		cmocka_unit_test(any_outline_falls_and_passes_its_points),
		cmocka_unit_test(wrong_tables_are_refused),
		cmocka_unit_test(a_neck_of_measured_sections_is_that_of_its_formula),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
