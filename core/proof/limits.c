/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "proof/limits.h"

#include <math.h>
#include <stdbool.h>

#include "base/minmax.h"
#include "base/tol.h"

/* Feeds and speeds may pass a limit by this share: decimals of the text. */
#define SHARE_SLACK 1e-4
/* The parking place is met within this, mm: decimals of a coarse program. */
#define PARKED_MM 0.02
/* A height may pass its end by this much, mm: decimals of the text. */
#define HEIGHT_SLACK_MM 0.01

/* A walk over one program. */
struct walk {
	struct verdict *verdict;
	const struct job *job;
	const struct cutter *cutter; /* in the holder */
	int program;
	double safe_mm; /* lowest z above everything, program coordinates */
	struct vec3 at;
	unsigned known;
	bool spindle_on, ended, moved;
	double stray_mm; /* the most that any move so far may lie beside its straight way */
	struct vec3 least, most;
};

static void judge_spindle(struct walk *walk, const struct motion *motion)
{
	const struct machine *machine = &walk->job->machine;
	double rpm = motion->spindle_rpm;

	walk->spindle_on = true;
	verdict_figure(walk->verdict, PROMISE_SPINDLE, rpm);
	if (rpm > machine->spindle_most_rpm * (1.0 + SHARE_SLACK) ||
	    rpm < machine->spindle_least_rpm * (1.0 - SHARE_SLACK))
		verdict_break(walk->verdict, PROMISE_SPINDLE, walk->program, motion->block,
			      "The spindle is told %.0f rpm; it runs %.0f to %.0f.", rpm,
			      machine->spindle_least_rpm, machine->spindle_most_rpm);
}

/* A spindle that is switched by hand turns after the first stop and stands after
 * the next; whoever switches it must have the tool out of the wood. What speed
 * the operator is told is the job's. */
static void judge_stop(struct walk *walk, const struct motion *motion)
{
	const struct motion told = { .kind = MOTION_SPINDLE_ON,
				     .spindle_rpm = walk->cutter->spindle_rpm,
				     .block = motion->block };

	if (walk->job->machine.reads.spindle != SPINDLE_BY_HAND)
		verdict_break(walk->verdict, PROMISE_START, walk->program, motion->block,
			      "The program stops, but the machine's spindle is not switched by "
			      "hand.");
	if (walk->moved && walk->at.z < walk->safe_mm)
		verdict_break(walk->verdict, PROMISE_START, walk->program, motion->block,
			      "The program stops for the spindle at Z %.3f, below everything's "
			      "top (Z %.3f).",
			      walk->at.z, walk->safe_mm);
	if (walk->spindle_on)
		walk->spindle_on = false;
	else
		judge_spindle(walk, &told);
}

/* Only a stop switches a spindle that is switched by hand. */
static void judge_switch(struct walk *walk, const struct motion *motion)
{
	if (walk->job->machine.reads.spindle == SPINDLE_BY_HAND)
		verdict_break(walk->verdict, PROMISE_START, walk->program, motion->block,
			      "The program switches the spindle; the machine's is switched by "
			      "hand.");
	else if (motion->kind == MOTION_SPINDLE_ON)
		judge_spindle(walk, motion);
	else
		walk->spindle_on = false;
}

static void judge_feed(struct walk *walk, const struct motion *motion)
{
	static const char letters[AXIS_COUNT] = { 'X', 'Y', 'Z' };
	struct vec3 d = vec3_sub(motion->to, walk->at);
	const double part[AXIS_COUNT] = { fabs(d.x), fabs(d.y), fabs(d.z) };
	const double lean[AXIS_COUNT] = { motion->lean.x, motion->lean.y, motion->lean.z };
	double length = vec3_length(d);

	if (length <= 0.0)
		return;
	for (int axis = 0; axis < AXIS_COUNT; axis++) {
		double share = smaller(part[axis] / length + lean[axis], 1.0);
		double feed = motion->feed_mm_per_min * share;
		double limit = walk->job->machine.feed_limit_mm_per_min[axis];
		verdict_figure(walk->verdict, PROMISE_FEED, feed / limit);
		if (feed > limit * (1.0 + SHARE_SLACK))
			verdict_break(walk->verdict, PROMISE_FEED, walk->program, motion->block,
				      "%c would feed at %.0f mm/min; its limit is %.0f.",
				      letters[axis], feed, limit);
	}
}

/* Until all axes are known only rises and moves above everything are safe. */
static void judge_start(struct walk *walk, const struct motion *motion)
{
	bool blind = walk->known != KNOWN_ALL;

	if (motion->kind == MOTION_CUT && !walk->spindle_on)
		verdict_break(
			walk->verdict, PROMISE_START, walk->program, motion->block,
			walk->job->machine.reads.spindle == SPINDLE_BY_HAND
				? "A cutting move comes without a stop before it to switch the "
				  "spindle on."
				: "A cutting move comes before the spindle is switched on.");
	if (!blind)
		return;
	if (!(motion->known & KNOWN_Z) || motion->to.z < walk->safe_mm)
		verdict_break(walk->verdict, PROMISE_START, walk->program, motion->block,
			      "The tool moves before it is known to stand above everything "
			      "(Z %.3f or higher).",
			      walk->safe_mm);
	else if (motion->kind != MOTION_RAPID || (walk->known == 0 && motion->known != KNOWN_Z))
		verdict_break(walk->verdict, PROMISE_START, walk->program, motion->block,
			      "A program must begin with a rapid of Z alone, up above "
			      "everything.");
}

static void note_bounds(struct walk *walk, const struct motion *motion)
{
	struct vec3 p = motion->to;

	if (motion->known & KNOWN_X) {
		walk->least.x = smaller(walk->least.x, p.x);
		walk->most.x = larger(walk->most.x, p.x);
	}
	if (motion->known & KNOWN_Y) {
		walk->least.y = smaller(walk->least.y, p.y);
		walk->most.y = larger(walk->most.y, p.y);
	}
	if (motion->known & KNOWN_Z) {
		walk->least.z = smaller(walk->least.z, p.z);
		walk->most.z = larger(walk->most.z, p.z);
	}
}

static void judge_travel(struct walk *walk, const struct motion *motion)
{
	static const char letters[AXIS_COUNT] = { 'X', 'Y', 'Z' };
	struct vec3 span = vec3_sub(walk->most, walk->least);
	const double spans[AXIS_COUNT] = { span.x, span.y, span.z };

	for (int axis = 0; axis < AXIS_COUNT; axis++) {
		double spare =
			walk->job->machine.travel_mm[axis] - spans[axis] - 2.0 * walk->stray_mm;
		if (!isfinite(spans[axis]))
			continue;
		verdict_figure(walk->verdict, PROMISE_TRAVEL, spare);
		if (spare < 0.0)
			verdict_break(walk->verdict, PROMISE_TRAVEL, walk->program, motion->block,
				      "%c needs %.1f mm of travel; the machine has %.1f.",
				      letters[axis], spans[axis],
				      walk->job->machine.travel_mm[axis]);
	}
}

/* Where z would have to stand: the holder's face, over the bed. */
static void judge_height(struct walk *walk, const struct motion *motion)
{
	const struct machine *machine = &walk->job->machine;
	const struct fixture *fixture = &walk->job->fixture;
	double highest = machine->z_gap_mm, lowest = highest - machine->travel_mm[AXIS_Z];
	double face = motion->to.z + fixture->work_zero_mm.z - job_bed_mm(walk->job) +
		      walk->cutter->stickout_mm;
	double spare = smaller(highest - face, face - lowest) - walk->stray_mm;

	if (!(machine->z_gap_mm > 0.0) || !(motion->known & KNOWN_Z))
		return;
	verdict_figure(walk->verdict, PROMISE_TRAVEL, spare);
	if (spare < -HEIGHT_SLACK_MM)
		verdict_break(walk->verdict, PROMISE_TRAVEL, walk->program, motion->block,
			      "At Z %.3f the holder is %.1f mm over the bed; z holds it between "
			      "%.1f and %.1f mm.",
			      motion->to.z, face, lowest, highest);
}

static void judge_move(struct walk *walk, const struct motion *motion)
{
	judge_start(walk, motion);
	if (motion->kind == MOTION_CUT && walk->known == KNOWN_ALL)
		judge_feed(walk, motion);
	walk->stray_mm = larger(walk->stray_mm, motion->stray_mm);
	note_bounds(walk, motion);
	judge_travel(walk, motion);
	judge_height(walk, motion);
	walk->at = motion->to;
	walk->known = motion->known;
	walk->moved = true;
}

/* A machine that has a parking place is left there. */
static void judge_parking(struct walk *walk, const struct motion *motion)
{
	const struct machine *machine = &walk->job->machine;
	double off_mm = hypot(walk->at.x - machine->park_x_mm, walk->at.y - machine->park_y_mm);

	if (!machine->parks || !walk->moved)
		return;
	if (walk->known != KNOWN_ALL || off_mm > PARKED_MM)
		verdict_break(walk->verdict, PROMISE_START, walk->program, motion->block,
			      "The program ends at X %.3f Y %.3f; the machine parks at X %.3f Y "
			      "%.3f.",
			      walk->at.x, walk->at.y, machine->park_x_mm, machine->park_y_mm);
}

static void judge_end(struct walk *walk, const struct motion *motion)
{
	walk->ended = true;
	verdict_figure(walk->verdict, PROMISE_START, walk->at.z - walk->safe_mm);
	if (walk->spindle_on)
		verdict_break(walk->verdict, PROMISE_START, walk->program, motion->block,
			      "The program ends with the spindle running.");
	if (walk->moved && walk->at.z < walk->safe_mm)
		verdict_break(walk->verdict, PROMISE_START, walk->program, motion->block,
			      "The program ends with the tool at Z %.3f, below everything's top "
			      "(Z %.3f).",
			      walk->at.z, walk->safe_mm);
	judge_parking(walk, motion);
}

static void judge_one(struct walk *walk, const struct motion *motion)
{
	switch (motion->kind) {
	case MOTION_RAPID:
	case MOTION_CUT:
		judge_move(walk, motion);
		break;
	case MOTION_SPINDLE_ON:
	case MOTION_SPINDLE_OFF:
		judge_switch(walk, motion);
		break;
	case MOTION_STOP:
		judge_stop(walk, motion);
		break;
	case MOTION_END:
		judge_end(walk, motion);
		break;
	case MOTION_DWELL:
	case MOTION_PASS:
		break;
	}
}

void limits_judge(struct verdict *verdict, const struct job *job, const struct cutter *cutter,
		  const struct motion_list *list, int program, double top_mm)
{
	struct walk walk = { .verdict = verdict,
			     .job = job,
			     .cutter = cutter,
			     .program = program,
			     .safe_mm = top_mm + TOL_RAPID_MM - job->fixture.work_zero_mm.z,
			     .least = { INFINITY, INFINITY, INFINITY },
			     .most = { -INFINITY, -INFINITY, -INFINITY } };

	verdict_judged(verdict, PROMISE_START, 0.0);
	verdict_judged(verdict, PROMISE_SPINDLE, job->machine.spindle_most_rpm);
	verdict_judged(verdict, PROMISE_FEED, 1.0);
	verdict_judged(verdict, PROMISE_TRAVEL, 0.0);
	for (size_t i = 0; i < list->count; i++)
		judge_one(&walk, &list->item[i]);
	if (!walk.ended)
		verdict_break(verdict, PROMISE_START, program,
			      list->count > 0 ? list->item[list->count - 1].block : 0,
			      "The program has no end.");
}
