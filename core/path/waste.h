/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Wood that stays beside the neck by intent, as something the ball must keep
 * off: rails, and the tabs that hold what would come loose. */
#ifndef NECKHEW_PATH_WASTE_H
#define NECKHEW_PATH_WASTE_H

#include <stdbool.h>

#include "base/fault.h"
#include "job/job.h"
#include "model/neck.h"
#include "path/rails.h"

struct waste {
	struct rails rails;
	struct tabs tabs;
	const struct cutter *cutter; /* that must keep off */
};

/* The job's rails and tabs for one of its cutters. Release with waste_free. */
enum fault waste_build(struct waste *out, const struct neck *neck, const struct job *job,
		       const struct cutter *cutter, struct fault_list *faults);
void waste_free(struct waste *waste);

/* False when nothing is to stay. */
bool waste_stays(const struct waste *waste);

/* Lowest tip over (x, y) for the ball, and for shank and holder, mm; -INFINITY
 * when nothing is near. */
double waste_ball_mm(const struct waste *waste, double x_mm, double y_mm);
double waste_tool_mm(const struct waste *waste, double x_mm, double y_mm);

#endif
