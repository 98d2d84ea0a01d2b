/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Clamps, screws and the riser as boxes that reach from the bed up to a
 * height, and how low a tool may pass them. */
#ifndef NECKHEW_PATH_OBSTACLE_H
#define NECKHEW_PATH_OBSTACLE_H

#include <stddef.h>

#include "job/job.h"

struct obstacles {
	double radius_mm; /* of the ball */
	double shank_radius_mm, shank_from_mm; /* shank begins so far above the tip */
	double holder_radius_mm, stickout_mm;
	double clearance_mm;
	size_t count;
	struct place box[FIXTURE_PLACES_MAX + 1]; /* keep-outs and the riser */
};

void obstacles_make(struct obstacles *out, const struct job *job, const struct cutter *cutter);

/* Lowest tip at which the ball keeps its clearance from every box along the
 * straight line in plan (a point when both ends agree); -INFINITY when none is
 * near. */
double obstacles_ball_mm(const struct obstacles *obstacles, double x0_mm, double y0_mm,
			 double x1_mm, double y1_mm);

/* The same for shank and holder. */
double obstacles_tool_mm(const struct obstacles *obstacles, double x0_mm, double y0_mm,
			 double x1_mm, double y1_mm);

#endif
