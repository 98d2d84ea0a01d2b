/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where crosswise lines lie along the neck. */
#ifndef NECKHEW_PATH_CROSSWISE_H
#define NECKHEW_PATH_CROSSWISE_H

#include <stddef.h>

#include "path/raster_line.h"

/* Room for the lines of either kind that are `step_mm` apart on level ground. */
size_t crosswise_most(const struct bench *bench, double step_mm);

/* x of the lines of a level over every stretch that asks for crosswise lines:
 * one at each end and no more than `stepover_mm` apart. `line` has the room that
 * crosswise_most tells; returns how many. */
size_t crosswise_level(struct raster_lie *line, const struct bench *bench, double stepover_mm);

/* x of the lines over the surface there: as far apart as leaves no taller ridges
 * between them than lines `spacing_mm` apart do on level ground. They lie closer
 * on slopes along the neck, and in hollows, where the ball could go lower between
 * them. Slopes beyond CROSSWISE_UPRIGHT are walls that no spacing serves. */
size_t crosswise_surface(struct raster_lie *line, const struct bench *bench, double spacing_mm);

/* Steeper along the neck than any nose may be (85 degrees). */
#define CROSSWISE_UPRIGHT 12.0

#endif
