/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bites. A bite is all that one visit of the ball takes from a column. A visit
 * ends when the ball has gone its own diameter without cutting there, or has
 * left the wood by a rapid. Wood that the ball's side merely brushes
 * (TOL_BRUSH_MM) is no bite. */
#ifndef NECKHEW_STOCK_VISITS_H
#define NECKHEW_STOCK_VISITS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "base/vec3.h"
#include "stock/stock.h"

struct visits {
	double radius_mm; /* of the ball */
	double way_mm; /* gone so far; rapids count as more than a diameter */
	/* Tops of the blank as drawn: volumes count wood below them only. NULL: all
	 * wood counts. The caller's. */
	const float *drawn;
	float *top, *way; /* per column: wood when the visit began, way when last cut */
};

enum fault visits_build(struct visits *out, const struct stock *stock, double radius_mm,
			struct fault_list *faults);
void visits_free(struct visits *visits);

/* Another ball comes, of this radius: ends all visits. */
void visits_change(struct visits *visits, double radius_mm);

/* Ends all visits: a rapid. */
void visits_leave(struct visits *visits);

/* What one move took. */
struct taken {
	double volume_mm3; /* of the blank as drawn */
	double deepest_mm; /* from any column that counts, by this move */
	double bite_mm; /* the deepest bite it was part of */
	double highest_mm; /* top of the wood that counts; -INFINITY when none */
	double left_mm3, right_mm3; /* all wood, by the side of the way it stood on */
};

/* Accounts for a move just swept: `swath` tells its columns before. */
struct taken visits_note(struct visits *visits, const struct stock *stock,
			 const struct swath *swath, struct vec3 from, struct vec3 to);

/* Top from which a bite into column i would count now. */
static inline float visits_top(const struct visits *visits, const struct stock *stock, size_t i)
{
	bool going_on = visits->way_mm - (double)visits->way[i] <= 2.0 * visits->radius_mm;

	return going_on ? visits->top[i] : stock->top[i];
}

#endif
