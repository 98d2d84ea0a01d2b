/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "mesh/height_solid.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/seed.h"
#include "support/solid.h"

static void collect(void *context, const struct mesh_point corner[3])
{
	const float as_array[3][3] = { { corner[0].x, corner[0].y, corner[0].z },
				       { corner[1].x, corner[1].y, corner[1].z },
				       { corner[2].x, corner[2].y, corner[2].z } };

	solid_add(context, as_array);
}

static struct column_map map_of(size_t nx, size_t ny, float value)
{
	struct column_map map = { .nx = nx, .ny = ny, .x0_mm = -7.0, .y0_mm = 3.0, .cell_mm = 0.5 };

	map.value = calloc(nx * ny, sizeof *map.value);
	assert_non_null(map.value);
	for (size_t i = 0; i < nx * ny; i++)
		map.value[i] = value;
	return map;
}

static struct solid solid_of(const struct column_map *top, const struct column_map *bottom,
			     size_t stride)
{
	struct solid solid = { 0 };
	const struct triangle_sink sink = { collect, &solid };
	const struct vec3 zero = { 1.0, 2.0, 30.0 };

	assert_int_equal(height_solid(&sink, top, bottom, stride, zero, NULL), FAULT_NONE);
	solid_assert_closed(&solid);
	return solid;
}

static void a_plate_has_its_volume_and_place(void **state)
{
	(void)state;
	struct column_map top = map_of(41, 21, 9.0f), bottom = map_of(41, 21, -1.0f);

	for (size_t stride = 1; stride <= 5; stride += 4) {
		struct solid solid = solid_of(&top, &bottom, stride);
		struct vec3 least, most;
		assert_near(solid_volume_mm3(&solid), 20.0 * 10.0 * 10.0, 1e-3, "volume, mm3");
		solid_bounds(&solid, &least, &most);
		assert_near(least.x, -8.0, 1e-6, "least x, mm");
		assert_near(most.x, 12.0, 1e-6, "most x, mm");
		assert_near(least.y, 1.0, 1e-6, "least y, mm");
		assert_near(most.y, 11.0, 1e-6, "most y, mm");
		assert_near(least.z, -31.0, 1e-6, "least z, mm");
		assert_near(most.z, -21.0, 1e-6, "most z, mm");
		solid_free(&solid);
	}
	free(top.value);
	free(bottom.value);
}

/* A plane needs no corners inside but the aligned ones: far fewer triangles
 * than two for each cell. */
static void flat_stretches_are_not_cut_up(void **state)
{
	(void)state;
	struct column_map top = map_of(161, 81, 0.0f), bottom = map_of(161, 81, 0.0f);

	for (size_t i = 0; i < top.nx * top.ny; i++) {
		size_t ix = i % 161, iy = i / 161;
		top.value[i] = 10.0f + 0.125f * (float)ix + 0.25f * (float)iy;
	}
	struct solid solid = solid_of(&top, &bottom, 1);
	assert_near(solid_volume_mm3(&solid), 80.0 * 40.0 * (10.0 + 10.0 + 10.0), 0.5,
		    "volume under the plane, mm3");
	assert_between((double)solid.count, 12.0, 0.3 * 4.0 * 160.0 * 80.0, "triangles");
	solid_free(&solid);
	free(top.value);
	free(bottom.value);
}

static void a_hole_and_an_island_are_closed(void **state)
{
	(void)state;
	struct column_map top = map_of(31, 31, 8.0f), bottom = map_of(31, 31, 0.0f);

	for (size_t iy = 5; iy <= 25; iy++)
		for (size_t ix = 5; ix <= 25; ix++)
			if (ix < 11 || ix > 19 || iy < 11 || iy > 19)
				top.value[iy * 31 + ix] = (ix + iy) % 2 ? NAN : -1.0f;
	struct solid solid = solid_of(&top, &bottom, 1);
	/* 30 x 30 cells, less the 22 x 22 around the hole, and 8 x 8 within */
	assert_near(solid_volume_mm3(&solid), (900.0 - 484.0 + 64.0) * 0.25 * 8.0, 1e-2,
		    "volume, mm3");
	solid_free(&solid);
	free(top.value);
	free(bottom.value);
}

/* Two blocks of 2 x 2 cells that meet in one corner. The thinner block gives up
 * the cell there, so each vertical edge keeps two faces. */
static void blocks_touching_at_a_corner_are_parted(void **state)
{
	(void)state;
	for (int mirrored = 0; mirrored < 2; mirrored++) {
		struct column_map top = map_of(5, 5, NAN), bottom = map_of(5, 5, 0.0f);
		for (size_t iy = 0; iy < 5; iy++)
			for (size_t ix = 0; ix < 5; ix++) {
				size_t at = iy * 5 + (mirrored ? 4 - ix : ix);
				if (ix >= 2 && iy >= 2)
					top.value[at] = 6.0f;
				else if (ix <= 2 && iy <= 2)
					top.value[at] = 4.0f;
			}
		struct solid solid = solid_of(&top, &bottom, 1);
		/* cells of 4 x 6 and, without the touching one, 3 x 4 high */
		assert_near(solid_volume_mm3(&solid), 0.25 * (4.0 * 6.0 + 3.0 * 4.0), 1e-4,
			    "volume, mm3");
		solid_free(&solid);
		free(top.value);
		free(bottom.value);
	}
}

static void no_wood_is_no_triangles(void **state)
{
	(void)state;
	struct column_map top = map_of(9, 7, NAN), bottom = map_of(9, 7, 0.0f);
	struct column_map thin = map_of(9, 7, 0.01f), one = map_of(1, 1, 5.0f);
	struct column_map one_bottom = map_of(1, 1, 0.0f), none = { 0 };
	struct solid solid = solid_of(&top, &bottom, 1);

	assert_int_equal(solid.count, 0);
	solid = solid_of(&thin, &bottom, 2);
	assert_int_equal(solid.count, 0);
	solid = solid_of(&one, &one_bottom, 3);
	assert_int_equal(solid.count, 0);
	solid = solid_of(&none, &none, 1);
	assert_int_equal(solid.count, 0);
	free(top.value);
	free(bottom.value);
	free(thin.value);
	free(one.value);
	free(one_bottom.value);
}

static void maps_that_do_not_match_are_refused(void **state)
{
	(void)state;
	struct column_map top = map_of(9, 7, 5.0f), bottom = map_of(9, 7, 0.0f);
	struct solid solid = { 0 };
	const struct triangle_sink sink = { collect, &solid };
	const struct vec3 zero = { 0.0, 0.0, 0.0 };
	struct column_map moved = bottom, narrow = bottom;

	moved.y0_mm += 0.1;
	narrow.ny--;
	assert_int_equal(height_solid(&sink, &top, &moved, 1, zero, NULL), FAULT_INTERNAL);
	assert_int_equal(height_solid(&sink, &top, &narrow, 1, zero, NULL), FAULT_INTERNAL);
	assert_int_equal(height_solid(&sink, &top, &bottom, 0, zero, NULL), FAULT_INTERNAL);
	assert_int_equal(solid.count, 0);
	free(top.value);
	free(bottom.value);
}

/* Every column that an edge along x passes over lies within the tolerance of
 * that edge: nothing is lost where corners are left out. */
static void assert_edges_follow(const struct solid *solid, const struct column_map *map, int top)
{
	for (size_t i = 0; i < solid->count; i++)
		for (int k = 0; k < 3; k++) {
			const float *a = solid->item[i].corner[k];
			const float *b = solid->item[i].corner[(k + 1) % 3];
			const float *c = solid->item[i].corner[(k + 2) % 3];
			if (a[1] != b[1] || a[0] == b[0] || c[1] == a[1])
				continue; /* no edge along x, or a wall */
			/* counter-clockwise from above is the top */
			if (((b[0] - a[0]) * (c[1] - a[1]) > 0.0f) != (top != 0))
				continue;
			size_t iy = (size_t)lround(((double)a[1] + 2.0 - map->y0_mm) / 0.5);
			long from = lround(((double)a[0] + 1.0 - map->x0_mm) / 0.5);
			long to = lround(((double)b[0] + 1.0 - map->x0_mm) / 0.5);
			for (long x = from < to ? from : to; x <= (from < to ? to : from); x++) {
				double t = (double)(x - from) / (double)(to - from);
				double z = (double)a[2] + t * ((double)b[2] - (double)a[2]) + 30.0;
				double true_z = (double)map->value[iy * map->nx + (size_t)x];
				assert_near(z, true_z, HEIGHT_CHORD_MM + 1e-5,
					    "edge over a column, mm");
			}
		}
}

/* Ragged masks, ragged heights, every stride. */
static void random_wood_is_closed_and_followed(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("random_wood_is_closed_and_followed");

	for (int round = 0; round < 300; round++) {
		size_t nx = seed_whole(rng, 1, 60), ny = seed_whole(rng, 1, 40);
		double holes = seed_between(rng, 0.0, 0.6), rough = seed_between(rng, 0.0, 0.02);
		struct column_map top = map_of(nx, ny, 0.0f), bottom = map_of(nx, ny, 0.0f);
		for (size_t i = 0; i < nx * ny; i++) {
			size_t ix = i % nx, iy = i / nx;
			double wave = sin(0.05 * (double)ix + 0.1 * (double)iy);
			double z = 20.0 + 3.0 * wave + seed_between(rng, 0.0, rough);
			top.value[i] = seed_between(rng, 0.0, 1.0) < holes ? NAN : (float)z;
			bottom.value[i] = (float)seed_between(rng, 0.0, rough);
		}
		struct solid solid = solid_of(&top, &bottom, 1);
		assert_edges_follow(&solid, &top, 1);
		assert_edges_follow(&solid, &bottom, 0);
		assert_true(solid.count == 0 || solid_volume_mm3(&solid) > 0.0);
		solid_free(&solid);
		solid = solid_of(&top, &bottom, seed_whole(rng, 2, 7));
		solid_free(&solid);
		free(top.value);
		free(bottom.value);
	}
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_plate_has_its_volume_and_place),
		cmocka_unit_test(flat_stretches_are_not_cut_up),
		cmocka_unit_test(a_hole_and_an_island_are_closed),
		cmocka_unit_test(blocks_touching_at_a_corner_are_parted),
		cmocka_unit_test(no_wood_is_no_triangles),
		cmocka_unit_test(maps_that_do_not_match_are_refused),
		cmocka_unit_test(random_wood_is_closed_and_followed),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
