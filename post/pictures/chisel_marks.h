/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The area left for the chisel on a plan: wood that shank or holder keep every
 * cutter from, hatched the other way than keep-outs. */
#ifndef NECKHEW_PICTURES_CHISEL_MARKS_H
#define NECKHEW_PICTURES_CHISEL_MARKS_H

#include "job/result.h"
#include "pictures/canvas.h"
#include "pictures/map.h"

/* Covers the columns of the map that have a value; nothing without a map. */
void chisel_marks_draw(struct canvas *canvas, const struct map_view *view,
		       const struct column_map *map);

/* The hatching as a legend shows it. */
void chisel_marks_swatch(struct canvas *canvas, double x_mm, double y_mm, double width_mm,
			 double height_mm);

#endif
