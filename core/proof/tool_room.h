/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Room between the moving tool and what must never be touched: bed, riser,
 * clamps and screws, a fretboard that is glued on, the joint at the neck's end. */
#ifndef NECKHEW_PROOF_TOOL_ROOM_H
#define NECKHEW_PROOF_TOOL_ROOM_H

#include "base/vec3.h"
#include "job/job.h"

struct tool_room {
	double room_mm; /* least distance met, less the clearance asked for; may be negative */
	const char *from; /* name of what is nearest; a literal or the fixture's own text */
	double fretboard_mm; /* least distance to a glued fretboard; INFINITY when far or none */
};

/* For the cutter whose tip goes straight from `from` to `to`, neck coordinates.
 * Everything but the bed is an upright solid that fills the space below its
 * top: a box, a round post, or the fretboard with its straight tapering sides.
 * The distance from a straight move to such a solid is convex along the move
 * and is found to 1e-4 mm, always from below; so the answer holds for the whole
 * move, not for places on it. INFINITY when nothing is near. */
struct tool_room tool_room_of_move(const struct job *job, const struct cutter *cutter,
				   struct vec3 from, struct vec3 to);

#endif
