/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One side of a section from a table of points. Height and breadth each run on
 * a cubic spline over the angle at which the middle of the gluing face sees the
 * point, both in shares: there a circle's are sine and cosine, so that the
 * crest stays round although the breadth falls to it like a square root. */
#ifndef NECKHEW_MODEL_MEASURED_H
#define NECKHEW_MODEL_MEASURED_H

#include "base/fault.h"
#include "model/neck_spec.h"

struct measured {
	size_t count;
	double angle_rad[SECTION_POINTS_MAX];
	double height[SECTION_POINTS_MAX], height_slope[SECTION_POINTS_MAX];
	double breadth[SECTION_POINTS_MAX], breadth_slope[SECTION_POINTS_MAX];
};

/* Prepares the outline. FAULT_SETTING, naming the point, when the table does not
 * run from height 0 and breadth 1 to height 1, when a height does not rise or a
 * breadth does not fall or stay, and when the flat at the crest is more than 0.8.
 * `setting` is as for section_make. */
enum fault measured_make(struct measured *out, const struct section_outline *outline,
			 const char *setting, struct fault_list *faults);

/* Half-breadth share at height share v in [0, 1]. Never rises with v. */
double measured_share(const struct measured *measured, double v);

/* Outline at an angle, in shares. Angles before the first point and beyond the
 * last are taken for those. */
void measured_at(const struct measured *measured, double angle_rad, double *height,
		 double *breadth);

#endif
