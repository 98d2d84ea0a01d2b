/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/neck_table.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/units.h"
#include "model/taper.h"

#define KNOTS_MAX 512
/* Widest piece, mm. Breadths are products of straight edges and cubics; at
 * this width a cubic piece follows them to far below TOL_SECTION_MM. */
#define WIDEST_PIECE_MM 12.0
/* Pieces over which a quintic step is followed. */
#define STEP_PIECES ((size_t)16)
/* Pieces along a cap's curve: narrow at its tip, where it is steepest, and at
 * its end, where its curvature stops. */
#define CURVE_PIECES 31
/* Slopes at knots are differences over this length, mm. */
#define SLOPE_STEP_MM 1e-5

struct knot_list {
	size_t count;
	double x[KNOTS_MAX];
};

/* Appends pieces from the last knot up to `to`, at least `least` of them. */
static void lay_to(struct knot_list *knots, double to_mm, size_t least)
{
	double from = knots->x[knots->count - 1], length = to_mm - from;

	if (length <= 1e-6)
		return;
	size_t pieces = (size_t)ceil(length / WIDEST_PIECE_MM);
	if (pieces < least)
		pieces = least;
	for (size_t i = 1; i <= pieces && knots->count < KNOTS_MAX; i++)
		knots->x[knots->count++] = from + length * (double)i / (double)pieces;
}

/* Appends pieces up to `to`, none wider than `widest_mm`. */
static void lay_within(struct knot_list *knots, double to_mm, double widest_mm)
{
	double length = to_mm - knots->x[knots->count - 1];

	if (length > 0.0)
		lay_to(knots, to_mm, (size_t)ceil(length / widest_mm));
}

/* One of the heel's stretches, with the nose's own knots in it. */
static void lay_stretch(struct knot_list *knots, const struct curve *nose,
			struct heel_stretch stretch)
{
	for (size_t i = 1; i < nose->count; i++)
		if (nose->x[i] > knots->x[knots->count - 1] && nose->x[i] < stretch.to_mm)
			lay_within(knots, nose->x[i], stretch.widest_mm);
	lay_within(knots, stretch.to_mm, stretch.widest_mm);
}

static void lay_heel(struct knot_list *knots, const struct heel *heel)
{
	struct heel_stretch stretch[HEEL_STRETCHES_MAX];
	size_t count = heel_stretches(heel, stretch);
	double front = heel->crest->heel_proper_mm;

	for (size_t i = 0; i < count; i++) {
		if (heel->plan.length_mm > 0.0 && stretch[i].to_mm == heel->open_to_mm)
			for (int k = 1; k < CURVE_PIECES; k++)
				lay_to(knots,
				       front + heel->plan.length_mm *
						       (1.0 - cos(PI * k / CURVE_PIECES)) / 2.0,
				       1);
		lay_stretch(knots, &heel->crest->nose, stretch[i]);
	}
}

static void lay_knots(struct knot_list *knots, const struct neck_spec *spec,
		      const struct heel *heel)
{
	const struct crest *crest = heel->crest;
	const struct peghead_spec *peghead = &spec->peghead;

	knots->count = 1;
	knots->x[0] = -peghead->transition_mm - peghead->length_mm;
	lay_to(knots, -peghead->transition_mm - peghead->flare_mm, 1);
	lay_to(knots, -peghead->transition_mm, STEP_PIECES);
	lay_to(knots, 0.0, 2 * STEP_PIECES);
	for (size_t i = 0; i < spec->station_count; i++)
		lay_to(knots, taper_fret_x_mm(spec->scale_length_mm, spec->station[i].fret), 1);
	lay_to(knots, crest->heel_start_mm, 1);
	lay_heel(knots, heel);
}

static enum fault make_room(struct neck_table *table, struct fault_list *faults)
{
	size_t cells = table->knot_count * table->level_count;

	table->knot = mem_array(table->knot_count, sizeof(double));
	table->level = mem_array(table->level_count, sizeof(double));
	table->crest = mem_array(table->knot_count, sizeof(double));
	table->crest_in = mem_array(table->knot_count, sizeof(double));
	table->crest_out = mem_array(table->knot_count, sizeof(double));
	bool good = table->knot && table->level && table->crest && table->crest_in &&
		    table->crest_out;
	for (int side = 0; side < SIDE_COUNT; side++) {
		table->breadth[side] = mem_array(cells, sizeof(double));
		table->breadth_in[side] = mem_array(cells, sizeof(double));
		table->breadth_out[side] = mem_array(cells, sizeof(double));
		good = good && table->breadth[side] && table->breadth_in[side] &&
		       table->breadth_out[side];
	}
	return good ? FAULT_NONE : fault_no_memory(faults, "the neck's waterlines");
}

/* Slopes are differences to either side of the knot, so that a corner between
 * two rules stays a corner: the edges must be straight right up to the nut. */
static void fill_breadths(struct neck_table *table, const struct breadth *breadth, int side,
			  size_t k, double *near)
{
	enum neck_side which = (enum neck_side)side;
	size_t first = k * table->level_count, count = table->level_count;
	double x = table->knot[k], *b = table->breadth[side] + first;

	breadth_values_mm(breadth, which, x, b);
	breadth_values_mm(breadth, which, x - SLOPE_STEP_MM, near);
	for (size_t v = 0; v < count; v++)
		table->breadth_in[side][first + v] = (b[v] - near[v]) / SLOPE_STEP_MM;
	breadth_values_mm(breadth, which, x + SLOPE_STEP_MM, near);
	for (size_t v = 0; v < count; v++)
		table->breadth_out[side][first + v] = (near[v] - b[v]) / SLOPE_STEP_MM;
}

static void fill(struct neck_table *table, const struct crest *crest, const struct breadth *breadth,
		 double *near)
{
	for (size_t k = 0; k < table->knot_count; k++) {
		double x = table->knot[k], z = crest_value_mm(crest, x);
		table->crest[k] = z;
		table->crest_in[k] = (z - crest_value_mm(crest, x - SLOPE_STEP_MM)) / SLOPE_STEP_MM;
		table->crest_out[k] =
			(crest_value_mm(crest, x + SLOPE_STEP_MM) - z) / SLOPE_STEP_MM;
		for (int side = 0; side < SIDE_COUNT; side++)
			fill_breadths(table, breadth, side, k, near);
	}
}

enum fault neck_table_build(struct neck_table *out, const struct neck_spec *spec,
			    const struct crest *crest, const struct breadth *breadth,
			    struct fault_list *faults)
{
	struct knot_list knots;

	lay_knots(&knots, spec, &breadth->heel);
	*out = (struct neck_table){ .knot_count = knots.count,
				    .level_count = breadth->level_count,
				    .base_slope = -tan(spec->peghead.angle_rad) };
	if (knots.count == KNOTS_MAX)
		return fault_add(faults, FAULT_GEOMETRY, NULL, 0, "neck.scale_length",
				 "The neck is too long for the table of its waterlines.");
	enum fault fault = make_room(out, faults);
	if (fault != FAULT_NONE)
		return fault;
	for (size_t k = 0; k < knots.count; k++)
		out->knot[k] = knots.x[k];
	for (size_t v = 0; v < breadth->level_count; v++)
		out->level[v] = breadth->level[v];
	double *near = mem_array(breadth->level_count, sizeof(double));
	if (!near)
		return fault_no_memory(faults, "the neck's waterlines");
	fill(out, crest, breadth, near);
	free(near);
	return FAULT_NONE;
}

void neck_table_free(struct neck_table *table)
{
	if (!table)
		return;
	free(table->knot);
	free(table->level);
	free(table->crest);
	free(table->crest_in);
	free(table->crest_out);
	for (int side = 0; side < SIDE_COUNT; side++) {
		free(table->breadth[side]);
		free(table->breadth_in[side]);
		free(table->breadth_out[side]);
	}
	*table = (struct neck_table){ 0 };
}

struct neck_piece neck_table_piece(const struct neck_table *table, double x_mm)
{
	size_t low = 0, high = table->knot_count - 1;
	struct neck_piece piece = { .x_mm = fmin(fmax(x_mm, table->knot[0]), table->knot[high]) };

	while (high - low > 1) {
		size_t middle = (low + high) / 2;
		if (table->knot[middle] <= piece.x_mm)
			low = middle;
		else
			high = middle;
	}
	double width = table->knot[low + 1] - table->knot[low];
	piece.knot = low;
	curve_hermite((piece.x_mm - table->knot[low]) / width, width, piece.w);
	return piece;
}
