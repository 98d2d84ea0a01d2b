/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stock and what is left for the chisel, while requests for memory fail in
 * turn: each failure is told, and nothing is lost. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "job/hand_stock.h"
#include "support/memory.h"
#include "support/near.h"
#include "support/sample_job.h"

/* The finished surface on every second column. */
static void make_grid(struct job_result *result, const struct stock *stock, const struct neck *neck)
{
	struct column_map *map = &result->finished;

	*map = (struct column_map){ .nx = (stock->nx + 1) / 2,
				    .ny = (stock->ny + 1) / 2,
				    .x0_mm = stock->x0_mm,
				    .y0_mm = stock->y0_mm,
				    .cell_mm = stock->cell_mm * 2.0 };
	map->value = calloc(map->nx * map->ny, sizeof *map->value);
	assert_non_null(map->value);
	for (size_t i = 0; i < map->nx * map->ny; i++) {
		size_t iy = i / map->nx;
		double z = neck_height_mm(neck, map->x0_mm + (double)(i % map->nx) * map->cell_mm,
					  map->y0_mm + (double)iy * map->cell_mm);
		map->value[i] = isfinite(z) ? (float)z : NAN;
	}
}

/* The blank as it is, under a cutter whose holder keeps it from the cap's foot. */
static void every_request_may_fail(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct sample_model model;
	struct stock stock;
	size_t grants = 0;

	job.cutter[0].stickout_mm = 22;
	job.cutter[0].flute_length_mm = 20;
	job.carve.cell_mm = 1.0;
	sample_model_make(&model, &job.neck);
	assert_int_equal(stock_build(&stock, &job.blank, job.carve.cell_mm, NULL), FAULT_NONE);
	for (;; grants++) {
		struct job_result result = { 0 };
		struct fault_list faults = { 0 };
		make_grid(&result, &stock, model.neck);
		memory_refuse_after(grants);
		enum fault code = hand_stock_measure(&result, &job, model.neck, &model.facets,
						     &stock, &faults);
		bool done = memory_serve_all() <= grants;
		assert_int_equal(code == FAULT_NONE, done);
		if (done) {
			assert_true(result.chisel.place_count > 0);
			assert_true(result.stickout[0].finishes_mm > 22.0);
		} else {
			assert_int_equal(code, FAULT_MEMORY);
			assert_int_equal(faults.count, 1);
		}
		job_result_free(&result);
		if (done)
			break;
	}
	assert_true(grants > 20);
	stock_free(&stock);
	sample_model_free(&model);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_request_may_fail),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
