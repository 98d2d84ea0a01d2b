/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heel in true size: side view on the centre line with the cheeks' hollow,
 * and plan with the cap. A flat heel shows its slab, a set heel its tenon in the
 * same way. A joint that is to be kept clear is dashed behind the neck's end. */
#ifndef NECKHEW_PAPERS_HEEL_TEMPLATE_H
#define NECKHEW_PAPERS_HEEL_TEMPLATE_H

#include "model/joint.h"
#include "papers/corners.h"
#include "papers/curves.h"
#include "papers/hollow.h"
#include "papers/sheet.h"

#define HEEL_CORNERS_MAX 5
/* Kept free around the views, and between them and the tables, mm. */
#define HEEL_EDGE_MM (CORNERS_REACH_MM + 1.0)
#define HEEL_TABLE_GAP_MM 6.0

struct heel_template {
	bool block, tenon; /* neither: a flat slab */
	double from_mm, to_mm; /* along the neck: a bit of shaft, and the end */
	double proper_mm; /* cap front, or where the slab begins */
	double height_mm; /* highest wood */
	double half_width_mm; /* at its widest */
	struct curve_points crest, edge[SIDE_COUNT];
	struct curve_points cap[SIDE_COUNT]; /* of a block heel */
	struct hollow hollow;
	/* Numbered places: of the side view with heights, of the plan with widths. */
	size_t side_count, plan_count;
	struct corner side[HEEL_CORNERS_MAX], plan[HEEL_CORNERS_MAX];
	/* Stands out of the neck's end; `joint_name` is NULL without one. */
	struct joint_box joint;
	const char *joint_name;
	const char *minus_side, *plus_side; /* "bass" and "treble" or the reverse */
	/* The side view's nut-ward end on the gluing face lies at (0, 0) of the
	 * drawing; the plan's on the centre line lies here. */
	double plan_x_mm, plan_y_mm;
	char remark[640];
};

/* Gathers everything for a sheet that leaves this area. FAULT_MEMORY; release
 * with heel_template_free in either case. */
enum fault heel_template_build(struct heel_template *out, const struct paper_content *content,
			       struct sheet_area area, struct fault_list *faults);

/* Where the drawing of the heel ends along the neck: with the joint, mm. */
double heel_template_end_mm(const struct heel_template *heel);

/* NULL is accepted. */
void heel_template_free(struct heel_template *heel);

#endif
