/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/neck.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/mem.h"
#include "model/cap_plan.h"
#include "model/neck_check.h"
#include "model/neck_private.h"
#include "model/taper.h"

/* Wood beside the truss-rod channel at its floor, least per side, mm (common
 * practice, no source). */
#define LEAST_CHANNEL_WALL_MM 2.0
/* Side walls of the channel: the section at its floor must be wide enough. */
static enum fault check_channel_wall(const struct neck *neck, double x_mm,
				     struct fault_list *faults)
{
	const struct channel_spec *channel = &neck->spec.channel;
	double height = neck_crest_mm(neck, x_mm) - neck_base_mm(neck, x_mm);
	double v = channel->depth_mm / height;

	for (int side = 0; side < SIDE_COUNT; side++) {
		double half = v < 1.0 ? neck_half_breadth_mm(neck, (enum neck_side)side, x_mm, v)
				      : 0.0;
		if (half - channel->width_mm / 2.0 < LEAST_CHANNEL_WALL_MM)
			return fault_add(faults, FAULT_GEOMETRY, NULL, 0, "channel.width",
					 "At %.4g mm from the nut the section is %.4g mm wide at "
					 "the channel's floor; a channel %.4g mm wide needs at "
					 "least %.4g mm there (%.4g mm of wood each side).",
					 x_mm, 2.0 * half, channel->width_mm,
					 channel->width_mm + 2.0 * LEAST_CHANNEL_WALL_MM,
					 LEAST_CHANNEL_WALL_MM);
	}
	return FAULT_NONE;
}

static enum fault check_channel(const struct neck *neck, struct fault_list *faults)
{
	const struct channel_spec *channel = &neck->spec.channel;
	double at_mm = 0.0;

	if (channel->width_mm <= 0.0)
		return FAULT_NONE;
	if (!(channel->depth_mm > 0.0))
		return fault_add(faults, FAULT_SETTING, NULL, 0, "channel.depth",
				 "It is %.4g mm; a channel needs a depth above 0.",
				 channel->depth_mm);
	if (!(channel->to_mm > channel->from_mm) || channel->from_mm < neck_from_mm(neck) ||
	    channel->to_mm > neck_to_mm(neck) + 0.5)
		return fault_add(faults, FAULT_GEOMETRY, NULL, 0, "channel.to",
				 "The channel runs from %.4g to %.4g mm; it must run toward the "
				 "body and end by %.4g mm, where the neck does.",
				 channel->from_mm, channel->to_mm, neck_to_mm(neck));
	size_t steps = walk_steps(channel->from_mm, channel->to_mm);
	for (size_t i = 0; i <= steps; i++) {
		double x = walk_place(channel->from_mm, channel->to_mm, i, steps);
		enum fault fault = check_channel_wall(neck, x, faults);
		if (fault != FAULT_NONE)
			return fault;
	}
	double least = neck_least_wood_over_channel_mm(neck, &at_mm);
	if (least < channel->least_wood_mm)
		return fault_add(faults, FAULT_GEOMETRY, NULL, 0, "channel.depth",
				 "Only %.3f mm of wood would remain over the channel at %.1f mm "
				 "from the nut; channel.least_wood asks for %.3f mm.",
				 least, at_mm, channel->least_wood_mm);
	return FAULT_NONE;
}

/* Behind the last station the crest goes on as it ended; a shaft that thins
 * must not run out of wood before the heel. */
static enum fault check_shaft(const struct neck *neck, struct fault_list *faults)
{
	double to = neck->crest.heel_proper_mm;
	size_t steps = walk_steps(0.0, to);

	for (size_t i = 0; i <= steps; i++) {
		double x = walk_place(0.0, to, i, steps);
		if (!(neck_crest_mm(neck, x) >= NECK_LEAST_WOOD_MM))
			return fault_add(
				faults, FAULT_GEOMETRY, NULL, 0, "stations",
				"%.1f mm from the nut only %.3f mm of wood would be left; "
				"at least %.1f mm must remain. Add a station there or make "
				"the neck thicker.",
				x, neck_crest_mm(neck, x), NECK_LEAST_WOOD_MM);
	}
	return FAULT_NONE;
}

static enum fault build(struct neck *neck, struct fault_list *faults)
{
	struct breadth breadth = { 0 };
	enum fault fault = neck_check(&neck->spec, faults);

	if (fault == FAULT_NONE)
		fault = crest_build(&neck->crest, &neck->spec, faults);
	if (fault == FAULT_NONE)
		fault = breadth_build(&breadth, &neck->spec, &neck->crest, faults);
	if (fault == FAULT_NONE)
		fault = neck_table_build(&neck->table, &neck->spec, &neck->crest, &breadth, faults);
	breadth_free(&breadth);
	if (fault == FAULT_NONE)
		fault = check_shaft(neck, faults);
	if (fault == FAULT_NONE)
		fault = check_channel(neck, faults);
	return fault;
}

enum fault neck_build(struct neck **out, const struct neck_spec *spec, struct fault_list *faults)
{
	struct neck *neck = mem_array(1, sizeof *neck);

	*out = NULL;
	if (!neck)
		return fault_no_memory(faults, "the neck");
	neck->spec = *spec;
	enum fault fault = build(neck, faults);
	if (fault != FAULT_NONE)
		neck_free(neck);
	else
		*out = neck;
	return fault;
}

void neck_free(struct neck *neck)
{
	if (!neck)
		return;
	crest_free(&neck->crest);
	neck_table_free(&neck->table);
	free(neck);
}

const struct neck_spec *neck_spec_of(const struct neck *neck)
{
	return &neck->spec;
}

double neck_from_mm(const struct neck *neck)
{
	return neck->table.knot[0];
}

double neck_to_mm(const struct neck *neck)
{
	return neck->table.knot[neck->table.knot_count - 1];
}

double neck_heel_start_mm(const struct neck *neck)
{
	return neck->crest.heel_start_mm;
}

double neck_heel_proper_mm(const struct neck *neck)
{
	return neck->crest.heel_proper_mm;
}

double neck_heel_sides_mm(const struct neck *neck)
{
	const struct heel_spec *heel = &neck->spec.heel;
	double proper = neck->crest.heel_proper_mm;

	switch (heel->kind) {
	case HEEL_BLOCK:
		return proper + cap_plan_curve(heel).length_mm;
	case HEEL_SET:
		return proper + heel->shoulder_length_mm;
	case HEEL_FLAT:
	case HEEL_KIND_COUNT:
		break;
	}
	return proper;
}

double neck_fret_x_mm(const struct neck *neck, double fret)
{
	return taper_fret_x_mm(neck->spec.scale_length_mm, fret);
}

double neck_fretboard_width_mm(const struct neck *neck, double x_mm)
{
	return taper_fretboard_width_mm(&neck->spec, x_mm);
}

double neck_crest_mm(const struct neck *neck, double x_mm)
{
	struct neck_piece piece = neck_table_piece(&neck->table, x_mm);

	return neck_table_crest_mm(&neck->table, &piece);
}

double neck_base_mm(const struct neck *neck, double x_mm)
{
	return neck_table_base_mm(&neck->table, x_mm);
}

/* Index of the strip (level, level + 1) that holds v, and how far up it. */
static size_t strip_of_v(const struct neck_table *table, double v, double *share)
{
	size_t low = 0, high = table->level_count - 1;

	while (high - low > 1) {
		size_t middle = (low + high) / 2;
		if (table->level[middle] <= v)
			low = middle;
		else
			high = middle;
	}
	*share = (v - table->level[low]) / (table->level[low + 1] - table->level[low]);
	return low;
}

double neck_half_breadth_mm(const struct neck *neck, enum neck_side side, double x_mm, double v)
{
	const struct neck_table *table = &neck->table;
	struct neck_piece piece = neck_table_piece(table, x_mm);
	double share;
	size_t strip = strip_of_v(table, fmin(fmax(v, 0.0), 1.0), &share);

	return (1.0 - share) * neck_table_breadth_mm(table, &piece, (int)side, strip) +
	       share * neck_table_breadth_mm(table, &piece, (int)side, strip + 1);
}

/* Height fraction of the surface at distance y from the centre line, or -1
 * beyond the edge. Half-breadths fall with the level, so a search by halves
 * finds the strip. */
static double fraction_at(const struct neck_table *table, const struct neck_piece *piece, int side,
			  double y)
{
	size_t low = 0, high = table->level_count - 1;

	if (y > neck_table_breadth_mm(table, piece, side, 0))
		return -1.0;
	if (y <= neck_table_breadth_mm(table, piece, side, high))
		return 1.0;
	while (high - low > 1) {
		size_t middle = (low + high) / 2;
		if (neck_table_breadth_mm(table, piece, side, middle) >= y)
			low = middle;
		else
			high = middle;
	}
	double wide = neck_table_breadth_mm(table, piece, side, low);
	double narrow = neck_table_breadth_mm(table, piece, side, high);
	double share = wide > narrow ? (wide - y) / (wide - narrow) : 1.0;
	return table->level[low] + share * (table->level[high] - table->level[low]);
}

static int side_of(double y_mm)
{
	return y_mm < 0.0 ? SIDE_MINUS : SIDE_PLUS;
}

double neck_height_mm(const struct neck *neck, double x_mm, double y_mm)
{
	if (x_mm < neck_from_mm(neck) || x_mm > neck_to_mm(neck))
		return -INFINITY;
	struct neck_piece piece = neck_table_piece(&neck->table, x_mm);
	double v = fraction_at(&neck->table, &piece, side_of(y_mm), fabs(y_mm));
	if (v < 0.0)
		return -INFINITY;
	double base = neck_table_base_mm(&neck->table, x_mm);
	return base + v * (neck_table_crest_mm(&neck->table, &piece) - base);
}

/* Slope db/dv of the half-breadth at v, smoothed over the neighbouring strips
 * so that shading shows the section and not its straight pieces. */
static double breadth_slope_over_v(const struct neck *neck, enum neck_side side, double x_mm,
				   double v)
{
	const struct neck_table *table = &neck->table;
	double share;
	size_t strip = strip_of_v(table, v, &share);
	size_t last = table->level_count - 1;
	double below = table->level[strip > 0 ? strip - 1 : 0];
	double above = table->level[strip + 2 < last ? strip + 2 : last];

	return (neck_half_breadth_mm(neck, side, x_mm, above) -
		neck_half_breadth_mm(neck, side, x_mm, below)) /
	       (above - below);
}

struct vec3 neck_normal(const struct neck *neck, double x_mm, double y_mm)
{
	double z = neck_height_mm(neck, x_mm, y_mm);
	double base = neck_base_mm(neck, x_mm), step = 0.01;

	if (!isfinite(z))
		return vec3_make(0.0, 0.0, 1.0);
	double height = neck_crest_mm(neck, x_mm) - base;
	double v = fmin(fmax((z - base) / height, 0.0), 1.0);
	double x0 = fmax(x_mm - step, neck_from_mm(neck)), x1 = fmin(x_mm + step, neck_to_mm(neck));
	enum neck_side side = (enum neck_side)side_of(y_mm);
	double sign = side == SIDE_PLUS ? 1.0 : -1.0;
	double z0 = neck_base_mm(neck, x0) * (1.0 - v) + neck_crest_mm(neck, x0) * v;
	double z1 = neck_base_mm(neck, x1) * (1.0 - v) + neck_crest_mm(neck, x1) * v;
	double b0 = neck_half_breadth_mm(neck, side, x0, v);
	double b1 = neck_half_breadth_mm(neck, side, x1, v);
	struct vec3 along = vec3_make(x1 - x0, sign * (b1 - b0), z1 - z0);
	/* up the section, turned so that along x up points outward */
	struct vec3 up = vec3_make(0.0, sign * breadth_slope_over_v(neck, side, x_mm, v), height);
	struct vec3 out = v >= 1.0 ? vec3_make(-(z1 - z0), 0.0, x1 - x0)
				   : vec3_scale(vec3_cross(along, up), -sign);
	return vec3_scale(out, 1.0 / vec3_length(out));
}

enum stock_zone neck_zone(const struct neck *neck, double x_mm, double v)
{
	if (x_mm < 0.0)
		return ZONE_TRANSITIONS;
	if (x_mm >= neck->crest.heel_proper_mm)
		return ZONE_HEEL_CHEEKS;
	if (v * neck_crest_mm(neck, x_mm) < neck->spec.allowance.side_height_mm)
		return ZONE_SIDES;
	return x_mm > neck->crest.heel_start_mm ? ZONE_TRANSITIONS : ZONE_BACK;
}

double neck_allowance_mm(const struct neck *neck, enum stock_zone zone)
{
	const struct allowance_spec *allowance = &neck->spec.allowance;

	switch (zone) {
	case ZONE_BACK:
		return allowance->back_mm;
	case ZONE_SIDES:
		return allowance->sides_mm;
	case ZONE_HEEL_CHEEKS:
		return allowance->heel_cheeks_mm;
	case ZONE_TRANSITIONS:
		return allowance->transitions_mm;
	case ZONE_COUNT:
		break;
	}
	return 0.0;
}

double neck_stated_thickness_mm(const struct neck *neck, double x_mm)
{
	double wood_mm = neck_crest_mm(neck, x_mm) - neck_base_mm(neck, x_mm);

	return neck->spec.over_fretboard ? wood_mm + neck->spec.fretboard_thickness_mm : wood_mm;
}

double neck_wood_over_channel_mm(const struct neck *neck, double x_mm)
{
	const struct channel_spec *channel = &neck->spec.channel;

	if (channel->width_mm <= 0.0 || x_mm < channel->from_mm || x_mm > channel->to_mm)
		return NAN;
	double half = channel->width_mm / 2.0;
	double height = fmin(neck_height_mm(neck, x_mm, -half), neck_height_mm(neck, x_mm, half));
	return height - channel->depth_mm;
}

double neck_least_wood_over_channel_mm(const struct neck *neck, double *at_x_mm)
{
	const struct channel_spec *channel = &neck->spec.channel;
	double least = NAN;

	if (channel->width_mm <= 0.0)
		return NAN;
	size_t steps = walk_steps(channel->from_mm, channel->to_mm);
	for (size_t i = 0; i <= steps; i++) {
		double x = walk_place(channel->from_mm, channel->to_mm, i, steps);
		double wood = neck_wood_over_channel_mm(neck, x);
		if (!(wood >= least)) { /* also the first, as least is NAN */
			least = wood;
			*at_x_mm = x;
		}
	}
	return least;
}
