/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/curves.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"

/* Most points of a curve: even steps and the knots between. */
static size_t room_of(const struct neck *neck, double from_mm, double to_mm)
{
	size_t knots;

	(void)neck_knots(neck, &knots);
	return (size_t)ceil((to_mm - from_mm) / CURVES_STEP_MM) + knots + 2;
}

/* Even steps from the last point up to `to`. */
static void walk_to(struct curve_points *out, double to_mm)
{
	double from = out->x_mm[out->count - 1];
	size_t steps = (size_t)ceil((to_mm - from) / CURVES_STEP_MM);

	for (size_t i = 1; i <= steps; i++)
		out->x_mm[out->count++] = i == steps ? to_mm : from + (double)i * CURVES_STEP_MM;
}

enum fault curves_sample(struct curve_points *out, const struct neck *neck, double from_mm,
			 double to_mm, curve_of *value, struct fault_list *faults)
{
	size_t room = room_of(neck, from_mm, to_mm), knots;
	const double *knot = neck_knots(neck, &knots);

	*out = (struct curve_points){ .x_mm = mem_array(room, sizeof(double)),
				      .value_mm = mem_array(room, sizeof(double)) };
	if (!out->x_mm || !out->value_mm)
		return fault_no_memory(faults, "a template");
	out->x_mm[out->count++] = from_mm;
	for (size_t i = 0; i < knots; i++)
		if (knot[i] > from_mm && knot[i] < to_mm)
			walk_to(out, knot[i]);
	walk_to(out, to_mm);
	for (size_t i = 0; i < out->count; i++)
		out->value_mm[i] = value(neck, out->x_mm[i]);
	return FAULT_NONE;
}

void curves_free(struct curve_points *curve)
{
	if (!curve)
		return;
	free(curve->x_mm);
	free(curve->value_mm);
	*curve = (struct curve_points){ 0 };
}

double curves_minus_edge_mm(const struct neck *neck, double x_mm)
{
	return neck_half_breadth_mm(neck, SIDE_MINUS, x_mm, 0.0);
}

double curves_plus_edge_mm(const struct neck *neck, double x_mm)
{
	return neck_half_breadth_mm(neck, SIDE_PLUS, x_mm, 0.0);
}

double curves_minus_crest_mm(const struct neck *neck, double x_mm)
{
	return neck_half_breadth_mm(neck, SIDE_MINUS, x_mm, 1.0);
}

double curves_plus_crest_mm(const struct neck *neck, double x_mm)
{
	return neck_half_breadth_mm(neck, SIDE_PLUS, x_mm, 1.0);
}
