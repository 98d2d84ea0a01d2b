/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The section at one station: blank, roughed, allowance and finished outline on
 * millimetre ruling, with the channel and the figures a builder checks. */
#ifndef NECKHEW_PICTURES_SECTION_PANEL_H
#define NECKHEW_PICTURES_SECTION_PANEL_H

#include <stddef.h>

#include "job/result.h"
#include "job/section_line.h"
#include "pictures/canvas.h"

struct section_panel {
	double fret, x_mm;
	size_t finished_count;
	double *finished_y_mm, *finished_z_mm; /* edge to edge over the crest */
	size_t roughed_count;
	double *roughed_y_mm, *roughed_z_mm; /* y rising; z NAN where no wood stands */
	struct section_line grown; /* finished plus allowance */
	double blank_minus_mm, blank_plus_mm, blank_bottom_mm, blank_top_mm;
	double board_width_mm, board_thickness_mm; /* 0 thickness: no fretboard here */
	double channel_width_mm, channel_depth_mm; /* 0: no channel here */
	double roughed_mm, finished_mm; /* thickness as the builder states it */
	double width_mm; /* of the wood at the gluing face */
	double over_channel_mm; /* finished wood over the channel; NAN without one */
	struct cove_figures cove[2]; /* by enum neck_side; 0 for none */
	double least_stock_mm; /* left along the normal on this section; NAN unknown */
};

/* Height of the words above a panel, mm on paper. */
#define SECTION_CAPTION_MM 13.4
/* Room for the upright axis, and for the one below, mm on paper. */
#define SECTION_LEFT_MM 11.0
#define SECTION_AXIS_MM 13.0

/* One panel on paper. */
struct section_frame {
	double left, bottom; /* of the ruled field, mm on paper */
	double half_width_mm; /* on the neck: y runs from -this to +this */
	double scale; /* paper mm per mm */
	const char *minus_side, *plus_side; /* "bass" and "treble" or the reverse */
};

/* Heights that a panel shows, mm. A blank much taller than anything else is
 * broken off, so that the neck stays large. */
double section_panel_low_mm(const struct section_panel *panel);
double section_panel_high_mm(const struct section_panel *panel);

void section_panel_draw(struct canvas *canvas, const struct section_frame *frame,
			const struct section_panel *panel);

#endif
