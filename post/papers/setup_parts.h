/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is drawn of a job on the machine, in plan or from the side: wood, riser,
 * bed, clamps, holding places and the bounds of the moves. */
#ifndef NECKHEW_PAPERS_SETUP_PARTS_H
#define NECKHEW_PAPERS_SETUP_PARTS_H

#include "papers/setup_extent.h"
#include "papers/setup_labels.h"
#include "papers/sheet.h"
#include "pictures/neck_lines.h"

/* From neck coordinates to paper: `up` is y in plan and z from the side. */
struct setup_view {
	const struct paper_content *content;
	const struct neck_lines *lines;
	double per_mm; /* mm of the machine for each mm on paper */
	double left, bottom; /* of the paper, where the view begins */
	double from_x, from_up;
	double to_x, to_up;
};

double setup_at_x(const struct setup_view *view, double x_mm);
double setup_at_up(const struct setup_view *view, double up_mm);

/* Drawn thickness of the bed, mm on paper. */
#define SETUP_BED_MM 3.0

void setup_blank_plan(struct canvas *canvas, const struct setup_view *view);
void setup_neck_plan(struct canvas *canvas, const struct setup_view *view);
void setup_blank_side(struct canvas *canvas, const struct setup_view *view);
void setup_neck_side(struct canvas *canvas, const struct setup_view *view);

/* Nothing when the blank lies on the bed itself. */
void setup_riser(struct canvas *canvas, const struct setup_view *view, bool plan);

/* A fretboard that is glued on, if it is. */
void setup_fretboard(struct canvas *canvas, const struct setup_view *view, bool plan);

/* The bed's surface with slanting strokes under it. */
void setup_bed(struct canvas *canvas, const struct setup_view *view);

/* With their labels. */
void setup_keep_outs(struct canvas *canvas, const struct setup_view *view,
		     struct setup_labels *labels, bool plan);
void setup_holds(struct canvas *canvas, const struct setup_view *view, struct setup_labels *labels);

/* A rectangle round all places of the tip. */
void setup_moves_bounds(struct canvas *canvas, const struct setup_view *view, bool plan);

#endif
