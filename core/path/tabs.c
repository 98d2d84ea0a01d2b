/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/tabs.h"

#include <math.h>
#include <stdbool.h>

#include "base/minmax.h"
#include "base/tol.h"
#include "path/foresee.h"
#include "path/held.h"
#include "path/mirror.h"
#include "stock/pieces.h"

/* One tab for about this much of a piece's length, mm, and ... */
#define TAB_EVERY_MM 120.0
/* ... two where they can be so far apart, mm: a piece held at one place turns. */
#define TAB_APART_MM 40.0
/* Tabs keep so far from nut, heel and a piece's ends, mm. */
#define TAB_MARGIN_MM 6.0
/* They reach so far into the piece, mm: beyond the rounding of its edge. */
#define TAB_GRIP_MM 2.0
/* Foreseen wood must be this much thicker than what just holds, mm: scallops
 * are not foreseen, nor what rounding takes. */
#define FORESEEN_RESERVE_MM 0.1
#define HOLDING_MM (TOL_HOLDING_SKIN_MM + FORESEEN_RESERVE_MM)

struct choice {
	struct job *job;
	const struct neck *neck;
	const struct stock *stock;
	const struct pieces *pieces;
};

/* Distance from the centre line of a piece's nearest column at x on a side;
 * INFINITY when it has none there. */
static double inner_edge(const struct choice *choice, unsigned label, double x, double side)
{
	const struct stock *stock = choice->stock;
	size_t ix = stock_ix(stock, x), middle = stock_iy(stock, 0.0);

	for (size_t k = 0; k <= middle; k++) {
		size_t iy = side > 0.0 ? middle + k : middle - k;
		if (iy < stock->ny && choice->pieces->label[iy * stock->nx + ix] == label)
			return fabs(stock_y(stock, iy));
	}
	return INFINITY;
}

/* Half-breadth of the neck where it is just thick enough to hold a tab, mm: its
 * very edge may be thinner. */
static double neck_edge(const struct choice *choice, double x, double side)
{
	double v = clamped(HOLDING_MM / neck_height_mm(choice->neck, x, 0.0), 0.0, 1.0);

	return neck_half_breadth_mm(choice->neck, side > 0.0 ? SIDE_PLUS : SIDE_MINUS, x, v);
}

/* A tab at x to a piece, when there is something to join it to all across. */
static bool make_tab(struct tab *out, const struct choice *choice, unsigned label, double x,
		     double side)
{
	const struct waste_spec *waste = &choice->job->carve.waste;
	double half = waste->tab_width_mm / 2.0, outer = 0.0;

	for (int i = -2; i <= 2; i++)
		outer = larger(outer, inner_edge(choice, label, x + half * i / 2.0, side));
	if (!isfinite(outer))
		return false;
	*out = (struct tab){ .x_mm = x,
			     .width_mm = waste->tab_width_mm,
			     .side = side,
			     .inner_mm = neck_edge(choice, x, side),
			     .outer_mm = outer + TAB_GRIP_MM,
			     .base_mm = outline_most_mm(&choice->job->blank.bottom, x - half,
							x + half),
			     .height_mm = waste->tab_height_mm };
	return true;
}

/* The stretch of a piece beside which tabs may stand; empty when from > to. */
static void tab_stretch(const struct choice *choice, const struct piece *piece, double *from,
			double *to)
{
	const struct stock *stock = choice->stock;
	double margin = TAB_MARGIN_MM + choice->job->carve.waste.tab_width_mm / 2.0;

	*from = larger(stock_x(stock, piece->ix0), 0.0) + margin;
	*to = smaller(stock_x(stock, piece->ix1), neck_heel_start_mm(choice->neck)) - margin;
	*from = larger(*from, choice->job->carve.from_mm + margin);
	*to = smaller(*to, choice->job->carve.to_mm - margin);
}

static void add_tabs(const struct choice *choice, size_t index)
{
	const struct piece *piece = &choice->pieces->piece[index];
	struct tabs *tabs = &choice->job->tabs;
	double y = stock_y(choice->stock, piece->iy0) + stock_y(choice->stock, piece->iy1);
	double from, to;

	tab_stretch(choice, piece, &from, &to);
	if (from > to)
		return;
	size_t count = 1 + (size_t)((to - from) / TAB_EVERY_MM);
	count = count < 2 && to - from >= TAB_APART_MM ? 2 : count;
	for (size_t i = 0; i < count && tabs->count < TABS_MAX; i++) {
		double x = from + (to - from) * ((double)i + 0.5) / (double)count;
		if (make_tab(&tabs->tab[tabs->count], choice, (unsigned)index + 1, x,
			     y < 0.0 ? -1.0 : 1.0))
			tabs->count++;
	}
}

/* Pieces of the foreseen wood, joined only where it is wide enough to count on:
 * a narrow bridge may be gone when all is cut. */
static enum fault find_firm_pieces(struct pieces *out, const struct stock *stock,
				   const struct job *job, struct fault_list *faults)
{
	struct stock firm = { 0 };
	enum fault fault = foresee_firm(&firm, stock, HOLDING_MM, faults);

	*out = (struct pieces){ 0 };
	if (fault == FAULT_NONE)
		fault = pieces_find(out, &firm, &job->fixture, HOLDING_MM, faults);
	stock_free(&firm);
	return fault;
}

/* Adds tabs for everything loose in the foreseen wood. */
static enum fault tab_all(struct job *job, const struct neck *neck, const struct stock *stock,
			  struct fault_list *faults)
{
	struct pieces pieces;
	struct choice choice = { job, neck, stock, &pieces };
	enum fault fault = find_firm_pieces(&pieces, stock, job, faults);

	for (size_t i = 0; i < pieces.count && fault == FAULT_NONE; i++) {
		const struct piece *piece = &pieces.piece[i];
		double area = (double)piece->columns * stock->cell_mm * stock->cell_mm;
		if (!piece->held && area >= TOL_LOOSE_AREA_MM2)
			add_tabs(&choice, i);
	}
	pieces_free(&pieces);
	return fault;
}

/* Tabs are in place: nothing may be loose now. */
static enum fault look_again(const struct job *job, const struct stock *stock,
			     struct fault_list *faults)
{
	struct pieces pieces;
	enum fault fault = find_firm_pieces(&pieces, stock, job, faults);
	const struct piece *loose =
		fault == FAULT_NONE ? pieces_loose(&pieces, stock, TOL_LOOSE_AREA_MM2) : NULL;

	if (loose)
		fault = held_refuse(job, stock, loose, faults);
	pieces_free(&pieces);
	return fault;
}

/* Without rails everything beside the neck goes, but for what stands under a
 * clamp. */
static bool may_come_loose(const struct job *job)
{
	double reach = job_most_radius_mm(job);

	for (size_t i = 0; i < job->fixture.keep_out_count; i++) {
		const struct place *place = &job->fixture.keep_out[i];
		if (place->x_to_mm > job->carve.from_mm - reach &&
		    place->x_from_mm < job->carve.to_mm + reach)
			return true;
	}
	return job->carve.waste.kind == WASTE_RAILS;
}

static enum fault choose(struct job *job, const struct facets *facets, const struct neck *neck,
			 struct fault_list *faults)
{
	struct stock stock = { 0 };

	job->tabs.count = 0;
	if (!may_come_loose(job))
		return FAULT_NONE;
	enum fault fault = foresee(&stock, job, facets, neck, faults);
	if (fault == FAULT_NONE && job->carve.waste.tab_width_mm > 0.0)
		fault = tab_all(job, neck, &stock, faults);
	if (fault == FAULT_NONE) {
		foresee_tabs(&stock, job);
		fault = look_again(job, &stock, faults);
	}
	stock_free(&stock);
	return fault;
}

/* Chooses as for the mirrored job, whose plan this one's will be the mirror of. */
static enum fault choose_in_mirror(struct job *job)
{
	struct mirror_model model;
	enum fault fault = mirror_model_make(&model, job, NULL);

	if (!fault)
		fault = choose(&model.job, &model.facets, model.neck, NULL);
	if (!fault) {
		job->tabs = model.job.tabs;
		mirror_tabs(&job->tabs);
	}
	mirror_model_free(&model);
	return fault;
}

enum fault tabs_choose(struct job *job, const struct facets *facets, const struct neck *neck,
		       struct fault_list *faults)
{
	/* what is wrong is told of the job's own places */
	if (job->neck.hand == HAND_LEFT && choose_in_mirror(job) == FAULT_NONE)
		return FAULT_NONE;
	return choose(job, facets, neck, faults);
}
