/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands on the stock map beside the colours: contour lines with their
 * figures, and the marks of too little stock. */
#ifndef NECKHEW_PICTURES_STOCK_MARKS_H
#define NECKHEW_PICTURES_STOCK_MARKS_H

#include "job/result.h"
#include "pictures/canvas.h"
#include "pictures/map.h"

/* Columns whose stock lies under the allowance by more than TOL_PROOF_MM. */
struct short_stock {
	double area_mm2; /* in plan; 0 when there are none */
	double worst_mm; /* the largest lack */
	double x_mm, y_mm; /* where that is */
};

/* Both maps on one grid. */
struct short_stock stock_marks_measure(const struct column_map *stock,
				       const struct column_map *allowance);

/* Rings round the spots that lack stock, one in every tile of ten millimetres
 * that has such columns, at its worst: a single column would escape the eye. */
enum fault stock_marks_rings(struct canvas *canvas, const struct column_map *stock,
			     const struct column_map *allowance, const struct map_view *view,
			     struct fault_list *faults);

/* Contours at step, 2 step ... up to `full`, each line long enough with its
 * figure. `smooth` comes from contour_smooth. */
enum fault stock_marks_contours(struct canvas *canvas, const struct column_map *smooth,
				const struct map_view *view, double step, double full,
				struct fault_list *faults);

/* The hatching as the legend shows it. */
void stock_marks_swatch(struct canvas *canvas, double x_mm, double y_mm, double width_mm,
			double height_mm);

#endif
