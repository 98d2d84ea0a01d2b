/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which runs of straight cuts may be written as arcs. */
#ifndef NECKHEW_PATH_ARC_FIT_H
#define NECKHEW_PATH_ARC_FIT_H

#include <stddef.h>

#include "machine/cutter.h"
#include "machine/machine.h"
#include "motion/motion.h"

/* Marks, in `arc` of its first move, each run of cuts that lies on a circle in a
 * plane in which the machine takes arcs; the moves stay as they are. Their
 * places must be what a program can state (program coordinates); so is the
 * centre. Whatever radius a control goes by, from the centre to the start or to
 * the end, arc and cuts lie within TOL_ARC_MM of each other, corners within
 * TOL_ARC_CORNER_MM; radii agree within TOL_ARC_RADII_MM. All moves of a run
 * have one feed, which no direction on the arc takes past an axis's limit or,
 * steeply downward, past the plunge feed. Returns how many moves the runs hold. */
size_t arc_fit(struct motion_list *motions, const struct machine *machine,
	       const struct cutter *cutter);

#endif
