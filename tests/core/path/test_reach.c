/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shank and holder discs against points of the roughed neck and of the blank
 * that stays uncut. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "path/reach.h"
#include "support/near.h"
#include "support/sample_job.h"
#include "support/seed.h"

#define FLOOR_MM (-5.0)
/* Grid cell, its diagonal both ways, and the room kept: how far beyond the disc
 * the grid may look, mm. */
#define LOOKS_BEYOND_MM 7.0
/* and what is left of the blank is looked for half a ball and two cells around. */
#define LEFT_BEYOND_MM 7.0
#define ROOM_MM 0.5

/* Wood that stays: points with their tops. */
struct wood_points {
	size_t count;
	struct vec3 *p;
};

static void add_point(struct wood_points *wood, struct vec3 p)
{
	wood->p[wood->count++] = p;
}

/* The surface with its stock straight up and a terrace of one bite, which may
 * stand on it until the last lines; and the blank beyond the carved range. */
static struct wood_points standing(const struct job *job, const struct neck *neck)
{
	struct wood_points wood = { 0, malloc(200000 * sizeof(struct vec3)) };

	assert_non_null(wood.p);
	for (double x = neck_from_mm(neck); x < neck_to_mm(neck); x += 0.7)
		for (int k = 0; k <= 60; k++) {
			enum neck_side side = k % 2 ? SIDE_PLUS : SIDE_MINUS;
			double v = 1.0 - pow(k / 60.0, 3.0);
			struct vec3 p = sample_surface_point(neck, side, x, v);
			p.z += neck_allowance_mm(neck, neck_zone(neck, x, v)) +
			       job->cutter[0].depth_limit_mm;
			add_point(&wood, p);
		}
	for (double x = blank_from_mm(&job->blank); x < job->carve.from_mm; x += 0.7)
		for (double y = -20.0; y <= 20.0; y += 0.7)
			add_point(&wood, vec3_make(x, y, outline_value_mm(&job->blank.top, x)));
	return wood;
}

/* What the blank keeps where shank or holder hold the ball up, by the grid's own
 * word, with a terrace of one bite: it is in the discs' way like the rest. */
static void add_left(struct wood_points *wood, const struct job *job, const struct reach *reach)
{
	for (double x = job->carve.from_mm; x <= job->carve.to_mm; x += 0.7)
		for (double y = -20.0; y <= 20.0; y += 0.7) {
			double tip = reach_tip_mm(reach, x, y);
			double top = outline_value_mm(&job->blank.top, x);
			if (tip > FLOOR_MM)
				add_point(
					wood,
					vec3_make(x, y,
						  fmin(top, tip + job->cutter[0].depth_limit_mm)));
		}
}

static double highest_within(const struct wood_points *wood, double x, double y, double radius)
{
	double best = -INFINITY;

	for (size_t i = 0; i < wood->count; i++)
		if (hypot(wood->p[i].x - x, wood->p[i].y - y) <= radius)
			best = fmax(best, wood->p[i].z);
	return best;
}

static struct job job_with(double stickout, double flutes, double shank)
{
	struct job job = sample_short_job();

	job.cutter[0].stickout_mm = stickout;
	job.cutter[0].flute_length_mm = flutes;
	job.cutter[0].shank_diameter_mm = shank;
	return job;
}

static void assert_reach(struct job job, const char *test, bool shank_counts)
{
	struct sample_model model;
	struct reach reach;
	gsl_rng *rng = seed_rng(test);
	const struct cutter *c = &job.cutter[0];
	int held = 0;

	sample_model_make(&model, &job.neck);
	struct wood_points wood = standing(&job, model.neck);
	assert_int_equal(reach_build(&reach, &model.facets, &job, &job.cutter[0], NULL, FLOOR_MM,
				     NULL),
			 FAULT_NONE);
	assert_non_null(reach.tip_mm);
	add_left(&wood, &job, &reach);
	for (int i = 0; i < 1500; i++) {
		double x = seed_between(rng, -38, 86), y = seed_between(rng, -22, 22);
		double tip = reach_tip_mm(&reach, x, y);
		double holder = highest_within(&wood, x, y, c->holder_diameter_mm / 2.0);
		double far = highest_within(&wood, x, y,
					    c->holder_diameter_mm / 2.0 + LOOKS_BEYOND_MM +
						    LEFT_BEYOND_MM);
		double most = far + ROOM_MM + 1.5 - c->stickout_mm;
		assert_true(tip + c->stickout_mm >= holder + ROOM_MM - 1e-9);
		if (shank_counts) {
			double shank = highest_within(&wood, x, y, c->shank_diameter_mm / 2.0);
			far = highest_within(&wood, x, y,
					     c->shank_diameter_mm / 2.0 + LOOKS_BEYOND_MM +
						     LEFT_BEYOND_MM);
			most = fmax(most, far + ROOM_MM + 1.5 - c->flute_length_mm);
			assert_true(tip + c->flute_length_mm >= shank + ROOM_MM - 1e-9);
		}
		assert_true(tip >= FLOOR_MM && tip <= fmax(FLOOR_MM, most));
		held += tip > FLOOR_MM;
	}
	assert_true(held > 100);
	free(wood.p);
	reach_free(&reach);
	sample_model_free(&model);
	gsl_rng_free(rng);
}

static void holder_stays_above_the_wood(void **state)
{
	(void)state;
	assert_reach(job_with(22, 20, 8), "holder_stays_above_the_wood", false);
}

static void wide_shank_stays_above_the_wood(void **state)
{
	(void)state;
	assert_reach(job_with(40, 14, 12), "wide_shank_stays_above_the_wood", true);
}

/* A cutter long enough needs no grid. */
static void long_cutter_reaches_everywhere(void **state)
{
	(void)state;
	struct job job = job_with(45, 30, 8);
	struct sample_model model;
	struct reach reach;

	sample_model_make(&model, &job.neck);
	assert_int_equal(reach_build(&reach, &model.facets, &job, &job.cutter[0], NULL, FLOOR_MM,
				     NULL),
			 FAULT_NONE);
	assert_null(reach.tip_mm);
	assert_true(reach_tip_mm(&reach, 80, 0) < -1e300);
	reach_free(&reach);
	reach_free(NULL);
	sample_model_free(&model);
}

/* A steel-string heel, 82 mm and its stock, under a holder 42 mm wide. */
static void holder_over_a_tall_heel(void **state)
{
	(void)state;
	struct job job = sample_steel_job();
	struct sample_model model;
	struct reach reach;

	job.cutter[0].stickout_mm = 60;
	sample_model_make(&model, &job.neck);
	assert_int_equal(reach_build(&reach, &model.facets, &job, &job.cutter[0], NULL, -7.0, NULL),
			 FAULT_NONE);
	/* 83 mm of wood under the middle of the cap, 5 of terrace, 0.5 kept: 88.5
	 * less 60 */
	assert_between(reach_tip_mm(&reach, 350, 0), 28.5 - 1e-6, 28.5 + 1.01, "tip, mm");
	/* and beside it, as far as the holder reaches over the cap's half width */
	assert_between(reach_tip_mm(&reach, 350, 30), 28.5 - 1e-6, 28.5 + 1.01, "tip, mm");
	assert_near(reach_tip_mm(&reach, 350, 60), -7.0, 1e-9, "clear of it, mm");
	assert_near(reach_tip_mm(&reach, 150, 0), -7.0, 1e-9, "on the shaft, mm");
	reach_free(&reach);
	sample_model_free(&model);
}

/* A holder of three parts: each at its own height, a part no wider than one
 * beneath it does not count. */
static void parts_above_the_holder(void **state)
{
	(void)state;
	struct job job = sample_steel_job();
	struct cutter *cutter = &job.cutter[0];
	struct sample_model model;
	struct reach reach;

	cutter->stickout_mm = 90;
	cutter->holder_length_mm = 4;
	cutter->part_count = 2;
	cutter->part[0] = (struct holder_part){ 30, 10 };
	cutter->part[1] = (struct holder_part){ 120, 100 };
	sample_model_make(&model, &job.neck);
	assert_int_equal(reach_build(&reach, &model.facets, &job, cutter, NULL, -20.0, NULL),
			 FAULT_NONE);
	/* 88.5 of wood, terrace and room, as below: less 90 under the holder's 42 mm,
	 * less 104 under the 120 mm */
	assert_between(reach_tip_mm(&reach, 350, 0), -1.5 - 1e-6, -1.5 + 1.01, "on the cap, mm");
	assert_between(reach_tip_mm(&reach, 350, 60), -15.5 - 1e-6, -15.5 + 1.01,
		       "60 mm beside the cap, mm");
	assert_between(reach_tip_mm(&reach, 290, 0), -15.5 - 1e-6, -15.5 + 1.01,
		       "60 mm before the cap, mm");
	assert_near(reach_tip_mm(&reach, 230, 0), -20.0, 1e-9, "clear of it, mm");
	reach_free(&reach);
	sample_model_free(&model);
}

/* A heel nearly twice as tall as the cutter sticks out: the terrace that the
 * holder leaves beside the heel stands in its way farther off. */
static void what_is_left_is_in_the_way_too(void **state)
{
	(void)state;
	struct job job = sample_steel_job();
	struct sample_model model;
	struct reach reach;

	job.cutter[0].stickout_mm = 46;
	job.cutter[0].holder_diameter_mm = 24;
	sample_model_make(&model, &job.neck);
	assert_int_equal(reach_build(&reach, &model.facets, &job, &job.cutter[0], NULL, -7.0, NULL),
			 FAULT_NONE);
	/* within 12 mm of the cheek, at most 24 mm off the centre, wood stays at
	 * 88.5 - 46 = 42.5 and a terrace of 5: another 12 mm off the tip must
	 * stay at 47.5 + 0.5 - 46 = 2 */
	assert_true(reach_tip_mm(&reach, 350, 15) >= 42.5 - 1e-6);
	assert_true(reach_tip_mm(&reach, 350, 30) >= 2.0 - 1e-6);
	assert_true(reach_tip_mm(&reach, 350, 30) < 42.0);
	reach_free(&reach);
	sample_model_free(&model);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(holder_stays_above_the_wood),
		cmocka_unit_test(wide_shank_stays_above_the_wood),
		cmocka_unit_test(long_cutter_reaches_everywhere),
		cmocka_unit_test(holder_over_a_tall_heel),
		cmocka_unit_test(parts_above_the_holder),
		cmocka_unit_test(what_is_left_is_in_the_way_too),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
