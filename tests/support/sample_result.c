/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sample_result.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/units.h"
#include "support/sample_job.h"

static void set_outline(struct outline *outline, size_t count, const double (*points)[2])
{
	outline->count = count;
	for (size_t i = 0; i < count; i++) {
		outline->x_mm[i] = points[i][0];
		outline->value_mm[i] = points[i][1];
	}
}

static struct neck_spec sample_spec(void)
{
	const struct section_spec c = { .family = SECTION_C };
	struct neck_spec spec = {
		.name = "Steel string, 14 frets clear",
		.hand = HAND_RIGHT,
		.scale_length_mm = 645.16,
		.fret_count = 20,
		.joint_fret = 14.0,
		.nut_width_mm = 43.7,
		.width_fret = 14.0,
		.width_mm = 54.8,
		.fretboard_thickness_mm = 6.0,
		.side_margin_mm = 0.2,
		.over_fretboard = true,
		.station_count = 5,
		.station = { { 0.0, 21.0, c, c },
			     { 1.0, 21.3, c, c },
			     { 5.0, 22.5, c, c },
			     { 9.0, 23.7, c, c },
			     { 11.0, 24.3, c, c } },
		.heel = { .kind = HEEL_BLOCK,
			  .height_mm = 82.0,
			  .cap_length_mm = 14.0,
			  .cap_width_front_mm = 24.0,
			  .cap_width_back_mm = 28.0,
			  .hollow_mm = 1.0,
			  .nose_radius_mm = 16.0,
			  .nose_angle_rad = 72.0 * PI / 180.0 },
		.peghead = { .angle_rad = 14.0 * PI / 180.0,
			     .thickness_mm = 15.5,
			     .width_mm = 70.0,
			     .transition_mm = 30.0,
			     .length_mm = 40.0,
			     .flare_mm = 25.0 },
		.channel = { 6.0, 10.0, 3.0, 340.0, 3.5 },
		.allowance = { 1.0, 0.4, 0.6, 1.0, 4.0 },
	};

	return spec;
}

void sample_job(struct job *job)
{
	static const double top[][2] = { { -75.0, 42.0 }, { -4.0, 42.0 },  { 20.0, 26.0 },
					 { 285.0, 26.0 }, { 285.0, 90.0 }, { 375.0, 90.0 } };
	static const double bottom[][2] = { { -75.0, 0.0 }, { 375.0, 0.0 } };
	static const double half[][2] = { { -75.0, 37.0 }, { 375.0, 37.0 } };

	memset(job, 0, sizeof *job);
	job->neck = sample_spec();
	set_outline(&job->blank.top, 6, top);
	set_outline(&job->blank.bottom, 2, bottom);
	set_outline(&job->blank.half_width, 2, half);
	(void)snprintf(job->digest, sizeof job->digest, "%s",
		       "0f1e2d3c4b5a69788796a5b4c3d2e1f00f1e2d3c4b5a69788796a5b4c3d2e1f0");
}

static struct column_map blank_map(const struct job *job, double cell_mm)
{
	double from = blank_from_mm(&job->blank), to = blank_to_mm(&job->blank);
	double half = blank_widest_mm(&job->blank, from, to);
	struct column_map map = { .nx = (size_t)((to - from) / cell_mm),
				  .ny = (size_t)(2.0 * half / cell_mm),
				  .x0_mm = from + cell_mm / 2.0,
				  .y0_mm = -half + cell_mm / 2.0,
				  .cell_mm = cell_mm };

	map.value = calloc(map.nx * map.ny, sizeof *map.value);
	assert_non_null(map.value);
	return map;
}

/* Stock by formula: the zone's allowance, furrows across 3 mm, and a wedge that
 * the holder keeps from being cut in front of the heel. */
static double stock_at(const struct neck *neck, double x, double y, double z, double *slope)
{
	double base = neck_base_mm(neck, x), crest = neck_crest_mm(neck, x);
	double v = crest > base ? fmin(fmax((z - base) / (crest - base), 0.0), 1.0) : 0.0;
	double allowance = neck_allowance_mm(neck, neck_zone(neck, x, v));
	double furrow = 0.15 * fabs(sin(PI * y / 3.0));
	double nose = x - neck_heel_start_mm(neck) - 20.0;

	*slope = fmax(neck_normal(neck, x, y).z, 0.2);
	return allowance + furrow + (z > 30.0 ? 3.0 * exp(-nose * nose / 50.0) : 0.0);
}

static void fill_maps(struct job_result *result, const struct neck *neck, const struct job *job)
{
	for (size_t i = 0; i < result->stock.nx * result->stock.ny; i++) {
		size_t ix = i % result->stock.nx, iy = i / result->stock.nx;
		double x = result->stock.x0_mm + (double)ix * result->stock.cell_mm;
		double y = result->stock.y0_mm + (double)iy * result->stock.cell_mm;
		double top = outline_value_mm(&job->blank.top, x), slope = 1.0;
		double z = neck_height_mm(neck, x, y);
		bool there = isfinite(z);
		double stock = there ? stock_at(neck, x, y, z, &slope) : NAN;
		double rough = there ? fmin(z + stock / slope, top) : 2.0;
		result->finished.value[i] = there ? (float)z : NAN;
		result->stock.value[i] = there ? (float)stock : NAN;
		result->roughed.value[i] = (float)rough;
		result->blank_top.value[i] = (float)top;
		result->blank_bottom.value[i] = 0.0f;
	}
}

/* Every pass goes as deep as its floor allows; the last takes what is left. */
static void fill_cuts(struct job_result *result, const struct job *job)
{
	double highest = blank_highest_mm(&job->blank);
	size_t levels = result->cut_count - 2;

	for (size_t p = 0; p < result->cut_count; p++) {
		struct pass_figures *pass = &result->program[p >= result->cut_count - 1]
						     .pass[p >= result->cut_count - 1 ? 0 : p];
		double down = highest / (double)levels;
		double over = highest - (double)p * down, under = over - down;
		if (p >= levels)
			over = p == levels ? 12.0 : 8.0, under = p == levels ? 8.0 : 0.0;
		pass->kind = p < levels ? PASS_LEVEL : p == levels ? PASS_CONTOUR : PASS_SURFACE;
		pass->level_mm = fmax(under, 2.0);
		pass->minutes = 1.5 + 0.37 * (double)p;
		for (size_t i = 0; i < result->stock.nx * result->stock.ny; i++) {
			double rough = (double)result->roughed.value[i];
			double from = fmin(over, (double)result->blank_top.value[i]);
			double cut = from - fmax(under, rough);
			if (p >= levels)
				cut = fmin(cut, 1.2);
			result->cut[p].value[i] = (float)fmax(cut, 0.0);
		}
	}
}

static struct profile_line centre_line(const struct column_map *map)
{
	struct profile_line line = { map->nx, calloc(map->nx, sizeof(double)),
				     calloc(map->nx, sizeof(double)) };

	assert_true(line.x_mm && line.z_mm);
	for (size_t ix = 0; ix < map->nx; ix++) {
		line.x_mm[ix] = map->x0_mm + (double)ix * map->cell_mm;
		line.z_mm[ix] = (double)map->value[map->ny / 2 * map->nx + ix];
	}
	return line;
}

static void fill_stations(struct job_result *result, const struct neck *neck, const struct job *job)
{
	static const double frets[] = { 0.0, 1.0, 5.0, 9.0, 11.0, 13.5 };

	result->station_count = sizeof frets / sizeof frets[0];
	result->station = calloc(result->station_count, sizeof *result->station);
	assert_non_null(result->station);
	for (size_t i = 0; i < result->station_count; i++) {
		double x = neck_fret_x_mm(neck, frets[i]);
		double finished = neck_stated_thickness_mm(neck, x);
		result->station[i] = (struct station_figures){
			.fret = frets[i],
			.x_mm = x,
			.blank_mm = outline_value_mm(&job->blank.top, x) + 6.0,
			.roughed_mm = finished + 1.0,
			.finished_mm = finished,
			.width_mm = neck_fretboard_width_mm(neck, x) - 0.4,
			.wood_over_channel_mm = neck_wood_over_channel_mm(neck, x),
		};
	}
}

/* What job_measure says of the wood at each station: blank less the cuts. */
static void fill_centres(struct job_result *result)
{
	const struct column_map *top = &result->blank_top;

	for (size_t s = 0; s < result->station_count; s++) {
		struct column_reading *centre = &result->station[s].centre;
		size_t ix = (size_t)lround((result->station[s].x_mm - top->x0_mm) / top->cell_mm);
		size_t iy = (size_t)lround(-top->y0_mm / top->cell_mm), at = iy * top->nx + ix;
		double standing = (double)top->value[at];
		*centre = (struct column_reading){ top->x0_mm + (double)ix * top->cell_mm,
						   top->y0_mm + (double)iy * top->cell_mm,
						   standing,
						   (double)result->finished.value[at],
						   result->cut_count,
						   NULL };
		centre->standing_mm = calloc(result->cut_count, sizeof(double));
		assert_non_null(centre->standing_mm);
		for (size_t p = 0; p < result->cut_count; p++) {
			standing -= (double)result->cut[p].value[at];
			centre->standing_mm[p] = standing;
		}
	}
}

static void fill_programs(struct job_result *result, size_t passes)
{
	static const double diameters[] = { 6.0, 3.0 };

	result->program_count = 2;
	result->program = calloc(2, sizeof *result->program);
	assert_non_null(result->program);
	for (size_t p = 0; p < 2; p++) {
		struct program_figures *program = &result->program[p];
		program->pass_count = p == 0 ? passes - 1 : 1;
		program->ball_diameter_mm = diameters[p];
		program->minutes = p == 0 ? 95.0 : 22.5;
		program->pass = calloc(program->pass_count, sizeof *program->pass);
		assert_non_null(program->pass);
		(void)snprintf(program->file, sizeof program->file, "%s.ngc",
			       p == 0 ? "1-roughing" : "2-small-ball");
	}
}

static void fill_zones(struct job_result *result, const struct neck *neck)
{
	for (int z = 0; z < ZONE_COUNT; z++) {
		double allowance = neck_allowance_mm(neck, (enum stock_zone)z);
		result->zone[z] = (struct zone_figures){ allowance, allowance, allowance + 0.15,
							 allowance + 0.09, 4200.0 + 910.0 * z };
	}
}

void sample_result(struct job_result *result, const struct neck *neck, const struct job *job,
		   double cell_mm, size_t passes)
{
	assert_true(passes >= 3);
	*result = (struct job_result){ .cut_count = passes, .unreachable_mm3 = 1840.0 };
	struct column_map *maps[] = { &result->stock, &result->roughed, &result->finished,
				      &result->blank_top, &result->blank_bottom };
	for (size_t m = 0; m < 5; m++)
		*maps[m] = blank_map(job, cell_mm);
	result->cut = calloc(passes, sizeof *result->cut);
	assert_non_null(result->cut);
	for (size_t p = 0; p < passes; p++)
		result->cut[p] = blank_map(job, cell_mm);
	fill_programs(result, passes);
	fill_maps(result, neck, job);
	fill_cuts(result, job);
	fill_stations(result, neck, job);
	fill_centres(result);
	fill_zones(result, neck);
	result->finished_side = centre_line(&result->finished);
	result->roughed_side = centre_line(&result->roughed);
	result->blank_side = centre_line(&result->blank_top);
}

static struct chisel_place sample_place(const struct chisel *chisel, int side, double from_mm)
{
	double least = side < 0 ? -24.0 : 12.0;

	return (struct chisel_place){ .zone = ZONE_HEEL_CHEEKS,
				      .side = side,
				      .x_from_mm = from_mm,
				      .x_to_mm = from_mm + 20.0,
				      .y_from_mm = least,
				      .y_to_mm = least + 12.0,
				      .area_mm2 = chisel->area_mm2 / 2.0,
				      .over_allowance_mm3 = chisel->over_allowance_mm3 / 2.0,
				      .over_finished_mm3 = chisel->over_finished_mm3 / 2.0,
				      .thickest_mm = 5.25,
				      .thickest_x_mm = from_mm + 10.0,
				      .thickest_y_mm = least + 6.0 };
}

void sample_result_chisel(struct job_result *result, const struct job *job)
{
	struct chisel *chisel = &result->chisel;
	double cell = result->finished.cell_mm, from = blank_to_mm(&job->blank) - 20.0;

	chisel->map = result->finished;
	chisel->map.value = calloc(chisel->map.nx * chisel->map.ny, sizeof(float));
	assert_non_null(chisel->map.value);
	for (size_t i = 0; i < chisel->map.nx * chisel->map.ny; i++) {
		size_t iy = i / chisel->map.nx;
		double x = chisel->map.x0_mm + (double)(i % chisel->map.nx) * cell;
		double y = fabs(chisel->map.y0_mm + (double)iy * cell);
		bool left = x > from && y > 12.0 && y < 24.0;
		chisel->map.value[i] = left ? 5.0f : NAN;
		chisel->area_mm2 += left ? cell * cell : 0.0;
	}
	chisel->over_finished_mm3 = 5.0 * chisel->area_mm2;
	chisel->over_allowance_mm3 = result->unreachable_mm3 = 4.0 * chisel->area_mm2;
	chisel->place = calloc(2, sizeof *chisel->place);
	result->stickout = calloc(1, sizeof *result->stickout);
	assert_true(chisel->place && result->stickout);
	chisel->place_count = 2;
	for (size_t i = 0; i < 2; i++)
		chisel->place[i] = sample_place(chisel, i ? 1 : -1, from);
	result->stickout_count = 1;
	double has = job->cutter[0].stickout_mm;
	result->stickout[0] = (struct stickout_figures){ has, has + 30.0, NAN };
}

void sample_result_dent(struct job_result *result, double x_mm, double y_mm, double radius_mm,
			double depth_mm)
{
	struct column_map *stock = &result->stock;

	for (size_t i = 0; i < stock->nx * stock->ny; i++) {
		size_t ix = i % stock->nx, iy = i / stock->nx;
		double x = stock->x0_mm + (double)ix * stock->cell_mm;
		double y = stock->y0_mm + (double)iy * stock->cell_mm;
		if (hypot(x - x_mm, y - y_mm) <= radius_mm)
			stock->value[i] -= (float)depth_mm;
	}
}

static void free_line(struct profile_line *line)
{
	free(line->x_mm);
	free(line->z_mm);
}

void sample_result_free(struct job_result *result)
{
	for (size_t p = 0; p < result->program_count; p++)
		free(result->program[p].pass);
	for (size_t p = 0; p < result->cut_count; p++)
		free(result->cut[p].value);
	for (size_t s = 0; s < result->station_count; s++)
		free(result->station[s].centre.standing_mm);
	free(result->program);
	free(result->cut);
	free(result->station);
	free(result->chisel.map.value);
	free(result->chisel.place);
	free(result->stickout);
	free(result->stock.value);
	free(result->roughed.value);
	free(result->finished.value);
	free(result->blank_top.value);
	free(result->blank_bottom.value);
	free_line(&result->finished_side);
	free_line(&result->roughed_side);
	free_line(&result->blank_side);
	*result = (struct job_result){ 0 };
}
