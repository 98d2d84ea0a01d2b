/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/stickout.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "base/tol.h"
#include "path/obstacle.h"
#include "path/reach.h"

/* Places looked at, mm apart; and the grain of the answer, upward. */
#define PITCH_MM 0.5
/* A disc that would lift the ball by no more than this is not in its way, mm. */
#define LIFT_MM 0.02

/* Lower than any tip, mm. */
#define NO_FLOOR_MM (-1e6)

/* A part of the tool, as if the cutter did not stick out at all. */
struct part {
	struct tool_discs discs;
	struct reach reach; /* lowest tip over the neck */
	struct obstacles obstacles; /* and over clamps */
};

struct look {
	const struct drop *drop;
	const struct job *job;
	const struct cutter *cutter;
	struct part holder, shank; /* the shank where it is */
	bool shank_counts; /* against wood */
};

/* Takes the shank's disc, or all others with their heights over the stickout. */
static struct tool_discs pick(const struct tool_discs *all, bool shank, double stickout_mm)
{
	struct tool_discs discs = { 0 };

	for (size_t i = 0; i < all->count; i++) {
		if (all->disc[i].shank != shank)
			continue;
		struct tool_disc disc = all->disc[i];
		disc.above_mm -= shank ? 0.0 : stickout_mm;
		discs.disc[discs.count++] = disc;
	}
	return discs;
}

static enum fault make_part(struct part *part, const struct look *look, const struct facets *facets,
			    bool shank, struct fault_list *faults)
{
	struct tool_discs all = tool_discs_of(look->cutter);

	part->discs = pick(&all, shank, look->cutter->stickout_mm);
	obstacles_make(&part->obstacles, look->job, look->cutter, TOL_PLAN_MARGIN_MM);
	part->obstacles.discs = part->discs;
	return reach_over_finished(&part->reach, facets, look->job, look->cutter, &part->discs,
				   NO_FLOOR_MM, faults);
}

/* Lowest tip for the part at a place. */
static double part_tip(const struct look *look, const struct part *part, bool over_wood, double x,
		       double y)
{
	double tip = larger(obstacles_tool_mm(&part->obstacles, OBSTACLES_ALL, x, y, x, y),
			    rails_discs_mm(&drop_waste(look->drop)->rails, &part->discs, x, y));

	return over_wood ? larger(tip, reach_tip_mm(&part->reach, x, y)) : tip;
}

/* Half-width of the wood within the ball's reach of x. */
static double half_near(const struct look *look, double x)
{
	const struct blank *blank = &look->job->blank;
	double radius = cutter_radius_mm(look->cutter);

	return larger(blank_side_most_mm(blank, BLANK_MINUS, x - radius, x + radius),
		      blank_side_most_mm(blank, BLANK_PLUS, x - radius, x + radius));
}

/* The most a place along x asks for; INFINITY where the shank is in the way. */
static double least_along(const struct look *look, double x)
{
	double reach = half_near(look, x) + cutter_radius_mm(look->cutter);
	long steps = (long)ceil(reach / PITCH_MM);
	double most = -INFINITY;
	size_t hint = 0;

	for (long k = -steps; k <= steps; k++) {
		double y = (double)k * PITCH_MM;
		double ball = drop_ball_mm(look->drop, x, y, &hint) + LIFT_MM;
		if (part_tip(look, &look->shank, look->shank_counts, x, y) > ball)
			return INFINITY;
		most = larger(most, part_tip(look, &look->holder, true, x, y) - ball);
	}
	return most;
}

static double look_everywhere(const struct look *look)
{
	const struct carve_spec *carve = &look->job->carve;
	long steps = (long)ceil((carve->to_mm - carve->from_mm) / PITCH_MM);
	double most = look->cutter->flute_length_mm;

#pragma omp parallel for schedule(dynamic, 8) reduction(max : most)
	for (long k = 0; k <= steps; k++) {
		double x = smaller(carve->from_mm + (double)k * PITCH_MM, carve->to_mm);
		most = larger(most, least_along(look, x));
	}
	return most;
}

enum fault stickout_least(double *least_mm, const struct drop *drop, const struct facets *facets,
			  const struct job *job, const struct cutter *cutter,
			  struct fault_list *faults)
{
	struct look look = { .drop = drop,
			     .job = job,
			     .cutter = cutter,
			     .shank_counts = cutter->shank_diameter_mm > cutter->ball_diameter_mm };
	enum fault fault = make_part(&look.holder, &look, facets, false, faults);

	*least_mm = NAN;
	if (fault == FAULT_NONE)
		fault = make_part(&look.shank, &look, facets, true, faults);
	if (fault == FAULT_NONE) {
		double most = look_everywhere(&look);
		*least_mm = isfinite(most) ? ceil(most / PITCH_MM) * PITCH_MM : NAN;
	}
	reach_free(&look.holder.reach);
	reach_free(&look.shank.reach);
	return fault;
}
