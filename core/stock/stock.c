/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stock/stock.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "base/minmax.h"

/* Columns the grid may have: more would not fit the memory of a small computer
 * and shows a cell size chosen by mistake. */
#define COLUMNS_MAX ((size_t)40 * 1000 * 1000)

static enum fault make_room(struct stock *stock, struct fault_list *faults)
{
	size_t count = stock->nx * stock->ny;

	stock->bx = (stock->nx + STOCK_BLOCK - 1) / STOCK_BLOCK;
	stock->by = (stock->ny + STOCK_BLOCK - 1) / STOCK_BLOCK;
	stock->top = mem_array(count, sizeof(float));
	stock->ceiling = mem_array(count, sizeof(float));
	stock->bottom = mem_array(count, sizeof(float));
	stock->block = mem_array(stock->bx * stock->by, sizeof(float));
	if (stock->top && stock->ceiling && stock->bottom && stock->block)
		return FAULT_NONE;
	return fault_no_memory(faults, "the simulated wood");
}

static enum blank_side side_of(double y_mm)
{
	return y_mm < 0.0 ? BLANK_MINUS : BLANK_PLUS;
}

/* A line of columns at one x, or the stretch of their cells, as a blank fills
 * it: up to `top`, out to `width` on either side; negative where it is not. */
struct slice {
	float top;
	double width[BLANK_SIDES];
};

static const struct slice no_wood = { 0.0F, { -1.0, -1.0 } };

/* The most wood between two x. */
static struct slice most_wood(const struct blank *blank, double from_mm, double to_mm)
{
	double x0 = larger(from_mm, blank_from_most_mm(blank));
	double x1 = smaller(to_mm, blank_to_most_mm(blank));

	if (x1 < x0)
		return no_wood;
	return (struct slice){ (float)blank_top_most_mm(blank, x0, x1),
			       { [BLANK_MINUS] = blank_side_most_mm(blank, BLANK_MINUS, x0, x1),
				 [BLANK_PLUS] = blank_side_most_mm(blank, BLANK_PLUS, x0, x1) } };
}

static struct slice drawn_wood(const struct blank *blank, double x)
{
	if (x < blank_from_mm(blank) || x > blank_to_mm(blank))
		return no_wood;
	return (struct slice){
		(float)outline_value_mm(&blank->top, x),
		{ [BLANK_MINUS] = outline_value_mm(blank_side(blank, BLANK_MINUS), x),
		  [BLANK_PLUS] = outline_value_mm(blank_side(blank, BLANK_PLUS), x) }
	};
}

static struct slice least_wood(const struct blank *blank, double x)
{
	if (x < blank_from_mm(blank) || x > blank_to_mm(blank))
		return no_wood;
	return (struct slice){ (float)blank_top_least_mm(blank, x, x),
			       { [BLANK_MINUS] = blank_side_least_mm(blank, BLANK_MINUS, x, x),
				 [BLANK_PLUS] = blank_side_least_mm(blank, BLANK_PLUS, x, x) } };
}

/* Top of the slice at y, not below the bottom. */
static float slice_top(const struct slice *slice, double y_mm, float bottom)
{
	bool wood = fabs(y_mm) <= slice->width[side_of(y_mm)] && slice->top > bottom;

	return wood ? slice->top : bottom;
}

/* One line of columns at one x. */
static void fill_line(struct stock *stock, const struct blank *blank, size_t ix)
{
	double x = stock_x(stock, ix), half = stock->cell_mm / 2.0;
	struct slice here = most_wood(blank, x, x), near = most_wood(blank, x - half, x + half);
	float bottom = (float)outline_value_mm(&blank->bottom, x);

	for (size_t iy = 0; iy < stock->ny; iy++) {
		size_t i = iy * stock->nx + ix;
		double y = stock_y(stock, iy);
		double inner = y < 0.0 ? smaller(y + half, 0.0) : larger(y - half, 0.0);
		stock->bottom[i] = bottom;
		stock->top[i] = slice_top(&here, y, bottom);
		stock->ceiling[i] = slice_top(&near, inner, bottom);
	}
}

static float block_highest(const struct stock *stock, size_t bx, size_t by)
{
	size_t x1 = (bx + 1) * STOCK_BLOCK, y1 = (by + 1) * STOCK_BLOCK;
	float highest = -INFINITY;

	for (size_t iy = by * STOCK_BLOCK; iy < y1 && iy < stock->ny; iy++)
		for (size_t ix = bx * STOCK_BLOCK; ix < x1 && ix < stock->nx; ix++) {
			size_t i = iy * stock->nx + ix;
			if (stock->ceiling[i] > stock->bottom[i] && stock->ceiling[i] > highest)
				highest = stock->ceiling[i];
		}
	return highest;
}

void stock_refresh_block(struct stock *stock, size_t bx, size_t by)
{
	stock->block[by * stock->bx + bx] = block_highest(stock, bx, by);
}

enum fault stock_build(struct stock *out, const struct blank *blank, double cell_mm,
		       struct fault_list *faults)
{
	double from = blank_from_most_mm(blank), to = blank_to_most_mm(blank);
	double half = blank_widest_most_mm(blank);
	double columns_x = ceil((to - from) / cell_mm) + 3.0;
	double rows = 2.0 * ceil(half / cell_mm) + 3.0; /* odd: a row on the centre line */

	*out = (struct stock){ 0 };
	if (!(cell_mm > 0.0) || columns_x * rows > (double)COLUMNS_MAX)
		return fault_add(faults, FAULT_SETTING, NULL, 0, "carve.cell",
				 "Cells of %.4g mm make %.3g columns; at most %.3g are allowed. "
				 "Use larger cells.",
				 cell_mm, columns_x * rows, (double)COLUMNS_MAX);
	out->cell_mm = cell_mm;
	out->nx = (size_t)columns_x;
	out->ny = (size_t)rows;
	out->x0_mm = from - cell_mm;
	size_t middle = out->ny / 2;
	out->y0_mm = -cell_mm * (double)middle;
	enum fault fault = make_room(out, faults);
	if (fault != FAULT_NONE) {
		stock_free(out);
		return fault;
	}
	for (size_t ix = 0; ix < out->nx; ix++)
		fill_line(out, blank, ix);
	for (size_t by = 0; by < out->by; by++)
		for (size_t bx = 0; bx < out->bx; bx++)
			out->block[by * out->bx + bx] = block_highest(out, bx, by);
	return FAULT_NONE;
}

enum fault stock_copy(struct stock *out, const struct stock *stock, struct fault_list *faults)
{
	size_t size = stock->nx * stock->ny * sizeof(float);

	*out = (struct stock){ .nx = stock->nx,
			       .ny = stock->ny,
			       .x0_mm = stock->x0_mm,
			       .y0_mm = stock->y0_mm,
			       .cell_mm = stock->cell_mm,
			       .sweeps = stock->sweeps };
	enum fault fault = make_room(out, faults);
	if (fault != FAULT_NONE) {
		stock_free(out);
		return fault;
	}
	memcpy(out->top, stock->top, size);
	memcpy(out->ceiling, stock->ceiling, size);
	memcpy(out->bottom, stock->bottom, size);
	memcpy(out->block, stock->block, stock->bx * stock->by * sizeof(float));
	return FAULT_NONE;
}

void stock_confine(float *top, const struct stock *stock, const struct blank *blank,
		   enum stock_extent extent)
{
	for (size_t ix = 0; ix < stock->nx; ix++) {
		double x = stock_x(stock, ix);
		struct slice slice = extent == STOCK_LEAST ? least_wood(blank, x)
							   : drawn_wood(blank, x);
		for (size_t iy = 0; iy < stock->ny; iy++) {
			size_t i = iy * stock->nx + ix;
			float most = slice_top(&slice, stock_y(stock, iy), stock->bottom[i]);
			top[i] = stock->top[i] < most ? stock->top[i] : most;
		}
	}
}

void stock_free(struct stock *stock)
{
	if (!stock)
		return;
	free(stock->top);
	free(stock->ceiling);
	free(stock->bottom);
	free(stock->block);
	*stock = (struct stock){ 0 };
}

/* Distance in plan from a rectangle to the segment from-to is at least this;
 * exact when the segment is a point. */
static double line_distance(struct vec3 from, struct vec3 to, double x, double y)
{
	double dx = to.x - from.x, dy = to.y - from.y, length2 = dx * dx + dy * dy;
	double t = length2 > 0.0 ? ((x - from.x) * dx + (y - from.y) * dy) / length2 : 0.0;

	t = clamped(t, 0.0, 1.0);
	return hypot(x - from.x - t * dx, y - from.y - t * dy);
}

/* Highest ceiling of the cells of a block that come within the radius. */
static double highest_in_block(const struct stock *stock, size_t bx, size_t by, struct vec3 from,
			       struct vec3 to, double radius_mm)
{
	size_t x1 = (bx + 1) * STOCK_BLOCK, y1 = (by + 1) * STOCK_BLOCK;
	double reach = radius_mm + stock->cell_mm * 0.7072, highest = -INFINITY;

	for (size_t iy = by * STOCK_BLOCK; iy < y1 && iy < stock->ny; iy++)
		for (size_t ix = bx * STOCK_BLOCK; ix < x1 && ix < stock->nx; ix++) {
			size_t i = iy * stock->nx + ix;
			if (stock->ceiling[i] <= stock->bottom[i] || stock->ceiling[i] <= highest)
				continue;
			if (line_distance(from, to, stock_x(stock, ix), stock_y(stock, iy)) <=
			    reach)
				highest = stock->ceiling[i];
		}
	return highest;
}

static size_t block_index(double offset, double size, size_t count)
{
	double i = floor(offset / size);

	return i <= 0.0 ? 0 : (i >= (double)count ? count : (size_t)i);
}

double stock_highest_mm(struct stock *stock, struct vec3 from, struct vec3 to, double radius_mm,
			double enough_mm)
{
	double size = STOCK_BLOCK * stock->cell_mm, half = stock->cell_mm / 2.0;
	double x0 = smaller(from.x, to.x) - radius_mm, x1 = larger(from.x, to.x) + radius_mm;
	double y0 = smaller(from.y, to.y) - radius_mm, y1 = larger(from.y, to.y) + radius_mm;
	double left = stock->x0_mm - half, low = stock->y0_mm - half, highest = -INFINITY;
	size_t bx0 = block_index(x0 - left, size, stock->bx);
	size_t bx1 = x1 < left ? 0 : block_index(x1 - left, size, stock->bx - 1) + 1;
	size_t by0 = block_index(y0 - low, size, stock->by);
	size_t by1 = y1 < low ? 0 : block_index(y1 - low, size, stock->by - 1) + 1;

	for (size_t by = by0; by < by1; by++)
		for (size_t bx = bx0; bx < bx1; bx++) {
			size_t b = by * stock->bx + bx;
			if (stock->block[b] <= enough_mm || stock->block[b] <= highest)
				continue;
			stock_refresh_block(stock, bx, by);
			if (stock->block[b] <= enough_mm || stock->block[b] <= highest)
				continue;
			highest = larger(highest,
					 highest_in_block(stock, bx, by, from, to, radius_mm));
		}
	return highest;
}
