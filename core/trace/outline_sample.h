/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Points of an outline as angle and share, and what moves them. Private to
 * core/trace. */
#ifndef NECKHEW_TRACE_OUTLINE_SAMPLE_H
#define NECKHEW_TRACE_OUTLINE_SAMPLE_H

#include <stddef.h>

#include "trace/outline_fit.h"

/* Things besides the departure that move the outline. */
enum outline_effect {
	EFFECT_TILT,
	EFFECT_SHIFT,
	EFFECT_LIFT,
	EFFECT_WIDTH,
	EFFECT_HEIGHT,
	EFFECT_FIGURE_MINUS,
	EFFECT_FIGURE_PLUS,
	EFFECT_COUNT
};

struct outline_sample {
	struct trace_point *point;
	struct trace_place place; /* upright, mm */
	double angle_rad; /* 0 to pi */
	double share;
	double base, base_slope; /* of the formula there */
	double figure; /* effect of the formula's figure there */
};

/* Samples of the points that are FATE_OUTLINE or FATE_ASIDE. Returns how many. */
size_t outline_samples(struct outline_sample *out, const struct outline_ask *ask,
		       struct trace_point *point, size_t count);

/* Finds, or keeps, the formulas of an ask. */
void outline_samples_find_base(struct outline_ask *ask, const struct outline_sample *sample,
			       size_t count);

/* Fills in base, base_slope and figure. */
void outline_samples_set_base(struct outline_sample *sample, size_t count,
			      const struct outline_ask *ask);

/* The formula's share at an angle from 0 to pi. */
double outline_base(const struct outline_ask *ask, double angle_rad);

/* mm square to a curve for one unit of share, where it has this share and slope;
 * and what a unit of each effect adds to a point's share there. */
double outline_sample_effects(const struct outline_sample *sample, const struct outline_ask *ask,
			      double share, double slope, double effect[EFFECT_COUNT]);

#endif
