/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/any_blank.h"

#include <math.h>

#include "model/taper.h"
#include "support/any_neck.h"
#include "support/seed.h"

/* x where every blank begins, mm; the peghead's clamp holds it there. */
#define BLANK_FROM_MM (-190.0)

static void add_point(struct outline *outline, double x_mm, double value_mm)
{
	outline->x_mm[outline->count] = x_mm;
	outline->value_mm[outline->count++] = value_mm;
}

/* Top of the shaft's part of the blank, mm. */
static double shaft_top(const struct neck_spec *neck, const gsl_rng *rng)
{
	double board_mm = neck->over_fretboard ? neck->fretboard_thickness_mm : 0.0;
	double wood_mm = neck->station[neck->station_count - 1].thickness_mm - board_mm;
	double top = wood_mm + neck->peghead.volute_height_mm + any_neck_stock_mm(neck) +
		     seed_between(rng, 1.0, 6.0);

	return neck->heel.kind != HEEL_BLOCK
		       ? fmax(top, neck->heel.height_mm + any_neck_stock_mm(neck) + 1.0)
		       : top;
}

/* Sawn parallel to the peghead's back up to the shaft's level top; a block for
 * the heel glued on. */
static void any_top(struct outline *top, const struct neck_spec *neck, const gsl_rng *rng)
{
	double slope = tan(neck->peghead.angle_rad), end = any_neck_end_mm(neck);
	double back_mm = neck->peghead.thickness_mm / cos(neck->peghead.angle_rad);
	double level = shaft_top(neck, rng);
	double spare = any_neck_stock_mm(neck) + seed_between(rng, 0.5, 4.0);
	double kink = slope > 0.0 ? fmin((back_mm + spare - level) / slope, -1.0) : BLANK_FROM_MM;

	/* where a steep back would meet the shaft behind the nut it goes on to there */
	level = fmax(level, back_mm + spare + neck->peghead.volute_height_mm - kink * slope);
	top->count = 0;
	if (slope > 0.0)
		add_point(top, BLANK_FROM_MM, back_mm + spare - BLANK_FROM_MM * slope);
	add_point(top, kink, level);
	if (neck->heel.kind == HEEL_BLOCK) {
		double block = end - neck->heel.cap_length_mm - seed_between(rng, 38.0, 44.0);
		add_point(top, block, level);
		level = neck->heel.height_mm + any_neck_stock_mm(neck) +
			seed_between(rng, 1.0, 4.0);
		add_point(top, block, level);
	}
	add_point(top, end, level);
}

/* Either as wide as the peghead all along or sawn to a taper behind it. */
static void any_half_width(struct outline *width, const struct neck_spec *neck, const gsl_rng *rng)
{
	double end = any_neck_end_mm(neck),
	       spare = neck->allowance.sides_mm + seed_between(rng, 0.5, 4.0);
	double peghead = neck->peghead.width_mm / 2.0 + spare;
	double transition = neck->peghead.transition_mm;

	width->count = 0;
	add_point(width, BLANK_FROM_MM, peghead);
	if (seed_one_in(rng, 4)) {
		add_point(width, end, peghead);
		return;
	}
	add_point(width, 5.0 - transition, peghead);
	add_point(width, 6.0 - transition, taper_wood_half_width_mm(neck, 0.0) + spare + 4.0);
	add_point(width, end, taper_wood_half_width_mm(neck, end) + spare);
}

void any_blank(struct blank *blank, const struct neck_spec *neck, const gsl_rng *rng)
{
	double slope = tan(neck->peghead.angle_rad);

	any_top(&blank->top, neck, rng);
	any_half_width(&blank->half_width, neck, rng);
	blank->bottom.count = 0;
	add_point(&blank->bottom, BLANK_FROM_MM, -BLANK_FROM_MM * slope);
	add_point(&blank->bottom, 0.0, 0.0);
	add_point(&blank->bottom, any_neck_end_mm(neck), 0.0);
}
