/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What shank and holder forbid: discs above the ball, dropped on the wood that
 * will still stand when the job is done. */
#ifndef NECKHEW_PATH_REACH_H
#define NECKHEW_PATH_REACH_H

#include <stddef.h>

#include "base/fault.h"
#include "job/job.h"
#include "model/facets.h"
#include "path/tool_disc.h"
#include "path/waste.h"

/* A coarse grid of lowest tips; continuous between its nodes and never lower
 * than the discs allow. */
struct reach {
	size_t nx, ny;
	double x0_mm, y0_mm, cell_mm;
	double *tip_mm; /* NULL: nothing on this job is tall enough to matter */
};

/* `waste` stays beside the neck and keeps the ball up; NULL: nothing does. */
enum fault reach_build(struct reach *out, const struct facets *facets, const struct job *job,
		       const struct cutter *cutter, const struct waste *waste, double floor_mm,
		       struct fault_list *faults);
void reach_free(struct reach *reach);

/* The same over the finished neck and the uncut blank alone, for any discs: as
 * if nothing else were left standing. Always has a grid. */
enum fault reach_over_finished(struct reach *out, const struct facets *facets,
			       const struct job *job, const struct cutter *cutter,
			       const struct tool_discs *discs, double floor_mm,
			       struct fault_list *faults);

/* Lowest tip for shank and holder at (x, y), or -INFINITY. */
double reach_tip_mm(const struct reach *reach, double x_mm, double y_mm);

#endif
