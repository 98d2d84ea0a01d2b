/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stock/pieces.h"

#include <stdlib.h>

#include "base/mem.h"

struct spot {
	unsigned ix, iy;
};

/* A walk from column to column. */
struct walk {
	const struct stock *stock;
	double skin_mm;
	unsigned *label;
	struct spot *queue; /* columns whose neighbours are still to be looked at */
	size_t head, tail;
};

static void visit(struct walk *walk, size_t ix, size_t iy, unsigned label)
{
	size_t i = iy * walk->stock->nx + ix;

	if (walk->label[i] != 0 ||
	    (double)walk->stock->top[i] - (double)walk->stock->bottom[i] < walk->skin_mm)
		return;
	walk->label[i] = label;
	walk->queue[walk->tail++] = (struct spot){ (unsigned)ix, (unsigned)iy };
}

static void widen(struct piece *piece, size_t ix, size_t iy)
{
	piece->columns++;
	piece->ix0 = ix < piece->ix0 ? ix : piece->ix0;
	piece->ix1 = ix > piece->ix1 ? ix : piece->ix1;
	piece->iy0 = iy < piece->iy0 ? iy : piece->iy0;
	piece->iy1 = iy > piece->iy1 ? iy : piece->iy1;
}

/* The whole piece of a column. */
static struct piece spread(struct walk *walk, size_t ix, size_t iy, unsigned label)
{
	struct piece piece = { 0, ix, ix, iy, iy, false };

	walk->head = walk->tail = 0;
	visit(walk, ix, iy, label);
	while (walk->head < walk->tail) {
		struct spot at = walk->queue[walk->head++];
		widen(&piece, at.ix, at.iy);
		if (at.ix > 0)
			visit(walk, at.ix - 1, at.iy, label);
		if (at.ix + 1 < walk->stock->nx)
			visit(walk, at.ix + 1, at.iy, label);
		if (at.iy > 0)
			visit(walk, at.ix, at.iy - 1, label);
		if (at.iy + 1 < walk->stock->ny)
			visit(walk, at.ix, at.iy + 1, label);
	}
	return piece;
}

static enum fault keep_piece(struct pieces *out, const struct piece *piece,
			     struct fault_list *faults)
{
	struct piece *grown = mem_grow(out->piece, &out->capacity, out->count + 1, sizeof *grown);

	if (!grown)
		return fault_no_memory(faults, "the pieces of wood");
	out->piece = grown;
	out->piece[out->count++] = *piece;
	return FAULT_NONE;
}

static enum fault walk_all(struct pieces *out, struct walk *walk, struct fault_list *faults)
{
	size_t nx = walk->stock->nx, ny = walk->stock->ny;
	enum fault fault = FAULT_NONE;

	if (!walk->label || !walk->queue)
		return fault_no_memory(faults, "the pieces of wood");
	for (size_t iy = 0; iy < ny && fault == FAULT_NONE; iy++)
		for (size_t ix = 0; ix < nx && fault == FAULT_NONE; ix++) {
			if (walk->label[iy * nx + ix] != 0)
				continue;
			struct piece piece = spread(walk, ix, iy, (unsigned)out->count + 1);
			if (piece.columns > 0)
				fault = keep_piece(out, &piece, faults);
		}
	return fault;
}

static void hold(struct pieces *pieces, const struct stock *stock, const struct place *place)
{
	size_t ix1 = stock_ix(stock, place->x_to_mm), iy1 = stock_iy(stock, place->y_to_mm);

	for (size_t iy = stock_iy(stock, place->y_from_mm); iy <= iy1; iy++)
		for (size_t ix = stock_ix(stock, place->x_from_mm); ix <= ix1; ix++) {
			unsigned label = pieces->label[iy * stock->nx + ix];
			if (label > 0)
				pieces->piece[label - 1].held = true;
		}
}

static void hold_all(struct pieces *pieces, const struct stock *stock,
		     const struct fixture *fixture)
{
	size_t largest = 0;

	for (size_t i = 0; i < fixture->hold_count; i++)
		hold(pieces, stock, &fixture->hold[i]);
	for (size_t i = 1; i < pieces->count; i++)
		if (pieces->piece[i].columns > pieces->piece[largest].columns)
			largest = i;
	if (fixture->hold_count == 0 && pieces->count > 0)
		pieces->piece[largest].held = true;
}

enum fault pieces_find(struct pieces *out, const struct stock *stock, const struct fixture *fixture,
		       double skin_mm, struct fault_list *faults)
{
	size_t columns = stock->nx * stock->ny;
	struct walk walk = { .stock = stock,
			     .skin_mm = skin_mm,
			     .queue = mem_array(columns, sizeof *walk.queue) };

	*out = (struct pieces){ .label = mem_array(columns, sizeof(unsigned)) };
	walk.label = out->label;
	enum fault fault = walk_all(out, &walk, faults);
	if (fault == FAULT_NONE)
		hold_all(out, stock, fixture);
	free(walk.queue);
	return fault;
}

void pieces_free(struct pieces *pieces)
{
	if (!pieces)
		return;
	free(pieces->piece);
	free(pieces->label);
	*pieces = (struct pieces){ 0 };
}

const struct piece *pieces_loose(const struct pieces *pieces, const struct stock *stock,
				 double area_mm2)
{
	const struct piece *loose = NULL;

	for (size_t i = 0; i < pieces->count; i++) {
		const struct piece *piece = &pieces->piece[i];
		double area = (double)piece->columns * stock->cell_mm * stock->cell_mm;
		if (!piece->held && area >= area_mm2 && (!loose || piece->columns > loose->columns))
			loose = piece;
	}
	return loose;
}
