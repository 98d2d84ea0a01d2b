/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rails: what stays of the blank beside the neck, beyond a channel that the
 * cutters need. The channel is alike on both sides; a rail is as tall as the
 * blank, and stands where the blank is wide enough on its side. */
#ifndef NECKHEW_PATH_RAILS_H
#define NECKHEW_PATH_RAILS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "job/job.h"
#include "model/neck.h"
#include "path/tool_disc.h"

/* A stretch on both sides: from x0 to x1 the channel ends at the straight line
 * from e0 to e1, distances from the centre line. A rail fills everything beyond
 * that line, or the wood is too narrow for one and none stands there. */
struct rail {
	double x0_mm, x1_mm, e0_mm, e1_mm;
	double top_mm; /* of the wood, at its highest */
	bool stands[BLANK_SIDES];
};

struct rails {
	size_t count, capacity; /* none: the job asks for no rails */
	struct rail *rail; /* ascending in x, over the whole range that is carved */
	size_t standing; /* stretches, of both sides */
	double room_mm; /* that shank and holder keep */
};

/* No rails unless the job asks for them. Release with rails_free. */
enum fault rails_build(struct rails *out, const struct neck *neck, const struct job *job,
		       struct fault_list *faults);
void rails_free(struct rails *rails);

/* Distance in plan from the nearest rail on the side of y, mm; 0 on a rail,
 * INFINITY without one. */
double rails_distance_mm(const struct rails *rails, double x_mm, double y_mm);

/* Distance from the centre line of the place at x that lies `off_mm` inside the
 * channel's outer edge, whether a rail stands there or not; continuous. 0
 * without rails. */
double rails_beside_mm(const struct rails *rails, double x_mm, double off_mm);

/* Lowest tip at which the ball only touches rails, and at which shank, holder
 * and what stands above it keep their room from them, or any discs do; -INFINITY
 * when none is near. A wide part may be near the rail on the other side. */
double rails_ball_mm(const struct rails *rails, double radius_mm, double x_mm, double y_mm);
double rails_tool_mm(const struct rails *rails, const struct cutter *cutter, double x_mm,
		     double y_mm);
double rails_discs_mm(const struct rails *rails, const struct tool_discs *discs, double x_mm,
		      double y_mm);

#endif
