/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/neck_lines.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "model/heel.h"

/* Apart on the neck, mm: finer than a pixel of the largest picture. */
#define SAMPLE_MM 0.5

/* A sample this near to the chord past it is left out, mm: straight edges need
 * no more than their ends, and sheets of many maps stay small. */
#define CHORD_MM 0.01

static bool make_room(struct neck_lines *lines, size_t count)
{
	lines->count = count;
	lines->x_mm = mem_array(count, sizeof *lines->x_mm);
	bool good = lines->x_mm != NULL;
	for (int side = 0; side < SIDE_COUNT; side++) {
		lines->edge_mm[side] = mem_array(count, sizeof(double));
		lines->flat_mm[side] = mem_array(count, sizeof(double));
		good = good && lines->edge_mm[side] && lines->flat_mm[side];
	}
	return good;
}

static double *curve_of(const struct neck_lines *lines, int i)
{
	return i < SIDE_COUNT ? lines->edge_mm[i] : lines->flat_mm[i - SIDE_COUNT];
}

/* Whether all samples between two lie on the chords of all curves. */
static bool chord_fits(const struct neck_lines *lines, size_t from, size_t to)
{
	double span = lines->x_mm[to] - lines->x_mm[from];

	for (int c = 0; c < 2 * SIDE_COUNT; c++) {
		const double *y = curve_of(lines, c);
		for (size_t i = from + 1; i < to; i++) {
			double share = (lines->x_mm[i] - lines->x_mm[from]) / span;
			if (fabs(y[from] + share * (y[to] - y[from]) - y[i]) > CHORD_MM)
				return false;
		}
	}
	return true;
}

static void keep(struct neck_lines *lines, size_t at, size_t from)
{
	lines->x_mm[at] = lines->x_mm[from];
	for (int c = 0; c < 2 * SIDE_COUNT; c++)
		curve_of(lines, c)[at] = curve_of(lines, c)[from];
}

/* Leaves out samples in place. A kept sample never moves past those that are
 * still to be looked at. */
static void thin_out(struct neck_lines *lines)
{
	size_t kept = 1, last = 0;

	for (size_t i = 1; i < lines->count; i++) {
		if (i + 1 < lines->count && chord_fits(lines, last, i + 1))
			continue;
		last = i;
		keep(lines, kept++, i);
	}
	lines->count = kept;
}

enum fault neck_lines_build(struct neck_lines *out, const struct neck *neck,
			    struct fault_list *faults)
{
	double from = neck_from_mm(neck), length = neck_to_mm(neck) - from;
	size_t steps = (size_t)ceil(length / SAMPLE_MM) + 1;

	*out = (struct neck_lines){ 0 };
	if (!make_room(out, steps + 1))
		return fault_no_memory(faults, "the outline of a neck");
	for (size_t i = 0; i <= steps; i++) {
		double x = from + length * (double)i / (double)steps;
		out->x_mm[i] = x;
		for (int side = 0; side < SIDE_COUNT; side++) {
			out->edge_mm[side][i] =
				neck_half_breadth_mm(neck, (enum neck_side)side, x, 0.0);
			double flat = neck_half_breadth_mm(neck, (enum neck_side)side, x, 1.0);
			out->flat_mm[side][i] = flat >= NECK_LINES_FLAT_MM ? flat : 0.0;
		}
	}
	thin_out(out);
	return FAULT_NONE;
}

void neck_lines_free(struct neck_lines *lines)
{
	if (!lines)
		return;
	for (int side = 0; side < SIDE_COUNT; side++) {
		free(lines->edge_mm[side]);
		free(lines->flat_mm[side]);
	}
	free(lines->x_mm);
	*lines = (struct neck_lines){ 0 };
}

struct neck_marks neck_marks_of(const struct neck *neck)
{
	const struct neck_spec *spec = neck_spec_of(neck);

	return (struct neck_marks){
		.heel_start_mm = neck_heel_start_mm(neck),
		.heel_proper_mm = neck_heel_proper_mm(neck),
		.joint_mm = neck_fret_x_mm(neck, spec->joint_fret),
		.heel_sides_mm = neck_heel_sides_mm(neck),
		.heel_proper_name = heel_proper_name(spec->heel.kind),
		.heel_sides_name = spec->heel.kind == HEEL_SET ? "shoulder ends" : "cap, sides",
	};
}
