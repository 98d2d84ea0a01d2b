/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tree of boxes against looking at every triangle. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "model/facet_tree.h"
#include "support/near.h"
#include "support/seed.h"

#define FACETS 400
#define QUERIES 600

static struct vec3 any_point(const gsl_rng *rng, double size)
{
	double x = seed_between(rng, -size, size), y = seed_between(rng, -size, size);

	return vec3_make(x, y, seed_between(rng, -size, size));
}

static void any_facets(struct facet *item, size_t count, const gsl_rng *rng)
{
	for (size_t i = 0; i < count; i++) {
		struct vec3 at = any_point(rng, 20.0);
		item[i] = (struct facet){ .allowance_mm = seed_between(rng, 0.0, 2.0) };
		for (int c = 0; c < 3; c++)
			item[i].p[c] = vec3_add(at, any_point(rng, 3.0));
	}
}

static double segment_distance(struct vec3 a, struct vec3 b, struct vec3 p)
{
	struct vec3 ab = vec3_sub(b, a);
	double t = vec3_dot(vec3_sub(p, a), ab) / vec3_dot(ab, ab);

	return vec3_distance(p, vec3_between(a, b, fmin(fmax(t, 0.0), 1.0)));
}

/* Another way than the tree's: the foot on the plane when it falls inside all
 * three edges, else the nearest edge. */
static double triangle_distance(const struct facet *facet, struct vec3 p)
{
	const struct vec3 *c = facet->p;
	struct vec3 normal = vec3_cross(vec3_sub(c[1], c[0]), vec3_sub(c[2], c[0]));
	bool inside = true;
	double least = INFINITY;

	for (int i = 0; i < 3; i++) {
		struct vec3 a = c[i], b = c[(i + 1) % 3];
		struct vec3 in = vec3_cross(normal, vec3_sub(b, a));
		inside = inside && vec3_dot(in, vec3_sub(p, a)) >= 0.0;
		least = fmin(least, segment_distance(a, b, p));
	}
	if (inside)
		return fabs(vec3_dot(vec3_sub(p, c[0]), normal)) / vec3_length(normal);
	return least;
}

static void nearest_point_of_a_triangle(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("nearest_point_of_a_triangle");

	for (int i = 0; i < 20000; i++) {
		struct facet facet;
		any_facets(&facet, 1, rng);
		struct vec3 p = vec3_add(facet.p[0], any_point(rng, 6.0));
		struct vec3 near = facet_nearest_point(&facet, p);
		assert_near(vec3_distance(near, p), triangle_distance(&facet, p), 1e-9,
			    "distance, mm");
		/* and it is a point of the triangle */
		assert_near(triangle_distance(&facet, near), 0.0, 1e-6, "off the triangle, mm");
	}
	gsl_rng_free(rng);
}

struct scene {
	struct facet item[FACETS];
	struct facets facets;
	struct facet_tree tree;
	gsl_rng *rng;
};

static void make_scene(struct scene *scene, const char *test, size_t count)
{
	scene->rng = seed_rng(test);
	any_facets(scene->item, count, scene->rng);
	scene->facets =
		(struct facets){ .count = count, .item = scene->item, .deviation_mm = 0.125 };
	assert_int_equal(facet_tree_build(&scene->tree, &scene->facets, NULL), FAULT_NONE);
}

static void free_scene(struct scene *scene)
{
	facet_tree_free(&scene->tree);
	gsl_rng_free(scene->rng);
}

static void nearest_of_all(void **state)
{
	(void)state;
	struct scene scene;

	make_scene(&scene, "nearest_of_all", FACETS);
	for (int q = 0; q < QUERIES; q++) {
		struct vec3 p = any_point(scene.rng, 30.0);
		struct nearest nearest;
		double least = INFINITY;
		for (size_t i = 0; i < FACETS; i++)
			least = fmin(least, triangle_distance(&scene.item[i], p));
		assert_true(facet_tree_nearest(&scene.tree, p, &nearest));
		assert_near(nearest.distance_mm, least, 1e-9, "distance, mm");
		assert_near(vec3_distance(nearest.point, p), nearest.distance_mm, 1e-12, "mm");
		assert_near(triangle_distance(&scene.item[nearest.facet], p), least, 1e-9,
			    "distance of the facet named, mm");
		assert_near(nearest.bound_mm, 0.125, 0.0, "bound, mm");
	}
	free_scene(&scene);
}

static void clearance_of_all(void **state)
{
	(void)state;
	struct scene scene;

	make_scene(&scene, "clearance_of_all", FACETS);
	for (int q = 0; q < QUERIES; q++) {
		struct vec3 p = any_point(scene.rng, 30.0);
		double limit = seed_between(scene.rng, -2.0, 12.0), least = limit;
		for (size_t i = 0; i < FACETS; i++)
			least = fmin(least, triangle_distance(&scene.item[i], p) -
						    scene.item[i].allowance_mm);
		assert_near(facet_tree_clearance_mm(&scene.tree, p, limit), least, 1e-9,
			    "clearance, mm");
	}
	free_scene(&scene);
}

struct visits {
	const struct scene *scene;
	struct vec3 point;
	unsigned times[FACETS];
	size_t total, stop_at;
};

static bool note(void *context, const struct facet *facet, struct vec3 nearest, double distance_mm)
{
	struct visits *visits = context;

	visits->times[facet - visits->scene->item]++;
	assert_near(distance_mm, triangle_distance(facet, visits->point), 1e-9, "distance, mm");
	assert_near(vec3_distance(nearest, visits->point), distance_mm, 1e-12, "distance, mm");
	return ++visits->total != visits->stop_at;
}

/* Every facet within the limit is visited once, no other at all. */
static void visits_are_exact(void **state)
{
	(void)state;
	struct scene scene;
	size_t total = 0;

	make_scene(&scene, "visits_are_exact", FACETS);
	for (int q = 0; q < QUERIES; q++) {
		struct visits visits = { .scene = &scene, .point = any_point(scene.rng, 25.0) };
		double limit = seed_between(scene.rng, 0.0, 12.0);
		assert_true(facet_tree_visit(&scene.tree, visits.point, limit, note, &visits));
		for (size_t i = 0; i < FACETS; i++) {
			double value = triangle_distance(&scene.item[i], visits.point) -
				       scene.item[i].allowance_mm;
			if (fabs(value - limit) > 1e-9)
				assert_int_equal(visits.times[i], value < limit ? 1 : 0);
		}
		total += visits.total;
	}
	assert_true(total > QUERIES);
	free_scene(&scene);
}

static void visit_can_be_ended(void **state)
{
	(void)state;
	struct scene scene;

	make_scene(&scene, "visit_can_be_ended", FACETS);
	struct visits visits = { .scene = &scene, .stop_at = 5 };
	assert_false(facet_tree_visit(&scene.tree, visits.point, 100.0, note, &visits));
	assert_int_equal(visits.total, 5);
	free_scene(&scene);
}

static void no_facets_and_few(void **state)
{
	(void)state;
	struct scene scene;
	struct nearest nearest;

	make_scene(&scene, "no_facets_and_few", 0);
	assert_false(facet_tree_nearest(&scene.tree, vec3_make(0, 0, 0), &nearest));
	assert_near(facet_tree_clearance_mm(&scene.tree, vec3_make(0, 0, 0), 3.0), 3.0, 0.0, "mm");
	free_scene(&scene);
	for (size_t count = 1; count <= 12; count++) {
		make_scene(&scene, "no_facets_and_few", count);
		struct vec3 p = any_point(scene.rng, 30.0);
		double least = INFINITY;
		for (size_t i = 0; i < count; i++)
			least = fmin(least, triangle_distance(&scene.item[i], p));
		assert_true(facet_tree_nearest(&scene.tree, p, &nearest));
		assert_near(nearest.distance_mm, least, 1e-9, "distance, mm");
		free_scene(&scene);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(nearest_point_of_a_triangle),
		cmocka_unit_test(nearest_of_all),
		cmocka_unit_test(clearance_of_all),
		cmocka_unit_test(visits_are_exact),
		cmocka_unit_test(visit_can_be_ended),
		cmocka_unit_test(no_facets_and_few),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
