/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the pictures need beyond the result: asked of neck and job once, so
 * that every picture draws plain arrays. */
#ifndef NECKHEW_PICTURES_GATHER_H
#define NECKHEW_PICTURES_GATHER_H

#include "job/job.h"
#include "job/result.h"
#include "model/neck.h"
#include "model/straight_edge.h"
#include "pictures/map.h"
#include "pictures/neck_lines.h"
#include "pictures/plan_table.h"
#include "pictures/section_panel.h"

struct gathered {
	struct column_map allowance; /* of each column's zone, mm; NAN where no stock is known */
	struct profile_line underside, blank_bottom;
	size_t fret_count;
	double *fret_x_mm; /* fret_count + 1 */
	size_t panel_count;
	struct section_panel *panel; /* one per station */
	struct neck_lines lines;
	struct neck_marks marks;
	struct straight_edge straight;
	size_t row_count;
	struct plan_row *row; /* of the table of widths */
	struct map_extent *touched; /* one per pass: what it cuts */
	const char *minus_side, *plus_side; /* "bass" and "treble" or the reverse */
};

/* Fills *out; gathered_free releases it, after a fault too. FAULT_MEMORY, or
 * FAULT_INTERNAL when the result's maps do not share one grid. */
enum fault gather(struct gathered *out, const struct job_result *result, const struct neck *neck,
		  const struct job *job, struct fault_list *faults);

/* NULL is accepted. */
void gathered_free(struct gathered *gathered);

#endif
