/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/beside.h"

#include <math.h>

#include "job/cove.h"
#include "path/rails.h"

/* Columns count as part of a tab when they are no thinner than this much under
 * its height, mm. */
#define TAB_SHORT_MM 0.05

/* The sides of neck and blank go by the same sign of y. The wood is told as it
 * is drawn, without the blank's margin. */
static void note_rails(struct beside_figures *out, const struct rails *rails,
		       const struct blank *blank)
{
	for (int side = 0; side < BLANK_SIDES; side++) {
		out->rail_from_mm[side] = out->rail_to_mm[side] = NAN;
		for (size_t i = 0; i < rails->count; i++) {
			const struct rail *rail = &rails->rail[i];
			if (!rail->stands[side])
				continue;
			double from = fmax(rail->x0_mm, blank_from_mm(blank));
			double to = fmin(rail->x1_mm, blank_to_mm(blank));
			/* fmin and fmax pass over what is NAN */
			out->rail_from_mm[side] = fmin(out->rail_from_mm[side], from);
			out->rail_to_mm[side] = fmax(out->rail_to_mm[side], to);
			out->rail_top_mm =
				fmax(out->rail_top_mm, outline_most_mm(&blank->top, from, to));
		}
	}
}

static double thickness_at(const struct stock *stock, size_t ix, size_t iy)
{
	size_t i = iy * stock->nx + ix;

	return (double)stock->top[i] - (double)stock->bottom[i];
}

/* Width of the wood along x around the tab's middle on one row of columns that
 * is as thick as the tab; least thickness within the tab's width in *least. */
static double row_width(const struct stock *stock, const struct tab *tab, size_t iy, double *least)
{
	double half = tab->width_mm / 2.0, enough = tab->height_mm - TAB_SHORT_MM;
	size_t ix1 = stock_ix(stock, tab->x_mm + half), columns = 0;

	for (size_t ix = stock_ix(stock, tab->x_mm - half); ix <= ix1; ix++) {
		double thick = thickness_at(stock, ix, iy);
		if (fabs(stock_x(stock, ix) - tab->x_mm) <= half - stock->cell_mm)
			*least = fmin(*least, thick);
		columns += thick >= enough ? 1 : 0;
	}
	return fmin((double)columns * stock->cell_mm, tab->width_mm);
}

static struct tab_figures measure_tab(const struct stock *stock, const struct tab *tab)
{
	struct tab_figures figures = { *tab, INFINITY, INFINITY };
	size_t from = stock_iy(stock, tab->side * tab->inner_mm);
	size_t to = stock_iy(stock, tab->side * tab->outer_mm);
	size_t iy0 = from < to ? from : to, iy1 = from < to ? to : from;

	for (size_t iy = iy0; iy <= iy1; iy++)
		figures.least_width_mm = fmin(figures.least_width_mm,
					      row_width(stock, tab, iy, &figures.least_height_mm));
	return figures;
}

enum fault beside_measure(struct job_result *result, const struct job *job, const struct neck *neck,
			  const struct facets *facets, const struct stock *stock,
			  struct fault_list *faults)
{
	struct beside_figures *out = &result->beside;
	struct rails rails;
	enum fault fault = rails_build(&rails, neck, job, faults);

	*out = (struct beside_figures){ .channel_mm = job->carve.waste.kind == WASTE_RAILS
							      ? job_channel_mm(job)
							      : 0.0 };
	note_rails(out, &rails, &job->blank);
	rails_free(&rails);
	out->tab_count = job->tabs.count;
	for (size_t i = 0; i < job->tabs.count; i++)
		out->tab[i] = measure_tab(stock, &job->tabs.tab[i]);
	if (fault == FAULT_NONE)
		fault = cove_measure(result, job, neck, facets, stock, faults);
	return fault;
}
