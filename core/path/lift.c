/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/lift.h"

#include "base/minmax.h"
#include "base/tol.h"
#include "path/entry.h"
#include "path/tool_disc.h"

/* More than a program's decimals and columns may differ by, mm. */
#define SNAPPED_MM 0.01

/* Highest wood in the way of a disc that goes over at height `low`. Right under
 * the disc wood that all but touches it is in the way as well. */
static double wood_in_way(struct stock *stock, struct vec3 from, struct vec3 to, double radius_mm,
			  double low_mm)
{
	double wood = stock_highest_mm(stock, from, to, radius_mm + ENTRY_SIDE_ROOM_MM, low_mm);

	return wood > low_mm ? wood
			     : stock_highest_mm(stock, from, to, radius_mm,
						low_mm - TOL_RAPID_MM - SNAPPED_MM);
}

double lift_clear_mm(struct bench *bench, struct vec3 from, struct vec3 to)
{
	const struct cutter *cutter = bench->cutter;
	struct tool_discs discs = tool_discs_over_wood(cutter);
	double low = larger(from.z, to.z);
	double wide = larger(bench->radius_mm, cutter->shank_diameter_mm / 2.0);
	double high = wood_in_way(&bench->stock, from, to, wide, low);

	for (size_t i = 0; i < discs.count; i++) {
		double above = discs.disc[i].above_mm;
		high = larger(high, wood_in_way(&bench->stock, from, to, discs.disc[i].radius_mm,
						low + above) -
					    above);
	}
	high = larger(high, drop_keep_out_mm(bench->drop, from.x, from.y, to.x, to.y));
	return snap_up(&bench->snap, larger(high + bench->job->carve.clearance_mm, low));
}

double lift_stop_mm(struct bench *bench, struct vec3 to)
{
	double wood = stock_highest_mm(&bench->stock, to, to, bench->radius_mm + ENTRY_SIDE_ROOM_MM,
				       to.z);

	return snap_up(&bench->snap, larger(wood, to.z) + bench->job->carve.clearance_mm);
}
