/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The blank as a closed solid. */
#ifndef NECKHEW_MESH_BLANK_SOLID_H
#define NECKHEW_MESH_BLANK_SOLID_H

#include "base/fault.h"
#include "machine/blank.h"
#include "mesh/triangle.h"

/* Sends the faces of a blank that passed blank_check. Between two points of
 * the outlines it is a frustum with rectangular ends; where outlines step, the
 * part of one end that the other does not cover becomes a wall. Every edge is
 * shared by exactly two faces. FAULT_GEOMETRY when a step leaves the wood on
 * its two sides touching nowhere, so that there would be two solids. */
enum fault blank_solid(const struct triangle_sink *sink, const struct blank *blank,
		       struct vec3 work_zero_mm, struct fault_list *faults);

#endif
