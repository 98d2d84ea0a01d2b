/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tool above its ball as the planner sees it: discs at their heights, each
 * going on upward. Wood and clamps reach down to the bed, so nothing can come
 * near a cylinder from the side without coming under its lower face first. */
#ifndef NECKHEW_PATH_TOOL_DISC_H
#define NECKHEW_PATH_TOOL_DISC_H

#include <stdbool.h>
#include <stddef.h>

#include "machine/cutter.h"

struct tool_disc {
	double radius_mm;
	double above_mm; /* lower face over the tip */
	bool shank; /* does not move with the stickout */
};

#define TOOL_DISCS_MAX (2 + CUTTER_PARTS_MAX)

struct tool_discs {
	size_t count;
	struct tool_disc disc[TOOL_DISCS_MAX];
};

/* Shank, holder and what stands above it, from below. A part no wider than one
 * beneath it is left out: it is in that one's shadow. */
struct tool_discs tool_discs_of(const struct cutter *cutter);

/* The same against wood: a shank no wider than the ball stays within what the
 * flutes cut, and is left out. */
struct tool_discs tool_discs_over_wood(const struct cutter *cutter);

#endif
