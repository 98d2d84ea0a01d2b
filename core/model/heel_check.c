/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/heel_check.h"

#include <math.h>
#include <stddef.h>

#include "base/units.h"
#include "model/cap_plan.h"
#include "model/heel.h"
#include "model/joint.h"
#include "model/taper.h"

/* Steepest nose that a ball can follow from above with room for its chords. */
#define STEEPEST_NOSE_DEG 85.0
/* Least of a cap's length that is left for its straight sides, mm. */
#define LEAST_SIDE_MM 1.0

/* Collects the first code while every check runs. */
struct check {
	const struct neck_spec *spec;
	const struct heel_spec *heel;
	struct fault_list *faults;
	enum fault first;
};

static void check_positive(struct check *check, const char *setting, double value_mm)
{
	fault_keep(&check->first, fault_unless_positive(check->faults, setting, value_mm));
}

static void check_hollow(struct check *check)
{
	const struct neck_spec *spec = check->spec;
	const struct heel_spec *heel = check->heel;
	double widest_mm = fmax(heel->cap_width_front_mm, heel->cap_width_back_mm);
	double front_mm = taper_neck_end_mm(spec) - heel->cap_length_mm;
	double half_mm = taper_wood_half_width_mm(spec, front_mm);

	if (!(heel->hollow_mm >= 0.0))
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "heel.hollow",
				     "The hollow is %.4g mm; it cannot be negative.",
				     heel->hollow_mm));
	if (!(heel->hollow_rim_mm >= 0.0 && heel->hollow_rim_mm <= heel->height_mm / 4.0)) {
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "heel.hollow_rim",
				     "The rims are %.4g mm high; they can be 0 to a quarter of "
				     "the heel's height, %.4g mm.",
				     heel->hollow_rim_mm, heel->height_mm / 4.0));
		return;
	}
	double most_mm = heel_most_hollow_mm(heel, half_mm, widest_mm / 2.0);
	if (heel->hollow_mm > most_mm || half_mm < widest_mm / 2.0)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_GEOMETRY, NULL, 0, "heel.hollow",
				     "With cheeks that close in from %.4g to %.4g mm, a hollow of "
				     "%.4g mm would reach under the cap where no cutter from "
				     "above can go; it can be up to %.4g mm.",
				     2.0 * half_mm, widest_mm, heel->hollow_mm, most_mm));
}

/* The curve must leave room for the sides behind it, make a point if it is to
 * be one, and not have to bend inward to meet sides that open. */
static void check_cap_curve(struct check *check)
{
	const struct heel_spec *heel = check->heel;
	struct cap_plan_curve plan = cap_plan_curve(heel);
	double sides_mm = heel->cap_length_mm - plan.length_mm, half = heel->cap_width_front_mm / 2;
	double opening = (heel->cap_width_back_mm / 2.0 - half) / sides_mm;

	if (heel->cap_plan == CAP_SQUARE || check->first != FAULT_NONE)
		return;
	if (!(heel->cap_curve_mm >= 0.0) || sides_mm < LEAST_SIDE_MM)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_GEOMETRY, NULL, 0, "heel.cap_curve",
				     "The cap's front curve is %.4g mm long; a cap %.4g mm long "
				     "has room for %.4g mm.",
				     heel->cap_curve_mm, heel->cap_length_mm,
				     heel->cap_length_mm - LEAST_SIDE_MM));
	else if (heel->cap_plan == CAP_POINTED && plan.aspect < CAP_POINT_LEAST)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_GEOMETRY, NULL, 0, "heel.cap_curve",
				     "A curve %.4g mm long makes no point on a cap %.4g mm wide; "
				     "it takes at least %.4g mm (and a longer cap, if need be).",
				     plan.length_mm, 2.0 * half, CAP_POINT_LEAST * half));
	else if (opening * plan.length_mm > half)
		fault_keep(
			&check->first,
			fault_add(check->faults, FAULT_GEOMETRY, NULL, 0, "heel.cap_curve",
				  "From %.4g to %.4g mm the cap's sides open so fast that the "
				  "front's curve would have to bend inward; make the widths more "
				  "alike or the curve shorter.",
				  2.0 * half, heel->cap_width_back_mm));
}

static void check_block(struct check *check)
{
	const struct heel_spec *heel = check->heel;

	check_positive(check, "heel.cap_length", heel->cap_length_mm);
	check_positive(check, "heel.cap_width_front", heel->cap_width_front_mm);
	check_positive(check, "heel.cap_width_back", heel->cap_width_back_mm);
	check_positive(check, "heel.nose_radius", heel->nose_radius_mm);
	check_hollow(check);
	if ((int)heel->cap_plan < 0 || heel->cap_plan >= CAP_PLAN_COUNT)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "heel.cap_plan",
				     "There is no such plan of a cap."));
	check_cap_curve(check);
	if (!(heel->nose_angle_rad > units_rad_from_deg(20.0)) ||
	    heel->nose_angle_rad > units_rad_from_deg(STEEPEST_NOSE_DEG))
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "heel.nose_angle_deg",
				     "The nose angle is %.4g degrees; it can be 20 to %.4g.",
				     units_deg_from_rad(heel->nose_angle_rad), STEEPEST_NOSE_DEG));
}

static void check_flat(struct check *check)
{
	check_positive(check, "heel.slab_length", check->heel->slab_length_mm);
	check_positive(check, "heel.ease_length", check->heel->ease_length_mm);
}

static void check_set(struct check *check)
{
	const struct neck_spec *spec = check->spec;
	const struct heel_spec *heel = check->heel;
	double joint_mm = taper_fret_x_mm(spec->scale_length_mm, spec->joint_fret);
	double wood_mm = 2.0 * taper_wood_half_width_mm(spec, joint_mm);

	check_positive(check, "heel.beyond_joint", heel->beyond_joint_mm);
	check_positive(check, "heel.tenon_width", heel->tenon_width_mm);
	check_positive(check, "heel.shoulder_length", heel->shoulder_length_mm);
	check_positive(check, "heel.ease_length", heel->ease_length_mm);
	if (heel->tenon_width_mm > wood_mm)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_GEOMETRY, NULL, 0, "heel.tenon_width",
				     "The tenon is %.4g mm wide, the wood at the body joint only "
				     "%.4g mm.",
				     heel->tenon_width_mm, wood_mm));
	if (heel->shoulder_length_mm > heel->beyond_joint_mm)
		fault_keep(
			&check->first,
			fault_add(check->faults, FAULT_GEOMETRY, NULL, 0, "heel.shoulder_length",
				  "The sides close in over %.4g mm, but the tenon is only %.4g mm "
				  "long.",
				  heel->shoulder_length_mm, heel->beyond_joint_mm));
}

enum fault heel_check(const struct neck_spec *spec, struct fault_list *faults)
{
	static void (*const checks[HEEL_KIND_COUNT])(struct check *) = {
		[HEEL_BLOCK] = check_block, [HEEL_FLAT] = check_flat, [HEEL_SET] = check_set
	};
	struct check check = { .spec = spec, .heel = &spec->heel, .faults = faults };

	if ((int)spec->heel.kind < 0 || spec->heel.kind >= HEEL_KIND_COUNT)
		return fault_add(faults, FAULT_SETTING, NULL, 0, "heel.kind",
				 "There is no such heel.");
	checks[spec->heel.kind](&check);
	if (check.first == FAULT_NONE)
		check.first = joint_check(spec, faults);
	return check.first;
}
