/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Widths along the neck, in mm and in inches. */
#ifndef NECKHEW_PICTURES_PLAN_TABLE_H
#define NECKHEW_PICTURES_PLAN_TABLE_H

#include <stddef.h>

#include "pictures/canvas.h"

#define PLAN_NAME_MAX 32

/* Full widths at one place, mm; NAN where there is no such thing. */
struct plan_row {
	char name[PLAN_NAME_MAX]; /* "nut", "fret 5", "body joint" */
	double x_mm;
	double board_mm; /* fretboard */
	double edge_mm; /* of the wood at the gluing face: its greatest */
	double flat_mm; /* flat on the back: cap, slab, peghead */
	double blank_mm;
};

double plan_table_height_mm(size_t row_count);

void plan_table_draw(struct canvas *canvas, size_t row_count, const struct plan_row *row,
		     double y_mm);

#endif
