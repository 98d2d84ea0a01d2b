/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cut depth per pass: a sheet of small maps under one colour scale. */
#ifndef NECKHEW_PICTURES_CUT_SHEET_H
#define NECKHEW_PICTURES_CUT_SHEET_H

#include <stdbool.h>

#include "job/result.h"
#include "pictures/canvas.h"
#include "pictures/cut_layout.h"
#include "pictures/map.h"
#include "pictures/neck_lines.h"
#include "pictures/pen.h"

struct cut_sheet {
	struct sheet_words words;
	size_t program_count;
	const struct program_figures *program;
	size_t cut_count; /* passes of all programs together */
	const struct column_map *cut; /* one per pass, in program order */
	const struct map_extent *touched; /* of each of them; see map_extent_add_cut */
	const struct column_map *blank; /* NAN where there is no wood; same grid; or NULL */
	const struct neck_lines *lines; /* the finished neck, or NULL */
	double flats_from_mm; /* from here on the flats of its heel are drawn */
};

/* Height of the sheet these passes need, mm. */
double cut_sheet_height_mm(const struct cut_sheet *sheet);

/* The same for cut_layout. */
struct cut_passes cut_sheet_passes(const struct cut_sheet *sheet);

/* The colour scale, common to all maps. It ends at the deepest bite, rounded
 * up: at a steep wall a column may lose more, bite by bite, and shares the last
 * colour. */
struct cut_range {
	double full_mm;
	bool beyond; /* some columns lose more */
};

struct cut_range cut_sheet_range(const struct cut_sheet *sheet);

/* Where a pass's map lies on the sheet. */
struct map_view cut_sheet_view(const struct cut_layout *layout, const struct cut_place *place);

/* FAULT_INTERNAL when there are not as many maps as passes. */
enum fault cut_sheet_draw(struct canvas *canvas, const struct cut_sheet *sheet,
			  struct fault_list *faults);

#endif
