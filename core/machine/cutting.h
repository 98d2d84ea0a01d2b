/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How lines are to be cut: along or across the neck, in which direction, and
 * what the grain has to say. The first of each is what a job gets that says
 * nothing. */
#ifndef NECKHEW_MACHINE_CUTTING_H
#define NECKHEW_MACHINE_CUTTING_H

enum cut_lines { CUT_LENGTHWISE, CUT_CROSSWISE };

/* On climb lines the wood that still stands is on the right of the cutter's
 * way, on conventional ones on the left: a spindle that turns clockwise, seen
 * from above, carries its edges backward on the right (common practice). */
enum cut_way { CUT_BOTH_WAYS, CUT_CLIMB, CUT_CONVENTIONAL };

/* Downhill: where the surface slopes along the neck lengthwise lines run from
 * the high end to the low one, since the fibres run along the neck and end in
 * the slope; against it the cutter would get under them. */
enum cut_grain { CUT_ANY_GRAIN, CUT_DOWNHILL };

struct cutting {
	enum cut_lines lines;
	enum cut_way way;
	enum cut_grain grain;
};

/* Slope along the neck (rise per mm) that is steep for the grain: about 5
 * degrees. Below it fibres are hardly cut through (common practice, no source). */
#define CUT_STEEP_SLOPE 0.0875

#endif
