/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "proof/loose.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/tol.h"

/* How sure the wood at one x is. */
struct certainty {
	bool here; /* within the blank as drawn */
	float top; /* the least blank's */
	/* Out to here on either side there is wood in any blank, and out to there
	 * in any whose steps and slopes lie where they may. */
	double sure_mm[BLANK_SIDES], step_mm[BLANK_SIDES];
};

struct search {
	const struct stock *stock;
	struct certainty *at; /* [nx]; NULL: all wood is sure */
	unsigned char *seen; /* 0 not yet, 1 queued or done */
	unsigned *queue;
	size_t head, tail;
};

/* From the surest: in any blank; near a step, which may lie to and fro; at an
 * edge, which may lie out and in. */
enum standing { STANDS_SURE, STANDS_STEP, STANDS_EDGE };

static enum standing standing_of(const struct search *search, size_t ix, size_t iy)
{
	double y = stock_y(search->stock, iy);
	enum blank_side side = y < 0.0 ? BLANK_MINUS : BLANK_PLUS;

	if (!search->at)
		return STANDS_SURE;
	const struct certainty *at = &search->at[ix];
	if (at->here && fabs(y) <= at->sure_mm[side])
		return STANDS_SURE;
	return fabs(y) <= at->step_mm[side] ? STANDS_STEP : STANDS_EDGE;
}

static bool holds(const struct stock *stock, size_t i)
{
	return (double)stock->top[i] - stock->bottom[i] >= TOL_HOLDING_SKIN_MM;
}

/* Whether a column holds in the least blank that has it. */
static bool holds_surely(const struct search *search, size_t i)
{
	const struct stock *stock = search->stock;

	if (!search->at || stock->top[i] <= search->at[i % stock->nx].top)
		return holds(stock, i);
	return (double)search->at[i % stock->nx].top - stock->bottom[i] >= TOL_HOLDING_SKIN_MM;
}

static void push(struct search *search, size_t i)
{
	search->seen[i] = 1;
	search->queue[search->tail++] = (unsigned)i;
}

/* From column (ix, iy) to its neighbour dx, dy away: whether the neighbour is
 * held if this one is. Sure wood holds whatever is beside it. Other wood holds
 * what there cannot be without it. */
static bool passes_on(const struct search *search, size_t ix, size_t iy, size_t jx, size_t jy)
{
	enum standing from = standing_of(search, ix, iy), to = standing_of(search, jx, jy);

	if (from == STANDS_SURE)
		return true;
	if (to == STANDS_SURE || (from == STANDS_EDGE && to == STANDS_STEP))
		return false;
	if (from == STANDS_STEP && to == STANDS_STEP)
		return true;
	return ix == jx && fabs(stock_y(search->stock, jy)) > fabs(stock_y(search->stock, iy));
}

struct columns {
	size_t x, y;
};

/* The neighbours of a column; returns how many. */
static size_t neighbours(const struct stock *stock, size_t i, struct columns out[4])
{
	size_t ix = i % stock->nx, iy = i / stock->nx, count = 0;

	if (ix > 0)
		out[count++] = (struct columns){ ix - 1, iy };
	if (ix + 1 < stock->nx)
		out[count++] = (struct columns){ ix + 1, iy };
	if (iy > 0)
		out[count++] = (struct columns){ ix, iy - 1 };
	if (iy + 1 < stock->ny)
		out[count++] = (struct columns){ ix, iy + 1 };
	return count;
}

/* Takes in everything connected to what is queued, by way of sure wood when
 * `surely`; returns how many columns. */
static size_t spread(struct search *search, bool surely)
{
	size_t nx = search->stock->nx, start = search->head;

	while (search->head < search->tail) {
		size_t i = search->queue[search->head++];
		struct columns next[4];
		size_t count = neighbours(search->stock, i, next);
		for (size_t k = 0; k < count; k++) {
			size_t j = next[k].y * nx + next[k].x;
			if (search->seen[j] || !holds(search->stock, j))
				continue;
			if (surely && (!holds_surely(search, j) ||
				       !passes_on(search, i % nx, i / nx, next[k].x, next[k].y)))
				continue;
			push(search, j);
		}
	}
	return search->head - start;
}

static void push_place(struct search *search, const struct place *place)
{
	const struct stock *stock = search->stock;
	size_t ix1 = stock_ix(stock, place->x_to_mm), iy1 = stock_iy(stock, place->y_to_mm);

	for (size_t iy = stock_iy(stock, place->y_from_mm); iy <= iy1; iy++)
		for (size_t ix = stock_ix(stock, place->x_from_mm); ix <= ix1; ix++)
			if (!search->seen[iy * stock->nx + ix] &&
			    holds_surely(search, iy * stock->nx + ix))
				push(search, iy * stock->nx + ix);
}

/* What is sure about the wood of a blank with a margin. */
static void make_certainty(struct certainty *at, const struct stock *stock,
			   const struct blank *blank)
{
	for (size_t ix = 0; ix < stock->nx; ix++) {
		double x = stock_x(stock, ix);
		at[ix].here = x >= blank_from_mm(blank) && x <= blank_to_mm(blank);
		at[ix].top = (float)blank_top_least_mm(blank, x, x);
		for (int k = 0; k < BLANK_SIDES; k++) {
			enum blank_side side = (enum blank_side)k;
			at[ix].sure_mm[k] = blank_side_least_mm(blank, side, x, x);
			at[ix].step_mm[k] =
				blank_side_most_mm(blank, side, x, x) - 2.0 * blank->margin_mm;
		}
	}
}

/* Walks all pieces not yet seen. Finds the largest and the second largest. */
struct pieces {
	size_t largest, second; /* columns */
	size_t at, second_at; /* a column of each */
};

static struct pieces walk_pieces(struct search *search)
{
	struct pieces pieces = { 0 };
	size_t count = search->stock->nx * search->stock->ny;

	for (size_t i = 0; i < count; i++) {
		if (search->seen[i] || !holds(search->stock, i))
			continue;
		push(search, i);
		size_t columns = spread(search, false);
		if (columns > pieces.largest) {
			pieces.second = pieces.largest;
			pieces.second_at = pieces.at;
			pieces.largest = columns;
			pieces.at = i;
		} else if (columns > pieces.second) {
			pieces.second = columns;
			pieces.second_at = i;
		}
	}
	return pieces;
}

enum fault loose_judge(struct verdict *verdict, const struct stock *stock, const struct job *job,
		       int program, int block, struct fault_list *faults)
{
	size_t count = stock->nx * stock->ny;
	struct search search = { .stock = stock,
				 .seen = mem_array(count, 1),
				 .queue = mem_array(count, sizeof(unsigned)) };
	enum fault fault = FAULT_NONE;
	bool margin = job->blank.margin_mm > 0.0;

	if (margin)
		search.at = mem_array(stock->nx, sizeof *search.at);

	if (stock->nx == 0 || stock->ny == 0)
		goto cleanup; /* stock_build makes no such grid */
	if (!search.seen || !search.queue || (margin && !search.at)) {
		fault = fault_no_memory(faults, "the search for loose pieces");
		goto cleanup;
	}
	if (margin)
		make_certainty(search.at, stock, &job->blank);
	for (size_t i = 0; i < job->fixture.hold_count; i++)
		push_place(&search, &job->fixture.hold[i]);
	(void)spread(&search, true);
	struct pieces pieces = walk_pieces(&search);
	bool held = job->fixture.hold_count > 0;
	size_t columns = held ? pieces.largest : pieces.second;
	size_t at = held ? pieces.at : pieces.second_at;
	double area = (double)columns * stock->cell_mm * stock->cell_mm;
	verdict_judged(verdict, PROMISE_LOOSE, TOL_LOOSE_AREA_MM2);
	verdict_figure(verdict, PROMISE_LOOSE, area);
	if (area > TOL_LOOSE_AREA_MM2)
		verdict_break(verdict, PROMISE_LOOSE, program, block,
			      "A piece of %.0f mm2 near X %.1f Y %.1f is cut loose.", area,
			      stock_x(stock, at % stock->nx) - job->fixture.work_zero_mm.x,
			      stock_y(stock, at / stock->nx) - job->fixture.work_zero_mm.y);
cleanup:
	free(search.at);
	free(search.seen);
	free(search.queue);
	return fault;
}
