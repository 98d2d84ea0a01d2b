/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How high a rapid must go, and how far down it may come again. */
#ifndef NECKHEW_PATH_LIFT_H
#define NECKHEW_PATH_LIFT_H

#include "path/bench.h"

/* z of the tip that clears standing wood and keep-outs straight from `from` over
 * to `to` by the job's clearance, as far as a program can state it; no lower than
 * either. */
double lift_clear_mm(struct bench *bench, struct vec3 from, struct vec3 to);

/* z at which a rapid down to `to` stops: above the wood right under and beside
 * the ball. */
double lift_stop_mm(struct bench *bench, struct vec3 to);

#endif
