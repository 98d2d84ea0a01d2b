/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/standing.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "base/minmax.h"

/* Grid pitch, mm: facets and blank are gathered in squares of it. */
#define CELL_MM 1.0
/* Until the last lines go over it, a terrace of one bite may stand on the
 * finished neck's stock. */
static double unfinished_mm(const struct cutter *cutter)
{
	return cutter->depth_limit_mm;
}

static size_t square(double offset, size_t count)
{
	double i = floor(offset / CELL_MM);

	return i <= 0.0 ? 0 : (i >= (double)(count - 1) ? count - 1 : (size_t)i);
}

static void raise(struct standing *standing, double x0, double x1, double y0, double y1, double z)
{
	size_t ix1 = square(x1 - standing->x0_mm, standing->nx);
	size_t iy1 = square(y1 - standing->y0_mm, standing->ny);

	for (size_t iy = square(y0 - standing->y0_mm, standing->ny); iy <= iy1; iy++)
		for (size_t ix = square(x0 - standing->x0_mm, standing->nx); ix <= ix1; ix++) {
			double *top = &standing->top_mm[iy * standing->nx + ix];
			*top = larger(*top, z);
		}
}

/* The finished neck grown by its allowances, and what may stand on them. */
static void raise_facets(struct standing *standing, const struct facets *facets, double unfinished)
{
	for (size_t i = 0; i < facets->count; i++) {
		const struct vec3 *p = facets->item[i].p;
		double a = facets->item[i].allowance_mm;
		raise(standing, smaller(p[0].x, smaller(p[1].x, p[2].x)) - a,
		      larger(p[0].x, larger(p[1].x, p[2].x)) + a,
		      smaller(p[0].y, smaller(p[1].y, p[2].y)) - a,
		      larger(p[0].y, larger(p[1].y, p[2].y)) + a,
		      larger(p[0].z, larger(p[1].z, p[2].z)) + a + unfinished);
	}
}

/* The blank beyond the carved range, which nobody lowers. */
static void raise_uncut(struct standing *standing, const struct job *job, double from, double to)
{
	size_t cells = to > from ? (size_t)ceil((to - from) / CELL_MM) : 0;

	for (size_t i = 0; i < cells; i++) {
		double x = from + (double)i * CELL_MM;
		double x1 = smaller(x + CELL_MM, to);
		raise(standing, x, x1 - 1e-9, -blank_side_most_mm(&job->blank, BLANK_MINUS, x, x1),
		      blank_side_most_mm(&job->blank, BLANK_PLUS, x, x1),
		      blank_top_most_mm(&job->blank, x, x1));
	}
}

double standing_highest_mm(const struct standing *standing)
{
	double best = -INFINITY;

	for (size_t i = 0; i < standing->nx * standing->ny; i++)
		best = larger(best, standing->top_mm[i]);
	return best;
}

/* The largest of every 2^k neighbours of each row, for k = 0, 1 ...: any stretch
 * of a row is covered by two of them (the sparse table of range queries, from
 * memory). */
struct spans {
	size_t levels;
	double *most; /* [level][iy * nx + ix]: of the 2^level squares from ix on */
};

static enum fault make_spans(struct spans *out, const struct standing *standing,
			     struct fault_list *faults)
{
	size_t nx = standing->nx, count = nx * standing->ny;

	*out = (struct spans){ .levels = 1 };
	while ((size_t)1 << out->levels < nx)
		out->levels++;
	out->most = mem_array(count * out->levels, sizeof(double));
	if (!out->most)
		return fault_no_memory(faults, "the reach of shank and holder");
	memcpy(out->most, standing->top_mm, count * sizeof(double));
	for (size_t level = 1; level < out->levels; level++) {
		const double *half = out->most + (level - 1) * count;
		double *most = out->most + level * count;
		size_t step = (size_t)1 << (level - 1);
		for (size_t i = 0; i < count; i++)
			most[i] = i % nx + step < nx ? larger(half[i], half[i + step]) : half[i];
	}
	return FAULT_NONE;
}

/* Largest of the squares first to last of a row. */
static double most_between(const struct spans *spans, const struct standing *standing, size_t iy,
			   size_t first, size_t last)
{
	size_t level = 0, count = standing->nx * standing->ny, row = iy * standing->nx;

	while ((size_t)2 << level <= last - first + 1)
		level++;
	const double *most = spans->most + level * count + row;
	return larger(most[first], most[last + 1 - ((size_t)1 << level)]);
}

/* Around one corner: row by row what the disc spans there. */
static double under_disc(const struct spans *spans, const struct standing *standing, size_t ix,
			 size_t iy, double radius)
{
	size_t reach = (size_t)(radius / CELL_MM);
	size_t first_row = iy > reach + 1 ? iy - reach - 1 : 0;
	double best = -INFINITY;

	for (size_t row = first_row; row <= iy + reach && row < standing->ny; row++) {
		double away = (double)(row >= iy ? row - iy : iy - 1 - row) * CELL_MM;
		double left = radius * radius - away * away;
		if (left < 0.0)
			continue;
		size_t wide = (size_t)(sqrt(left) / CELL_MM);
		size_t first = ix > wide + 1 ? ix - wide - 1 : 0;
		size_t last = ix + wide < standing->nx ? ix + wide : standing->nx - 1;
		best = larger(best, most_between(spans, standing, row, first, last));
	}
	return best;
}

enum fault standing_under_discs(double *out_mm, const struct standing *standing, double radius_mm,
				struct fault_list *faults)
{
	struct spans spans;
	enum fault fault = make_spans(&spans, standing, faults);

	if (fault != FAULT_NONE)
		return fault;
#pragma omp parallel for schedule(dynamic)
	for (long iy = 0; iy < (long)standing->ny; iy++)
		for (size_t ix = 0; ix < standing->nx; ix++)
			out_mm[(size_t)iy * standing->nx + ix] =
				under_disc(&spans, standing, ix, (size_t)iy, radius_mm);
	free(spans.most);
	return FAULT_NONE;
}

enum fault standing_build(struct standing *standing, const struct facets *facets,
			  const struct job *job, const struct cutter *cutter,
			  struct fault_list *faults)
{
	const struct blank *blank = &job->blank;
	double from = smaller(blank_from_most_mm(blank), facets->row_x_mm[0]) - 2.0;
	double to = larger(blank_to_most_mm(blank), facets->row_x_mm[facets->row_count - 1]) + 2.0;
	double half = blank_widest_most_mm(blank) + 5.0;

	for (size_t i = 0; i < facets->count; i++)
		half = larger(half, fabs(facets->item[i].p[0].y) + 5.0);
	*standing = (struct standing){ .x0_mm = from, .cell_mm = CELL_MM };
	standing->y0_mm = -half;
	standing->nx = (size_t)ceil((to - from) / CELL_MM) + 1;
	standing->ny = (size_t)ceil(2.0 * half / CELL_MM) + 1;
	standing->top_mm = mem_array(standing->nx * standing->ny, sizeof(double));
	if (!standing->top_mm)
		return fault_no_memory(faults, "the reach of shank and holder");
	for (size_t i = 0; i < standing->nx * standing->ny; i++)
		standing->top_mm[i] = -INFINITY;
	raise_facets(standing, facets, unfinished_mm(cutter));
	raise_uncut(standing, job, blank_from_most_mm(blank), job->carve.from_mm);
	raise_uncut(standing, job, job->carve.to_mm, blank_to_most_mm(blank));
	return FAULT_NONE;
}

void standing_free(struct standing *standing)
{
	if (!standing)
		return;
	free(standing->top_mm);
	*standing = (struct standing){ 0 };
}

/* Highest of the figures [i - reach, i + reach + 1] of a line, for every i. */
static void widen_line(double *out, const double *in, size_t count, size_t step, size_t reach)
{
	for (size_t i = 0; i < count; i++) {
		size_t first = i > reach ? i - reach : 0;
		size_t last = i + reach + 1 < count ? i + reach + 1 : count - 1;
		double best = -INFINITY;
		for (size_t k = first; k <= last; k++)
			best = larger(best, in[k * step]);
		out[i * step] = best;
	}
}

/* What the blank holds over a square at most; -INFINITY beside it. */
static double blank_over(const struct standing *standing, const struct blank *blank, size_t ix,
			 size_t iy)
{
	double x = standing->x0_mm + (double)ix * CELL_MM;
	double y = standing->y0_mm + (double)iy * CELL_MM;
	double x0 = larger(x, blank_from_most_mm(blank));
	double x1 = smaller(x + CELL_MM, blank_to_most_mm(blank));

	if (x0 > x1 || y > blank_side_most_mm(blank, BLANK_PLUS, x0, x1) ||
	    -(y + CELL_MM) > blank_side_most_mm(blank, BLANK_MINUS, x0, x1))
		return -INFINITY;
	return blank_top_most_mm(blank, x0, x1);
}

enum fault standing_raise_left(struct standing *standing, double *highest_mm, const struct job *job,
			       const struct cutter *cutter, const double *tip_mm, double floor_mm,
			       struct fault_list *faults)
{
	size_t nx = standing->nx, ny = standing->ny;
	size_t reach = (size_t)ceil(cutter_radius_mm(cutter) / CELL_MM) + 1;
	double *wide = mem_array(nx * ny, sizeof *wide), *left = mem_array(nx * ny, sizeof *left);

	*highest_mm = -INFINITY;
	if (!wide || !left) {
		free(wide);
		free(left);
		return fault_no_memory(faults, "the reach of shank and holder");
	}
	for (size_t iy = 0; iy < ny; iy++)
		widen_line(wide + iy * nx, tip_mm + iy * nx, nx, 1, reach);
	for (size_t ix = 0; ix < nx; ix++)
		widen_line(left + ix, wide + ix, ny, nx, reach);
	for (size_t i = 0; i < nx * ny; i++) {
		double top = left[i] + unfinished_mm(cutter);
		if (left[i] <= floor_mm || top <= standing->top_mm[i])
			continue;
		top = smaller(top, blank_over(standing, &job->blank, i % nx, i / nx));
		if (top <= standing->top_mm[i])
			continue;
		standing->top_mm[i] = top;
		*highest_mm = larger(*highest_mm, top);
	}
	free(wide);
	free(left);
	return FAULT_NONE;
}
