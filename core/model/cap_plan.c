/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/cap_plan.h"

#include <math.h>

/* Usual length over half the front width, and the most of the cap's length that
 * it takes: the sides behind it need room to be sides. */
static const struct {
	double over_half, of_cap;
} usual[CAP_PLAN_COUNT] = { [CAP_ROUND] = { 1.0, 0.6 }, [CAP_POINTED] = { 1.5, 0.8 } };

/* The round tip is blunt up to here. */
#define BLUNT_SHARE 0.01

struct cap_plan_curve cap_plan_curve(const struct heel_spec *heel)
{
	double half_mm = heel->cap_width_front_mm / 2.0;
	struct cap_plan_curve curve = { .plan = heel->cap_plan, .length_mm = heel->cap_curve_mm };

	if (heel->cap_plan == CAP_SQUARE || !(heel->cap_curve_mm > 0.0))
		curve.length_mm = fmin(usual[heel->cap_plan].over_half * half_mm,
				       usual[heel->cap_plan].of_cap * heel->cap_length_mm);
	curve.aspect = curve.length_mm / half_mm;
	return curve;
}

/* Radius of a pointed plan's arcs over the half-width: length k and half-width
 * 1 make k^2 + (r - 1)^2 = r^2. */
static double arc_radius(double aspect)
{
	return (aspect * aspect + 1.0) / 2.0;
}

static double ellipse(double t)
{
	return sqrt(t * (2.0 - t));
}

double cap_plan_share(const struct cap_plan_curve *curve, double t)
{
	double back = curve->aspect * (1.0 - t), r = arc_radius(curve->aspect);

	if (t >= 1.0 || curve->plan == CAP_SQUARE)
		return 1.0;
	if (curve->plan == CAP_POINTED)
		return t <= 0.0 ? 0.0 : sqrt(r * r - back * back) - (r - 1.0);
	if (t >= BLUNT_SHARE)
		return ellipse(t);
	double least = ellipse(BLUNT_SHARE), slope = (1.0 - BLUNT_SHARE) / least;
	return least - slope * (BLUNT_SHARE - fmax(t, 0.0));
}

double cap_plan_inverse(const struct cap_plan_curve *curve, double share)
{
	double r = arc_radius(curve->aspect), across = share + r - 1.0;

	if (share >= 1.0)
		return 1.0;
	if (curve->plan == CAP_POINTED)
		return 1.0 - sqrt(r * r - across * across) / curve->aspect;
	return 1.0 - sqrt(1.0 - share * share);
}
