/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The joint that the body end of the blank carries (dovetail, tenon, bolts): a
 * box that no cutter may enter, in neck coordinates. */
#ifndef NECKHEW_MODEL_JOINT_H
#define NECKHEW_MODEL_JOINT_H

#include <stdbool.h>

#include "base/fault.h"
#include "model/neck_spec.h"

/* mm; z counts from the gluing face. */
struct joint_box {
	double x_from_mm, x_to_mm, y_from_mm, y_to_mm, z_from_mm, z_to_mm;
};

/* The box around the joint, from the neck's end on; as it is, without any
 * clearance. False, and a box of nothing, when the neck has no joint. */
bool joint_keep_out(struct joint_box *out, const struct neck_spec *spec);

/* The joint in words, as in "dovetail"; "none" without one. */
const char *joint_name(enum joint_kind kind);

/* Whether the joint's figures fit the heel they stand on. Adds every
 * disagreement found and returns the first code. */
enum fault joint_check(const struct neck_spec *spec, struct fault_list *faults);

#endif
