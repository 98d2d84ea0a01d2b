/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/reach.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"

/* Grid pitch, mm: facets and blank are gathered in squares of it. */
#define REACH_CELL_MM 1.0
/* Kept between wood and shank or holder, mm. */
#define REACH_CLEARANCE_MM 0.5
/* Until the last lines go over it, a terrace of one bite may stand on the
 * finished neck's stock. */
static double unfinished_mm(const struct cutter *cutter)
{
	return cutter->depth_limit_mm;
}

/* Highest wood that will stay, per square; -INFINITY where none. */
struct heights {
	size_t nx, ny;
	double x0, y0;
	double *top;
};

static size_t square(double offset, size_t count)
{
	double i = floor(offset / REACH_CELL_MM);

	return i <= 0.0 ? 0 : (i >= (double)(count - 1) ? count - 1 : (size_t)i);
}

static void raise(struct heights *heights, double x0, double x1, double y0, double y1, double z)
{
	size_t ix1 = square(x1 - heights->x0, heights->nx);
	size_t iy1 = square(y1 - heights->y0, heights->ny);

	for (size_t iy = square(y0 - heights->y0, heights->ny); iy <= iy1; iy++)
		for (size_t ix = square(x0 - heights->x0, heights->nx); ix <= ix1; ix++) {
			double *top = &heights->top[iy * heights->nx + ix];
			*top = larger(*top, z);
		}
}

/* The finished neck grown by its allowances, and what may stand on them. */
static void raise_facets(struct heights *heights, const struct facets *facets, double unfinished)
{
	for (size_t i = 0; i < facets->count; i++) {
		const struct vec3 *p = facets->item[i].p;
		double a = facets->item[i].allowance_mm;
		raise(heights, smaller(p[0].x, smaller(p[1].x, p[2].x)) - a,
		      larger(p[0].x, larger(p[1].x, p[2].x)) + a,
		      smaller(p[0].y, smaller(p[1].y, p[2].y)) - a,
		      larger(p[0].y, larger(p[1].y, p[2].y)) + a,
		      larger(p[0].z, larger(p[1].z, p[2].z)) + a + unfinished);
	}
}

/* The blank beyond the carved range, which nobody lowers. */
static void raise_uncut(struct heights *heights, const struct job *job, double from, double to)
{
	size_t cells = to > from ? (size_t)ceil((to - from) / REACH_CELL_MM) : 0;

	for (size_t i = 0; i < cells; i++) {
		double x = from + (double)i * REACH_CELL_MM;
		double x1 = smaller(x + REACH_CELL_MM, to);
		raise(heights, x, x1 - 1e-9, -blank_side_most_mm(&job->blank, BLANK_MINUS, x, x1),
		      blank_side_most_mm(&job->blank, BLANK_PLUS, x, x1),
		      blank_top_most_mm(&job->blank, x, x1));
	}
}

static double highest(const struct heights *heights)
{
	double best = -INFINITY;

	for (size_t i = 0; i < heights->nx * heights->ny; i++)
		best = larger(best, heights->top[i]);
	return best;
}

/* Highest square that a disc around node (ix, iy) can touch. */
static double under_disc(const struct heights *heights, double x, double y, double radius)
{
	size_t ix0 = square(x - radius - heights->x0, heights->nx);
	size_t ix1 = square(x + radius - heights->x0, heights->nx);
	size_t iy0 = square(y - radius - heights->y0, heights->ny);
	size_t iy1 = square(y + radius - heights->y0, heights->ny);
	double best = -INFINITY;

	for (size_t iy = iy0; iy <= iy1; iy++) {
		double y0 = heights->y0 + (double)iy * REACH_CELL_MM;
		double dy = larger(larger(y0 - y, y - y0 - REACH_CELL_MM), 0.0);
		for (size_t ix = ix0; ix <= ix1; ix++) {
			double x0 = heights->x0 + (double)ix * REACH_CELL_MM;
			double dx = larger(larger(x0 - x, x - x0 - REACH_CELL_MM), 0.0);
			if (dx * dx + dy * dy <= radius * radius)
				best = larger(best, heights->top[iy * heights->nx + ix]);
		}
	}
	return best;
}

/* Lowest tip for both discs at a node. A node answers for everything within a
 * cell of it, so the discs are grown by the cell's diagonal. */
static double node_tip(const struct heights *heights, const struct cutter *cutter, double x,
		       double y)
{
	double grow = REACH_CLEARANCE_MM + REACH_CELL_MM * 1.4143;
	double shank = under_disc(heights, x, y, cutter->shank_diameter_mm / 2.0 + grow) -
		       cutter->flute_length_mm;
	double holder = under_disc(heights, x, y, cutter->holder_diameter_mm / 2.0 + grow) -
			cutter->stickout_mm;
	bool slim = cutter->shank_diameter_mm <= cutter->ball_diameter_mm;

	/* a slim shank stays within what the flutes cut */
	return larger(slim ? -INFINITY : shank, holder) + REACH_CLEARANCE_MM;
}

static enum fault make_heights(struct heights *heights, const struct facets *facets,
			       const struct job *job, const struct cutter *cutter,
			       struct fault_list *faults)
{
	const struct blank *blank = &job->blank;
	double from = smaller(blank_from_most_mm(blank), facets->row_x_mm[0]) - 2.0;
	double to = larger(blank_to_most_mm(blank), facets->row_x_mm[facets->row_count - 1]) + 2.0;
	double half = blank_widest_most_mm(blank) + 5.0;

	for (size_t i = 0; i < facets->count; i++)
		half = larger(half, fabs(facets->item[i].p[0].y) + 5.0);
	heights->x0 = from;
	heights->y0 = -half;
	heights->nx = (size_t)ceil((to - from) / REACH_CELL_MM) + 1;
	heights->ny = (size_t)ceil(2.0 * half / REACH_CELL_MM) + 1;
	heights->top = mem_array(heights->nx * heights->ny, sizeof(double));
	if (!heights->top)
		return fault_no_memory(faults, "the reach of shank and holder");
	for (size_t i = 0; i < heights->nx * heights->ny; i++)
		heights->top[i] = -INFINITY;
	raise_facets(heights, facets, unfinished_mm(cutter));
	raise_uncut(heights, job, blank_from_most_mm(blank), job->carve.from_mm);
	raise_uncut(heights, job, job->carve.to_mm, blank_to_most_mm(blank));
	return FAULT_NONE;
}

enum fault reach_build(struct reach *out, const struct facets *facets, const struct job *job,
		       const struct cutter *cutter, double floor_mm, struct fault_list *faults)
{
	struct heights heights = { 0 };
	enum fault fault = make_heights(&heights, facets, job, cutter, faults);
	double above =
		smaller(cutter->stickout_mm, cutter->shank_diameter_mm <= cutter->ball_diameter_mm
						     ? cutter->stickout_mm
						     : cutter->flute_length_mm);

	*out = (struct reach){ 0 };
	if (fault != FAULT_NONE || highest(&heights) + REACH_CLEARANCE_MM - above <= floor_mm)
		goto cleanup;
	*out = (struct reach){ heights.nx,    heights.ny,
			       heights.x0,    heights.y0,
			       REACH_CELL_MM, mem_array(heights.nx * heights.ny, sizeof(double)) };
	if (!out->tip_mm) {
		fault = fault_no_memory(faults, "the reach of shank and holder");
		goto cleanup;
	}
	for (size_t iy = 0; iy < out->ny; iy++)
		for (size_t ix = 0; ix < out->nx; ix++)
			out->tip_mm[iy * out->nx + ix] =
				larger(floor_mm, node_tip(&heights, cutter,
							  heights.x0 + (double)ix * REACH_CELL_MM,
							  heights.y0 + (double)iy * REACH_CELL_MM));
cleanup:
	free(heights.top);
	return fault;
}

void reach_free(struct reach *reach)
{
	if (!reach)
		return;
	free(reach->tip_mm);
	*reach = (struct reach){ 0 };
}

/* Between nodes: linear both ways. Each node answers for a whole cell around
 * it, so a mixture of the four is never too low. */
double reach_tip_mm(const struct reach *reach, double x_mm, double y_mm)
{
	if (!reach->tip_mm)
		return -INFINITY;
	double fx = (x_mm - reach->x0_mm) / reach->cell_mm;
	double fy = (y_mm - reach->y0_mm) / reach->cell_mm;
	fx = clamped(fx, 0.0, (double)(reach->nx - 1) - 1e-9);
	fy = clamped(fy, 0.0, (double)(reach->ny - 1) - 1e-9);
	size_t ix = (size_t)fx, iy = (size_t)fy, i = iy * reach->nx + ix;
	double tx = fx - (double)ix, ty = fy - (double)iy;
	double low = (1.0 - tx) * reach->tip_mm[i] + tx * reach->tip_mm[i + 1];
	double high =
		(1.0 - tx) * reach->tip_mm[i + reach->nx] + tx * reach->tip_mm[i + reach->nx + 1];
	return (1.0 - ty) * low + ty * high;
}
