/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sections and waterlines that a mesh of the finished neck is made of.
 * Private to finished_solid. */
#ifndef NECKHEW_MESH_NECK_ROWS_H
#define NECKHEW_MESH_NECK_ROWS_H

#include <stddef.h>

#include "base/fault.h"
#include "model/neck.h"

/* One section: x, z of base and crest, then the half-breadths of both sides,
 * level by level. */
struct neck_row {
	double x_mm, base_mm, crest_mm;
	double *half_mm[SIDE_COUNT];
};

struct neck_rows {
	size_t level_count;
	double *level; /* height fractions, 0 first, 1 last */
	size_t count;
	struct neck_row *row; /* ascending in x */
	size_t capacity;
};

/* Chooses levels and sections so that flat pieces between them stay within
 * FINISHED_CHORD_MM of the surface. Release with neck_rows_free, also after a
 * failure. */
enum fault neck_rows_build(struct neck_rows *out, const struct neck *neck,
			   struct fault_list *faults);
void neck_rows_free(struct neck_rows *rows);

#endif
