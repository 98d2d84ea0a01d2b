/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "mesh/height_solid.h"

#include "mesh/height_grid.h"

struct mesher {
	const struct triangle_sink *sink;
	const struct height_grid *grid;
	struct vec3 zero;
};

static struct mesh_point corner(const struct mesher *mesher, int sheet, size_t ix, size_t iy)
{
	const struct column_map *map = mesher->grid->map[sheet];
	double step_mm = map->cell_mm * (double)mesher->grid->stride;
	struct vec3 point = { map->x0_mm + step_mm * (double)ix, map->y0_mm + step_mm * (double)iy,
			      (double)height_grid_z(mesher->grid, sheet, ix, iy) };

	return mesh_point(point, mesher->zero);
}

/* The next corner of the mesh along a row; the end of a run is one. */
static size_t next_kept(const struct height_grid *grid, int sheet, size_t ix, size_t iy)
{
	do
		ix++;
	while (!grid->kept[sheet][iy * grid->nx + ix]);
	return ix;
}

/* Fills a run of cells between two rows of corners with triangles: always on
 * from the row whose next corner comes first. */
static void fill_run(const struct mesher *mesher, int sheet, size_t from, size_t to, size_t iy)
{
	const struct height_grid *grid = mesher->grid;
	size_t low = from, high = from;

	while (low < to || high < to) {
		size_t next_low = low < to ? next_kept(grid, sheet, low, iy) : to + 1;
		size_t next_high = high < to ? next_kept(grid, sheet, high, iy + 1) : to + 1;
		bool step_low = next_low <= next_high;
		struct mesh_point a = corner(mesher, sheet, low, iy);
		struct mesh_point b = step_low ? corner(mesher, sheet, next_low, iy)
					       : corner(mesher, sheet, next_high, iy + 1);
		struct mesh_point c = corner(mesher, sheet, high, iy + 1);
		if (sheet == SHEET_TOP)
			mesh_triangle(mesher->sink, a, b, c);
		else
			mesh_triangle(mesher->sink, a, c, b);
		if (step_low)
			low = next_low;
		else
			high = next_high;
	}
}

static void fill_row(const struct mesher *mesher, size_t iy)
{
	const struct height_grid *grid = mesher->grid;

	for (size_t ix = 0; ix + 1 < grid->nx; ix++) {
		if (!height_grid_cell(grid, ix, iy))
			continue;
		size_t to = ix;
		while (height_grid_cell(grid, to, iy))
			to++;
		for (int sheet = 0; sheet < SHEET_COUNT; sheet++)
			fill_run(mesher, sheet, ix, to, iy);
		ix = to;
	}
}

/* A wall over one side of a cell; a to b runs to the right seen from outside. */
static void wall(const struct mesher *mesher, size_t ax, size_t ay, size_t bx, size_t by)
{
	mesh_quad(mesher->sink, corner(mesher, SHEET_BOTTOM, ax, ay),
		  corner(mesher, SHEET_BOTTOM, bx, by), corner(mesher, SHEET_TOP, bx, by),
		  corner(mesher, SHEET_TOP, ax, ay));
}

static void wall_row(const struct mesher *mesher, size_t y)
{
	const struct height_grid *grid = mesher->grid;

	for (size_t x = 0; x + 1 < grid->nx; x++) {
		if (!height_grid_cell(grid, x, y))
			continue;
		if (!height_grid_cell(grid, x, y - 1))
			wall(mesher, x, y, x + 1, y);
		if (!height_grid_cell(grid, x + 1, y))
			wall(mesher, x + 1, y, x + 1, y + 1);
		if (!height_grid_cell(grid, x, y + 1))
			wall(mesher, x + 1, y + 1, x, y + 1);
		if (!height_grid_cell(grid, x - 1, y))
			wall(mesher, x, y + 1, x, y);
	}
}

enum fault height_solid(const struct triangle_sink *sink, const struct column_map *top,
			const struct column_map *bottom, size_t stride, struct vec3 work_zero_mm,
			struct fault_list *faults)
{
	struct height_grid grid;
	enum fault fault = height_grid_build(&grid, top, bottom, stride, faults);
	struct mesher mesher = { sink, &grid, work_zero_mm };

	if (fault == FAULT_NONE)
		for (size_t iy = 0; iy + 1 < grid.ny; iy++) {
			fill_row(&mesher, iy);
			wall_row(&mesher, iy);
		}
	height_grid_free(&grid);
	return fault;
}
