/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which waterlines a mesh can do without. Private to finished_solid. */
#ifndef NECKHEW_MESH_NECK_LEVELS_H
#define NECKHEW_MESH_NECK_LEVELS_H

#include <stddef.h>

#include "base/fault.h"
#include "model/neck.h"

/* Chooses levels, 0 and 1 among them, so that at every knot the section through
 * them passes the others within `chord_mm`. *level is to be freed with
 * free(). */
enum fault neck_levels_choose(double **level, size_t *count, const struct neck *neck,
			      double chord_mm, struct fault_list *faults);

#endif
