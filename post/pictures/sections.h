/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sections at the stations: blank, roughed and finished outline and what
 * they enclose, all to one scale. */
#ifndef NECKHEW_PICTURES_SECTIONS_H
#define NECKHEW_PICTURES_SECTIONS_H

#include "pictures/canvas.h"
#include "pictures/pen.h"
#include "pictures/section_panel.h"

struct sections {
	struct sheet_words words;
	size_t count;
	const struct section_panel *panel;
	const char *minus_side, *plus_side; /* "bass" and "treble" or the reverse */
};

double sections_height_mm(const struct sections *sections);

void sections_draw(struct canvas *canvas, const struct sections *sections);

#endif
