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
#include "support/any_blank.h"
#include "support/any_neck.h"
#include "support/sample_job.h"
#include "support/seed.h"

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
	if (!seed_one_in(rng, 4))
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
	machine->program_unit = seed_one_in(rng, 3) ? UNIT_INCH : UNIT_MM;
	machine->decimals = machine->program_unit == UNIT_INCH ? 4 : 3;
}

static void any_fixture(struct job *job, const gsl_rng *rng)
{
	struct fixture *fixture = &job->fixture;
	double end = any_neck_end_mm(&job->neck);

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
	double from_mm = seed_one_in(rng, 2) ? 6.0 - job->neck.peghead.transition_mm : -INFINITY;

	job->carve.waste = (struct waste_spec){ .tab_width_mm = seed_between(rng, 5.0, 12.0),
						.tab_height_mm = seed_between(rng, 2.0, 5.0) };
	job->carve.cove_limit_mm = 100.0;
	if (seed_one_in(rng, 5))
		job->fixture.riser_height_mm = seed_one_in(rng, 2) ? 0.0
								   : seed_between(rng, 0.5, 7.0);
	if (!seed_one_in(rng, 3))
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
	bool asks = seed_one_in(rng, 2), alike = seed_one_in(rng, 2);

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
	size_t count = seed_one_in(rng, 2) ? 0 : seed_whole(rng, 1, 3);

	for (size_t i = 0; i < count; i++) {
		double radius = seed_between(rng, 2.0, 8.0);
		double x = seed_between(rng, 30.0, any_neck_end_mm(&job->neck) - 10.0);
		double y = taper_wood_half_width_mm(&job->neck, x + 20.0) +
			   any_neck_stock_mm(&job->neck) + 2.0 * job_most_radius_mm(job) +
			   fixture->keep_out_clearance_mm + radius + seed_between(rng, 0.0, 12.0);
		double sign = seed_one_in(rng, 2) ? -1.0 : 1.0;
		struct place screw = { "screw",
				       x - radius,
				       x + radius,
				       sign * y - radius,
				       sign * y + radius,
				       seed_between(rng, -8.0, 30.0),
				       seed_one_in(rng, 5) ? PLACE_BOX : PLACE_CYLINDER };
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
	double share = seed_one_in(rng, 2) ? 1.0 : seed_between(rng, 0.2, 1.0);
	double overhang = seed_between(rng, 0.0, 15.0), shim = seed_between(rng, 0.0, 2.0);

	if (seed_one_in(rng, 3) && room > 0.1)
		job->fixture.fretboard =
			(struct glued_fretboard){ true, room * share, overhang, shim };
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
	any_neck_joint(&job->neck, rng);
	gsl_rng_free(rng);
}

/* One in three cutters is too short for a block heel; some holders have more
 * parts above them. */
static void any_reach(struct cutter *cutter, const gsl_rng *rng)
{
	if (seed_one_in(rng, 3))
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
	out->carve.to_mm = any_neck_end_mm(&out->neck);
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
