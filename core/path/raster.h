/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lengthwise raster lines: on a level, only where wood stands; and over the
 * whole finished surface where it is not steep across. */
#ifndef NECKHEW_PATH_RASTER_H
#define NECKHEW_PATH_RASTER_H

#include "path/bench.h"
#include "path/runs.h"

/* Runs along y = const at max(level, lowest tip), `stepover_mm` apart,
 * symmetric to the centre line, where a ball there would take more than
 * `worth_mm` from the columns within `across_mm` beside it. */
enum fault raster_level(struct runs *out, const struct bench *bench, double level_mm,
			double stepover_mm, double across_mm, double worth_mm,
			struct fault_list *faults);

/* Runs in the channels between neck and rails, beside the rails from as near as
 * ball and shank may come to where the neck is, where a ball there would take
 * more than `worth_mm`. None without rails. */
enum fault raster_channel(struct runs *out, const struct bench *bench, double level_mm,
			  double stepover_mm, double worth_mm, struct fault_list *faults);

/* Runs along y = const on the lowest-tip surface wherever it is no steeper
 * across than contour lines take over (see contour.h); their distance keeps
 * `spacing_mm` along the surface. */
enum fault raster_surface(struct runs *out, const struct bench *bench, double spacing_mm,
			  struct fault_list *faults);

#endif
