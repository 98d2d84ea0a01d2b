/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The wood that will stand when a cutter is done, as the highest point of every
 * square of a coarse grid: what shank and holder must stay above. */
#ifndef NECKHEW_PATH_STANDING_H
#define NECKHEW_PATH_STANDING_H

#include <stddef.h>

#include "base/fault.h"
#include "job/job.h"
#include "model/facets.h"

struct standing {
	size_t nx, ny;
	double x0_mm, y0_mm, cell_mm; /* square (ix, iy) begins at x0 + ix cell, y0 + iy cell */
	double *top_mm; /* never too low; -INFINITY where nothing stands */
};

/* The finished neck with its stock and a terrace of one bite, which may stand on
 * it until the last lines; and the blank beyond the carved range, which nobody
 * lowers. Release with standing_free, also after a failure. */
enum fault standing_build(struct standing *standing, const struct facets *facets,
			  const struct job *job, const struct cutter *cutter,
			  struct fault_list *faults);
void standing_free(struct standing *standing);

double standing_highest_mm(const struct standing *standing);

/* Highest square that a disc in plan touches, for a disc around the corner where
 * each square begins: one figure per square in `out_mm`. */
enum fault standing_under_discs(double *out_mm, const struct standing *standing, double radius_mm,
				struct fault_list *faults);

/* Raises the squares to what the blank keeps where the ball comes no lower than
 * `tip_mm`, one figure for the corner where each square begins; everything
 * within the ball's radius of such a corner counts, and a terrace of one bite.
 * Corners at or below `floor_mm` say nothing. Returns the highest square it
 * raised, -INFINITY when none. */
enum fault standing_raise_left(struct standing *standing, double *highest_mm, const struct job *job,
			       const struct cutter *cutter, const double *tip_mm, double floor_mm,
			       struct fault_list *faults);

#endif
