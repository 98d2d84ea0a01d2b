/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "num/curve.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_interp.h>
#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"

static bool usable(size_t count, const double *x, const double *y)
{
	if (count < 2)
		return false;
	for (size_t i = 0; i < count; i++) {
		if (!isfinite(x[i]) || !isfinite(y[i]))
			return false;
		if (i > 0 && !(x[i] > x[i - 1]))
			return false;
	}
	return true;
}

static void straight_slopes(struct curve *curve)
{
	double slope = (curve->y[1] - curve->y[0]) / (curve->x[1] - curve->x[0]);

	curve->slope[0] = curve->slope[1] = slope;
}

/* Slope at an end from the two secants s0 (the end's) and s1 over widths h0 and
 * h1: the parabola's, kept within what stays monotone. Steffen 1990, section
 * on boundaries; GSL takes the bare secant there. */
static double end_slope(double s0, double h0, double s1, double h1)
{
	double parabola = s0 * (1.0 + h0 / (h0 + h1)) - s1 * h0 / (h0 + h1);

	if (parabola * s0 <= 0.0)
		return 0.0;
	return fabs(parabola) > 2.0 * fabs(s0) ? 2.0 * s0 : parabola;
}

static void end_slopes(struct curve *curve)
{
	const double *x = curve->x, *y = curve->y;
	size_t n = curve->count;
	double h0 = x[1] - x[0], h1 = x[2] - x[1];
	double g0 = x[n - 1] - x[n - 2], g1 = x[n - 2] - x[n - 3];

	curve->slope[0] = end_slope((y[1] - y[0]) / h0, h0, (y[2] - y[1]) / h1, h1);
	curve->slope[n - 1] =
		end_slope((y[n - 1] - y[n - 2]) / g0, g0, (y[n - 2] - y[n - 3]) / g1, g1);
}

/* Takes the inner slopes from GSL's Steffen spline; value and slope at both
 * ends fix each cubic piece completely. */
static enum fault steffen_slopes(struct curve *curve, struct fault_list *faults)
{
	gsl_interp *spline = gsl_interp_alloc(gsl_interp_steffen, curve->count);
	int status = spline ? gsl_interp_init(spline, curve->x, curve->y, curve->count)
			    : GSL_ENOMEM;

	for (size_t i = 0; status == GSL_SUCCESS && i < curve->count; i++)
		status = gsl_interp_eval_deriv_e(spline, curve->x, curve->y, curve->x[i], NULL,
						 &curve->slope[i]);
	gsl_interp_free(spline);
	if (status == GSL_SUCCESS)
		end_slopes(curve);
	if (status == GSL_ENOMEM)
		return fault_no_memory(faults, "a curve");
	if (status != GSL_SUCCESS)
		return fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
				 "A curve through %zu points could not be fitted: %s.",
				 curve->count, gsl_strerror(status));
	return FAULT_NONE;
}

enum fault curve_steffen(struct curve *out, size_t count, const double *x, const double *y,
			 struct fault_list *faults)
{
	*out = (struct curve){ 0 };
	if (!usable(count, x, y))
		return fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
				 "A curve needs two or more finite points with rising x.");
	struct curve curve = { .count = count,
			       .x = mem_array(count, sizeof(double)),
			       .y = mem_array(count, sizeof(double)),
			       .slope = mem_array(count, sizeof(double)) };
	enum fault fault = FAULT_NONE;
	if (!curve.x || !curve.y || !curve.slope) {
		fault = fault_no_memory(faults, "a curve");
		goto cleanup;
	}
	for (size_t i = 0; i < count; i++) {
		curve.x[i] = x[i];
		curve.y[i] = y[i];
	}
	if (count == 2)
		straight_slopes(&curve);
	else
		fault = steffen_slopes(&curve, faults);
cleanup:
	if (fault != FAULT_NONE)
		curve_free(&curve);
	*out = curve;
	return fault;
}

void curve_free(struct curve *curve)
{
	if (!curve)
		return;
	free(curve->x);
	free(curve->y);
	free(curve->slope);
	*curve = (struct curve){ 0 };
}

/* Index of the piece that holds x, which lies strictly inside the knots. */
static size_t piece_at(const struct curve *curve, double x)
{
	size_t low = 0, high = curve->count - 1;

	while (high - low > 1) {
		size_t middle = (low + high) / 2;
		if (curve->x[middle] <= x)
			low = middle;
		else
			high = middle;
	}
	return low;
}

static double weigh(const struct curve *curve, size_t i, const double w[4])
{
	return w[0] * curve->y[i] + w[1] * curve->slope[i] + w[2] * curve->y[i + 1] +
	       w[3] * curve->slope[i + 1];
}

double curve_value(const struct curve *curve, double x)
{
	size_t last = curve->count - 1;

	if (x <= curve->x[0])
		return curve->y[0] + (x - curve->x[0]) * curve->slope[0];
	if (x >= curve->x[last])
		return curve->y[last] + (x - curve->x[last]) * curve->slope[last];
	size_t i = piece_at(curve, x);
	double width = curve->x[i + 1] - curve->x[i], w[4];
	curve_hermite((x - curve->x[i]) / width, width, w);
	return weigh(curve, i, w);
}

double curve_slope(const struct curve *curve, double x)
{
	size_t last = curve->count - 1;

	if (x <= curve->x[0])
		return curve->slope[0];
	if (x >= curve->x[last])
		return curve->slope[last];
	size_t i = piece_at(curve, x);
	double width = curve->x[i + 1] - curve->x[i], w[4];
	curve_hermite_slope((x - curve->x[i]) / width, width, w);
	return weigh(curve, i, w);
}
