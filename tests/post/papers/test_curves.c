/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines over x: both ends, every knot, and chords as close as promised. */
#include "papers/curves.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/sample_job.h"

/* A tenth of what a paper may be off. */
#define CHORD_OFF_MM 0.01

static void check_curve(const struct neck *neck, curve_of *value)
{
	struct curve_points curve;
	double from = neck_from_mm(neck), to = neck_to_mm(neck);
	size_t knots, at = 0;
	const double *knot = neck_knots(neck, &knots);

	assert_int_equal(curves_sample(&curve, neck, from, to, value, NULL), FAULT_NONE);
	assert_near(curve.x_mm[0], from, 0.0, "first x, mm");
	assert_near(curve.x_mm[curve.count - 1], to, 0.0, "last x, mm");
	for (size_t i = 0; i < curve.count; i++) {
		assert_near(curve.value_mm[i], value(neck, curve.x_mm[i]), 0.0, "value, mm");
		if (at < knots && curve.x_mm[i] == knot[at])
			at++;
		if (i == 0)
			continue;
		double x = (curve.x_mm[i - 1] + curve.x_mm[i]) / 2.0;
		double rise = curve.value_mm[i] - curve.value_mm[i - 1];
		double run = curve.x_mm[i] - curve.x_mm[i - 1];
		double middle = (curve.value_mm[i - 1] + curve.value_mm[i]) / 2.0;
		assert_between(run, 1e-9, CURVES_STEP_MM + 1e-9, "step, mm");
		assert_near((value(neck, x) - middle) / hypot(1.0, rise / run), 0.0, CHORD_OFF_MM,
			    "off the chord, mm");
	}
	assert_int_equal(at, knots);
	curves_free(&curve);
}

static void curves_follow_the_neck(void **state)
{
	struct neck_spec spec = sample_steel_job().neck;
	struct neck *neck = sample_neck_built(&spec);

	(void)state;
	check_curve(neck, neck_crest_mm);
	check_curve(neck, neck_base_mm);
	check_curve(neck, curves_minus_edge_mm);
	check_curve(neck, curves_plus_edge_mm);
	neck_free(neck);
	curves_free(NULL);
}

static void sides_are_their_own(void **state)
{
	struct neck_spec spec = sample_steel_job().neck;
	struct neck *neck = sample_neck_built(&spec);
	double x = neck_to_mm(neck) - 2.0;

	(void)state;
	assert_near(curves_minus_crest_mm(neck, x), neck_half_breadth_mm(neck, SIDE_MINUS, x, 1.0),
		    0.0, "cap, mm");
	assert_near(curves_plus_crest_mm(neck, x), neck_half_breadth_mm(neck, SIDE_PLUS, x, 1.0),
		    0.0, "cap, mm");
	assert_near(curves_plus_edge_mm(neck, x), neck_half_breadth_mm(neck, SIDE_PLUS, x, 0.0),
		    0.0, "edge, mm");
	neck_free(neck);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(curves_follow_the_neck),
		cmocka_unit_test(sides_are_their_own),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
