/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far apart levels lie, and the lines on them. */
#ifndef NECKHEW_PATH_LEVELS_H
#define NECKHEW_PATH_LEVELS_H

#include "base/fault.h"
#include "machine/cutter.h"
#include "motion/pass_why.h"

struct levels {
	double radius_mm; /* of the ball */
	double stepover_mm, drop_mm;
	enum step_cap step_cap; /* what sets the stepover */
};

/* What a level misses is worth another go where it stands so much above a
 * scallop, mm. */
#define LEVELS_LEFTOVER_MM 0.25
/* A level closer than this to the next is left out, mm. */
#define LEVELS_LEAST_MM 0.4

/* Stepover and drop for a cutter: the drop and the scallop left by the level
 * above must stay within one bite. FAULT_PLAN when that leaves no level. */
enum fault levels_choose(struct levels *out, const struct cutter *cutter,
			 struct fault_list *faults);

/* z of the level below z, mm, and what sets it. Over the gluing face no level
 * may leave the waste beside the neck hanging by ridges on a skin too thin to
 * hold: the level above it is cut a little higher, so that the next goes right
 * through, ridges and all, or at least leaves nothing thick enough to come off
 * as a strip. The last is the floor. */
double levels_next(const struct levels *levels, double z_mm, double floor_mm, enum level_cap *cap);

#endif
