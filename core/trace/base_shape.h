/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The formula that one side of a section comes nearest to. What is fitted to the
 * points besides is only how they depart from it: a ridge or a flat back then
 * costs no freedom, and what is neither is not forced into one. */
#ifndef NECKHEW_TRACE_BASE_SHAPE_H
#define NECKHEW_TRACE_BASE_SHAPE_H

#include <stddef.h>

#include "model/section.h"

/* Distance from the middle of the gluing face over the angle from the edge, in
 * shares of half-width and height; of so many points together. */
struct base_sample {
	double angle_rad, share, weight;
};

struct base_shape {
	struct section_spec spec;
	double half_width_mm, height_mm;
	struct section section; /* made of these */
};

/* The C, U, D or V section nearest to the samples by least squares, for a place
 * `half_width_mm` wide and `height_mm` high. */
struct base_shape base_shape_find(const struct base_sample *sample, size_t count,
				  double half_width_mm, double height_mm);

/* The same formula for another place, its one figure (fullness of C and U, flat
 * share of D, apex radius of V in mm) changed by `step` as far as it can be. */
struct base_shape base_shape_moved(const struct base_shape *base, double half_width_mm,
				   double height_mm, double step);

/* The section's distance at an angle from 0 to pi / 2, in shares; and what a unit
 * of its figure adds to that. */
double base_shape_share(const struct base_shape *base, double angle_rad);
double base_shape_effect(const struct base_shape *base, double angle_rad);

#endif
