/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the router left outside the finished section, looked up on the map of the
 * hand-finish stock (job/result.h). All mm, square to the surface. */
#ifndef NECKHEW_PAPERS_ROUNDING_STOCK_H
#define NECKHEW_PAPERS_ROUNDING_STOCK_H

#include "job/result.h"
#include "model/neck.h"

/* At (x, y) of one side, y outward; NAN when it was not measured near there. */
double rounding_stock_at_mm(const struct column_map *map, double x_mm, double y_mm,
			    enum neck_side side);

/* Least and most on one side at x; NAN where nothing was measured. */
double rounding_stock_least_mm(const struct column_map *map, double x_mm, enum neck_side side);
double rounding_stock_most_mm(const struct column_map *map, double x_mm, enum neck_side side);

#endif
