/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/steep.h"

#include <math.h>

#include "base/minmax.h"
#include "path/tool_disc.h"

/* A move that rises or falls less than this is not divided, mm. */
#define LEAST_RISE_MM 0.05
/* Kept between wood and shank or holder, mm: less than the lowest-tip surface
 * keeps. */
#define TOOL_ROOM_MM 0.2

/* True when wood at the move's upper end may reach over the flutes' end as it is
 * at the lower. The ball bites no deeper than its limit, so shorter rises need
 * no look at the wood. */
static bool outgrows_flutes(struct bench *bench, struct vec3 from, struct vec3 to)
{
	const struct cutter *cutter = bench->cutter;
	double rise = fabs(to.z - from.z), radius = bench->radius_mm;
	double end = smaller(from.z, to.z) + cutter->flute_length_mm;

	if (rise + radius + cutter->depth_limit_mm <= cutter->flute_length_mm)
		return false;
	return stock_highest_mm(&bench->stock, from, to, radius, end) > end;
}

/* True when wood beside the move comes near to shank or holder as they are at
 * its lower end. */
static bool outgrows_tool(struct bench *bench, struct vec3 from, struct vec3 to)
{
	struct tool_discs discs = tool_discs_over_wood(bench->cutter);
	double low = smaller(from.z, to.z) - TOOL_ROOM_MM;

	for (size_t i = 0; i < discs.count; i++) {
		double face = low + discs.disc[i].above_mm;
		if (face < bench->top_mm &&
		    stock_highest_mm(&bench->stock, from, to, discs.disc[i].radius_mm, face) > face)
			return true;
	}
	return false;
}

bool steep_meets_wood(struct bench *bench, struct vec3 from, struct vec3 to)
{
	return fabs(to.z - from.z) >= LEAST_RISE_MM &&
	       (outgrows_flutes(bench, from, to) || outgrows_tool(bench, from, to));
}
