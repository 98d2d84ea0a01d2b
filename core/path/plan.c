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
#include "path/dry_run.h"
#include "path/emit.h"
#include "path/held.h"
#include "path/levels.h"
#include "path/plan_private.h"
#include "path/raster.h"
#include "path/scallop.h"
#include "path/way.h"

/* Scallops are planned this much finer than the limit, as a share: the lines
 * of a slope are spaced by its slope at a place, not over the whole way. */
#define SCALLOP_SHARE 0.85
/* A level line is worth cutting where it takes this much, mm. */
#define LEVEL_WORTH_MM 0.15

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
	struct levels levels;
	double spacing_mm; /* of the last lines, along the surface */
	double cove_limit_mm; /* beside the gluing face: as high as the scallops */
	double contoured_mm; /* height of the last contour line */
	double contour_from_mm; /* contour lines are cut down to here so far */
};

/* What is known of a pass before it begins. */
struct intent {
	enum pass_kind kind;
	double level_mm, stepover_mm;
	double width_mm; /* the widest that a line may have to cut */
	enum step_cap step_cap;
	enum level_cap level_cap;
};

/* Neighbouring lines are joined, and those after the next. */
static double link_mm(double stepover_mm)
{
	return 2.0 * stepover_mm + 0.5;
}

/* Begins a pass: numbers it, chooses its feed. */
static enum fault begin_pass(struct planner *planner, const struct intent *intent,
			     struct fault_list *faults)
{
	struct plan *plan = planner->plan;
	struct plan_pass *grown =
		mem_grow(plan->pass, &plan->pass_capacity, plan->pass_count + 1, sizeof *grown);

	if (!grown)
		return fault_no_memory(faults, "the passes");
	plan->pass = grown;
	plan->pass[plan->pass_count] = (struct plan_pass){
		.kind = intent->kind,
		.level_mm = intent->level_mm - planner->job->fixture.work_zero_mm.z,
		.feed = feed_choose(planner->bench.cutter, &planner->job->machine,
				    &planner->job->wood, planner->levels.drop_mm, intent->width_mm),
		.why = { .stepover_mm = intent->stepover_mm,
			 .step_cap = intent->step_cap,
			 .level_cap = intent->level_cap,
			 .drop_mm = planner->levels.drop_mm,
			 .scallop_limit_mm = planner->job->carve.scallop_limit_mm,
			 .leftovers = planner->bench.leftover.mark != NULL },
	};
	planner->emit.feed_mm_per_min = plan->pass[plan->pass_count].feed.mm_per_min;
	planner->emit.link_mm = link_mm(intent->stepover_mm);
	planner->emit.link_level_mm = intent->level_mm;
	return emit_pass(&planner->emit, (int)plan->pass_count++, faults);
}

/* The lowest lines may have had nothing to take. */
static void end_pass(struct planner *planner)
{
	planner->plan->pass[planner->plan->pass_count - 1].level_mm =
		planner->emit.lowest_mm - planner->job->fixture.work_zero_mm.z;
}

/* Chooses the runs' ways, cuts them and notes both with the pass that has begun. */
static enum fault cut_runs(struct planner *planner, struct runs *runs, enum cut_lines lines,
			   enum emit_order order, struct fault_list *faults)
{
	struct way_met met = { 0 };

	if (!emit_takes_wood(&planner->emit, runs))
		return FAULT_NONE;
	struct pass_why *why = &planner->plan->pass[planner->plan->pass_count - 1].why;
	enum fault fault = way_choose(runs, &met, &planner->bench, lines, faults);
	if (fault == FAULT_NONE)
		fault = emit_runs(&planner->emit, runs, lines, order, faults);
	why->ways |= met.ways;
	why->downhill |= met.downhill;
	why->lengthwise = why->lengthwise || lines != CUT_CROSSWISE;
	why->crosswise = why->crosswise || lines == CUT_CROSSWISE;
	why->from_peghead = why->from_peghead || order == EMIT_PEGHEAD_FIRST;
	return fault;
}

/* Order of crosswise lines down to `level_mm`: toward what still holds. */
static enum emit_order crosswise_order(const struct planner *planner, double level_mm)
{
	const struct job *job = planner->job;
	double left_mm = level_mm - outline_value_mm(&job->blank.bottom, job->carve.to_mm);

	return left_mm > TOL_HOLDING_SKIN_MM ? EMIT_PEGHEAD_FIRST : EMIT_BODY_FIRST;
}

/* Raster lines of both kinds, down to `level_mm` at the lowest; `order` is that
 * of the lengthwise ones where nobody asks for one way. */
static enum fault cut_raster(struct planner *planner, struct runs *runs, enum cut_lines lines,
			     enum emit_order order, double level_mm, struct fault_list *faults)
{
	if (lines == CUT_CROSSWISE)
		return cut_runs(planner, runs, CUT_CROSSWISE, crosswise_order(planner, level_mm),
				faults);
	return cut_runs(planner, runs, CUT_LENGTHWISE,
			way_is_asked(&planner->bench) ? EMIT_SIDE_BY_SIDE : order, faults);
}

/* How wide a level line may have to cut: a channel takes the whole ball. */
static double level_width_mm(const struct planner *planner)
{
	bool rails = drop_waste(planner->bench.drop)->rails.standing > 0;

	return rails ? 2.0 * planner->bench.radius_mm : planner->levels.stepover_mm;
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

/* The goes over a level: along the channels between neck and rails; then where
 * wood stands under each line's own strip; then where any still stands that a
 * neighbour could not reach, as beside an upright wall. The last two first with
 * lengthwise, then with crosswise lines. */
#define LEVEL_GOES 5
static enum fault level_lines(struct runs *out, const struct planner *planner, double level_mm,
			      int go, enum cut_lines lines, struct fault_list *faults)
{
	const struct bench *bench = &planner->bench;
	double stepover = planner->levels.stepover_mm, radius = bench->radius_mm;
	struct raster_level wanted = { level_mm, stepover, radius, LEVEL_WORTH_MM };

	if (go == 0)
		return raster_channel(out, bench, &wanted, faults);
	/* where it may part what hangs together no line relies on its neighbour, which
	 * the neck may keep higher: all come in order, from the outside in */
	if (go <= 2 && level_mm >= parting_mm(planner))
		wanted.beside_mm = stepover / 2.0 + bench->stock.cell_mm;
	else if (go > 2)
		wanted.worth_mm = LEVELS_LEFTOVER_MM + scallop_height_mm(radius, stepover);
	return raster_level(out, bench, lines, &wanted, faults);
}

static enum fault cut_level(struct planner *planner, double level_mm, enum level_cap cap,
			    struct fault_list *faults)
{
	const struct intent intent = { PASS_LEVEL,
				       level_mm,
				       planner->levels.stepover_mm,
				       level_width_mm(planner),
				       planner->levels.step_cap,
				       cap };
	enum fault fault = FAULT_NONE;
	bool begun = false;

	for (int go = 0; go < LEVEL_GOES && fault == FAULT_NONE; go++) {
		enum cut_lines lines = go == 2 || go == 4 ? CUT_CROSSWISE : CUT_LENGTHWISE;
		struct runs runs = { 0 };
		fault = level_lines(&runs, planner, level_mm, go, lines, faults);
		if (fault == FAULT_NONE && !begun && emit_takes_wood(&planner->emit, &runs)) {
			fault = begin_pass(planner, &intent, faults);
			begun = true;
		}
		if (fault == FAULT_NONE && begun)
			fault = cut_raster(planner, &runs, lines, EMIT_OUTSIDE_IN, level_mm,
					   faults);
		runs_free(&runs);
	}
	if (begun && fault == FAULT_NONE)
		end_pass(planner);
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

/* True when the last contour line leaves a cove beside the gluing face, where its
 * ball's side curves in again, that is deeper than a scallop may be: h^2 / 2R at
 * most for a centre h above the face. */
static bool leaves_cove(const struct planner *planner)
{
	double radius = planner->bench.radius_mm;
	double centre = larger(planner->contoured_mm + radius, 0.0);

	return job_cove_mm(planner->job) > 0.0 ||
	       centre * centre > 2.0 * radius * planner->cove_limit_mm;
}

/* Contour lines from where the last ones ended down to the level. Each line's
 * steepness tells how far down the next may lie. */
static enum fault cut_contours(struct planner *planner, double level_mm, enum level_cap cap,
			       struct fault_list *faults)
{
	double z = planner->contour_from_mm, floor_mm = lowest_contour_mm(planner);
	const struct intent intent = { PASS_CONTOUR,	    level_mm,	     planner->spacing_mm,
				       planner->spacing_mm, STEP_BY_SCALLOP, cap };
	enum fault fault = FAULT_NONE;
	bool begun = false;

	while (z >= level_mm - 1e-9 && fault == FAULT_NONE) {
		struct runs runs = { 0 };
		double steep;
		bool finish = z <= floor_mm && leaves_cove(planner);
		fault = contour_level(&runs, &planner->bench, z, finish, &steep, faults);
		planner->emit.always = finish;
		if (fault == FAULT_NONE && emit_takes_wood(&planner->emit, &runs) && !begun) {
			fault = begin_pass(planner, &intent, faults);
			begun = true;
		}
		planner->emit.link_level_mm = floor_mm;
		if (fault == FAULT_NONE && begun)
			fault = cut_runs(planner, &runs, CUT_LENGTHWISE, EMIT_NEAREST, faults);
		runs_free(&runs);
		double share = isfinite(steep) ? steep / hypot(1.0, steep) : 1.0;
		/* the last line lies on the floor itself and finishes the edge
		 * at the gluing face */
		double next = larger(z - planner->spacing_mm * share, floor_mm);
		planner->contoured_mm = z;
		z = next < z ? next : -INFINITY;
	}
	planner->contour_from_mm = z;
	planner->emit.always = false;
	if (begun && fault == FAULT_NONE)
		end_pass(planner);
	return fault;
}

/* Levels down to z are planned next. */
static void tell_levels(const struct planner *planner, double z)
{
	double top = planner->bench.top_mm;
	double down = (top - z) / (top - drop_floor_mm(planner->bench.drop));

	watch_tell(planner->watch, LEVELS_FROM_SHARE + (SURFACE_FROM_SHARE - LEVELS_FROM_SHARE) *
							       smaller(larger(down, 0.0), 1.0));
}

static enum fault cut_levels(struct planner *planner, struct fault_list *faults)
{
	double floor_mm = drop_floor_mm(planner->bench.drop);
	/* clamps may stand higher, but there is nothing to cut */
	double z = bench_wood_top_mm(&planner->bench);
	enum fault fault = FAULT_NONE;
	enum level_cap cap = z <= floor_mm ? LEVEL_BY_FLOOR : LEVEL_BY_DEPTH;

	planner->contour_from_mm = planner->contoured_mm = z;
	while (cap != LEVEL_BY_FLOOR && fault == FAULT_NONE) {
		tell_levels(planner, z);
		z = levels_next(&planner->levels, z, floor_mm, &cap);
		double level_mm = snap_up(&planner->bench.snap, z);
		fault = cut_level(planner, level_mm, cap, faults);
		if (fault == FAULT_NONE)
			fault = cut_contours(planner,
					     cap == LEVEL_BY_FLOOR ? lowest_contour_mm(planner)
								   : level_mm,
					     cap, faults);
		if (fault == FAULT_NONE && level_mm < parting_mm(planner))
			fault = held_look(planner->job, &planner->bench.stock, faults);
	}
	return fault;
}

static enum fault cut_surface(struct planner *planner, struct fault_list *faults)
{
	struct runs runs[2] = { { 0 }, { 0 } }; /* by enum cut_lines */
	double spacing = planner->spacing_mm, floor_mm = drop_floor_mm(planner->bench.drop);
	enum fault fault = raster_surface(&runs[CUT_LENGTHWISE], &planner->bench, CUT_LENGTHWISE,
					  spacing, faults);

	if (fault == FAULT_NONE)
		fault = raster_surface(&runs[CUT_CROSSWISE], &planner->bench, CUT_CROSSWISE,
				       spacing, faults);
	if (fault == FAULT_NONE && (emit_takes_wood(&planner->emit, &runs[0]) ||
				    emit_takes_wood(&planner->emit, &runs[1]))) {
		const struct intent intent = { PASS_SURFACE, floor_mm,	      spacing,
					       spacing,	     STEP_BY_SCALLOP, LEVEL_BY_SURFACE };
		fault = begin_pass(planner, &intent, faults);
		planner->emit.link_level_mm = floor_mm;
		for (int i = 0; i < 2 && fault == FAULT_NONE; i++)
			fault = cut_raster(planner, &runs[i], (enum cut_lines)i, EMIT_NEAREST,
					   floor_mm, faults);
		if (fault == FAULT_NONE)
			end_pass(planner);
	}
	for (int i = 0; i < 2; i++)
		runs_free(&runs[i]);
	return fault;
}

/* From neck to program coordinates. */
static void shift(struct motion_list *motions, struct vec3 zero)
{
	for (size_t i = 0; i < motions->count; i++)
		motions->item[i].to = vec3_sub(motions->item[i].to, zero);
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
	enum fault fault = levels_choose(&planner->levels, planner->bench.cutter, faults);

	planner->cove_limit_mm = SCALLOP_SHARE * planner->job->carve.scallop_limit_mm;
	planner->spacing_mm = scallop_spacing_mm(planner->bench.radius_mm, planner->cove_limit_mm);

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
	return fault != FAULT_NONE ? fault
				   : dry_run_make(&planner->plan->dry_run, &planner->bench,
						  &planner->plan->motions, faults);
}

enum fault plan_as_it_is(struct plan *out, const struct facets *facets, const struct neck *neck,
			 const struct job *job, size_t turn, const struct stock *before,
			 const struct watch *watch, struct fault_list *faults)
{
	struct planner planner = { .plan = out, .job = job, .watch = watch };

	*out = (struct plan){ 0 };
	enum fault fault = bench_build(&planner.bench, facets, neck, job, turn, before, faults);
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
