/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/reach.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "path/obstacle.h"
#include "path/standing.h"
#include "path/tool_disc.h"

/* Kept between wood and shank or holder, mm. */
#define REACH_CLEARANCE_MM 0.5

/* Lowest tip for all discs at every corner. A corner answers for everything
 * within a cell of it, so the discs are grown by the cell's diagonal. */
static enum fault find_tips(struct reach *reach, const struct standing *standing,
			    const struct tool_discs *discs, double floor_mm,
			    struct fault_list *faults)
{
	double grow = REACH_CLEARANCE_MM + standing->cell_mm * 1.4143;
	size_t count = reach->nx * reach->ny;
	double *under = mem_array(count, sizeof *under);
	enum fault fault = FAULT_NONE;

	if (!under)
		return fault_no_memory(faults, "the reach of shank and holder");
	for (size_t i = 0; i < count; i++)
		reach->tip_mm[i] = floor_mm;
	for (size_t k = 0; k < discs->count && fault == FAULT_NONE; k++) {
		const struct tool_disc *disc = &discs->disc[k];
		fault = standing_under_discs(under, standing, disc->radius_mm + grow, faults);
		for (size_t i = 0; i < count && fault == FAULT_NONE; i++)
			reach->tip_mm[i] = larger(reach->tip_mm[i],
						  under[i] - disc->above_mm + REACH_CLEARANCE_MM);
	}
	free(under);
	return fault;
}

/* Where clamps and rails keep the ball up, wood stays too: tips including them. */
static enum fault raise_left(struct standing *standing, double *highest_mm,
			     const struct reach *reach, const struct job *job,
			     const struct cutter *cutter, const struct waste *waste,
			     double floor_mm, struct fault_list *faults)
{
	size_t count = reach->nx * reach->ny;
	double *tip = mem_array(count, sizeof *tip);
	struct obstacles obstacles;

	if (!tip)
		return fault_no_memory(faults, "the reach of shank and holder");
	obstacles_make(&obstacles, job, cutter, 0.0);
	for (size_t i = 0; i < count; i++) {
		double x = reach->x0_mm + (double)(i % reach->nx) * reach->cell_mm;
		size_t iy = i / reach->nx;
		double y = reach->y0_mm + (double)iy * reach->cell_mm;
		tip[i] = larger(reach->tip_mm[i],
				larger(obstacles_ball_mm(&obstacles, OBSTACLES_ALL, x, y, x, y),
				       obstacles_tool_mm(&obstacles, OBSTACLES_ALL, x, y, x, y)));
		if (waste)
			tip[i] = larger(tip[i], larger(waste_ball_mm(waste, x, y),
						       waste_tool_mm(waste, x, y)));
	}
	enum fault fault =
		standing_raise_left(standing, highest_mm, job, cutter, tip, floor_mm, faults);
	free(tip);
	return fault;
}

/* How far over the tip the lowest disc begins, mm. */
static double lowest_disc_mm(const struct tool_discs *discs)
{
	return discs->disc[0].above_mm;
}

/* Where a disc holds the ball up, more wood stays than the finished neck, and
 * that wood in turn is in the way of the discs farther off: looked for again
 * until nothing more is found that stands tall enough to matter. Each round's
 * terraces are lower by the height of a disc over the tip, so rounds are few. */
static enum fault settle(struct reach *reach, struct standing *standing, const struct job *job,
			 const struct cutter *cutter, const struct waste *waste, double floor_mm,
			 struct fault_list *faults)
{
	struct tool_discs discs = tool_discs_over_wood(cutter);
	double matters_mm = floor_mm + lowest_disc_mm(&discs) - REACH_CLEARANCE_MM;
	double highest_mm = INFINITY;
	enum fault fault = FAULT_NONE;

	while (highest_mm > matters_mm && fault == FAULT_NONE) {
		fault = find_tips(reach, standing, &discs, floor_mm, faults);
		if (fault == FAULT_NONE)
			fault = raise_left(standing, &highest_mm, reach, job, cutter, waste,
					   floor_mm, faults);
	}
	return fault;
}

/* True when no wood that can be left is tall enough to meet a disc. */
static bool is_free(const struct standing *standing, const struct job *job,
		    const struct cutter *cutter, const struct waste *waste, double floor_mm)
{
	struct tool_discs discs = tool_discs_over_wood(cutter);
	double highest_mm = standing_highest_mm(standing);

	if (job->fixture.keep_out_count > 0 || (waste && waste_stays(waste)))
		highest_mm = larger(highest_mm, blank_highest_most_mm(&job->blank));
	return highest_mm + REACH_CLEARANCE_MM - lowest_disc_mm(&discs) <= floor_mm;
}

/* Drops the grid when no corner of it is above the floor. */
static void drop_if_idle(struct reach *reach, double floor_mm)
{
	for (size_t i = 0; i < reach->nx * reach->ny; i++)
		if (reach->tip_mm[i] > floor_mm)
			return;
	reach_free(reach);
}

/* One tip for each corner of the squares. */
static enum fault make_grid(struct reach *out, const struct standing *standing,
			    struct fault_list *faults)
{
	size_t count = standing->nx * standing->ny;

	*out = (struct reach){
		standing->nx,	 standing->ny,	    standing->x0_mm,
		standing->y0_mm, standing->cell_mm, mem_array(count, sizeof(double))
	};
	return out->tip_mm ? FAULT_NONE : fault_no_memory(faults, "the reach of shank and holder");
}

enum fault reach_build(struct reach *out, const struct facets *facets, const struct job *job,
		       const struct cutter *cutter, const struct waste *waste, double floor_mm,
		       struct fault_list *faults)
{
	struct standing standing = { 0 };
	enum fault fault = standing_build(&standing, facets, job, cutter, faults);

	*out = (struct reach){ 0 };
	if (fault == FAULT_NONE && !is_free(&standing, job, cutter, waste, floor_mm)) {
		fault = make_grid(out, &standing, faults);
		if (fault == FAULT_NONE)
			fault = settle(out, &standing, job, cutter, waste, floor_mm, faults);
		if (fault == FAULT_NONE)
			drop_if_idle(out, floor_mm);
		else
			reach_free(out);
	}
	standing_free(&standing);
	return fault;
}

enum fault reach_over_finished(struct reach *out, const struct facets *facets,
			       const struct job *job, const struct cutter *cutter,
			       const struct tool_discs *discs, double floor_mm,
			       struct fault_list *faults)
{
	struct standing standing = { 0 };
	enum fault fault = standing_build(&standing, facets, job, cutter, faults);

	*out = (struct reach){ 0 };
	if (fault == FAULT_NONE)
		fault = make_grid(out, &standing, faults);
	if (fault == FAULT_NONE)
		fault = find_tips(out, &standing, discs, floor_mm, faults);
	if (fault != FAULT_NONE)
		reach_free(out);
	standing_free(&standing);
	return fault;
}

void reach_free(struct reach *reach)
{
	if (!reach)
		return;
	free(reach->tip_mm);
	*reach = (struct reach){ 0 };
}

/* Between nodes: linear both ways. Each node answers for a whole cell around
 * it, so a mixture of the four is never too low. */
double reach_tip_mm(const struct reach *reach, double x_mm, double y_mm)
{
	if (!reach->tip_mm)
		return -INFINITY;
	double fx = (x_mm - reach->x0_mm) / reach->cell_mm;
	double fy = (y_mm - reach->y0_mm) / reach->cell_mm;
	fx = clamped(fx, 0.0, (double)(reach->nx - 1) - 1e-9);
	fy = clamped(fy, 0.0, (double)(reach->ny - 1) - 1e-9);
	size_t ix = (size_t)fx, iy = (size_t)fy, i = iy * reach->nx + ix;
	double tx = fx - (double)ix, ty = fy - (double)iy;
	double low = (1.0 - tx) * reach->tip_mm[i] + tx * reach->tip_mm[i + 1];
	double high =
		(1.0 - tx) * reach->tip_mm[i + reach->nx] + tx * reach->tip_mm[i + reach->nx + 1];
	return (1.0 - ty) * low + ty * high;
}
