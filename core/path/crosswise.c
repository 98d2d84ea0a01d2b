/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/crosswise.h"

#include <math.h>
#include <stdbool.h>

#include "base/minmax.h"
#include "path/contour.h"

/* Lines never lie closer than this share of their spacing: a corner that is
 * sharper than the ball would ask for ever more. The steepest nose with the
 * smallest hollow asks for about as much. */
#define CLOSEST_SHARE (1.0 / 20.0)

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

	return 2 * (STRETCH_COUNT + 1) + (size_t)(length / (step_mm * CLOSEST_SHARE));
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

/* What one place between lattice points asks of the lines' distance: how much
 * longer the surface is than its plan, by the slope along the neck less what a
 * slope across takes from it (lines a distance d apart in plan on a plane of
 * slopes kx, ky lie d sqrt(1 + kx^2 / (1 + ky^2)) apart; general geometry), and
 * how much closer a hollow asks them. */
static double stretch_factor(const struct bench *bench, size_t ix, double y_mm)
{
	const struct profile *profile = &bench->profile;
	double across = profile_slope(profile, ix, y_mm), dx = profile->dx_mm;
	double here = profile_bare_mm(profile, ix, y_mm);
	double behind = here - profile_bare_mm(profile, ix - 1, y_mm);
	double ahead = profile_bare_mm(profile, ix + 1, y_mm) - here;
	double slope = larger(fabs(behind), fabs(ahead)) / dx / hypot(1.0, across);
	double middle = (behind + ahead) / (2.0 * dx);
	double bend = (ahead - behind) / (dx * dx) / pow(1.0 + middle * middle, 1.5);

	if (slope > CROSSWISE_UPRIGHT)
		return 1.0;
	return hypot(1.0, slope) * sqrt(1.0 + bench->radius_mm * larger(bend, 0.0));
}

/* The most that any place of the lattice's rows near [from, to] asks. */
static double most_asked(const struct bench *bench, double from_mm, double to_mm)
{
	const struct profile *profile = &bench->profile;
	size_t first = profile_ix(profile, from_mm), last = profile_ix(profile, to_mm);
	double most = 1.0;

	/* a line's own place lies between two rows */
	first = first > 1 ? first : 1;
	last = last + 2 < profile->nx ? last : profile->nx - 2;
	for (size_t ix = first; ix <= last; ix++)
		for (size_t iy = 0; iy < profile->ny; iy++) {
			double y = profile->y0_mm + (double)iy * profile->dy_mm;
			/* steeper sides are the contour lines' */
			if (profile_bare_mm(profile, ix, y) > drop_floor_mm(bench->drop) &&
			    profile_slope(profile, ix, y) < 2.0 * CONTOUR_SLOPE)
				most = larger(most, stretch_factor(bench, ix, y));
		}
	return smaller(most, 1.0 / CLOSEST_SHARE);
}

size_t crosswise_surface(struct raster_lie *line, const struct bench *bench, double spacing_mm)
{
	struct range range = { 0.0, bench->job->carve.from_mm };
	size_t count = 0;

	while (next_range(bench, range.to_mm, &range)) {
		double at = range.from_mm;
		while (at < range.to_mm) {
			line[count++].at_mm = at;
			/* the next line lies no farther off than on level ground */
			at += spacing_mm / most_asked(bench, at, at + spacing_mm);
		}
		line[count++].at_mm = range.to_mm;
	}
	return count;
}
