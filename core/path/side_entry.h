/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Into a run from beside it: where the wood outward of its start is gone, the
 * tool goes down there, next to the wall instead of on it, and over. */
#ifndef NECKHEW_PATH_SIDE_ENTRY_H
#define NECKHEW_PATH_SIDE_ENTRY_H

#include <stdbool.h>

#include "path/bench.h"
#include "path/track.h"

/* Finds such a place outward of the run's start: the ball takes no wood there,
 * no lower than `level_mm`, and going down there and over is shorter than going
 * down beside the start's own walls. False when there is none. */
bool side_entry_find(struct bench *bench, const struct track *run, double level_mm,
		     struct vec3 *place);

#endif
