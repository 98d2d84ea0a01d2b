/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a machine rounds the corner between two straight moves: along a circle
 * that touches both legs and stays within a deviation of the path. */
#ifndef NECKHEW_MOTION_CORNER_H
#define NECKHEW_MOTION_CORNER_H

#include "base/vec3.h"
#include "machine/machine.h"

/* Angle between two unit directions: 0 straight on, PI straight back. */
double corner_turn_rad(struct vec3 in, struct vec3 out);

/* Radius of the largest circle that touches both legs, lies within
 * `deviation_mm` of the corner and uses at most `room_mm` of path, half on each
 * side. INFINITY for no turn, 0 for straight back. Geometry: r = d sin(h) /
 * (1 - sin(h)) and r = (room / 2) tan(h), h half the inside angle. */
double corner_radius_mm(double turn_rad, double room_mm, double deviation_mm);

/* Most that axes with these limits give together along a unit direction. */
double axis_limit_along(const double limit[AXIS_COUNT], struct vec3 direction);

/* Acceleration toward the inside that the axes allow all the way round the
 * corner (the pull swings with the direction of travel), unit of `limit`. */
double corner_acceleration(const double limit[AXIS_COUNT], struct vec3 in, struct vec3 out);

#endif
