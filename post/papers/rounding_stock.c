/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/rounding_stock.h"

#include <math.h>

/* A place of the stock map without a figure borrows from so many columns
 * farther in. */
#define BORROW_COLUMNS 4

double rounding_stock_at_mm(const struct column_map *map, double x_mm, double y_mm,
			    enum neck_side side)
{
	double sign = side == SIDE_PLUS ? 1.0 : -1.0;
	double ix = round((x_mm - map->x0_mm) / map->cell_mm);

	for (int back = 0; back <= BORROW_COLUMNS; back++) {
		double y = sign * fmax(y_mm - back * map->cell_mm, 0.0);
		double iy = round((y - map->y0_mm) / map->cell_mm);
		if (!(ix >= 0.0 && ix < (double)map->nx && iy >= 0.0 && iy < (double)map->ny))
			continue;
		double stock = (double)map->value[(size_t)iy * map->nx + (size_t)ix];
		if (isfinite(stock))
			return stock;
	}
	return NAN;
}

/* Least (sign 1) or most (sign -1) stock on one side at x; NAN without any. */
static double stock_bound(const struct column_map *map, double x_mm, enum neck_side side,
			  double sign)
{
	double ix = round((x_mm - map->x0_mm) / map->cell_mm), bound = NAN;

	if (!(ix >= 0.0 && ix < (double)map->nx))
		return NAN;
	for (size_t iy = 0; iy < map->ny; iy++) {
		double y = map->y0_mm + (double)iy * map->cell_mm;
		double stock = (double)map->value[iy * map->nx + (size_t)ix];
		if ((y < 0.0) != (side == SIDE_MINUS) || !isfinite(stock))
			continue;
		bound = isnan(bound) ? stock : sign * fmin(sign * bound, sign * stock);
	}
	return bound;
}

double rounding_stock_least_mm(const struct column_map *map, double x_mm, enum neck_side side)
{
	return stock_bound(map, x_mm, side, 1.0);
}

double rounding_stock_most_mm(const struct column_map *map, double x_mm, enum neck_side side)
{
	return stock_bound(map, x_mm, side, -1.0);
}
