/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The way around everything that will be cut, above it all: to be watched once
 * before the spindle runs. */
#ifndef NECKHEW_PATH_DRY_RUN_H
#define NECKHEW_PATH_DRY_RUN_H

#include "base/fault.h"
#include "motion/motion.h"
#include "path/bench.h"

/* Once around the rectangle of all cuts, at the safe height, spindle off, ending
 * where the machine parks. Appends to `out`, in the coordinates of `motions`. */
enum fault dry_run_make(struct motion_list *out, const struct bench *bench,
			const struct motion_list *motions, struct fault_list *faults);

#endif
