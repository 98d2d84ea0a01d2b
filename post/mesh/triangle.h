/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Triangles on their way from a solid to whoever takes them. Corners are
 * single precision from the start: two faces that share a corner then share
 * its bits, so what is watertight here is watertight in the file. */
#ifndef NECKHEW_MESH_TRIANGLE_H
#define NECKHEW_MESH_TRIANGLE_H

#include <stdbool.h>

#include "base/vec3.h"

struct mesh_point { /* program coordinates, mm */
	float x, y, z;
};

/* Takes one triangle, its corners counter-clockwise seen from outside. */
struct triangle_sink {
	void (*take)(void *context, const struct mesh_point corner[3]);
	void *context;
};

/* A point of the neck in program coordinates. Adding zero turns -0 into 0:
 * equal corners must also have equal bits. */
static inline struct mesh_point mesh_point(struct vec3 point, struct vec3 zero)
{
	return (struct mesh_point){ (float)(point.x - zero.x) + 0.0f,
				    (float)(point.y - zero.y) + 0.0f,
				    (float)(point.z - zero.z) + 0.0f };
}

static inline bool mesh_point_same(struct mesh_point a, struct mesh_point b)
{
	return a.x == b.x && a.y == b.y && a.z == b.z;
}

/* Passes a triangle on unless two of its corners coincide. Such a triangle is
 * a doubled edge: its two neighbours then meet in that edge, and the solid
 * stays closed without it. */
static inline void mesh_triangle(const struct triangle_sink *sink, struct mesh_point a,
				 struct mesh_point b, struct mesh_point c)
{
	if (mesh_point_same(a, b) || mesh_point_same(b, c) || mesh_point_same(c, a))
		return;
	sink->take(sink->context, (const struct mesh_point[]){ a, b, c });
}

/* Two triangles for the quadrilateral a b c d, cut from a to c. */
static inline void mesh_quad(const struct triangle_sink *sink, struct mesh_point a,
			     struct mesh_point b, struct mesh_point c, struct mesh_point d)
{
	mesh_triangle(sink, a, b, c);
	mesh_triangle(sink, a, c, d);
}

#endif
