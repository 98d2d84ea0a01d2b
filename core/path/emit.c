/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/emit.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "base/tol.h"
#include "path/entry.h"
#include "path/lift.h"
#include "path/side_entry.h"
#include "path/steep.h"
#include "path/way.h"

/* Runs and joints are held to the depth limit less this, mm: what the ball may
 * take between the places that are looked at. */
#define BITE_RESERVE_MM 0.2
/* Places along a joint where the ball is dropped, mm apart. */
#define JOINT_STEP_MM 0.5
/* Floors of a run lie no nearer together, mm. */
#define LEAST_FLOOR_MM 0.2
/* A joint across the lines may go along them by this share of it. */
#define JOINT_ALONG 0.9
/* A joint that rises or falls by more than this from place to place goes round
 * a corner, mm. */
#define CORNER_MM 0.05

static enum fault add_move(struct emit *emit, enum motion_kind kind, struct vec3 to,
			   double feed_mm_per_min, struct fault_list *faults)
{
	struct motion motion = { .kind = kind,
				 .to = to,
				 .known = KNOWN_ALL,
				 .feed_mm_per_min = kind == MOTION_CUT ? feed_mm_per_min : 0.0,
				 .pass = emit->pass };

	if (vec3_distance(emit->at, to) < 1e-9)
		return FAULT_NONE;
	if (kind == MOTION_RAPID)
		bench_leave(emit->bench);
	emit->at = to;
	return motion_list_add(emit->out, &motion, faults);
}

/* Program feeds come in whole steps, so that they need few digits; rounded
 * down, as every limit is an upper one. Whole inches per minute when the control
 * reads no decimals. */
static double round_feed(const struct emit *emit, double feed)
{
	const struct machine *machine = &emit->bench->job->machine;
	double inch = machine_feed_decimals(machine) > 0 ? MM_PER_INCH / 10.0 : MM_PER_INCH;
	double step = machine->program_unit == UNIT_INCH ? inch : 1.0;

	return larger(floor(feed / step + 1e-9) * step, step);
}

/* The pass's feed, held back where an axis is slower and where the ball goes
 * down more steeply than the ramp: there the downward speed is the plunge
 * feed's. */
static double feed_for(const struct emit *emit, struct vec3 from, struct vec3 to)
{
	const struct machine *machine = &emit->bench->job->machine;
	const struct cutter *cutter = emit->bench->cutter;
	struct vec3 d = vec3_sub(to, from);
	double length = vec3_length(d), feed = emit->feed_mm_per_min;
	const double part[AXIS_COUNT] = { fabs(d.x), fabs(d.y), fabs(d.z) };

	if (length <= 0.0)
		return round_feed(emit, feed);
	for (int axis = 0; axis < AXIS_COUNT; axis++)
		if (part[axis] > 0.0)
			feed = smaller(feed,
				       machine->feed_limit_mm_per_min[axis] * length / part[axis]);
	if (d.z < 0.0 && -d.z / length > sin(cutter->ramp_angle_rad + TOL_RAMP_RAD / 2.0))
		feed = smaller(feed, cutter->plunge_feed_mm_per_min * length / -d.z);
	return round_feed(emit, feed);
}

/* A straight cut, divided as often as flutes, shank and holder ask for. */
static enum fault cut_to(struct emit *emit, struct vec3 to, struct fault_list *faults)
{
	const struct snap *snap = &emit->bench->snap;
	struct vec3 from = emit->at, half = vec3_between(from, to, 0.5);

	if (steep_meets_wood(emit->bench, from, to)) {
		half = vec3_make(snap_x(snap, half.x), snap_y(snap, half.y), snap_up(snap, half.z));
		enum fault first = cut_to(emit, half, faults);
		return first != FAULT_NONE ? first : cut_to(emit, to, faults);
	}
	double feed = feed_for(emit, from, to);

	emit->lowest_mm = smaller(emit->lowest_mm, to.z);
	enum fault fault = add_move(emit, MOTION_CUT, to, feed, faults);

	return fault != FAULT_NONE ? fault : bench_cut(emit->bench, from, to, faults);
}

static enum fault cut_track(struct emit *emit, const struct track *track, struct fault_list *faults)
{
	enum fault fault = FAULT_NONE;

	for (size_t i = 0; i < track->count && fault == FAULT_NONE; i++)
		fault = cut_to(emit, track->p[i], faults);
	return fault;
}

static enum fault lift_over(struct emit *emit, struct vec3 to, struct fault_list *faults)
{
	double high = lift_clear_mm(emit->bench, emit->at, to),
	       stop = lift_stop_mm(emit->bench, to);
	struct vec3 up = vec3_make(emit->at.x, emit->at.y, high);
	enum fault fault = add_move(emit, MOTION_RAPID, up, 0.0, faults);

	if (fault == FAULT_NONE)
		fault = add_move(emit, MOTION_RAPID, vec3_make(to.x, to.y, high), 0.0, faults);
	if (fault == FAULT_NONE && stop < high)
		fault = add_move(emit, MOTION_RAPID, vec3_make(to.x, to.y, stop), 0.0, faults);
	return fault;
}

/* Whether a joint's piece stays as far from clamps and screws as they ask for, all
 * along and not only at its ends. With a corner it is level at the higher end. */
static bool passes_clamps(const struct bench *bench, struct vec3 a, struct vec3 b)
{
	double z = fabs(b.z - a.z) > CORNER_MM ? larger(a.z, b.z) : smaller(a.z, b.z);

	return drop_about_mm(bench->drop, a.x, a.y, b.x, b.y) <= z;
}

/* A joint in the cut from `from` to `to`: straight in plan, on or above the
 * lowest-tip surface. False when it would bite too deep or
 * brush past something between its places. */
static bool make_joint(struct emit *emit, struct track *joint, struct vec3 from, struct vec3 to,
		       struct fault_list *faults, enum fault *fault)
{
	struct bench *bench = emit->bench;
	double plan = hypot(to.x - from.x, to.y - from.y);
	double limit = bench->cutter->depth_limit_mm;
	double most = limit - BITE_RESERVE_MM;
	size_t steps = 1 + (size_t)(plan / JOINT_STEP_MM), hint = 0;
	struct vec3 last = from;

	*fault = FAULT_NONE;
	for (size_t i = 1; i <= steps && *fault == FAULT_NONE; i++) {
		struct vec3 p = vec3_between(from, to, (double)i / (double)steps);
		struct vec3 tip = i == steps ? to
					     : bench_tip(bench, p.x, p.y,
							 larger(p.z, emit->link_level_mm), &hint);
		if (!bench_bites_within(bench, tip, most, true) || !passes_clamps(bench, last, tip))
			return false;
		/* up before over, over before down: nothing lies between */
		if (fabs(tip.z - last.z) > CORNER_MM) {
			struct vec3 corner = tip.z > last.z ? vec3_make(last.x, last.y, tip.z)
							    : vec3_make(tip.x, tip.y, last.z);
			*fault = track_add(joint, corner, faults);
		}
		if (*fault == FAULT_NONE)
			*fault = track_add(joint, tip, faults);
		last = tip;
	}
	return true;
}

/* True when the run's first diameter, cut right after the last run, makes no
 * bite too deep together with it. */
static bool begins_well(struct emit *emit, const struct track *run)
{
	double most = emit->bench->cutter->depth_limit_mm - BITE_RESERVE_MM, way = 0.0;

	for (size_t i = 0; i < run->count && way <= 2.0 * emit->bench->radius_mm; i++) {
		struct vec3 a = run->p[i > 0 ? i - 1 : 0], b = run->p[i];
		size_t steps = 1 + (size_t)(vec3_distance(a, b) / JOINT_STEP_MM);
		for (size_t k = 1; k <= steps; k++)
			if (!bench_bites_within(emit->bench,
						vec3_between(a, b, (double)k / (double)steps), most,
						true))
				return false;
		way += vec3_distance(a, b);
	}
	return true;
}

/* Where the job asks for a way, a joint goes across the lines, so that nothing
 * is cut along them but by the runs themselves; and none is made where the
 * stretch has a way for the other kind of lines. */
static bool joins_across(const struct emit *emit, struct vec3 from, const struct track *run)
{
	const struct bench *bench = emit->bench;
	const struct cutting *here = bench_cutting(bench, from.x);
	const struct cutting *there = bench_cutting(bench, run->p[0].x);
	struct vec3 joint = vec3_sub(run->p[0], from);
	bool crosswise = emit->lines == CUT_CROSSWISE;
	double along = crosswise ? joint.y : joint.x, aside = crosswise ? joint.x : joint.y;

	if (!bench->directed || hypot(along, aside) <= JOINT_STEP_MM)
		return true;
	if ((here->lines != emit->lines && here->way != CUT_BOTH_WAYS) ||
	    (there->lines != emit->lines && there->way != CUT_BOTH_WAYS))
		return false;
	return fabs(along) <= JOINT_ALONG * fabs(aside);
}

/* From where the tip is to the run's start within the wood, if it is near and
 * that bites nowhere too deep. */
static enum fault join(struct emit *emit, const struct track *run, bool *joined,
		       struct fault_list *faults)
{
	struct track joint = { 0 };
	enum fault fault = FAULT_NONE;
	struct vec3 to = run->p[0];
	bool near = !emit->fresh && hypot(to.x - emit->at.x, to.y - emit->at.y) <= emit->link_mm;

	*joined = near && joins_across(emit, emit->at, run) && begins_well(emit, run) &&
		  make_joint(emit, &joint, emit->at, to, faults, &fault);
	emit->fresh = false;
	if (fault == FAULT_NONE && *joined)
		fault = cut_track(emit, &joint, faults);
	track_free(&joint);
	return fault;
}

/* Down to the run's start: straight where nothing stands, else along the run
 * at the ramp angle. */
static enum fault enter(struct emit *emit, const struct track *run, struct fault_list *faults)
{
	struct bench *bench = emit->bench;
	struct track ramp = { 0 };
	enum fault fault = entry_make(&ramp, bench, run, emit->at.z, faults);

	if (fault == FAULT_NONE)
		fault = cut_track(emit, &ramp, faults);
	track_free(&ramp);
	return fault;
}

/* Over, and down to the run's start: from beside it where that is shorter, or
 * onto it. */
static enum fault lift_and_enter(struct emit *emit, const struct track *run,
				 struct fault_list *faults)
{
	struct track joint = { 0 };
	struct vec3 place;
	enum fault fault = FAULT_NONE;
	bool beside = side_entry_find(emit->bench, run, emit->link_level_mm, &place) &&
		      joins_across(emit, place, run) &&
		      track_add(&joint, place, faults) == FAULT_NONE &&
		      make_joint(emit, &joint, place, run->p[0], faults, &fault);

	if (fault == FAULT_NONE)
		fault = lift_over(emit, beside ? place : run->p[0], faults);
	if (fault == FAULT_NONE)
		fault = beside ? cut_track(emit, &joint, faults) : enter(emit, run, faults);
	track_free(&joint);
	return fault;
}

static enum fault reach_and_cut(struct emit *emit, const struct track *run,
				struct fault_list *faults)
{
	bool joined = false;

	if (run->count == 0 || !run->p)
		return FAULT_NONE; /* next_run offers no empty runs */
	enum fault fault = join(emit, run, &joined, faults);
	if (fault == FAULT_NONE && !joined)
		fault = lift_and_enter(emit, run, faults);
	return fault != FAULT_NONE ? fault : cut_track(emit, run, faults);
}

/* True when nowhere along the run, `raise_mm` higher, a bite would be too deep or
 * the shank would come into wood. */
static bool bites_well(struct emit *emit, const struct track *run, double raise_mm)
{
	double most = emit->bench->cutter->depth_limit_mm - BITE_RESERVE_MM;
	struct vec3 up = { 0.0, 0.0, raise_mm };

	for (size_t i = 0; i < run->count; i++) {
		struct vec3 a = vec3_add(run->p[i > 0 ? i - 1 : 0], up);
		struct vec3 b = vec3_add(run->p[i], up);
		if (!bench_bites_along(emit->bench, a, b, most) ||
		    !bench_bites_within(emit->bench, b, most, false))
			return false;
	}
	return true;
}

/* The run cut `raise_mm` higher. Raising a run keeps it safe. */
static enum fault cut_raised(struct emit *emit, const struct track *run, double raise_mm,
			     struct fault_list *faults)
{
	struct track high = { 0 };
	enum fault fault = FAULT_NONE;

	high.one_way = run->one_way;
	for (size_t i = 0; i < run->count && fault == FAULT_NONE; i++) {
		struct vec3 p = run->p[i];
		p.z = snap_up(&emit->bench->snap, p.z + raise_mm);
		fault = track_add(&high, p, faults);
	}
	if (fault == FAULT_NONE)
		fault = reach_and_cut(emit, &high, faults);
	track_free(&high);
	emit->fresh = true; /* the next floor down starts with a ramp */
	return fault;
}

/* How far the floors of a run may lie apart. What a floor leaves beside the ball
 * stands up to its widest part; the next floor down must have it within the
 * flutes. */
static double floor_drop(const struct emit *emit)
{
	const struct cutter *cutter = emit->bench->cutter;
	double drop = cutter->depth_limit_mm - BITE_RESERVE_MM;
	double flutes = cutter->flute_length_mm - emit->bench->radius_mm;

	return smaller(drop, larger(flutes, LEAST_FLOOR_MM));
}

/* The run as it is, or, where a sliver stands too tall beside it, first on
 * higher floors. */
static enum fault cut_run(struct emit *emit, struct track *run, struct fault_list *faults)
{
	double drop = floor_drop(emit);
	double most = emit->bench->top_mm - emit->floor_mm;
	enum fault fault = FAULT_NONE;
	size_t floors = 0;

	while ((double)floors * drop < most && !bites_well(emit, run, (double)floors * drop))
		floors++;
	for (; floors > 0 && fault == FAULT_NONE; floors--)
		fault = cut_raised(emit, run, (double)floors * drop, faults);
	return fault != FAULT_NONE ? fault : reach_and_cut(emit, run, faults);
}

/* True when the run takes wood as it stands: what was worth cutting when it was
 * found may be gone by the time its turn comes. */
static bool takes_wood(const struct emit *emit, const struct track *run)
{
	const struct bench *bench = emit->bench;
	double step = sqrt(2.0 * bench->radius_mm * TOL_BRUSH_MM);

	if (emit->always)
		return run->count > 1;
	for (size_t i = 0; i < run->count; i++) {
		struct vec3 a = run->p[i > 0 ? i - 1 : 0], b = run->p[i];
		size_t steps = 1 + (size_t)(vec3_distance(a, b) / step);
		for (size_t k = 1; k <= steps; k++)
			if (bench_takes_wood(bench, vec3_between(a, b, (double)k / (double)steps)))
				return true;
	}
	return false;
}

/* A crosswise run with a way, in parts. */
static enum fault cut_parts(struct emit *emit, const struct track *run, struct fault_list *faults)
{
	struct runs parts = { 0 };
	enum fault fault = way_part_to_wood(&parts, run, emit->bench, faults);

	for (size_t i = 0; i < parts.count && fault == FAULT_NONE; i++)
		if (takes_wood(emit, &parts.run[i]))
			fault = cut_run(emit, &parts.run[i], faults);
	runs_free(&parts);
	return fault;
}

bool emit_takes_wood(const struct emit *emit, const struct runs *runs)
{
	for (size_t i = 0; i < runs->count; i++)
		if (takes_wood(emit, &runs->run[i]))
			return true;
	return false;
}

enum fault emit_runs(struct emit *emit, struct runs *runs, enum cut_lines lines,
		     enum emit_order order, struct fault_list *faults)
{
	bool *done = mem_array(runs->count, sizeof *done), reverse = false;
	enum fault fault = FAULT_NONE;

	if (!done)
		return fault_no_memory(faults, "a pass");
	/* lines of another kind are not joined to these */
	emit->fresh = emit->fresh || emit->lines != lines;
	emit->lines = lines;
	while (fault == FAULT_NONE) {
		size_t i = order_next(order, runs, done, emit->at, &reverse);
		if (i == runs->count)
			break;
		done[i] = true;
		if (!takes_wood(emit, &runs->run[i]))
			continue;
		if (reverse)
			track_reverse(&runs->run[i]);
		if (lines == CUT_CROSSWISE && runs->run[i].one_way)
			fault = cut_parts(emit, &runs->run[i], faults);
		else
			fault = cut_run(emit, &runs->run[i], faults);
	}
	free(done);
	return fault;
}

static double safe_height(const struct emit *emit)
{
	return snap_up(&emit->bench->snap, emit->bench->safe_mm);
}

enum fault emit_start(struct emit *emit, struct fault_list *faults)
{
	const struct job *job = emit->bench->job;
	struct motion motion = { .kind = MOTION_SPINDLE_ON,
				 .spindle_rpm = emit->bench->cutter->spindle_rpm,
				 .pass = -1 };
	enum fault fault = motion_list_add(emit->out, &motion, faults);

	motion = (struct motion){ .kind = MOTION_DWELL,
				  .dwell_s = job->machine.spindle_start_s,
				  .pass = -1 };
	if (fault == FAULT_NONE && motion.dwell_s > 0.0)
		fault = motion_list_add(emit->out, &motion, faults);
	/* where the tool stands is not known: up first, then over */
	struct vec3 home = { snap_x(&emit->bench->snap, job->carve.to_mm),
			     snap_y(&emit->bench->snap, 0.0), safe_height(emit) };
	motion = (struct motion){ .kind = MOTION_RAPID, .to = home, .known = KNOWN_Z, .pass = -1 };
	if (fault == FAULT_NONE)
		fault = motion_list_add(emit->out, &motion, faults);
	motion.known = KNOWN_ALL;
	if (fault == FAULT_NONE)
		fault = motion_list_add(emit->out, &motion, faults);
	emit->at = home;
	return fault;
}

enum fault emit_pass(struct emit *emit, int pass, struct fault_list *faults)
{
	struct motion motion = { .kind = MOTION_PASS, .pass = pass };

	emit->pass = pass;
	emit->lowest_mm = INFINITY;
	emit->fresh = true;
	return motion_list_add(emit->out, &motion, faults);
}

struct vec3 emit_park(const struct bench *bench, struct vec3 at)
{
	const struct machine *machine = &bench->job->machine;
	const struct snap *snap = &bench->snap;

	if (!machine->parks)
		return at;
	double z = snap_up(snap, bench->top_mm + bench->job->fixture.keep_out_clearance_mm);
	return vec3_make(snap_x(snap, snap->zero_mm.x + machine->park_x_mm),
			 snap_y(snap, snap->zero_mm.y + machine->park_y_mm), larger(at.z, z));
}

enum fault emit_end(struct emit *emit, struct fault_list *faults)
{
	struct vec3 up = emit->at;
	struct motion motion = { .kind = MOTION_SPINDLE_OFF, .pass = -1 };

	up.z = larger(up.z, safe_height(emit));
	struct vec3 park = emit_park(emit->bench, up);
	up.z = park.z;
	enum fault fault = add_move(emit, MOTION_RAPID, up, 0.0, faults);
	if (fault == FAULT_NONE)
		fault = add_move(emit, MOTION_RAPID, park, 0.0, faults);
	if (fault == FAULT_NONE)
		fault = motion_list_add(emit->out, &motion, faults);
	motion.kind = MOTION_END;
	return fault != FAULT_NONE ? fault : motion_list_add(emit->out, &motion, faults);
}
