/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Facet lines against closed forms. The support function of an ellipse with the
 * half-axes a and b is sqrt(a^2 cos^2 t + b^2 sin^2 t) (general geometry), that
 * of a circle its radius. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "model/rounding.h"
#include "support/near.h"
#include "support/sample_job.h"

#define POINTS 20001
/* A chord of the many-cornered ellipse lies inside it by less than this, mm. */
#define CHORD_MM 1e-6

static void ellipse(struct rounding_point point[POINTS], double a, double b)
{
	for (int i = 0; i < POINTS; i++) {
		double t = PI / 2.0 * i / (POINTS - 1);
		point[i] = (struct rounding_point){ a * cos(t), b * sin(t) };
	}
	point[POINTS - 1].y_mm = 0.0;
}

static double support(double a, double b, double t)
{
	return hypot(a * cos(t), b * sin(t));
}

static void a_half_circle_has_the_facets_of_regular_polygons(void **state)
{
	static struct rounding_point point[POINTS];
	const double r = 24.0;
	struct rounding round;

	(void)state;
	ellipse(point, r, r);
	rounding_of_outline(&round, POINTS, point);
	assert_near(round.left_mm[0], r * (sqrt(2.0) - 1.0), CHORD_MM, "left of the square, mm");
	for (int i = 0; i < ROUNDING_FACETS; i++) {
		const struct rounding_facet *facet = &round.facet[i];
		double half = PI / 4.0 / pow(2.0, facet->stage); /* half the turn to a neighbour */
		assert_near(facet->width_mm, 2.0 * r * tan(half), 4.0 * CHORD_MM, "width, mm");
		assert_near(facet->depth_mm, r / cos(2.0 * half) - r, CHORD_MM, "depth, mm");
		assert_near(facet->mark_mm, r * tan(2.0 * half) - r * tan(half), 4.0 * CHORD_MM,
			    "mark, mm");
		assert_near(round.left_mm[facet->stage], r / cos(half) - r, CHORD_MM, "left, mm");
		assert_false(facet->none);
	}
	/* The carpenter's rule for an octagon: legs of 2 - sqrt 2 radii. */
	assert_near(round.facet[3].mark_mm, r * (2.0 - sqrt(2.0)), CHORD_MM, "first mark, mm");
}

static void an_ellipse_has_the_facets_of_its_support_function(void **state)
{
	static struct rounding_point point[POINTS];
	const double a = 26.5, b = 14.25;
	struct rounding round;

	(void)state;
	ellipse(point, a, b);
	rounding_of_outline(&round, POINTS, point);
	assert_near(round.half_breadth_mm, a, CHORD_MM, "half-breadth, mm");
	assert_near(round.height_mm, b, CHORD_MM, "height, mm");
	for (int i = 0; i < ROUNDING_FACETS; i++) {
		const struct rounding_facet *f = &round.facet[i];
		double t = f->angle_rad, turn = PI / 2.0 / pow(2.0, f->stage);
		double h = support(a, b, t);
		double before = support(a, b, t - turn), after = support(a, b, t + turn);
		assert_near(t, PI / 2.0 * (i + 1) / 8.0, 1e-12, "angle, rad");
		assert_near(f->width_mm, (before + after - 2.0 * h * cos(turn)) / sin(turn),
			    20.0 * CHORD_MM, "width, mm");
		assert_near(f->depth_mm, (before + after) / (2.0 * cos(turn)) - h, 4.0 * CHORD_MM,
			    "depth, mm");
		assert_near(f->low.y_mm * cos(t) + f->low.z_mm * sin(t), h, CHORD_MM,
			    "low end on the tangent, mm");
		assert_near(f->high.y_mm * cos(t) + f->high.z_mm * sin(t), h, CHORD_MM,
			    "high end on the tangent, mm");
		assert_near(f->touch.y_mm, a * a * cos(t) / h, 2e-3, "touch across, mm");
		assert_near(f->touch.z_mm, b * b * sin(t) / h, 2e-3, "touch up, mm");
		assert_near(hypot(f->arris.y_mm - f->low.y_mm, f->arris.z_mm - f->low.z_mm),
			    f->mark_mm, 20.0 * CHORD_MM, "mark below, mm");
		assert_near(hypot(f->arris.y_mm - f->high.y_mm, f->arris.z_mm - f->high.z_mm),
			    f->mark_mm, 20.0 * CHORD_MM, "mark above, mm");
	}
}

/* The first facet goes through the edge; what would come beside it there has no
 * width, and the flank is a tangent that no stage has. */
static void a_sharp_ridge_leaves_facets_out(void **state)
{
	const struct rounding_point point[] = { { 25.0, 0.0 }, { 0.0, 16.0 } };
	struct rounding round;

	(void)state;
	rounding_of_outline(&round, 2, point);
	const struct rounding_facet *first = &round.facet[3], *low = &round.facet[1],
				    *high = &round.facet[5];
	assert_near(first->low.y_mm, 25.0, 1e-12, "first facet's low end, mm");
	assert_near(first->low.z_mm, 0.0, 1e-12, "first facet's low end, mm");
	assert_near(first->high.y_mm, 25.0 - 16.0, 1e-12, "first facet's high end, mm");
	assert_near(first->mark_mm, 16.0, 1e-12, "first mark, mm");
	assert_near(first->depth_mm, 16.0 / sqrt(2.0), 1e-12, "first depth, mm");
	assert_true(low->none && !high->none);
	assert_near(low->width_mm, 0.0, 1e-9, "width of a facet that vanishes, mm");
	assert_near(high->high.y_mm, 0.0, 1e-9, "67.5 degrees goes through the ridge, mm");
	/* Distance of the rectangle's corner from the straight flank. */
	assert_near(round.left_mm[0], 25.0 * 16.0 / hypot(25.0, 16.0), 1e-12, "left, mm");
}

static void a_square_section_has_no_facets(void **state)
{
	const struct rounding_point point[] = { { 25.0, 0.0 }, { 25.0, 16.0 } };
	struct rounding round;

	(void)state;
	rounding_of_outline(&round, 2, point);
	for (int i = 0; i < ROUNDING_FACETS; i++) {
		assert_true(round.facet[i].none);
		assert_near(round.facet[i].width_mm, 0.0, 1e-9, "width, mm");
	}
	for (int stage = 0; stage <= ROUNDING_STAGES; stage++)
		assert_near(round.left_mm[stage], 0.0, 1e-9, "left, mm");
}

/* Half a circle's quarter beside a flat: the flat shortens no facet. */
static void a_flat_back_shifts_the_facets_outward(void **state)
{
	static struct rounding_point point[POINTS];
	const double r = 15.0, flat = 8.0;
	struct rounding plain, shifted;

	(void)state;
	ellipse(point, r, r);
	rounding_of_outline(&plain, POINTS, point);
	for (int i = 0; i < POINTS; i++)
		point[i].y_mm += flat;
	rounding_of_outline(&shifted, POINTS, point);
	for (int i = 0; i < ROUNDING_FACETS; i++) {
		assert_near(shifted.facet[i].width_mm, plain.facet[i].width_mm, 1e-9, "width, mm");
		assert_near(shifted.facet[i].high.y_mm, plain.facet[i].high.y_mm + flat, 1e-9,
			    "high end, mm");
	}
}

static void nothing_is_nothing(void **state)
{
	struct rounding round;

	(void)state;
	rounding_of_outline(&round, 0, NULL);
	assert_near(round.half_breadth_mm, 0.0, 0.0, "half-breadth, mm");
	assert_near(round.left_mm[0], 0.0, 0.0, "left, mm");
}

static void corners_run_from_edge_to_back(void **state)
{
	static struct rounding_point point[POINTS];
	struct rounding_point corner[ROUNDING_CORNERS_MAX];
	struct rounding round;

	(void)state;
	ellipse(point, 26.0, 15.0);
	rounding_of_outline(&round, POINTS, point);
	for (int stage = 0; stage <= ROUNDING_STAGES; stage++) {
		size_t count = rounding_corners(corner, &round, stage);
		assert_int_equal(count, 2 + (1 << stage));
		assert_near(corner[0].y_mm, 26.0, 1e-9, "first corner, mm");
		assert_near(corner[count - 1].z_mm, 15.0, 1e-9, "last corner, mm");
		for (size_t i = 1; i < count; i++) {
			assert_true(corner[i].y_mm <= corner[i - 1].y_mm + 1e-9);
			assert_true(corner[i].z_mm >= corner[i - 1].z_mm - 1e-9);
		}
	}
}

/* A C section is an ellipse over its half-breadth and height; the waterlines
 * cut its corners by no more than TOL_SECTION_MM, 0.002 mm. */
static void the_sample_neck_at_the_nut_is_an_ellipse(void **state)
{
	struct job job = sample_steel_job();
	struct neck *neck;
	struct rounding side[SIDE_COUNT];

	(void)state;
	job.neck.station[0].bass = job.neck.station[0].treble =
		(struct section_spec){ .family = SECTION_C, .fullness = 2.0 };
	neck = sample_neck_built(&job.neck);
	double a = neck_half_breadth_mm(neck, SIDE_PLUS, 0.0, 0.0), b = neck_crest_mm(neck, 0.0);
	assert_int_equal(rounding_at(side, neck, 0.0, NULL), FAULT_NONE);
	for (int s = 0; s < SIDE_COUNT; s++) {
		double h = support(a, b, PI / 4.0);
		double corner = (a + b) / sqrt(2.0);
		assert_near(side[s].half_breadth_mm, a, 1e-9, "half-breadth, mm");
		assert_near(side[s].height_mm, b, 1e-9, "height, mm");
		assert_near(side[s].facet[3].depth_mm, corner - h, 0.003, "first depth, mm");
	}
	neck_free(neck);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_half_circle_has_the_facets_of_regular_polygons),
		cmocka_unit_test(an_ellipse_has_the_facets_of_its_support_function),
		cmocka_unit_test(a_sharp_ridge_leaves_facets_out),
		cmocka_unit_test(a_square_section_has_no_facets),
		cmocka_unit_test(a_flat_back_shifts_the_facets_outward),
		cmocka_unit_test(nothing_is_nothing),
		cmocka_unit_test(corners_run_from_edge_to_back),
		cmocka_unit_test(the_sample_neck_at_the_nut_is_an_ellipse),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
