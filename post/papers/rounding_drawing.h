/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A section with the facets of all three stages, seen from the body toward the
 * nut, back up. */
#ifndef NECKHEW_PAPERS_ROUNDING_DRAWING_H
#define NECKHEW_PAPERS_ROUNDING_DRAWING_H

#include "model/rounding.h"
#include "papers/sheet.h"

struct rounding_drawing {
	const struct paper_content *content;
	double x_mm; /* of the section */
	const struct rounding *side; /* SIDE_COUNT of them */
	double scale; /* paper mm per mm */
};

/* Sizes it needs for its lines and words, mm on paper. */
double rounding_drawing_width_mm(const struct rounding_drawing *drawing);
double rounding_drawing_height_mm(const struct rounding_drawing *drawing);

/* Draws it with its left top corner there. FAULT_MEMORY. */
enum fault rounding_drawing_put(struct canvas *canvas, const struct rounding_drawing *drawing,
				double left_mm, double top_mm, struct fault_list *faults);

/* The lines' meaning in one row; y is their middle. */
void rounding_drawing_legend(struct canvas *canvas, double left_mm, double y_mm);

#endif
