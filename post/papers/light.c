/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/light.h"

#include <math.h>

/* Looking for the place of the largest departure, mm. */
#define STEP_MM 0.5

static double value_mm(const struct neck *neck, enum light_line line, double x_mm)
{
	if (line == LIGHT_CENTRE)
		return neck_crest_mm(neck, x_mm);
	return neck_half_breadth_mm(neck, line == LIGHT_MINUS_EDGE ? SIDE_MINUS : SIDE_PLUS, x_mm,
				    0.0);
}

struct light light_under(const struct neck *neck, enum light_line line, double from_mm,
			 double to_mm)
{
	double from = value_mm(neck, line, from_mm), length = to_mm - from_mm;
	double rise = value_mm(neck, line, to_mm) - from;
	size_t steps = length > 0.0 ? (size_t)ceil(length / STEP_MM) : 0;
	struct light light = { .most_at_mm = from_mm };

	for (int i = 0; i < LIGHT_PLACES && length > 0.0; i++) {
		double share = (double)(i + 1) / (LIGHT_PLACES + 1);
		light.gap_mm[i] =
			from + share * rise - value_mm(neck, line, from_mm + share * length);
	}
	for (size_t i = 1; i < steps; i++) {
		double share = (double)i / (double)steps;
		double gap = from + share * rise - value_mm(neck, line, from_mm + share * length);
		if (fabs(gap) <= fabs(light.most_signed_mm))
			continue;
		light.most_signed_mm = gap;
		light.most_at_mm = from_mm + share * length;
	}
	light.most_mm = line == LIGHT_CENTRE
				? neck_crest_straightness_mm(neck, from_mm, to_mm)
				: neck_edge_straightness_mm(
					  neck, line == LIGHT_MINUS_EDGE ? SIDE_MINUS : SIDE_PLUS,
					  from_mm, to_mm);
	return light;
}
