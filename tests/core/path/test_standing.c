/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Squares of standing wood under discs, against a plain look at every square. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "path/standing.h"
#include "support/near.h"
#include "support/sample_job.h"
#include "support/seed.h"

#define NX 37
#define NY 23

/* Distance from a place to the interval [from, from + 1]. */
static double beside(double at, double from)
{
	return fmax(fmax(from - at, at - from - 1.0), 0.0);
}

static void discs_see_every_square_they_touch(void **state)
{
	(void)state;
	double top[NX * NY], under[NX * NY];
	struct standing standing = { NX, NY, -4.0, 7.0, 1.0, top };
	gsl_rng *rng = seed_rng("discs_see_every_square_they_touch");

	for (int round = 0; round < 12; round++) {
		double radius = seed_between(rng, 0.2, 14.0);
		for (size_t i = 0; i < NX * NY; i++)
			top[i] = seed_whole(rng, 0, 3) ? seed_between(rng, 0, 90) : -INFINITY;
		assert_int_equal(standing_under_discs(under, &standing, radius, NULL), FAULT_NONE);
		for (size_t i = 0; i < NX * NY; i++) {
			double x = (double)(i % NX), y = (double)(i / NX), most = -INFINITY;
			for (size_t k = 0; k < NX * NY; k++)
				if (hypot(beside(x, (double)(k % NX)),
					  beside(y, (double)(k / NX))) <= radius)
					most = fmax(most, top[k]);
			assert_true(under[i] == most);
		}
	}
	gsl_rng_free(rng);
}

static double top_at(const struct standing *standing, double x, double y)
{
	size_t ix = (size_t)((x - standing->x0_mm) / standing->cell_mm);
	size_t iy = (size_t)((y - standing->y0_mm) / standing->cell_mm);

	return standing->top_mm[iy * standing->nx + ix];
}

/* A tip held at 9 over one corner leaves 9 and a bite of 4, but no more than the
 * blank of 20, within the ball's 4 mm and two squares. */
static void wood_under_a_tip_held_up_stays(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct sample_model model;
	struct standing standing;
	double highest;

	sample_model_make(&model, &job.neck);
	assert_int_equal(standing_build(&standing, &model.facets, &job, &job.cutter[0], NULL),
			 FAULT_NONE);
	double *tip = calloc(standing.nx * standing.ny, sizeof *tip);
	assert_non_null(tip);
	for (size_t i = 0; i < standing.nx * standing.ny; i++) {
		tip[i] = -5.0;
		standing.top_mm[i] = -INFINITY;
	}
	size_t ix = (size_t)(20.0 - standing.x0_mm), iy = (size_t)(0.0 - standing.y0_mm);
	tip[iy * standing.nx + ix] = 9.0;
	assert_int_equal(standing_raise_left(&standing, &highest, &job, &job.cutter[0], tip, -5.0,
					     NULL),
			 FAULT_NONE);
	assert_near(highest, 13.0, 1e-12, "highest, mm");
	assert_near(top_at(&standing, 20.5, 0.5), 13.0, 1e-12, "under it, mm");
	assert_near(top_at(&standing, 23.5, 0.5), 13.0, 1e-12, "4 mm off, mm");
	assert_true(top_at(&standing, 30.5, 0.5) < 0.0);
	tip[iy * standing.nx + ix] = 70.0;
	assert_int_equal(standing_raise_left(&standing, &highest, &job, &job.cutter[0], tip, -5.0,
					     NULL),
			 FAULT_NONE);
	assert_near(highest, 20.0, 1e-12, "the blank's top, mm");
	free(tip);
	standing_free(&standing);
	sample_model_free(&model);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(discs_see_every_square_they_touch),
		cmocka_unit_test(wood_under_a_tip_held_up_stays),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
