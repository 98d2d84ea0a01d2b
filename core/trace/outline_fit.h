/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The outline of a section as a smooth curve through its points: the distance
 * from the middle of the gluing face over the angle from the +y edge (0) over
 * the crest to the other edge (pi), in shares of half-width and height. There the
 * crest and upright flanks are nothing special, and the points need no order. Each
 * side is a formula's (base_shape.h) and a smooth departure from it, which is
 * nothing at both edges and at the crest. Where these lie, how the formulas go
 * and how the frame lies is found with it: a fit tells the steps to a better one. */
#ifndef NECKHEW_TRACE_OUTLINE_FIT_H
#define NECKHEW_TRACE_OUTLINE_FIT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "num/curve.h"
#include "trace/base_shape.h"
#include "trace/trace_point.h"

/* Fewest points of an outline, and of one of its sides. */
#define OUTLINE_POINTS_LEAST 12
#define OUTLINE_SIDE_LEAST 5

struct outline_ask {
	struct trace_frame frame;
	double half_width_mm, height_mm; /* what the shares are of */
	bool alike; /* one curve for both sides */
	bool level_crest; /* level on the centre line, as a neck's crest is */
	bool hold_width, hold_height; /* they are known */
	/* What the gluing face tells of the tilt: how far the frame's is off it, and
	 * the sum of the squared distances, mm2, that this rests on. */
	double tilt_off_rad, tilt_weight_mm2;
	/* Likewise of the height, and how many points that rests on; 0: the frame's
	 * height is taken as it is, unless the section's height is held. */
	double lift_off_mm, lift_weight;
	bool find_base; /* find the nearest formulas instead of taking `base` */
	/* The formulas alone, with their figures free; otherwise the figures are kept
	 * and the departure is fitted. */
	bool formulas_only;
	struct base_shape base[2]; /* by neck side */
};

/* What the points would have changed. */
struct outline_steps {
	double tilt_rad, y_mm, z_mm; /* of the frame */
	double width_share, height_share; /* by these shares more */
	double figure[2]; /* of the formulas, by neck side */
};

struct outline_fit {
	struct outline_ask ask; /* with the formulas that were taken */
	struct curve departure; /* over the angle; to pi / 2 when the sides are alike */
	struct outline_steps steps;
	double freedom; /* parameters spent on the points */
	double scatter_mm; /* of the points about the fit, standard deviation */
};

/* Fits the points that are FATE_OUTLINE or FATE_ASIDE, and marks anew which are
 * aside: those farther from the curve than six times the scatter of the rest
 * (median of the absolute residuals), square to the curve. Points count less the
 * farther off they are (Tukey's biweight; from memory). Too few points are
 * FAULT_GEOMETRY, FAULT_MEMORY. Release with outline_fit_free, also after a failure. */
enum fault outline_fit_make(struct outline_fit *out, const struct outline_ask *ask,
			    struct trace_point *point, size_t count, struct fault_list *faults);
void outline_fit_free(struct outline_fit *fit);

/* The place at an angle from 0 to pi, mm. */
struct trace_place outline_fit_at(const struct outline_fit *fit, double angle_rad);

#endif
