/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Marks that several pictures share: program zero, keep-outs, dimensions. */
#ifndef NECKHEW_PICTURES_MARKS_H
#define NECKHEW_PICTURES_MARKS_H

#include "pictures/canvas.h"
#include "pictures/pen.h"

/* Program zero: a ring with two quarters of ink and a cross through it, centred
 * on (x, y). */
void marks_zero(struct canvas *canvas, double x_mm, double y_mm);

/* Slanting lines in a rectangle, so far apart along x. */
void marks_slants(struct canvas *canvas, double x_mm, double y_mm, double width_mm,
		  double height_mm, double apart_mm);

/* Room that a clamp or screw takes: a frame with slanting lines. */
void marks_keep_out(struct canvas *canvas, double x_mm, double y_mm, double width_mm,
		    double height_mm);

/* The same of a round one, seen from above, in the square whose upper left corner
 * is (x, y). */
void marks_keep_out_round(struct canvas *canvas, double x_mm, double y_mm, double diameter_mm);

/* A line of a kind with a short bar across each end. */
void marks_span(struct canvas *canvas, double x1, double y1, double x2, double y2,
		enum line_kind kind);

#endif
