/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Why a pass is as it is: facts noted while it is planned, for one sentence. */
#ifndef NECKHEW_MOTION_PASS_WHY_H
#define NECKHEW_MOTION_PASS_WHY_H

#include <stdbool.h>

#include "machine/cutting.h"

/* What sets the distance of neighbouring lines. */
enum step_cap {
	STEP_UNKNOWN, /* no plan to ask: the program came from elsewhere */
	STEP_BY_CUTTER, /* the cutter's stepover limit */
	STEP_BY_BALL, /* a share of the ball: wider lines leave too tall ridges */
	STEP_BY_DEPTH, /* narrower, so that ridges leave room in the depth limit */
	STEP_BY_SCALLOP /* the scallop limit */
};

/* What sets how deep a pass goes. */
enum level_cap {
	LEVEL_BY_SURFACE, /* the surface itself */
	LEVEL_BY_DEPTH, /* the cutter's depth limit under the level above */
	LEVEL_BY_SKIN, /* stays so high that it leaves no thin skin */
	LEVEL_BY_FLOOR /* the lowest the ball need or may go */
};

struct pass_why {
	double stepover_mm; /* of neighbouring lines, along the surface for the last ones */
	enum step_cap step_cap;
	enum level_cap level_cap;
	double drop_mm; /* how far the cutter's depth limit lets a level lie under another */
	double scallop_limit_mm;
	bool lengthwise, crosswise; /* which lines there are */
	bool from_peghead; /* crosswise lines begin there, not at the body's end */
	bool leftovers; /* only where an earlier cutter left more than its scallops */
	unsigned ways; /* bit 1 << enum cut_way for each way that some line has */
	unsigned downhill; /* bit per stretch of the neck (enum neck_stretch) where lines run
			    * down a slope for the grain's sake */
};

#endif
