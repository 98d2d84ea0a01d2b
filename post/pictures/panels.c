/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/panels.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/tol.h"
#include "model/facets.h"

/* Column of a map nearest to x; nx when x is beside the map. */
static size_t column_at(const struct column_map *map, double x_mm)
{
	double column = round((x_mm - map->x0_mm) / map->cell_mm);

	return column >= 0.0 && column < (double)map->nx ? (size_t)column : map->nx;
}

static enum fault fill_roughed(struct section_panel *panel, const struct column_map *map,
			       struct fault_list *faults)
{
	size_t column = column_at(map, panel->x_mm);

	if (column == map->nx)
		return FAULT_NONE;
	panel->roughed_y_mm = mem_array(map->ny, sizeof *panel->roughed_y_mm);
	panel->roughed_z_mm = mem_array(map->ny, sizeof *panel->roughed_z_mm);
	if (!panel->roughed_y_mm || !panel->roughed_z_mm)
		return fault_no_memory(faults, "a section");
	panel->roughed_count = map->ny;
	for (size_t iy = 0; iy < map->ny; iy++) {
		double z = (double)map->value[iy * map->nx + column];
		panel->roughed_y_mm[iy] = map->y0_mm + (double)iy * map->cell_mm;
		/* Cut through: no wood stands between there and the underside. */
		panel->roughed_z_mm[iy] = z > panel->blank_bottom_mm ? z : NAN;
	}
	return FAULT_NONE;
}

static double least_along(const struct column_map *map, double x_mm)
{
	size_t column = column_at(map, x_mm);
	double least = NAN;

	for (size_t iy = 0; column < map->nx && iy < map->ny; iy++)
		least = fmin(least, (double)map->value[iy * map->nx + column]);
	return least;
}

static void fill_board(struct section_panel *panel, const struct neck *neck)
{
	const struct neck_spec *spec = neck_spec_of(neck);
	const struct channel_spec *channel = &spec->channel;
	double x = panel->x_mm;

	if (x >= 0.0 && x <= neck_fret_x_mm(neck, (double)spec->fret_count)) {
		panel->board_width_mm = neck_fretboard_width_mm(neck, x);
		panel->board_thickness_mm = spec->fretboard_thickness_mm;
	}
	if (x >= channel->from_mm && x <= channel->to_mm) {
		panel->channel_width_mm = channel->width_mm;
		panel->channel_depth_mm = channel->depth_mm;
	}
}

static enum fault fill_panel(struct section_panel *panel, const struct station_figures *station,
			     const struct job_result *result, const struct neck *neck,
			     const struct facets *facets, const struct job *job,
			     struct fault_list *faults)
{
	double x = station->x_mm;

	*panel = (struct section_panel){
		.fret = station->fret,
		.x_mm = x,
		.blank_minus_mm = outline_value_mm(blank_side(&job->blank, BLANK_MINUS), x),
		.blank_plus_mm = outline_value_mm(blank_side(&job->blank, BLANK_PLUS), x),
		.blank_bottom_mm = outline_value_mm(&job->blank.bottom, x),
		.blank_top_mm = outline_value_mm(&job->blank.top, x),
		.roughed_mm = station->roughed_mm,
		.finished_mm = station->finished_mm,
		.width_mm = station->width_mm,
		.over_channel_mm = station->wood_over_channel_mm,
		.cove = { station->cove[0], station->cove[1] },
		.least_stock_mm = least_along(&result->stock, x),
	};
	fill_board(panel, neck);
	enum fault code = neck_section(neck, x, &panel->finished_count, &panel->finished_y_mm,
				       &panel->finished_z_mm, faults);
	if (code == FAULT_NONE)
		code = section_line_grown(&panel->grown, facets, neck, x, faults);
	return code != FAULT_NONE ? code : fill_roughed(panel, &result->roughed, faults);
}

/* One panel after the other; *count says how many there are to release. */
static enum fault fill_all(struct section_panel *panel, size_t *count,
			   const struct job_result *result, const struct neck *neck,
			   const struct facets *facets, const struct job *job,
			   struct fault_list *faults)
{
	enum fault code = FAULT_NONE;

	for (size_t i = 0; code == FAULT_NONE && i < result->station_count; i++) {
		*count = i + 1;
		code = fill_panel(&panel[i], &result->station[i], result, neck, facets, job,
				  faults);
	}
	return code;
}

enum fault panels_build(struct section_panel **out, size_t *count, const struct job_result *result,
			const struct neck *neck, const struct job *job, struct fault_list *faults)
{
	struct facets facets = { 0 };
	enum fault code = facets_build(&facets, neck, TOL_FACET_MM, faults);

	*count = 0;
	*out = NULL;
	if (code != FAULT_NONE)
		goto cleanup;
	struct section_panel *panel = mem_array(result->station_count, sizeof *panel);
	if (!panel) {
		code = fault_no_memory(faults, "the sections");
		goto cleanup;
	}
	*out = panel;
	code = fill_all(panel, count, result, neck, &facets, job, faults);
cleanup:
	facets_free(&facets);
	return code;
}

void panels_free(struct section_panel *panel, size_t count)
{
	for (size_t i = 0; panel && i < count; i++) {
		free(panel[i].finished_y_mm);
		free(panel[i].finished_z_mm);
		free(panel[i].roughed_y_mm);
		free(panel[i].roughed_z_mm);
		section_line_free(&panel[i].grown);
	}
	free(panel);
}
