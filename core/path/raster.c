/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/raster.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "path/contour.h"

/* A surface line is worth cutting where it takes at least this much, mm. */
#define SURFACE_WORTH_MM 0.02
/* Gaps this short are cut through: cheaper than a lift, mm. */
#define LEVEL_GAP_MM 14.0
#define SURFACE_GAP_MM 5.0
/* The tip is at the floor where the line is within this of it, mm: nothing to
 * follow there. */
#define FLOOR_NEAR_MM 0.02
/* A spacing along a slope of 45 degrees is this share of it across. */
#define VERGE_SHARE 0.7072
/* Lines one pass can have. */
#define LINES_MAX 4096
/* Lines between neck and rail; a wider channel is for ordinary lines. */
#define CHANNEL_LINES_MAX 32
/* Beside a rail the ball keeps this much more than its radius, mm, so that it
 * need not climb where the line is rounded to a program's figures. */
#define RAIL_TOUCH_MM 0.05

/* A line lies at one y all along, or beside a rail. */
struct lie {
	double y_mm; /* beside a rail only its sign counts */
	double off_mm; /* distance from the rail; 0: at y */
};

struct line {
	const struct bench *bench;
	struct lie lie;
	double level_mm;
	size_t hint;
};

static double line_y(const struct line *line, double x)
{
	const struct lie *lie = &line->lie;
	const struct rails *rails = &drop_waste(line->bench->drop)->rails;

	if (lie->off_mm <= 0.0)
		return lie->y_mm;
	return copysign(rails_beside_mm(rails, x, lie->off_mm), lie->y_mm);
}

static struct vec3 line_at(void *context, double s)
{
	struct line *line = context;

	return bench_tip(line->bench, s, line_y(line, s), line->level_mm, &line->hint);
}

/* Follows every stretch of "yes" places that no short gap divides, one place
 * farther at either end. */
static enum fault follow_stretches(struct runs *out, struct line *line, const bool *yes,
				   double gap_mm, struct fault_list *faults)
{
	const struct profile *profile = &line->bench->profile;
	struct track_curve curve = { line_at, line };
	size_t gap = (size_t)(gap_mm / profile->dx_mm), places = profile->nx, i = 0;

	while (i < places) {
		if (!yes[i]) {
			i++;
			continue;
		}
		size_t last = i;
		for (size_t k = i; k < places && k <= last + gap + 1; k++)
			if (yes[k])
				last = k;
		size_t first = i > 0 ? i - 1 : 0, end = last + 1 < places ? last + 1 : last;
		struct track *track = runs_add(out);
		if (!track)
			return fault_no_memory(faults, "a pass");
		enum fault fault = track_follow(track, &curve, profile_x(profile, first),
						profile_x(profile, end), faults);
		if (fault != FAULT_NONE)
			return fault;
		i = last + 1;
	}
	return FAULT_NONE;
}

/* Marks the places of one line worth cutting; returns whether there are any. */
typedef bool (*line_judge)(const struct line *line, const void *rule, bool *yes);

/* Judges and follows many lines at once. Each line works for itself; the runs
 * are put together in the lines' order, whatever the number of threads. */
static enum fault follow_lines(struct runs *out, const struct bench *bench, const struct lie *lie,
			       size_t count, double level_mm, double gap_mm, line_judge judge,
			       const void *rule, struct fault_list *faults)
{
	struct runs *part = mem_array(count, sizeof *part);
	enum fault fault = part ? FAULT_NONE : fault_no_memory(faults, "a pass");
	bool failed = false;

	if (!part)
		return fault;
#pragma omp parallel for schedule(dynamic) reduction(|| : failed)
	for (long k = 0; k < (long)count; k++) {
		struct line line = { bench, lie[k], level_mm, 0 };
		bool *yes = mem_array(bench->profile.nx, sizeof *yes);
		if (!yes || (judge(&line, rule, yes) &&
			     follow_stretches(&part[k], &line, yes, gap_mm, NULL) != FAULT_NONE))
			failed = true;
		free(yes);
	}
	if (failed)
		fault = fault_no_memory(faults, "a pass");
	for (size_t i = 0; i < count; i++) {
		if (fault == FAULT_NONE)
			fault = runs_take(out, &part[i], faults);
		runs_free(&part[i]);
	}
	free(part);
	return fault;
}

struct level_rule {
	double across_mm, worth_mm;
};

/* Lines that follow rails are for where a rail stands. */
static bool is_beside_rail(const struct line *line, double x, double y)
{
	const struct rails *rails = &drop_waste(line->bench->drop)->rails;

	return line->lie.off_mm <= 0.0 ||
	       rails_distance_mm(rails, x, y) <= job_channel_mm(line->bench->job);
}

static bool judge_level(const struct line *line, const void *context, bool *yes)
{
	const struct level_rule *rule = context;
	const struct bench *bench = line->bench;
	const struct profile *profile = &bench->profile;
	bool any = false;

	for (size_t i = 0; i < profile->nx; i++) {
		double x = profile_x(profile, i), y = line_y(line, x);
		if (!is_beside_rail(line, x, y))
			continue;
		double z = larger(profile_tip_mm(profile, i, y), line->level_mm);
		struct vec3 tip = vec3_make(x, y, z);
		yes[i] = leftover_on_level(&bench->leftover, i, y) &&
			 bench_bite_mm(bench, tip, rule->across_mm, bench->stock.cell_mm) >
				 rule->worth_mm;
		any = any || yes[i];
	}
	return any;
}

enum fault raster_level(struct runs *out, const struct bench *bench, double level_mm,
			double stepover_mm, double across_mm, double worth_mm,
			struct fault_list *faults)
{
	struct level_rule rule = { across_mm, worth_mm };
	size_t half = (size_t)ceil(bench->y_limit_mm / stepover_mm);
	struct lie *lie = mem_array(2 * half + 1, sizeof *lie);

	if (!lie)
		return fault_no_memory(faults, "a pass");
	for (size_t i = 0; i <= 2 * half; i++)
		lie[i].y_mm = ((double)i - (double)half) * stepover_mm;
	enum fault fault = follow_lines(out, bench, lie, 2 * half + 1, level_mm, LEVEL_GAP_MM,
					judge_level, &rule, faults);
	free(lie);
	return fault;
}

enum fault raster_channel(struct runs *out, const struct bench *bench, double level_mm,
			  double stepover_mm, double worth_mm, struct fault_list *faults)
{
	const struct job *job = bench->job;
	double nearest = bench->radius_mm + RAIL_TOUCH_MM;
	double shank = bench->cutter->shank_diameter_mm / 2.0 + job_rail_room_mm(job);
	double from = larger(nearest, shank + RAIL_TOUCH_MM);
	double to = larger(from, job_channel_mm(job) - nearest);
	struct level_rule rule = { bench->radius_mm, worth_mm };
	struct lie lie[2 * CHANNEL_LINES_MAX] = { 0 };
	size_t lines = 1 + (size_t)ceil((to - from) / stepover_mm - 1e-9), count = 0;

	if (drop_waste(bench->drop)->rails.standing == 0)
		return FAULT_NONE;
	lines = lines < CHANNEL_LINES_MAX ? lines : CHANNEL_LINES_MAX;
	for (size_t i = 0; i < lines; i++) {
		double share = lines > 1 ? (double)i / (double)(lines - 1) : 0.5;
		lie[count++] = (struct lie){ -1.0, from + share * (to - from) };
		lie[count++] = (struct lie){ 1.0, from + share * (to - from) };
	}
	return follow_lines(out, bench, lie, count, level_mm, LEVEL_GAP_MM, judge_level, &rule,
			    faults);
}

static bool is_above_floor(const struct bench *bench, size_t place, double y_mm)
{
	return profile_bare_mm(&bench->profile, place, y_mm) >
	       drop_floor_mm(bench->drop) + FLOOR_NEAR_MM;
}

/* Where raster lines follow the surface: above the floor, not too steep across. */
static bool is_surface(const struct bench *bench, size_t place, double y_mm, double *slope)
{
	*slope = profile_slope(&bench->profile, place, y_mm);
	return is_above_floor(bench, place, y_mm) && *slope <= CONTOUR_SLOPE * 1.1;
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

static bool judge_surface(const struct line *line, const void *rule, bool *yes)
{
	const struct bench *bench = line->bench;
	const struct profile *profile = &bench->profile;
	double spacing_mm = *(const double *)rule;
	bool any = false;

	for (size_t i = 0; i < profile->nx; i++) {
		double y = line->lie.y_mm, z = profile_tip_mm(profile, i, y);
		struct vec3 tip = vec3_make(profile_x(profile, i), y, z);
		yes[i] = leftover_on_surface(&bench->leftover, i, y) &&
			 is_surface_or_verge(bench, i, y, spacing_mm) &&
			 bench_bite_mm(bench, tip, bench->radius_mm, bench->radius_mm) >
				 SURFACE_WORTH_MM;
		any = any || yes[i];
	}
	return any;
}

/* Largest slope across the neck that a line at y meets where it would cut. */
static double steepest_on(const struct bench *bench, double y_mm)
{
	double steepest = 0.0, slope;

	for (size_t i = 0; i < bench->profile.nx; i++)
		if (is_surface(bench, i, y_mm, &slope))
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

enum fault raster_surface(struct runs *out, const struct bench *bench, double spacing_mm,
			  struct fault_list *faults)
{
	struct lie *lie = mem_array(LINES_MAX, sizeof *lie);
	size_t count = 0;

	if (!lie)
		return fault_no_memory(faults, "a pass");
	/* half a spacing either side of the centre line keeps both halves alike */
	double at = spacing_mm / 2.0;
	while (at <= bench->y_limit_mm && count + 2 <= LINES_MAX) {
		lie[count++].y_mm = -at;
		lie[count++].y_mm = at;
		at += step_from(bench, at, spacing_mm);
	}
	enum fault fault = follow_lines(out, bench, lie, count, drop_floor_mm(bench->drop),
					SURFACE_GAP_MM, judge_surface, &spacing_mm, faults);
	free(lie);
	return fault;
}
