/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines over the surface go wherever they are needed: over a steep nose, whose
 * wood stands between the places that are looked at, and through valleys that
 * contour lines pass by. */
#include "path/raster.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "path/contour.h"
#include "path/scallop.h"
#include "support/near.h"
#include "support/sample_bed.h"

/* Columns on the nose so near to the centre line are for raster lines, mm. */
#define NOSE_HALF_MM 5.0
/* Between lines through the valleys, along the surface, mm. */
#define SPACING_MM 1.2

/* Most wood over the hand-finish stock anywhere on the nose, along the surface's
 * normal, mm; from y0 to y1. */
static double most_on_nose_between(const struct sample_bed *bed, double y0, double y1)
{
	const struct stock *stock = &bed->bench.stock;
	const double *end = bed->bench.stretches.end_mm;
	size_t last = stock_ix(stock, end[STRETCH_NOSE]);
	double most = 0.0;

	for (size_t iy = stock_iy(stock, y0); stock_y(stock, iy) <= y1; iy++)
		for (size_t ix = stock_ix(stock, end[STRETCH_SHAFT]); ix <= last; ix++) {
			struct vec3 top = { stock_x(stock, ix), stock_y(stock, iy),
					    (double)stock->top[iy * stock->nx + ix] };
			double over = facet_tree_clearance_mm(&bed->model.tree, top, 50.0);
			most = fmax(most, over);
		}
	return most;
}

static double most_on_nose(const struct sample_bed *bed)
{
	return most_on_nose_between(bed, -NOSE_HALF_MM, NOSE_HALF_MM);
}

/* The short job with a steep nose, its lattice moved along by a phase, when the ball
 * has stood at all places of the lattice along the neck, side by side. */
static void steep_nose_bed(struct sample_bed *bed, double phase_mm)
{
	struct job job = sample_short_job();

	job.neck.heel.nose_angle_rad = units_rad_from_deg(78.0);
	job.carve.cell_mm = 0.5;
	job.carve.from_mm += phase_mm;
	sample_bed_make(bed, &job);
	for (size_t ix = 0; ix < bed->bench.profile.nx; ix++)
		for (double y = -bed->bench.y_limit_mm; y <= bed->bench.y_limit_mm; y += 0.1)
			sample_bed_cut_at(bed, profile_x(&bed->bench.profile, ix), y);
}

/* A ball that stands on the nose wherever the lattice has a place leaves ridges
 * between, which it meets nowhere on the lattice itself: places 1 mm apart are
 * 5 mm apart along a slope of 78 degrees. Lines must go there all the same, at
 * whatever phase lattice and columns lie. */
static void wood_between_the_places_of_a_steep_nose_is_taken(void **state)
{
	(void)state;
	static const double phase_mm[] = { 0.0, 0.3, 0.6 };

	for (size_t i = 0; i < sizeof phase_mm / sizeof *phase_mm; i++) {
		struct sample_bed bed;
		struct runs runs = { 0 };
		steep_nose_bed(&bed, phase_mm[i]);
		double scallop = bed.job.carve.scallop_limit_mm;
		double spacing = scallop_spacing_mm(bed.bench.radius_mm, 0.85 * scallop);
		double before = most_on_nose(&bed);
		assert_int_equal(raster_surface(&runs, &bed.bench, CUT_LENGTHWISE, spacing, NULL),
				 FAULT_NONE);
		sample_bed_cut(&bed, &runs);
		/* there was work to do, and it is done */
		assert_between(before, 3.0 * scallop, 1.0, "ridges, mm");
		assert_between(most_on_nose(&bed), 0.0, scallop + 0.05, "left over the stock, mm");
		runs_free(&runs);
		sample_bed_free(&bed);
	}
}

/* A slope down outward, with something higher farther out: no contour line that
 * comes from outside gets there. */
static bool is_valley(const struct profile *profile, size_t ix, double y)
{
	double sign = y < 0.0 ? -1.0 : 1.0, tip = profile_bare_mm(profile, ix, y);

	if (profile_bare_mm(profile, ix, y + sign * profile->dy_mm) > tip)
		return false;
	for (double out = fabs(y); out < -profile->y0_mm; out += profile->dy_mm)
		if (profile_bare_mm(profile, ix, sign * out) > tip + 0.1)
			return true;
	return false;
}

/* Takes what the ball takes from everywhere about the valleys but not from within
 * them, where it is steep across; or with `within` from there too. */
static void cut_about_valleys(struct sample_bed *bed, bool within)
{
	const struct profile *profile = &bed->bench.profile;

	for (double x = 55.0; x <= 66.0; x += 0.25)
		for (double y = -16.0; y <= 16.0; y += 0.1) {
			size_t ix = profile_ix(profile, x);
			if (within || !is_valley(profile, ix, y) ||
			    profile_slope(profile, ix, y) < CONTOUR_SLOPE)
				sample_bed_cut_at(bed, x, y);
		}
}

/* How much wood stands over what the ball could leave at most, straight up, mm. */
static double most_over(const struct stock *stock, const struct stock *least)
{
	double most = 0.0;

	for (size_t i = 0; i < stock->nx * stock->ny; i++)
		most = fmax(most, (double)stock->top[i] - (double)least->top[i]);
	return most;
}

/* None nearer than half the spacing, which there is room for. */
static void assert_apart(const struct runs *runs)
{
	for (size_t i = 0; i < runs->count; i++)
		for (size_t k = 0; k < i; k++) {
			double apart = fabs(runs->run[i].p[0].y - runs->run[k].p[0].y);
			if (apart > 0.0)
				assert_between(apart, SPACING_MM / 2.0 - 0.001, INFINITY,
					       "between lines, mm");
		}
}

/* What lines over a slope of 80 degrees may leave, straight up: their scallop
 * along its normal, times the slope's length for each mm of plan. */
static double valley_scallop_mm(const struct sample_bed *bed)
{
	return scallop_height_mm(bed->bench.radius_mm, SPACING_MM) *
	       hypot(1.0, tan(bed->job.neck.heel.nose_angle_rad));
}

static void valleys_between_terraces_are_taken(void **state)
{
	(void)state;
	struct job job = sample_terrace_job();
	struct sample_bed bed, all;
	struct runs runs = { 0 };

	sample_bed_make(&bed, &job);
	sample_bed_make(&all, &job);
	cut_about_valleys(&bed, false);
	cut_about_valleys(&all, true);
	assert_between(most_over(&bed.bench.stock, &all.bench.stock), 0.8, 2.0, "before, mm");
	assert_int_equal(raster_surface(&runs, &bed.bench, CUT_LENGTHWISE, SPACING_MM, NULL),
			 FAULT_NONE);
	sample_bed_cut(&bed, &runs);
	assert_between(most_over(&bed.bench.stock, &all.bench.stock), 0.0, valley_scallop_mm(&bed),
		       "left, mm");
	assert_true(runs.count > 0);
	assert_apart(&runs);
	runs_free(&runs);
	sample_bed_free(&all);
	sample_bed_free(&bed);
}

/* Likewise the contour lines around the nose's corners, which go across more than
 * along. */
static void wood_between_the_places_of_a_corner_is_taken(void **state)
{
	(void)state;
	static const double phase_mm[] = { 0.0, 0.3, 0.6 };

	for (size_t i = 0; i < sizeof phase_mm / sizeof *phase_mm; i++) {
		struct sample_bed bed;
		struct runs runs = { 0 };
		steep_nose_bed(&bed, phase_mm[i]);
		double before = most_on_nose_between(&bed, 5.0, 6.9);
		for (double z = 30.0; z > 2.0; z -= 0.5) {
			double steepness;
			assert_int_equal(contour_level(&runs, &bed.bench, z, false, &steepness,
						       NULL),
					 FAULT_NONE);
		}
		sample_bed_cut(&bed, &runs);
		assert_between(before, 0.3, 1.0, "ridges, mm");
		assert_between(most_on_nose_between(&bed, 5.0, 6.9), 0.0,
			       2.0 * bed.job.carve.scallop_limit_mm, "left over the stock, mm");
		runs_free(&runs);
		sample_bed_free(&bed);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(wood_between_the_places_of_a_steep_nose_is_taken),
		cmocka_unit_test(wood_between_the_places_of_a_corner_is_taken),
		cmocka_unit_test(valleys_between_terraces_are_taken),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
