/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/raster_line.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"

/* A run goes on for this many places beyond those marked, so that the place
 * where it ends lies outside: a millimetre in either case. */
#define BEYOND_LENGTHWISE 1
#define BEYOND_CROSSWISE 2

size_t raster_line_places(const struct bench *bench, enum cut_lines lines)
{
	return lines == CUT_CROSSWISE ? bench->profile.ny : bench->profile.nx;
}

/* Distance between places, mm. */
static double pitch_mm(const struct raster_line *line)
{
	const struct profile *profile = &line->bench->profile;

	return line->lines == CUT_CROSSWISE ? profile->dy_mm : profile->dx_mm;
}

static double place_mm(const struct raster_line *line, size_t k)
{
	const struct profile *profile = &line->bench->profile;

	return line->lines == CUT_CROSSWISE ? profile->y0_mm + (double)k * profile->dy_mm
					    : profile_x(profile, k);
}

/* y of a lengthwise line at x. */
static double line_y(const struct raster_line *line, double x)
{
	const struct raster_lie *lie = &line->lie;

	if (lie->off_mm <= 0.0)
		return lie->at_mm;
	return copysign(rails_beside_mm(&drop_waste(line->bench->drop)->rails, x, lie->off_mm),
			lie->at_mm);
}

struct raster_place raster_line_place(struct raster_line *line, size_t k)
{
	const struct profile *profile = &line->bench->profile;

	if (line->lines == CUT_LENGTHWISE) {
		double x = profile_x(profile, k), y = line_y(line, x);
		return (struct raster_place){ k, x, y, profile_tip_mm(profile, k, y) };
	}
	/* the lattice is too coarse along the neck for a steep nose */
	double at = line->lie.at_mm;
	struct raster_place place = { profile_ix(profile, at), at, place_mm(line, k), 0.0 };
	place.tip_mm = drop_tip_mm(line->bench->drop, place.x_mm, place.y_mm, &line->hint);
	return place;
}

static struct vec3 line_at(void *context, double s)
{
	struct raster_line *line = context;
	bool crosswise = line->lines == CUT_CROSSWISE;

	return bench_tip(line->bench, crosswise ? line->lie.at_mm : s,
			 crosswise ? s : line_y(line, s), line->level_mm, &line->hint);
}

/* Follows every stretch of "yes" places that no short gap divides, a little
 * farther at either end. */
static enum fault follow_stretches(struct runs *out, struct raster_line *line, const bool *yes,
				   double gap_mm, struct fault_list *faults)
{
	struct track_curve curve = { line_at, line };
	size_t gap = (size_t)(gap_mm / pitch_mm(line)), i = 0;
	size_t places = raster_line_places(line->bench, line->lines);
	size_t beyond = line->lines == CUT_CROSSWISE ? BEYOND_CROSSWISE : BEYOND_LENGTHWISE;

	while (i < places) {
		if (!yes[i]) {
			i++;
			continue;
		}
		size_t last = i;
		for (size_t k = i; k < places && k <= last + gap + 1; k++)
			if (yes[k])
				last = k;
		size_t first = i > beyond ? i - beyond : 0;
		size_t end = last + beyond < places ? last + beyond : places - 1;
		struct track *track = runs_add(out);
		if (!track)
			return fault_no_memory(faults, "a pass");
		enum fault fault = track_follow(track, &curve, place_mm(line, first),
						place_mm(line, end), faults);
		if (fault != FAULT_NONE)
			return fault;
		i = last + 1;
	}
	return FAULT_NONE;
}

enum fault raster_follow(struct runs *out, const struct bench *bench, enum cut_lines lines,
			 const struct raster_lie *lie, size_t count, double level_mm, double gap_mm,
			 raster_judge judge, const void *rule, struct fault_list *faults)
{
	struct runs *part = mem_array(count, sizeof *part);
	enum fault fault = part ? FAULT_NONE : fault_no_memory(faults, "a pass");
	bool failed = false;

	if (!part)
		return fault;
#pragma omp parallel for schedule(dynamic) reduction(|| : failed)
	for (long k = 0; k < (long)count; k++) {
		struct raster_line line = { bench, lines, lie[k], level_mm, 0 };
		bool *yes = mem_array(raster_line_places(bench, lines), sizeof *yes);
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
