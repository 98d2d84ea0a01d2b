/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Standing wood, given as a top and a bottom over a grid of columns, as a
 * closed solid.
 *
 * The columns are corners. Four neighbouring columns of wood make a cell; cells
 * carry the top and the under side, and a wall runs along every side that only
 * one cell has. Where cells meet at a corner alone, the wall there would be
 * shared by four faces; of two such cells the thinner one is left out (a sliver
 * of one cell), so that every edge has exactly two faces. Along x corners are
 * left out where the line between the others stays within HEIGHT_CHORD_MM. */
#ifndef NECKHEW_MESH_HEIGHT_SOLID_H
#define NECKHEW_MESH_HEIGHT_SOLID_H

#include <stddef.h>

#include "base/fault.h"
#include "job/result.h"
#include "mesh/triangle.h"

/* How far a line of the mesh may pass beside a column it skips, mm. */
#define HEIGHT_CHORD_MM 0.005

/* Wood thinner than this is left out, mm: it would only be a doubled face. */
#define HEIGHT_THINNEST_MM 0.02

/* Sends the faces, taking every `stride`-th column both ways (1 or more). A
 * column is no wood where top or bottom is NAN or infinite. The maps are in
 * neck coordinates and must lie on the same columns, else FAULT_INTERNAL.
 * Without any wood nothing is sent. */
enum fault height_solid(const struct triangle_sink *sink, const struct column_map *top,
			const struct column_map *bottom, size_t stride, struct vec3 work_zero_mm,
			struct fault_list *faults);

#endif
