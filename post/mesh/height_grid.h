/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The corners and cells behind a height solid. Private to height_solid. */
#ifndef NECKHEW_MESH_HEIGHT_GRID_H
#define NECKHEW_MESH_HEIGHT_GRID_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "job/result.h"

enum height_sheet { SHEET_BOTTOM, SHEET_TOP, SHEET_COUNT };

struct height_grid {
	const struct column_map *map[SHEET_COUNT];
	size_t stride; /* in columns of the maps */
	size_t nx, ny; /* corners */
	unsigned char *cell; /* [iy * nx + ix]: wood between this corner and the next */
	unsigned char *kept[SHEET_COUNT]; /* per corner: it is a corner of the mesh */
};

/* Release with height_grid_free, also after a failure. */
enum fault height_grid_build(struct height_grid *out, const struct column_map *top,
			     const struct column_map *bottom, size_t stride,
			     struct fault_list *faults);
void height_grid_free(struct height_grid *grid);

/* z of a corner, mm. */
static inline float height_grid_z(const struct height_grid *grid, int sheet, size_t ix, size_t iy)
{
	const struct column_map *map = grid->map[sheet];

	return map->value[iy * grid->stride * map->nx + ix * grid->stride];
}

/* Is there a cell at this place? Places outside the grid have none; before the
 * first row or column the index has wrapped round and is just as far outside. */
static inline bool height_grid_cell(const struct height_grid *grid, size_t ix, size_t iy)
{
	return ix < grid->nx && iy < grid->ny && grid->cell[iy * grid->nx + ix];
}

#endif
