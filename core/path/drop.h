/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How low the ball's tip may go over a point: the ball is dropped on the
 * finished surface grown by each zone's allowance, on the keep-outs, the riser,
 * a glued fretboard and the joint, on rails and tabs, and stops at the bed. Shank
 * and holder are dropped the same way. */
#ifndef NECKHEW_PATH_DROP_H
#define NECKHEW_PATH_DROP_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "job/job.h"
#include "model/facets.h"
#include "model/neck.h"
#include "path/facet_drop.h"
#include "path/waste.h"

struct drop;

/* Prepares the drop of one of a job's cutters: the facets must outlive it. `margin_mm` is kept
 * on top of every allowance. */
enum fault drop_build(struct drop **out, const struct facets *facets, const struct neck *neck,
		      const struct job *job, const struct cutter *cutter, double margin_mm,
		      struct fault_list *faults);
void drop_free(struct drop *drop);

/* z of the lowest tip over (x, y), mm: exact for the facets, which stand at
 * most facets->deviation_mm from the surface. *hint carries the last contact
 * from call to call and makes neighbouring drops fast; start with 0. */
double drop_tip_mm(const struct drop *drop, double x_mm, double y_mm, size_t *hint);

/* The same for the ball alone, without shank and holder: what a longer cutter
 * could reach. */
double drop_ball_mm(const struct drop *drop, double x_mm, double y_mm, size_t *hint);

/* As drop_tip_mm, as if nothing stood beside the neck, neither clamps and screws
 * nor rails and tabs: where lines that follow the neck run, before they rise over
 * what stands in their way. */
double drop_bare_mm(const struct drop *drop, double x_mm, double y_mm, size_t *hint);

/* Lowest tip for what stands beside the neck alone, mm; -INFINITY when none is
 * near. */
double drop_beside_mm(const struct drop *drop, double x_mm, double y_mm);

/* Whether anything stands beside the neck at all. */
bool drop_has_beside(const struct drop *drop);

/* What the clamps and screws about the neck ask for along the straight line in
 * plan, mm; -INFINITY when none is near. */
double drop_about_mm(const struct drop *drop, double x0_mm, double y0_mm, double x1_mm,
		     double y1_mm);

/* What is to stay beside the neck; owned by the drop. */
const struct waste *drop_waste(const struct drop *drop);

/* The same for shank, holder and what stands above it alone; -INFINITY where
 * nothing is near. */
double drop_tool_mm(const struct drop *drop, double x_mm, double y_mm);

/* Lowest tip of any drop of this cutter in this job, mm; known without one. */
double drop_lowest_mm(const struct job *job, const struct cutter *cutter);

/* Lowest tip anywhere, mm: bed and riser's height allow no lower, or nothing
 * is gained below. */
double drop_floor_mm(const struct drop *drop);

/* Lowest tip at which ball, shank and holder stay clear of every keep-out along the
 * straight line in plan from (x0, y0) to (x1, y1), mm; -INFINITY when none is
 * near. */
double drop_keep_out_mm(const struct drop *drop, double x0_mm, double y0_mm, double x1_mm,
			double y1_mm);

#endif
