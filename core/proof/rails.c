/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "proof/rails.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "base/tol.h"

/* The neck's widest place so far to both sides of a column counts for it, mm:
 * where the plan opens, a channel is as wide as it needs to be beside it. */
#define WIDEST_WITHIN_MM 2.0
/* Columns nearer than this to a rail's edge are not judged, mm. */
#define EDGE_MM 0.5
/* Nor those nearer than this to a rail's end, mm. */
#define END_MM 3.0

/* A rail on one side at one line of columns. */
struct line {
	double edge_mm; /* where it begins at the latest, from the centre line */
	bool wide; /* enough for a rail */
	bool rail;
};

struct rail_judge {
	struct verdict *verdict;
	const struct stock *stock;
	const struct job *job;
	const struct neck *neck;
};

static double half_at(const struct neck *neck, double x)
{
	size_t count;
	const double *level = neck_levels(neck, &count);
	double most = 0.0;

	x = clamped(x, neck_from_mm(neck), neck_to_mm(neck));
	for (size_t i = 0; i < count; i++)
		most = larger(most, larger(neck_half_breadth_mm(neck, SIDE_MINUS, x, level[i]),
					   neck_half_breadth_mm(neck, SIDE_PLUS, x, level[i])));
	return most;
}

/* Where rails must stand on one side. */
static void find_rails(struct line *line, const struct rail_judge *judge, enum blank_side side)
{
	const struct stock *stock = judge->stock;
	const struct blank *blank = &judge->job->blank;
	double beside = job_most_stock_mm(judge->job) + job_channel_mm(judge->job);
	size_t end = (size_t)ceil(END_MM / stock->cell_mm);
	size_t length = (size_t)ceil((RAIL_LEAST_LENGTH_MM + END_MM) / stock->cell_mm);

	for (size_t ix = 0; ix < stock->nx; ix++) {
		double x = stock_x(stock, ix), half = half_at(judge->neck, x);
		half = larger(half, half_at(judge->neck, x - WIDEST_WITHIN_MM));
		half = larger(half, half_at(judge->neck, x + WIDEST_WITHIN_MM));
		line[ix].edge_mm = half + beside;
		line[ix].wide =
			x >= judge->job->carve.from_mm && x <= judge->job->carve.to_mm &&
			blank_side_least_mm(blank, side, x - 1.0, x + 1.0) - line[ix].edge_mm >=
				RAIL_LEAST_WIDTH_MM;
	}
	for (size_t ix = 0; ix < stock->nx; ix++) {
		size_t last = ix;
		if (!line[ix].wide)
			continue;
		while (last + 1 < stock->nx && line[last + 1].wide)
			last++;
		for (size_t k = ix + end; last - ix >= length && k + end <= last; k++)
			line[k].rail = true;
		ix = last;
	}
}

/* The deepest cut into the rails of one side. */
static void judge_side(const struct rail_judge *judge, const struct line *line,
		       enum blank_side side)
{
	const struct stock *stock = judge->stock;
	const struct blank *blank = &judge->job->blank;
	double deepest = 0.0, at_x = 0.0, at_y = 0.0;

	for (size_t iy = 0; iy < stock->ny; iy++)
		for (size_t ix = 0; ix < stock->nx; ix++) {
			double x = stock_x(stock, ix), y = stock_y(stock, iy);
			double out = side == BLANK_MINUS ? -y : y;
			if (!line[ix].rail || out < line[ix].edge_mm + EDGE_MM ||
			    out > blank_side_least_mm(blank, side, x, x))
				continue;
			double cut = blank_top_least_mm(blank, x, x) -
				     (double)stock->top[iy * stock->nx + ix];
			if (cut <= deepest)
				continue;
			deepest = cut;
			at_x = x;
			at_y = y;
		}
	if (deepest <= TOL_PROOF_MM)
		return;
	verdict_figure(judge->verdict, PROMISE_KEEP_OUT, -deepest);
	verdict_break(judge->verdict, PROMISE_KEEP_OUT, 0, 0,
		      "A rail is cut %.3f mm deep at X %.1f Y %.1f.", deepest,
		      at_x - judge->job->fixture.work_zero_mm.x,
		      at_y - judge->job->fixture.work_zero_mm.y);
}

enum fault rails_judge(struct verdict *verdict, const struct stock *stock, const struct job *job,
		       const struct neck *neck, struct fault_list *faults)
{
	const struct rail_judge judge = { verdict, stock, job, neck };

	if (job->carve.waste.kind != WASTE_RAILS)
		return FAULT_NONE;
	for (int side = 0; side < BLANK_SIDES; side++) {
		struct line *line = mem_array(stock->nx, sizeof *line);
		if (!line)
			return fault_no_memory(faults, "the rails");
		find_rails(line, &judge, (enum blank_side)side);
		judge_side(&judge, line, (enum blank_side)side);
		free(line);
	}
	return FAULT_NONE;
}
