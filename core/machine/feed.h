/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The feed for a cut, and what limits it. */
#ifndef NECKHEW_MACHINE_FEED_H
#define NECKHEW_MACHINE_FEED_H

#include "machine/cutter.h"
#include "machine/machine.h"
#include "machine/wood.h"

enum feed_cap {
	FEED_BY_CHIP_LOAD, /* nothing else bites */
	FEED_BY_AXIS, /* an axis is no faster */
	FEED_BY_POWER, /* the spindle has no more */
	FEED_BY_WORD /* the control reads no larger F */
};

struct feed {
	double mm_per_min;
	double chip_load_mm_per_min; /* what chip load alone would give */
	double power_w; /* drawn at mm_per_min */
	enum feed_cap cap;
};

/* Words such as "spindle power". */
const char *feed_cap_name(enum feed_cap cap);

/* Chip-thinning factor (>= 1) of a ball end cutting `depth_mm` deep with a
 * `stepover_mm` wide strip; capped so that thin cuts are not overfed. */
double feed_chip_thinning(double ball_diameter_mm, double depth_mm, double stepover_mm);

/* Section (mm2) of the strip a ball takes at that depth and stepover, never
 * less than the true one. */
double feed_section_mm2(double ball_diameter_mm, double depth_mm, double stepover_mm);

/* Feed for that cut. */
struct feed feed_choose(const struct cutter *cutter, const struct machine *machine,
			const struct wood *wood, double depth_mm, double stepover_mm);

#endif
