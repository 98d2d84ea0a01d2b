/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Room between the moving tool and what must never be touched: bed, riser,
 * clamps and screws. */
#ifndef NECKHEW_PROOF_TOOL_ROOM_H
#define NECKHEW_PROOF_TOOL_ROOM_H

#include "base/vec3.h"
#include "machine/cutter.h"
#include "machine/fixture.h"

struct tool_room {
	double room_mm; /* least distance met, less the clearance asked for; may be negative */
	const char *from; /* name of what is nearest; a literal or the fixture's own text */
};

/* For the cutter whose tip goes straight from `from` to `to`, neck coordinates.
 * The distance from a straight move to a box is convex along the move and is
 * found to 1e-4 mm, always from below. INFINITY when nothing is near. */
struct tool_room tool_room_of_move(const struct fixture *fixture, const struct cutter *cutter,
				   struct vec3 from, struct vec3 to);

#endif
