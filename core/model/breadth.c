/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/breadth.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/tol.h"
#include "model/taper.h"
#include "num/blend.h"

/* Halving an interval of v this often leaves less than a nanometre of height. */
#define LEVEL_DEPTH_MAX 30

/* A section in mm over v, for laying the levels. */
struct outline_test {
	const struct breadth *breadth;
	const struct section *section; /* NULL: the heel's own at `x_mm` */
	double x_mm, half_width_mm, height_mm;
};

static double test_breadth_mm(const struct outline_test *test, double v)
{
	if (test->section)
		return test->half_width_mm * section_share(test->section, v);
	return heel_own_breadth_mm(&test->breadth->heel, test->x_mm, v);
}

/* Distance of the outline's point at v from the chord v0 to v1, mm. */
static double chord_gap_mm(const struct outline_test *test, double v0, double v1, double v)
{
	double b0 = test_breadth_mm(test, v0), b1 = test_breadth_mm(test, v1);
	double db = b1 - b0, dz = (v1 - v0) * test->height_mm;
	double pb = test_breadth_mm(test, v) - b0, pz = (v - v0) * test->height_mm;

	return fabs(db * pz - dz * pb) / hypot(db, dz);
}

/* True when the outline stays within TOL_SECTION_MM of its chord. A convex
 * outline lies within twice its middle gap; quarter points guard hollow ones. */
static bool fits(const struct outline_test *test, double v0, double v1)
{
	for (int quarter = 1; quarter <= 3; quarter++) {
		double v = v0 + (v1 - v0) * quarter / 4.0;
		if (2.0 * chord_gap_mm(test, v0, v1, v) > TOL_SECTION_MM)
			return false;
	}
	return true;
}

static bool all_fit(const struct outline_test *tests, size_t count, double v0, double v1)
{
	for (size_t i = 0; i < count; i++)
		if (!fits(&tests[i], v0, v1))
			return false;
	return true;
}

/* Appends the levels in (v0, v1], halving until every outline fits. */
static bool lay_levels(struct breadth *breadth, const struct outline_test *tests, size_t count,
		       double v0, double v1, int depth)
{
	if (depth < LEVEL_DEPTH_MAX && (depth < 3 || !all_fit(tests, count, v0, v1))) {
		double middle = (v0 + v1) / 2.0;
		return lay_levels(breadth, tests, count, v0, middle, depth + 1) &&
		       lay_levels(breadth, tests, count, middle, v1, depth + 1);
	}
	if (breadth->level_count == BREADTH_LEVELS_MAX)
		return false;
	breadth->level[breadth->level_count++] = v1;
	return true;
}

#define OUTLINES_MAX (SIDE_COUNT * NECK_STATIONS_MAX + HEEL_PLACES_MAX)

static size_t gather_outlines(const struct breadth *breadth, struct outline_test *tests)
{
	const struct neck_spec *spec = breadth->spec;
	double places[HEEL_PLACES_MAX];
	size_t count = 0, heels = heel_places_mm(&breadth->heel, places);

	for (size_t i = 0; i < spec->station_count; i++) {
		double x = taper_fret_x_mm(spec->scale_length_mm, spec->station[i].fret);
		for (int side = 0; side < SIDE_COUNT; side++)
			tests[count++] = (struct outline_test){ breadth, &breadth->section[side][i],
								x,
								taper_wood_half_width_mm(spec, x),
								crest_station_wood_mm(spec, i) };
	}
	for (size_t i = 0; i < heels; i++)
		tests[count++] = (struct outline_test){ breadth, NULL, places[i], 0.0,
							crest_value_mm(breadth->crest, places[i]) };
	return count;
}

/* Where a rim ends the cheek has an edge: a level of its own. */
static enum fault build_levels(struct breadth *breadth, struct fault_list *faults)
{
	const struct heel_spec *heel = &breadth->spec->heel;
	struct outline_test tests[OUTLINES_MAX];
	size_t count = gather_outlines(breadth, tests);
	bool rimmed = heel->kind == HEEL_BLOCK && heel->hollow_mm > 0.0;
	double rim = rimmed ? heel->hollow_rim_mm / heel->height_mm : 0.0;
	const double cuts[] = { 0.0, rim, 1.0 - rim, 1.0 };
	bool good = true;

	breadth->level = mem_array(BREADTH_LEVELS_MAX, sizeof(double));
	if (!breadth->level)
		return fault_no_memory(faults, "the waterlines");
	breadth->level_count = 1;
	for (size_t i = 0; i + 1 < sizeof cuts / sizeof cuts[0]; i++)
		if (cuts[i + 1] > cuts[i])
			good = good && lay_levels(breadth, tests, count, cuts[i], cuts[i + 1], 0);
	if (!good)
		return fault_add(faults, FAULT_GEOMETRY, NULL, 0, "stations",
				 "The sections need more than %d waterlines; use rounder shapes.",
				 BREADTH_LEVELS_MAX);
	return FAULT_NONE;
}

/* What a level's share exceeds the next higher level's by, at a station. */
static double excess_at(const struct breadth *breadth, int side, size_t station, size_t level)
{
	const struct section *section = &breadth->section[side][station];
	double share = section_share(section, breadth->level[level]);

	if (level + 1 == breadth->level_count)
		return share;
	return fmax(0.0, share - section_share(section, breadth->level[level + 1]));
}

/* The excess of one level over x: Steffen through the stations, held level at
 * the nut and at the heel's start so that the next rule continues it smoothly.
 * Between two stations it stays between their values, so it is never negative:
 * waterlines cannot cross, however many sections follow each other. */
static enum fault build_excess(struct breadth *breadth, int side, size_t level,
			       struct fault_list *faults)
{
	const struct neck_spec *spec = breadth->spec;
	double x[NECK_STATIONS_MAX + 2] = { 0 }, y[NECK_STATIONS_MAX + 2] = { 0 };
	size_t count = 1;

	for (size_t i = 0; i < spec->station_count; i++, count++) {
		x[count] = taper_fret_x_mm(spec->scale_length_mm, spec->station[i].fret);
		y[count] = excess_at(breadth, side, i, level);
	}
	x[0] = fmin(x[1], 0.0) - spec->peghead.transition_mm;
	y[0] = y[1];
	x[count] = breadth->crest->heel_start_mm;
	y[count] = y[count - 1];
	return curve_steffen(&breadth->excess[side][level], count + 1, x, y, faults);
}

static enum fault build_excesses(struct breadth *breadth, struct fault_list *faults)
{
	for (int side = 0; side < SIDE_COUNT; side++) {
		breadth->excess[side] = mem_array(breadth->level_count, sizeof(struct curve));
		if (!breadth->excess[side])
			return fault_no_memory(faults, "the waterlines");
		for (size_t level = 0; level < breadth->level_count; level++) {
			enum fault fault = build_excess(breadth, side, level, faults);
			if (fault != FAULT_NONE)
				return fault;
		}
	}
	return FAULT_NONE;
}

static enum fault build_sections(struct breadth *breadth, struct fault_list *faults)
{
	const struct neck_spec *spec = breadth->spec;
	enum neck_side bass = spec->hand == HAND_RIGHT ? SIDE_PLUS : SIDE_MINUS;
	enum fault first = FAULT_NONE;

	for (size_t i = 0; i < spec->station_count; i++) {
		double x = taper_fret_x_mm(spec->scale_length_mm, spec->station[i].fret);
		double half_mm = taper_wood_half_width_mm(spec, x);
		double height_mm = crest_station_wood_mm(spec, i);
		char setting[64];
		(void)snprintf(setting, sizeof setting, "stations[%zu].shape", i);
		for (int side = 0; side < SIDE_COUNT; side++) {
			bool is_bass = (enum neck_side)side == bass;
			enum fault fault = section_make(&breadth->section[side][i],
							is_bass ? &spec->station[i].bass
								: &spec->station[i].treble,
							half_mm, height_mm, setting, faults);
			if (first == FAULT_NONE)
				first = fault;
		}
	}
	return first;
}

enum fault breadth_build(struct breadth *out, const struct neck_spec *spec,
			 const struct crest *crest, struct fault_list *faults)
{
	*out = (struct breadth){ .spec = spec, .crest = crest, .heel = heel_make(spec, crest) };
	enum fault fault = build_sections(out, faults);
	if (fault == FAULT_NONE)
		fault = build_levels(out, faults);
	if (fault == FAULT_NONE)
		fault = build_excesses(out, faults);
	return fault;
}

void breadth_free(struct breadth *breadth)
{
	if (!breadth)
		return;
	for (int side = 0; side < SIDE_COUNT; side++) {
		for (size_t level = 0; breadth->excess[side] && level < breadth->level_count;
		     level++)
			curve_free(&breadth->excess[side][level]);
		free(breadth->excess[side]);
	}
	free(breadth->level);
}

/* Peghead and transition: the nut's section turns into a slab of the nut's
 * width, which opens to the peghead's width only beyond the transition. */
static double peghead_breadth_mm(const struct breadth *breadth, double share, double x_mm)
{
	const struct neck_spec *spec = breadth->spec;
	double nut_mm = taper_wood_half_width_mm(spec, 0.0);
	double start_mm = -spec->peghead.transition_mm;
	double slab = 1.0 - blend_step(x_mm, start_mm, 0.0);
	double open = 1.0 - blend_step(x_mm, start_mm - spec->peghead.flare_mm, start_mm);

	return nut_mm * (share + (1.0 - share) * slab) +
	       (spec->peghead.width_mm / 2.0 - nut_mm) * open;
}

/* Shares of all levels on the shaft: the excesses added up from the crest down,
 * in proportion to their whole, which is 1 at every station and a hair off it
 * in between. */
static void shares_at(const struct breadth *breadth, enum neck_side side, double x_mm, double *out)
{
	double sum = 0.0;

	for (size_t level = breadth->level_count; level-- > 0;) {
		sum += curve_value(&breadth->excess[side][level], x_mm);
		out[level] = sum;
	}
	for (size_t level = 0; level < breadth->level_count; level++)
		out[level] /= sum;
}

void breadth_values_mm(const struct breadth *breadth, enum neck_side side, double x_mm, double *out)
{
	double heel_start = breadth->crest->heel_start_mm;
	double half_mm = taper_wood_half_width_mm(breadth->spec, x_mm);

	shares_at(breadth, side, fmin(fmax(x_mm, 0.0), heel_start), out);
	for (size_t level = 0; level < breadth->level_count; level++) {
		if (x_mm < 0.0)
			out[level] = peghead_breadth_mm(breadth, out[level], x_mm);
		else if (x_mm <= heel_start)
			out[level] *= half_mm;
		else
			out[level] = heel_breadth_mm(&breadth->heel, x_mm, out[level],
						     breadth->level[level]);
	}
}
