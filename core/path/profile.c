/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/profile.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"

#define ALONG_MM 1.0
#define ACROSS_MM 0.5

enum fault profile_build(struct profile *out, const struct drop *drop, double from_mm, double to_mm,
			 double y_limit_mm, struct fault_list *faults)
{
	size_t half = (size_t)ceil(y_limit_mm / ACROSS_MM) + 1;
	size_t places = 2 + (size_t)((to_mm - from_mm) / ALONG_MM);

	*out = (struct profile){ .nx = places,
				 .ny = 2 * half + 1,
				 .x0_mm = from_mm,
				 .dx_mm = (to_mm - from_mm) / (double)(places - 1),
				 .y0_mm = -(double)half * ACROSS_MM,
				 .dy_mm = ACROSS_MM,
				 .tip_mm = mem_array(places * (2 * half + 1), sizeof(double)) };
	bool beside = drop_has_beside(drop);
	if (beside)
		out->bare_mm = mem_array(places * out->ny, sizeof(double));
	if (!out->tip_mm || (beside && !out->bare_mm))
		return fault_no_memory(faults, "the map of lowest tips");
#pragma omp parallel for schedule(dynamic, 4)
	for (long k = 0; k < (long)places; k++) {
		size_t ix = (size_t)k, hint = 0;
		for (size_t iy = 0; iy < out->ny; iy++) {
			double x = profile_x(out, ix), y = out->y0_mm + (double)iy * out->dy_mm;
			double tip = drop_bare_mm(drop, x, y, &hint);
			if (beside)
				out->bare_mm[ix * out->ny + iy] = tip;
			out->tip_mm[ix * out->ny + iy] = larger(tip, drop_beside_mm(drop, x, y));
		}
	}
	return FAULT_NONE;
}

void profile_free(struct profile *profile)
{
	if (!profile)
		return;
	free(profile->tip_mm);
	free(profile->bare_mm);
	*profile = (struct profile){ 0 };
}

size_t profile_ix(const struct profile *profile, double x_mm)
{
	double i = floor((x_mm - profile->x0_mm) / profile->dx_mm + 0.5);

	return (size_t)clamped(i, 0.0, (double)(profile->nx - 1));
}

/* Lattice position of y: the lower index, and the share toward the next. */
static size_t split_y(const struct profile *profile, double y_mm, double *share)
{
	double f = clamped((y_mm - profile->y0_mm) / profile->dy_mm, 0.0,
			   (double)(profile->ny - 1) - 1e-9);
	size_t iy = (size_t)f;

	*share = f - (double)iy;
	return iy;
}

/* Straight between lattice points across; `tip` is one of the lattices. */
static double between(const struct profile *profile, const double *tip, size_t ix, double y_mm)
{
	double share;
	size_t iy = split_y(profile, y_mm, &share);

	tip += ix * profile->ny;
	return (1.0 - share) * tip[iy] + share * tip[iy + 1];
}

static const double *bare(const struct profile *profile)
{
	return profile->bare_mm ? profile->bare_mm : profile->tip_mm;
}

double profile_tip_mm(const struct profile *profile, size_t ix, double y_mm)
{
	return between(profile, profile->tip_mm, ix, y_mm);
}

double profile_bare_mm(const struct profile *profile, size_t ix, double y_mm)
{
	return between(profile, bare(profile), ix, y_mm);
}

double profile_slope(const struct profile *profile, size_t ix, double y_mm)
{
	return fabs(profile_bare_mm(profile, ix, y_mm + profile->dy_mm / 2.0) -
		    profile_bare_mm(profile, ix, y_mm - profile->dy_mm / 2.0)) /
	       profile->dy_mm;
}

double profile_find_mm(const struct profile *profile, size_t ix, double sign, double level_mm)
{
	const double *tip = bare(profile) + ix * profile->ny;
	size_t middle = profile->ny / 2;

	/* from the outside in, so that the outermost crossing is found */
	for (size_t k = middle; k > 0; k--) {
		size_t outer = sign < 0.0 ? middle - k : middle + k;
		size_t inner = sign < 0.0 ? outer + 1 : outer - 1;
		if (tip[inner] <= level_mm)
			continue;
		if (tip[outer] > level_mm)
			return -1.0;
		double share = (tip[inner] - level_mm) / (tip[inner] - tip[outer]);
		return ((double)(k - 1) + share) * profile->dy_mm;
	}
	return -1.0;
}
