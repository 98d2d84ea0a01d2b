/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "proof/loose.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/tol.h"

struct search {
	const struct stock *stock;
	unsigned char *seen; /* 0 not yet, 1 queued or done */
	unsigned *queue;
	size_t head, tail;
};

static bool holds(const struct stock *stock, size_t i)
{
	return (double)stock->top[i] - stock->bottom[i] >= TOL_HOLDING_SKIN_MM;
}

static void push(struct search *search, size_t i)
{
	if (search->seen[i] || !holds(search->stock, i))
		return;
	search->seen[i] = 1;
	search->queue[search->tail++] = (unsigned)i;
}

/* Takes in everything connected to what is queued; returns how many columns. */
static size_t spread(struct search *search)
{
	size_t nx = search->stock->nx, ny = search->stock->ny, start = search->head;

	while (search->head < search->tail) {
		size_t i = search->queue[search->head++], ix = i % nx, iy = i / nx;
		if (ix > 0)
			push(search, i - 1);
		if (ix + 1 < nx)
			push(search, i + 1);
		if (iy > 0)
			push(search, i - nx);
		if (iy + 1 < ny)
			push(search, i + nx);
	}
	return search->head - start;
}

static void push_place(struct search *search, const struct place *place)
{
	const struct stock *stock = search->stock;
	size_t ix1 = stock_ix(stock, place->x_to_mm), iy1 = stock_iy(stock, place->y_to_mm);

	for (size_t iy = stock_iy(stock, place->y_from_mm); iy <= iy1; iy++)
		for (size_t ix = stock_ix(stock, place->x_from_mm); ix <= ix1; ix++)
			push(search, iy * stock->nx + ix);
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
		push(search, i);
		size_t columns = spread(search);
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

	if (stock->nx == 0 || stock->ny == 0)
		goto cleanup; /* stock_build makes no such grid */
	if (!search.seen || !search.queue) {
		fault = fault_no_memory(faults, "the search for loose pieces");
		goto cleanup;
	}
	for (size_t i = 0; i < job->fixture.hold_count; i++)
		push_place(&search, &job->fixture.hold[i]);
	(void)spread(&search);
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
	free(search.seen);
	free(search.queue);
	return fault;
}
