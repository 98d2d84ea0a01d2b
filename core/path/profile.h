/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lowest-tip surface on a lattice, for deciding where to cut. What is cut
 * is dropped exactly; the lattice only says where to look. */
#ifndef NECKHEW_PATH_PROFILE_H
#define NECKHEW_PATH_PROFILE_H

#include <stddef.h>

#include "base/fault.h"
#include "path/drop.h"

struct profile {
	size_t nx, ny;
	double x0_mm, dx_mm; /* places along the neck, ends of the carved range included */
	double y0_mm, dy_mm;
	double *tip_mm; /* [ix * ny + iy] */
	double *bare_mm; /* the same without what stands beside; NULL: nothing does */
};

/* About 1 mm along and 0.5 mm across, out to y_limit on both sides. */
enum fault profile_build(struct profile *out, const struct drop *drop, double from_mm, double to_mm,
			 double y_limit_mm, struct fault_list *faults);
void profile_free(struct profile *profile);

static inline double profile_x(const struct profile *profile, size_t ix)
{
	return profile->x0_mm + (double)ix * profile->dx_mm;
}

/* Place nearest to x. */
size_t profile_ix(const struct profile *profile, double x_mm);

/* Tip at a place, straight between lattice points across. */
double profile_tip_mm(const struct profile *profile, size_t ix, double y_mm);

/* The same without what stands beside the neck: clamps, screws, rails, tabs. */
double profile_bare_mm(const struct profile *profile, size_t ix, double y_mm);

/* Absolute slope across the neck at a place, likewise without. */
double profile_slope(const struct profile *profile, size_t ix, double y_mm);

/* Distance from the centre line, on the side of `sign`, beyond which the tip,
 * did nothing stand beside the neck, stays at or below the level; -1 when the tip
 * is nowhere above it, or nowhere comes down to it. */
double profile_find_mm(const struct profile *profile, size_t ix, double sign, double level_mm);

#endif
