/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/block_cells.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/seed.h"

/* 80 x 20 columns 0.5 mm apart: x from -5 to 34.5, y from -4.75 to 4.75. */
static struct column_map sample_map(float value)
{
	struct column_map map = {
		.nx = 80, .ny = 20, .x0_mm = -5.0, .y0_mm = -4.75, .cell_mm = 0.5
	};

	map.value = calloc(map.nx * map.ny, sizeof *map.value);
	assert_non_null(map.value);
	for (size_t i = 0; i < map.nx * map.ny; i++)
		map.value[i] = value;
	return map;
}

static void a_part_holds_what_has_a_value(void **state)
{
	(void)state;
	struct column_map map = sample_map(NAN);
	struct block_part part = block_part_none();

	block_part_add(&part, &map, -INFINITY);
	assert_true(part.x_from_mm > part.x_to_mm);
	map.value[2 * map.nx + 10] = 1.0F; /* x 0, y -3.75 */
	map.value[12 * map.nx + 30] = 0.0F; /* x 10, y 1.25 */
	block_part_add(&part, &map, 0.5);
	assert_near(part.x_from_mm, 0.0, 1e-12, "left end, mm");
	assert_near(part.x_to_mm, 0.0, 1e-12, "right end, mm");
	assert_near(part.y_most_mm, 3.75, 1e-12, "farthest across, mm");
	block_part_add(&part, &map, -INFINITY);
	assert_near(part.x_to_mm, 10.0, 1e-12, "right end, mm");
	assert_near(part.x_from_mm, 0.0, 1e-12, "left end stays, mm");
	free(map.value);
}

static void cells_are_as_small_as_fit(void **state)
{
	static const struct {
		size_t most;
		double cell_mm;
	} cases[] = {
		/* 39.5 mm in 20 columns are 2, but -5 to 34.5 lie in 21 of these */
		{ 20, 2.5 }, { 21, 2.0 },   { 40, 1.0 },
		{ 4, 12.0 }, { 1000, 1.0 }, /* no smaller than two columns of the map */
	};
	struct column_map map = sample_map(1.0F);
	struct block_part part = block_part_none();

	(void)state;
	block_part_add(&part, &map, -INFINITY);
	for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
		struct block_cells cells;
		assert_int_equal(block_cells_make(&cells, &map, &part, cases[i].most,
						  BLOCK_PICK_MOST, NULL),
				 FAULT_NONE);
		assert_near(cells.cell_mm, cases[i].cell_mm, 1e-12, "size of a cell, mm");
		assert_true(cells.columns <= cases[i].most);
		assert_int_equal(cells.rows % 2, 1);
		assert_near(cells.y_top_mm, cells.cell_mm * (double)cells.rows / 2.0, 1e-9,
			    "upper end, mm");
		assert_true(cells.y_top_mm >= 4.75);
		assert_near(fmod(cells.x_from_mm, cells.cell_mm), 0.0, 1e-9, "left end, mm");
		block_cells_free(&cells);
	}
	free(map.value);
}

/* A slow twin: every half cell asks all columns whether they lie in it. */
static float pick_slowly(const struct block_cells *cells, const struct column_map *map, size_t half,
			 size_t column, enum block_pick pick)
{
	double x0 = cells->x_from_mm + (double)column * cells->cell_mm;
	double y1 = cells->y_top_mm - (double)half * cells->cell_mm / 2.0;
	float best = NAN;

	for (size_t i = 0; i < map->nx * map->ny; i++) {
		double x = map->x0_mm + (double)(i % map->nx) * map->cell_mm;
		double y = map->y0_mm + (double)(i / map->nx) * map->cell_mm;
		if (x < x0 || x >= x0 + cells->cell_mm || y > y1 || y < y1 - cells->cell_mm / 2.0)
			continue;
		best = pick == BLOCK_PICK_MOST ? fmaxf(best, map->value[i])
					       : fminf(best, map->value[i]);
	}
	return best;
}

static void each_half_keeps_the_value_that_matters(void **state)
{
	struct column_map map = sample_map(NAN);
	struct block_part part = { -5.0, 34.5, 4.75 };
	gsl_rng *rng = seed_rng("each_half_keeps_the_value_that_matters");

	(void)state;
	for (int round = 0; round < 40; round++) {
		struct block_cells cells;
		enum block_pick pick = round % 2 ? BLOCK_PICK_MOST : BLOCK_PICK_LEAST;
		for (size_t i = 0; i < map.nx * map.ny; i++)
			map.value[i] = seed_whole(rng, 0, 3) == 0 ? (float)seed_whole(rng, 0, 900)
								  : NAN;
		/* sizes whose halves have no border on a column's y */
		size_t most = (size_t)seed_whole(rng, 0, 1) ? 14 : 21;
		assert_int_equal(block_cells_make(&cells, &map, &part, most, pick, NULL),
				 FAULT_NONE);
		for (size_t i = 0; i < 2 * cells.rows * cells.columns; i++) {
			float slow = pick_slowly(&cells, &map, i / cells.columns, i % cells.columns,
						 pick);
			assert_true(isnan(slow) ? isnan(cells.value[i]) : slow == cells.value[i]);
		}
		block_cells_free(&cells);
	}
	free(map.value);
	gsl_rng_free(rng);
}

/* What is the same on both sides looks the same, also where a column lies on
 * the border of two halves. */
static void both_sides_are_treated_alike(void **state)
{
	(void)state;
	struct column_map map = sample_map(NAN);
	struct block_part part = { -5.0, 34.5, 4.75 };

	for (size_t iy = 0; iy < map.ny; iy++)
		for (size_t ix = 0; ix < map.nx; ix++)
			map.value[iy * map.nx + ix] =
				(float)fabs(map.y0_mm + (double)iy * map.cell_mm);
	for (size_t most = 3; most <= 41; most++) {
		struct block_cells cells;
		assert_int_equal(block_cells_make(&cells, &map, &part, most, BLOCK_PICK_MOST, NULL),
				 FAULT_NONE);
		for (size_t half = 0; half < cells.rows; half++) {
			float upper = cells.value[half * cells.columns];
			float lower = cells.value[(2 * cells.rows - 1 - half) * cells.columns];
			assert_true(upper == lower || (isnan(upper) && isnan(lower)));
		}
		block_cells_free(&cells);
	}
	free(map.value);
}

static void an_empty_part_is_a_cell_at_the_nut(void **state)
{
	(void)state;
	struct column_map map = sample_map(NAN);
	struct block_part part = block_part_none();
	struct block_cells cells;

	assert_int_equal(block_cells_make(&cells, &map, &part, 70, BLOCK_PICK_MOST, NULL),
			 FAULT_NONE);
	assert_int_equal(cells.columns, 1);
	assert_int_equal(cells.rows, 1);
	assert_true(isnan(cells.value[0]) && isnan(cells.value[1]));
	block_cells_free(&cells);
	free(map.value);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_part_holds_what_has_a_value),
		cmocka_unit_test(cells_are_as_small_as_fit),
		cmocka_unit_test(each_half_keeps_the_value_that_matters),
		cmocka_unit_test(both_sides_are_treated_alike),
		cmocka_unit_test(an_empty_part_is_a_cell_at_the_nut),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
