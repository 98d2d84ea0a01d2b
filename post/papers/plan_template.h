/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole neck from the back in true size: edges, nut, frets, heel and the
 * peghead's transition. */
#ifndef NECKHEW_PAPERS_PLAN_TEMPLATE_H
#define NECKHEW_PAPERS_PLAN_TEMPLATE_H

#include "papers/corners.h"
#include "papers/curves.h"
#include "papers/sheet.h"
#include "papers/tiles.h"

#define PLAN_PLACES_MAX 10

struct plan_template {
	const struct neck *neck;
	double half_width_mm; /* at its widest */
	struct curve_points edge[SIDE_COUNT];
	struct curve_points cap[SIDE_COUNT]; /* of a block heel */
	size_t place_count;
	struct corner place[PLAN_PLACES_MAX]; /* with the wood's width there */
	struct corner_table table; /* points at `place` */
	const char *minus_side, *plus_side; /* "bass" and "treble" or the reverse */
	char remark[400];
};

/* Gathers everything for a sheet that leaves this area; the neck must outlive
 * it. FAULT_MEMORY; release with plan_template_free in either case. The template
 * must stay where it is. */
enum fault plan_template_build(struct plan_template *out, const struct paper_content *content,
			       struct sheet_area area, struct fault_list *faults);

/* NULL is accepted. */
void plan_template_free(struct plan_template *plan);

/* The drawing; it points at the template. */
struct tile_drawing plan_template_drawing(const struct plan_template *plan);

#endif
