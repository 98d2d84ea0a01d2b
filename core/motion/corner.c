/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "motion/corner.h"

#include <math.h>

double corner_turn_rad(struct vec3 in, struct vec3 out)
{
	return 2.0 * atan2(vec3_length(vec3_sub(out, in)), vec3_length(vec3_add(out, in)));
}

double corner_radius_mm(double turn_rad, double room_mm, double deviation_mm)
{
	if (turn_rad <= 0.0)
		return INFINITY;
	if (turn_rad >= PI)
		return 0.0;
	/* 1 - sin(h) written as 2 sin2(turn / 4), which keeps its digits */
	double quarter = sin(turn_rad / 4.0);
	double strays_mm = deviation_mm * cos(turn_rad / 2.0) / (2.0 * quarter * quarter);
	double fits_mm = room_mm / (2.0 * tan(turn_rad / 2.0));

	return fmin(fits_mm, strays_mm);
}

double axis_limit_along(const double limit[AXIS_COUNT], struct vec3 direction)
{
	const double share[AXIS_COUNT] = { direction.x, direction.y, direction.z };
	double most = INFINITY;

	for (int axis = 0; axis < AXIS_COUNT; axis++)
		if (share[axis] != 0.0)
			most = fmin(most, limit[axis] / fabs(share[axis]));
	return most;
}

/* Largest part that a unit vector has on one axis while it swings by half a
 * turn's angle to either side; `middle` is its part there at mid-swing,
 * `ahead` that of the vector a right angle on. */
static double swept_share(double middle, double ahead, double sin_half, double cos_half)
{
	middle = fabs(middle);
	ahead = fabs(ahead);
	if (ahead * cos_half <= middle * sin_half)
		return hypot(middle, ahead);
	return middle * cos_half + ahead * sin_half;
}

double corner_acceleration(const double limit[AXIS_COUNT], struct vec3 in, struct vec3 out)
{
	struct vec3 inward = vec3_sub(out, in), onward = vec3_add(out, in);
	double sin_half = vec3_length(inward) / 2.0, cos_half = vec3_length(onward) / 2.0;

	if (sin_half <= 0.0 || cos_half <= 0.0)
		return axis_limit_along(limit, in);
	inward = vec3_scale(inward, 0.5 / sin_half);
	onward = vec3_scale(onward, 0.5 / cos_half);
	struct vec3 share = vec3_make(swept_share(inward.x, onward.x, sin_half, cos_half),
				      swept_share(inward.y, onward.y, sin_half, cos_half),
				      swept_share(inward.z, onward.z, sin_half, cos_half));
	return axis_limit_along(limit, share);
}
