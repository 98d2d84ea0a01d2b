/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Facet lines on random necks, all along the shaft: never cutting in, touching,
 * leaving less at every stage; a side is judged by its own half-breadths. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "model/rounding.h"
#include "support/any_job.h"
#include "support/near.h"
#include "support/seed.h"

#define NECKS 40
#define PLACES 12
#define HEIGHTS 400
/* Facets are tangents of the very waterlines that are asked here; only
 * rounding of numbers may show, mm. */
#define NOISE_MM 1e-6

static double stands_out(const struct rounding_facet *facet, double y_mm, double z_mm)
{
	return (y_mm - facet->low.y_mm) * cos(facet->angle_rad) +
	       (z_mm - facet->low.z_mm) * sin(facet->angle_rad);
}

/* How near the section comes to the facet's line, mm; below 0: it is cut into. */
static double nearest(const struct rounding_facet *facet, const struct neck *neck,
		      enum neck_side side, double x_mm)
{
	size_t levels;
	const double *level = neck_levels(neck, &levels);
	double height = neck_crest_mm(neck, x_mm) - neck_base_mm(neck, x_mm), least = INFINITY;

	for (size_t i = 0; i < levels; i++)
		least = fmin(least,
			     -stands_out(facet, neck_half_breadth_mm(neck, side, x_mm, level[i]),
					 level[i] * height));
	for (int i = 0; i <= HEIGHTS; i++) {
		double v = (double)i / HEIGHTS;
		least = fmin(least, -stands_out(facet, neck_half_breadth_mm(neck, side, x_mm, v),
						v * height));
	}
	return least;
}

/* Shortest way from a corner to points of the section, evenly spaced in height
 * and in breadth, for either alone is coarse where it runs the other way. */
static double off_section(struct rounding_point corner, const struct neck *neck,
			  enum neck_side side, double x_mm)
{
	double sign = side == SIDE_PLUS ? 1.0 : -1.0, base = neck_base_mm(neck, x_mm);
	double wide = neck_half_breadth_mm(neck, side, x_mm, 0.0), least = INFINITY;
	double high = neck_crest_mm(neck, x_mm) - base;

	for (int i = 0; i <= 4 * HEIGHTS; i++) {
		double share = (double)i / (4 * HEIGHTS), y = share * wide;
		double across = neck_half_breadth_mm(neck, side, x_mm, share);
		double up = neck_height_mm(neck, x_mm, sign * y) - base;
		least = fmin(least, hypot(corner.y_mm - across, corner.z_mm - share * high));
		least = fmin(least, hypot(corner.y_mm - y, corner.z_mm - up));
	}
	return least;
}

static double farthest_corner(const struct rounding *round, int stage, const struct neck *neck,
			      enum neck_side side, double x_mm)
{
	struct rounding_point corner[ROUNDING_CORNERS_MAX];
	size_t count = rounding_corners(corner, round, stage);
	double most = 0.0;

	for (size_t k = 1; k + 1 < count; k++)
		most = fmax(most, off_section(corner[k], neck, side, x_mm));
	return most;
}

static void check_facet(const struct rounding *round, int i, const struct neck *neck,
			enum neck_side side, double x)
{
	const struct rounding_facet *facet = &round->facet[i];
	double turn = PI / 2.0 / pow(2.0, facet->stage);

	assert_near(nearest(facet, neck, side, x), 0.0, NOISE_MM, "facet touches, cuts not, mm");
	assert_true(facet->depth_mm >= 0.0 && facet->width_mm >= 0.0);
	assert_near(facet->width_mm, 2.0 * facet->depth_mm / tan(turn), NOISE_MM,
		    "width of a corner cut evenly, mm");
	assert_true(facet->none == (facet->width_mm < ROUNDING_LEAST_WIDTH_MM));
	assert_true(facet->low.z_mm >= -NOISE_MM && facet->high.y_mm >= -NOISE_MM);
	assert_true(facet->low.y_mm <= round->half_breadth_mm + NOISE_MM);
	assert_true(facet->high.z_mm <= round->height_mm + NOISE_MM);
	assert_near(stands_out(facet, facet->touch.y_mm, facet->touch.z_mm), 0.0, NOISE_MM,
		    "touching point on the facet, mm");
}

static void check_side(const struct rounding *round, const struct neck *neck, enum neck_side side,
		       double x)
{
	assert_near(round->half_breadth_mm, neck_half_breadth_mm(neck, side, x, 0.0), NOISE_MM,
		    "rectangle's half-breadth, mm");
	assert_near(round->height_mm, neck_crest_mm(neck, x) - neck_base_mm(neck, x), NOISE_MM,
		    "rectangle's height, mm");
	for (int i = 0; i < ROUNDING_FACETS; i++)
		check_facet(round, i, neck, side, x);
	for (int stage = 1; stage <= ROUNDING_STAGES; stage++) {
		assert_true(round->left_mm[stage] <= round->left_mm[stage - 1] + NOISE_MM);
		assert_near(farthest_corner(round, stage, neck, side, x), round->left_mm[stage],
			    0.01, "most wood left, mm");
	}
}

static void facets_on_random_necks(void **state)
{
	gsl_rng *rng = seed_rng("facets on random necks");
	size_t built = 0;

	(void)state;
	for (unsigned long n = 0; n < NECKS; n++) {
		struct job job;
		struct neck *neck;
		seed_nth(rng, n);
		any_job(&job, rng);
		if (neck_build(&neck, &job.neck, NULL) != FAULT_NONE)
			continue;
		built++;
		for (int i = 0; i <= PLACES; i++) {
			struct rounding round[SIDE_COUNT];
			double x = neck_heel_start_mm(neck) * i / PLACES;
			assert_int_equal(rounding_at(round, neck, x, NULL), FAULT_NONE);
			for (int side = 0; side < SIDE_COUNT; side++)
				check_side(&round[side], neck, (enum neck_side)side, x);
		}
		neck_free(neck);
	}
	gsl_rng_free(rng);
	assert_true(built > NECKS / 2);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(facets_on_random_necks),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
