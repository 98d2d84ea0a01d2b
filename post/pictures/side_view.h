/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The neck from the side, along its centre line: blank, roughed and finished
 * line over the gluing face, fretboard below it, stations with their figures. */
#ifndef NECKHEW_PICTURES_SIDE_VIEW_H
#define NECKHEW_PICTURES_SIDE_VIEW_H

#include <stdbool.h>

#include "job/job.h"
#include "job/result.h"
#include "pictures/canvas.h"
#include "pictures/lanes.h"
#include "pictures/pen.h"

struct side_view {
	struct sheet_words words;
	/* lines over x, rising; NAN where there is nothing */
	const struct profile_line *finished, *roughed, *blank_top;
	const struct profile_line *underside; /* of the finished wood */
	const struct profile_line *blank_bottom;
	double fretboard_thickness_mm;
	size_t fret_count; /* fret_x_mm[0] is the nut, [fret_count] the last fret */
	const double *fret_x_mm; /* fret_count + 1 of them */
	size_t station_count;
	const struct station_figures *station;
	bool over_fretboard; /* thickness figures span fretboard and wood */
	const struct job *job; /* channel and fixture */
	struct lanes lanes;
};

double side_view_height_mm(const struct side_view *view);

/* FAULT_INTERNAL when a line that must be there has no points. */
enum fault side_view_draw(struct canvas *canvas, const struct side_view *view,
			  struct fault_list *faults);

#endif
