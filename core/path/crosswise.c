/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/crosswise.h"

#include <math.h>
#include <stdbool.h>

#include "base/minmax.h"
#include "path/contour.h"

/* Lines never lie closer than about this share of their spacing: where the ball
 * rests in a corner no line is close enough. */
#define CLOSEST_SHARE (1.0 / 20.0)
/* A step that is too long is shortened by this factor and tried again. */
#define STEP_SHRINK 0.92
/* Places looked at between two lines, and every so manyth place of the lattice
 * across. */
#define LOOKS_BETWEEN 8
#define LOOK_EVERY 3
/* Arithmetic's own noise must not refuse a step on level ground. */
#define ROUNDING (1.0 + 1e-6)

struct range {
	double from_mm, to_mm;
};

/* The next range of x behind `after_mm` on which lines run crosswise; false when
 * there is no more. Neighbouring stretches make one range. */
static bool next_range(const struct bench *bench, double after_mm, struct range *out)
{
	const struct job *job = bench->job;
	double from = after_mm;
	bool open = false;

	for (int i = 0; i < STRETCH_COUNT && from < job->carve.to_mm; i++) {
		double end = i + 1 < STRETCH_COUNT ? bench->stretches.end_mm[i] : job->carve.to_mm;
		end = smaller(end, job->carve.to_mm);
		if (end <= from)
			continue;
		bool crosswise = job->cutting[i].lines == CUT_CROSSWISE;
		if (open && !crosswise)
			return true;
		if (crosswise) {
			out->from_mm = open ? out->from_mm : from;
			out->to_mm = end;
			open = true;
		}
		from = end;
	}
	return open;
}

size_t crosswise_most(const struct bench *bench, double step_mm)
{
	double length = bench->job->carve.to_mm - bench->job->carve.from_mm;

	return (size_t)2 * (STRETCH_COUNT + 1) +
	       (size_t)(length / (step_mm * CLOSEST_SHARE * STEP_SHRINK));
}

size_t crosswise_level(struct raster_lie *line, const struct bench *bench, double stepover_mm)
{
	struct range range = { 0.0, bench->job->carve.from_mm };
	size_t count = 0;

	while (next_range(bench, range.to_mm, &range)) {
		double length = range.to_mm - range.from_mm;
		size_t steps = 1 + (size_t)(length / stepover_mm);
		for (size_t i = 0; i <= steps; i++)
			line[count++].at_mm = range.from_mm + length * (double)i / (double)steps;
	}
	return count;
}

/* Whether lines at x0 and x1 leave no more of a ridge between them at y than two
 * places `spacing_mm` apart on level ground: s^2 / (8 R), s square to the lines
 * on the surface (on a plane of slopes kx, ky lines d apart in plan lie
 * d sqrt(1 + kx^2 / (1 + ky^2)) apart), and how far the ball could go below the
 * straight way from one to the other (general geometry). */
static bool fits_at(const struct bench *bench, double x0, double x1, double y, double across,
		    double spacing_mm, size_t *hint)
{
	double radius = bench->radius_mm, dx = x1 - x0, deepest = 0.0;
	double z0 = drop_bare_mm(bench->drop, x0, y, hint);
	double slope = (drop_bare_mm(bench->drop, x1, y, hint) - z0) / dx;
	double apart = dx * hypot(1.0, slope / hypot(1.0, across));

	if (fabs(slope) > CROSSWISE_UPRIGHT)
		return true;
	for (int i = 1; i < LOOKS_BETWEEN; i++) {
		double step = dx * i / LOOKS_BETWEEN;
		double below = z0 + slope * step - drop_bare_mm(bench->drop, x0 + step, y, hint);
		deepest = larger(deepest, below / hypot(1.0, slope));
	}
	return apart * apart / (8.0 * radius) + deepest <= spacing_mm * spacing_mm / (8.0 * radius);
}

/* The same all across the neck where raster lines go: steeper sides are the
 * contour lines'. */
static bool fits(const struct bench *bench, double x0, double x1, double spacing_mm)
{
	const struct profile *profile = &bench->profile;
	size_t ix = profile_ix(profile, (x0 + x1) / 2.0), hint = 0;
	double floor_mm = drop_floor_mm(bench->drop);

	for (size_t iy = 0; iy < profile->ny; iy += LOOK_EVERY) {
		double y = profile->y0_mm + (double)iy * profile->dy_mm;
		double across = profile_slope(profile, ix, y);
		if (profile_bare_mm(profile, ix, y) > floor_mm && across < 2.0 * CONTOUR_SLOPE &&
		    !fits_at(bench, x0, x1, y, across, spacing_mm * ROUNDING, &hint))
			return false;
	}
	return true;
}

/* How far off the line at x the next may lie. */
static double step_from(const struct bench *bench, double x, double spacing_mm)
{
	double step = spacing_mm;

	while (step > spacing_mm * CLOSEST_SHARE && !fits(bench, x, x + step, spacing_mm))
		step *= STEP_SHRINK;
	return step;
}

size_t crosswise_surface(struct raster_lie *line, const struct bench *bench, double spacing_mm)
{
	struct range range = { 0.0, bench->job->carve.from_mm };
	size_t count = 0;

	while (next_range(bench, range.to_mm, &range)) {
		double at = range.from_mm;
		while (at < range.to_mm) {
			line[count++].at_mm = at;
			at += step_from(bench, at, spacing_mm);
		}
		line[count++].at_mm = range.to_mm;
	}
	return count;
}
