/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The outermost columns of wood stand up to a cell inside the blank's outline,
 * and a mesh of columns ends there. This moves its border out to where the wood
 * ends. */
#ifndef NECKHEW_MESH_TO_EDGE_H
#define NECKHEW_MESH_TO_EDGE_H

#include "machine/blank.h"
#include "mesh/triangle.h"

struct to_edge {
	const struct triangle_sink *next; /* takes the moved triangles */
	const struct blank *blank;
	struct vec3 zero; /* program zero, neck coordinates */
	double step_mm; /* between the mesh's corners */
};

/* Passes every triangle on; corners nearer than a step to the blank's sides or
 * ends lie on them afterwards. Equal corners stay equal, so a closed solid stays
 * closed. Valid as long as *edge. */
struct triangle_sink to_edge_sink(struct to_edge *edge);

#endif
