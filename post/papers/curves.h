/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of the finished neck over x, dense enough to be cut along. */
#ifndef NECKHEW_PAPERS_CURVES_H
#define NECKHEW_PAPERS_CURVES_H

#include <stddef.h>

#include "base/fault.h"
#include "model/neck.h"

/* Between two points along the neck, mm: on a bend of 8 mm radius the chord is
 * off by 0.001 mm. */
#define CURVES_STEP_MM 0.25

struct curve_points {
	size_t count;
	double *x_mm, *value_mm;
};

/* What is asked of the neck at a place, mm. */
typedef double curve_of(const struct neck *neck, double x_mm);

/* Values from one x to another, both included, and at every knot of the neck
 * between. FAULT_MEMORY; release with curves_free in either case. */
enum fault curves_sample(struct curve_points *out, const struct neck *neck, double from_mm,
			 double to_mm, curve_of *value, struct fault_list *faults);

/* NULL is accepted. */
void curves_free(struct curve_points *curve);

/* Half-breadths at the gluing (or peghead's) face and on the crest. */
double curves_minus_edge_mm(const struct neck *neck, double x_mm);
double curves_plus_edge_mm(const struct neck *neck, double x_mm);
double curves_minus_crest_mm(const struct neck *neck, double x_mm);
double curves_plus_crest_mm(const struct neck *neck, double x_mm);

#endif
