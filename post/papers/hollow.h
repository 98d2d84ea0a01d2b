/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hollow of a block heel's cheeks: how far the cheek dips under a straight
 * edge laid upright on it from the gluing face to the cap. */
#ifndef NECKHEW_PAPERS_HOLLOW_H
#define NECKHEW_PAPERS_HOLLOW_H

#include <stddef.h>

#include "base/fault.h"
#include "model/neck.h"

/* Where the hollow is this deep, mm, the rim that bears on the body ends. */
#define HOLLOW_RIM_MM 0.1

enum hollow_level { HOLLOW_RIM, HOLLOW_HALF, HOLLOW_LEVEL_COUNT };

/* A line of equal depth seen from the side: at x it lies at low and at high. */
struct hollow_line {
	double depth_mm;
	size_t count;
	double *x_mm, *low_mm, *high_mm;
};

struct hollow {
	double deepest_mm; /* 0: none worth a mark */
	double deepest_x_mm, deepest_z_mm;
	struct hollow_line line[HOLLOW_LEVEL_COUNT];
};

/* Depth at x and height fraction v on one side, mm, square to the centre plane;
 * negative where the cheek bulges. */
double hollow_depth_mm(const struct neck *neck, enum neck_side side, double x_mm, double v);

/* Measures the cheek at +y; both are made by the same rule. Flat heels have
 * none. FAULT_MEMORY; release with hollow_free in either case. */
enum fault hollow_build(struct hollow *out, const struct neck *neck, struct fault_list *faults);

/* NULL is accepted. */
void hollow_free(struct hollow *hollow);

#endif
