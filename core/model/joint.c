/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/joint.h"

#include <math.h>
#include <stddef.h>

#include "model/taper.h"

bool joint_keep_out(struct joint_box *out, const struct neck_spec *spec)
{
	const struct joint_spec *joint = &spec->heel.joint;
	double end_mm = taper_neck_end_mm(spec);

	*out = (struct joint_box){ 0 };
	if (joint->kind == JOINT_NONE)
		return false;
	*out = (struct joint_box){ .x_from_mm = end_mm,
				   .x_to_mm = end_mm + joint->length_mm,
				   .y_from_mm = -joint->width_mm / 2.0,
				   .y_to_mm = joint->width_mm / 2.0,
				   .z_from_mm = joint->bottom_mm,
				   .z_to_mm = joint->top_mm };
	return true;
}

const char *joint_name(enum joint_kind kind)
{
	static const char *const names[JOINT_KIND_COUNT] = { "none", "dovetail", "tenon", "bolts" };

	return (int)kind >= 0 && kind < JOINT_KIND_COUNT ? names[kind] : "?";
}

static enum fault check_lengths(const struct joint_spec *joint, struct fault_list *faults)
{
	const struct {
		const char *setting;
		double value_mm;
	} lengths[] = { { "heel.joint.length", joint->length_mm },
			{ "heel.joint.width", joint->width_mm },
			{ "heel.joint.top", joint->top_mm } };
	enum fault first = FAULT_NONE;

	for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++) {
		if (lengths[i].value_mm > 0.0 && isfinite(lengths[i].value_mm))
			continue;
		enum fault fault = fault_add(faults, FAULT_SETTING, NULL, 0, lengths[i].setting,
					     "It is %.4g mm; it must be more than 0.",
					     lengths[i].value_mm);
		first = first ? first : fault;
	}
	return first;
}

static enum fault check_box(const struct neck_spec *spec, struct fault_list *faults)
{
	const struct joint_spec *joint = &spec->heel.joint;
	double widest_mm = 2.0 * taper_wood_half_width_mm(spec, taper_neck_end_mm(spec));
	enum fault first = FAULT_NONE, fault;

	if (joint->width_mm > widest_mm)
		first = fault_add(faults, FAULT_GEOMETRY, NULL, 0, "heel.joint.width",
				  "The %s is %.4g mm wide, but the neck it stands on only %.4g mm.",
				  joint_name(joint->kind), joint->width_mm, widest_mm);
	if (joint->top_mm > spec->heel.height_mm) {
		fault = fault_add(faults, FAULT_GEOMETRY, NULL, 0, "heel.joint.top",
				  "The %s reaches %.4g mm above the gluing face, but the heel "
				  "only %.4g mm.",
				  joint_name(joint->kind), joint->top_mm, spec->heel.height_mm);
		first = first ? first : fault;
	}
	if (!(joint->bottom_mm >= 0.0 && joint->bottom_mm < joint->top_mm)) {
		fault = fault_add(faults, FAULT_GEOMETRY, NULL, 0, "heel.joint.bottom",
				  "The %s begins %.4g mm above the gluing face; that can be 0 to "
				  "less than its top, %.4g mm.",
				  joint_name(joint->kind), joint->bottom_mm, joint->top_mm);
		first = first ? first : fault;
	}
	return first;
}

enum fault joint_check(const struct neck_spec *spec, struct fault_list *faults)
{
	const struct joint_spec *joint = &spec->heel.joint;

	if (joint->kind == JOINT_NONE)
		return FAULT_NONE;
	if ((int)joint->kind < 0 || joint->kind >= JOINT_KIND_COUNT)
		return fault_add(faults, FAULT_SETTING, NULL, 0, "heel.joint.kind",
				 "There is no such joint.");
	enum fault fault = check_lengths(joint, faults);
	return fault ? fault : check_box(spec, faults);
}
