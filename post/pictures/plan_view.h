/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The neck from above as it lies on the machine, back up: blank, finished edges,
 * fretboard, channel, holding places and keep-outs, and its widths. */
#ifndef NECKHEW_PICTURES_PLAN_VIEW_H
#define NECKHEW_PICTURES_PLAN_VIEW_H

#include "job/job.h"
#include "pictures/canvas.h"
#include "pictures/lanes.h"
#include "pictures/map.h"
#include "pictures/neck_lines.h"
#include "pictures/pen.h"
#include "pictures/plan_table.h"

struct plan_view {
	struct sheet_words words;
	const struct job *job; /* blank, fixture, channel, carve */
	const struct neck_lines *lines;
	struct lanes lanes;
	size_t fret_count; /* fret_x_mm[0] is the nut, [fret_count] the last fret */
	const double *fret_x_mm; /* fret_count + 1 of them */
	double board_nut_mm, board_end_mm; /* fretboard's width at nut and last fret */
	size_t station_count;
	const struct station_figures *station;
	const struct chisel *chisel; /* what is left for it */
	size_t row_count; /* of the table of widths */
	const struct plan_row *row;
};

/* Where the plan lies on the sheet: all of blank, neck and places. */
struct map_view plan_view_place(const struct plan_view *plan);

double plan_view_height_mm(const struct plan_view *plan);

void plan_view_draw(struct canvas *canvas, const struct plan_view *plan);

#endif
