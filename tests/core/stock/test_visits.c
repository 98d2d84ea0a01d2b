/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bites on a board 60 x 40 x 20 mm with a 6 mm ball: where a visit begins and
 * ends, and that it matters little how a way is divided. Lengths mm. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/tol.h"
#include "stock/visits.h"
#include "support/near.h"
#include "support/seed.h"

#define RADIUS_MM 3.0
#define TOP_MM 20.0
/* Tops are single-precision figures, mm. */
#define GRAIN_MM 1e-5

struct scene {
	struct stock stock;
	struct visits visits;
	struct swath swath;
	struct vec3 at; /* the tip */
	double worst_mm, volume_mm3; /* over all moves */
};

static void scene_make(struct scene *out)
{
	const struct blank board = { .top = { 2, { 0, 60 }, { TOP_MM, TOP_MM } },
				     .bottom = { 2, { 0, 60 }, { 0, 0 } },
				     .half_width = { 2, { 0, 60 }, { 20, 20 } } };

	*out = (struct scene){ .at = { -10, 0, 30 } };
	assert_int_equal(stock_build(&out->stock, &board, 0.2, NULL), FAULT_NONE);
	assert_int_equal(visits_build(&out->visits, &out->stock, RADIUS_MM, NULL), FAULT_NONE);
}

static void scene_free(struct scene *scene)
{
	visits_free(&scene->visits);
	stock_free(&scene->stock);
	swath_free(&scene->swath);
}

static struct taken cut_to(struct scene *scene, double x, double y, double z)
{
	struct vec3 from = scene->at, to = vec3_make(x, y, z);

	assert_int_equal(stock_sweep(&scene->stock, from, to, RADIUS_MM, &scene->swath, NULL),
			 FAULT_NONE);
	struct taken taken = visits_note(&scene->visits, &scene->stock, &scene->swath, from, to);
	scene->at = to;
	scene->worst_mm = fmax(scene->worst_mm, taken.bite_mm);
	scene->volume_mm3 += taken.volume_mm3;
	return taken;
}

/* A rapid: the tip is elsewhere, and all visits are over. */
static void leave_for(struct scene *scene, double x, double y, double z)
{
	visits_leave(&scene->visits);
	scene->at = vec3_make(x, y, z);
}

/* Top from which a bite at (x, y) would count now. */
static double top_at(const struct scene *scene, double x, double y)
{
	size_t i = stock_iy(&scene->stock, y) * scene->stock.nx + stock_ix(&scene->stock, x);

	return (double)visits_top(&scene->visits, &scene->stock, i);
}

/* All along the board: as much as a segment of a circle has. */
static void slot_of_known_depth(void **state)
{
	(void)state;
	struct scene scene;
	double d = 2.0, r = RADIUS_MM;
	double section = r * r * acos((r - d) / r) - (r - d) * sqrt(2.0 * r * d - d * d);

	scene_make(&scene);
	leave_for(&scene, -10, 0, TOP_MM - d);
	struct taken taken = cut_to(&scene, 70, 0, TOP_MM - d);
	assert_near(taken.bite_mm, d, GRAIN_MM, "bite, mm");
	assert_near(taken.deepest_mm, d, GRAIN_MM, "deepest, mm");
	assert_near(taken.highest_mm, TOP_MM, GRAIN_MM, "wood in the way, mm");
	assert_near(taken.volume_mm3 / (section * 60.0), 1.0, 0.01, "volume, share of the slot's");
	/* the same way again finds nothing */
	leave_for(&scene, -10, 0, TOP_MM - d);
	taken = cut_to(&scene, 70, 0, TOP_MM - d);
	assert_near(taken.bite_mm, 0.0, 0.0, "second time, mm");
	assert_near(taken.volume_mm3, 0.0, 0.0, "second time, mm3");
	assert_true(taken.highest_mm < -1e300);
	scene_free(&scene);
}

/* One visit, three moves: each takes 1 mm, the bite is the sum. */
static void bites_of_one_visit_add_up(void **state)
{
	(void)state;
	struct scene scene;

	scene_make(&scene);
	leave_for(&scene, 30, 0, TOP_MM);
	for (int i = 1; i <= 3; i++) {
		struct taken taken = cut_to(&scene, 30, 0, TOP_MM - i);
		assert_near(taken.deepest_mm, 1.0, GRAIN_MM, "by this move, mm");
		assert_near(taken.bite_mm, i, GRAIN_MM, "by the visit, mm");
		assert_near(taken.highest_mm, TOP_MM, GRAIN_MM, "the hole's rim, mm");
	}
	scene_free(&scene);
}

/* 2 mm deep to x = 40, 1 mm straight down and back. A column d before the turn
 * is reached again after 2 d + 1 - 3 mm of way (3: the ball's radius), which is
 * a diameter at d = 4: nearer ones are on the same visit. */
static void visit_ends_after_a_diameter(void **state)
{
	(void)state;
	struct scene scene;

	scene_make(&scene);
	leave_for(&scene, -10, 0, TOP_MM - 2.0);
	cut_to(&scene, 40, 0, TOP_MM - 2.0);
	for (double x = 1.0; x < 33.0; x += 1.0)
		assert_near(top_at(&scene, x, 0), TOP_MM - 2.0, GRAIN_MM, "left behind, mm");
	for (double x = 34.4; x < 42.0; x += 0.2)
		assert_near(top_at(&scene, x, 0), TOP_MM, GRAIN_MM, "still on the visit, mm");
	cut_to(&scene, 40, 0, TOP_MM - 3.0);
	struct taken taken = cut_to(&scene, 10, 0, TOP_MM - 3.0);
	assert_near(taken.bite_mm, 3.0, GRAIN_MM, "near the turn, mm");
	assert_near(taken.deepest_mm, 1.0, GRAIN_MM, "by the way back, mm");
	const float *top = scene.visits.top;
	for (double x = 12.0; x < 40.0; x += 0.2) {
		size_t i = stock_iy(&scene.stock, 0.0) * scene.stock.nx + stock_ix(&scene.stock, x);
		double off = 40.0 - stock_x(&scene.stock, stock_ix(&scene.stock, x));
		if (fabs(off - 4.0) > 0.1)
			assert_near((double)top[i], off < 4.0 ? TOP_MM : TOP_MM - 2.0, GRAIN_MM,
				    "top of the visit, mm");
	}
	scene_free(&scene);
}

static void rapid_ends_a_visit(void **state)
{
	(void)state;
	struct scene scene;

	scene_make(&scene);
	leave_for(&scene, 30, 0, TOP_MM);
	cut_to(&scene, 30, 0, TOP_MM - 2.5);
	assert_near(top_at(&scene, 30, 0), TOP_MM, GRAIN_MM, "on the visit, mm");
	leave_for(&scene, 30, 0, TOP_MM - 2.5);
	assert_near(top_at(&scene, 30, 0), TOP_MM - 2.5, GRAIN_MM, "after the rapid, mm");
	assert_near(cut_to(&scene, 30, 0, TOP_MM - 4.0).bite_mm, 1.5, GRAIN_MM, "bite, mm");
	scene_free(&scene);
}

/* y of the outermost columns that hold wood. */
static double last_row_mm(const struct stock *stock)
{
	size_t iy = stock_iy(stock, 0.0), ix = stock_ix(stock, 30.0);

	while (iy + 1 < stock->ny && stock->top[(iy + 1) * stock->nx + ix] > 1.0f)
		iy++;
	return stock_y(stock, iy);
}

/* Beside the board, deep down: the outermost columns are reached by a hair less
 * or more than what counts. Either takes wood; only one is a bite. */
static void brush_is_no_bite(void **state)
{
	(void)state;
	for (int deeper = 0; deeper < 2; deeper++) {
		struct scene scene;
		double z = TOP_MM - 15.0;
		scene_make(&scene);
		double off = RADIUS_MM - TOL_BRUSH_MM + (deeper ? -0.01 : 0.01);
		double y = last_row_mm(&scene.stock) + off;
		leave_for(&scene, -10, y, z);
		struct taken taken = cut_to(&scene, 70, y, z);
		double took = TOP_MM - (z + RADIUS_MM - sqrt(RADIUS_MM * RADIUS_MM - off * off));
		assert_true(taken.volume_mm3 > 60.0 * 0.2 * (took - 0.5));
		assert_near(taken.bite_mm, deeper ? took : 0.0, 1e-4, "bite, mm");
		assert_near(taken.deepest_mm, deeper ? took : 0.0, 1e-4, "deepest, mm");
		assert_true(isfinite(taken.highest_mm) == (deeper == 1));
		scene_free(&scene);
	}
}

#define CORNERS 10

/* Cuts the way in so many pieces a move; returns the deepest bite. */
static double bite_of_way(const struct vec3 *corner, int corners, int pieces, double *volume_mm3)
{
	struct scene scene;

	scene_make(&scene);
	leave_for(&scene, corner[0].x, corner[0].y, corner[0].z);
	for (int i = 1; i < corners; i++)
		for (int k = 1; k <= pieces; k++) {
			struct vec3 p = vec3_between(corner[i - 1], corner[i], (double)k / pieces);
			(void)cut_to(&scene, p.x, p.y, p.z);
		}
	double worst = scene.worst_mm;
	*volume_mm3 = scene.volume_mm3;
	scene_free(&scene);
	return worst;
}

/* Columns of a long slot count from when the ball was there, not from the
 * slot's end: a ramp back down from the end bites the slot's and its own depth
 * where it turns, and its own depth alone farther back. */
static void turning_point(void **state)
{
	(void)state;
	static const int pieces[] = { 1, 10, 200 };
	const struct vec3 way[] = {
		{ 10, 0, 20 }, { 10, 0, 16.2 }, { 50, 0, 16.2 }, { 43.8, 0, 12.4 }
	};
	double volume_mm3, ramp_mm = 0.0;

	for (size_t i = 0; i < sizeof pieces / sizeof *pieces; i++) {
		double bite = bite_of_way(way, 4, pieces[i], &volume_mm3);
		assert_between(bite, 3.8, 7.6, "no more than slot and ramp, mm");
		ramp_mm = i == 0 ? bite : ramp_mm;
		assert_near(bite, ramp_mm, 0.2, "the same way in other pieces, mm");
	}
}

/* There and back with turning points near and far: level and straight down by
 * turns, or sloping all the way. */
static void any_way(struct vec3 *corner, bool sloping, const gsl_rng *rng)
{
	double z = TOP_MM - seed_between(rng, 0.5, 3.0);

	corner[0] = vec3_make(seed_between(rng, 5, 55), seed_between(rng, -5, 5), z);
	for (int i = 1; i < CORNERS; i++) {
		corner[i] = corner[i - 1];
		if (sloping || i % 2 == 0)
			corner[i].z -= seed_between(rng, 0.0, sloping ? 1.0 : 1.5);
		if (sloping || i % 2 == 1) {
			corner[i].x = seed_between(rng, 5, 55);
			corner[i].y = seed_between(rng, -5, 5);
		}
	}
}

/* Whole moves and the pieces they can be divided into. A whole move counts from
 * where the ball is over a column, a piece from where it cuts there; so whole
 * moves may be judged deeper when a visit just goes on, never shallower. */
static void check_division(bool sloping, double below_mm, const gsl_rng *rng)
{
	int alike = 0, all = 0;

	for (int n = 0; n < 20; n++) {
		struct vec3 corner[CORNERS];
		double whole_mm3, pieces_mm3;
		any_way(corner, sloping, rng);
		double whole = bite_of_way(corner, CORNERS, 1, &whole_mm3);
		for (int pieces = 3; pieces <= 81; pieces *= 3, all++) {
			double bite = bite_of_way(corner, CORNERS, pieces, &pieces_mm3);
			assert_between(whole - bite, -below_mm, TOP_MM, "over the pieces, mm");
			assert_near(pieces_mm3 / whole_mm3, 1.0, 1e-5, "volume, share");
			alike += fabs(whole - bite) < TOL_BITE_MM;
		}
	}
	assert_true(alike > all / 2);
}

static void division_does_not_matter(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("division_does_not_matter");

	check_division(false, TOL_BITE_MM, rng);
	check_division(true, TOL_BITE_MM, rng);
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(slot_of_known_depth),
		cmocka_unit_test(bites_of_one_visit_add_up),
		cmocka_unit_test(visit_ends_after_a_diameter),
		cmocka_unit_test(rapid_ends_a_visit),
		cmocka_unit_test(brush_is_no_bite),
		cmocka_unit_test(turning_point),
		cmocka_unit_test(division_does_not_matter),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
