/* SPDX-License-Identifier: GPL-3.0-or-later */
/* In which order the runs of a pass are cut. */
#ifndef NECKHEW_PATH_ORDER_H
#define NECKHEW_PATH_ORDER_H

#include <stdbool.h>
#include <stddef.h>

#include "path/runs.h"

enum emit_order {
	EMIT_NEAREST, /* nearest first */
	EMIT_OUTSIDE_IN, /* one side after the other, each from its outer edge to the centre
			 * line: what stands beside the neck stays joined to it until it is
			 * dust, and never comes loose */
	EMIT_SIDE_BY_SIDE, /* the same with the +y side and the centre line first, so that
			    * the side on which wood stands is known beforehand */
	EMIT_BODY_FIRST, /* from the body's end on: for crosswise lines, whose waste stays
			  * joined to what is not yet cut */
	EMIT_PEGHEAD_FIRST /* the other way: where a level goes through a peghead's raised
			    * under side, its waste stays joined to what is left beneath the
			    * level toward the body */
};

/* Index of the run not yet done that is next for a tip at `at`, and in *reverse
 * whether its far end is nearer, for one that may be cut both ways; the runs'
 * count when all are done. Of runs that rank alike the nearest is first. */
size_t order_next(enum emit_order order, const struct runs *runs, const bool *done, struct vec3 at,
		  bool *reverse);

#endif
