/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "mesh/neck_rows.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "mesh/finished_solid.h"
#include "mesh/neck_levels.h"

#define ALONG_MM (FINISHED_CHORD_MM / 2.0)
#define FOLD_MM (FINISHED_CHORD_MM / 4.0)

/* Sections stand no closer than this, mm: single precision still keeps them
 * apart at the far end of any neck. */
#define CLOSEST_ROWS_MM 0.01

/* Places between two sections where the flat pieces are held against the
 * surface. A cubic that passes through its chord at all three does not leave
 * it. */
static const double probe[] = { 0.25, 0.5, 0.75 };
#define PROBES (sizeof probe / sizeof probe[0])

struct point2 {
	double y, z;
};

/* Distance of `shift` across the direction of `along`; its length when that
 * has no direction. */
static double across(struct point2 along, struct point2 shift)
{
	double length = hypot(along.y, along.z);

	if (length <= 0.0)
		return hypot(shift.y, shift.z);
	return fabs(along.y * shift.z - along.z * shift.y) / length;
}

static struct point2 at(const struct neck_rows *rows, const struct neck_row *row, int side,
			size_t level)
{
	double v = rows->level[level];

	return (struct point2){ row->half_mm[side][level],
				row->base_mm + v * (row->crest_mm - row->base_mm) };
}

static struct point2 minus(struct point2 a, struct point2 b)
{
	return (struct point2){ a.y - b.y, a.z - b.z };
}

static void free_row(struct neck_row *row)
{
	free(row->half_mm[SIDE_MINUS]); /* both sides live in one block */
	row->half_mm[SIDE_MINUS] = row->half_mm[SIDE_PLUS] = NULL;
}

static enum fault make_row(struct neck_row *out, const struct neck_rows *rows,
			   const struct neck *neck, double x_mm, struct fault_list *faults)
{
	size_t levels = rows->level_count;

	*out = (struct neck_row){ .x_mm = x_mm,
				  .base_mm = neck_base_mm(neck, x_mm),
				  .crest_mm = neck_crest_mm(neck, x_mm) };
	out->half_mm[SIDE_MINUS] = mem_array(2 * levels, sizeof(double));
	if (!out->half_mm[SIDE_MINUS])
		return fault_no_memory(faults, "the mesh of the finished neck");
	out->half_mm[SIDE_PLUS] = out->half_mm[SIDE_MINUS] + levels;
	for (int side = 0; side < SIDE_COUNT; side++)
		for (size_t i = 0; i < levels; i++)
			out->half_mm[side][i] = neck_half_breadth_mm(neck, (enum neck_side)side,
								     x_mm, rows->level[i]);
	return FAULT_NONE;
}

/* Does one side of a true section lie near enough to the flat pieces between
 * its neighbours? A shift along the section's own line changes no shape and
 * does not count; at the sharp lower edge every shift does. */
static int side_fits(const struct neck_rows *rows, const struct neck_row *a,
		     const struct neck_row *b, const struct neck_row *true_row, int side)
{
	double t = (true_row->x_mm - a->x_mm) / (b->x_mm - a->x_mm);
	struct point2 here = at(rows, true_row, side, 0), shift = { 0.0, 0.0 };

	for (size_t i = 0; i < rows->level_count; i++) {
		struct point2 from = at(rows, a, side, i), to = at(rows, b, side, i);
		struct point2 next_here = at(rows, true_row, side, i);
		struct point2 next_shift = { next_here.y - from.y - t * (to.y - from.y),
					     next_here.z - from.z - t * (to.z - from.z) };
		struct point2 along = minus(next_here, here);
		if (i == 0 && hypot(next_shift.y, next_shift.z) > ALONG_MM)
			return 0;
		if (i > 0 && fmax(across(along, shift), across(along, next_shift)) > ALONG_MM)
			return 0;
		here = next_here;
		shift = next_shift;
	}
	return fabs(shift.z) <= ALONG_MM; /* the flat of the crest */
}

/* The two triangles of a quadrilateral depart from its curved sheet by a
 * quarter of its twist. */
static int folds_fit(const struct neck_rows *rows, const struct neck_row *a,
		     const struct neck_row *b, int side)
{
	for (size_t i = 0; i + 1 < rows->level_count; i++) {
		struct point2 at_a = minus(at(rows, a, side, i + 1), at(rows, a, side, i));
		struct point2 at_b = minus(at(rows, b, side, i + 1), at(rows, b, side, i));
		struct point2 middle = { at_a.y + at_b.y, at_a.z + at_b.z };
		if (across(middle, minus(at_b, at_a)) > 4.0 * FOLD_MM)
			return 0;
	}
	return 1;
}

static int fits(const struct neck_rows *rows, const struct neck_row *a, const struct neck_row *b,
		const struct neck_row inner[PROBES])
{
	for (int side = 0; side < SIDE_COUNT; side++) {
		if (!folds_fit(rows, a, b, side))
			return 0;
		for (size_t i = 0; i < PROBES; i++)
			if (!side_fits(rows, a, b, &inner[i], side))
				return 0;
	}
	return 1;
}

/* Appends a row and takes its block over. */
static enum fault append(struct neck_rows *rows, struct neck_row *row, struct fault_list *faults)
{
	struct neck_row *grown =
		mem_grow(rows->row, &rows->capacity, rows->count + 1, sizeof *grown);
	if (!grown)
		return fault_no_memory(faults, "the mesh of the finished neck");
	rows->row = grown;
	rows->row[rows->count++] = *row;
	*row = (struct neck_row){ 0 };
	return FAULT_NONE;
}

/* Is the gap from the last row to `b` good enough to be left flat? */
static enum fault gap_fits(int *good, const struct neck_rows *rows, const struct neck_row *b,
			   const struct neck *neck, struct fault_list *faults)
{
	const struct neck_row *a = &rows->row[rows->count - 1];
	struct neck_row inner[PROBES] = { { 0 } };
	enum fault fault = FAULT_NONE;

	for (size_t i = 0; i < PROBES && !fault; i++)
		fault = make_row(&inner[i], rows, neck, a->x_mm + probe[i] * (b->x_mm - a->x_mm),
				 faults);
	*good = !fault && fits(rows, a, b, inner);
	for (size_t i = 0; i < PROBES; i++)
		free_row(&inner[i]);
	return fault;
}

/* Appends rows from the last one up to x, halving the step until it fits. */
static enum fault extend_to(struct neck_rows *rows, const struct neck *neck, double x_mm,
			    struct fault_list *faults)
{
	double from_mm = rows->row[rows->count - 1].x_mm, step_mm = x_mm - from_mm;
	enum fault fault = FAULT_NONE;

	while (!fault && rows->row[rows->count - 1].x_mm < x_mm) {
		struct neck_row next = { 0 };
		int good = 0;
		double at_mm = rows->row[rows->count - 1].x_mm + step_mm;
		/* the last step lands on the knot, whatever rounding did */
		if (at_mm > x_mm - CLOSEST_ROWS_MM)
			at_mm = x_mm;
		fault = make_row(&next, rows, neck, at_mm, faults);
		if (!fault)
			fault = gap_fits(&good, rows, &next, neck, faults);
		if (!fault && (good || step_mm < 2.0 * CLOSEST_ROWS_MM)) {
			fault = append(rows, &next, faults);
			step_mm *= 2.0;
		} else {
			step_mm /= 2.0;
		}
		free_row(&next);
	}
	return fault;
}

enum fault neck_rows_build(struct neck_rows *out, const struct neck *neck,
			   struct fault_list *faults)
{
	size_t knot_count;
	struct neck_row first = { 0 };
	const double *knot = neck_knots(neck, &knot_count);

	*out = (struct neck_rows){ 0 };
	enum fault fault = neck_levels_choose(&out->level, &out->level_count, neck,
					      FINISHED_CHORD_MM / 4.0, faults);
	if (!fault)
		fault = make_row(&first, out, neck, knot[0], faults);
	if (!fault)
		fault = append(out, &first, faults);
	free_row(&first);
	for (size_t i = 1; i < knot_count && !fault; i++)
		if (i + 1 == knot_count ||
		    (knot[i] - out->row[out->count - 1].x_mm >= CLOSEST_ROWS_MM &&
		     knot[knot_count - 1] - knot[i] >= CLOSEST_ROWS_MM))
			fault = extend_to(out, neck, knot[i], faults);
	return fault;
}

void neck_rows_free(struct neck_rows *rows)
{
	for (size_t i = 0; i < rows->count; i++)
		free_row(&rows->row[i]);
	free(rows->row);
	free(rows->level);
	*rows = (struct neck_rows){ 0 };
}
