/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The way down to the start of a run. */
#ifndef NECKHEW_PATH_ENTRY_H
#define NECKHEW_PATH_ENTRY_H

#include "path/bench.h"
#include "path/track.h"

/* Less than this is no wood to speak of, mm. */
#define ENTRY_NO_WOOD_MM 0.1
/* A rapid keeps this much more distance sideways from wood than the ball
 * needs, mm. */
#define ENTRY_SIDE_ROOM_MM 1.0

/* Tip points from `from_z_mm` above the run's start down to it: straight down
 * to the wood, then to and fro along the run's beginning at the cutter's ramp
 * angle while anything stands there; straight down all the way when nothing
 * does. On a run for one way only it sinks all the time, so that nothing is cut
 * against the way but by the ramp. */
enum fault entry_make(struct track *out, const struct bench *bench, const struct track *run,
		      double from_z_mm, struct fault_list *faults);

#endif
