/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Queries of neck.h about the shape as a whole: sections, straightness and
 * symmetry, and views of the waterline table. */
#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "model/neck.h"
#include "model/neck_private.h"

enum fault neck_section(const struct neck *neck, double x_mm, size_t *count, double **y_mm,
			double **z_mm, struct fault_list *faults)
{
	const struct neck_table *table = &neck->table;
	struct neck_piece piece = neck_table_piece(table, x_mm);
	size_t levels = table->level_count;
	double base = neck_table_base_mm(table, piece.x_mm);
	double height = neck_table_crest_mm(table, &piece) - base;
	int bass = neck->spec.hand == HAND_RIGHT ? SIDE_PLUS : SIDE_MINUS;
	double sign = bass == SIDE_PLUS ? 1.0 : -1.0;
	double *y = mem_array(2 * levels, sizeof(double));
	double *z = mem_array(2 * levels, sizeof(double));

	if (!y || !z) {
		free(y);
		free(z);
		return fault_no_memory(faults, "a section");
	}
	for (size_t i = 0; i < levels; i++) {
		size_t last = 2 * levels - 1 - i;
		y[i] = sign * neck_table_breadth_mm(table, &piece, bass, i);
		y[last] = -sign * neck_table_breadth_mm(table, &piece, 1 - bass, i);
		z[i] = z[last] = base + table->level[i] * height;
	}
	*count = 2 * levels;
	*y_mm = y;
	*z_mm = z;
	return FAULT_NONE;
}

static double worst_off_line(double from_mm, double to_mm,
			     double (*value)(const void *context, double x_mm), const void *context)
{
	double y0 = value(context, from_mm), y1 = value(context, to_mm), worst = 0.0;

	size_t steps = walk_steps(from_mm, to_mm);
	for (size_t i = 0; i <= steps; i++) {
		double x = walk_place(from_mm, to_mm, i, steps);
		double line = y0 + (y1 - y0) * (x - from_mm) / (to_mm - from_mm);
		worst = fmax(worst, fabs(value(context, x) - line));
	}
	return worst;
}

static double crest_of(const void *context, double x_mm)
{
	return neck_crest_mm(context, x_mm);
}

static double minus_edge_of(const void *context, double x_mm)
{
	return neck_half_breadth_mm(context, SIDE_MINUS, x_mm, 0.0);
}

static double plus_edge_of(const void *context, double x_mm)
{
	return neck_half_breadth_mm(context, SIDE_PLUS, x_mm, 0.0);
}

double neck_crest_straightness_mm(const struct neck *neck, double from_mm, double to_mm)
{
	return worst_off_line(from_mm, to_mm, crest_of, neck);
}

double neck_edge_straightness_mm(const struct neck *neck, enum neck_side side, double from_mm,
				 double to_mm)
{
	return worst_off_line(from_mm, to_mm, side == SIDE_MINUS ? minus_edge_of : plus_edge_of,
			      neck);
}

double neck_asymmetry_mm(const struct neck *neck)
{
	const struct neck_table *table = &neck->table;
	size_t cells = table->knot_count * table->level_count;
	double worst = 0.0;

	for (size_t i = 0; i < cells; i++)
		worst = fmax(worst,
			     fabs(table->breadth[SIDE_PLUS][i] - table->breadth[SIDE_MINUS][i]));
	return worst;
}

const double *neck_levels(const struct neck *neck, size_t *count)
{
	*count = neck->table.level_count;
	return neck->table.level;
}

const double *neck_knots(const struct neck *neck, size_t *count)
{
	*count = neck->table.knot_count;
	return neck->table.knot;
}
