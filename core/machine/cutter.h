/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A ball-nose cutter in its holder. The tip is the ball's lowest point; the
 * axis is vertical. Lengths mm. */
#ifndef NECKHEW_MACHINE_CUTTER_H
#define NECKHEW_MACHINE_CUTTER_H

#include <stddef.h>

#define CUTTER_NAME_MAX 64
#define CUTTER_PARTS_MAX 4

/* A cylinder of what stands above the holder: spindle nose, body, carriage. */
struct holder_part {
	double diameter_mm, length_mm;
};

struct cutter {
	char name[CUTTER_NAME_MAX];
	double ball_diameter_mm;
	double flute_length_mm; /* from the tip: what can cut */
	double shank_diameter_mm; /* above the flutes */
	double stickout_mm; /* tip to holder */
	double holder_diameter_mm;
	double holder_length_mm;
	/* What follows on the holder, upward, each on the one before. The
	 * uppermost is taken to go on without end. */
	size_t part_count;
	struct holder_part part[CUTTER_PARTS_MAX];
	double overall_length_mm; /* tip to the shank's end; 0: not measured */
	int flutes;
	double chip_load_mm; /* per tooth, for the wood class of the job */
	double depth_limit_mm; /* deepest bite */
	double stepover_limit_mm; /* widest distance between roughing lines */
	double ramp_angle_rad; /* steepest entry into standing wood */
	double plunge_feed_mm_per_min; /* fastest downward speed in wood */
	double spindle_rpm;
};

static inline double cutter_radius_mm(const struct cutter *cutter)
{
	return cutter->ball_diameter_mm / 2.0;
}

#endif
