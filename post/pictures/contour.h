/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of equal value over a map of columns. */
#ifndef NECKHEW_PICTURES_CONTOUR_H
#define NECKHEW_PICTURES_CONTOUR_H

#include "base/fault.h"
#include "job/result.h"

/* Receives one line: `count` points in map coordinates, mm. A ring repeats its
 * first point at the end. */
typedef void contour_line(void *context, size_t count, const double *x_mm, const double *y_mm);

/* A coarser map: each value the mean over block x block columns, NAN unless at
 * least half of them have one. Scallops are averaged out, so that a contour
 * follows the surface and not every furrow. Values above `ceiling` count as
 * `ceiling`. Release *out with contour_map_free. */
enum fault contour_smooth(struct column_map *out, const struct column_map *map, size_t block,
			  double ceiling, struct fault_list *faults);

void contour_map_free(struct column_map *map);

/* Every line along which the map, linear between columns, equals `level`.
 * Cells with a missing corner have none. Method: marching squares; a saddle is
 * decided by the mean of its corners. */
enum fault contour_trace(const struct column_map *map, double level, contour_line *line,
			 void *context, struct fault_list *faults);

#endif
