/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/raster.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "path/contour.h"
#include "path/crosswise.h"
#include "path/raster_line.h"

/* A surface line is worth cutting where it takes at least this much, mm. */
#define SURFACE_WORTH_MM 0.02
/* Gaps this short are cut through: cheaper than a lift, mm. */
#define LEVEL_GAP_MM 14.0
#define SURFACE_GAP_MM 5.0
/* The tip is at the floor where the line is within this of it, mm: nothing to
 * follow there. */
#define FLOOR_NEAR_MM 0.02
/* Lines over the surface are spaced for slopes up to this across, and so lie no
 * closer than this share of their spacing. */
#define STEEPEST_SLOPE 1.7
#define LEAST_STEP_SHARE 0.5
/* Lines between neck and rail; a wider channel is for ordinary lines. */
#define CHANNEL_LINES_MAX 32
/* Beside a rail the ball keeps this much more than its radius, mm, so that it
 * need not climb where the line is rounded to a program's figures. */
#define RAIL_TOUCH_MM 0.05
/* A spacing along a slope of 45 degrees is this share of it across. */
#define VERGE_SHARE 0.7072
/* True where lines of that kind are asked for, or within `beyond_mm` of there:
 * where two kinds meet, each goes on a little so that no strip is left. */
static bool is_asked(const struct bench *bench, enum cut_lines lines, double x_mm, double beyond_mm)
{
	return bench_cutting(bench, x_mm)->lines == lines ||
	       bench_cutting(bench, x_mm - beyond_mm)->lines == lines ||
	       bench_cutting(bench, x_mm + beyond_mm)->lines == lines;
}

/* Lines that follow rails are for where a rail stands, whatever lines a stretch
 * asks for; the others for where they are asked for. */
static bool is_wanted(const struct raster_line *line, const struct raster_place *place,
		      double beyond_mm)
{
	const struct rails *rails = &drop_waste(line->bench->drop)->rails;

	if (line->lie.off_mm <= 0.0)
		return is_asked(line->bench, line->lines, place->x_mm, beyond_mm);
	return rails_distance_mm(rails, place->x_mm, place->y_mm) <=
	       job_channel_mm(line->bench->job);
}

static bool judge_level(struct raster_line *line, const void *context, bool *yes)
{
	const struct raster_level *rule = context;
	const struct bench *bench = line->bench;
	double cell = bench->stock.cell_mm;
	bool crosswise = line->lines == CUT_CROSSWISE, any = false;
	double across = crosswise ? cell : rule->beside_mm;
	double along = crosswise ? rule->beside_mm : cell;

	for (size_t i = 0; i < raster_line_places(bench, line->lines); i++) {
		struct raster_place place = raster_line_place(line, i);
		double z = larger(place.tip_mm, line->level_mm);
		struct vec3 tip = vec3_make(place.x_mm, place.y_mm, z);
		yes[i] = leftover_on_level(&bench->leftover, place.ix, place.y_mm) &&
			 is_wanted(line, &place, rule->stepover_mm / 2.0) &&
			 bench_bite_mm(bench, tip, across, along) > rule->worth_mm;
		any = any || yes[i];
	}
	return any;
}

/* Room for the lines of a pass. Lengthwise ones over the surface lie at worst
 * in every place where contour lines take over. */
static size_t lines_most(const struct bench *bench, enum cut_lines lines, double step_mm)
{
	if (lines == CUT_CROSSWISE)
		return crosswise_most(bench, step_mm);
	return 4 + 2 * (size_t)(bench->y_limit_mm / (step_mm * LEAST_STEP_SHARE));
}

/* y of the lengthwise lines of a level. */
static size_t level_lines(struct raster_lie *line, const struct bench *bench, double stepover_mm)
{
	size_t half = (size_t)ceil(bench->y_limit_mm / stepover_mm), count = 0;

	for (size_t i = 0; i <= 2 * half; i++)
		line[count++].at_mm = ((double)i - (double)half) * stepover_mm;
	return count;
}

enum fault raster_level(struct runs *out, const struct bench *bench, enum cut_lines lines,
			const struct raster_level *level, struct fault_list *faults)
{
	struct raster_lie *line =
		mem_array(lines_most(bench, lines, level->stepover_mm), sizeof *line);

	if (!line)
		return fault_no_memory(faults, "a pass");
	size_t count = lines == CUT_CROSSWISE ? crosswise_level(line, bench, level->stepover_mm)
					      : level_lines(line, bench, level->stepover_mm);
	enum fault fault = raster_follow(out, bench, lines, line, count, level->level_mm,
					 LEVEL_GAP_MM, judge_level, level, faults);
	free(line);
	return fault;
}

/* Lines of one side, by their distance from the rail: as near as the ball may
 * come, as near as the shank may where the rail stands above the flutes, and from
 * there evenly to where the neck is. */
static size_t channel_lines(double off_mm[CHANNEL_LINES_MAX], const struct bench *bench,
			    double stepover_mm)
{
	const struct job *job = bench->job;
	double nearest = bench->radius_mm + RAIL_TOUCH_MM;
	double shank = bench->cutter->shank_diameter_mm / 2.0 + job_rail_room_mm(job);
	double from = larger(nearest, shank + RAIL_TOUCH_MM);
	double to = larger(from, job_channel_mm(job) - nearest);
	size_t steps = (size_t)ceil((to - from) / stepover_mm - 1e-9), count = 0;

	steps = steps < CHANNEL_LINES_MAX - 2 ? steps : CHANNEL_LINES_MAX - 2;
	if (from > nearest)
		off_mm[count++] = nearest;
	off_mm[count++] = from;
	for (size_t i = 1; i <= steps; i++)
		off_mm[count++] = from + (to - from) * (double)i / (double)steps;
	return count;
}

enum fault raster_channel(struct runs *out, const struct bench *bench,
			  const struct raster_level *level, struct fault_list *faults)
{
	struct raster_lie line[2 * CHANNEL_LINES_MAX] = { 0 };
	double off_mm[CHANNEL_LINES_MAX] = { 0 };

	if (drop_waste(bench->drop)->rails.standing == 0)
		return FAULT_NONE;
	size_t count = channel_lines(off_mm, bench, level->stepover_mm);
	for (size_t i = 0; i < count; i++) {
		line[2 * i] = (struct raster_lie){ -1.0, off_mm[i] };
		line[2 * i + 1] = (struct raster_lie){ 1.0, off_mm[i] };
	}
	return raster_follow(out, bench, CUT_LENGTHWISE, line, 2 * count, level->level_mm,
			     LEVEL_GAP_MM, judge_level, level, faults);
}

static bool is_above_floor(const struct bench *bench, size_t place, double y_mm)
{
	return profile_bare_mm(&bench->profile, place, y_mm) >
	       drop_floor_mm(bench->drop) + FLOOR_NEAR_MM;
}

/* True when the contour line of the place's own height comes by there: contour
 * lines follow the outermost place of that height. Where shank or holder keep a
 * terrace beside the neck there may be another farther out. */
static bool is_contoured(const struct bench *bench, size_t place, double y_mm)
{
	const struct profile *profile = &bench->profile;
	double level = profile_bare_mm(profile, place, y_mm);
	double out = profile_find_mm(profile, place, y_mm < 0.0 ? -1.0 : 1.0, level);

	return fabs(out - fabs(y_mm)) < profile->dy_mm;
}

/* Where raster lines follow the surface: above the floor, not too steep across
 * unless contour lines leave it to them. */
static bool is_surface(const struct bench *bench, size_t place, double y_mm, double *slope)
{
	*slope = profile_slope(&bench->profile, place, y_mm);
	return is_above_floor(bench, place, y_mm) &&
	       (*slope <= CONTOUR_SLOPE * 1.1 || !is_contoured(bench, place, y_mm));
}

/* Raster lines go on for one spacing beyond the slope at which contour lines
 * take over: wherever the last line and the first contour happen to fall, no
 * strip wider than a spacing is left between them. */
static bool is_surface_or_verge(const struct bench *bench, size_t place, double y_mm,
				double spacing_mm)
{
	double slope, inward = larger(fabs(y_mm) - spacing_mm * VERGE_SHARE, 0.0);

	return is_surface(bench, place, y_mm, &slope) ||
	       (is_surface(bench, place, y_mm < 0.0 ? -inward : inward, &slope) &&
		is_above_floor(bench, place, y_mm));
}

/* True where the ball takes wood at a place or on its way to the next. On a
 * steep way only a narrow crescent of columns stands in front of the ball, so
 * there the way is looked at every half column. */
static bool is_worth_cutting(const struct raster_line *line, const struct raster_place *place,
			     const struct raster_place *next)
{
	const struct bench *bench = line->bench;
	double radius = bench->radius_mm, rise = fabs(next->tip_mm - place->tip_mm);
	struct vec3 from = vec3_make(place->x_mm, place->y_mm, place->tip_mm);
	struct vec3 to = vec3_make(next->x_mm, next->y_mm, next->tip_mm);
	double way = hypot(to.x - from.x, to.y - from.y);
	size_t looks = rise > way ? 1 + (size_t)(2.0 * way / bench->stock.cell_mm) : 1;

	for (size_t i = 0; i < looks; i++) {
		struct vec3 tip = vec3_between(from, to, (double)i / (double)looks);
		if (bench_bite_mm(bench, tip, radius, radius) > SURFACE_WORTH_MM)
			return true;
	}
	return false;
}

static bool judge_surface(struct raster_line *line, const void *rule, bool *yes)
{
	const struct bench *bench = line->bench;
	double spacing_mm = *(const double *)rule;
	size_t places = raster_line_places(bench, line->lines);
	struct raster_place next = raster_line_place(line, 0);
	bool any = false;

	for (size_t i = 0; i < places; i++) {
		struct raster_place place = next;
		next = i + 1 < places ? raster_line_place(line, i + 1) : place;
		yes[i] = leftover_on_surface(&bench->leftover, place.ix, place.y_mm) &&
			 is_asked(bench, line->lines, place.x_mm, spacing_mm) &&
			 is_surface_or_verge(bench, place.ix, place.y_mm, spacing_mm) &&
			 is_worth_cutting(line, &place, &next);
		any = any || yes[i];
	}
	return any;
}

/* Largest slope across the neck that a line at y meets where it would cut and
 * that its spacing can answer. */
static double steepest_on(const struct bench *bench, double y_mm)
{
	double steepest = 0.0, slope;

	for (size_t i = 0; i < bench->profile.nx; i++)
		if (is_surface(bench, i, y_mm, &slope) && slope <= STEEPEST_SLOPE)
			steepest = larger(steepest, slope);
	return steepest;
}

/* Distance from the line at y outward to the next: the spacing foreshortened
 * by the steeper of both lines' slopes. */
static double step_from(const struct bench *bench, double y_mm, double spacing_mm)
{
	double here = larger(steepest_on(bench, y_mm), steepest_on(bench, -y_mm));
	double ahead_y = y_mm + spacing_mm / hypot(1.0, here);
	double ahead = larger(steepest_on(bench, ahead_y), steepest_on(bench, -ahead_y));

	return spacing_mm / hypot(1.0, larger(here, ahead));
}

/* y of the lengthwise lines over the surface. */
static size_t surface_lines(struct raster_lie *line, const struct bench *bench, double spacing_mm)
{
	/* half a spacing either side of the centre line keeps both halves alike */
	double at = spacing_mm / 2.0;
	size_t count = 0;

	while (at <= bench->y_limit_mm) {
		line[count++].at_mm = -at;
		line[count++].at_mm = at;
		at += step_from(bench, at, spacing_mm);
	}
	return count;
}

enum fault raster_surface(struct runs *out, const struct bench *bench, enum cut_lines lines,
			  double spacing_mm, struct fault_list *faults)
{
	struct raster_lie *line = mem_array(lines_most(bench, lines, spacing_mm), sizeof *line);

	if (!line)
		return fault_no_memory(faults, "a pass");
	size_t count = lines == CUT_CROSSWISE ? crosswise_surface(line, bench, spacing_mm)
					      : surface_lines(line, bench, spacing_mm);
	enum fault fault = raster_follow(out, bench, lines, line, count, drop_floor_mm(bench->drop),
					 SURFACE_GAP_MM, judge_surface, &spacing_mm, faults);
	free(line);
	return fault;
}
