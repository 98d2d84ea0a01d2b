/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An arc as it is read, cut into straight pieces. Part of the reader; shares no
 * arithmetic with what fits and writes arcs. */
#ifndef NECKHEW_PROGRAM_READ_ARC_H
#define NECKHEW_PROGRAM_READ_ARC_H

#include <stdbool.h>
#include <stddef.h>

#include "base/vec3.h"
#include "motion/motion.h"

/* G2 and G3 by their centre (NIST IR 6556, arcs in centre format; from memory). */
struct read_arc {
	struct vec3 from, to; /* mm */
	struct vec3 offset; /* I, J, K: the centre from `from`, mm; 0 across the plane */
	enum arc_plane plane;
	bool clockwise;
	double radii_apart_mm; /* how far the two radii may differ */
};

struct arc_pieces {
	size_t count;
	double stray_mm; /* the arc, by either radius, lies within this of its pieces */
	struct vec3 lean; /* of each part of its unit direction from its piece's */
	/* for arc_piece_end */
	const struct read_arc *arc;
	double centre_a, centre_b, start_rad, sweep_rad, radius_from_mm, radius_to_mm;
};

/* Divides an arc. False, with a sentence in why[why_size], when it leaves its
 * plane, its ends nearly meet (a whole circle to one control, nothing to
 * another), its radius is next to nothing or beyond ten metres, or its ends lie
 * on different circles. `arc` must outlive `out`. */
bool arc_pieces_make(struct arc_pieces *out, const struct read_arc *arc, char *why,
		     size_t why_size);

/* Where piece k (from 0) ends; the last one ends at the arc's own end. */
struct vec3 arc_piece_end(const struct arc_pieces *pieces, size_t k);

#endif
