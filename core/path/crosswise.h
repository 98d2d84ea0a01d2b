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

/* x of the lines over the surface there: no more than `spacing_mm` apart along
 * it at its steepest, and closer in hollows: by sqrt(1 + R / r) for a ball of
 * radius R whose centre runs on a hollow of radius r, as the ridge between two
 * places s apart is s^2 / 8 (1 / R + 1 / r) high (sagittas of both circles;
 * general geometry). Slopes beyond CROSSWISE_UPRIGHT are walls that no spacing
 * serves. */
size_t crosswise_surface(struct raster_lie *line, const struct bench *bench, double spacing_mm);

/* Steeper along the neck than any nose may be (85 degrees). */
#define CROSSWISE_UPRIGHT 12.0

#endif
