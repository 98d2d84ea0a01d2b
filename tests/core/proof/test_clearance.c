/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The certificate's bound against dense samples of the way and of the
 * surface, on a real neck. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "proof/clearance.h"
#include "support/near.h"
#include "support/sample_job.h"
#include "support/seed.h"

#define RADIUS 4.0
#define GRAIN 0.001
#define SAMPLES 1500

struct scene {
	struct sample_model model;
	gsl_rng *rng;
};

static void make_scene(struct scene *scene, const char *test)
{
	struct job job = sample_short_job();

	scene->rng = seed_rng(test);
	sample_model_make(&scene->model, &job.neck);
}

static void free_scene(struct scene *scene)
{
	sample_model_free(&scene->model);
	gsl_rng_free(scene->rng);
}

/* A tip whose ball is about `room` clear of the surface and its stock. */
static struct vec3 tip_near(const struct scene *scene, double x, double y, double room)
{
	double low = -30.0, high = 60.0;

	while (high - low > 1e-7) {
		double z = (low + high) / 2.0;
		double kept = facet_tree_clearance_mm(&scene->model.tree,
						      vec3_make(x, y, z + RADIUS), 100.0) -
			      RADIUS;
		/* inside the neck distances grow again: keep above its top */
		if (z + RADIUS < neck_height_mm(scene->model.neck, x, y) || kept < room)
			low = z;
		else
			high = z;
	}
	return vec3_make(x, y, high);
}

struct move {
	struct vec3 from, to;
};

/* A short move with both ends within 0.05 mm of touching. Beside the neck a
 * ball falls past it; such places are drawn again. */
static struct move any_move(const struct scene *scene)
{
	struct move move;

	do {
		double x = seed_between(scene->rng, -24, 84), y = seed_between(scene->rng, -15, 15);
		double turn = seed_between(scene->rng, 0, 6.28);
		double length = seed_whole(scene->rng, 0, 9) ? seed_between(scene->rng, 0, 2.5)
							     : 0.0;
		move.from = tip_near(scene, x, y, seed_between(scene->rng, -0.005, 0.04));
		move.to = tip_near(scene, x + length * cos(turn), y + length * sin(turn),
				   seed_between(scene->rng, -0.005, 0.04));
	} while (move.from.z < -20.0 || move.to.z < -20.0);
	return move;
}

static bool keep_least(void *context, const struct facet *facet, struct vec3 nearest,
		       double distance_mm)
{
	double *least = context;

	(void)nearest;
	*least = fmin(*least, distance_mm - facet->allowance_mm - facet->deviation_mm - RADIUS);
	return true;
}

/* Least clearance at many places of the way, each facet's deviation charged. */
static double sampled(const struct scene *scene, const struct move *move)
{
	double least = INFINITY;

	for (int i = 0; i <= SAMPLES; i++) {
		struct vec3 c = vec3_between(move->from, move->to, (double)i / SAMPLES);
		c.z += RADIUS;
		(void)facet_tree_visit(&scene->model.tree, c, RADIUS + 0.06, keep_least, &least);
	}
	return least;
}

static struct clearance judged(const struct scene *scene, const struct move *move, double limit,
			       double so_far)
{
	return clearance_of_move(&scene->model.tree, scene->model.neck, move->from, move->to,
				 RADIUS, limit, so_far, GRAIN);
}

/* Never above what samples find, and within 0.002 mm of it. */
static void bound_is_safe_and_close(void **state)
{
	(void)state;
	struct scene scene;
	int close = 0;

	make_scene(&scene, "bound_is_safe_and_close");
	for (int i = 0; i < 120; i++) {
		struct move move = any_move(&scene);
		struct clearance c = judged(&scene, &move, -1.0, INFINITY);
		double least = sampled(&scene, &move);
		if (c.inside)
			continue;
		assert_true(c.bound_mm <= least + 1e-9);
		assert_true(c.bound_mm <= c.sample_mm + 1e-9);
		if (least > CLEARANCE_AMPLE_MM)
			continue;
		assert_true(c.bound_mm >= least - 0.002);
		close++;
	}
	assert_true(close > 60);
	free_scene(&scene);
}

/* The continuous surface is nowhere nearer than the bound says: points of it
 * against balls along the way, without a facet between. */
static void surface_keeps_the_bound(void **state)
{
	(void)state;
	struct scene scene;

	make_scene(&scene, "surface_keeps_the_bound");
	const struct neck *neck = scene.model.neck;
	for (int i = 0; i < 60; i++) {
		struct move move = any_move(&scene);
		struct clearance c = judged(&scene, &move, -1.0, INFINITY);
		struct vec3 middle = vec3_between(move.from, move.to, 0.5);
		for (int k = 0; k < 1500 && !c.inside; k++) {
			double x = fmin(fmax(middle.x + seed_between(scene.rng, -6, 6),
					     neck_from_mm(neck)),
					neck_to_mm(neck));
			double v = seed_between(scene.rng, 0, 1);
			enum neck_side side = middle.y < 0.0 ? SIDE_MINUS : SIDE_PLUS;
			struct vec3 p = sample_surface_point(neck, side, x, 1 - v * v * v);
			double a = neck_allowance_mm(neck, neck_zone(neck, x, 1 - v * v * v));
			/* the border of the sides runs somewhere in its strip */
			if (fabs(p.z - 3.0) < 0.5)
				continue;
			for (int t = 0; t <= 4; t++) {
				struct vec3 q = vec3_between(move.from, move.to, t / 4.0);
				q.z += RADIUS;
				assert_true(vec3_distance(p, q) - RADIUS - a >= c.bound_mm - 1e-9);
			}
		}
	}
	free_scene(&scene);
}

static void far_away_is_ample(void **state)
{
	(void)state;
	struct scene scene;

	make_scene(&scene, "far_away_is_ample");
	const struct move high = { { -20, -15, 60 }, { 80, 15, 60 } };
	struct clearance c = judged(&scene, &high, -0.01, INFINITY);
	assert_near(c.bound_mm, CLEARANCE_AMPLE_MM, 0.0, "bound, mm");
	assert_false(c.inside);
	free_scene(&scene);
}

/* In the wood, or straight through it from side to side below the surface. */
static void inside_is_seen(void **state)
{
	(void)state;
	struct scene scene;

	make_scene(&scene, "inside_is_seen");
	static const struct move moves[] = {
		{ { 30, 0, 1 }, { 30, 0, 1 } },
		{ { 30, 0, 40 }, { 30, 0, 1 } },
		{ { 80, 0, 13 }, { 81, 0, 13 } },
		{ { 30, -40, 1 }, { 30, 40, 1 } },
	};
	for (size_t i = 0; i < sizeof moves / sizeof *moves; i++) {
		struct clearance c = judged(&scene, &moves[i], -0.01, INFINITY);
		assert_true(c.inside || c.sample_mm < -0.01);
	}
	/* deep under the heel's cap no surface is near: only being inside tells */
	assert_true(judged(&scene, &moves[2], -0.01, INFINITY).inside);
	free_scene(&scene);
}

/* A move that lowers into the stock somewhere in its middle is caught, however
 * far its ends keep off. */
static void a_dip_between_good_ends(void **state)
{
	(void)state;
	struct scene scene;

	make_scene(&scene, "a_dip_between_good_ends");
	/* across the neck from edge to edge, both ends clear */
	for (double x = 5.0; x < 55.0; x += 5.0) {
		struct vec3 crest = tip_near(&scene, x, 0.0, 0.0);
		const struct move over = { { x, -25, crest.z }, { x, 25, crest.z } };
		const struct move cut = { { x, -25, crest.z - 0.02 }, { x, 25, crest.z - 0.02 } };
		struct clearance good = judged(&scene, &over, -0.01, INFINITY);
		struct clearance bad = judged(&scene, &cut, -0.01, INFINITY);
		assert_true(good.sample_mm >= -0.01 && good.bound_mm >= -0.011);
		assert_between(bad.sample_mm, -0.03, -0.01, "met, mm");
	}
	free_scene(&scene);
}

/* A worse figure met before spares the search, and never makes a bound say
 * more than it may. */
static void earlier_figures_only_save_work(void **state)
{
	(void)state;
	struct scene scene;

	make_scene(&scene, "earlier_figures_only_save_work");
	for (int i = 0; i < 60; i++) {
		struct move move = any_move(&scene);
		struct clearance alone = judged(&scene, &move, -1.0, INFINITY);
		struct clearance after = judged(&scene, &move, -1.0, -0.006);
		if (alone.inside)
			continue;
		assert_true(after.bound_mm <= sampled(&scene, &move) + 1e-9);
		assert_true(after.bound_mm >= fmin(alone.bound_mm, -0.006 - GRAIN) - 1e-9);
	}
	free_scene(&scene);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(bound_is_safe_and_close),
		cmocka_unit_test(surface_keeps_the_bound),
		cmocka_unit_test(far_away_is_ample),
		cmocka_unit_test(inside_is_seen),
		cmocka_unit_test(a_dip_between_good_ends),
		cmocka_unit_test(earlier_figures_only_save_work),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
