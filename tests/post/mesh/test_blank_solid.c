/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "mesh/blank_solid.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/seed.h"
#include "support/solid.h"

static void collect(void *context, const struct mesh_point corner[3])
{
	const float as_array[3][3] = { { corner[0].x, corner[0].y, corner[0].z },
				       { corner[1].x, corner[1].y, corner[1].z },
				       { corner[2].x, corner[2].y, corner[2].z } };

	solid_add(context, as_array);
}

static void add(struct outline *outline, double x_mm, double value_mm)
{
	outline->x_mm[outline->count] = x_mm;
	outline->value_mm[outline->count++] = value_mm;
}

static struct solid solid_of(const struct blank *blank, struct vec3 zero)
{
	struct solid solid = { 0 };
	const struct triangle_sink sink = { collect, &solid };
	struct fault_list faults = { 0 };

	assert_int_equal(blank_solid(&sink, blank, zero, &faults), FAULT_NONE);
	solid_assert_closed(&solid);
	return solid;
}

/* Volume, mm3, checked to single precision of the coordinates. */
static void assert_volume(const struct blank *blank, double expected_mm3)
{
	const struct vec3 zero[] = { { 0.0, 0.0, 0.0 }, { 12.345, -3.21, 41.7 } };

	for (int i = 0; i < 2; i++) {
		struct solid solid = solid_of(blank, zero[i]);
		assert_near(solid_volume_mm3(&solid), expected_mm3, 2e-6 * expected_mm3 + 0.01,
			    "volume of the blank, mm3");
		solid_free(&solid);
	}
}

static struct blank brick(double from, double to, double half, double bottom, double top)
{
	struct blank blank = { 0 };

	add(&blank.top, from, top);
	add(&blank.top, to, top);
	add(&blank.bottom, from, bottom);
	add(&blank.bottom, to, bottom);
	add(&blank.half_width, from, half);
	add(&blank.half_width, to, half);
	return blank;
}

static void a_brick_is_twelve_triangles(void **state)
{
	(void)state;
	struct blank blank = brick(-70.0, 380.0, 30.0, 0.0, 90.0);
	struct solid solid = solid_of(&blank, vec3_make(5.0, 0.0, 90.0));
	struct vec3 least, most;

	assert_int_equal(solid.count, 12);
	solid_bounds(&solid, &least, &most);
	assert_near(least.x, -75.0, 0.0, "least x, mm");
	assert_near(most.x, 375.0, 0.0, "most x, mm");
	assert_near(least.y, -30.0, 0.0, "least y, mm");
	assert_near(most.y, 30.0, 0.0, "most y, mm");
	assert_near(least.z, -90.0, 0.0, "least z, mm");
	assert_near(most.z, 0.0, 0.0, "most z, mm");
	solid_free(&solid);
	assert_volume(&blank, 450.0 * 60.0 * 90.0);
}

static void a_glued_heel_block_is_two_bricks(void **state)
{
	(void)state;
	struct blank blank = brick(-70.0, 380.0, 30.0, 0.0, 26.0);

	blank.top = (struct outline){ 0 };
	add(&blank.top, -70.0, 26.0);
	add(&blank.top, 290.0, 26.0);
	add(&blank.top, 290.0, 90.0);
	add(&blank.top, 380.0, 90.0);
	assert_volume(&blank, 60.0 * (360.0 * 26.0 + 90.0 * 90.0));
}

/* All three outlines step at one place: narrow and tall behind, wide and low
 * in front, and the underside drops too. */
static void steps_of_all_outlines_at_one_place(void **state)
{
	(void)state;
	struct blank blank = { 0 };

	add(&blank.top, 0.0, 20.0);
	add(&blank.top, 100.0, 20.0);
	add(&blank.top, 100.0, 50.0);
	add(&blank.top, 160.0, 50.0);
	add(&blank.bottom, 0.0, -5.0);
	add(&blank.bottom, 100.0, -5.0);
	add(&blank.bottom, 100.0, 3.0);
	add(&blank.bottom, 160.0, 3.0);
	add(&blank.half_width, 0.0, 40.0);
	add(&blank.half_width, 100.0, 40.0);
	add(&blank.half_width, 100.0, 12.0);
	add(&blank.half_width, 160.0, 12.0);
	assert_volume(&blank, 100.0 * 80.0 * 25.0 + 60.0 * 24.0 * 47.0);
}

/* Width and height both grow linearly: the section is a quadratic of x and the
 * prismoid rule gives its volume exactly. */
static void a_taper_follows_the_prismoid_rule(void **state)
{
	(void)state;
	struct blank blank = { 0 };

	add(&blank.top, 0.0, 20.0);
	add(&blank.top, 300.0, 80.0);
	add(&blank.bottom, 0.0, 0.0);
	add(&blank.bottom, 300.0, 0.0);
	add(&blank.half_width, 0.0, 20.0);
	add(&blank.half_width, 300.0, 35.0);
	double ends = 40.0 * 20.0 + 70.0 * 80.0, middle = 55.0 * 50.0;
	assert_volume(&blank, 300.0 / 6.0 * (ends + 4.0 * middle));
}

static void points_apart_by_less_than_single_precision_make_one_step(void **state)
{
	(void)state;
	struct blank blank = { 0 };

	add(&blank.top, 0.0, 20.0);
	add(&blank.top, 300.0, 20.0);
	add(&blank.top, 300.0, 60.0);
	add(&blank.top, 400.0, 60.0);
	add(&blank.bottom, 0.0, 0.0);
	add(&blank.bottom, 400.0, 0.0);
	add(&blank.half_width, 0.0, 30.0);
	add(&blank.half_width, 300.0 + 1e-7, 30.0);
	add(&blank.half_width, 300.0 + 1e-7, 20.0);
	add(&blank.half_width, 400.0, 20.0);
	assert_volume(&blank, 300.0 * 60.0 * 20.0 + 100.0 * 40.0 * 60.0);
}

static void a_blank_that_falls_apart_is_refused(void **state)
{
	(void)state;
	struct blank blank = brick(0.0, 100.0, 30.0, 0.0, 20.0);
	struct solid solid = { 0 };
	const struct triangle_sink sink = { collect, &solid };
	struct fault_list faults = { 0 };

	blank.top = blank.bottom = (struct outline){ 0 };
	add(&blank.top, 0.0, 20.0);
	add(&blank.top, 50.0, 20.0);
	add(&blank.top, 50.0, 60.0);
	add(&blank.top, 100.0, 60.0);
	add(&blank.bottom, 0.0, 0.0);
	add(&blank.bottom, 50.0, 0.0);
	add(&blank.bottom, 50.0, 20.0);
	add(&blank.bottom, 100.0, 20.0);
	assert_int_equal(blank_solid(&sink, &blank, vec3_make(0, 0, 0), &faults), FAULT_GEOMETRY);
	assert_int_equal(faults.count, 1);
	assert_int_equal(solid.count, 0);
}

static void random_outline(struct outline *outline, const gsl_rng *rng, double least, double most)
{
	unsigned long pieces = seed_whole(rng, 1, 5);
	double x = 0.0;

	*outline = (struct outline){ 0 };
	add(outline, 0.0, seed_between(rng, least, most));
	for (unsigned long i = 1; i < pieces; i++) {
		/* whole tens, so that points of different outlines often meet */
		x = fmin(x + 10.0 * (double)seed_whole(rng, 1, 8), 390.0);
		add(outline, x, seed_between(rng, least, most));
		if (seed_whole(rng, 0, 1))
			add(outline, x, seed_between(rng, least, most));
	}
	add(outline, 400.0, seed_between(rng, least, most));
}

/* Section area just inside a stretch, by the outlines' own evaluation. */
static double area(const struct blank *blank, double x_mm)
{
	return 2.0 * outline_value_mm(&blank->half_width, x_mm) *
	       (outline_value_mm(&blank->top, x_mm) - outline_value_mm(&blank->bottom, x_mm));
}

/* Points lie on whole tens, so the section is quadratic on each stretch of ten;
 * three points of Gauss's rule (exact to degree five) give its volume. */
static double volume_by_quadrature(const struct blank *blank)
{
	const double reach = sqrt(0.6);
	double sum = 0.0;

	for (int ten = 0; ten < 40; ten++) {
		double x = 10.0 * ten + 5.0;
		sum += 10.0 / 18.0 *
		       (5.0 * area(blank, x - 5.0 * reach) + 8.0 * area(blank, x) +
			5.0 * area(blank, x + 5.0 * reach));
	}
	return sum;
}

static void random_blanks_are_closed(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("random_blanks_are_closed");

	for (int i = 0; i < 500; i++) {
		struct blank blank;
		random_outline(&blank.top, rng, 20.0, 90.0);
		random_outline(&blank.bottom, rng, -10.0, 15.0);
		random_outline(&blank.half_width, rng, 10.0, 40.0);
		assert_volume(&blank, volume_by_quadrature(&blank));
	}
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_brick_is_twelve_triangles),
		cmocka_unit_test(a_glued_heel_block_is_two_bricks),
		cmocka_unit_test(steps_of_all_outlines_at_one_place),
		cmocka_unit_test(a_taper_follows_the_prismoid_rule),
		cmocka_unit_test(points_apart_by_less_than_single_precision_make_one_step),
		cmocka_unit_test(a_blank_that_falls_apart_is_refused),
		cmocka_unit_test(random_blanks_are_closed),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
