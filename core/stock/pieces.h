/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pieces that wood has been cut into, and which of them something holds. */
#ifndef NECKHEW_STOCK_PIECES_H
#define NECKHEW_STOCK_PIECES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "machine/fixture.h"
#include "stock/stock.h"

/* Columns that hold each other, directly or by way of others. */
struct piece {
	size_t columns;
	size_t ix0, ix1, iy0, iy1; /* the box around it, ends included */
	bool held;
};

struct pieces {
	size_t count, capacity;
	struct piece *piece;
	unsigned *label; /* per column: index of its piece and 1; 0 for none */
};

/* Columns with at least `skin_mm` of wood hold the neighbours across their four
 * sides. A piece with a column in one of the fixture's holding places is held;
 * without holding places the largest is. Release with pieces_free, also after a
 * failure. */
enum fault pieces_find(struct pieces *out, const struct stock *stock, const struct fixture *fixture,
		       double skin_mm, struct fault_list *faults);
void pieces_free(struct pieces *pieces);

/* The largest piece that nothing holds; NULL when there is none of at least
 * `area_mm2` in plan. */
const struct piece *pieces_loose(const struct pieces *pieces, const struct stock *stock,
				 double area_mm2);

#endif
