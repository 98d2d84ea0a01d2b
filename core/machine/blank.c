/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "machine/blank.h"

#include <math.h>

/* Ends closer than this are one place, mm: far below what a builder can state
 * and far above what converting inches rounds away. */
#define SAME_PLACE_MM 0.001

/* Value within the piece from point i to i + 1, whose ends differ in x. */
static double piece_value(const struct outline *outline, size_t i, double x_mm)
{
	double t = (x_mm - outline->x_mm[i]) / (outline->x_mm[i + 1] - outline->x_mm[i]);

	return outline->value_mm[i] + t * (outline->value_mm[i + 1] - outline->value_mm[i]);
}

/* Value just before and just behind x: they differ at a step only. */
static double value_before(const struct outline *outline, double x_mm)
{
	size_t i = 0;

	while (i < outline->count && outline->x_mm[i] < x_mm)
		i++;
	if (i == 0)
		return outline->value_mm[0];
	if (i == outline->count)
		return outline->value_mm[i - 1];
	return piece_value(outline, i - 1, x_mm);
}

static double value_behind(const struct outline *outline, double x_mm)
{
	size_t i = outline->count;

	while (i > 0 && outline->x_mm[i - 1] > x_mm)
		i--;
	if (i == 0)
		return outline->value_mm[0];
	if (i == outline->count)
		return outline->value_mm[i - 1];
	return piece_value(outline, i - 1, x_mm);
}

double outline_value_mm(const struct outline *outline, double x_mm)
{
	return outline_most_mm(outline, x_mm, x_mm);
}

double outline_most_mm(const struct outline *outline, double from_mm, double to_mm)
{
	double most = fmax(fmax(value_before(outline, from_mm), value_behind(outline, from_mm)),
			   fmax(value_before(outline, to_mm), value_behind(outline, to_mm)));

	for (size_t i = 0; i < outline->count; i++) {
		if (outline->x_mm[i] >= from_mm && outline->x_mm[i] <= to_mm)
			most = fmax(most, outline->value_mm[i]);
	}
	return most;
}

double outline_least_mm(const struct outline *outline, double from_mm, double to_mm)
{
	double least = fmin(fmin(value_before(outline, from_mm), value_behind(outline, from_mm)),
			    fmin(value_before(outline, to_mm), value_behind(outline, to_mm)));

	for (size_t i = 0; i < outline->count; i++) {
		if (outline->x_mm[i] >= from_mm && outline->x_mm[i] <= to_mm)
			least = fmin(least, outline->value_mm[i]);
	}
	return least;
}

double blank_from_mm(const struct blank *blank)
{
	return blank->top.x_mm[0];
}

double blank_to_mm(const struct blank *blank)
{
	return blank->top.x_mm[blank->top.count - 1];
}

bool blank_sides_alike(const struct blank *blank)
{
	return blank->half_width.count > 0;
}

const struct outline *blank_side(const struct blank *blank, enum blank_side side)
{
	return blank_sides_alike(blank) ? &blank->half_width : &blank->side[side];
}

double blank_widest_mm(const struct blank *blank, double from_mm, double to_mm)
{
	return fmax(outline_most_mm(blank_side(blank, BLANK_MINUS), from_mm, to_mm),
		    outline_most_mm(blank_side(blank, BLANK_PLUS), from_mm, to_mm));
}

double blank_highest_mm(const struct blank *blank)
{
	return outline_most_mm(&blank->top, blank_from_mm(blank), blank_to_mm(blank));
}

double blank_from_most_mm(const struct blank *blank)
{
	return blank_from_mm(blank) - blank->margin_mm;
}

double blank_to_most_mm(const struct blank *blank)
{
	return blank_to_mm(blank) + blank->margin_mm;
}

static double grown_mm(const struct outline *outline, double margin_mm, double from_mm,
		       double to_mm)
{
	return outline_most_mm(outline, from_mm - margin_mm, to_mm + margin_mm) + margin_mm;
}

static double shrunk_mm(const struct outline *outline, double margin_mm, double from_mm,
			double to_mm)
{
	return outline_least_mm(outline, from_mm - margin_mm, to_mm + margin_mm) - margin_mm;
}

double blank_top_most_mm(const struct blank *blank, double from_mm, double to_mm)
{
	return grown_mm(&blank->top, blank->margin_mm, from_mm, to_mm);
}

double blank_top_least_mm(const struct blank *blank, double from_mm, double to_mm)
{
	return shrunk_mm(&blank->top, blank->margin_mm, from_mm, to_mm);
}

double blank_side_most_mm(const struct blank *blank, enum blank_side side, double from_mm,
			  double to_mm)
{
	return grown_mm(blank_side(blank, side), blank->margin_mm, from_mm, to_mm);
}

double blank_side_least_mm(const struct blank *blank, enum blank_side side, double from_mm,
			   double to_mm)
{
	return shrunk_mm(blank_side(blank, side), blank->margin_mm, from_mm, to_mm);
}

double blank_widest_most_mm(const struct blank *blank)
{
	return blank_widest_mm(blank, blank_from_mm(blank), blank_to_mm(blank)) + blank->margin_mm;
}

double blank_highest_most_mm(const struct blank *blank)
{
	return blank_highest_mm(blank) + blank->margin_mm;
}

/* One outline for itself. */
static enum fault check_outline(const struct outline *outline, const char *setting,
				struct fault_list *faults)
{
	size_t count = outline->count;

	if (count < 2 || count > BLANK_POINTS_MAX)
		return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				 "The outline has %zu points; it needs 2 to %d.", count,
				 BLANK_POINTS_MAX);
	for (size_t i = 0; i < count; i++) {
		if (!isfinite(outline->x_mm[i]) || !isfinite(outline->value_mm[i]))
			return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
					 "Point %zu of the outline is no place.", i + 1);
		if (i > 0 && outline->x_mm[i] < outline->x_mm[i - 1])
			return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
					 "Point %zu of the outline lies at x = %.4f mm, before the "
					 "point that precedes it; list points from the peghead "
					 "toward the body.",
					 i + 1, outline->x_mm[i]);
		if (i > 1 && outline->x_mm[i] <= outline->x_mm[i - 2])
			return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
					 "Three points of the outline lie at x = %.4f mm; a step "
					 "takes two.",
					 outline->x_mm[i]);
	}
	/* a step at an end would leave open what the blank is there */
	if (outline->x_mm[1] <= outline->x_mm[0] ||
	    outline->x_mm[count - 1] <= outline->x_mm[count - 2])
		return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				 "The outline begins or ends with a step; give its end one point.");
	return FAULT_NONE;
}

/* Bottom against top at the points of `at`, on both sides of a step, and against
 * the lowest top that the margin allows. */
static enum fault check_thickness(const struct blank *blank, const struct outline *at,
				  struct fault_list *faults)
{
	for (size_t i = 0; i < at->count; i++) {
		double x = at->x_mm[i];
		double before = value_before(&blank->top, x) - value_before(&blank->bottom, x);
		double behind = value_behind(&blank->top, x) - value_behind(&blank->bottom, x);
		if (fmin(before, behind) <= 0.0)
			return fault_add(faults, FAULT_SETTING, NULL, 0, "blank.bottom",
					 "At x = %.2f mm the blank's bottom does not lie below its "
					 "top.",
					 x);
		if (fmin(before, behind) <= blank->margin_mm)
			return fault_add(faults, FAULT_SETTING, NULL, 0, "blank.margin",
					 "At x = %.2f mm the blank is %.2f mm thick; a margin of "
					 "%.2f mm would leave nothing of it.",
					 x, fmin(before, behind), blank->margin_mm);
	}
	return FAULT_NONE;
}

static bool spans_alike(const struct outline *a, const struct outline *b)
{
	return fabs(a->x_mm[0] - b->x_mm[0]) <= SAME_PLACE_MM &&
	       fabs(a->x_mm[a->count - 1] - b->x_mm[b->count - 1]) <= SAME_PLACE_MM;
}

static enum fault check_span(const struct blank *blank, const struct outline *outline,
			     const char *setting, struct fault_list *faults)
{
	if (spans_alike(&blank->top, outline))
		return FAULT_NONE;
	return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
			 "The outline runs from x = %.2f to %.2f mm, the blank's top from %.2f to "
			 "%.2f mm; both must have the same ends.",
			 outline->x_mm[0], outline->x_mm[outline->count - 1], blank_from_mm(blank),
			 blank_to_mm(blank));
}

static enum fault check_width(const struct blank *blank, const struct outline *outline,
			      const char *setting, struct fault_list *faults)
{
	for (size_t i = 0; i < outline->count; i++) {
		double x = outline->x_mm[i], width = outline->value_mm[i];
		if (width <= 0.0)
			return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
					 "At x = %.2f mm the blank's side is %.2f mm from the "
					 "centre line; it must be more than 0.",
					 x, width);
		if (width <= blank->margin_mm)
			return fault_add(faults, FAULT_SETTING, NULL, 0, "blank.margin",
					 "At x = %.2f mm the blank's side is %.2f mm from the "
					 "centre line; a margin of %.2f mm would leave nothing of "
					 "it.",
					 x, width, blank->margin_mm);
	}
	return FAULT_NONE;
}

/* One outline of the sides, in all respects. */
static enum fault check_side(const struct blank *blank, const struct outline *outline,
			     const char *setting, bool top_is_good, struct fault_list *faults)
{
	enum fault code = check_outline(outline, setting, faults);
	enum fault span = FAULT_NONE;

	if (code)
		return code;
	if (top_is_good)
		span = check_span(blank, outline, setting, faults);
	enum fault width = check_width(blank, outline, setting, faults);
	return span ? span : width;
}

static enum fault check_sides(const struct blank *blank, bool top_is_good,
			      struct fault_list *faults)
{
	size_t each = blank->side[BLANK_MINUS].count + blank->side[BLANK_PLUS].count;

	if (blank_sides_alike(blank) && each > 0)
		return fault_add(faults, FAULT_SETTING, NULL, 0, "blank",
				 "half_width says where both sides lie; take it out, or take out "
				 "plus_side and minus_side.");
	if (blank_sides_alike(blank))
		return check_side(blank, &blank->half_width, "blank.half_width", top_is_good,
				  faults);
	if (each == 0)
		return fault_add(faults, FAULT_SETTING, NULL, 0, "blank",
				 "The blank's sides must be given: half_width when both are alike, "
				 "otherwise plus_side and minus_side.");
	enum fault plus =
		check_side(blank, &blank->side[BLANK_PLUS], "blank.plus_side", top_is_good, faults);
	enum fault minus = check_side(blank, &blank->side[BLANK_MINUS], "blank.minus_side",
				      top_is_good, faults);
	return plus ? plus : minus;
}

enum fault blank_check(const struct blank *blank, struct fault_list *faults)
{
	enum fault top = check_outline(&blank->top, "blank.top", faults);
	enum fault bottom = check_outline(&blank->bottom, "blank.bottom", faults);
	enum fault sides = check_sides(blank, !top, faults);
	enum fault thickness = FAULT_NONE;

	if (!(blank->margin_mm >= 0.0))
		return fault_add(faults, FAULT_SETTING, NULL, 0, "blank.margin",
				 "The margin of the blank is %.4g mm; it cannot be less than 0.",
				 blank->margin_mm);
	if (!top && !bottom)
		bottom = check_span(blank, &blank->bottom, "blank.bottom", faults);
	if (!top && !bottom)
		thickness = check_thickness(blank, &blank->top, faults);
	if (!top && !bottom && !thickness)
		thickness = check_thickness(blank, &blank->bottom, faults);
	return top ? top : bottom ? bottom : sides ? sides : thickness;
}
