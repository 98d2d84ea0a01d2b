/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/measure.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/mem.h"
#include "job/beside.h"
#include "job/hand_stock.h"
#include "job/program_left.h"

static enum fault measure_program(struct program_figures *out, const struct program_record *record,
				  const struct measure_program *program, const struct job *job,
				  struct fault_list *faults)
{
	*out = (struct program_figures){ .cutter = program->cutter,
					 .ball_diameter_mm =
						 job->cutter[program->cutter].ball_diameter_mm,
					 .blocks = program->blocks,
					 .cutting_length_mm = record->cutting_mm,
					 .rapid_length_mm = record->rapid_mm,
					 .minutes = record->seconds / 60.0,
					 .least = record->least,
					 .most = record->most,
					 .pass_count = record->pass_count };
	(void)snprintf(out->file, sizeof out->file, "%s", program->file);
	if (record->cutting_mm > 0.0)
		out->air_share = record->idle_mm / record->cutting_mm;
	out->pass = mem_array(record->pass_count, sizeof *out->pass);
	if (!out->pass)
		return fault_no_memory(faults, "the passes' figures");
	for (size_t i = 0; i < record->pass_count; i++) {
		const struct pass_record *pass = &record->pass[i];
		out->pass[i] = (struct pass_figures){ .kind = program->kind[i],
						      .level_mm = program->level_mm[i],
						      .deepest_bite_mm = pass->deepest_bite_mm,
						      .volume_mm3 = pass->volume_mm3,
						      .length_mm = pass->length_mm,
						      .idle_mm = pass->idle_mm,
						      .minutes = pass->seconds / 60.0,
						      .feed_mm_per_min = pass->fastest_mm_per_min,
						      .feed_cap = program->feed_cap[i] };
		if (program->why)
			out->pass[i].why = program->why[i];
	}
	return FAULT_NONE;
}

static enum fault measure_programs(struct job_result *out, const struct job *job,
				   const struct proof_record *record,
				   const struct measure_program *programs,
				   struct fault_list *faults)
{
	enum fault fault = FAULT_NONE;

	out->program = mem_array(record->program_count, sizeof *out->program);
	if (!out->program)
		return fault_no_memory(faults, "the programs' figures");
	out->program_count = record->program_count;
	for (size_t i = 0; i < record->program_count && fault == FAULT_NONE; i++)
		fault = measure_program(&out->program[i], &record->program[i], &programs[i], job,
					faults);
	return fault;
}

/* Top of the wood on the centre line at x, straight between columns. */
static double top_on_centre(const struct stock *stock, double x_mm)
{
	double f = (x_mm - stock->x0_mm) / stock->cell_mm;
	size_t row = stock_iy(stock, 0.0) * stock->nx;

	f = fmin(fmax(f, 0.0), (double)(stock->nx - 1) - 1e-9);
	size_t ix = (size_t)f;
	double share = f - (double)ix;
	return (1.0 - share) * (double)stock->top[row + ix] +
	       share * (double)stock->top[row + ix + 1];
}

static enum fault measure_stations(struct job_result *out, const struct job *job,
				   const struct neck *neck, const struct stock *stock,
				   struct fault_list *faults)
{
	const struct neck_spec *spec = &job->neck;
	double board_mm = spec->over_fretboard ? spec->fretboard_thickness_mm : 0.0;

	out->station = mem_array(spec->station_count, sizeof *out->station);
	if (!out->station)
		return fault_no_memory(faults, "the stations' figures");
	out->station_count = spec->station_count;
	for (size_t i = 0; i < spec->station_count; i++) {
		double x = neck_fret_x_mm(neck, spec->station[i].fret);
		out->station[i] = (struct station_figures){
			.fret = spec->station[i].fret,
			.x_mm = x,
			.blank_mm = outline_value_mm(&job->blank.top, x) + board_mm,
			.roughed_mm = top_on_centre(stock, x) + board_mm,
			.finished_mm = neck_stated_thickness_mm(neck, x),
			.width_mm = neck_half_breadth_mm(neck, SIDE_MINUS, x, 0.0) +
				    neck_half_breadth_mm(neck, SIDE_PLUS, x, 0.0),
			.wood_over_channel_mm = neck_wood_over_channel_mm(neck, x)
		};
	}
	return FAULT_NONE;
}

/* Index of the column nearest to a place, kept on the map. */
static size_t nearest_index(double place_mm, double first_mm, double cell_mm, size_t count)
{
	double i = round((place_mm - first_mm) / cell_mm);

	return (size_t)fmin(fmax(i, 0.0), (double)(count - 1));
}

static enum fault read_column(struct column_reading *out, const struct job_result *result,
			      double x_mm, double y_mm, struct fault_list *faults)
{
	const struct column_map *map = &result->blank_top;
	size_t ix = nearest_index(x_mm, map->x0_mm, map->cell_mm, map->nx);
	size_t iy = nearest_index(y_mm, map->y0_mm, map->cell_mm, map->ny);
	size_t at = iy * map->nx + ix;

	*out = (struct column_reading){ .x_mm = map->x0_mm + (double)ix * map->cell_mm,
					.y_mm = map->y0_mm + (double)iy * map->cell_mm,
					.blank_mm = (double)map->value[at],
					.finished_mm = (double)result->finished.value[at],
					.pass_count = result->cut_count };
	out->standing_mm = mem_array(out->pass_count, sizeof *out->standing_mm);
	if (!out->standing_mm)
		return fault_no_memory(faults, "the stations' figures");
	double standing_mm = out->blank_mm;
	for (size_t i = 0; i < out->pass_count; i++) {
		standing_mm -= (double)result->cut[i].value[at];
		out->standing_mm[i] = standing_mm;
	}
	return FAULT_NONE;
}

static enum fault read_centre_columns(struct job_result *out, struct fault_list *faults)
{
	enum fault fault = FAULT_NONE;

	for (size_t i = 0; i < out->station_count && fault == FAULT_NONE; i++)
		fault = read_column(&out->station[i].centre, out, out->station[i].x_mm, 0.0,
				    faults);
	return fault;
}

static struct column_map grid_of(const struct stock *stock, size_t stride)
{
	return (struct column_map){ .nx = (stock->nx + stride - 1) / stride,
				    .ny = (stock->ny + stride - 1) / stride,
				    .x0_mm = stock->x0_mm,
				    .y0_mm = stock->y0_mm,
				    .cell_mm = stock->cell_mm * (double)stride };
}

static enum fault make_map(struct column_map *out, const struct stock *stock, size_t stride,
			   struct fault_list *faults)
{
	*out = grid_of(stock, stride);
	out->value = mem_array(out->nx * out->ny, sizeof(float));
	return out->value ? FAULT_NONE : fault_no_memory(faults, "the maps");
}

static void fill_finished(struct column_map *map, const struct neck *neck)
{
	for (size_t iy = 0; iy < map->ny; iy++)
		for (size_t ix = 0; ix < map->nx; ix++) {
			double z = neck_height_mm(neck, map->x0_mm + (double)ix * map->cell_mm,
						  map->y0_mm + (double)iy * map->cell_mm);
			map->value[iy * map->nx + ix] = isfinite(z) ? (float)z : NAN;
		}
}

static void fill_blank(struct column_map *top, const struct blank *blank)
{
	for (size_t ix = 0; ix < top->nx; ix++) {
		double x = top->x0_mm + (double)ix * top->cell_mm;
		bool wood = x >= blank_from_mm(blank) && x <= blank_to_mm(blank);
		double minus = outline_value_mm(blank_side(blank, BLANK_MINUS), x);
		double plus = outline_value_mm(blank_side(blank, BLANK_PLUS), x);
		float z = (float)outline_value_mm(&blank->top, x);
		for (size_t iy = 0; iy < top->ny; iy++) {
			double y = top->y0_mm + (double)iy * top->cell_mm;
			top->value[iy * top->nx + ix] = wood && y >= -minus && y <= plus ? z : NAN;
		}
	}
}

static void fill_roughed(struct column_map *top, struct column_map *bottom,
			 const struct stock *stock)
{
	for (size_t i = 0; i < stock->nx * stock->ny; i++) {
		top->value[i] = stock->top[i] > stock->bottom[i] ? stock->top[i] : NAN;
		bottom->value[i] = stock->bottom[i];
	}
}

static enum fault measure_cuts(struct job_result *out, const struct proof_record *record,
			       struct fault_list *faults)
{
	size_t total = 0, next = 0;

	for (size_t i = 0; i < record->program_count; i++)
		total += record->program[i].pass_count;
	out->cut = mem_array(total, sizeof *out->cut);
	if (!out->cut)
		return fault_no_memory(faults, "the maps");
	out->cut_count = total;
	for (size_t i = 0; i < record->program_count; i++)
		for (size_t k = 0; k < record->program[i].pass_count; k++, next++) {
			enum fault fault =
				make_map(&out->cut[next], &record->stock, RECORD_STRIDE, faults);
			if (fault != FAULT_NONE)
				return fault;
			for (size_t c = 0; c < record->cut_nx * record->cut_ny; c++)
				out->cut[next].value[c] = record->program[i].pass[k].cut[c];
		}
	return FAULT_NONE;
}

static enum fault measure_maps(struct job_result *out, const struct job *job,
			       const struct neck *neck, const struct proof_record *record,
			       struct fault_list *faults)
{
	const struct stock *stock = &record->stock;
	enum fault fault = make_map(&out->finished, stock, RECORD_STRIDE, faults);

	if (fault == FAULT_NONE)
		fault = make_map(&out->blank_top, stock, RECORD_STRIDE, faults);
	if (fault == FAULT_NONE)
		fault = make_map(&out->roughed, stock, 1, faults);
	if (fault == FAULT_NONE)
		fault = make_map(&out->blank_bottom, stock, 1, faults);
	if (fault == FAULT_NONE)
		fault = measure_cuts(out, record, faults);
	if (fault != FAULT_NONE)
		return fault;
	fill_finished(&out->finished, neck);
	fill_blank(&out->blank_top, &job->blank);
	fill_roughed(&out->roughed, &out->blank_bottom, stock);
	return FAULT_NONE;
}

static enum fault make_line(struct profile_line *line, size_t count, struct fault_list *faults)
{
	line->count = count;
	line->x_mm = mem_array(count, sizeof(double));
	line->z_mm = mem_array(count, sizeof(double));
	return line->x_mm && line->z_mm ? FAULT_NONE : fault_no_memory(faults, "the side view");
}

/* Finished and roughed line at every column, the blank's at its own points. */
static enum fault measure_side(struct job_result *out, const struct job *job,
			       const struct neck *neck, const struct stock *stock,
			       struct fault_list *faults)
{
	double from = neck_from_mm(neck), to = neck_to_mm(neck);
	size_t count = 2 + (size_t)((to - from) / stock->cell_mm), columns = 0;
	size_t row = stock_iy(stock, 0.0) * stock->nx;
	enum fault fault = make_line(&out->finished_side, count, faults);

	if (fault == FAULT_NONE)
		fault = make_line(&out->roughed_side, stock->nx, faults);
	if (fault == FAULT_NONE)
		fault = make_line(&out->blank_side, job->blank.top.count, faults);
	if (fault != FAULT_NONE)
		return fault;
	for (size_t i = 0; i < count; i++) {
		double x = from + (to - from) * (double)i / (double)(count - 1);
		out->finished_side.x_mm[i] = x;
		out->finished_side.z_mm[i] = neck_crest_mm(neck, x);
	}
	for (size_t ix = 0; ix < stock->nx; ix++) {
		if (!(stock->top[row + ix] > stock->bottom[row + ix]))
			continue;
		out->roughed_side.x_mm[columns] = stock_x(stock, ix);
		out->roughed_side.z_mm[columns++] = stock->top[row + ix];
	}
	out->roughed_side.count = columns;
	for (size_t i = 0; i < job->blank.top.count; i++) {
		out->blank_side.x_mm[i] = job->blank.top.x_mm[i];
		out->blank_side.z_mm[i] = job->blank.top.value_mm[i];
	}
	return FAULT_NONE;
}

enum fault measure_job(struct job_result *out, const struct job *job, const struct neck *neck,
		       const struct facets *facets, const struct verdict *verdict,
		       const struct proof_record *record, const struct measure_program *programs,
		       struct fault_list *faults)
{
	*out = (struct job_result){ .verdict = *verdict };
	enum fault fault = measure_programs(out, job, record, programs, faults);
	if (fault == FAULT_NONE)
		fault = measure_stations(out, job, neck, &record->stock, faults);
	if (fault == FAULT_NONE)
		fault = measure_maps(out, job, neck, record, faults);
	if (fault == FAULT_NONE)
		fault = program_left_measure(out, job, facets, faults);
	if (fault == FAULT_NONE)
		fault = read_centre_columns(out, faults);
	if (fault == FAULT_NONE)
		fault = measure_side(out, job, neck, &record->stock, faults);
	if (fault == FAULT_NONE)
		fault = hand_stock_measure(out, job, neck, facets, &record->stock, faults);
	if (fault == FAULT_NONE)
		fault = beside_measure(out, job, neck, facets, &record->stock, faults);
	return fault;
}
