/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A ball-nose cutter in its holder. The tip is the ball's lowest point; the
 * axis is vertical. Lengths mm. */
#ifndef NECKHEW_MACHINE_CUTTER_H
#define NECKHEW_MACHINE_CUTTER_H

#define CUTTER_NAME_MAX 64

struct cutter {
	char name[CUTTER_NAME_MAX];
	double ball_diameter_mm;
	double flute_length_mm; /* from the tip: what can cut */
	double shank_diameter_mm; /* above the flutes */
	double stickout_mm; /* tip to holder */
	double holder_diameter_mm;
	double holder_length_mm;
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
