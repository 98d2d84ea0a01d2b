/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The curve of a cap's front end, seen from its own side: half-breadth as a
 * share of the cap's, over the share of the curve's length from its tip. */
#ifndef NECKHEW_MODEL_CAP_PLAN_H
#define NECKHEW_MODEL_CAP_PLAN_H

#include "model/neck_spec.h"

/* Two arcs make a point only when the curve is longer than half the cap's
 * width; from this many times on it is one that can be seen. */
#define CAP_POINT_LEAST 1.2

struct cap_plan_curve {
	enum cap_plan plan;
	double length_mm; /* 0 for a square front */
	double aspect; /* length over half the width where the curve ends */
};

/* The curve of a block heel; its usual length when none is stated: half the
 * front width but at most 0.6 of the cap (round), or three quarters of it but at
 * most 0.8 of the cap (pointed). */
struct cap_plan_curve cap_plan_curve(const struct heel_spec *heel);

/* Share of the half-breadth at t, 0 at the tip to 1 where the sides begin; held
 * beyond. Round: the ellipse sqrt(1 - (1 - t)^2), whose first hundredth of the
 * length is replaced by its tangent (a tip 0.07 of the width wide), so that its
 * slope is finite. Pointed: circular arcs that run into the sides without a
 * corner. Square: 1 everywhere. Rises, never falls. Source: circle and ellipse. */
double cap_plan_share(const struct cap_plan_curve *curve, double t);

/* The t whose ideal curve (without the round one's blunt tip) has that share. */
double cap_plan_inverse(const struct cap_plan_curve *curve, double share);

#endif
