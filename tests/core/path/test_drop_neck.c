/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drop on a real neck against trying every facet, and what fixture, shank
 * and holder add to it. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/tol.h"
#include "path/drop.h"
#include "path/obstacle.h"
#include "support/near.h"
#include "support/sample_job.h"
#include "support/seed.h"

#define PLACES 150

struct scene {
	struct job job;
	struct sample_model model;
	struct drop *drop;
	gsl_rng *rng;
};

static void make_scene(struct scene *scene, const char *test, struct job job)
{
	scene->job = job;
	scene->rng = seed_rng(test);
	sample_model_make(&scene->model, &job.neck);
	assert_int_equal(drop_build(&scene->drop, &scene->model.facets, scene->model.neck,
				    &scene->job, &scene->job.cutter[0], TOL_PLAN_MARGIN_MM, NULL),
			 FAULT_NONE);
}

static void free_scene(struct scene *scene)
{
	drop_free(scene->drop);
	sample_model_free(&scene->model);
	gsl_rng_free(scene->rng);
}

/* No riser, no clamp, nothing above the ball that could touch. */
static struct job bare_job(void)
{
	struct job job = sample_short_job();

	job.fixture.riser_height_mm = 0;
	job.fixture.bed_clearance_mm = -100;
	job.fixture.keep_out_count = 0;
	job.cutter[0].stickout_mm = 300;
	return job;
}

static double tried_on_all(const struct scene *scene, double x, double y)
{
	double radius = cutter_radius_mm(&scene->job.cutter[0]), best = drop_floor_mm(scene->drop);

	for (size_t i = 0; i < scene->model.facets.count; i++) {
		const struct facet *facet = &scene->model.facets.item[i];
		double grown = radius + facet->allowance_mm + TOL_PLAN_MARGIN_MM;
		best = fmax(best, drop_on_facet_mm(facet, radius, grown, x, y));
	}
	return best;
}

static void lowest_tip_is_the_highest_of_all_facets(void **state)
{
	(void)state;
	struct scene scene;
	size_t hint = 0;

	make_scene(&scene, "lowest_tip_is_the_highest_of_all_facets", bare_job());
	for (int i = 0; i < PLACES; i++) {
		double x = seed_between(scene.rng, -35.0, 95.0);
		double y = seed_between(scene.rng, -24.0, 24.0);
		double tip = tried_on_all(&scene, x, y);
		size_t fresh = 0, wild = seed_whole(scene.rng, 0, 1000000);
		assert_near(drop_tip_mm(scene.drop, x, y, &hint), tip, 1e-9, "tip, mm");
		/* a hint helps the search and changes nothing */
		assert_near(drop_tip_mm(scene.drop, x, y, &fresh), tip, 1e-9, "tip, mm");
		assert_near(drop_ball_mm(scene.drop, x, y, &wild), tip, 1e-9, "tip, mm");
	}
	free_scene(&scene);
}

/* The ball at its lowest keeps radius, allowance and margin from the surface:
 * the facet tree's distances know nothing of drops. */
static void ball_at_its_lowest_touches(void **state)
{
	(void)state;
	struct scene scene;
	size_t hint = 0, touching = 0;

	make_scene(&scene, "ball_at_its_lowest_touches", bare_job());
	double radius = cutter_radius_mm(&scene.job.cutter[0]);
	for (int i = 0; i < 4000; i++) {
		double x = seed_between(scene.rng, -30.0, 90.0);
		double y = seed_between(scene.rng, -22.0, 22.0);
		double tip = drop_tip_mm(scene.drop, x, y, &hint);
		double kept = facet_tree_clearance_mm(&scene.model.tree,
						      vec3_make(x, y, tip + radius), 100.0) -
			      radius;
		assert_true(kept >= TOL_PLAN_MARGIN_MM - 1e-9);
		if (tip <= drop_floor_mm(scene.drop) + 1e-9)
			continue;
		assert_near(kept, TOL_PLAN_MARGIN_MM, 1e-9, "room beyond the stock, mm");
		touching++;
	}
	assert_true(touching > 2000);
	free_scene(&scene);
}

/* The floor: where the ball's widest part has passed the gluing face, or where
 * the bed allows no lower. */
static void floor_of_the_job(void **state)
{
	(void)state;
	struct scene scene;

	make_scene(&scene, "floor_of_the_job", sample_short_job());
	assert_near(drop_floor_mm(scene.drop), -4.0 - 0.6 - 0.2, 1e-12, "past the edge, mm");
	free_scene(&scene);
	struct job job = sample_short_job();
	job.fixture.riser_height_mm = 5;
	make_scene(&scene, "floor_of_the_job", job);
	assert_near(drop_floor_mm(scene.drop), -5.0 + 1.0, 1e-12, "above the bed, mm");
	size_t hint = 0;
	assert_near(drop_ball_mm(scene.drop, 40.0, 40.0, &hint), -4.0, 1e-12, "far aside, mm");
	free_scene(&scene);
}

/* Everything that can hold the tool up, and nothing else. */
static void fixture_and_tool_count_too(void **state)
{
	(void)state;
	struct scene scene;
	struct job job = sample_short_job();
	size_t hint = 0;
	bool ball_held = false, tool_held = false;

	job.cutter[0].stickout_mm = 34; /* the holder meets the heel's cap */
	make_scene(&scene, "fixture_and_tool_count_too", job);
	struct obstacles obstacles;
	obstacles_make(&obstacles, &scene.job, &scene.job.cutter[0], TOL_PLAN_MARGIN_MM);
	for (int i = 0; i < 3000; i++) {
		double x = seed_between(scene.rng, -45.0, 95.0);
		double y = seed_between(scene.rng, -40.0, 40.0);
		double box = obstacles_ball_mm(&obstacles, OBSTACLES_ALL, x, y, x, y);
		double ball = drop_ball_mm(scene.drop, x, y, &hint);
		double tool = drop_tip_mm(scene.drop, x, y, &hint);
		assert_true(ball >= box && tool >= ball);
		assert_true(tool >= obstacles_tool_mm(&obstacles, OBSTACLES_ALL, x, y, x, y));
		assert_near(drop_keep_out_mm(scene.drop, x, y, x, y),
			    fmax(box, obstacles_tool_mm(&obstacles, OBSTACLES_ALL, x, y, x, y)),
			    0.0, "mm");
		ball_held = ball_held || (ball == box && isfinite(box));
		tool_held = tool_held || tool > ball + 0.1;
	}
	assert_true(ball_held && tool_held);
	free_scene(&scene);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(lowest_tip_is_the_highest_of_all_facets),
		cmocka_unit_test(ball_at_its_lowest_touches),
		cmocka_unit_test(floor_of_the_job),
		cmocka_unit_test(fixture_and_tool_count_too),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
