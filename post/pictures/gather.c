/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/gather.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"

/* Points along the underside: fine enough for a peghead's bend on paper. */
#define UNDERSIDE_POINTS 601

static bool same_grid(const struct column_map *a, const struct column_map *b)
{
	return a->nx == b->nx && a->ny == b->ny && a->x0_mm == b->x0_mm && a->y0_mm == b->y0_mm &&
	       a->cell_mm == b->cell_mm;
}

/* Allowance at height z of the finished surface. Height fractions run from the
 * under side to the crest. */
static double allowance_at(const struct neck *neck, double x, double z, double base, double crest)
{
	double v = crest > base ? fmin(fmax((z - base) / (crest - base), 0.0), 1.0) : 0.0;

	return neck_allowance_mm(neck, neck_zone(neck, x, v));
}

static enum fault gather_allowance(struct gathered *out, const struct job_result *result,
				   const struct neck *neck, struct fault_list *faults)
{
	const struct column_map *stock = &result->stock, *finished = &result->finished;

	out->allowance = *stock;
	out->allowance.value = mem_array(stock->nx * stock->ny, sizeof *stock->value);
	if (!out->allowance.value)
		return fault_no_memory(faults, "a map");
	for (size_t ix = 0; ix < stock->nx; ix++) {
		double x = stock->x0_mm + (double)ix * stock->cell_mm;
		double base = neck_base_mm(neck, x), crest = neck_crest_mm(neck, x);
		for (size_t iy = 0; iy < stock->ny; iy++) {
			size_t i = iy * stock->nx + ix;
			double z = (double)finished->value[i];
			bool known = isfinite(z) && !isnan(stock->value[i]);
			out->allowance.value[i] =
				known ? (float)allowance_at(neck, x, z, base, crest) : NAN;
		}
	}
	return FAULT_NONE;
}

static bool line_room(struct profile_line *line, size_t count)
{
	line->count = count;
	line->x_mm = mem_array(count, sizeof *line->x_mm);
	line->z_mm = mem_array(count, sizeof *line->z_mm);
	return line->x_mm && line->z_mm;
}

static enum fault gather_lines(struct gathered *out, const struct neck *neck, const struct job *job,
			       struct fault_list *faults)
{
	const struct outline *bottom = &job->blank.bottom;
	const struct neck_spec *spec = neck_spec_of(neck);
	double from = neck_from_mm(neck), length = neck_to_mm(neck) - from;

	if (!line_room(&out->underside, UNDERSIDE_POINTS) ||
	    !line_room(&out->blank_bottom, bottom->count))
		return fault_no_memory(faults, "a side view");
	for (size_t i = 0; i < UNDERSIDE_POINTS; i++) {
		double x = from + length * (double)i / (UNDERSIDE_POINTS - 1);
		out->underside.x_mm[i] = x;
		out->underside.z_mm[i] = neck_base_mm(neck, x);
	}
	for (size_t i = 0; i < bottom->count; i++) {
		out->blank_bottom.x_mm[i] = bottom->x_mm[i];
		out->blank_bottom.z_mm[i] = bottom->value_mm[i];
	}
	out->fret_count = spec->fret_count > 0 ? (size_t)spec->fret_count : 0;
	out->fret_x_mm = mem_array(out->fret_count + 1, sizeof *out->fret_x_mm);
	if (!out->fret_x_mm)
		return fault_no_memory(faults, "a side view");
	for (size_t fret = 0; fret <= out->fret_count; fret++)
		out->fret_x_mm[fret] = neck_fret_x_mm(neck, (double)fret);
	return FAULT_NONE;
}

static enum fault gather_roughed(struct section_panel *panel, const struct column_map *map,
				 struct fault_list *faults)
{
	double column = round((panel->x_mm - map->x0_mm) / map->cell_mm);

	if (!(column >= 0.0 && column < (double)map->nx))
		return FAULT_NONE;
	panel->roughed_y_mm = mem_array(map->ny, sizeof *panel->roughed_y_mm);
	panel->roughed_z_mm = mem_array(map->ny, sizeof *panel->roughed_z_mm);
	if (!panel->roughed_y_mm || !panel->roughed_z_mm)
		return fault_no_memory(faults, "a section");
	panel->roughed_count = map->ny;
	for (size_t iy = 0; iy < map->ny; iy++) {
		double z = (double)map->value[iy * map->nx + (size_t)column];
		panel->roughed_y_mm[iy] = map->y0_mm + (double)iy * map->cell_mm;
		/* Cut through: no wood stands between there and the underside. */
		panel->roughed_z_mm[iy] = z > panel->blank_bottom_mm ? z : NAN;
	}
	return FAULT_NONE;
}

static enum fault gather_panel(struct section_panel *panel, const struct gathered *so_far,
			       const struct station_figures *station,
			       const struct job_result *result, const struct neck *neck,
			       const struct job *job, struct fault_list *faults)
{
	double x = station->x_mm;

	*panel = (struct section_panel){
		.fret = station->fret,
		.x_mm = x,
		.blank_half_width_mm = outline_value_mm(&job->blank.half_width, x),
		.blank_bottom_mm = outline_value_mm(&job->blank.bottom, x),
		.blank_top_mm = outline_value_mm(&job->blank.top, x),
		.roughed_mm = station->roughed_mm,
		.finished_mm = station->finished_mm,
	};
	if (x >= 0.0 && x <= so_far->fret_x_mm[so_far->fret_count]) {
		panel->board_width_mm = neck_fretboard_width_mm(neck, x);
		panel->board_thickness_mm = neck_spec_of(neck)->fretboard_thickness_mm;
	}
	enum fault code = neck_section(neck, x, &panel->finished_count, &panel->finished_y_mm,
				       &panel->finished_z_mm, faults);
	return code != FAULT_NONE ? code : gather_roughed(panel, &result->roughed, faults);
}

static enum fault gather_panels(struct gathered *out, const struct job_result *result,
				const struct neck *neck, const struct job *job,
				struct fault_list *faults)
{
	out->panel = mem_array(result->station_count, sizeof *out->panel);
	if (!out->panel)
		return fault_no_memory(faults, "the sections");
	for (size_t i = 0; i < result->station_count; i++) {
		out->panel_count = i + 1;
		enum fault code = gather_panel(&out->panel[i], out, &result->station[i], result,
					       neck, job, faults);
		if (code != FAULT_NONE)
			return code;
	}
	return FAULT_NONE;
}

enum fault gather(struct gathered *out, const struct job_result *result, const struct neck *neck,
		  const struct job *job, struct fault_list *faults)
{
	bool right = neck_spec_of(neck)->hand == HAND_RIGHT;

	*out = (struct gathered){ .minus_side = right ? "treble" : "bass",
				  .plus_side = right ? "bass" : "treble" };
	if (!same_grid(&result->stock, &result->finished))
		return fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
				 "The maps of a result do not share one grid.");
	enum fault code = gather_allowance(out, result, neck, faults);
	if (code == FAULT_NONE)
		code = gather_lines(out, neck, job, faults);
	if (code == FAULT_NONE)
		code = gather_panels(out, result, neck, job, faults);
	return code;
}

static void free_line(struct profile_line *line)
{
	free(line->x_mm);
	free(line->z_mm);
}

void gathered_free(struct gathered *gathered)
{
	if (!gathered)
		return;
	for (size_t i = 0; i < gathered->panel_count; i++) {
		free(gathered->panel[i].finished_y_mm);
		free(gathered->panel[i].finished_z_mm);
		free(gathered->panel[i].roughed_y_mm);
		free(gathered->panel[i].roughed_z_mm);
	}
	free(gathered->panel);
	free(gathered->fret_x_mm);
	free_line(&gathered->blank_bottom);
	free_line(&gathered->underside);
	free(gathered->allowance.value);
	*gathered = (struct gathered){ 0 };
}
