/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/any_neck.h"

#include <math.h>
#include <stdbool.h>

#include "base/units.h"
#include "model/taper.h"
#include "support/any_outline.h"
#include "support/seed.h"

static struct section_spec any_section(const gsl_rng *rng)
{
	struct section_spec spec = { .family = (enum section_family)seed_whole(rng, 0, 4) };

	if (spec.family == SECTION_V)
		spec.apex_radius_mm = seed_between(rng, 3.0, 8.0);
	if (spec.family == SECTION_C && seed_one_in(rng, 2))
		spec.fullness = seed_between(rng, 2.0, 2.5);
	if (spec.family == SECTION_U && seed_one_in(rng, 2))
		spec.fullness = seed_between(rng, 2.6, 4.0);
	if (spec.family == SECTION_D && seed_one_in(rng, 2))
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
	bool uneven = seed_one_in(rng, 3), alike = seed_one_in(rng, 3);

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
		.hollow_rim_mm = seed_one_in(rng, 2) ? seed_between(rng, 2.0, 6.0) : 0.0,
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

	peghead->angle_rad =
		seed_one_in(rng, 4) ? 0.0 : units_rad_from_deg(seed_between(rng, 10.0, 17.0));
	peghead->thickness_mm = seed_between(rng, 14.0, 16.0);
	peghead->width_mm = seed_between(rng, 60.0, 84.0);
	peghead->transition_mm = seed_between(rng, 28.0, 45.0);
	peghead->flare_mm = seed_between(rng, 15.0, 25.0);
	peghead->length_mm = peghead->flare_mm + 20.0;
	peghead->volute_height_mm = seed_one_in(rng, 2) ? seed_between(rng, 0.5, 3.0) : 0.0;
	peghead->volute_length_mm = peghead->transition_mm * seed_between(rng, 0.5, 0.95);
}

void any_neck(struct neck_spec *neck, const gsl_rng *rng)
{
	neck->hand = seed_one_in(rng, 2) ? HAND_LEFT : HAND_RIGHT;
	neck->scale_length_mm = seed_between(rng, 610.0, 662.0);
	neck->fret_count = 22;
	neck->nut_width_mm = seed_between(rng, 41.0, 48.0);
	neck->width_fret = 12;
	neck->width_mm = neck->nut_width_mm + seed_between(rng, 6.0, 11.0);
	neck->side_margin_mm = seed_one_in(rng, 2) ? seed_between(rng, 0.0, 0.4) : 0.0;
	neck->fretboard_thickness_mm = seed_between(rng, 5.0, 7.0);
	neck->over_fretboard = seed_one_in(rng, 2);
	neck->channel.width_mm = 0.0;
	if (seed_one_in(rng, 5))
		any_set_heel(neck, rng);
	else if (seed_one_in(rng, 4))
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

void any_neck_joint(struct neck_spec *neck, const gsl_rng *rng)
{
	double length = seed_between(rng, 8.0, 25.0), width = seed_between(rng, 0.4, 0.95);
	double top = seed_between(rng, 0.4, 0.95);

	if (seed_one_in(rng, 3) && neck->heel.kind == HEEL_BLOCK)
		neck->heel.joint = (struct joint_spec){ JOINT_DOVETAIL, length,
							neck->heel.cap_width_back_mm * width, 0.0,
							neck->heel.height_mm * top };
}

double any_neck_end_mm(const struct neck_spec *neck)
{
	return taper_fret_x_mm(neck->scale_length_mm, neck->joint_fret) +
	       neck->heel.beyond_joint_mm;
}

double any_neck_stock_mm(const struct neck_spec *neck)
{
	return fmax(neck->allowance.back_mm, neck->allowance.heel_cheeks_mm);
}
