/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/levels.h"

#include <stdbool.h>

#include "base/minmax.h"
#include "base/tol.h"
#include "path/scallop.h"

/* Bites stay this far under the depth limit, mm: what raster scallops and the
 * coarse wood of the planner may add. */
#define BITE_RESERVE_MM 0.2
/* Lines are no farther apart than this share of the ball's radius. */
#define BALL_SHARE 1.2

/* A skin must be this much thicker than what just holds, mm. */
#define SKIN_RESERVE_MM 0.1

static double drop_for(const struct cutter *cutter, double radius, double stepover)
{
	return cutter->depth_limit_mm - scallop_height_mm(radius, stepover) - LEVELS_LEFTOVER_MM -
	       BITE_RESERVE_MM;
}

/* Levels in between leave wood that hangs together by a skin now too thin, now
 * just thick enough, mm over the gluing face. */
struct parting {
	double over_mm, under_mm;
};

/* The skin holds ridges and all, or is cut through with all its ridges. */
static struct parting whole_parting(double ridge_mm)
{
	return (struct parting){ TOL_HOLDING_SKIN_MM + SKIN_RESERVE_MM + ridge_mm,
				 -ridge_mm - SKIN_RESERVE_MM };
}

/* For a ball that cannot bite so deep: the skin holds between its ridges, or
 * neither they nor what a line may miss are thick enough to count as wood. */
static struct parting least_parting(double ridge_mm)
{
	return (struct parting){ TOL_HOLDING_SKIN_MM + SKIN_RESERVE_MM,
				 TOL_HOLDING_SKIN_MM - SKIN_RESERVE_MM - ridge_mm -
					 LEVELS_LEFTOVER_MM };
}

static bool can_part(struct parting parting, double drop_mm)
{
	return drop_mm >= parting.over_mm - parting.under_mm;
}

enum fault levels_choose(struct levels *out, const struct cutter *cutter, struct fault_list *faults)
{
	double radius = cutter_radius_mm(cutter);
	double stepover = smaller(cutter->stepover_limit_mm, BALL_SHARE * radius);
	double drop = drop_for(cutter, radius, stepover);

	*out = (struct levels){ .radius_mm = radius,
				.step_cap = cutter->stepover_limit_mm <= BALL_SHARE * radius
						    ? STEP_BY_CUTTER
						    : STEP_BY_BALL };
	/* half the depth is also enough to part wood (least_parting) at any ridge */
	while (drop < cutter->depth_limit_mm / 2.0 && stepover > radius / 4.0) {
		stepover *= 0.9;
		drop = drop_for(cutter, radius, stepover);
		out->step_cap = STEP_BY_DEPTH;
	}
	if (drop < LEVELS_LEAST_MM)
		return fault_add(faults, FAULT_PLAN, NULL, 0, "cutter.depth_limit",
				 "A depth limit of %.3g mm leaves levels only %.3g mm apart once "
				 "scallops are counted; at least %.3g mm are needed.",
				 cutter->depth_limit_mm, drop, LEVELS_LEAST_MM);
	out->stepover_mm = stepover;
	out->drop_mm = drop;
	return FAULT_NONE;
}

/* Before the floor is looked at. */
static double next_level(const struct levels *levels, double z, enum level_cap *cap)
{
	double drop = levels->drop_mm, next = z - drop;
	double ridge = scallop_height_mm(levels->radius_mm, levels->stepover_mm);
	struct parting parting = whole_parting(ridge);

	if (!can_part(parting, drop))
		parting = least_parting(ridge);
	*cap = LEVEL_BY_DEPTH;
	if (next <= parting.under_mm || next >= parting.over_mm || z <= parting.over_mm ||
	    !can_part(parting, drop))
		return next;
	*cap = LEVEL_BY_SKIN;
	return parting.over_mm;
}

double levels_next(const struct levels *levels, double z_mm, double floor_mm, enum level_cap *cap)
{
	double next = next_level(levels, z_mm, cap);

	if (next >= floor_mm + LEVELS_LEAST_MM)
		return next;
	*cap = LEVEL_BY_FLOOR;
	return floor_mm;
}
