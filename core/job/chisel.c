/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/chisel.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "job/chisel_places.h"
#include "path/drop.h"

/* The finished surface grown by its stock is asked of a ball so small that it
 * changes nothing, mm. */
#define POINT_MM 1e-3

struct survey {
	const struct chisel_ask *ask;
	const struct column_map *grid;
	struct job *bare; /* what the drop below reads */
	struct drop *point; /* the grown surface */
	struct chisel_column *column; /* one per column of the grid */
};

/* Nothing but the neck, for a point: no riser, no clamps, bed at the face. */
static enum fault drop_point(struct survey *survey, struct fault_list *faults)
{
	struct job *bare = survey->bare = mem_array(1, sizeof *bare);

	if (!bare)
		return fault_no_memory(faults, "what is left for the chisel");
	*bare = *survey->ask->job;
	bare->fixture = (struct fixture){ 0 };
	bare->neck.heel.joint = (struct joint_spec){ 0 };
	bare->tabs = (struct tabs){ 0 };
	bare->carve.waste.kind = WASTE_CLEARED;
	bare->cutter[0].ball_diameter_mm = 2.0 * POINT_MM;
	return drop_build(&survey->point, survey->ask->facets, survey->ask->neck, bare,
			  &bare->cutter[0], 0.0, faults);
}

static double column_x(const struct column_map *grid, size_t i)
{
	return grid->x0_mm + (double)(i % grid->nx) * grid->cell_mm;
}

static double column_y(const struct column_map *grid, size_t i)
{
	size_t iy = i / grid->nx;

	return grid->y0_mm + (double)iy * grid->cell_mm;
}

/* Length of [at - cell / 2, at + cell / 2] between two ends; an outermost column
 * also answers for the strip of wood outside its cell. */
static double share_mm(double at, double cell, double least, double most)
{
	double low = at - cell < least ? least : at - cell / 2.0;
	double high = at + cell > most ? most : at + cell / 2.0;

	return larger(high - low, 0.0);
}

/* The plan area of the blank that the column at (x, y) stands for. */
static double column_area(const struct survey *survey, double x, double y)
{
	const struct blank *blank = &survey->ask->job->blank;
	double cell = survey->grid->cell_mm;

	return share_mm(x, cell, blank_from_mm(blank), blank_to_mm(blank)) *
	       share_mm(y, cell, -outline_value_mm(blank_side(blank, BLANK_MINUS), x),
			outline_value_mm(blank_side(blank, BLANK_PLUS), x));
}

static struct chisel_column survey_column(const struct survey *survey, double x, double y)
{
	const struct stock *stock = survey->ask->stock;
	size_t i = stock_iy(stock, y) * stock->nx + stock_ix(stock, x), hint = 0;
	double top = stock->top[i], bottom = stock->bottom[i];
	double finished = larger(neck_height_mm(survey->ask->neck, x, y), bottom);
	double grown = larger(drop_ball_mm(survey->point, x, y, &hint), finished);
	struct chisel_column column = { .left = true,
					.area_mm2 = column_area(survey, x, y),
					.over_finished_mm = larger(top - finished, 0.0),
					.over_allowance_mm = larger(top - grown, 0.0) };
	struct nearest nearest;

	if (!facet_tree_nearest(survey->ask->tree, vec3_make(x, y, top), &nearest))
		return column;
	column.thick_mm = nearest.distance_mm;
	column.zone = survey->ask->facets->item[nearest.facet].zone;
	if (column.zone == ZONE_SIDES || column.zone == ZONE_HEEL_CHEEKS)
		column.side = y < 0.0 ? -1 : 1;
	return column;
}

static void survey_all(const struct survey *survey, const bool *left)
{
	const struct column_map *grid = survey->grid;

#pragma omp parallel for schedule(dynamic, 256)
	for (long k = 0; k < (long)(grid->nx * grid->ny); k++) {
		size_t i = (size_t)k;
		if (left[i])
			survey->column[i] =
				survey_column(survey, column_x(grid, i), column_y(grid, i));
	}
}

static void add_up(struct chisel *out, const struct chisel_column *column)
{
	for (size_t i = 0; i < out->map.nx * out->map.ny; i++) {
		out->map.value[i] = column[i].left ? (float)column[i].over_finished_mm : NAN;
		out->area_mm2 += column[i].area_mm2;
		out->over_allowance_mm3 += column[i].over_allowance_mm * column[i].area_mm2;
		out->over_finished_mm3 += column[i].over_finished_mm * column[i].area_mm2;
	}
}

static enum fault measure(struct chisel *out, const struct survey *survey, const bool *left,
			  struct fault_list *faults)
{
	if (!out->map.value || !survey->column)
		return fault_no_memory(faults, "what is left for the chisel");
	survey_all(survey, left);
	add_up(out, survey->column);
	return chisel_places_find(out, survey->column, faults);
}

enum fault chisel_measure(struct chisel *out, const struct chisel_ask *ask,
			  const struct column_map *grid, const bool *left,
			  struct fault_list *faults)
{
	size_t count = grid->nx * grid->ny;
	struct survey survey = { .ask = ask, .grid = grid };
	enum fault fault = drop_point(&survey, faults);

	*out = (struct chisel){ .map = *grid };
	out->map.value = mem_array(count, sizeof(float));
	survey.column = mem_array(count, sizeof *survey.column);
	if (fault == FAULT_NONE)
		fault = measure(out, &survey, left, faults);
	free(survey.column);
	drop_free(survey.point);
	free(survey.bare);
	return fault;
}
