/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/cove.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "model/facet_tree.h"

/* Lines of columns across the neck are measured so far apart, mm. */
#define LINE_STEP_MM 1.0
/* Wood belongs to a cove when it stands farther off the hand-finish stock than a
 * scallop and this, mm. */
#define OVER_MM 0.05
/* A cove ends outward where it is no thicker than this over what lies under the
 * ball, mm. */
#define THIN_MM 0.1
/* A cove stands no higher than the ball's middle by more than this, mm; what
 * does is held up by something else, a clamp beside the neck. */
#define HIGHER_MM 0.3
/* Halvings that find the roughed surface within a column. */
#define HALVINGS 14

struct gauge {
	const struct job *job;
	const struct neck *neck;
	const struct facets *facets;
	const struct stock *stock;
	struct facet_tree tree;
	double middle_mm; /* z of the lowest ball's middle */
	double floor_mm; /* z of its tip */
};

/* One side of one line of columns. */
struct cove_line {
	struct cove_figures cove;
	double area_mm2;
};

/* How far (x, y, z) stands off the hand-finish stock, mm. */
static double off_stock(const struct gauge *gauge, double x, double y, double z)
{
	struct nearest nearest;

	if (z <= neck_height_mm(gauge->neck, x, y) ||
	    !facet_tree_nearest(&gauge->tree, vec3_make(x, y, z), &nearest))
		return -INFINITY;
	return nearest.distance_mm - gauge->facets->item[nearest.facet].allowance_mm;
}

/* z of the hand-finish stock's surface over (x, y), where `top` stands off it;
 * `base` where the column lies beside it. */
static double stock_surface(const struct gauge *gauge, double x, double y, double base, double top)
{
	double low = base, high = top;

	if (off_stock(gauge, x, y, base + 1e-6) >= 0.0)
		return base;
	for (int i = 0; i < HALVINGS; i++) {
		double middle = (low + high) / 2.0;
		if (off_stock(gauge, x, y, middle) >= 0.0)
			high = middle;
		else
			low = middle;
	}
	return high;
}

/* Half-breadth of the roughed neck at its under side, mm. */
static double edge_of(const struct gauge *gauge, int side, double x)
{
	return neck_half_breadth_mm(gauge->neck, (enum neck_side)side, x, 0.0) +
	       gauge->job->neck.allowance.sides_mm;
}

static bool is_tab(const struct job *job, int side, double x)
{
	for (size_t i = 0; i < job->tabs.count; i++) {
		const struct tab *tab = &job->tabs.tab[i];
		double reach = tab->width_mm / 2.0 + job_most_radius_mm(job);
		if ((tab->side > 0.0) == (side == SIDE_PLUS) && fabs(x - tab->x_mm) <= reach)
			return true;
	}
	return false;
}

/* Outward from the edge: how far the cove goes, and its area. */
static void measure_outward(struct cove_line *line, const struct gauge *gauge, size_t ix, int side)
{
	const struct stock *stock = gauge->stock;
	double sign = side == SIDE_PLUS ? 1.0 : -1.0, x = stock_x(stock, ix);
	double edge = edge_of(gauge, side, x), most = 2.0 * (gauge->middle_mm - gauge->floor_mm);

	for (size_t k = 0; (double)k * stock->cell_mm <= most; k++) {
		double y = edge + (double)k * stock->cell_mm;
		size_t i = stock_iy(stock, sign * y) * stock->nx + ix;
		double low = larger((double)stock->bottom[i], gauge->floor_mm);
		double thick = (double)stock->top[i] - low;
		if (thick <= THIN_MM)
			return;
		line->cove.width_mm = y + stock->cell_mm / 2.0 - edge;
		line->area_mm2 += thick * stock->cell_mm;
	}
}

/* Inward from just outside the edge, up to where the ball's side left the
 * neck's. */
static void measure_inward(struct cove_line *line, const struct gauge *gauge, size_t ix, int side)
{
	const struct stock *stock = gauge->stock;
	double sign = side == SIDE_PLUS ? 1.0 : -1.0, x = stock_x(stock, ix);
	double base = neck_base_mm(gauge->neck, x), edge = edge_of(gauge, side, x);
	double over = gauge->job->carve.scallop_limit_mm + OVER_MM;

	for (size_t k = 0; (double)k * stock->cell_mm < edge + stock->cell_mm; k++) {
		double y = edge + stock->cell_mm - (double)k * stock->cell_mm;
		size_t iy = stock_iy(stock, sign * y);
		double top = stock->top[iy * stock->nx + ix], at = stock_y(stock, iy);
		bool outside = fabs(at) > edge;
		if (top - base <= THIN_MM || (!outside && off_stock(gauge, x, at, top) <= over))
			return;
		line->cove.height_mm = larger(line->cove.height_mm, top - base);
		if (!outside)
			line->area_mm2 +=
				(top - stock_surface(gauge, x, at, base, top)) * stock->cell_mm;
	}
}

static struct cove_line measure_line(const struct gauge *gauge, size_t ix, int side)
{
	struct cove_line line = { { 0.0, 0.0 }, 0.0 };
	double x = stock_x(gauge->stock, ix);
	double most = gauge->middle_mm - neck_base_mm(gauge->neck, x);

	if (x < gauge->job->carve.from_mm || x > gauge->job->carve.to_mm || most <= 0.0 ||
	    is_tab(gauge->job, side, x))
		return line;
	measure_inward(&line, gauge, ix, side);
	if (line.cove.height_mm <= 0.0 || line.cove.height_mm > most + HIGHER_MM)
		return (struct cove_line){ { 0.0, 0.0 }, 0.0 };
	measure_outward(&line, gauge, ix, side);
	return line;
}

static void keep_tallest(struct beside_figures *out, const struct cove_line *line, double x_mm,
			 int side)
{
	if (line->cove.height_mm <= out->cove.height_mm)
		return;
	out->cove = line->cove;
	out->cove_x_mm = x_mm;
	out->cove_side = side;
}

static enum fault measure_all(struct beside_figures *out, const struct gauge *gauge,
			      struct fault_list *faults)
{
	const struct stock *stock = gauge->stock;
	size_t stride = (size_t)larger(1.0, floor(LINE_STEP_MM / stock->cell_mm + 0.5));
	size_t count = (stock->nx + stride - 1) / stride;
	struct cove_line *line = mem_array(2 * count, sizeof *line);

	if (!line)
		return fault_no_memory(faults, "the coves");
#pragma omp parallel for schedule(dynamic, 8)
	for (long k = 0; k < (long)(2 * count); k++)
		line[k] = measure_line(gauge, (size_t)k / 2 * stride, (int)(k % 2));
	for (size_t k = 0; k < 2 * count; k++) {
		keep_tallest(out, &line[k], stock_x(stock, k / 2 * stride), (int)(k % 2));
		out->cove_mm3 += line[k].area_mm2 * (double)stride * stock->cell_mm;
	}
	free(line);
	return FAULT_NONE;
}

/* What the ball leaves under itself beside the neck. */
static double skin_mm(const struct gauge *gauge)
{
	const struct job *job = gauge->job;
	double bottom = outline_least_mm(&job->blank.bottom, larger(job->carve.from_mm, 0.0),
					 job->carve.to_mm);

	return larger(0.0, gauge->floor_mm - bottom);
}

enum fault cove_measure(struct job_result *result, const struct job *job, const struct neck *neck,
			const struct facets *facets, const struct stock *stock,
			struct fault_list *faults)
{
	double middle = job_cove_mm(job);
	struct gauge gauge = { .job = job,
			       .neck = neck,
			       .facets = facets,
			       .stock = stock,
			       .middle_mm = middle,
			       .floor_mm = job_bed_mm(job) + job->fixture.bed_clearance_mm };

	if (middle <= OVER_MM)
		return FAULT_NONE;
	enum fault fault = facet_tree_build(&gauge.tree, facets, faults);
	if (fault == FAULT_NONE)
		fault = measure_all(&result->beside, &gauge, faults);
	for (size_t i = 0; i < result->station_count && fault == FAULT_NONE; i++)
		for (int side = 0; side < 2; side++) {
			size_t ix = stock_ix(stock, result->station[i].x_mm);
			result->station[i].cove[side] = measure_line(&gauge, ix, side).cove;
		}
	result->beside.skin_mm = skin_mm(&gauge);
	facet_tree_free(&gauge.tree);
	return fault;
}
