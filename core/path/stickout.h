/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far a cutter would have to stick out for its holder to keep it from
 * nothing. */
#ifndef NECKHEW_PATH_STICKOUT_H
#define NECKHEW_PATH_STICKOUT_H

#include "base/fault.h"
#include "job/job.h"
#include "model/facets.h"
#include "path/drop.h"

/* *least_mm: at this stickout, all else being equal, drop_tip_mm is drop_ball_mm
 * everywhere where the ball can meet wood; shorter by more than half a
 * millimetre it is not. No shorter than the flutes. NAN when the shank is in the
 * way, which no stickout changes. Worked out from one look at every place: the
 * wood under a disc, less the ball's lowest tip there, is the height over the
 * tip at which the disc may begin. */
enum fault stickout_least(double *least_mm, const struct drop *drop, const struct facets *facets,
			  const struct job *job, const struct cutter *cutter,
			  struct fault_list *faults);

#endif
