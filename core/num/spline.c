/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "num/spline.h"

#include <math.h>

/* One equation of the tridiagonal system: before, own, after, right side. */
struct row {
	double before, own, after, right;
};

static double secant(const double *x, const double *y, size_t i)
{
	return (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
}

/* Slope at place[0] of the polynomial through the first `count` of the points
 * at `place`: Newton's divided differences. */
static double end_slope(const double *x, const double *y, const size_t *place, size_t count)
{
	double d[4] = { 0 }, product = 1.0;

	for (size_t i = 0; i < count; i++)
		d[i] = y[place[i]];
	for (size_t k = 1; k < count; k++)
		for (size_t i = count - 1; i >= k; i--)
			d[i] = (d[i] - d[i - 1]) / (x[place[i]] - x[place[i - k]]);
	double slope = d[1];
	for (size_t k = 2; k < count; k++) {
		product *= x[place[0]] - x[place[k - 1]];
		slope += d[k] * product;
	}
	return slope;
}

static struct row end_row(size_t count, const double *x, const double *y, enum spline_end end,
			  size_t at)
{
	size_t points = count < 4 ? count : 4, place[4];
	size_t piece = at == 0 ? 0 : at - 1;

	if (end == SPLINE_LEVEL)
		return (struct row){ 0.0, 1.0, 0.0, 0.0 };
	if (end == SPLINE_STRAIGHT)
		return (struct row){ at == 0 ? 0.0 : 1.0, 2.0, at == 0 ? 1.0 : 0.0,
				     3.0 * secant(x, y, piece) };
	for (size_t i = 0; i < points; i++)
		place[i] = at == 0 ? i : at - i;
	double slope = end_slope(x, y, place, points);
	/* against the way the points go: level is as far as it may turn */
	if (slope * secant(x, y, piece) < 0.0)
		slope = 0.0;
	return (struct row){ 0.0, 1.0, 0.0, slope };
}

static struct row inner_row(const double *x, const double *y, size_t i)
{
	double a = 1.0 / (x[i] - x[i - 1]), b = 1.0 / (x[i + 1] - x[i]);

	return (struct row){ a, 2.0 * (a + b), b,
			     3.0 * (a * secant(x, y, i - 1) + b * secant(x, y, i)) };
}

/* Cuts the slopes at both ends of a piece so that it stays between its points. */
static void keep_between(double *from, double *to, double rise)
{
	double *slope[2] = { from, to };

	for (int k = 0; k < 2; k++) {
		if (rise == 0.0 || *slope[k] / rise < 0.0)
			*slope[k] = 0.0;
		else if (*slope[k] / rise > 3.0)
			*slope[k] = 3.0 * rise;
	}
}

void spline_slopes(double *slope, size_t count, const double *x, const double *y,
		   enum spline_end first, enum spline_end last)
{
	double after[SPLINE_KNOTS_MAX];

	for (size_t i = 0; i < count; i++) {
		struct row row = i == 0		  ? end_row(count, x, y, first, 0)
				 : i + 1 == count ? end_row(count, x, y, last, i)
						  : inner_row(x, y, i);
		double own = row.own - (i > 0 ? row.before * after[i - 1] : 0.0);
		after[i] = row.after / own;
		slope[i] = (row.right - (i > 0 ? row.before * slope[i - 1] : 0.0)) / own;
	}
	for (size_t i = count; i > 1; i--)
		slope[i - 2] -= after[i - 2] * slope[i - 1];
	for (size_t i = 0; i + 1 < count; i++)
		keep_between(&slope[i], &slope[i + 1], secant(x, y, i));
}
