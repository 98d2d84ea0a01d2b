/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece of wood on the machine: a side outline (top and bottom over x) and
 * a plan outline (distance of the sides from the centre line over x). All are
 * polylines with x never falling; two points at one x make a step, as a glued-up
 * heel block does.
 *
 * Nobody saws to the line. Top, sides and ends may differ from their outlines by
 * the margin: any face may lie that far in or out, and steps and slopes that
 * far to and fro along x. So at x the top lies between the lowest place of its
 * outline within a margin of x, less a margin, and the highest, more a margin;
 * and likewise the sides. The ends may stick out by the margin but are not
 * short: there the neck itself ends. The under side is the reference: the
 * gluing face and the peghead's face are planed before the blank is clamped,
 * and all heights count from there. */
#ifndef NECKHEW_MACHINE_BLANK_H
#define NECKHEW_MACHINE_BLANK_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"

#define BLANK_POINTS_MAX 512

struct outline {
	size_t count;
	double x_mm[BLANK_POINTS_MAX];
	double value_mm[BLANK_POINTS_MAX];
};

/* The sides by the sign of y. */
enum blank_side { BLANK_MINUS, BLANK_PLUS, BLANK_SIDES };

struct blank {
	struct outline top; /* z of the upper surface */
	struct outline bottom; /* z of the under surface; 0 where it lies flat */
	/* Distance of the sides from the centre line: either of both alike, or of
	 * each. What is not given has no points. blank_side tells them apart. */
	struct outline half_width;
	struct outline side[BLANK_SIDES];
	double margin_mm;
};

/* Value of a polyline at x; at a step the larger of the two. Outside the
 * polyline its end value. */
double outline_value_mm(const struct outline *outline, double x_mm);

/* Largest and smallest value between two x, ends included. */
double outline_most_mm(const struct outline *outline, double from_mm, double to_mm);
double outline_least_mm(const struct outline *outline, double from_mm, double to_mm);

/* The outline that holds for one side. */
const struct outline *blank_side(const struct blank *blank, enum blank_side side);

/* True when both sides have one outline. */
bool blank_sides_alike(const struct blank *blank);

/* As drawn, without the margin: extent along x, the farther side's largest
 * distance from the centre line between two x, top of the highest wood, mm. */
double blank_from_mm(const struct blank *blank);
double blank_to_mm(const struct blank *blank);
double blank_widest_mm(const struct blank *blank, double from_mm, double to_mm);
double blank_highest_mm(const struct blank *blank);

/* With the margin: where the wood may begin and end at the outside, how high the
 * top and how far out a side may be at most and at least between two x, ends
 * included, mm. */
double blank_from_most_mm(const struct blank *blank);
double blank_to_most_mm(const struct blank *blank);
double blank_top_most_mm(const struct blank *blank, double from_mm, double to_mm);
double blank_top_least_mm(const struct blank *blank, double from_mm, double to_mm);
double blank_side_most_mm(const struct blank *blank, enum blank_side side, double from_mm,
			  double to_mm);
double blank_side_least_mm(const struct blank *blank, enum blank_side side, double from_mm,
			   double to_mm);

/* Largest distance of any wood from the centre line, and top of the highest,
 * with the margin, mm. */
double blank_widest_most_mm(const struct blank *blank);
double blank_highest_most_mm(const struct blank *blank);

/* Checks that the sides are given in one way, that the outlines span the same
 * x, rise nowhere backward in x, and that bottom stays below top and widths
 * positive, also where the margin takes wood away. */
enum fault blank_check(const struct blank *blank, struct fault_list *faults);

#endif
