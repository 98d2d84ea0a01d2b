/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The exact lower boundary of a ball swept along a straight line.
 *
 * In plan let u run along the move and w across it, with the move from u = 0
 * to u = L rising m per unit of u. A column at (u, w), |w| < R, is cut by the
 * ball whose centre stands at t to z = z0 + R + m t - sqrt(R^2 - w^2 - (u-t)^2).
 * With s^2 = R^2 - w^2 this is convex in t and least at t = u - m s / sqrt(1 +
 * m^2); clamped to [0, L] it is exact (elementary calculus). */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "stock/stock.h"

/* Blocks are looked through again after so many moves. */
#define REFRESH_EVERY 1

/* A move in plan terms. */
struct sweep {
	double x, y, z; /* of the tip at the start */
	double ex, ey; /* direction in plan, unit; any when length is 0 */
	double length, slope, lean; /* lean = slope / sqrt(1 + slope^2) */
	double radius;
};

static struct sweep make_sweep(struct vec3 from, struct vec3 to, double radius_mm)
{
	double dx = to.x - from.x, dy = to.y - from.y;
	struct sweep sweep = {
		from.x, from.y, from.z, 1.0, 0.0, hypot(dx, dy), 0.0, 0.0, radius_mm
	};

	if (sweep.length < 1e-9) {
		/* straight up or down: the lower end cuts */
		sweep.length = 0.0;
		sweep.z = smaller(from.z, to.z);
		return sweep;
	}
	sweep.ex = dx / sweep.length;
	sweep.ey = dy / sweep.length;
	sweep.slope = (to.z - from.z) / sweep.length;
	sweep.lean = sweep.slope / sqrt(1.0 + sweep.slope * sweep.slope);
	return sweep;
}

/* Where along the move the ball cuts deepest at (u, w): t, and the squared
 * distance in plan from its axis. */
static inline double deepest_at(const struct sweep *sweep, double u, double s2, double *t)
{
	double best = u - sweep->lean * sqrt(s2);

	best = best < 0.0 ? 0.0 : (best > sweep->length ? sweep->length : best);
	*t = best;
	return (u - best) * (u - best);
}

double sweep_height_mm(struct vec3 from, struct vec3 to, double radius_mm, double x_mm, double y_mm)
{
	struct sweep sweep = make_sweep(from, to, radius_mm);
	double px = x_mm - sweep.x, py = y_mm - sweep.y, t;
	double u = px * sweep.ex + py * sweep.ey, w = py * sweep.ex - px * sweep.ey;
	double s2 = radius_mm * radius_mm - w * w;

	if (s2 <= 0.0)
		return INFINITY;
	double rest = s2 - deepest_at(&sweep, u, s2, &t);
	if (rest <= 0.0)
		return INFINITY;
	return sweep.z + radius_mm + sweep.slope * t - sqrt(rest);
}

void swath_free(struct swath *swath)
{
	if (!swath)
		return;
	free(swath->before);
	*swath = (struct swath){ 0 };
}

/* Half-open range of columns within [low, high] of one axis. */
static void column_range(double low, double high, double origin, double cell, size_t count,
			 size_t *first, size_t *end)
{
	double a = ceil((low - origin) / cell), b = floor((high - origin) / cell) + 1.0;

	*first = a <= 0.0 ? 0 : (a >= (double)count ? count : (size_t)a);
	*end = b <= 0.0 ? 0 : (b >= (double)count ? count : (size_t)b);
	if (*end < *first)
		*end = *first;
}

static enum fault open_swath(struct swath *swath, const struct stock *stock, struct vec3 from,
			     struct vec3 to, double radius, struct fault_list *faults)
{
	column_range(smaller(from.x, to.x) - radius, larger(from.x, to.x) + radius, stock->x0_mm,
		     stock->cell_mm, stock->nx, &swath->ix0, &swath->ix1);
	column_range(smaller(from.y, to.y) - radius, larger(from.y, to.y) + radius, stock->y0_mm,
		     stock->cell_mm, stock->ny, &swath->iy0, &swath->iy1);
	size_t need = (swath->ix1 - swath->ix0) * (swath->iy1 - swath->iy0);
	float *grown = mem_grow(swath->before, &swath->capacity, need, sizeof *grown);
	if (!grown)
		return fault_no_memory(faults, "the simulated wood");
	swath->before = grown;
	return FAULT_NONE;
}

/* Cuts the columns [ix, end) of one row. `spread` is the farthest a point of a
 * column's cell lies from the column: the ceiling may come down to what the
 * ball reaches everywhere in the cell, which is no higher than at that distance
 * farther from the axis. */
static void cut_columns(struct stock *stock, const struct sweep *sweep, size_t iy, size_t ix,
			size_t end, double spread)
{
	double py = stock_y(stock, iy) - sweep->y, r2 = sweep->radius * sweep->radius;

	for (; ix < end; ix++) {
		size_t i = iy * stock->nx + ix;
		double px = stock_x(stock, ix) - sweep->x, t;
		double u = px * sweep->ex + py * sweep->ey, w = py * sweep->ex - px * sweep->ey;
		double s2 = r2 - w * w;
		if (s2 <= 0.0)
			continue;
		double along2 = deepest_at(sweep, u, s2, &t), rest = s2 - along2;
		if (rest <= 0.0)
			continue;
		double centre = sweep->z + sweep->radius + sweep->slope * t;
		float height = (float)(centre - sqrt(rest));
		if (height < stock->top[i])
			stock->top[i] = height > stock->bottom[i] ? height : stock->bottom[i];
		if (height >= stock->ceiling[i])
			continue;
		double far = sqrt(w * w + along2) + spread, left = r2 - far * far;
		float highest = left > 0.0 ? (float)(centre - sqrt(left)) : INFINITY;
		if (highest < stock->ceiling[i])
			stock->ceiling[i] = highest > stock->bottom[i] ? highest : stock->bottom[i];
	}
}

/* Cuts one row of the swath, block by block: where a block's wood is known to
 * lie no higher than the ball's lowest point there is nothing to do. */
static void cut_row(struct stock *stock, const struct sweep *sweep, const struct swath *swath,
		    size_t iy, double lowest)
{
	const float *blocks = stock->block + iy / STOCK_BLOCK * stock->bx;
	size_t width = swath->ix1 - swath->ix0;

	memcpy(swath->before + (iy - swath->iy0) * width, stock->top + iy * stock->nx + swath->ix0,
	       width * sizeof(float));
	for (size_t ix = swath->ix0; ix < swath->ix1;) {
		size_t end = (ix / STOCK_BLOCK + 1) * STOCK_BLOCK;
		end = end < swath->ix1 ? end : swath->ix1;
		if (blocks[ix / STOCK_BLOCK] > lowest)
			cut_columns(stock, sweep, iy, ix, end, stock->cell_mm * 0.7072);
		ix = end;
	}
}

/* Brings the highest ceilings of the swath's blocks up to date where they could
 * spare work. */
static void refresh_blocks(struct stock *stock, const struct swath *swath, double lowest)
{
	if (swath->ix0 == swath->ix1 || swath->iy0 == swath->iy1)
		return;
	for (size_t by = swath->iy0 / STOCK_BLOCK; by <= (swath->iy1 - 1) / STOCK_BLOCK; by++)
		for (size_t bx = swath->ix0 / STOCK_BLOCK; bx <= (swath->ix1 - 1) / STOCK_BLOCK;
		     bx++)
			if (stock->block[by * stock->bx + bx] > lowest)
				stock_refresh_block(stock, bx, by);
}

enum fault stock_sweep(struct stock *stock, struct vec3 from, struct vec3 to, double radius_mm,
		       struct swath *swath, struct fault_list *faults)
{
	struct sweep sweep = make_sweep(from, to, radius_mm);
	enum fault fault = open_swath(swath, stock, from, to, radius_mm, faults);

	if (fault != FAULT_NONE)
		return fault;
	double lowest = smaller(from.z, to.z);
	for (size_t iy = swath->iy0; iy < swath->iy1; iy++)
		cut_row(stock, &sweep, swath, iy, lowest);
	/* looking every time would cost as much as it spares */
	if (++stock->sweeps % REFRESH_EVERY == 0)
		refresh_blocks(stock, swath, lowest);
	return FAULT_NONE;
}
