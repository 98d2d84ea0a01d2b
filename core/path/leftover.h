/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a cutter that comes later finds work: the places on its lowest-tip
 * surface from which it would take more than the scallops that an earlier
 * cutter was allowed to leave. */
#ifndef NECKHEW_PATH_LEFTOVER_H
#define NECKHEW_PATH_LEFTOVER_H

#include <stdbool.h>

#include "base/fault.h"
#include "path/drop.h"
#include "path/profile.h"
#include "stock/stock.h"

/* Marks on the lattice of a profile. */
struct leftover {
	unsigned char *mark; /* [ix * ny + iy]; NULL: everything is to be cut */
	size_t nx, ny;
	double y0_mm, dy_mm;
};

/* Looks over the whole lattice: a place is marked when the ball, moved out from
 * its lowest place along the surface's normal by a scallop and a little more,
 * still takes wood; and so is everything within the ball's diameter where the
 * levels above it are cut, and within 2 mm where the surface is. */
enum fault leftover_build(struct leftover *out, const struct drop *drop,
			  const struct profile *profile, const struct stock *stock,
			  double radius_mm, double scallop_limit_mm, struct fault_list *faults);
void leftover_free(struct leftover *leftover);

/* True where surface and contour lines are to be cut; always when there was no
 * earlier cutter. */
bool leftover_on_surface(const struct leftover *leftover, size_t ix, double y_mm);

/* True where levels above are to be cut. */
bool leftover_on_level(const struct leftover *leftover, size_t ix, double y_mm);

#endif
