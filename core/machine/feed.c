/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "machine/feed.h"

#include <math.h>

/* Thin chips may raise the feed to this multiple of the plain one and no
 * further (common practice, no source). Should a thin cut meet more wood than
 * expected, each tooth then bites at most twice its chip load, which is about
 * how far published chip loads for one wood differ among themselves. */
#define THINNING_MOST 2.0

#define MM2_MM_PER_CM3 1000.0
#define SECONDS_PER_MINUTE 60.0

const char *feed_cap_name(enum feed_cap cap)
{
	switch (cap) {
	case FEED_BY_CHIP_LOAD:
		return "chip load";
	case FEED_BY_AXIS:
		return "axis feed limit";
	case FEED_BY_POWER:
		return "spindle power";
	case FEED_BY_WORD:
		return "largest feed the control reads";
	}
	return "";
}

/* Width of the ball at the wood's surface: De = 2 sqrt(ap (D - ap)). Source:
 * chord of a circle. */
static double effective_diameter_mm(double ball_diameter_mm, double depth_mm)
{
	if (depth_mm >= ball_diameter_mm / 2.0)
		return ball_diameter_mm;
	return 2.0 * sqrt(depth_mm * (ball_diameter_mm - depth_mm));
}

/* The thickest chip is met at the wood's surface: fz sin(kappa) sin(phi) with
 * sin(kappa) = De / D, and sin(phi) = 2 sqrt(e (1 - e)) for e = ae / De below
 * one half, else 1. Source: chip geometry of ball ends, for example Altintas,
 * Manufacturing Automation, 2nd ed., Cambridge 2012 (from memory). Taking e on
 * De rather than on D asks for the lower feed of the two. */
double feed_chip_thinning(double ball_diameter_mm, double depth_mm, double stepover_mm)
{
	if (!(depth_mm > 0.0 && stepover_mm > 0.0))
		return THINNING_MOST;
	double wide_mm = effective_diameter_mm(ball_diameter_mm, depth_mm);
	double axial = wide_mm / ball_diameter_mm, radial = 1.0;
	double engaged = stepover_mm / wide_mm;

	if (engaged < 0.5)
		radial = 2.0 * sqrt(engaged * (1.0 - engaged));
	return fmin(1.0 / (axial * radial), THINNING_MOST);
}

/* Section of the groove a ball leaves at that depth: a segment of its circle,
 * above mid-ball a rectangle on a half circle. */
static double groove_section_mm2(double radius_mm, double depth_mm)
{
	if (depth_mm >= radius_mm)
		return PI * radius_mm * radius_mm / 2.0 + 2.0 * radius_mm * (depth_mm - radius_mm);
	double up_mm = radius_mm - depth_mm;
	double chord_half_mm = sqrt(depth_mm * (2.0 * radius_mm - depth_mm));
	return radius_mm * radius_mm * acos(up_mm / radius_mm) - up_mm * chord_half_mm;
}

/* What a line takes lies inside the ball's groove. Beside an earlier line at
 * least as deep it is no more than depth x stepover either, less still as round
 * grooves overlap. With wood on both sides the stepover is the groove's width. */
double feed_section_mm2(double ball_diameter_mm, double depth_mm, double stepover_mm)
{
	if (!(depth_mm > 0.0 && stepover_mm > 0.0))
		return 0.0;
	return fmin(groove_section_mm2(ball_diameter_mm / 2.0, depth_mm), depth_mm * stepover_mm);
}

/* P = k Q / 60 with k in J/cm3 and Q in cm3/min. */
static double power_w(const struct wood *wood, double section_mm2, double mm_per_min)
{
	double cm3_per_min = section_mm2 * mm_per_min / MM2_MM_PER_CM3;

	return wood->cutting_energy_j_per_cm3 * cm3_per_min / SECONDS_PER_MINUTE;
}

struct feed feed_choose(const struct cutter *cutter, const struct machine *machine,
			const struct wood *wood, double depth_mm, double stepover_mm)
{
	double section_mm2 = feed_section_mm2(cutter->ball_diameter_mm, depth_mm, stepover_mm);
	double axis_mm_per_min = fmin(machine->feed_limit_mm_per_min[AXIS_X],
				      machine->feed_limit_mm_per_min[AXIS_Y]);
	struct feed feed = { .cap = FEED_BY_CHIP_LOAD };

	feed.chip_load_mm_per_min =
		cutter->spindle_rpm * cutter->flutes * cutter->chip_load_mm *
		feed_chip_thinning(cutter->ball_diameter_mm, depth_mm, stepover_mm);
	feed.mm_per_min = feed.chip_load_mm_per_min;
	if (axis_mm_per_min < feed.mm_per_min) {
		feed.mm_per_min = axis_mm_per_min;
		feed.cap = FEED_BY_AXIS;
	}
	double word_mm_per_min = machine->reads.largest_feed_mm_per_min;
	if (word_mm_per_min > 0.0 && word_mm_per_min < feed.mm_per_min) {
		feed.mm_per_min = word_mm_per_min;
		feed.cap = FEED_BY_WORD;
	}
	double drawn_w = power_w(wood, section_mm2, feed.mm_per_min);
	if (drawn_w > machine->spindle_power_w) {
		feed.mm_per_min *= machine->spindle_power_w / drawn_w;
		feed.cap = FEED_BY_POWER;
	}
	feed.power_w = power_w(wood, section_mm2, feed.mm_per_min);
	return feed;
}
