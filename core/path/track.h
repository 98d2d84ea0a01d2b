/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A polyline of tip points that stays within TOL_CHORD_MM of a curve on the
 * lowest-tip surface. */
#ifndef NECKHEW_PATH_TRACK_H
#define NECKHEW_PATH_TRACK_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "base/vec3.h"

struct track {
	size_t count, capacity;
	struct vec3 *p; /* snapped, neck coordinates */
	bool one_way; /* to be cut from the first point to the last, never back */
};

/* The curve: tip point at parameter s (mm along its main direction). */
struct track_curve {
	struct vec3 (*at)(void *context, double s);
	void *context;
};

/* Appends the curve from s0 to s1 (either may be the larger). Where the curve
 * jumps, as beside an upright wall, the track rises or falls straight over the
 * lower side. */
enum fault track_follow(struct track *out, const struct track_curve *curve, double s0, double s1,
			struct fault_list *faults);

enum fault track_add(struct track *track, struct vec3 point, struct fault_list *faults);
void track_reverse(struct track *track);
void track_free(struct track *track);

/* Length in space, mm. */
double track_length_mm(const struct track *track);

#endif
