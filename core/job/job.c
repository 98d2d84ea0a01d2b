/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/job.h"

#include <math.h>
#include <stdio.h>

#include "job/blocked.h"
#include "job/fit.h"
#include "job/gap.h"
#include "job/zero.h"
#include "model/fretboard.h"
#include "model/taper.h"

/* Coarsest step of program figures that the proof can live with, mm: half its
 * tolerance (TOL_PROOF_MM). */
#define COARSEST_RESOLUTION_MM 0.005
/* Feeds are rounded down; with fewer steps up to the plunge feed than this, too
 * much of it would be lost. */
#define COARSEST_FEED_STEPS 4.0
/* A blank that lies flat may be off by this much in its outline, mm: what
 * rounding a converted inch leaves. */
#define FLAT_MM 0.001
/* Figures that are meant to agree differ by no more than rounding, mm. */
#define SLACK_MM 1e-9

/* Kept between a rail's wall and shank or holder, mm. */
#define RAIL_ROOM_MM 0.5
/* The tool's axis must be free to move this far across a channel, mm: neck and
 * rail are not quite parallel, ... */
#define LEAST_TRAVEL_MM 0.5
/* ... and unless told otherwise the channel is this much wider, mm. */
#define CHANNEL_SPARE_MM 3.5
/* Coves lower than this are none, mm. */
#define NO_COVE_MM 0.01

/* Collects the first code while every check runs. */
struct check {
	const struct job *job;
	struct fault_list *faults;
	enum fault first;
};

static void check_machine(struct check *check)
{
	const struct machine *machine = &check->job->machine;
	double step_mm = machine_resolution_mm(machine);

	if (machine->spindle_least_rpm > machine->spindle_most_rpm)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0,
				     "machine.spindle_least_rpm",
				     "The slowest spindle speed, %.0f rpm, is above the fastest, "
				     "%.0f rpm.",
				     machine->spindle_least_rpm, machine->spindle_most_rpm));
	if (step_mm > COARSEST_RESOLUTION_MM)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "machine.decimals",
				     "With %d decimals a program states lengths in steps of %.4g "
				     "mm; they must be %.4g mm or finer (3 decimals in mm, 4 in "
				     "inches).",
				     machine->decimals, step_mm, COARSEST_RESOLUTION_MM));
}

/* What its control reads, as far as no single setting can tell. */
static void check_abilities(struct check *check)
{
	const struct machine *machine = &check->job->machine;
	double plunge_mm = INFINITY;
	double step = units_mm_per(machine->program_unit);

	for (size_t i = 0; i < check->job->cutter_count; i++)
		plunge_mm = fmin(plunge_mm, check->job->cutter[i].plunge_feed_mm_per_min);
	for (int digit = 0; digit < machine_feed_decimals(machine); digit++)
		step /= 10.0;
	if (machine->parks && (isnan(machine->park_x_mm) || isnan(machine->park_y_mm)))
		fault_keep(
			&check->first,
			fault_add(check->faults, FAULT_SETTING, NULL, 0,
				  isnan(machine->park_x_mm) ? "machine.park_x" : "machine.park_y",
				  "A parking place needs both park_x and park_y; take out the other "
				  "if there is none."));
	if (step > plunge_mm / COARSEST_FEED_STEPS)
		fault_keep(
			&check->first,
			fault_add(check->faults, FAULT_SETTING, NULL, 0, "machine.feed_decimals",
				  "Feeds in steps of %.4g mm/min are too coarse for the cutter's "
				  "plunge feed, %.4g mm/min.",
				  step, plunge_mm));
}

/* Path of a cutter's setting: the first one's stands under "cutter". */
static const char *setting_of(char path[FAULT_SETTING_MAX], size_t turn, const char *name)
{
	if (turn == 0)
		(void)snprintf(path, FAULT_SETTING_MAX, "cutter.%s", name);
	else
		(void)snprintf(path, FAULT_SETTING_MAX, "use.then[%zu].%s", turn - 1, name);
	return path;
}

static void check_cutter_speed(struct check *check, size_t turn)
{
	const struct machine *machine = &check->job->machine;
	double rpm = check->job->cutter[turn].spindle_rpm;
	char path[FAULT_SETTING_MAX];

	if (rpm < machine->spindle_least_rpm || rpm > machine->spindle_most_rpm)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0,
				     setting_of(path, turn, "spindle_rpm"),
				     "The cutter wants %.0f rpm; the machine's spindle turns at "
				     "%.0f to %.0f rpm.",
				     rpm, machine->spindle_least_rpm, machine->spindle_most_rpm));
}

static void check_cutter(struct check *check, size_t turn)
{
	const struct cutter *c = &check->job->cutter[turn];
	char path[FAULT_SETTING_MAX];

	check_cutter_speed(check, turn);
	if (c->holder_diameter_mm < c->shank_diameter_mm)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0,
				     setting_of(path, turn, "holder_diameter"),
				     "The holder, %.4g mm, is thinner than the shank it holds, "
				     "%.4g mm.",
				     c->holder_diameter_mm, c->shank_diameter_mm));
	if (c->stickout_mm < c->flute_length_mm)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0,
				     setting_of(path, turn, "stickout"),
				     "The cutter sticks out %.4g mm, less than its flutes are "
				     "long (%.4g mm); the holder would sit on the flutes.",
				     c->stickout_mm, c->flute_length_mm));
	if (c->overall_length_mm > 0.0 && c->overall_length_mm <= c->stickout_mm)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0,
				     setting_of(path, turn, "overall_length"),
				     "A cutter %.4g mm long cannot stick out %.4g mm and be held.",
				     c->overall_length_mm, c->stickout_mm));
	if (c->flute_length_mm < cutter_radius_mm(c))
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0,
				     setting_of(path, turn, "flute_length"),
				     "Flutes %.4g mm long do not cover the ball, which is %.4g mm "
				     "high.",
				     c->flute_length_mm, cutter_radius_mm(c)));
	if (c->depth_limit_mm > c->flute_length_mm)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0,
				     setting_of(path, turn, "depth_limit"),
				     "Bites of %.4g mm are deeper than the flutes are long, %.4g "
				     "mm.",
				     c->depth_limit_mm, c->flute_length_mm));
	if (c->stepover_limit_mm > c->ball_diameter_mm)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0,
				     setting_of(path, turn, "stepover_limit"),
				     "Lines %.4g mm apart would leave wood between them; the ball "
				     "is %.4g mm wide.",
				     c->stepover_limit_mm, c->ball_diameter_mm));
}

/* Half the smallest ball, mm. */
static double least_radius_mm(const struct job *job)
{
	double least = INFINITY;

	for (size_t i = 0; i < job->cutter_count; i++)
		least = fmin(least, cutter_radius_mm(&job->cutter[i]));
	return least;
}

static void check_carve(struct check *check)
{
	const struct job *job = check->job;
	const struct carve_spec *carve = &job->carve;

	if (carve->from_mm >= carve->to_mm)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "carve.to",
				     "Carving would end at %.2f mm, before it begins at %.2f mm.",
				     carve->to_mm, carve->from_mm));
	if (carve->scallop_limit_mm >= least_radius_mm(job))
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "carve.scallop_limit",
				     "Ridges of %.4g mm are higher than half the ball, %.4g mm.",
				     carve->scallop_limit_mm, least_radius_mm(job)));
}

/* No tabs at all, or such as hold. */
static void check_tabs(struct check *check)
{
	double width_mm = check->job->carve.waste.tab_width_mm;

	if (width_mm > 0.0 && width_mm < TAB_LEAST_WIDTH_MM - SLACK_MM)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "carve.tab_width",
				     "Tabs %.4g mm wide are too narrow to hold anything; they "
				     "need at least %.4g mm. With 0 there are none, and a job "
				     "that cannot do without is refused.",
				     width_mm, TAB_LEAST_WIDTH_MM));
}

/* A low riser leaves a cove at the edges, or all of one without a riser: only
 * what the builder does not want is refused. */
static void check_cove(struct check *check)
{
	const struct job *job = check->job;
	double cove_mm = job_cove_mm(job), limit_mm = job->carve.cove_limit_mm;

	if (cove_mm > limit_mm + NO_COVE_MM)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "fixture.riser_height",
				     "A riser of %.4g mm is too low: the ball's widest part cannot "
				     "come down to the gluing face, which leaves a cove %.4g mm "
				     "high along the edges; carve.cove_limit allows %.4g mm, which "
				     "takes a riser of %.4g mm (half the ball and the clearance "
				     "above the bed, less the limit).",
				     job->fixture.riser_height_mm, cove_mm, limit_mm,
				     job->fixture.riser_height_mm + cove_mm - limit_mm));
}

/* The ball passes beside the riser with the equator at the wood's edge. The
 * wood is narrowest at the nut or at the riser's end toward it. */
static void check_riser_width(struct check *check)
{
	const struct job *job = check->job;
	const struct fixture *fixture = &job->fixture;
	double from = fmax(fixture->riser_from_mm, job->carve.from_mm);
	double to = fmin(fixture->riser_to_mm, job->carve.to_mm);
	double half_mm = fmin(taper_wood_half_width_mm(&job->neck, from),
			      taper_wood_half_width_mm(&job->neck, to));
	double room_mm = half_mm + job->neck.allowance.sides_mm - fixture->keep_out_clearance_mm;

	if (from < to && fixture->riser_width_mm > 2.0 * room_mm)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "fixture.riser_width",
				     "A riser %.4g mm wide stands in the cutter's way: the neck is "
				     "%.4g mm wide at its narrowest there, so with the clearance "
				     "of %.4g mm it may be %.4g mm wide.",
				     fixture->riser_width_mm, 2.0 * half_mm,
				     fixture->keep_out_clearance_mm, 2.0 * room_mm));
}

static void check_riser(struct check *check)
{
	const struct fixture *fixture = &check->job->fixture;

	if (fixture->riser_height_mm <= 0.0)
		return;
	if (fixture->riser_width_mm <= 0.0)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "fixture.riser_width",
				     "A riser needs a width."));
	if (fixture->riser_from_mm >= fixture->riser_to_mm)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "fixture.riser_to",
				     "The riser would end at %.2f mm, before it begins at %.2f mm.",
				     fixture->riser_to_mm, fixture->riser_from_mm));
	else
		check_riser_width(check);
}

/* Stock that keeps the ball clear of a fretboard of which it shapes the wood
 * right down to it. */
static void check_beside_fretboard(struct check *check, const char *setting, double stock_mm)
{
	const struct job *job = check->job;
	double clearance_mm = job->fixture.fretboard.clearance_mm;
	double need_mm = job->neck.side_margin_mm + clearance_mm;

	if (stock_mm < need_mm - SLACK_MM)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, setting,
				     "With %.4g mm of stock here the ball would come nearer to "
				     "the glued fretboard than fixture.fretboard.clearance, %.4g "
				     "mm; the wood is %.4g mm narrower per side than the "
				     "fretboard (neck.side_margin), so %.4g mm are needed.",
				     stock_mm, clearance_mm, job->neck.side_margin_mm, need_mm));
}

/* Where the heel's own stock begins, as in model/crest.c. */
static double heel_proper_mm(const struct neck_spec *neck)
{
	switch (neck->heel.kind) {
	case HEEL_BLOCK:
		return taper_neck_end_mm(neck) - neck->heel.cap_length_mm;
	case HEEL_FLAT:
		return taper_neck_end_mm(neck) - neck->heel.slab_length_mm;
	case HEEL_SET:
	case HEEL_KIND_COUNT:
		break;
	}
	return taper_fret_x_mm(neck->scale_length_mm, neck->joint_fret);
}

static void check_fretboard(struct check *check)
{
	const struct job *job = check->job;
	struct fretboard board = fretboard_of(&job->neck, job->fixture.fretboard.overhang_mm);

	if (!job->fixture.fretboard.glued)
		return;
	if (job->neck.fretboard_thickness_mm <= 0.0)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0,
				     "neck.fretboard_thickness",
				     "A fretboard that is glued on needs a thickness."));
	check_beside_fretboard(check, "allowance.sides", job->neck.allowance.sides_mm);
	if (heel_proper_mm(&job->neck) < fmin(board.x_to_mm, job->carve.to_mm))
		check_beside_fretboard(check, "allowance.heel_cheeks",
				       job->neck.allowance.heel_cheeks_mm);
}

/* The blank lies on the riser and keeps above the bed. Call with outlines that
 * passed blank_check. */
static void check_lie(struct check *check)
{
	const struct blank *blank = &check->job->blank;
	const struct fixture *fixture = &check->job->fixture;
	double from = fmax(fixture->riser_from_mm, blank_from_mm(blank));
	double to = fmin(fixture->riser_to_mm, blank_to_mm(blank));
	double lowest = outline_least_mm(&blank->bottom, blank_from_mm(blank), blank_to_mm(blank));
	double bed = job_bed_mm(check->job), rest = job_rest_mm(check->job);

	if (lowest < bed - FLAT_MM)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "blank.bottom",
				     "The blank reaches down to %.2f mm, into the bed at %.2f mm.",
				     lowest, bed));
	if (fixture->riser_height_mm <= 0.0 || from >= to)
		return;
	lowest = outline_least_mm(&blank->bottom, from, to);
	if (lowest < rest - FLAT_MM)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "blank.bottom",
				     "The blank reaches %.2f mm below the %s where it lies "
				     "on the riser; the riser must end before that place.",
				     rest - lowest, rest < 0.0 ? "riser's top" : "gluing face"));
}

/* From one end to the other, the parking place included if there is one. */
static double reach_mm(double from_mm, double to_mm, const struct machine *machine, double park_mm)
{
	if (!machine->parks || isnan(park_mm))
		return to_mm - from_mm;
	return fmax(to_mm, park_mm) - fmin(from_mm, park_mm);
}

static void check_travel(struct check *check)
{
	const struct job *job = check->job;
	const struct blank *blank = &job->blank;
	double radius = job_most_radius_mm(job);
	double widest =
		blank_widest_mm(blank, job->carve.from_mm, job->carve.to_mm) + blank->margin_mm;
	double below = fmin(radius + job->neck.allowance.sides_mm,
			    fmax(0.0, -job_bed_mm(job) - job->fixture.bed_clearance_mm));
	const struct vec3 zero = job->fixture.work_zero_mm;
	const double need_mm[AXIS_COUNT] = {
		[AXIS_X] = reach_mm(job->carve.from_mm, job->carve.to_mm, &job->machine,
				    zero.x + job->machine.park_x_mm),
		[AXIS_Y] = reach_mm(-widest - radius, widest + radius, &job->machine,
				    zero.y + job->machine.park_y_mm),
		[AXIS_Z] = blank_highest_most_mm(blank) + job->carve.clearance_mm + below,
	};

	for (int axis = 0; axis < AXIS_COUNT; axis++) {
		if (job->machine.travel_mm[axis] < need_mm[axis])
			fault_keep(&check->first,
				   fault_add(check->faults, FAULT_SETTING, NULL, 0,
					     "machine.travel",
					     "The job needs %.1f mm of travel along %c%s; the "
					     "machine has %.1f mm.",
					     need_mm[axis], "xyz"[axis],
					     job -> machine.parks &&axis != AXIS_Z
							    ? " with the parking place"
							    : "",
					     job->machine.travel_mm[axis]));
	}
}

enum fault job_check(const struct job *job, struct fault_list *faults)
{
	struct check check = { .job = job, .faults = faults };
	enum fault blank = blank_check(&job->blank, faults);

	fault_keep(&check.first, blank);
	check_machine(&check);
	check_abilities(&check);
	for (size_t i = 0; i < job->cutter_count; i++)
		check_cutter(&check, i);
	check_carve(&check);
	check_tabs(&check);
	check_riser(&check);
	check_cove(&check);
	check_fretboard(&check);
	fault_keep(&check.first, zero_check(job, faults));
	fault_keep(&check.first, fit_check_places(job, faults));
	if (blank)
		return check.first;
	check_lie(&check);
	fault_keep(&check.first, fit_check_rails(job, faults));
	if (job->carve.from_mm < job->carve.to_mm) {
		check_travel(&check);
		fault_keep(&check.first, gap_check(job, faults));
		fault_keep(&check.first, fit_check_blank(job, faults));
	}
	if (!check.first)
		fault_keep(&check.first, blocked_check(job, faults));
	return check.first;
}

double job_most_radius_mm(const struct job *job)
{
	double most = 0.0;

	for (size_t i = 0; i < job->cutter_count; i++)
		most = fmax(most, cutter_radius_mm(&job->cutter[i]));
	return most;
}

double job_rail_room_mm(const struct job *job)
{
	return RAIL_ROOM_MM + 1.5 * job->carve.cell_mm;
}

double job_least_channel_mm(const struct job *job)
{
	double least = 0.0;

	for (size_t i = 0; i < job->cutter_count; i++) {
		const struct cutter *cutter = &job->cutter[i];
		double radius = cutter_radius_mm(cutter);
		double shank = cutter->shank_diameter_mm / 2.0 + job_rail_room_mm(job);
		least = fmax(least, radius + fmax(radius, shank) + LEAST_TRAVEL_MM);
	}
	return least;
}

double job_channel_mm(const struct job *job)
{
	double asked = job->carve.waste.channel_mm;

	return asked > 0.0 ? asked : job_least_channel_mm(job) + CHANNEL_SPARE_MM;
}

double job_most_stock_mm(const struct job *job)
{
	const struct allowance_spec *allowance = &job->neck.allowance;

	return fmax(fmax(allowance->back_mm, allowance->sides_mm),
		    fmax(allowance->heel_cheeks_mm, allowance->transitions_mm));
}

double job_cove_mm(const struct job *job)
{
	const struct fixture *fixture = &job->fixture;
	double centre = least_radius_mm(job) + fixture->bed_clearance_mm + job_bed_mm(job);

	return fmax(0.0, centre);
}

double job_rest_mm(const struct job *job)
{
	const struct glued_fretboard *fretboard = &job->fixture.fretboard;

	return fretboard->glued ? -job->neck.fretboard_thickness_mm - fretboard->shim_mm : 0.0;
}

double job_bed_mm(const struct job *job)
{
	return job_rest_mm(job) - job->fixture.riser_height_mm;
}

double job_highest_mm(const struct job *job)
{
	double top = blank_highest_most_mm(&job->blank);

	for (size_t i = 0; i < job->fixture.keep_out_count; i++)
		top = fmax(top, job->fixture.keep_out[i].top_mm);
	return top;
}
