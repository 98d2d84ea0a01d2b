/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/gather.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "pictures/panels.h"
#include "pictures/plan_rows.h"

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

static enum fault gather_plan(struct gathered *out, const struct job_result *result,
			      const struct neck *neck, const struct job *job,
			      struct fault_list *faults)
{
	size_t rows = result->station_count + PLAN_ROWS_MORE;
	enum fault code = neck_lines_build(&out->lines, neck, faults);

	if (code != FAULT_NONE)
		return code;
	out->row = mem_array(rows, sizeof *out->row);
	out->touched = mem_array(result->cut_count, sizeof *out->touched);
	if (!out->row || !out->touched)
		return fault_no_memory(faults, "a plan");
	out->row_count = plan_rows_fill(out->row, result, neck, job);
	out->marks = neck_marks_of(neck);
	out->straight = straight_edge_of(neck);
	for (size_t i = 0; i < result->cut_count; i++) {
		out->touched[i] = map_extent_none();
		map_extent_add_cut(&out->touched[i], &result->cut[i]);
	}
	return FAULT_NONE;
}

enum fault gather(struct gathered *out, const struct job_result *result, const struct neck *neck,
		  const struct job *job, struct fault_list *faults)
{
	bool right = neck_spec_of(neck)->hand == HAND_RIGHT;

	*out = (struct gathered){ .minus_side = right ? "treble" : "bass",
				  .plus_side = right ? "bass" : "treble" };
	bool same = same_grid(&result->stock, &result->finished);
	for (size_t i = 0; i < result->cut_count; i++)
		same = same && same_grid(&result->cut[i], &result->blank_top);
	if (!same)
		return fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
				 "The maps of a result do not share one grid.");
	enum fault code = gather_allowance(out, result, neck, faults);
	if (code == FAULT_NONE)
		code = gather_lines(out, neck, job, faults);
	if (code == FAULT_NONE)
		code = gather_plan(out, result, neck, job, faults);
	if (code == FAULT_NONE)
		code = panels_build(&out->panel, &out->panel_count, result, neck, job, faults);
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
	panels_free(gathered->panel, gathered->panel_count);
	free(gathered->touched);
	free(gathered->row);
	neck_lines_free(&gathered->lines);
	free(gathered->fret_x_mm);
	free_line(&gathered->blank_bottom);
	free_line(&gathered->underside);
	free(gathered->allowance.value);
	*gathered = (struct gathered){ 0 };
}
