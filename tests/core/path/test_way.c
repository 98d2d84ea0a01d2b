/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which way runs are to be cut, on made-up lines over a neck of four stretches:
 * peghead up to x = 0, shaft to 100, nose to 120, heel beyond. */
#include "path/way.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/seed.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

static struct bench bench_of(struct job *job, struct cutting whole)
{
	struct bench bench = { .job = job, .stretches = { { 0, 100, 120 } }, .directed = true };

	*job = (struct job){ 0 };
	for (int i = 0; i < STRETCH_COUNT; i++)
		job->cutting[i] = whole;
	return bench;
}

static void add_run(struct runs *runs, const struct vec3 *p, size_t count)
{
	struct track *run = runs_add(runs);

	assert_non_null(run);
	for (size_t i = 0; i < count; i++)
		assert_int_equal(track_add(run, p[i], NULL), FAULT_NONE);
}

static struct runs chosen(const struct bench *bench, enum cut_lines lines, const struct vec3 *p,
			  size_t count, struct way_met *met)
{
	struct runs runs = { 0 };

	*met = (struct way_met){ 0 };
	add_run(&runs, p, count);
	assert_int_equal(way_choose(&runs, met, bench, lines, NULL), FAULT_NONE);
	return runs;
}

static void assert_goes(const struct track *run, bool one_way, double x_from, double x_to)
{
	assert_int_equal(run->one_way, one_way);
	assert_near(run->p[0].x, x_from, 1e-9, "where it begins, mm");
	assert_near(run->p[run->count - 1].x, x_to, 1e-9, "where it ends, mm");
}

static void whoever_asks_for_nothing_gets_it(void **state)
{
	(void)state;
	static const struct vec3 line[] = { { 10, 5, 9 }, { 50, 5, 20 }, { 90, 5, 9 } };
	struct job job;
	struct bench bench = bench_of(&job, (struct cutting){ 0 });
	struct way_met met;

	bench.directed = false;
	struct runs runs = chosen(&bench, CUT_LENGTHWISE, line, COUNT(line), &met);
	assert_int_equal(runs.count, 1);
	assert_goes(&runs.run[0], false, 10, 90);
	assert_int_equal(met.ways, 1U << CUT_BOTH_WAYS);
	assert_int_equal(met.downhill, 0);
	assert_false(way_is_asked(&bench));
	runs_free(&runs);
}

/* With the wood on the right of the way: around the neck clockwise from above. */
static void climb_goes_up_the_left_and_down_the_right(void **state)
{
	(void)state;
	struct job job;

	for (int way = CUT_CLIMB; way <= CUT_CONVENTIONAL; way++)
		for (int side = -1; side <= 1; side++) {
			struct bench bench =
				bench_of(&job, (struct cutting){ .way = (enum cut_way)way });
			const struct vec3 line[] = { { 10, side * 8.0, 9 },
						     { 50, side * 8.0, 9 },
						     { 90, side * 8.0, 9 } };
			bool up = (way == CUT_CLIMB) == (side >= 0);
			struct way_met met;
			struct runs runs = chosen(&bench, CUT_LENGTHWISE, line, COUNT(line), &met);
			assert_int_equal(runs.count, 1);
			assert_goes(&runs.run[0], true, up ? 10 : 90, up ? 90 : 10);
			assert_int_equal(met.ways, 1U << way);
			assert_true(way_is_asked(&bench));
			runs_free(&runs);
		}
}

/* Wood 30 mm tall, from x0 on to x1. */
static struct stock wood_between(double x0, double x1)
{
	const struct blank blank = { .top = { 2, { x0, x1 }, { 30, 30 } },
				     .bottom = { 2, { x0, x1 }, { 0, 0 } },
				     .half_width = { 2, { x0, x1 }, { 40, 40 } } };
	struct stock stock;

	assert_int_equal(stock_build(&stock, &blank, 0.5, NULL), FAULT_NONE);
	return stock;
}

/* Climb has the wood on its right: at +x going to +y, at -x going to -y. */
static void crosswise_lines_turn_to_the_wood(void **state)
{
	(void)state;
	static const struct vec3 line[] = { { 50, -20, 9 }, { 50, 0, 15 }, { 50, 20, 9 } };
	struct job job;

	for (int way = CUT_BOTH_WAYS; way <= CUT_CONVENTIONAL; way++)
		for (int ahead = 0; ahead < 2; ahead++) {
			struct bench bench =
				bench_of(&job, (struct cutting){ CUT_CROSSWISE, (enum cut_way)way,
								 CUT_DOWNHILL });
			struct way_met met;
			struct runs runs = chosen(&bench, CUT_CROSSWISE, line, COUNT(line), &met);
			bool from_plus = (way == CUT_CLIMB) == (ahead == 0);
			bench.radius_mm = 5.0;
			bench.stock = ahead ? wood_between(48, 90) : wood_between(10, 52);
			assert_int_equal(runs.count, 1);
			assert_int_equal(runs.run[0].one_way, way != CUT_BOTH_WAYS);
			assert_int_equal(met.ways, 1U << way);
			struct runs parts = { 0 };
			assert_int_equal(way_part_to_wood(&parts, &runs.run[0], &bench, NULL),
					 FAULT_NONE);
			assert_int_equal(parts.count, 1);
			const struct vec3 *p = parts.run[0].p;
			if (way != CUT_BOTH_WAYS) {
				assert_near(p[0].y, from_plus ? 20 : -20, 1e-9, "start, mm");
				assert_near(p[2].y, from_plus ? -20 : 20, 1e-9, "end, mm");
			}
			stock_free(&bench.stock);
			runs_free(&parts);
			runs_free(&runs);
		}
}

/* Wood at -x of the line for y < 0 and at +x of it beyond; none at y near 0. */
static void crosswise_lines_part_where_the_wood_changes_sides(void **state)
{
	(void)state;
	static const struct vec3 p[] = { { 50, -20, 9 }, { 50, -8, 9 }, { 50, 0, 9 },
					 { 50, 8, 9 },	 { 50, 16, 9 }, { 50, 20, 9 } };
	struct track run = { .one_way = true };
	struct runs parts = { 0 };
	struct job job;
	struct bench bench =
		bench_of(&job, (struct cutting){ CUT_CROSSWISE, CUT_CLIMB, CUT_ANY_GRAIN });

	bench.radius_mm = 5.0;
	bench.stock = wood_between(40, 60);
	for (size_t i = 0; i < bench.stock.nx * bench.stock.ny; i++) {
		double x = stock_x(&bench.stock, i % bench.stock.nx);
		double y = stock_y(&bench.stock, i / bench.stock.nx);
		if (fabs(y) < 2.0 || (y < 0.0) != (x < 49.0))
			bench.stock.top[i] = bench.stock.bottom[i];
	}
	for (size_t i = 0; i < COUNT(p); i++)
		assert_int_equal(track_add(&run, p[i], NULL), FAULT_NONE);
	assert_int_equal(way_part_to_wood(&parts, &run, &bench, NULL), FAULT_NONE);
	assert_int_equal(parts.count, 2);
	/* climb: at -x the wood is on the right going to -y */
	assert_near(parts.run[0].p[parts.run[0].count - 1].y, -20, 1e-9, "first ends, mm");
	assert_near(parts.run[1].p[parts.run[1].count - 1].y, 20, 1e-9, "second ends, mm");
	for (size_t i = 0; i < 2; i++)
		assert_true(parts.run[i].one_way);
	track_free(&run);
	runs_free(&parts);
	stock_free(&bench.stock);
}

static void a_hill_is_cut_down_both_sides(void **state)
{
	(void)state;
	static const struct vec3 line[] = {
		{ -40, 5, 9 }, { -20, 5, 15 }, { -10, 5, 18 }, { 10, 5, 12 }
	};
	struct job job;
	struct bench bench = bench_of(&job, (struct cutting){ .grain = CUT_DOWNHILL });
	struct way_met met;
	struct runs runs = chosen(&bench, CUT_LENGTHWISE, line, COUNT(line), &met);

	assert_int_equal(runs.count, 2);
	assert_goes(&runs.run[0], true, -10, -40);
	assert_goes(&runs.run[1], true, -10, 10);
	assert_int_equal(met.downhill, 1U << STRETCH_PEGHEAD | 1U << STRETCH_SHAFT);
	assert_false(way_is_asked(&bench));
	runs_free(&runs);
}

/* A shaft that rises 2 mm over 90, a nose of 75 degrees: only the nose has a
 * way. Where the shaft asks for climb it has its own. */
static void a_level_shaft_keeps_its_own_way(void **state)
{
	(void)state;
	static const struct vec3 line[] = { { 5, -5, 9 },    { 50, -5, 10 },  { 95, -5, 11 },
					    { 105, -5, 16 }, { 115, -5, 50 }, { 125, -5, 50 } };
	struct job job;
	struct bench bench = bench_of(&job, (struct cutting){ .grain = CUT_DOWNHILL });
	struct way_met met;
	struct runs runs = chosen(&bench, CUT_LENGTHWISE, line, COUNT(line), &met);

	assert_int_equal(runs.count, 2);
	assert_goes(&runs.run[0], false, 5, 95);
	assert_goes(&runs.run[1], true, 125, 95); /* its level end is too short for a lift */
	assert_int_equal(met.ways, 1U << CUT_BOTH_WAYS);
	runs_free(&runs);
	job.cutting[STRETCH_SHAFT].way = CUT_CONVENTIONAL; /* toward +x on this side */
	runs = chosen(&bench, CUT_LENGTHWISE, line, COUNT(line), &met);
	assert_int_equal(runs.count, 2);
	assert_goes(&runs.run[0], true, 5, 95);
	assert_goes(&runs.run[1], true, 125, 95);
	runs_free(&runs);
}

/* 0.19 mm of step is no slope, 0.21 mm is one. */
static void small_steps_are_no_slopes(void **state)
{
	(void)state;
	struct job job;
	struct bench bench = bench_of(&job, (struct cutting){ .grain = CUT_DOWNHILL });
	struct way_met met;

	for (int i = 0; i < 2; i++) {
		double step = i == 0 ? 0.19 : 0.21;
		const struct vec3 line[] = {
			{ 10, 5, 9 }, { 40, 5, 9 }, { 40.5, 5, 9 + step }, { 90, 5, 9 + step }
		};
		struct runs runs = chosen(&bench, CUT_LENGTHWISE, line, COUNT(line), &met);
		assert_int_equal(runs.count, i == 0 ? 1 : 3);
		assert_int_equal(met.downhill, i == 0 ? 0 : 1U << STRETCH_SHAFT);
		if (i == 1)
			assert_goes(&runs.run[1], true, 40.5, 40);
		runs_free(&runs);
	}
}

/* A contour at one height: from the wide end to the narrow one. */
static void contours_go_to_the_narrow_end(void **state)
{
	(void)state;
	struct job job;
	struct bench bench = bench_of(&job, (struct cutting){ .grain = CUT_DOWNHILL });
	struct way_met met;

	for (int side = -1; side <= 1; side += 2) {
		const struct vec3 line[] = { { 100, side * 9.0, 20 },
					     { 110, side * 14.0, 20 },
					     { 130, side * 20.0, 20 } };
		struct runs runs = chosen(&bench, CUT_LENGTHWISE, line, COUNT(line), &met);
		assert_int_equal(runs.count, 1);
		assert_goes(&runs.run[0], true, 130, 100);
		assert_int_equal(met.downhill, 1U << STRETCH_NOSE | 1U << STRETCH_HEEL);
		runs_free(&runs);
	}
}

static void random_line(struct vec3 *p, size_t count, const gsl_rng *rng)
{
	double y = seed_between(rng, -20, 20);

	p[0] = vec3_make(-40, y, 20);
	for (size_t i = 1; i < count; i++)
		p[i] = vec3_make(p[i - 1].x + seed_between(rng, 0.05, 6.0), y,
				 p[i - 1].z + seed_between(rng, -1.5, 1.5));
}

/* The parts of a divided line are the line, and none that has a way rises
 * steeply by more than may be passed over. */
static void parts_are_the_line_and_go_down(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("parts_are_the_line_and_go_down");
	struct vec3 line[40];

	for (unsigned long n = 0; n < 300; n++) {
		struct job job;
		struct way_met met;
		seed_nth(rng, n);
		struct bench bench = bench_of(&job, (struct cutting){ .grain = CUT_DOWNHILL });
		random_line(line, COUNT(line), rng);
		struct runs runs = chosen(&bench, CUT_LENGTHWISE, line, COUNT(line), &met);
		size_t at = 0;
		for (size_t i = 0; i < runs.count; i++) {
			struct track *run = &runs.run[i];
			double up = 0.0;
			for (size_t k = 1; k < run->count; k++) {
				double rise = run->p[k].z - run->p[k - 1].z;
				double plan = fabs(run->p[k].x - run->p[k - 1].x);
				up = rise > CUT_STEEP_SLOPE * plan ? up + rise : 0.0;
				assert_true(up < WAY_LEAST_RISE_MM);
			}
			if (run->p[0].x > run->p[run->count - 1].x)
				track_reverse(run);
			for (size_t k = 0; k < run->count; k++)
				assert_near(vec3_distance(run->p[k], line[at + k]), 0, 1e-12,
					    "a point of the line, mm");
			at += run->count - 1;
		}
		assert_int_equal(at, COUNT(line) - 1);
		runs_free(&runs);
	}
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(whoever_asks_for_nothing_gets_it),
		cmocka_unit_test(climb_goes_up_the_left_and_down_the_right),
		cmocka_unit_test(crosswise_lines_turn_to_the_wood),
		cmocka_unit_test(crosswise_lines_part_where_the_wood_changes_sides),
		cmocka_unit_test(a_hill_is_cut_down_both_sides),
		cmocka_unit_test(a_level_shaft_keeps_its_own_way),
		cmocka_unit_test(small_steps_are_no_slopes),
		cmocka_unit_test(contours_go_to_the_narrow_end),
		cmocka_unit_test(parts_are_the_line_and_go_down),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
