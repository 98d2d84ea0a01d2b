/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Contour lines: where the surface is steep across the neck, lines that keep
 * their height and follow cheek or side lengthwise. */
#ifndef NECKHEW_PATH_CONTOUR_H
#define NECKHEW_PATH_CONTOUR_H

#include "path/bench.h"
#include "path/runs.h"

/* Slope across the neck (dz/dy) from which contour lines take over from raster
 * lines: 45 degrees, where both need the same number of lines. Each reaches a
 * tenth past it, so that no strip is left between. */
#define CONTOUR_SLOPE 1.0

/* On a floor that the bed sets, the lowest-tip surface is level all over and has
 * no contour: the last line keeps this much above it, mm. */
#define CONTOUR_OVER_BED_MM 0.01

/* Runs at height `level_mm` on both sides, wherever the lowest-tip surface
 * passes that height steeply. *steepness gets the smallest slope met (at least
 * CONTOUR_SLOPE less a tenth), for choosing the next height; INFINITY when
 * nothing was found. With `finish` upright walls are followed even where the
 * wood's columns show nothing to take: a cove may be narrower than they stand
 * apart. */
enum fault contour_level(struct runs *out, const struct bench *bench, double level_mm, bool finish,
			 double *steepness, struct fault_list *faults);

#endif
