/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scale bar of a picture that is to scale: one bar of round millimetres,
 * one of round inches, beginning at one place. */
#ifndef NECKHEW_PICTURES_RULER_H
#define NECKHEW_PICTURES_RULER_H

#include "pictures/canvas.h"

/* What the bars measure on the neck. */
struct ruler {
	double length_mm; /* 1, 2 or 5 times a power of ten */
	int mm_parts; /* fields it is divided into, each a round length */
	double length_in; /* inches: from 1/8 to 24 */
	int inch_parts;
};

/* Height of both bars with their words, mm on paper. */
#define RULER_HEIGHT_MM 6.4

/* The longest bars that take up at most `room_mm` of a picture drawn at
 * `scale` paper mm per mm. */
struct ruler ruler_of(double scale, double room_mm);

/* Where the bars' left end comes to lie, on the pixel grid, when bars and words
 * end at `right_mm`. */
double ruler_left_mm(struct canvas *canvas, double right_mm, double scale, double room_mm);

/* Draws them with their words ending at `right_mm`, top at y. Each says its
 * length at its right end. */
void ruler_draw(struct canvas *canvas, double right_mm, double y_mm, double scale, double room_mm);

/* The millimetre bar alone, standing upright with its foot at (x, y), its words
 * to the right: for pictures whose heights have a scale of their own. */
void ruler_draw_upright(struct canvas *canvas, double x_mm, double y_mm, double scale,
			double room_mm);

#endif
