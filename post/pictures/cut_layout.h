/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the maps of all passes go on their sheet. Every map has one scale; one
 * of a pass that touches little of the neck is cut to that part, so that the
 * others may be larger. */
#ifndef NECKHEW_PICTURES_CUT_LAYOUT_H
#define NECKHEW_PICTURES_CUT_LAYOUT_H

#include <stdbool.h>

#include "job/result.h"
#include "pictures/map.h"

/* The tallest sheet that an upright A4 page still takes at full width: 277 by
 * 190 mm inside its margins. */
#define CUT_LAYOUT_HEIGHT_MM 390.0

struct cut_passes {
	size_t program_count;
	const struct program_figures *program;
	size_t cut_count; /* passes of all programs together */
	const struct map_extent *touched; /* what each pass cuts; none: nothing */
	struct map_extent blank; /* all the wood there is */
};

struct cut_layout {
	struct map_extent common; /* of all passes together, with air */
	struct map_extent part[2]; /* of passes that touch little, toward nut and body */
	int columns; /* of whole maps side by side */
	double scale; /* paper mm per mm */
	double height_mm; /* of the sheet */
};

/* One pass on the sheet: its caption's corner, and the part of the neck that
 * its map shows below. */
struct cut_place {
	struct map_extent part;
	bool whole; /* all of the common extent */
	double left_mm, top_mm;
};

/* Goes from pass to pass. */
struct cut_cursor {
	double x_mm, y_mm; /* where the next one goes */
	size_t pass; /* that one's number, from 0 */
	size_t program, in_program;
};

/* As few columns as the height allows, at most four. */
struct cut_layout cut_layout_of(const struct cut_passes *passes);

/* Figures under the whole maps; with narrow ones there are ticks alone. */
bool cut_layout_has_axes(const struct cut_layout *layout);

/* Height of the caption above a map, mm. */
double cut_layout_caption_mm(void);

/* Start with cut_layout_start; each call gives the next pass its place, *heading
 * the top of its program's heading when it is the first one, else NAN. False
 * behind the last pass. */
struct cut_cursor cut_layout_start(void);
bool cut_layout_next(const struct cut_layout *layout, const struct cut_passes *passes,
		     struct cut_cursor *cursor, struct cut_place *place, double *heading_mm);

#endif
