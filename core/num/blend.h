/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Smooth steps. */
#ifndef NECKHEW_NUM_BLEND_H
#define NECKHEW_NUM_BLEND_H

/* 0 up to `from`, 1 from `to`, in between the quintic 6t^5 - 15t^4 + 10t^3:
 * monotone, slope and curvature zero at both ends. */
static inline double blend_step(double x, double from, double to)
{
	double t = (x - from) / (to - from);

	if (t <= 0.0)
		return 0.0;
	if (t >= 1.0)
		return 1.0;
	return t * t * t * (t * (6.0 * t - 15.0) + 10.0);
}

/* Quintic between (0, y0, slope0) and (width, y1, slope1) with no curvature at
 * either end, at t in [0, 1]: the straight lines at both ends continue it with
 * continuous curvature. */
static inline double blend_lines(double t, double width, double y0, double slope0, double y1,
				 double slope1)
{
	double s = t * t * t * (t * (6.0 * t - 15.0) + 10.0);
	/* Hermite quintic basis for the slopes, curvature terms left out */
	double g0 = t - t * t * t * (6.0 + t * (3.0 * t - 8.0));
	double g1 = t * t * t * (-4.0 + t * (7.0 - 3.0 * t));

	return y0 + (y1 - y0) * s + width * (slope0 * g0 + slope1 * g1);
}

#endif
