/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/block_cells.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"

/* A figure this much over a round one still counts as that, as a share. */
#define ROUND_SLACK 1e-9
/* Sizes of cells up to here go by tenths of a mm, larger ones by halves. */
#define FINE_BELOW_MM 2.0

struct block_part block_part_none(void)
{
	return (struct block_part){ INFINITY, -INFINITY, 0.0 };
}

void block_part_add(struct block_part *part, const struct column_map *map, double above)
{
	for (size_t iy = 0; iy < map->ny; iy++)
		for (size_t ix = 0; ix < map->nx; ix++) {
			double x = map->x0_mm + (double)ix * map->cell_mm;
			double y = map->y0_mm + (double)iy * map->cell_mm;
			/* false for NAN, too */
			if (!((double)map->value[iy * map->nx + ix] > above))
				continue;
			part->x_from_mm = smaller(part->x_from_mm, x);
			part->x_to_mm = larger(part->x_to_mm, x);
			part->y_most_mm = larger(part->y_most_mm, fabs(y));
		}
}

/* The smallest size for cells that is no smaller than `least_mm`. */
static double cell_size_mm(double least_mm)
{
	double parts = least_mm > FINE_BELOW_MM ? 2.0 : 10.0;

	return ceil(least_mm * parts * (1.0 - ROUND_SLACK)) / parts;
}

/* Chooses the cells' size. The left end is a multiple of it, which may cost a
 * column more than the length alone would. */
static void lay_out(struct block_cells *cells, const struct block_part *part, size_t most,
		    double least_mm)
{
	double length = part->x_to_mm - part->x_from_mm;
	double cell = cell_size_mm(larger(least_mm, length / (double)most));
	double from = floor(part->x_from_mm / cell), to = floor(part->x_to_mm / cell);

	while (to - from + 1.0 > (double)most) {
		cell = cell_size_mm(cell * 1.001);
		from = floor(part->x_from_mm / cell);
		to = floor(part->x_to_mm / cell);
	}
	cells->cell_mm = cell;
	cells->x_from_mm = from * cell;
	cells->columns = (size_t)(to - from) + 1;
	size_t beside = (size_t)ceil(larger(part->y_most_mm / cell - 0.5, 0.0));
	cells->rows = 2 * beside + 1;
	cells->y_top_mm = cell * ((double)beside + 0.5);
}

/* Place of a column in cells->value; false outside the part. What lies between
 * two halves belongs to the inner one on both sides, so that a neck that is the
 * same on both sides looks so. */
static bool place(const struct block_cells *cells, double x_mm, double y_mm, size_t *out)
{
	double column = floor((x_mm - cells->x_from_mm) / cells->cell_mm);
	double half = floor((cells->y_top_mm - fabs(y_mm)) / (cells->cell_mm / 2.0));

	if (column < 0.0 || column >= (double)cells->columns || half < 0.0)
		return false;
	half = smaller(half, (double)cells->rows - 1.0);
	if (y_mm < 0.0)
		half = 2.0 * (double)cells->rows - 1.0 - half;
	*out = (size_t)half * cells->columns + (size_t)column;
	return true;
}

static void gather(struct block_cells *cells, const struct column_map *map, enum block_pick pick)
{
	size_t at;

	for (size_t iy = 0; iy < map->ny; iy++)
		for (size_t ix = 0; ix < map->nx; ix++) {
			double x = map->x0_mm + (double)ix * map->cell_mm;
			double y = map->y0_mm + (double)iy * map->cell_mm;
			float value = map->value[iy * map->nx + ix];
			if (isnan(value) || !place(cells, x, y, &at))
				continue;
			float *kept = &cells->value[at];
			bool better = pick == BLOCK_PICK_MOST ? value > *kept : value < *kept;
			if (isnan(*kept) || better)
				*kept = value;
		}
}

enum fault block_cells_make(struct block_cells *out, const struct column_map *map,
			    const struct block_part *part, size_t most, enum block_pick pick,
			    struct fault_list *faults)
{
	const struct block_part nut = { 0.0, 0.0, 0.0 };

	*out = (struct block_cells){ 0 };
	lay_out(out, part->x_to_mm >= part->x_from_mm ? part : &nut, most, 2.0 * map->cell_mm);
	out->value = mem_array(2 * out->rows * out->columns, sizeof *out->value);
	if (!out->value)
		return fault_no_memory(faults, "a map in characters");
	for (size_t i = 0; i < 2 * out->rows * out->columns; i++)
		out->value[i] = NAN;
	gather(out, map, pick);
	return FAULT_NONE;
}

void block_cells_free(struct block_cells *cells)
{
	free(cells->value);
	*cells = (struct block_cells){ 0 };
}
