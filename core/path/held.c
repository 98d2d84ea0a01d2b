/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/held.h"

#include <math.h>

#include "base/tol.h"

/* +y is the bass side of a right-handed neck (docs/geometry.md). */
static const char *side_of(const struct job *job, double y)
{
	if (fabs(y) < job->carve.cell_mm)
		return "in the middle";
	return (y > 0.0) == (job->neck.hand == HAND_RIGHT) ? "on the bass side"
							   : "on the treble side";
}

enum fault held_refuse(const struct job *job, const struct stock *stock, const struct piece *piece,
		       struct fault_list *faults)
{
	double y = (stock_y(stock, piece->iy0) + stock_y(stock, piece->iy1)) / 2.0;
	bool tabs = job->carve.waste.tab_width_mm > 0.0;

	return fault_add(faults, FAULT_PLAN, NULL, 0, tabs ? "fixture.hold" : "carve.tab_width",
			 "A piece %s would come loose, from x = %.1f to %.1f mm and y = %.1f "
			 "to %.1f mm; %s. Hold it down there (fixture.hold)%s, or let it be cut "
			 "away.",
			 side_of(job, y), stock_x(stock, piece->ix0), stock_x(stock, piece->ix1),
			 stock_y(stock, piece->iy0), stock_y(stock, piece->iy1),
			 tabs ? "no tab can hold it, as tabs stand beside the straight shaft only"
			      : "tabs are ruled out (carve.tab_width is 0)",
			 tabs ? "" : ", allow tabs");
}

enum fault held_look(const struct job *job, const struct stock *stock, struct fault_list *faults)
{
	struct pieces pieces;
	enum fault fault = pieces_find(&pieces, stock, &job->fixture, TOL_HOLDING_SKIN_MM, faults);

	if (fault == FAULT_NONE) {
		const struct piece *loose = pieces_loose(&pieces, stock, TOL_LOOSE_AREA_MM2);
		if (loose)
			fault = held_refuse(job, stock, loose, faults);
	}
	pieces_free(&pieces);
	return fault;
}
