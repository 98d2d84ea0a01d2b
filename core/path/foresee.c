/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/foresee.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "base/tol.h"
#include "path/profile.h"

/* Columns of the foreseen wood are so far apart, mm. */
#define FORESEEN_CELL_MM 0.5
/* Tips higher than this above the under side thin nothing that matters, mm. */
#define THIN_MM 2.0
/* The plan's own lines may take so much more from an edge than the lattice shows,
 * mm. */
#define EDGE_MM 1.5

/* The ball at every place of the lattice that is low enough. */
static enum fault lower(struct stock *stock, const struct job *job, const struct profile *profile,
			double radius_mm, struct swath *swath, struct fault_list *faults)
{
	enum fault fault = FAULT_NONE;

	for (size_t ix = 0; ix < profile->nx && fault == FAULT_NONE; ix++) {
		double x = profile_x(profile, ix);
		double low = outline_most_mm(&job->blank.bottom, x - radius_mm, x + radius_mm);
		for (size_t iy = 0; iy < profile->ny && fault == FAULT_NONE; iy++) {
			double tip = profile->tip_mm[ix * profile->ny + iy];
			struct vec3 at = { x, profile->y0_mm + (double)iy * profile->dy_mm, tip };
			if (tip <= low + THIN_MM)
				fault = stock_sweep(stock, at, at, radius_mm, swath, faults);
		}
	}
	return fault;
}

static enum fault foresee_cutter(struct stock *stock, const struct job *job,
				 const struct facets *facets, const struct neck *neck,
				 const struct cutter *cutter, struct fault_list *faults)
{
	double radius = cutter_radius_mm(cutter);
	double y_limit = radius + blank_widest_most_mm(&job->blank);
	struct profile profile = { 0 };
	struct drop *drop = NULL;
	struct swath swath = { 0 };
	enum fault fault = drop_build(&drop, facets, neck, job, cutter, TOL_PLAN_MARGIN_MM, faults);

	if (fault == FAULT_NONE)
		fault = profile_build(&profile, drop, job->carve.from_mm, job->carve.to_mm, y_limit,
				      faults);
	if (fault == FAULT_NONE)
		fault = lower(stock, job, &profile, radius, &swath, faults);
	swath_free(&swath);
	profile_free(&profile);
	drop_free(drop);
	return fault;
}

enum fault foresee(struct stock *out, const struct job *job, const struct facets *facets,
		   const struct neck *neck, struct fault_list *faults)
{
	enum fault fault = stock_build(out, &job->blank, FORESEEN_CELL_MM, faults);

	for (size_t i = 0; i < job->cutter_count && fault == FAULT_NONE; i++)
		fault = foresee_cutter(out, job, facets, neck, &job->cutter[i], faults);
	return fault;
}

void foresee_tabs(struct stock *stock, const struct job *job)
{
	for (size_t i = 0; i < job->tabs.count; i++) {
		const struct tab *tab = &job->tabs.tab[i];
		double half = tab->width_mm / 2.0, top = tab->base_mm + tab->height_mm;
		size_t ix1 = stock_ix(stock, tab->x_mm + half - stock->cell_mm);
		for (size_t ix = stock_ix(stock, tab->x_mm - half + stock->cell_mm); ix <= ix1;
		     ix++)
			for (size_t iy = 0; iy < stock->ny; iy++) {
				size_t k = iy * stock->nx + ix;
				double across = tab->side * stock_y(stock, iy);
				if (across >= tab->inner_mm && across <= tab->outer_mm)
					stock->top[k] = (float)larger((double)stock->top[k], top);
			}
	}
}

static bool is_thick(const struct stock *stock, size_t ix, size_t iy, double holding_mm)
{
	size_t i = iy * stock->nx + ix;

	return (double)stock->top[i] - (double)stock->bottom[i] >= holding_mm;
}

/* Columns on the grid's border have no neighbour beyond it to lack. */
static bool is_inner(const struct stock *stock, size_t ix, size_t iy, double holding_mm)
{
	return (ix == 0 || is_thick(stock, ix - 1, iy, holding_mm)) &&
	       (ix + 1 >= stock->nx || is_thick(stock, ix + 1, iy, holding_mm)) &&
	       (iy == 0 || is_thick(stock, ix, iy - 1, holding_mm)) &&
	       (iy + 1 >= stock->ny || is_thick(stock, ix, iy + 1, holding_mm));
}

/* Takes the outermost columns away; `scratch` has room for them all. */
static void take_edge(struct stock *stock, float *scratch, double holding_mm)
{
	for (size_t iy = 0; iy < stock->ny; iy++)
		for (size_t ix = 0; ix < stock->nx; ix++) {
			size_t i = iy * stock->nx + ix;
			scratch[i] = is_inner(stock, ix, iy, holding_mm) ? stock->top[i]
									 : stock->bottom[i];
		}
	memcpy(stock->top, scratch, stock->nx * stock->ny * sizeof *scratch);
}

enum fault foresee_firm(struct stock *out, const struct stock *stock, double holding_mm,
			struct fault_list *faults)
{
	enum fault fault = stock_copy(out, stock, faults);

	if (fault != FAULT_NONE)
		return fault;
	float *scratch = mem_array(stock->nx * stock->ny, sizeof *scratch);
	if (!scratch)
		return fault_no_memory(faults, "the wood that will be left");
	for (size_t taken = 0; (double)taken * stock->cell_mm < EDGE_MM; taken++)
		take_edge(out, scratch, holding_mm);
	free(scratch);
	return FAULT_NONE;
}
