/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Slopes for a cubic spline through points that rise, or fall, all the way. */
#ifndef NECKHEW_NUM_SPLINE_H
#define NECKHEW_NUM_SPLINE_H

#include <stddef.h>

#define SPLINE_KNOTS_MAX 64

enum spline_end {
	SPLINE_OPEN, /* slope of the cubic through the four points at the end, or level */
	SPLINE_LEVEL, /* slope 0 */
	SPLINE_STRAIGHT /* no curvature */
};

/* Slopes at the `count` (2 to SPLINE_KNOTS_MAX) knots x, strictly rising, for
 * the spline through y with continuous curvature (de Boor, A Practical Guide to
 * Splines; from memory). Where it would swing back between two points, the
 * slopes there are cut until it does not (Fritsch and Carlson, SIAM J. Numer.
 * Anal. 17 (1980) 238, their square): only there may the curvature jump. The
 * pieces are those of curve_hermite. */
void spline_slopes(double *slope, size_t count, const double *x, const double *y,
		   enum spline_end first, enum spline_end last);

#endif
