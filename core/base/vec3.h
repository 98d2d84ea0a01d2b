/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Points and directions, passed by value. x runs along the neck from the nut
 * toward the body, z up out of the neck's back, y across; the frame is
 * right-handed, as machine axes are (see docs/geometry.md). Unit: mm. */
#ifndef NECKHEW_BASE_VEC3_H
#define NECKHEW_BASE_VEC3_H

#include <math.h>

struct vec3 {
	double x, y, z;
};

static inline struct vec3 vec3_make(double x, double y, double z)
{
	return (struct vec3){ x, y, z };
}

static inline struct vec3 vec3_add(struct vec3 a, struct vec3 b)
{
	return (struct vec3){ a.x + b.x, a.y + b.y, a.z + b.z };
}

static inline struct vec3 vec3_sub(struct vec3 a, struct vec3 b)
{
	return (struct vec3){ a.x - b.x, a.y - b.y, a.z - b.z };
}

static inline struct vec3 vec3_scale(struct vec3 a, double factor)
{
	return (struct vec3){ a.x * factor, a.y * factor, a.z * factor };
}

static inline double vec3_dot(struct vec3 a, struct vec3 b)
{
	return a.x * b.x + a.y * b.y + a.z * b.z;
}

static inline struct vec3 vec3_cross(struct vec3 a, struct vec3 b)
{
	return (struct vec3){ a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x };
}

static inline double vec3_length(struct vec3 a)
{
	return sqrt(vec3_dot(a, a));
}

/* Distance between two points, mm. */
static inline double vec3_distance(struct vec3 a, struct vec3 b)
{
	return vec3_length(vec3_sub(a, b));
}

/* The point a + t (b - a). */
static inline struct vec3 vec3_between(struct vec3 a, struct vec3 b, double t)
{
	return vec3_add(a, vec3_scale(vec3_sub(b, a), t));
}

#endif
