/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where shank, holder or what stands above it keep a cutter's ball higher than
 * the ball alone would have to stay, on a lattice of places of its axis. */
#ifndef NECKHEW_JOB_KEPT_OFF_H
#define NECKHEW_JOB_KEPT_OFF_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "job/job.h"
#include "path/drop.h"

struct kept_off {
	size_t nx, ny;
	double x0_mm, dx_mm, y0_mm, dy_mm;
	double radius_mm; /* of the ball */
	double *ball_mm; /* [ix * ny + iy]: lowest tip of the ball alone */
	/* Kept higher there or within one line's distance: lines end so far from
	 * an edge, and only inside it do they lie close enough for the scallop.
	 * NULL when the ball is kept off nowhere. */
	bool *kept;
};

/* For one of the job's cutters and its drop. Release with kept_off_free, also
 * after a failure. */
enum fault kept_off_build(struct kept_off *out, const struct drop *drop, const struct job *job,
			  const struct cutter *cutter, struct fault_list *faults);
void kept_off_free(struct kept_off *kept);

/* How low the ball can take the column at (x, y), which begins at `bottom_mm`:
 * from anywhere, and from the places where nothing keeps it off (INFINITY when
 * there are none near). */
struct kept_reach {
	double ball_mm, tool_mm;
};

struct kept_reach kept_off_reach(const struct kept_off *kept, double x_mm, double y_mm,
				 double bottom_mm);

#endif
