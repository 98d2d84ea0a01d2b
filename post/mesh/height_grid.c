/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "mesh/height_grid.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "mesh/height_solid.h"

/* Corners at whole multiples of this are kept in every row, so that skipped
 * stretches of neighbouring rows begin and end together: triangles between
 * rows that are cut at very different x would show as teeth. */
#define ALIGNED_CORNERS 16

static bool is_wood(const struct height_grid *grid, size_t ix, size_t iy)
{
	float top = height_grid_z(grid, SHEET_TOP, ix, iy);
	float bottom = height_grid_z(grid, SHEET_BOTTOM, ix, iy);

	return isfinite(top) && isfinite(bottom) && top - bottom >= (float)HEIGHT_THINNEST_MM;
}

static void find_cells(struct height_grid *grid)
{
	for (size_t iy = 0; iy + 1 < grid->ny; iy++)
		for (size_t ix = 0; ix + 1 < grid->nx; ix++)
			grid->cell[iy * grid->nx + ix] =
				is_wood(grid, ix, iy) && is_wood(grid, ix + 1, iy) &&
				is_wood(grid, ix, iy + 1) && is_wood(grid, ix + 1, iy + 1);
}

/* Wood in a cell, as the sum of its corners' thicknesses. */
static float thickness(const struct height_grid *grid, size_t ix, size_t iy)
{
	float sum = 0.0f;

	for (size_t corner = 0; corner < 4; corner++) {
		size_t x = ix + corner % 2, y = iy + corner / 2;
		sum += height_grid_z(grid, SHEET_TOP, x, y) -
		       height_grid_z(grid, SHEET_BOTTOM, x, y);
	}
	return sum;
}

/* If two cells meet in this corner and in nothing else, removes the thinner. */
static bool part_at(struct height_grid *grid, size_t ix, size_t iy)
{
	bool low_left = height_grid_cell(grid, ix - 1, iy - 1);
	bool low_right = height_grid_cell(grid, ix, iy - 1);
	bool high_left = height_grid_cell(grid, ix - 1, iy);
	bool high_right = height_grid_cell(grid, ix, iy);

	if (low_left != high_right || low_right != high_left || low_left == low_right)
		return false;
	size_t low_x = low_left ? ix - 1 : ix, high_x = low_left ? ix : ix - 1;
	if (thickness(grid, low_x, iy - 1) < thickness(grid, high_x, iy))
		grid->cell[(iy - 1) * grid->nx + low_x] = 0;
	else
		grid->cell[iy * grid->nx + high_x] = 0;
	return true;
}

/* Removing one cell can leave another pair touching, so this goes on until a
 * round finds none; every find removes a cell, so it ends. */
static void part_touching(struct height_grid *grid)
{
	bool found = true;

	while (found) {
		found = false;
		for (size_t iy = 1; iy + 1 < grid->ny; iy++)
			for (size_t ix = 1; ix + 1 < grid->nx; ix++)
				found = part_at(grid, ix, iy) || found;
	}
}

/* Number of cells around a corner: 0 unused, 4 inside, else on the border. */
static int cells_around(const struct height_grid *grid, size_t ix, size_t iy)
{
	return height_grid_cell(grid, ix, iy) + height_grid_cell(grid, ix - 1, iy) +
	       height_grid_cell(grid, ix, iy - 1) + height_grid_cell(grid, ix - 1, iy - 1);
}

/* Slopes of the lines from the last kept corner that pass every skipped one
 * within the tolerance. */
struct window {
	size_t from; /* the last kept corner */
	double least, most; /* mm per corner */
};

static void open_window(struct window *window, size_t from)
{
	*window = (struct window){ from, -INFINITY, INFINITY };
}

/* Would a line from the last kept corner to this one do? If not, the corner
 * before this one must be kept too. */
static bool sees(const struct window *window, double slope)
{
	return slope >= window->least && slope <= window->most;
}

/* Marks the corners of one row that the mesh needs. */
static void keep_row(struct height_grid *grid, int sheet, size_t iy)
{
	unsigned char *kept = grid->kept[sheet] + iy * grid->nx;
	struct window window = { 0 };
	bool open = false;

	for (size_t ix = 0; ix < grid->nx; ix++) {
		int around = cells_around(grid, ix, iy);
		double z = around ? (double)height_grid_z(grid, sheet, ix, iy) : 0.0;
		if (around && open) {
			double step = (double)(ix - window.from);
			double start = (double)height_grid_z(grid, sheet, window.from, iy);
			if (!sees(&window, (z - start) / step)) {
				kept[ix - 1] = 1;
				open_window(&window, ix - 1);
				start = (double)height_grid_z(grid, sheet, ix - 1, iy);
				step = 1.0;
			}
			window.least = fmax(window.least, (z - HEIGHT_CHORD_MM - start) / step);
			window.most = fmin(window.most, (z + HEIGHT_CHORD_MM - start) / step);
		}
		if (around == 0 || around == 4) {
			open = around == 4;
			if (!open || ix % ALIGNED_CORNERS != 0)
				continue;
		}
		kept[ix] = 1;
		open = true;
		open_window(&window, ix);
	}
}

static void keep_corners(struct height_grid *grid)
{
	for (int sheet = 0; sheet < SHEET_COUNT; sheet++)
		for (size_t iy = 0; iy < grid->ny; iy++)
			keep_row(grid, sheet, iy);
}

static bool same_columns(const struct column_map *a, const struct column_map *b)
{
	return a->nx == b->nx && a->ny == b->ny && a->cell_mm == b->cell_mm &&
	       a->x0_mm == b->x0_mm && a->y0_mm == b->y0_mm;
}

enum fault height_grid_build(struct height_grid *out, const struct column_map *top,
			     const struct column_map *bottom, size_t stride,
			     struct fault_list *faults)
{
	*out = (struct height_grid){ .map = { bottom, top }, .stride = stride };
	if (stride == 0 || !same_columns(top, bottom))
		return fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
				 "The maps of the wood's top and bottom do not match.");
	if (top->nx == 0 || top->ny == 0)
		return FAULT_NONE;
	out->nx = (top->nx - 1) / stride + 1;
	out->ny = (top->ny - 1) / stride + 1;
	size_t corners = out->nx * out->ny;
	out->cell = mem_array(corners, 1);
	out->kept[SHEET_BOTTOM] = mem_array(corners, 1);
	out->kept[SHEET_TOP] = mem_array(corners, 1);
	if (!out->cell || !out->kept[SHEET_BOTTOM] || !out->kept[SHEET_TOP])
		return fault_no_memory(faults, "the mesh of the roughed wood");
	find_cells(out);
	part_touching(out);
	keep_corners(out);
	return FAULT_NONE;
}

void height_grid_free(struct height_grid *grid)
{
	free(grid->cell);
	free(grid->kept[SHEET_BOTTOM]);
	free(grid->kept[SHEET_TOP]);
	*grid = (struct height_grid){ 0 };
}
