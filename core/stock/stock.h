/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The wood on the machine as a grid of columns. Each column knows
 *   top      z of the wood at the column itself, exact for swept balls,
 *   ceiling  an upper bound of the wood anywhere in the column's cell,
 *   bottom   z of the blank's under side.
 * A column without wood has top = bottom. Cutting from above only lowers tops.
 * What must not touch wood is held against ceilings, what must have removed
 * wood against tops; so neither errs to the unsafe side. */
#ifndef NECKHEW_STOCK_STOCK_H
#define NECKHEW_STOCK_STOCK_H

#include <math.h>
#include <stddef.h>

#include "base/fault.h"
#include "base/vec3.h"
#include "machine/blank.h"

struct stock {
	size_t nx, ny;
	double x0_mm, y0_mm, cell_mm; /* column (ix, iy) stands at (x0 + ix cell, y0 + iy cell) */
	float *top, *ceiling, *bottom; /* [iy * nx + ix] */
	/* Highest ceiling per block of STOCK_BLOCK columns squared; may lag
	 * behind (too high) until it is asked for in earnest. */
	size_t bx, by;
	float *block;
	unsigned sweeps; /* so far; decides when blocks are brought up to date */
};

#define STOCK_BLOCK 8

/* The blank as columns `cell_mm` apart, with all the wood that its margin may
 * put anywhere. Release with stock_free. */
enum fault stock_build(struct stock *out, const struct blank *blank, double cell_mm,
		       struct fault_list *faults);
/* The same wood once more. */
enum fault stock_copy(struct stock *out, const struct stock *stock, struct fault_list *faults);
void stock_free(struct stock *stock);

/* Blanks with less wood than the margin allows. */
enum stock_extent {
	STOCK_DRAWN, /* as drawn, without the margin */
	STOCK_LEAST /* no more than must be there */
};

/* Fills top[nx * ny] with the columns as they would stand after the same cuts in
 * such a blank: cutting lowers a column to the same height whatever stood on it.
 * `top` may be stock->top. */
void stock_confine(float *top, const struct stock *stock, const struct blank *blank,
		   enum stock_extent extent);

/* Works out one block's highest ceiling anew. */
void stock_refresh_block(struct stock *stock, size_t bx, size_t by);

/* Where a move changed or could have changed columns: a box of columns and
 * their tops before. Start with { 0 }; reused from move to move. */
struct swath {
	size_t ix0, ix1, iy0, iy1; /* half-open; empty when ix0 == ix1 */
	float *before; /* [(iy - iy0) * (ix1 - ix0) + ix - ix0] */
	size_t capacity;
};
void swath_free(struct swath *swath);

/* Takes away what a ball of `radius_mm` sweeps whose tip goes straight from
 * `from` to `to`, and everything above it. Tops are exact: the lower boundary
 * of the swept ball has a closed form. FAULT_MEMORY when the swath cannot
 * grow; nothing is cut then. */
enum fault stock_sweep(struct stock *stock, struct vec3 from, struct vec3 to, double radius_mm,
		       struct swath *swath, struct fault_list *faults);

/* z of the lower boundary of that swept ball over (x, y), or INFINITY where it
 * does not pass. */
double sweep_height_mm(struct vec3 from, struct vec3 to, double radius_mm, double x_mm,
		       double y_mm);

/* Upper bound of the wood anywhere within `radius_mm` in plan of the straight
 * line from `from` to `to`; -INFINITY when there is none. Bounds below
 * `enough_mm` are not refined: any answer <= enough_mm means "no higher". */
double stock_highest_mm(struct stock *stock, struct vec3 from, struct vec3 to, double radius_mm,
			double enough_mm);

/* Index of the column nearest to (x, y), clamped to the grid. */
static inline size_t stock_ix(const struct stock *stock, double x_mm)
{
	double i = floor((x_mm - stock->x0_mm) / stock->cell_mm + 0.5);
	return i <= 0.0 ? 0 : (i >= (double)(stock->nx - 1) ? stock->nx - 1 : (size_t)i);
}

static inline size_t stock_iy(const struct stock *stock, double y_mm)
{
	double i = floor((y_mm - stock->y0_mm) / stock->cell_mm + 0.5);
	return i <= 0.0 ? 0 : (i >= (double)(stock->ny - 1) ? stock->ny - 1 : (size_t)i);
}

static inline double stock_x(const struct stock *stock, size_t ix)
{
	return stock->x0_mm + (double)ix * stock->cell_mm;
}

static inline double stock_y(const struct stock *stock, size_t iy)
{
	return stock->y0_mm + (double)iy * stock->cell_mm;
}

#endif
