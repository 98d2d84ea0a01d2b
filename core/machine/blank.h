/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The piece of wood on the machine: a side outline (top over x) and a plan
 * outline (half-width over x). Both are polylines with x never falling; two
 * points at one x make a step, as a glued-up heel block does. */
#ifndef NECKHEW_MACHINE_BLANK_H
#define NECKHEW_MACHINE_BLANK_H

#include <stddef.h>

#include "base/fault.h"

#define BLANK_POINTS_MAX 64

struct outline {
	size_t count;
	double x_mm[BLANK_POINTS_MAX];
	double value_mm[BLANK_POINTS_MAX];
};

struct blank {
	struct outline top; /* z of the upper surface */
	struct outline bottom; /* z of the under surface; 0 where it lies flat */
	struct outline half_width; /* both sides alike */
};

/* Value of a polyline at x; at a step the larger of the two. Outside the
 * polyline its end value. */
double outline_value_mm(const struct outline *outline, double x_mm);

/* Largest and smallest value between two x, ends included. */
double outline_most_mm(const struct outline *outline, double from_mm, double to_mm);
double outline_least_mm(const struct outline *outline, double from_mm, double to_mm);

/* Extent of the blank along x, mm. */
double blank_from_mm(const struct blank *blank);
double blank_to_mm(const struct blank *blank);

/* Top of the highest wood, mm. */
double blank_highest_mm(const struct blank *blank);

/* Checks that the outlines span the same x, rise nowhere backward in x, and
 * keep bottom below top and width positive. */
enum fault blank_check(const struct blank *blank, struct fault_list *faults);

#endif
