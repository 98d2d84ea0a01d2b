/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/hollow.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"

/* Steps along the cheek and up it. */
#define ALONG_STEP_MM 0.25
#define UP_STEPS 200
/* The deepest place is marked in the middle of where the cheek is within this
 * share of its greatest depth. */
#define NEARLY 0.99

double hollow_depth_mm(const struct neck *neck, enum neck_side side, double x_mm, double v)
{
	double foot = neck_half_breadth_mm(neck, side, x_mm, 0.0);
	double cap = neck_half_breadth_mm(neck, side, x_mm, 1.0);

	return foot + (cap - foot) * v - neck_half_breadth_mm(neck, side, x_mm, v);
}

/* v where the depth passes `depth_mm` between two heights. */
static double passing(const struct neck *neck, double x_mm, double depth_mm, int step)
{
	double v0 = (double)step / UP_STEPS, v1 = (double)(step + 1) / UP_STEPS;
	double d0 = hollow_depth_mm(neck, SIDE_PLUS, x_mm, v0) - depth_mm;
	double d1 = hollow_depth_mm(neck, SIDE_PLUS, x_mm, v1) - depth_mm;

	return v0 + (v1 - v0) * d0 / (d0 - d1);
}

/* Lowest and highest height of that depth at x; false when it is not reached. */
static bool heights_at(const struct neck *neck, double x_mm, double depth_mm, double *low_mm,
		       double *high_mm)
{
	double base = neck_base_mm(neck, x_mm), height = neck_crest_mm(neck, x_mm) - base;
	bool deep = hollow_depth_mm(neck, SIDE_PLUS, x_mm, 0.0) >= depth_mm, any = false;

	for (int i = 0; i < UP_STEPS; i++) {
		double above = (double)(i + 1) / UP_STEPS;
		bool next = hollow_depth_mm(neck, SIDE_PLUS, x_mm, above) >= depth_mm;
		if (next != deep) {
			double z = base + height * passing(neck, x_mm, depth_mm, i);
			*(any ? high_mm : low_mm) = z;
			if (!any)
				*high_mm = z;
			any = true;
		}
		deep = next;
	}
	return any;
}

static double deepest_at(const struct neck *neck, double x_mm, double *z_mm)
{
	double base = neck_base_mm(neck, x_mm), height = neck_crest_mm(neck, x_mm) - base;
	double deepest = 0.0;

	for (int i = 0; i <= UP_STEPS; i++) {
		double v = (double)i / UP_STEPS, depth = hollow_depth_mm(neck, SIDE_PLUS, x_mm, v);
		if (depth <= deepest)
			continue;
		deepest = depth;
		*z_mm = base + v * height;
	}
	return deepest;
}

static double place_of(const struct neck *neck, size_t i, size_t steps)
{
	double from = neck_heel_start_mm(neck), to = neck_to_mm(neck);

	return from + (to - from) * (double)i / (double)steps;
}

static void find_deepest(struct hollow *hollow, const struct neck *neck, size_t steps)
{
	double z = 0.0, first = NAN;

	for (size_t i = 0; i <= steps; i++)
		hollow->deepest_mm =
			fmax(hollow->deepest_mm, deepest_at(neck, place_of(neck, i, steps), &z));
	if (hollow->deepest_mm <= 2.0 * HOLLOW_RIM_MM) {
		hollow->deepest_mm = 0.0;
		return;
	}
	for (size_t i = 0; i <= steps; i++) {
		double x = place_of(neck, i, steps);
		if (isnan(first) && deepest_at(neck, x, &z) >= NEARLY * hollow->deepest_mm)
			first = x;
	}
	hollow->deepest_x_mm = (first + neck_to_mm(neck)) / 2.0;
	(void)deepest_at(neck, hollow->deepest_x_mm, &hollow->deepest_z_mm);
}

static enum fault trace_line(struct hollow_line *line, const struct neck *neck, size_t steps,
			     struct fault_list *faults)
{
	line->x_mm = mem_array(steps + 1, sizeof(double));
	line->low_mm = mem_array(steps + 1, sizeof(double));
	line->high_mm = mem_array(steps + 1, sizeof(double));
	if (!line->x_mm || !line->low_mm || !line->high_mm)
		return fault_no_memory(faults, "a template");
	for (size_t i = 0; i <= steps; i++) {
		double x = place_of(neck, i, steps);
		size_t at = line->count;
		if (!heights_at(neck, x, line->depth_mm, &line->low_mm[at], &line->high_mm[at]))
			continue;
		line->x_mm[at] = x;
		line->count++;
	}
	return FAULT_NONE;
}

enum fault hollow_build(struct hollow *out, const struct neck *neck, struct fault_list *faults)
{
	double length = neck_to_mm(neck) - neck_heel_start_mm(neck);
	size_t steps = (size_t)ceil(length / ALONG_STEP_MM);

	*out = (struct hollow){ 0 };
	if (neck_spec_of(neck)->heel.kind != HEEL_BLOCK || steps == 0)
		return FAULT_NONE;
	find_deepest(out, neck, steps);
	if (out->deepest_mm <= 0.0)
		return FAULT_NONE;
	out->line[HOLLOW_RIM].depth_mm = HOLLOW_RIM_MM;
	out->line[HOLLOW_HALF].depth_mm = out->deepest_mm / 2.0;
	for (int i = 0; i < HOLLOW_LEVEL_COUNT; i++) {
		enum fault fault = trace_line(&out->line[i], neck, steps, faults);
		if (fault)
			return fault;
	}
	return FAULT_NONE;
}

void hollow_free(struct hollow *hollow)
{
	if (!hollow)
		return;
	for (int i = 0; i < HOLLOW_LEVEL_COUNT; i++) {
		free(hollow->line[i].x_mm);
		free(hollow->line[i].low_mm);
		free(hollow->line[i].high_mm);
	}
	*hollow = (struct hollow){ 0 };
}
