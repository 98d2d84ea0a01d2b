/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A symmetric design leaves both cheeks of the heel alike in the simulated
 * wood: planned, proven, and measured column against mirrored column. Scallops may
 * lie a little differently; what a caliper's jaw rests on may not. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "support/any_job.h"
#include "support/near.h"
#include "support/planned.h"
#include "support/seed.h"

#define NECKS 3
#define DRAWS_MAX 400
/* What the sides may differ by in the wood, mm. */
#define ALIKE_MM 0.02
/* A cheek is what lies so much lower than the crest and higher than the gluing
 * face, mm: on the level cap a line's end may lie on one side only, and at the
 * foot wood is left standing beside it. */
#define BELOW_CAP_MM 0.5
#define ABOVE_FACE_MM 1.0

/* One job, planned, proven and measured. */
struct cut {
	struct planned planned;
	struct job_result result;
};

static void cut_job(struct cut *cut, const struct job *job)
{
	struct proof_record record;

	planned_make(&cut->planned, job);
	struct verdict verdict = planned_judged(&cut->planned, job, &record);
	assert_proven(&verdict);
	planned_measured(&cut->result, &cut->planned, &verdict, &record);
	proof_record_free(&record);
}

static void free_cut(struct cut *cut)
{
	job_result_free(&cut->result);
	planned_free(&cut->planned);
}

/* Whether a column and its mirrored twin both carry wood on a cheek. */
static bool pair_at(const struct cut *cut, size_t ix, size_t row, double *stock, double *across)
{
	const struct neck *neck = cut->planned.model.neck;
	const struct column_map *map = &cut->result.stock;
	double x = map->x0_mm + (double)ix * map->cell_mm;
	double y = map->y0_mm + (double)row * map->cell_mm;
	double twin = (-y - map->y0_mm) / map->cell_mm;

	double z = neck_height_mm(neck, x, y);

	if (y <= 0.0 || x < neck_heel_proper_mm(neck) || twin < -0.5 || z < ABOVE_FACE_MM ||
	    z > neck_crest_mm(neck, x) - BELOW_CAP_MM)
		return false;
	assert_near(twin, round(twin), 1e-6, "columns lie in pairs");
	*stock = map->value[row * map->nx + ix];
	*across = map->value[(size_t)lround(twin) * map->nx + ix];
	return !isnan(*stock) && !isnan(*across);
}

/* Difference of the means over the pairs around one, so many columns each way. */
static double difference_around(const struct cut *cut, size_t ix, size_t row, size_t reach)
{
	const struct column_map *map = &cut->result.stock;
	double sum = 0.0, pairs = 0.0, stock, across;

	for (size_t r = row - reach; r <= row + reach && r < map->ny; r++)
		for (size_t i = ix - reach; i <= ix + reach && i < map->nx; i++)
			if (pair_at(cut, i, r, &stock, &across)) {
				sum += stock - across;
				pairs += 1.0;
			}
	return fabs(sum / pairs);
}

/* Looks at every pair of the cheeks; returns how many. `reach` columns around
 * each way are taken together: a jaw that spans a few scallops. */
static size_t check_cheeks(const struct cut *cut, const struct job *job, size_t reach)
{
	const struct column_map *map = &cut->result.stock;
	size_t seen = 0;
	double stock, across;

	for (size_t row = reach; row < map->ny; row++)
		for (size_t ix = reach; ix < map->nx; ix++) {
			if (!pair_at(cut, ix, row, &stock, &across))
				continue;
			assert_between(difference_around(cut, ix, row, reach), 0.0, ALIKE_MM,
				       "difference of the cheeks, mm");
			assert_near(stock, across, job->carve.scallop_limit_mm, "scallops, mm");
			seen++;
		}
	return seen;
}

static void the_samples_cheeks_are_alike(void **state)
{
	struct job job = sample_steel_job();
	struct cut cut = { 0 };

	(void)state;
	job.neck.heel.hollow_rim_mm = 3.0;
	cut_job(&cut, &job);
	assert_near(neck_asymmetry_mm(cut.planned.model.neck), 0.0, 0.01, "finished surface, mm");
	assert_true(check_cheeks(&cut, &job, 0) > 500);
	free_cut(&cut);
}

/* A block heel with the same section on both sides. */
static void symmetric_job(struct job *job, const gsl_rng *rng)
{
	for (int draw = 0; draw < DRAWS_MAX; draw++) {
		struct neck *neck = NULL;
		any_job(job, rng);
		job->cutter_count = 1;
		for (size_t i = 0; i < job->neck.station_count; i++)
			job->neck.station[i].treble = job->neck.station[i].bass;
		if (job->neck.heel.kind != HEEL_BLOCK || job_check(job, NULL) ||
		    neck_build(&neck, &job->neck, NULL))
			continue;
		neck_free(neck);
		return;
	}
	fail_msg("of %d random jobs none was valid", DRAWS_MAX);
}

static void any_symmetric_necks_cheeks_are_alike(void **state)
{
	gsl_rng *rng = seed_rng("any_symmetric_necks_cheeks_are_alike");

	(void)state;
	for (unsigned long n = 0; n < NECKS; n++) {
		struct job job;
		struct cut cut = { 0 };
		seed_nth(rng, n);
		symmetric_job(&job, rng);
		any_job_print(&job);
		cut_job(&cut, &job);
		assert_near(neck_asymmetry_mm(cut.planned.model.neck), 0.0, 0.01,
			    "finished surface, mm");
		assert_true(check_cheeks(&cut, &job, 1) > 50);
		free_cut(&cut);
	}
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_samples_cheeks_are_alike),
		cmocka_unit_test(any_symmetric_necks_cheeks_are_alike),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
