/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heels on the finished neck: stated widths, outlines, cheeks, slab and tenon.
 * Lengths mm. */
#include "model/heel.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/units.h"
#include "model/neck.h"
#include "model/taper.h"
#include "support/near.h"
#include "support/sample_job.h"

/* What a caliper could still tell of a cap's width, mm. */
#define WIDTH_OFF_MM 0.05
#define FLUSH_MM 0.01

static struct neck_spec capped(enum cap_plan plan, double front_mm, double back_mm)
{
	struct neck_spec spec = sample_steel_job().neck;

	spec.heel.cap_plan = plan;
	spec.heel.cap_width_front_mm = front_mm;
	spec.heel.cap_width_back_mm = back_mm;
	spec.heel.hollow_rim_mm = 3;
	spec.heel.cap_curve_mm = plan == CAP_POINTED ? 12.5 : plan == CAP_ROUND ? 9.0 : 0.0;
	return spec;
}

static double cap_half(const struct neck *neck, double x)
{
	return neck_half_breadth_mm(neck, SIDE_PLUS, x, 1.0);
}

/* Where the front's curve ends, or at a square front, and at the body; straight
 * between. */
static void stated_widths_are_met(void **state)
{
	static const double widths[][2] = { { 20, 24 }, { 20, 20 }, { 20, 18 } };

	(void)state;
	for (size_t i = 0; i < 9; i++) {
		const double *w = widths[i / 3];
		struct neck_spec spec = capped((enum cap_plan)(i % 3), w[0], w[1]);
		struct neck *neck = sample_neck_built(&spec);
		double from = neck_heel_sides_mm(neck), to = neck_to_mm(neck);
		assert_near(from - neck_heel_proper_mm(neck), spec.heel.cap_curve_mm, 1e-9,
			    "the curve's length");
		for (double x = from; x <= to; x += (to - from) / 8.0) {
			double asked = w[0] + (w[1] - w[0]) * (x - from) / (to - from);
			assert_near(2.0 * cap_half(neck, x), asked, WIDTH_OFF_MM,
				    "width of the cap");
		}
		assert_near(neck_height_mm(neck, to - 0.5, w[1] / 2.0 - 0.3), 82.0, 1e-9, "level");
		neck_free(neck);
	}
}

/* Between parallel sides: half an ellipse, two arcs. */
static void fronts_are_round_or_pointed(void **state)
{
	struct neck_spec spec = capped(CAP_ROUND, 20, 20);
	struct neck *neck = sample_neck_built(&spec);
	double front = neck_heel_proper_mm(neck);

	(void)state;
	for (double d = 0.1; d <= 9.0; d += 0.05) {
		double t = d / 9.0;
		assert_near(cap_half(neck, front + d), 10.0 * sqrt(t * (2.0 - t)),
			    WIDTH_OFF_MM / 2.0, "ellipse");
	}
	neck_free(neck);
	spec = capped(CAP_POINTED, 20, 20);
	neck = sample_neck_built(&spec);
	front = neck_heel_proper_mm(neck);
	double radius = (12.5 * 12.5 + 100.0) / 20.0;
	for (double d = 0.0; d <= 12.5; d += 0.05)
		assert_near(hypot(d - 12.5, cap_half(neck, front + d) - 10.0 + radius), radius,
			    WIDTH_OFF_MM / 2.0, "arc");
	assert_near(cap_half(neck, front), 0.0, WIDTH_OFF_MM / 2.0, "the point");
	neck_free(neck);
}

/* Flush with the fretboard's edge all along, with the cap's edge above, straight
 * between less the hollow; both rims lie on the straight line. */
static void cheeks_are_flush(void **state)
{
	(void)state;
	for (int plan = 0; plan < CAP_PLAN_COUNT; plan++) {
		struct neck_spec spec = capped((enum cap_plan)plan, 20, 24);
		struct neck *neck = sample_neck_built(&spec);
		for (double x = neck_heel_start_mm(neck); x <= neck_to_mm(neck); x += 0.25)
			assert_near(neck_half_breadth_mm(neck, SIDE_PLUS, x, 0.0),
				    taper_wood_half_width_mm(&spec, x), FLUSH_MM,
				    "fretboard's edge");
		for (double x = neck_heel_sides_mm(neck); x <= neck_to_mm(neck); x += 0.25)
			for (double z = 0.0; z <= 82.0; z += 0.5) {
				double foot = taper_wood_half_width_mm(&spec, x);
				double line = foot + (cap_half(neck, x) - foot) * z / 82.0;
				double u = fmin(fmax((z - 3.0) / 76.0, 0.0), 1.0);
				assert_near(neck_half_breadth_mm(neck, SIDE_PLUS, x, z / 82.0),
					    line - 4.0 * u * (1.0 - u), FLUSH_MM, "cheek");
			}
		assert_near(neck_asymmetry_mm(neck), 0.0, 0.0, "both cheeks");
		neck_free(neck);
	}
}

/* Half-breadth at a height, -1 above the crest. */
static double half_at(const struct neck *neck, double x, double z)
{
	double crest = neck_crest_mm(neck, x);

	return z > crest ? -1.0 : neck_half_breadth_mm(neck, SIDE_PLUS, x, z / crest);
}

/* Cut level, the heel's front is bent outward, or inward by a radius that a
 * 12.7 mm ball with its stock has room in. */
static void fronts_have_no_groove(void **state)
{
	(void)state;
	for (int plan = 0; plan < CAP_PLAN_COUNT; plan++) {
		struct neck_spec spec = capped((enum cap_plan)plan, 20, 24);
		struct neck *neck = sample_neck_built(&spec);
		double h = 0.25;
		for (double z = 24.0; z < 82.0; z += 1.9)
			for (double x = neck_heel_start_mm(neck); x < neck_to_mm(neck) - h;
			     x += 0.05) {
				double a = half_at(neck, x - h, z), b = half_at(neck, x, z);
				double c = half_at(neck, x + h, z), slope = (c - a) / (2.0 * h);
				double bend = (a - 2.0 * b + c) / (h * h * pow(hypot(1, slope), 3));
				if (a > 0.0)
					assert_between(bend, -INFINITY, 1.0 / 12.0, "bend, 1/mm");
			}
		neck_free(neck);
	}
}

/* Where hand meets neck neither crest nor waterline has a seam: value, slope and
 * bend go on. */
static void shaft_and_heel_have_no_seam(void **state)
{
	struct neck_spec spec = capped(CAP_ROUND, 20, 24);
	struct neck *neck = sample_neck_built(&spec);
	double x = neck_heel_start_mm(neck), h = 0.05;

	(void)state;
	for (double v = 0.0; v <= 1.0; v += 0.125) {
		double b[5];
		for (int i = 0; i < 5; i++)
			b[i] = neck_half_breadth_mm(neck, SIDE_PLUS, x + (i - 2) * h, v);
		double before = (b[0] - 2.0 * b[1] + b[2]) / (h * h);
		double after = (b[2] - 2.0 * b[3] + b[4]) / (h * h);
		assert_near(after, before, 1e-3, "bend of a waterline, 1/mm");
	}
	neck_free(neck);
}

static void slab_follows_the_fretboard(void **state)
{
	struct neck_spec spec = sample_steel_job().neck;
	spec.heel = (struct heel_spec){ .kind = HEEL_FLAT,
					.height_mm = 20,
					.slab_length_mm = 70,
					.beyond_joint_mm = 80,
					.ease_length_mm = 40 };
	struct neck *neck = sample_neck_built(&spec);
	double start = neck_heel_start_mm(neck), proper = neck_heel_proper_mm(neck);
	double joint = taper_fret_x_mm(645.16, 14), grow = 3.0 / taper_fret_x_mm(645.16, 11);

	(void)state;
	assert_near(neck_to_mm(neck), joint + 80.0, 1e-9, "beyond the joint");
	assert_near(proper, joint + 10.0, 1e-9, "slab");
	assert_near(start, joint - 30.0, 1e-9, "ease");
	for (double x = proper; x <= neck_to_mm(neck); x += 1.0)
		for (double v = 0.0; v <= 1.0; v += 0.25)
			assert_near(neck_half_breadth_mm(neck, SIDE_MINUS, x, v),
				    taper_wood_half_width_mm(&spec, x), 1e-6, "upright sides");
	/* quintic half way: the mean, and 5/32 of the width times the slopes' difference */
	assert_near(neck_crest_mm(neck, start + 20.0),
		    (15.0 + grow * start + 20.0) / 2.0 + 40.0 * grow * 5.0 / 32.0, 1e-3, "ease");
	neck_free(neck);
}

static struct neck_spec set_spec(void)
{
	struct neck_spec spec = sample_steel_job().neck;

	spec.heel = (struct heel_spec){ .kind = HEEL_SET,
					.height_mm = 34,
					.beyond_joint_mm = 70,
					.ease_length_mm = 50,
					.tenon_width_mm = 40,
					.shoulder_length_mm = 24 };
	return spec;
}

/* Full depth from the joint on; sides straight, upright and parallel behind the
 * shoulder, which closes in evenly. */
static void tenon_has_its_width_and_depth(void **state)
{
	struct neck_spec spec = set_spec();
	struct neck *neck = sample_neck_built(&spec);
	double joint = taper_fret_x_mm(645.16, 14), before = INFINITY;

	(void)state;
	assert_near(neck_heel_proper_mm(neck), joint, 1e-9, "the tenon begins at the body");
	assert_near(neck_to_mm(neck), joint + 70.0, 1e-9, "its end");
	assert_near(neck_heel_sides_mm(neck), joint + 24.0, 1e-9, "the shoulder's end");
	for (double x = joint; x <= joint + 70.0; x += 0.5) {
		double half = neck_half_breadth_mm(neck, SIDE_PLUS, x, 0.0);
		assert_near(neck_crest_mm(neck, x), 34.0, 1e-9, "depth");
		for (double v = 0.25; v <= 1.0; v += 0.25)
			assert_near(neck_half_breadth_mm(neck, SIDE_MINUS, x, v), half, 1e-9,
				    "upright sides");
		assert_true(half <= before + 0.02);
		before = half;
		if (x >= joint + 24.0)
			assert_near(half, 20.0, 1e-6, "half of 40");
	}
	assert_near(neck_half_breadth_mm(neck, SIDE_PLUS, joint, 1.0),
		    taper_wood_half_width_mm(&spec, joint), 1e-6, "full width at the body");
	for (double x = joint - 50.0; x <= joint; x += 0.5)
		assert_near(neck_half_breadth_mm(neck, SIDE_PLUS, x, 0.0),
			    taper_wood_half_width_mm(&spec, x), FLUSH_MM, "fretboard's edge");
	neck_free(neck);
}

static void assert_refused(const struct neck_spec *spec, const char *setting)
{
	struct fault_list faults = { 0 };
	struct neck *neck;

	assert_int_not_equal(neck_build(&neck, spec, &faults), FAULT_NONE);
	assert_string_equal(faults.record[0].setting, setting);
}

static void heels_that_cannot_be(void **state)
{
	static const struct {
		enum cap_plan plan;
		size_t place;
		double value;
		const char *setting;
	} caps[] = {
#define FIGURE(member) offsetof(struct neck_spec, heel.member)
		{ CAP_ROUND, FIGURE(cap_curve_mm), 15.1, "heel.cap_curve" },
		{ CAP_ROUND, FIGURE(cap_curve_mm), -1, "heel.cap_curve" },
		{ CAP_ROUND, FIGURE(cap_width_back_mm), 39, "heel.cap_curve" },
		{ CAP_POINTED, FIGURE(cap_curve_mm), 11.9, "heel.cap_curve" },
		{ CAP_SQUARE, FIGURE(hollow_rim_mm), 20.6, "heel.hollow_rim" },
		{ CAP_SQUARE, FIGURE(hollow_rim_mm), -1, "heel.hollow_rim" },
		{ CAP_PLAN_COUNT, FIGURE(cap_length_mm), 16, "heel.cap_plan" },
	}, tenons[] = {
		{ CAP_ROUND, FIGURE(tenon_width_mm), 55, "heel.tenon_width" },
		{ CAP_ROUND, FIGURE(tenon_width_mm), 0, "heel.tenon_width" },
		{ CAP_ROUND, FIGURE(beyond_joint_mm), 0, "heel.beyond_joint" },
		{ CAP_ROUND, FIGURE(shoulder_length_mm), 71, "heel.shoulder_length" },
		{ CAP_ROUND, FIGURE(shoulder_length_mm), NAN, "heel.shoulder_length" },
		{ CAP_ROUND, FIGURE(ease_length_mm), 0, "heel.ease_length" },
#undef FIGURE
	};

	(void)state;
	for (size_t i = 0; i < sizeof caps / sizeof caps[0]; i++) {
		struct neck_spec spec = capped(CAP_ROUND, 20, 24);
		spec.heel.cap_plan = caps[i].plan;
		memcpy((char *)&spec + caps[i].place, &caps[i].value, sizeof(double));
		assert_refused(&spec, caps[i].setting);
	}
	for (size_t i = 0; i < sizeof tenons / sizeof tenons[0]; i++) {
		struct neck_spec spec = set_spec();
		memcpy((char *)&spec + tenons[i].place, &tenons[i].value, sizeof(double));
		assert_refused(&spec, tenons[i].setting);
	}
	struct neck_spec spec = set_spec();
	spec.heel.kind = HEEL_KIND_COUNT;
	assert_refused(&spec, "heel.kind");
	assert_string_equal(heel_kind_name(HEEL_KIND_COUNT), "?");
	assert_string_equal(heel_proper_name(HEEL_KIND_COUNT), "?");
	assert_string_equal(heel_kind_name(HEEL_SET), "set");
	assert_string_equal(heel_proper_name(HEEL_SET), "tenon");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(stated_widths_are_met),
		cmocka_unit_test(fronts_are_round_or_pointed),
		cmocka_unit_test(cheeks_are_flush),
		cmocka_unit_test(fronts_have_no_groove),
		cmocka_unit_test(shaft_and_heel_have_no_seam),
		cmocka_unit_test(slab_follows_the_fretboard),
		cmocka_unit_test(tenon_has_its_width_and_depth),
		cmocka_unit_test(heels_that_cannot_be),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
