/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/mirror.h"

#include "base/tol.h"

static enum cut_way mirror_way(enum cut_way way)
{
	return way == CUT_CLIMB ? CUT_CONVENTIONAL : way == CUT_CONVENTIONAL ? CUT_CLIMB : way;
}

static void mirror_places(struct place *place, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		double from = place[i].y_from_mm;
		place[i].y_from_mm = -place[i].y_to_mm;
		place[i].y_to_mm = -from;
	}
}

void mirror_tabs(struct tabs *tabs)
{
	for (size_t i = 0; i < tabs->count; i++)
		tabs->tab[i].side = -tabs->tab[i].side;
}

struct job mirror_job(const struct job *job)
{
	struct job out = *job;

	out.neck.hand = job->neck.hand == HAND_RIGHT ? HAND_LEFT : HAND_RIGHT;
	out.blank.side[BLANK_MINUS] = job->blank.side[BLANK_PLUS];
	out.blank.side[BLANK_PLUS] = job->blank.side[BLANK_MINUS];
	mirror_places(out.fixture.keep_out, out.fixture.keep_out_count);
	mirror_places(out.fixture.hold, out.fixture.hold_count);
	out.fixture.work_zero_mm.y = -job->fixture.work_zero_mm.y;
	out.machine.park_y_mm = -job->machine.park_y_mm;
	mirror_tabs(&out.tabs);
	for (int i = 0; i < STRETCH_COUNT; i++)
		out.cutting[i].way = mirror_way(job->cutting[i].way);
	return out;
}

static void mirror_motions(struct motion_list *list)
{
	for (size_t i = 0; i < list->count; i++) {
		struct motion *motion = &list->item[i];
		/* no minus nought: programs would write it otherwise */
		motion->to.y = 0.0 - motion->to.y;
		motion->lean.y = motion->lean.y < 0.0 ? -motion->lean.y : motion->lean.y;
		motion->arc.centre.y = 0.0 - motion->arc.centre.y;
		/* in the x-z plane nothing has changed */
		if (motion->arc.plane == PLANE_XY)
			motion->arc.clockwise = !motion->arc.clockwise;
	}
}

/* Exchanges rows of columns, first for last. */
static void mirror_rows(float *value, size_t nx, size_t ny)
{
	for (size_t iy = 0; iy < ny / 2; iy++) {
		float *one = value + iy * nx, *other = value + (ny - 1 - iy) * nx;
		for (size_t ix = 0; ix < nx; ix++) {
			float kept = one[ix];
			one[ix] = other[ix];
			other[ix] = kept;
		}
	}
}

/* The middle row stands on the centre line: rows change places, and the grid stays
 * where it is. */
static void mirror_columns(struct stock *stock)
{
	if (!stock->top)
		return;
	mirror_rows(stock->top, stock->nx, stock->ny);
	mirror_rows(stock->ceiling, stock->nx, stock->ny);
	mirror_rows(stock->bottom, stock->nx, stock->ny);
	for (size_t by = 0; by < stock->by; by++)
		for (size_t bx = 0; bx < stock->bx; bx++)
			stock_refresh_block(stock, bx, by);
}

enum fault mirror_stock(struct stock *out, const struct stock *stock, struct fault_list *faults)
{
	enum fault fault = stock_copy(out, stock, faults);

	if (!fault)
		mirror_columns(out);
	return fault;
}

static unsigned mirror_ways(unsigned ways)
{
	unsigned out = ways & ~(1U << CUT_CLIMB | 1U << CUT_CONVENTIONAL);

	if (ways & 1U << CUT_CLIMB)
		out |= 1U << CUT_CONVENTIONAL;
	if (ways & 1U << CUT_CONVENTIONAL)
		out |= 1U << CUT_CLIMB;
	return out;
}

void mirror_plan(struct plan *plan)
{
	mirror_motions(&plan->motions);
	mirror_motions(&plan->dry_run);
	for (size_t i = 0; i < plan->pass_count; i++)
		plan->pass[i].why.ways = mirror_ways(plan->pass[i].why.ways);
	mirror_columns(&plan->left);
}

enum fault mirror_model_make(struct mirror_model *out, const struct job *job,
			     struct fault_list *faults)
{
	*out = (struct mirror_model){ .job = mirror_job(job) };
	enum fault fault = neck_build(&out->neck, &out->job.neck, faults);
	return fault ? fault : facets_build(&out->facets, out->neck, TOL_FACET_MM, faults);
}

void mirror_model_free(struct mirror_model *model)
{
	facets_free(&model->facets);
	neck_free(model->neck);
}
