/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The job on the machine in plan and from the side, to one scale. Axes count
 * from program zero. */
#ifndef NECKHEW_PAPERS_SETUP_DRAWING_H
#define NECKHEW_PAPERS_SETUP_DRAWING_H

#include "papers/setup_extent.h"
#include "papers/sheet.h"
#include "pictures/neck_lines.h"

struct setup_drawing {
	const struct paper_content *content;
	const struct neck_lines *lines;
	struct setup_box extent;
	double per_mm; /* mm of the machine for each mm on paper: 2.5 is "1 : 2.5" */
};

/* A drawing whose scale is the largest round one that fits into so much paper,
 * axes and words included. */
struct setup_drawing setup_drawing_of(const struct paper_content *content,
				      const struct neck_lines *lines, double width_mm,
				      double height_mm);

/* Draws both views with their axes into the area, from its top. */
void setup_drawing_put(struct canvas *canvas, const struct setup_drawing *drawing,
		       const struct sheet_area *area);

#endif
