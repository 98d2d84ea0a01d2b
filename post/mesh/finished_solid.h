/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finished neck as a closed solid: the back as neck.h defines it, a flat
 * under side and flat ends. The truss-rod channel is not shown: it is cut from
 * the other side. */
#ifndef NECKHEW_MESH_FINISHED_SOLID_H
#define NECKHEW_MESH_FINISHED_SOLID_H

#include "base/fault.h"
#include "mesh/triangle.h"
#include "model/neck.h"

/* The mesh departs from the surface by at most this much, mm, besides the
 * rounding to single precision: half is allowed to flat pieces along x, and a
 * quarter each to left-out waterlines and to the fold across each
 * quadrilateral. */
#define FINISHED_CHORD_MM 0.010

/* Sends the faces. Every edge is shared by exactly two. */
enum fault finished_solid(const struct triangle_sink *sink, const struct neck *neck,
			  struct vec3 work_zero_mm, struct fault_list *faults);

#endif
