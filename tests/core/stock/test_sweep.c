/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The swept ball against ten thousand balls along its way, and what it leaves
 * in the columns. Lengths mm. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "stock/stock.h"
#include "support/near.h"
#include "support/seed.h"

#define BALLS 10000
/* Tops and ceilings are single-precision figures, mm. */
#define GRAIN_MM 1e-5

struct move {
	struct vec3 from, to;
	double radius;
};

/* Lower boundary of one ball over a place, INFINITY beside it. */
static double ball_height(struct vec3 tip, double radius, double x, double y)
{
	double left = radius * radius - (x - tip.x) * (x - tip.x) - (y - tip.y) * (y - tip.y);

	return left > 0.0 ? tip.z + radius - sqrt(left) : INFINITY;
}

static double least_of_balls(const struct move *move, double x, double y)
{
	double least = INFINITY;

	for (int i = 0; i <= BALLS; i++) {
		struct vec3 tip = vec3_between(move->from, move->to, (double)i / BALLS);
		least = fmin(least, ball_height(tip, move->radius, x, y));
	}
	return least;
}

/* Flat, sloped, steep, straight up or down, or none at all. */
static struct move any_move(const gsl_rng *rng)
{
	double x = seed_between(rng, -10, 50), y = seed_between(rng, -14, 14);
	double z = seed_between(rng, 3, 30);
	struct move move = { { x, y, z }, { x, y, z }, seed_between(rng, 1, 7) };

	switch (seed_whole(rng, 0, 5)) {
	case 0:
		break;
	case 1:
		move.to.z += seed_between(rng, -20, 20);
		break;
	case 2:
		move.to.x += seed_between(rng, -20, 20);
		move.to.y += seed_between(rng, -20, 20);
		break;
	case 3: /* steep */
		move.to.x += seed_between(rng, -0.5, 0.5);
		move.to.z += seed_between(rng, -20, 20);
		break;
	default:
		move.to.x += seed_between(rng, -20, 20);
		move.to.y += seed_between(rng, -20, 20);
		move.to.z += seed_between(rng, -15, 15);
	}
	return move;
}

static void lower_boundary_of_a_swept_ball(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("lower_boundary_of_a_swept_ball");
	int hits = 0;

	for (int i = 0; i < 1200; i++) {
		struct move m = any_move(rng);
		struct vec3 near = vec3_between(m.from, m.to, seed_between(rng, -0.1, 1.1));
		double x = near.x + seed_between(rng, -1.1, 1.1) * m.radius;
		double y = near.y + seed_between(rng, -1.1, 1.1) * m.radius;
		double height = sweep_height_mm(m.from, m.to, m.radius, x, y);
		double balls = least_of_balls(&m, x, y);
		assert_true(height <= balls + 1e-9);
		if (!isfinite(balls))
			continue;
		hits++;
		/* the lowest ball may lie half a step off the samples; at the
		 * rim that step shows */
		assert_between(balls - height, -1e-9, 0.02, "boundary under the balls, mm");
	}
	assert_true(hits > 500);
	gsl_rng_free(rng);
}

static void closed_forms(void **state)
{
	(void)state;
	struct vec3 a = vec3_make(0, 0, 5), b = vec3_make(20, 0, 5), down = vec3_make(0, 0, 1);

	/* level: a round groove; at its end a ball */
	assert_near(sweep_height_mm(a, b, 3, 10, 2), 8 - sqrt(5), 1e-12, "groove, mm");
	assert_near(sweep_height_mm(a, b, 3, 22, 1), 8 - sqrt(4), 1e-12, "end, mm");
	assert_true(sweep_height_mm(a, b, 3, 10, 3.0001) > 1e300);
	assert_true(sweep_height_mm(a, b, 3, 23.0001, 0) > 1e300);
	/* straight down and up again: the lower end cuts */
	assert_near(sweep_height_mm(a, down, 3, 1, 0), 4 - sqrt(8), 1e-12, "plunge, mm");
	assert_near(sweep_height_mm(down, a, 3, 1, 0), 4 - sqrt(8), 1e-12, "retract, mm");
	assert_near(sweep_height_mm(a, a, 3, 1, 0), 8 - sqrt(8), 1e-12, "no way at all, mm");
	/* on a slope, under the line: the tip's line lowered by R (sec a - 1) */
	struct vec3 up = vec3_make(20, 0, 25);
	assert_near(sweep_height_mm(a, up, 3, 10, 0), 15 + 3 - 3 * sqrt(2), 1e-12, "slope, mm");
	assert_near(sweep_height_mm(up, a, 3, 10, 0), 15 + 3 - 3 * sqrt(2), 1e-12, "backward, mm");
}

static struct blank stepped(void)
{
	return (struct blank){
		.top = { 5, { -20, 0, 30, 30, 50 }, { 26, 18, 18, 40, 40 } },
		.bottom = { 3, { -20, 0, 50 }, { 6, 0, 0 } },
		.half_width = { 4, { -20, 10, 10, 50 }, { 15, 15, 9, 12 } },
	};
}

/* The wood left over a place by the blank and all moves. */
static double wood_left(const struct blank *blank, const struct move *moves, size_t count, double x,
			double y)
{
	double bottom = outline_value_mm(&blank->bottom, x);

	if (x < -20.0 || x > 50.0 || fabs(y) > outline_value_mm(&blank->half_width, x))
		return bottom;
	double top = outline_value_mm(&blank->top, x);
	for (size_t i = 0; i < count; i++)
		top = fmin(top, sweep_height_mm(moves[i].from, moves[i].to, moves[i].radius, x, y));
	return fmax(top, bottom);
}

#define MOVES 25

/* Random moves in a stepped blank. Tops are what is left at the columns;
 * ceilings cover what is left anywhere in their cells. */
static void columns_after_many_moves(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("columns_after_many_moves");
	struct blank blank = stepped();
	struct swath swath = { 0 };

	for (int n = 0; n < 12; n++) {
		struct stock stock;
		struct move moves[MOVES];
		assert_int_equal(stock_build(&stock, &blank, seed_between(rng, 0.25, 1.2), NULL),
				 FAULT_NONE);
		for (size_t i = 0; i < MOVES; i++) {
			moves[i] = any_move(rng);
			assert_int_equal(stock_sweep(&stock, moves[i].from, moves[i].to,
						     moves[i].radius, &swath, NULL),
					 FAULT_NONE);
		}
		for (int i = 0; i < 4000; i++) {
			double x = seed_between(rng, -21, 51), y = seed_between(rng, -16, 16);
			size_t ix = stock_ix(&stock, x), iy = stock_iy(&stock, y);
			size_t at = iy * stock.nx + ix;
			double cx = stock_x(&stock, ix), cy = stock_y(&stock, iy);
			double left = wood_left(&blank, moves, MOVES, x, y);
			assert_near((double)stock.top[at], wood_left(&blank, moves, MOVES, cx, cy),
				    GRAIN_MM, "top, mm");
			if (left > outline_value_mm(&blank.bottom, x) + GRAIN_MM)
				assert_true((double)stock.ceiling[at] >= left - GRAIN_MM);
			assert_true(stock.ceiling[at] >= stock.top[at]);
		}
		stock_free(&stock);
	}
	swath_free(&swath);
	gsl_rng_free(rng);
}

/* Where a ball cleared a cell with room to spare the ceiling comes down: not
 * only safe but of use. */
static void ceilings_come_down(void **state)
{
	(void)state;
	struct blank blank = stepped();
	struct swath swath = { 0 };
	struct stock stock;

	assert_int_equal(stock_build(&stock, &blank, 0.25, NULL), FAULT_NONE);
	assert_int_equal(stock_sweep(&stock, vec3_make(10, 0, 12), vec3_make(25, 0, 12), 5, &swath,
				     NULL),
			 FAULT_NONE);
	size_t i = stock_iy(&stock, 2) * stock.nx + stock_ix(&stock, 18);
	/* the groove at 2 mm and half a cell's diagonal more from its middle */
	assert_between((double)stock.ceiling[i], 17 - sqrt(25 - 4.0),
		       17 - sqrt(25 - 2.18 * 2.18) + 0.01, "ceiling, mm");
	swath_free(&swath);
	stock_free(&stock);
}

/* The swath tells what stood there before; outside it nothing changes. */
static void swath_remembers(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("swath_remembers");
	struct blank blank = stepped();
	struct swath swath = { 0 };
	struct stock stock;

	assert_int_equal(stock_build(&stock, &blank, 0.5, NULL), FAULT_NONE);
	size_t count = stock.nx * stock.ny;
	float *before = malloc(count * sizeof *before);
	assert_non_null(before);
	for (int n = 0; n < 200; n++) {
		struct move m = any_move(rng);
		memcpy(before, stock.top, count * sizeof *before);
		assert_int_equal(stock_sweep(&stock, m.from, m.to, m.radius, &swath, NULL), 0);
		for (size_t iy = 0; iy < stock.ny; iy++)
			for (size_t ix = 0; ix < stock.nx; ix++) {
				size_t i = iy * stock.nx + ix;
				bool inside = ix >= swath.ix0 && ix < swath.ix1 &&
					      iy >= swath.iy0 && iy < swath.iy1;
				size_t k =
					(iy - swath.iy0) * (swath.ix1 - swath.ix0) + ix - swath.ix0;
				assert_true(stock.top[i] <= before[i]);
				assert_true(inside ? swath.before[k] == before[i]
						   : stock.top[i] == before[i]);
			}
	}
	/* far off the blank there is nothing to remember */
	struct vec3 far = vec3_make(1000, 1000, 5);
	assert_int_equal(stock_sweep(&stock, far, far, 3, &swath, NULL), FAULT_NONE);
	assert_int_equal((swath.ix1 - swath.ix0) * (swath.iy1 - swath.iy0), 0);
	free(before);
	swath_free(&swath);
	swath_free(NULL);
	stock_free(&stock);
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(lower_boundary_of_a_swept_ball),
		cmocka_unit_test(closed_forms),
		cmocka_unit_test(columns_after_many_moves),
		cmocka_unit_test(ceilings_come_down),
		cmocka_unit_test(swath_remembers),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
