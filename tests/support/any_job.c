/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/any_job.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/units.h"
#include "model/heel.h"
#include "model/joint.h"
#include "model/taper.h"
#include "support/any_outline.h"
#include "support/sample_job.h"
#include "support/seed.h"

/* x where every blank begins, mm; the peghead's clamp holds it there. */
#define BLANK_FROM_MM (-190.0)

static bool one_in(const gsl_rng *rng, unsigned long n)
{
	return seed_whole(rng, 1, n) == 1;
}

static struct section_spec any_section(const gsl_rng *rng)
{
	struct section_spec spec = { .family = (enum section_family)seed_whole(rng, 0, 4) };

	if (spec.family == SECTION_V)
		spec.apex_radius_mm = seed_between(rng, 3.0, 8.0);
	if (spec.family == SECTION_C && one_in(rng, 2))
		spec.fullness = seed_between(rng, 2.0, 2.5);
	if (spec.family == SECTION_U && one_in(rng, 2))
		spec.fullness = seed_between(rng, 2.6, 4.0);
	if (spec.family == SECTION_D && one_in(rng, 2))
		spec.flat_share = seed_between(rng, 0.1, 0.5);
	if (spec.family == SECTION_MEASURED)
		spec.outline = any_outline(rng);
	return spec;
}

/* Two to four stations up to the last fret before the heel's nose, thicker
 * toward the body. */
static void any_stations(struct neck_spec *neck, double last_fret, const gsl_rng *rng)
{
	double wood_mm = seed_between(rng, 14.0, 17.0), grow_mm = seed_between(rng, 0.5, 3.5);
	double board_mm = neck->over_fretboard ? neck->fretboard_thickness_mm : 0.0;
	bool uneven = one_in(rng, 3), alike = one_in(rng, 3);

	neck->station_count = seed_whole(rng, 2, 4);
	for (size_t i = 0; i < neck->station_count; i++) {
		struct station_spec *station = &neck->station[i];
		double share = (double)i / (double)(neck->station_count - 1);
		station->fret = last_fret * share;
		station->thickness_mm = wood_mm + grow_mm * share + board_mm;
		station->bass = alike && i > 0 ? neck->station[0].bass : any_section(rng);
		station->treble = uneven ? any_section(rng) : station->bass;
	}
}

static void any_block_heel(struct neck_spec *neck, const gsl_rng *rng)
{
	static const double joint[] = { 12, 14, 14, 15 };
	double width_mm = seed_between(rng, 14.0, 26.0);

	neck->joint_fret = joint[seed_whole(rng, 0, 3)];
	neck->heel = (struct heel_spec){
		.kind = HEEL_BLOCK,
		.height_mm = seed_between(rng, 60.0, 84.0),
		.cap_length_mm = seed_between(rng, 10.0, 18.0),
		.cap_width_front_mm = width_mm,
		.cap_width_back_mm = width_mm + seed_between(rng, 0.0, 4.0),
		.hollow_mm = seed_between(rng, 0.0, 1.2),
		.nose_radius_mm = seed_between(rng, 9.0, 14.0),
		.nose_angle_rad = units_rad_from_deg(seed_between(rng, 70.0, 82.0)),
		.cap_plan = (enum cap_plan)seed_whole(rng, 0, CAP_PLAN_COUNT - 1),
		.hollow_rim_mm = one_in(rng, 2) ? seed_between(rng, 2.0, 6.0) : 0.0,
	};
	if (neck->heel.cap_plan == CAP_POINTED)
		neck->heel.cap_length_mm = width_mm * seed_between(rng, 0.85, 1.1);
	any_stations(neck, neck->joint_fret - 3.0, rng);
}

static void any_flat_heel(struct neck_spec *neck, const gsl_rng *rng)
{
	double beyond_mm = seed_between(rng, 60.0, 80.0);

	neck->joint_fret = (double)seed_whole(rng, 15, 17);
	neck->heel = (struct heel_spec){ .kind = HEEL_FLAT,
					 .height_mm = seed_between(rng, 18.0, 21.0),
					 .slab_length_mm = beyond_mm - 5.0,
					 .beyond_joint_mm = beyond_mm,
					 .ease_length_mm = seed_between(rng, 25.0, 40.0) };
	any_stations(neck, neck->joint_fret - 4.0, rng);
}

static void any_set_heel(struct neck_spec *neck, const gsl_rng *rng)
{
	double joint_mm, width_mm;

	neck->joint_fret = (double)seed_whole(rng, 15, 17);
	joint_mm = taper_fret_x_mm(neck->scale_length_mm, neck->joint_fret);
	width_mm = 2.0 * taper_wood_half_width_mm(neck, joint_mm);
	neck->heel = (struct heel_spec){ .kind = HEEL_SET,
					 .height_mm = seed_between(rng, 22.0, 36.0),
					 .beyond_joint_mm = seed_between(rng, 40.0, 70.0),
					 .ease_length_mm = seed_between(rng, 45.0, 60.0),
					 .tenon_width_mm = width_mm - seed_between(rng, 0.0, 12.0),
					 .shoulder_length_mm = seed_between(rng, 20.0, 30.0) };
	any_stations(neck, neck->joint_fret - 5.0, rng);
}

static void any_peghead(struct neck_spec *neck, const gsl_rng *rng)
{
	struct peghead_spec *peghead = &neck->peghead;

	peghead->angle_rad = one_in(rng, 4) ? 0.0
					    : units_rad_from_deg(seed_between(rng, 10.0, 17.0));
	peghead->thickness_mm = seed_between(rng, 14.0, 16.0);
	peghead->width_mm = seed_between(rng, 60.0, 84.0);
	peghead->transition_mm = seed_between(rng, 28.0, 45.0);
	peghead->flare_mm = seed_between(rng, 15.0, 25.0);
	peghead->length_mm = peghead->flare_mm + 20.0;
	peghead->volute_height_mm = one_in(rng, 2) ? seed_between(rng, 0.5, 3.0) : 0.0;
	peghead->volute_length_mm = peghead->transition_mm * seed_between(rng, 0.5, 0.95);
}

static void any_neck(struct neck_spec *neck, const gsl_rng *rng)
{
	neck->hand = one_in(rng, 2) ? HAND_LEFT : HAND_RIGHT;
	neck->scale_length_mm = seed_between(rng, 610.0, 662.0);
	neck->fret_count = 22;
	neck->nut_width_mm = seed_between(rng, 41.0, 48.0);
	neck->width_fret = 12;
	neck->width_mm = neck->nut_width_mm + seed_between(rng, 6.0, 11.0);
	neck->side_margin_mm = one_in(rng, 2) ? seed_between(rng, 0.0, 0.4) : 0.0;
	neck->fretboard_thickness_mm = seed_between(rng, 5.0, 7.0);
	neck->over_fretboard = one_in(rng, 2);
	neck->channel.width_mm = 0.0;
	if (one_in(rng, 5))
		any_set_heel(neck, rng);
	else if (one_in(rng, 4))
		any_flat_heel(neck, rng);
	else
		any_block_heel(neck, rng);
	any_peghead(neck, rng);
	double most_mm = seed_between(rng, 0.4, 1.5);
	neck->allowance = (struct allowance_spec){ .back_mm = most_mm,
						   .sides_mm = seed_between(rng, 0.3, most_mm),
						   .heel_cheeks_mm = seed_between(rng, 0.4, 1.2),
						   .transitions_mm = most_mm,
						   .side_height_mm = seed_between(rng, 2.0, 5.0) };
}

static void add_point(struct outline *outline, double x_mm, double value_mm)
{
	outline->x_mm[outline->count] = x_mm;
	outline->value_mm[outline->count++] = value_mm;
}

static double end_of(const struct neck_spec *neck)
{
	return taper_fret_x_mm(neck->scale_length_mm, neck->joint_fret) +
	       neck->heel.beyond_joint_mm;
}

/* The most stock that may stand anywhere, mm. */
static double stock_of(const struct neck_spec *neck)
{
	return fmax(neck->allowance.back_mm, neck->allowance.heel_cheeks_mm);
}

/* Top of the shaft's part of the blank, mm. */
static double shaft_top(const struct neck_spec *neck, const gsl_rng *rng)
{
	double board_mm = neck->over_fretboard ? neck->fretboard_thickness_mm : 0.0;
	double wood_mm = neck->station[neck->station_count - 1].thickness_mm - board_mm;
	double top = wood_mm + neck->peghead.volute_height_mm + stock_of(neck) +
		     seed_between(rng, 1.0, 6.0);

	return neck->heel.kind != HEEL_BLOCK
		       ? fmax(top, neck->heel.height_mm + stock_of(neck) + 1.0)
		       : top;
}

/* Sawn parallel to the peghead's back up to the shaft's level top; a block for
 * the heel glued on. */
static void any_top(struct outline *top, const struct neck_spec *neck, const gsl_rng *rng)
{
	double slope = tan(neck->peghead.angle_rad), end = end_of(neck);
	double back_mm = neck->peghead.thickness_mm / cos(neck->peghead.angle_rad);
	double level = shaft_top(neck, rng), spare = stock_of(neck) + seed_between(rng, 0.5, 4.0);
	double kink = slope > 0.0 ? fmin((back_mm + spare - level) / slope, -1.0) : BLANK_FROM_MM;

	/* where a steep back would meet the shaft behind the nut it goes on to there */
	level = fmax(level, back_mm + spare + neck->peghead.volute_height_mm - kink * slope);
	top->count = 0;
	if (slope > 0.0)
		add_point(top, BLANK_FROM_MM, back_mm + spare - BLANK_FROM_MM * slope);
	add_point(top, kink, level);
	if (neck->heel.kind == HEEL_BLOCK) {
		double block = end - neck->heel.cap_length_mm - seed_between(rng, 38.0, 44.0);
		add_point(top, block, level);
		level = neck->heel.height_mm + stock_of(neck) + seed_between(rng, 1.0, 4.0);
		add_point(top, block, level);
	}
	add_point(top, end, level);
}

/* Either as wide as the peghead all along or sawn to a taper behind it. */
static void any_half_width(struct outline *width, const struct neck_spec *neck, const gsl_rng *rng)
{
	double end = end_of(neck), spare = neck->allowance.sides_mm + seed_between(rng, 0.5, 4.0);
	double peghead = neck->peghead.width_mm / 2.0 + spare;
	double transition = neck->peghead.transition_mm;

	width->count = 0;
	add_point(width, BLANK_FROM_MM, peghead);
	if (one_in(rng, 4)) {
		add_point(width, end, peghead);
		return;
	}
	add_point(width, 5.0 - transition, peghead);
	add_point(width, 6.0 - transition, taper_wood_half_width_mm(neck, 0.0) + spare + 4.0);
	add_point(width, end, taper_wood_half_width_mm(neck, end) + spare);
}

static void any_blank(struct blank *blank, const struct neck_spec *neck, const gsl_rng *rng)
{
	double slope = tan(neck->peghead.angle_rad);

	any_top(&blank->top, neck, rng);
	any_half_width(&blank->half_width, neck, rng);
	blank->bottom.count = 0;
	add_point(&blank->bottom, BLANK_FROM_MM, -BLANK_FROM_MM * slope);
	add_point(&blank->bottom, 0.0, 0.0);
	add_point(&blank->bottom, end_of(neck), 0.0);
}

/* From a slender ball of 6 mm to a stout one of 12.7; they reach far. */
static void any_cutter(struct cutter *cutter, const gsl_rng *rng)
{
	static const double ball[] = { 6, 8, 10, 12, 12.7, 12.7 };
	double diameter = ball[seed_whole(rng, 0, 5)];

	(void)snprintf(cutter->name, sizeof cutter->name, "ball %g, long reach", diameter);
	cutter->ball_diameter_mm = cutter->shank_diameter_mm = diameter;
	cutter->flute_length_mm = diameter * seed_between(rng, 3.5, 5.0);
	cutter->stickout_mm = cutter->flute_length_mm + seed_between(rng, 30.0, 55.0);
	cutter->holder_diameter_mm = diameter < 9.0 ? 20.0 : 42.0;
	cutter->depth_limit_mm = diameter * seed_between(rng, 0.33, 0.48);
	cutter->stepover_limit_mm = diameter * seed_between(rng, 0.38, 0.5);
	cutter->ramp_angle_rad = units_rad_from_deg(seed_between(rng, 5.0, 8.0));
	cutter->chip_load_mm = diameter * 0.01;
	cutter->plunge_feed_mm_per_min = seed_between(rng, 400.0, 1000.0);
}

/* Now and then a second, smaller ball follows. */
static void any_later_cutter(struct job *job, const gsl_rng *rng)
{
	struct cutter *first = &job->cutter[0], *second = &job->cutter[1];
	double diameter = first->ball_diameter_mm * seed_between(rng, 0.4, 0.7);

	job->cutter_count = 1;
	if (!one_in(rng, 4))
		return;
	job->cutter_count = 2;
	*second = *first;
	(void)snprintf(second->name, sizeof second->name, "ball %.2f, to follow", diameter);
	second->ball_diameter_mm = second->shank_diameter_mm = diameter;
	second->depth_limit_mm = diameter * seed_between(rng, 0.33, 0.48);
	second->stepover_limit_mm = diameter * seed_between(rng, 0.38, 0.5);
	job->neck.heel.nose_radius_mm *= 0.6;
}

static void any_machine(struct machine *machine, const gsl_rng *rng)
{
	static const double travel[] = { 900, 400, 200 };

	for (int axis = 0; axis < AXIS_COUNT; axis++)
		machine->travel_mm[axis] = travel[axis];
	machine->spindle_power_w = seed_between(rng, 300.0, 1500.0);
	machine->program_unit = one_in(rng, 3) ? UNIT_INCH : UNIT_MM;
	machine->decimals = machine->program_unit == UNIT_INCH ? 4 : 3;
}

static void any_fixture(struct job *job, const gsl_rng *rng)
{
	struct fixture *fixture = &job->fixture;
	double end = end_of(&job->neck);

	fixture->riser_width_mm = job->neck.nut_width_mm - 5.0;
	fixture->riser_from_mm = 3.0;
	fixture->riser_to_mm = end - 3.0;
	fixture->keep_out_clearance_mm = 1.5;
	fixture->keep_out_count = seed_whole(rng, 0, 1);
	fixture->hold[0].x_to_mm = end - 5.0;
	fixture->work_zero_mm = vec3_make(seed_between(rng, -60, 60), seed_between(rng, -30, 30),
					  seed_between(rng, -15, 100));
}

static void widen(struct outline *outline, double by_mm, double from_mm)
{
	for (size_t i = 0; i < outline->count; i++)
		outline->value_mm[i] += outline->x_mm[i] >= from_mm ? by_mm : 0.0;
}

/* One in three leaves rails of a wide board, which may be sawn narrow at the
 * peghead, so that tabs must hold them; one in five lies on a low riser or none. */
static void any_waste(struct job *job, const gsl_rng *rng)
{
	struct blank *blank = &job->blank;
	double by_mm = seed_between(rng, 32.0, 45.0);
	double from_mm = one_in(rng, 2) ? 6.0 - job->neck.peghead.transition_mm : -INFINITY;

	job->carve.waste = (struct waste_spec){ .tab_width_mm = seed_between(rng, 5.0, 12.0),
						.tab_height_mm = seed_between(rng, 2.0, 5.0) };
	job->carve.cove_limit_mm = 100.0;
	if (one_in(rng, 5))
		job->fixture.riser_height_mm = one_in(rng, 2) ? 0.0 : seed_between(rng, 0.5, 7.0);
	if (!one_in(rng, 3))
		return;
	job->carve.waste.kind = WASTE_RAILS;
	widen(&blank->half_width, by_mm, from_mm);
	for (int side = 0; side < BLANK_SIDES; side++)
		widen(&blank->side[side], by_mm, from_mm);
}

/* Every other job asks for ways and directions: the whole neck for one, or each
 * stretch for its own. */
static void any_cutting(struct job *job, const gsl_rng *rng)
{
	bool asks = one_in(rng, 2), alike = one_in(rng, 2);

	for (int i = 0; i < STRETCH_COUNT && asks; i++)
		job->cutting[i] = i > 0 && alike ? job->cutting[0]
						 : (struct cutting){
							   (enum cut_lines)seed_whole(rng, 0, 1),
							   (enum cut_way)seed_whole(rng, 0, 2),
							   (enum cut_grain)seed_whole(rng, 0, 1),
						   };
}

/* Screws in the waste or beyond it, as near to the cut as they may come or
 * farther; each holds what it goes through. */
static void any_screws(struct job *job, const gsl_rng *rng)
{
	struct fixture *fixture = &job->fixture;
	size_t count = one_in(rng, 2) ? 0 : seed_whole(rng, 1, 3);

	for (size_t i = 0; i < count; i++) {
		double radius = seed_between(rng, 2.0, 8.0);
		double x = seed_between(rng, 30.0, end_of(&job->neck) - 10.0);
		double y = taper_wood_half_width_mm(&job->neck, x + 20.0) + stock_of(&job->neck) +
			   2.0 * job_most_radius_mm(job) + fixture->keep_out_clearance_mm + radius +
			   seed_between(rng, 0.0, 12.0);
		double sign = one_in(rng, 2) ? -1.0 : 1.0;
		struct place screw = { "screw",
				       x - radius,
				       x + radius,
				       sign * y - radius,
				       sign * y + radius,
				       seed_between(rng, -8.0, 30.0),
				       one_in(rng, 5) ? PLACE_BOX : PLACE_CYLINDER };
		fixture->keep_out[fixture->keep_out_count++] = screw;
		/* all the waste that stays around it counts as held */
		double around = job_most_radius_mm(job) + fixture->keep_out_clearance_mm + 1.0;
		screw.shape = PLACE_BOX;
		screw.x_from_mm -= around;
		screw.x_to_mm += around;
		screw.y_from_mm -= around;
		screw.y_to_mm += around;
		fixture->hold[fixture->hold_count++] = screw;
	}
}

/* Now and then the fretboard is on, as near as the stock lets the ball come to
 * it or less. */
static void any_fretboard(struct job *job, const gsl_rng *rng)
{
	const struct neck_spec *neck = &job->neck;
	double room = fmin(neck->allowance.sides_mm, neck->allowance.heel_cheeks_mm) -
		      neck->side_margin_mm;
	double share = one_in(rng, 2) ? 1.0 : seed_between(rng, 0.2, 1.0);
	double overhang = seed_between(rng, 0.0, 15.0), shim = seed_between(rng, 0.0, 2.0);

	if (one_in(rng, 3) && room > 0.1)
		job->fixture.fretboard =
			(struct glued_fretboard){ true, room * share, overhang, shim };
}

/* Now and then a joint stands out of a block heel's end, within its cap. */
static void any_joint(struct neck_spec *neck, const gsl_rng *rng)
{
	double length = seed_between(rng, 8.0, 25.0), width = seed_between(rng, 0.4, 0.95);
	double top = seed_between(rng, 0.4, 0.95);

	if (one_in(rng, 3) && neck->heel.kind == HEEL_BLOCK)
		neck->heel.joint = (struct joint_spec){ JOINT_DOVETAIL, length,
							neck->heel.cap_width_back_mm * width, 0.0,
							neck->heel.height_mm * top };
}

/* What is kept out of comes from numbers of its own, drawn from the neck's, so
 * that it changes nothing else about a job of some seed. */
static void any_keep_outs(struct job *job)
{
	gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);

	if (!rng)
		abort();
	gsl_rng_set(rng, (unsigned long)(job->neck.scale_length_mm * 1e6));
	any_screws(job, rng);
	any_fretboard(job, rng);
	any_joint(&job->neck, rng);
	gsl_rng_free(rng);
}

/* One in three cutters is too short for a block heel; some holders have more
 * parts above them. */
static void any_reach(struct cutter *cutter, const gsl_rng *rng)
{
	if (one_in(rng, 3))
		cutter->stickout_mm = cutter->flute_length_mm + seed_between(rng, 1.0, 25.0);
	cutter->holder_length_mm = seed_between(rng, 15.0, 40.0);
	cutter->part_count = seed_whole(rng, 0, 2);
	for (size_t i = 0; i < cutter->part_count; i++)
		cutter->part[i] = (struct holder_part){ cutter->holder_diameter_mm +
								seed_between(rng, -5.0, 50.0),
							seed_between(rng, 10.0, 40.0) };
}

void any_job(struct job *out, const gsl_rng *rng)
{
	static const double scallop[] = { 0.12, 0.16, 0.2 };

	*out = sample_steel_job();
	any_neck(&out->neck, rng);
	any_blank(&out->blank, &out->neck, rng);
	any_cutter(&out->cutter[0], rng);
	any_machine(&out->machine, rng);
	any_fixture(out, rng);
	any_later_cutter(out, rng);
	out->carve.from_mm = -out->neck.peghead.transition_mm - seed_between(rng, 5.0, 18.0);
	out->carve.to_mm = end_of(&out->neck);
	out->carve.scallop_limit_mm = scallop[seed_whole(rng, 0, 2)];
	out->carve.cell_mm = 0.5;
	any_waste(out, rng);
	any_cutting(out, rng);
	any_keep_outs(out);
	for (size_t i = 0; i < out->cutter_count; i++)
		any_reach(&out->cutter[i], rng);
}

void any_job_print(const struct job *job)
{
	const struct neck_spec *neck = &job->neck;

	(void)printf("  %s heel %.1f mm, stickout %.1f mm, peghead %.1f deg, volute %.1f mm, %zu "
		     "stations, stock %.2f/%.2f/%.2f mm, ball %.1f mm, bites %.2f mm, blank of %zu "
		     "and %zu points, scallop %.2f mm, %s, riser %.1f mm\n",
		     heel_kind_name(neck->heel.kind), neck->heel.height_mm,
		     job->cutter[0].stickout_mm, units_deg_from_rad(neck->peghead.angle_rad),
		     neck->peghead.volute_height_mm, neck->station_count, neck->allowance.back_mm,
		     neck->allowance.sides_mm, neck->allowance.heel_cheeks_mm,
		     job->cutter[0].ball_diameter_mm, job->cutter[0].depth_limit_mm,
		     job->blank.top.count, job->blank.half_width.count, job->carve.scallop_limit_mm,
		     job->carve.waste.kind == WASTE_RAILS ? "rails" : "cleared",
		     job->fixture.riser_height_mm);
	(void)printf("  %zu keep-outs, fretboard %s, joint %s\n", job->fixture.keep_out_count,
		     job->fixture.fretboard.glued ? "glued on" : "off",
		     joint_name(neck->heel.joint.kind));
	for (int i = 0; i < STRETCH_COUNT; i++)
		(void)printf("  lines %d way %d grain %d;", (int)job->cutting[i].lines,
			     (int)job->cutting[i].way, (int)job->cutting[i].grain);
	(void)printf("\n");
	(void)fflush(stdout);
}
