/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be said of a solid made of triangles, for tests of meshes. */
#ifndef NECKHEW_TESTS_SUPPORT_SOLID_H
#define NECKHEW_TESTS_SUPPORT_SOLID_H

#include <stddef.h>

#include "base/vec3.h"

struct solid_triangle {
	float corner[3][3]; /* as stored: [corner][axis] */
	float normal[3];
};

struct solid {
	size_t count, capacity;
	struct solid_triangle *item;
};

/* Reads a binary STL file whole; fails the test unless its size is what its
 * count says. Shares no code with the writer. Release with solid_free. */
void solid_read(struct solid *out, const char *path);

/* Appends a triangle with a normal of 0. */
void solid_add(struct solid *solid, const float corner[3][3]);
void solid_free(struct solid *solid);

/* Fails the test unless every edge runs once in each direction: closed,
 * consistently turned, exactly two faces at every edge. Corners are compared
 * by their bits. */
void solid_assert_closed(const struct solid *solid);

/* Volume by the divergence theorem, mm3; positive when normals look out. */
double solid_volume_mm3(const struct solid *solid);

void solid_bounds(const struct solid *solid, struct vec3 *least, struct vec3 *most);

#endif
