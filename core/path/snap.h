/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Program coordinates: neck coordinates less the work zero, rounded to what a
 * program can state. The planner works on snapped points from the start, so
 * that writing rounds nothing away. */
#ifndef NECKHEW_PATH_SNAP_H
#define NECKHEW_PATH_SNAP_H

#include <math.h>

#include "base/vec3.h"

struct snap {
	struct vec3 zero_mm; /* work zero in neck coordinates */
	double step_mm; /* finest length of a program */
};

/* Nearest stateable x or y, in neck coordinates. */
static inline double snap_nearest(double value_mm, double zero_mm, double step_mm)
{
	return zero_mm + floor((value_mm - zero_mm) / step_mm + 0.5) * step_mm;
}

/* Lowest stateable z that is not below `z_mm`. */
static inline double snap_up(const struct snap *snap, double z_mm)
{
	/* a thousandth of a step is the arithmetic's own noise */
	double steps = ceil((z_mm - snap->zero_mm.z) / snap->step_mm - 1e-3);

	return snap->zero_mm.z + steps * snap->step_mm;
}

static inline double snap_x(const struct snap *snap, double x_mm)
{
	return snap_nearest(x_mm, snap->zero_mm.x, snap->step_mm);
}

static inline double snap_y(const struct snap *snap, double y_mm)
{
	return snap_nearest(y_mm, snap->zero_mm.y, snap->step_mm);
}

#endif
