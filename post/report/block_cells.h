/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A map of columns gathered into few square cells, each in an upper and a lower
 * half, as they fit a page of characters. */
#ifndef NECKHEW_REPORT_BLOCK_CELLS_H
#define NECKHEW_REPORT_BLOCK_CELLS_H

#include <stddef.h>

#include "base/fault.h"
#include "job/result.h"

/* Of several columns in one place, the one that matters is kept. */
enum block_pick { BLOCK_PICK_MOST, BLOCK_PICK_LEAST };

/* What is shown of the neck, mm; across it is symmetric to the centre line. */
struct block_part {
	double x_from_mm, x_to_mm, y_most_mm;
};

struct block_cells {
	size_t columns, rows; /* rows is odd: the centre line runs through the middle one */
	double cell_mm; /* long and broad; a half is half as broad */
	double x_from_mm; /* left end, a multiple of cell_mm */
	double y_top_mm; /* upper end, toward +y */
	float *value; /* [(2 row + lower) columns + column]; NAN where nothing is */
};

/* An empty part, to be widened. */
struct block_part block_part_none(void);

/* Widens the part to every column of the map whose value exceeds `above`. */
void block_part_add(struct block_part *part, const struct column_map *map, double above);

/* Gathers the part of the map into at most `most` columns of cells, as small as
 * may be: whole halves of a mm (tenths under 2 mm), and no smaller than two
 * columns of the map. An empty part counts as a cell at the nut. FAULT_MEMORY.
 * Release with block_cells_free. */
enum fault block_cells_make(struct block_cells *out, const struct column_map *map,
			    const struct block_part *part, size_t most, enum block_pick pick,
			    struct fault_list *faults);
void block_cells_free(struct block_cells *cells);

#endif
