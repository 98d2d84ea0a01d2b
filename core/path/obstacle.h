/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands in the tool's way and is no wood: clamps, screws, the riser, a
 * fretboard that is already glued on, the joint at the neck's end. Each is an
 * upright solid that fills everything from the bed up to its top, so a part
 * that only reaches over something counts as if it stood on the bed. */
#ifndef NECKHEW_PATH_OBSTACLE_H
#define NECKHEW_PATH_OBSTACLE_H

#include <stdbool.h>
#include <stddef.h>

#include "job/job.h"
#include "path/tool_disc.h"

enum obstacle_shape {
	OBSTACLE_BOX,
	OBSTACLE_ROUND, /* within its rectangle, which is a square */
	OBSTACLE_TAPERED /* its sides run straight from one half width to the other */
};

/* STANDS: about the neck, where the fixture says; the rest belongs to the work. */
enum obstacle_part { OBSTACLE_STANDS, OBSTACLE_RISER, OBSTACLE_FRETBOARD, OBSTACLE_JOINT };

struct obstacle {
	enum obstacle_shape shape;
	enum obstacle_part part;
	double x_from_mm, x_to_mm, y_from_mm, y_to_mm; /* rectangle around it */
	double half_from_mm, half_to_mm; /* OBSTACLE_TAPERED, about y = 0 */
	double top_mm;
	double clearance_mm; /* kept from it */
};

struct obstacles {
	double radius_mm; /* of the ball */
	struct tool_discs discs; /* shank, holder and what stands above it */
	size_t count;
	struct obstacle item[FIXTURE_PLACES_MAX + 3];
};

/* All that the job knows of: keep-outs in the fixture's order, then riser,
 * fretboard and joint where there are any. `margin_mm` is kept on top of every
 * clearance but the riser's, which job_check measures the wood against. */
void obstacles_make(struct obstacles *out, const struct job *job, const struct cutter *cutter,
		    double margin_mm);

/* Which of them: those about the neck, or those that belong to the work. */
enum obstacle_group { OBSTACLES_ABOUT, OBSTACLES_OF_WORK, OBSTACLES_ALL };

/* Whether anything stands about the neck. */
bool obstacles_any_about(const struct obstacles *obstacles);

/* Lowest tip at which the ball keeps its clearance from every one of the group
 * along the straight line in plan (a point when both ends agree); -INFINITY
 * when none is near. */
double obstacles_ball_mm(const struct obstacles *obstacles, enum obstacle_group group, double x0_mm,
			 double y0_mm, double x1_mm, double y1_mm);

/* The same for shank, holder and what stands above it. */
double obstacles_tool_mm(const struct obstacles *obstacles, enum obstacle_group group, double x0_mm,
			 double y0_mm, double x1_mm, double y1_mm);

#endif
