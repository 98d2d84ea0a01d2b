/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The three solids of a job as binary STL files in program coordinates. */
#ifndef NECKHEW_MESH_SOLIDS_H
#define NECKHEW_MESH_SOLIDS_H

#include <stddef.h>

#include "base/fault.h"
#include "job/result.h"
#include "machine/blank.h"
#include "model/neck.h"

/* The roughed wood's mesh is no coarser than this, mm, ... */
#define SOLIDS_CELL_MM 0.5
/* ... unless its file would then grow beyond this. */
#define SOLIDS_MOST_BYTES 25000000u

/* Each writes one file. FAULT_FILE leaves a broken file behind, so they are
 * meant for an output folder that is thrown away on any fault. */
enum fault solids_write_finished(const char *path, const struct neck *neck,
				 struct vec3 work_zero_mm, struct fault_list *faults);
enum fault solids_write_blank(const char *path, const struct blank *blank, struct vec3 work_zero_mm,
			      struct fault_list *faults);

/* The wood after the last program: top and underside by column. Its border goes
 * out to the blank's outline; without a blank (NULL) it ends at the outermost
 * columns. */
enum fault solids_write_roughed(const char *path, const struct blank *blank,
				const struct column_map *top, const struct column_map *bottom,
				struct vec3 work_zero_mm, struct fault_list *faults);

/* The column distance the roughed mesh is made with: the widest that keeps
 * its cells within SOLIDS_CELL_MM, wider where the file would pass
 * `most_bytes`. In columns, 1 or more. */
enum fault solids_roughed_stride(size_t *stride, const struct column_map *top,
				 const struct column_map *bottom, size_t most_bytes,
				 struct fault_list *faults);

#endif
