/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A curve y(x) of cubic pieces between knots, given by value and slope at each
 * knot (Hermite form); straight beyond its ends. The only user of GSL's
 * interpolation. */
#ifndef NECKHEW_NUM_CURVE_H
#define NECKHEW_NUM_CURVE_H

#include <stddef.h>

#include "base/fault.h"

struct curve {
	size_t count; /* knots, at least 2 */
	double *x, *y, *slope; /* x strictly rising */
};

/* Shape-preserving curve through the points: monotone where they are, extrema
 * only at points, continuous slope; the curvature may jump at points. Three
 * points or more follow M. Steffen, Astron. Astrophys. 239 (1990) 443; two
 * give a straight line. x must rise strictly and all be finite, else
 * FAULT_INTERNAL. */
enum fault curve_steffen(struct curve *out, size_t count, const double *x, const double *y,
			 struct fault_list *faults);

/* Releases the knots; NULL is accepted. */
void curve_free(struct curve *curve);

double curve_value(const struct curve *curve, double x);
double curve_slope(const struct curve *curve, double x);

/* Weights of a cubic Hermite piece at t in [0, 1] of an interval `width` wide:
 * value = w[0] y0 + w[1] slope0 + w[2] y1 + w[3] slope1. */
static inline void curve_hermite(double t, double width, double w[4])
{
	double t2 = t * t, t3 = t2 * t;

	w[0] = 2.0 * t3 - 3.0 * t2 + 1.0;
	w[1] = (t3 - 2.0 * t2 + t) * width;
	w[2] = 3.0 * t2 - 2.0 * t3;
	w[3] = (t3 - t2) * width;
}

/* The same for the slope dy/dx. */
static inline void curve_hermite_slope(double t, double width, double w[4])
{
	double t2 = t * t;

	w[0] = (6.0 * t2 - 6.0 * t) / width;
	w[1] = 3.0 * t2 - 4.0 * t + 1.0;
	w[2] = (6.0 * t - 6.0 * t2) / width;
	w[3] = 3.0 * t2 - 2.0 * t;
}

#endif
