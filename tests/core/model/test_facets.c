/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Facets against the continuous surface they stand for. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/tol.h"
#include "model/facet_tree.h"
#include "model/facets.h"
#include "model/neck.h"
#include "model/section.h"
#include "support/near.h"
#include "support/sample_job.h"
#include "support/seed.h"

#define SAMPLES 4000
/* What tables and trees lose to arithmetic, mm. */
#define NOISE_MM 1e-6

/* Uneven sides, a volute, a station between: nothing is flat or alike. */
static struct neck_spec uneven(void)
{
	struct neck_spec spec = sample_short_job().neck;

	spec.station[0].bass = (struct section_spec){ SECTION_U, 3.0, 0, 0, { 0 } };
	spec.station[0].treble = (struct section_spec){ .family = SECTION_V };
	spec.station[1].bass = (struct section_spec){ SECTION_D, 2.5, 0.3, 0, { 0 } };
	spec.peghead.volute_height_mm = 1.5;
	spec.peghead.volute_length_mm = 10;
	return spec;
}

static struct vec3 any_surface_point(const struct neck *neck, const gsl_rng *rng, double x)
{
	enum neck_side side = seed_whole(rng, 0, 1) ? SIDE_PLUS : SIDE_MINUS;
	double v = seed_between(rng, 0.0, 1.0);

	/* more of them near the crest, where most of the breadth is */
	return sample_surface_point(neck, side, x, seed_whole(rng, 0, 1) ? v : 1.0 - v * v * v);
}

static void assert_covers(const struct sample_model *model, const struct facets *facets,
			  double limit_mm, const gsl_rng *rng)
{
	double from = neck_from_mm(model->neck), to = neck_to_mm(model->neck);
	double proper = neck_heel_proper_mm(model->neck);
	struct facet_tree tree;

	assert_between(facets->deviation_mm, 1e-9, limit_mm, "stated deviation, mm");
	assert_int_equal(facet_tree_build(&tree, facets, NULL), FAULT_NONE);
	for (int i = 0; i < SAMPLES; i++) {
		/* every third one where the cap opens, the sharpest place of all */
		double x = i % 3 ? seed_between(rng, from, to)
				 : seed_between(rng, proper - 0.5, proper + 0.5);
		struct nearest nearest;
		assert_true(facet_tree_nearest(&tree, any_surface_point(model->neck, rng, x),
					       &nearest));
		assert_between(nearest.distance_mm, 0.0, facets->deviation_mm + NOISE_MM,
			       "surface off the facets, mm");
		assert_near(nearest.bound_mm, facets->deviation_mm, 0.0, "bound, mm");
	}
	facet_tree_free(&tree);
}

static void surface_lies_within_the_stated_deviation(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("surface_lies_within_the_stated_deviation");
	static const double limits_mm[] = { TOL_FACET_MM, 0.01, 0.05 };
	struct neck_spec specs[2] = { sample_short_job().neck, uneven() };

	for (size_t s = 0; s < 2; s++) {
		struct sample_model model;
		size_t before = SIZE_MAX;
		sample_model_make(&model, &specs[s]);
		for (size_t i = 0; i < 3; i++) {
			struct facets facets;
			assert_int_equal(facets_build(&facets, model.neck, limits_mm[i], NULL),
					 FAULT_NONE);
			assert_covers(&model, &facets, limits_mm[i], rng);
			assert_true(facets.count < before);
			before = facets.count;
			facets_free(&facets);
		}
		sample_model_free(&model);
	}
	gsl_rng_free(rng);
}

/* On its waterline, or under its place: at the crest a breadth is steep over
 * the height, at the gluing face the height over the breadth. */
static void corners_lie_on_the_surface(void **state)
{
	(void)state;
	struct neck_spec spec = uneven();
	struct sample_model model;

	sample_model_make(&model, &spec);
	for (size_t i = 0; i < model.facets.count; i++)
		for (int c = 0; c < 3; c++) {
			struct vec3 p = model.facets.item[i].p[c];
			double base = neck_base_mm(model.neck, p.x);
			double v = (p.z - base) / (neck_crest_mm(model.neck, p.x) - base);
			enum neck_side side = p.y < 0.0 ? SIDE_MINUS : SIDE_PLUS;
			double across = neck_half_breadth_mm(model.neck, side, p.x, v) - fabs(p.y);
			double up = neck_height_mm(model.neck, p.x, p.y) - p.z;
			assert_between(v, -1e-12, 1.0 + 1e-12, "height fraction");
			assert_between(fmin(fabs(across), fabs(up)), 0.0, NOISE_MM,
				       "corner off the surface, mm");
		}
	sample_model_free(&model);
}

static double plan_area_mm2(const struct facet *facet)
{
	struct vec3 a = vec3_sub(facet->p[1], facet->p[0]), b = vec3_sub(facet->p[2], facet->p[0]);

	return 0.5 * fabs(a.x * b.y - a.y * b.x);
}

/* Seen from above, the facets cover the neck once: no gap, no overlap. */
static void plan_area_is_the_necks(void **state)
{
	(void)state;
	struct neck_spec spec = uneven();
	struct sample_model model;
	double facets_mm2 = 0.0, neck_mm2 = 0.0;

	sample_model_make(&model, &spec);
	double from = neck_from_mm(model.neck), to = neck_to_mm(model.neck);
	for (size_t i = 0; i < model.facets.count; i++)
		facets_mm2 += plan_area_mm2(&model.facets.item[i]);
	const int steps = 20000;
	for (int i = 0; i < steps; i++) {
		double x = from + (to - from) * (i + 0.5) / steps;
		neck_mm2 += (neck_half_breadth_mm(model.neck, SIDE_PLUS, x, 0.0) +
			     neck_half_breadth_mm(model.neck, SIDE_MINUS, x, 0.0)) *
			    (to - from) / steps;
	}
	/* two edges, each off by at most the deviation all the way */
	assert_near(facets_mm2, neck_mm2, 2.0 * TOL_FACET_MM * (to - from), "plan area, mm2");
	sample_model_free(&model);
}

static void rows_and_count(void **state)
{
	(void)state;
	struct neck_spec spec = sample_short_job().neck;
	struct sample_model model;
	size_t levels;

	sample_model_make(&model, &spec);
	const struct facets *facets = &model.facets;
	(void)neck_levels(model.neck, &levels);
	assert_near(facets->row_x_mm[0], neck_from_mm(model.neck), 0.0, "first row, mm");
	assert_near(facets->row_x_mm[facets->row_count - 1], neck_to_mm(model.neck), 1e-9,
		    "last row, mm");
	for (size_t i = 1; i < facets->row_count; i++)
		assert_true(facets->row_x_mm[i] > facets->row_x_mm[i - 1]);
	/* two to a cell; a round section takes more than ten of them a side */
	size_t strips = facets->row_count - 1;
	assert_true(facets->count <= 2 * strips * (2 * levels - 1));
	assert_true(facets->count >= 2 * strips * 20);
	sample_model_free(&model);
}

/* Each facet carries the zone of its place and that zone's stock. */
static void zones_and_allowances(void **state)
{
	(void)state;
	struct neck_spec spec = sample_short_job().neck;
	struct sample_model model;
	size_t seen[ZONE_COUNT] = { 0 };

	sample_model_make(&model, &spec);
	for (size_t i = 0; i < model.facets.count; i++) {
		const struct facet *facet = &model.facets.item[i];
		double x = (facet->p[0].x + facet->p[1].x + facet->p[2].x) / 3.0;
		seen[facet->zone]++;
		assert_near(facet->allowance_mm, neck_allowance_mm(model.neck, facet->zone), 0.0,
			    "allowance, mm");
		assert_true((x < 0.0) <= (facet->zone == ZONE_TRANSITIONS));
		assert_true((x > neck_heel_proper_mm(model.neck)) ==
			    (facet->zone == ZONE_HEEL_CHEEKS));
	}
	for (int zone = 0; zone < ZONE_COUNT; zone++)
		assert_true(seen[zone] > 100);
	sample_model_free(&model);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(surface_lies_within_the_stated_deviation),
		cmocka_unit_test(corners_lie_on_the_surface),
		cmocka_unit_test(plan_area_is_the_necks),
		cmocka_unit_test(rows_and_count),
		cmocka_unit_test(zones_and_allowances),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
