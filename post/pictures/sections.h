/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sections at the stations: blank, roughed and finished outline on millimetre
 * ruling, all to one scale. */
#ifndef NECKHEW_PICTURES_SECTIONS_H
#define NECKHEW_PICTURES_SECTIONS_H

#include "pictures/canvas.h"
#include "pictures/pen.h"

struct section_panel {
	double fret, x_mm;
	size_t finished_count;
	double *finished_y_mm, *finished_z_mm; /* edge to edge over the crest */
	size_t roughed_count;
	double *roughed_y_mm, *roughed_z_mm; /* y rising; z NAN where no wood stands */
	double blank_half_width_mm, blank_bottom_mm, blank_top_mm;
	double board_width_mm, board_thickness_mm; /* 0 thickness: no fretboard here */
	double roughed_mm, finished_mm; /* thickness as the builder states it */
};

struct sections {
	struct sheet_words words;
	size_t count;
	const struct section_panel *panel;
	const char *minus_side, *plus_side; /* "bass" and "treble" or the reverse */
};

double sections_height_mm(const struct sections *sections);

void sections_draw(struct canvas *canvas, const struct sections *sections);

#endif
