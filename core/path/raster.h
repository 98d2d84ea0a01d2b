/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Raster lines, along or across the neck as each stretch of it asks: on a
 * level, only where wood stands; and over the whole finished surface where it
 * is not steep across. */
#ifndef NECKHEW_PATH_RASTER_H
#define NECKHEW_PATH_RASTER_H

#include "path/bench.h"
#include "path/runs.h"

/* Which lines of a level are wanted. */
struct raster_level {
	double level_mm, stepover_mm;
	double beside_mm; /* a line looks so far to either side of it for wood */
	double worth_mm; /* and is cut where a ball takes more than this */
};

/* Runs at max(level, lowest tip), at most `stepover_mm` apart: lengthwise ones
 * along y = const, symmetric to the centre line; crosswise ones along
 * x = const. Each kind only on the stretches that ask for it, and a little
 * beyond. */
enum fault raster_level(struct runs *out, const struct bench *bench, enum cut_lines lines,
			const struct raster_level *level, struct fault_list *faults);

/* Runs in the channels between neck and rails, beside the rails from as near as
 * ball and shank may come to where the neck is. None without rails. */
enum fault raster_channel(struct runs *out, const struct bench *bench,
			  const struct raster_level *level, struct fault_list *faults);

/* Runs on the lowest-tip surface wherever it is no steeper across than contour
 * lines take over (see contour.h), whatever its slope along the neck. The lines'
 * distance keeps `spacing_mm` along the surface: lengthwise lines lie closer
 * where it slopes across, crosswise ones where it slopes along, and closer yet
 * in a hollow, where contacts lie farther apart than the ball's places. */
enum fault raster_surface(struct runs *out, const struct bench *bench, enum cut_lines lines,
			  double spacing_mm, struct fault_list *faults);

#endif
