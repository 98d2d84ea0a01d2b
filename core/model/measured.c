/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/measured.h"

#include <math.h>

#include "num/curve.h"
#include "num/spline.h"

/* Heights nearer than this, as shares, are the same point twice: less than a
 * thousandth of a millimetre on any neck. */
#define LEAST_RISE 1e-5
#define MOST_FLAT 0.8
/* Halvings that find a place to the last digit. */
#define HALVINGS 60

static enum fault check_point(const struct section_outline *outline, size_t i, const char *setting,
			      struct fault_list *faults)
{
	double v = outline->height[i], b = outline->breadth[i];

	if (!isfinite(v) || !isfinite(b) || b < 0.0 || b > 1.0)
		return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				 "Point %zu of the measured outline is (%.5g, %.5g); both shares "
				 "can be 0 to 1.",
				 i + 1, v, b);
	if (i > 0 && !(v - outline->height[i - 1] >= LEAST_RISE))
		return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				 "Point %zu of the measured outline is at height %.5g, the one "
				 "before it at %.5g; list them from the gluing face up.",
				 i + 1, v, outline->height[i - 1]);
	if (i > 0 && b > outline->breadth[i - 1])
		return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				 "Point %zu of the measured outline is %.5g wide, the one below it "
				 "%.5g; a side cannot lean out, because the cutter comes from "
				 "above.",
				 i + 1, b, outline->breadth[i - 1]);
	return FAULT_NONE;
}

static enum fault check_ends(const struct section_outline *outline, const char *setting,
			     struct fault_list *faults)
{
	size_t last = outline->count - 1;

	if (outline->height[0] != 0.0 || outline->breadth[0] != 1.0)
		return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				 "The measured outline begins at (%.5g, %.5g); it must begin at "
				 "the edge of the gluing face, (0, 1).",
				 outline->height[0], outline->breadth[0]);
	if (outline->height[last] != 1.0 || outline->breadth[last] > MOST_FLAT)
		return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				 "The measured outline ends at (%.5g, %.5g); it must end at the "
				 "crest, (1, 0), or with a flat of up to %.2g there.",
				 outline->height[last], outline->breadth[last], MOST_FLAT);
	return FAULT_NONE;
}

static enum fault check(const struct section_outline *outline, const char *setting,
			struct fault_list *faults)
{
	if (outline->count == 0)
		return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				 "A measured section needs its outline: outline = ((0, 1), ... "
				 "(1, 0)). neckhew trace makes one from points.");
	if (outline->count < SECTION_POINTS_LEAST || outline->count > SECTION_POINTS_MAX)
		return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				 "The measured outline has %zu points; it can have %d to %d.",
				 outline->count, SECTION_POINTS_LEAST, SECTION_POINTS_MAX);
	for (size_t i = 0; i < outline->count; i++) {
		enum fault fault = check_point(outline, i, setting, faults);
		if (fault)
			return fault;
	}
	return check_ends(outline, setting, faults);
}

enum fault measured_make(struct measured *out, const struct section_outline *outline,
			 const char *setting, struct fault_list *faults)
{
	*out = (struct measured){ .count = outline->count };
	enum fault fault = check(outline, setting, faults);
	if (fault)
		return fault;
	for (size_t i = 0; i < out->count; i++) {
		out->height[i] = outline->height[i];
		out->breadth[i] = outline->breadth[i];
		out->angle_rad[i] = atan2(outline->height[i], outline->breadth[i]);
	}
	/* mirrored at the crest, height is even and breadth odd: with these ends
	 * the curvature runs on across it where both sides are alike */
	spline_slopes(out->height_slope, out->count, out->angle_rad, out->height, SPLINE_OPEN,
		      SPLINE_LEVEL);
	spline_slopes(out->breadth_slope, out->count, out->angle_rad, out->breadth, SPLINE_OPEN,
		      outline->breadth[out->count - 1] > 0.0 ? SPLINE_OPEN : SPLINE_STRAIGHT);
	return FAULT_NONE;
}

/* Piece whose lower end is the last of `knot` not above `value`. */
static size_t piece_of(const double *knot, size_t count, double value)
{
	size_t low = 0, high = count - 1;

	while (high - low > 1) {
		size_t middle = (low + high) / 2;
		if (knot[middle] <= value)
			low = middle;
		else
			high = middle;
	}
	return low;
}

static double along(const struct measured *measured, size_t i, double t, const double *y,
		    const double *slope)
{
	double w[4];

	curve_hermite(t, measured->angle_rad[i + 1] - measured->angle_rad[i], w);
	return w[0] * y[i] + w[1] * slope[i] + w[2] * y[i + 1] + w[3] * slope[i + 1];
}

double measured_share(const struct measured *measured, double v)
{
	size_t i = piece_of(measured->height, measured->count, v);
	double low = 0.0, high = 1.0;

	if (v <= 0.0)
		return 1.0;
	if (v >= 1.0)
		return measured->breadth[measured->count - 1];
	for (int k = 0; k < HALVINGS; k++) {
		double t = (low + high) / 2.0;
		if (along(measured, i, t, measured->height, measured->height_slope) < v)
			low = t;
		else
			high = t;
	}
	return along(measured, i, low, measured->breadth, measured->breadth_slope);
}

void measured_at(const struct measured *measured, double angle_rad, double *height, double *breadth)
{
	size_t i = piece_of(measured->angle_rad, measured->count, angle_rad);
	double from = measured->angle_rad[i], width = measured->angle_rad[i + 1] - from;
	double t = fmin(fmax((angle_rad - from) / width, 0.0), 1.0);

	*height = along(measured, i, t, measured->height, measured->height_slope);
	*breadth = along(measured, i, t, measured->breadth, measured->breadth_slope);
}
