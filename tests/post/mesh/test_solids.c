/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "mesh/solids.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "mesh/stl.h"
#include "support/near.h"
#include "support/sample_result.h"
#include "support/scratch.h"
#include "support/solid.h"

/* Rounding to single precision at the far end of a neck, mm. */
#define ROUNDING_MM 6e-5

static const struct vec3 zero = { -20.0, 1.5, 90.0 };

struct sample {
	struct job job;
	struct neck *neck;
	struct job_result result;
};

static void make(struct sample *sample, double cell_mm)
{
	sample_job(&sample->job);
	assert_int_equal(neck_build(&sample->neck, &sample->job.neck, NULL), FAULT_NONE);
	sample_result(&sample->result, sample->neck, &sample->job, cell_mm, 4);
}

static void drop(struct sample *sample)
{
	sample_result_free(&sample->result);
	neck_free(sample->neck);
}

/* Sum over cells of four columns of cell area and mean height, mm3. */
static double columns_volume(const struct column_map *map, size_t stride)
{
	double sum = 0.0, step = map->cell_mm * (double)stride;

	for (size_t iy = 0; iy + stride < map->ny; iy += stride)
		for (size_t ix = 0; ix + stride < map->nx; ix += stride) {
			const float *low = map->value + iy * map->nx + ix;
			const float *high = low + stride * map->nx;
			sum += (double)(low[0] + low[stride] + high[0] + high[stride]) / 4.0;
		}
	return sum * step * step;
}

static void the_three_files_are_closed_and_in_place(void **state)
{
	char path[SCRATCH_ROOM];
	struct sample sample;
	struct solid solid;
	struct vec3 least, most;

	make(&sample, 0.5);
	scratch_path(path, *state, "finished.stl");
	assert_int_equal(solids_write_finished(path, sample.neck, zero, NULL), FAULT_NONE);
	solid_read(&solid, path);
	solid_assert_closed(&solid);
	double finished_mm3 = solid_volume_mm3(&solid);
	solid_bounds(&solid, &least, &most);
	assert_near(least.x, neck_from_mm(sample.neck) + 20.0, ROUNDING_MM, "neck's begin, mm");
	assert_near(most.z, 82.0 - 90.0, ROUNDING_MM, "heel cap, mm");
	solid_free(&solid);

	scratch_path(path, *state, "blank.stl");
	assert_int_equal(solids_write_blank(path, &sample.job.blank, zero, NULL), FAULT_NONE);
	solid_read(&solid, path);
	solid_assert_closed(&solid);
	double blank_mm3 = solid_volume_mm3(&solid);
	/* 74 wide; 42 high, falling to 26, 26, then 90 */
	assert_near(blank_mm3, 74.0 * (71.0 * 42.0 + 24.0 * 34.0 + 265.0 * 26.0 + 90.0 * 90.0), 5.0,
		    "volume of the blank, mm3");
	solid_bounds(&solid, &least, &most);
	assert_near(least.y, -37.0 - 1.5, ROUNDING_MM, "blank's edge, mm");
	assert_near(most.z, 0.0, ROUNDING_MM, "blank's top, mm");
	solid_free(&solid);

	scratch_path(path, *state, "roughed.stl");
	assert_int_equal(solids_write_roughed(path, NULL, &sample.result.roughed,
					      &sample.result.blank_bottom, zero, NULL),
			 FAULT_NONE);
	solid_read(&solid, path);
	solid_assert_closed(&solid);
	double roughed_mm3 = solid_volume_mm3(&solid);
	/* a cell across a step of the wood is cut by one of two diagonals, which
	 * gives it up to a sixth of the step more or less: some in a thousand */
	assert_near(roughed_mm3, columns_volume(&sample.result.roughed, 1), 2e-3 * roughed_mm3,
		    "volume of the roughed wood, mm3");
	solid_bounds(&solid, &least, &most);
	assert_near(least.z, -90.0, ROUNDING_MM, "roughed wood's underside, mm");
	assert_near(least.x, -75.0 + 0.25 + 20.0, ROUNDING_MM, "roughed wood's begin, mm");
	assert_true(finished_mm3 < roughed_mm3 && roughed_mm3 < blank_mm3);
	solid_free(&solid);
	drop(&sample);
}

static void the_roughed_file_keeps_to_its_size(void **state)
{
	char path[SCRATCH_ROOM];
	struct sample sample;
	struct solid solid;
	size_t stride, coarse;

	make(&sample, 0.2);
	const struct column_map *top = &sample.result.roughed;
	const struct column_map *bottom = &sample.result.blank_bottom;
	assert_int_equal(solids_roughed_stride(&stride, top, bottom, SOLIDS_MOST_BYTES, NULL),
			 FAULT_NONE);
	assert_int_equal(stride, 2); /* 0.4 mm is the widest within 0.5 */
	scratch_path(path, *state, "fine.stl");
	assert_int_equal(solids_write_roughed(path, NULL, top, bottom, zero, NULL), FAULT_NONE);
	solid_read(&solid, path);
	solid_assert_closed(&solid);
	assert_true(STL_HEADER_BYTES + 4 + STL_TRIANGLE_BYTES * solid.count <= SOLIDS_MOST_BYTES);
	solid_free(&solid);
	assert_int_equal(solids_roughed_stride(&coarse, top, bottom, 200000, NULL), FAULT_NONE);
	assert_true(coarse > stride);
	assert_int_equal(solids_roughed_stride(&coarse, top, bottom, 0, NULL), FAULT_NONE);
	assert_int_equal(coarse, top->nx);
	drop(&sample);
}

static void the_stride_is_the_widest_within_the_cell_limit(void **state)
{
	(void)state;
	enum { SIDE = 40 };
	static float top_z[SIDE * SIDE], bottom_z[SIDE * SIDE];
	/* 0.5 / cell may come out just under a whole number */
	static const double cell[] = { 0.1, 0.05, 0.125, 0.2, 0.25, 0.5, 0.7, NAN, 0.0 };
	static const size_t expected[] = { 5, 10, 4, 2, 2, 1, 1, 1, 1 };

	for (size_t i = 0; i < (size_t)SIDE * SIDE; i++)
		top_z[i] = 10.0f;
	for (size_t i = 0; i < sizeof cell / sizeof cell[0]; i++) {
		size_t stride;
		struct column_map top = { SIDE, SIDE, 0.0, 0.0, cell[i], top_z };
		struct column_map bottom = { SIDE, SIDE, 0.0, 0.0, cell[i], bottom_z };
		enum fault fault = solids_roughed_stride(&stride, &top, &bottom, 1000000, NULL);
		/* a NAN is equal to nothing, not even to the other map's */
		assert_int_equal(fault, isnan(cell[i]) ? FAULT_INTERNAL : FAULT_NONE);
		assert_int_equal(stride, expected[i]);
	}
}

static void trouble_with_files_is_told(void **state)
{
	char path[SCRATCH_ROOM];
	struct sample sample;
	struct fault_list faults = { 0 };

	make(&sample, 2.0);
	scratch_path(path, *state, "no/such.stl");
	assert_int_equal(solids_write_finished(path, sample.neck, zero, &faults), FAULT_FILE);
	assert_int_equal(solids_write_blank(path, &sample.job.blank, zero, &faults), FAULT_FILE);
	assert_int_equal(solids_write_roughed(path, NULL, &sample.result.roughed,
					      &sample.result.blank_bottom, zero, &faults),
			 FAULT_FILE);
	assert_int_equal(faults.count, 3);
	drop(&sample);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_three_files_are_closed_and_in_place),
		cmocka_unit_test(the_roughed_file_keeps_to_its_size),
		cmocka_unit_test(the_stride_is_the_widest_within_the_cell_limit),
		cmocka_unit_test(trouble_with_files_is_told),
	};

	return cmocka_run_group_tests(tests, scratch_make, scratch_remove);
}
