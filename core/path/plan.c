/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/plan.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "base/tol.h"
#include "path/arc_fit.h"
#include "path/bench.h"
#include "path/contour.h"
#include "path/emit.h"
#include "path/held.h"
#include "path/raster.h"
#include "path/scallop.h"

/* Bites stay this far under the depth limit, mm: what raster scallops and the
 * coarse wood of the planner may add. */
#define BITE_RESERVE_MM 0.2
/* Scallops are planned this much finer than the limit, as a share: the lines
 * of a slope are spaced by its slope at a place, not over the whole way. */
#define SCALLOP_SHARE 0.85
/* A level closer than this to the next is left out, mm. */
#define LEAST_LEVEL_MM 0.4

/* A level line is worth cutting where it takes this much, mm; what it missed
 * is worth another go where it stands so much above a scallop. */
#define LEVEL_WORTH_MM 0.15
#define LEFTOVER_WORTH_MM 0.25

/* A skin must be this much thicker than what just holds, mm, ... */
#define SKIN_RESERVE_MM 0.1
/* ... and a level meant to go through goes so far below the gluing face, mm. */
#define THROUGH_MM 0.05

/* For whoever waits: shares of the work done when the levels begin and when the
 * surface lines begin. Measured on the examples. */
#define LEVELS_FROM_SHARE 0.05
#define SURFACE_FROM_SHARE 0.8

struct planner {
	const struct watch *watch;
	struct bench bench;
	struct emit emit;
	struct plan *plan;
	const struct job *job;
	double level_stepover_mm, level_drop_mm;
	double spacing_mm; /* of the last lines, along the surface */
	double contour_from_mm; /* contour lines are cut down to here so far */
};

/* Stepover and drop of the level lines: the drop and the scallop left by the
 * level above must stay within one bite. */
static enum fault choose_steps(struct planner *planner, struct fault_list *faults)
{
	const struct cutter *cutter = planner->bench.cutter;
	double radius = planner->bench.radius_mm;
	double stepover = smaller(cutter->stepover_limit_mm, 1.2 * radius);
	double scallop = scallop_height_mm(radius, stepover);
	double drop = cutter->depth_limit_mm - scallop - LEFTOVER_WORTH_MM - BITE_RESERVE_MM;

	while (drop < cutter->depth_limit_mm / 2.0 && stepover > radius / 4.0) {
		stepover *= 0.9;
		scallop = scallop_height_mm(radius, stepover);
		drop = cutter->depth_limit_mm - scallop - LEFTOVER_WORTH_MM - BITE_RESERVE_MM;
	}
	if (drop < LEAST_LEVEL_MM)
		return fault_add(faults, FAULT_PLAN, NULL, 0, "cutter.depth_limit",
				 "A depth limit of %.3g mm leaves levels only %.3g mm apart once "
				 "scallops are counted; at least %.3g mm are needed.",
				 cutter->depth_limit_mm, drop, LEAST_LEVEL_MM);
	planner->level_stepover_mm = stepover;
	planner->level_drop_mm = drop;
	planner->spacing_mm =
		scallop_spacing_mm(radius, SCALLOP_SHARE * planner->job->carve.scallop_limit_mm);
	return FAULT_NONE;
}

/* Neighbouring lines are joined, and those after the next. */
static double link_mm(double stepover_mm)
{
	return 2.0 * stepover_mm + 0.5;
}

/* Begins a pass: numbers it, chooses its feed. */
static enum fault begin_pass(struct planner *planner, enum pass_kind kind, double level_mm,
			     double stepover_mm, double depth_mm, struct fault_list *faults)
{
	struct plan *plan = planner->plan;
	struct plan_pass *grown =
		mem_grow(plan->pass, &plan->pass_capacity, plan->pass_count + 1, sizeof *grown);

	if (!grown)
		return fault_no_memory(faults, "the passes");
	plan->pass = grown;
	struct plan_pass *pass = &plan->pass[plan->pass_count];
	pass->kind = kind;
	pass->level_mm = level_mm - planner->job->fixture.work_zero_mm.z;
	pass->feed = feed_choose(planner->bench.cutter, &planner->job->machine, &planner->job->wood,
				 depth_mm, stepover_mm);
	planner->emit.feed_mm_per_min = pass->feed.mm_per_min;
	planner->emit.link_mm = link_mm(stepover_mm);
	planner->emit.link_level_mm = level_mm;
	return emit_pass(&planner->emit, (int)plan->pass_count++, faults);
}

static bool any_points(const struct runs *runs)
{
	for (size_t i = 0; i < runs->count; i++)
		if (runs->run[i].count > 1)
			return true;
	return false;
}

/* How wide a level line may have to cut: a channel takes the whole ball. */
static double level_width_mm(const struct planner *planner)
{
	bool rails = drop_waste(planner->bench.drop)->rails.standing > 0;

	return rails ? 2.0 * planner->bench.radius_mm : planner->level_stepover_mm;
}

/* The lines of one go over a level: along the channels between neck and rails;
 * then where wood stands under each line's own strip; then where any still
 * stands that a neighbour could not reach, as beside an upright wall. */
#define LEVEL_GOES 3
static enum fault level_lines(struct runs *out, const struct planner *planner, double level_mm,
			      int go, struct fault_list *faults)
{
	const struct bench *bench = &planner->bench;
	double stepover = planner->level_stepover_mm, radius = bench->radius_mm;
	double scallop = scallop_height_mm(radius, stepover);

	if (go == 0)
		return raster_channel(out, bench, level_mm, stepover, LEVEL_WORTH_MM, faults);
	if (go == 1)
		return raster_level(out, bench, level_mm, stepover,
				    stepover / 2.0 + bench->stock.cell_mm, LEVEL_WORTH_MM, faults);
	return raster_level(out, bench, level_mm, stepover, radius, LEFTOVER_WORTH_MM + scallop,
			    faults);
}

static enum fault cut_level(struct planner *planner, double level_mm, struct fault_list *faults)
{
	enum fault fault = FAULT_NONE;
	bool begun = false;

	for (int go = 0; go < LEVEL_GOES && fault == FAULT_NONE; go++) {
		struct runs runs = { 0 };
		fault = level_lines(&runs, planner, level_mm, go, faults);
		if (fault == FAULT_NONE && !begun && any_points(&runs)) {
			fault = begin_pass(planner, PASS_LEVEL, level_mm, level_width_mm(planner),
					   planner->level_drop_mm, faults);
			planner->emit.link_mm = link_mm(planner->level_stepover_mm);
			begun = true;
		}
		if (fault == FAULT_NONE && begun)
			fault = emit_runs(&planner->emit, &runs, EMIT_OUTSIDE_IN, faults);
		runs_free(&runs);
	}
	return fault;
}

/* Lowest contour line: on the floor itself, unless the bed sets it. */
static double lowest_contour_mm(const struct planner *planner)
{
	double floor_mm = drop_floor_mm(planner->bench.drop);

	return job_cove_mm(planner->job) > 0.0
		       ? snap_up(&planner->bench.snap, floor_mm + CONTOUR_OVER_BED_MM)
		       : floor_mm;
}

/* Contour lines from where the last ones ended down to the level. Each line's
 * steepness tells how far down the next may lie. */
static enum fault cut_contours(struct planner *planner, double level_mm, struct fault_list *faults)
{
	double z = planner->contour_from_mm, floor_mm = lowest_contour_mm(planner);
	enum fault fault = FAULT_NONE;
	bool begun = false;

	while (z >= level_mm - 1e-9 && fault == FAULT_NONE) {
		struct runs runs = { 0 };
		double steep;
		fault = contour_level(&runs, &planner->bench, z, &steep, faults);
		if (fault == FAULT_NONE && any_points(&runs) && !begun) {
			fault = begin_pass(planner, PASS_CONTOUR, level_mm, planner->spacing_mm,
					   planner->level_drop_mm, faults);
			begun = true;
		}
		planner->emit.link_level_mm = floor_mm;
		if (fault == FAULT_NONE)
			fault = emit_runs(&planner->emit, &runs, EMIT_NEAREST, faults);
		runs_free(&runs);
		double share = isfinite(steep) ? steep / hypot(1.0, steep) : 1.0;
		/* the last line lies on the floor itself and finishes the edge
		 * at the gluing face */
		double next = larger(z - planner->spacing_mm * share, floor_mm);
		z = next < z ? next : -INFINITY;
	}
	planner->contour_from_mm = z;
	return fault;
}

/* The level below z. Over the gluing face no level may leave a skin too thin to
 * hold the waste beside the neck: the level above it is cut a little higher, so
 * that the next goes right through. */
static double next_level(const struct planner *planner, double z)
{
	double drop = planner->level_drop_mm, next = z - drop;
	double skin = TOL_HOLDING_SKIN_MM + SKIN_RESERVE_MM +
		      scallop_height_mm(planner->bench.radius_mm, planner->level_stepover_mm);

	if (next <= 0.0 || next >= skin || drop < skin + SKIN_RESERVE_MM)
		return next;
	return z - skin > SKIN_RESERVE_MM ? skin : -THROUGH_MM;
}

/* Levels down to z are planned next. */
static void tell_levels(const struct planner *planner, double z)
{
	double top = planner->bench.top_mm;
	double down = (top - z) / (top - drop_floor_mm(planner->bench.drop));

	watch_tell(planner->watch, LEVELS_FROM_SHARE + (SURFACE_FROM_SHARE - LEVELS_FROM_SHARE) *
							       smaller(larger(down, 0.0), 1.0));
}

/* From here down a level may part what hangs together, mm. */
static double parting_mm(const struct planner *planner)
{
	const struct job *job = planner->job;
	double radius = planner->bench.radius_mm;

	return TOL_HOLDING_SKIN_MM + outline_most_mm(&job->blank.bottom,
						     job->carve.from_mm - radius,
						     job->carve.to_mm + radius);
}

static enum fault cut_levels(struct planner *planner, struct fault_list *faults)
{
	double floor_mm = drop_floor_mm(planner->bench.drop);
	double z = planner->bench.top_mm;
	enum fault fault = FAULT_NONE;

	bool last = z <= floor_mm;

	planner->contour_from_mm = z;
	while (!last && fault == FAULT_NONE) {
		tell_levels(planner, z);
		z = next_level(planner, z);
		last = z < floor_mm + LEAST_LEVEL_MM;
		if (last)
			z = floor_mm;
		double level_mm = snap_up(&planner->bench.snap, z);
		fault = cut_level(planner, level_mm, faults);
		if (fault == FAULT_NONE)
			fault = cut_contours(planner, last ? lowest_contour_mm(planner) : level_mm,
					     faults);
		if (fault == FAULT_NONE && level_mm < parting_mm(planner))
			fault = held_look(planner->job, &planner->bench.stock, faults);
	}
	return fault;
}

static enum fault cut_surface(struct planner *planner, struct fault_list *faults)
{
	struct runs runs = { 0 };
	enum fault fault = raster_surface(&runs, &planner->bench, planner->spacing_mm, faults);
	double lowest = INFINITY;

	for (size_t i = 0; i < runs.count; i++)
		for (size_t k = 0; k < runs.run[i].count; k++)
			lowest = smaller(lowest, runs.run[i].p[k].z);
	if (fault == FAULT_NONE && any_points(&runs)) {
		fault = begin_pass(planner, PASS_SURFACE, lowest, planner->spacing_mm,
				   planner->level_drop_mm, faults);
		planner->emit.link_level_mm = drop_floor_mm(planner->bench.drop);
		if (fault == FAULT_NONE)
			fault = emit_runs(&planner->emit, &runs, EMIT_NEAREST, faults);
	}
	runs_free(&runs);
	return fault;
}

/* From neck to program coordinates. */
static void shift(struct motion_list *motions, struct vec3 zero)
{
	for (size_t i = 0; i < motions->count; i++)
		motions->item[i].to = vec3_sub(motions->item[i].to, zero);
}

struct bounds {
	struct vec3 low, high;
};

static struct bounds cut_bounds(const struct motion_list *motions)
{
	struct bounds bounds = { { INFINITY, INFINITY, INFINITY },
				 { -INFINITY, -INFINITY, -INFINITY } };

	for (size_t i = 0; i < motions->count; i++) {
		if (motions->item[i].kind != MOTION_CUT)
			continue;
		struct vec3 p = motions->item[i].to;
		bounds.low = vec3_make(smaller(bounds.low.x, p.x), smaller(bounds.low.y, p.y),
				       smaller(bounds.low.z, p.z));
		bounds.high = vec3_make(larger(bounds.high.x, p.x), larger(bounds.high.y, p.y),
					larger(bounds.high.z, p.z));
	}
	return bounds;
}

/* Up and over to the machine's parking place, if it has one, from where the
 * rapid `last` ended. */
static enum fault park_dry_run(struct planner *planner, struct motion last,
			       struct fault_list *faults)
{
	struct vec3 park = emit_park(&planner->bench, last.to);
	enum fault fault = FAULT_NONE;

	if (!planner->job->machine.parks)
		return FAULT_NONE;
	if (park.z > last.to.z) {
		last.to.z = park.z;
		fault = motion_list_add(&planner->plan->dry_run, &last, faults);
	}
	last.to = park;
	return fault != FAULT_NONE ? fault
				   : motion_list_add(&planner->plan->dry_run, &last, faults);
}

/* Once around the rectangle of all cuts, above everything, spindle off. */
static enum fault trace_bounds(struct planner *planner, struct fault_list *faults)
{
	struct bounds b = cut_bounds(&planner->plan->motions);
	double z = snap_up(&planner->bench.snap,
			   planner->bench.top_mm + planner->job->carve.clearance_mm);
	const struct vec3 corner[] = { { b.low.x, b.low.y, z },	 { b.low.x, b.low.y, z },
				       { b.high.x, b.low.y, z }, { b.high.x, b.high.y, z },
				       { b.low.x, b.high.y, z }, { b.low.x, b.low.y, z } };
	struct motion motion = { .kind = MOTION_RAPID, .pass = -1, .known = KNOWN_Z };
	enum fault fault = FAULT_NONE;

	for (size_t i = 0; i < sizeof corner / sizeof corner[0] && fault == FAULT_NONE; i++) {
		motion.to = corner[i];
		fault = motion_list_add(&planner->plan->dry_run, &motion, faults);
		motion.known = KNOWN_ALL;
	}
	if (fault == FAULT_NONE)
		fault = park_dry_run(planner, motion, faults);
	motion = (struct motion){ .kind = MOTION_END, .pass = -1 };
	return fault != FAULT_NONE ? fault
				   : motion_list_add(&planner->plan->dry_run, &motion, faults);
}

static enum fault nothing_to_cut(const struct planner *planner, struct fault_list *faults)
{
	if (planner->bench.leftover.mark)
		return fault_add(faults, FAULT_PLAN, NULL, 0, "use.then",
				 "\"%s\" finds nothing to cut: the cutters before it leave no "
				 "more than their scallops anywhere. Take it out.",
				 planner->bench.cutter->name);
	return fault_add(faults, FAULT_PLAN, NULL, 0, "blank",
			 "There is nothing to cut: the blank does not reach above the finished "
			 "neck and its allowance anywhere.");
}

static enum fault cut_everything(struct planner *planner, struct fault_list *faults)
{
	enum fault fault = choose_steps(planner, faults);

	if (fault == FAULT_NONE)
		fault = emit_start(&planner->emit, faults);
	if (fault == FAULT_NONE)
		fault = cut_levels(planner, faults);
	watch_tell(planner->watch, SURFACE_FROM_SHARE);
	if (fault == FAULT_NONE)
		fault = cut_surface(planner, faults);
	if (fault == FAULT_NONE)
		fault = held_look(planner->job, &planner->bench.stock, faults);
	if (fault == FAULT_NONE)
		fault = emit_end(&planner->emit, faults);
	if (fault == FAULT_NONE && planner->plan->pass_count == 0)
		return nothing_to_cut(planner, faults);
	return fault != FAULT_NONE ? fault : trace_bounds(planner, faults);
}

enum fault plan_make(struct plan *out, const struct facets *facets, const struct neck *neck,
		     const struct job *job, size_t turn, const struct plan *before,
		     const struct watch *watch, struct fault_list *faults)
{
	struct planner planner = { .plan = out, .job = job, .watch = watch };

	*out = (struct plan){ 0 };
	enum fault fault = bench_build(&planner.bench, facets, neck, job, turn,
				       before ? &before->left : NULL, faults);
	planner.emit = (struct emit){ .bench = &planner.bench, .out = &out->motions, .pass = -1 };
	if (fault == FAULT_NONE)
		planner.emit.floor_mm = drop_floor_mm(planner.bench.drop);
	if (fault == FAULT_NONE)
		fault = cut_everything(&planner, faults);
	out->left = planner.bench.stock;
	planner.bench.stock = (struct stock){ 0 };
	bench_free(&planner.bench);
	if (fault == FAULT_NONE) {
		shift(&out->motions, job->fixture.work_zero_mm);
		shift(&out->dry_run, job->fixture.work_zero_mm);
		(void)arc_fit(&out->motions, &job->machine, &job->cutter[turn]);
	}
	watch_tell(watch, 1.0);
	return fault;
}

void plan_free(struct plan *plan)
{
	if (!plan)
		return;
	motion_list_free(&plan->motions);
	motion_list_free(&plan->dry_run);
	free(plan->pass);
	stock_free(&plan->left);
	*plan = (struct plan){ 0 };
}
