/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/leftover.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "base/vec3.h"

/* Left by the earlier cutter beyond its scallop limit before it is worth
 * another cutter's while, mm. */
#define BEYOND_SCALLOP_MM 0.03
/* The ball moved out takes wood where it takes this much, mm. */
#define TAKES_MM 0.01
/* Lines over the surface begin and end so far outside the marks, mm. */
#define SURFACE_VERGE_MM 2.0

enum { MARK_SURFACE = 1, MARK_LEVEL = 2 };

/* Upward unit normal of the lattice at a place. */
static struct vec3 normal_at(const struct profile *profile, size_t ix, size_t iy)
{
	size_t x0 = ix > 0 ? ix - 1 : ix, x1 = ix + 1 < profile->nx ? ix + 1 : ix;
	size_t y0 = iy > 0 ? iy - 1 : iy, y1 = iy + 1 < profile->ny ? iy + 1 : iy;
	const double *tip = profile->tip_mm;
	double sx = (tip[x1 * profile->ny + iy] - tip[x0 * profile->ny + iy]) /
		    ((double)(x1 - x0) * profile->dx_mm);
	double sy = (tip[ix * profile->ny + y1] - tip[ix * profile->ny + y0]) /
		    ((double)(y1 - y0) * profile->dy_mm);
	double length = sqrt(1.0 + sx * sx + sy * sy);

	return vec3_make(-sx / length, -sy / length, 1.0 / length);
}

/* True when a ball there takes wood from any column. */
static bool takes(const struct stock *stock, struct vec3 tip, double radius)
{
	size_t ix0 = stock_ix(stock, tip.x - radius), ix1 = stock_ix(stock, tip.x + radius);
	size_t iy0 = stock_iy(stock, tip.y - radius), iy1 = stock_iy(stock, tip.y + radius);

	for (size_t iy = iy0; iy <= iy1; iy++)
		for (size_t ix = ix0; ix <= ix1; ix++) {
			size_t i = iy * stock->nx + ix;
			double dx = stock_x(stock, ix) - tip.x, dy = stock_y(stock, iy) - tip.y;
			double rest = radius * radius - dx * dx - dy * dy;
			if (rest <= 0.0 || stock->top[i] <= stock->bottom[i])
				continue;
			double height = tip.z + radius - sqrt(rest);
			if (stock->top[i] - larger(height, stock->bottom[i]) > TAKES_MM)
				return true;
		}
	return false;
}

static bool is_left(const struct profile *profile, const struct stock *stock, double radius,
		    double out_mm, size_t ix, size_t iy)
{
	struct vec3 tip = vec3_make(profile_x(profile, ix),
				    profile->y0_mm + (double)iy * profile->dy_mm,
				    profile->tip_mm[ix * profile->ny + iy]);
	struct vec3 normal = normal_at(profile, ix, iy);

	return takes(stock, vec3_add(tip, vec3_scale(normal, out_mm)), radius);
}

/* Sets `bit` on everything within `within_mm` in plan of a place. */
static void spread(struct leftover *out, const struct profile *profile, size_t ix, size_t iy,
		   double within_mm, unsigned char bit)
{
	size_t reach_x = (size_t)(within_mm / profile->dx_mm);
	size_t x0 = ix > reach_x ? ix - reach_x : 0, x1 = ix + reach_x;

	for (size_t x = x0; x <= x1 && x < out->nx; x++) {
		double dx = ((double)x - (double)ix) * profile->dx_mm;
		double room = sqrt(larger(within_mm * within_mm - dx * dx, 0.0));
		size_t reach_y = (size_t)(room / profile->dy_mm);
		size_t y0 = iy > reach_y ? iy - reach_y : 0, y1 = iy + reach_y;
		for (size_t y = y0; y <= y1 && y < out->ny; y++)
			out->mark[x * out->ny + y] |= bit;
	}
}

enum fault leftover_build(struct leftover *out, const struct profile *profile,
			  const struct stock *stock, double radius_mm, double scallop_limit_mm,
			  struct fault_list *faults)
{
	size_t count = profile->nx * profile->ny;
	bool *left = mem_array(count, sizeof *left);

	*out = (struct leftover){ .mark = mem_array(count, sizeof *out->mark),
				  .nx = profile->nx,
				  .ny = profile->ny,
				  .y0_mm = profile->y0_mm,
				  .dy_mm = profile->dy_mm };
	if (!left || !out->mark) {
		free(left);
		return fault_no_memory(faults, "what the last cutter left");
	}
	double out_mm = scallop_limit_mm + BEYOND_SCALLOP_MM;
#pragma omp parallel for schedule(dynamic, 4)
	for (long k = 0; k < (long)profile->nx; k++)
		for (size_t iy = 0; iy < profile->ny; iy++)
			left[(size_t)k * profile->ny + iy] =
				is_left(profile, stock, radius_mm, out_mm, (size_t)k, iy);
	for (size_t i = 0; i < count; i++) {
		if (!left[i])
			continue;
		size_t ix = i / profile->ny, iy = i % profile->ny;
		spread(out, profile, ix, iy, 2.0 * radius_mm, MARK_LEVEL);
		spread(out, profile, ix, iy, SURFACE_VERGE_MM, MARK_SURFACE);
	}
	free(left);
	return FAULT_NONE;
}

void leftover_free(struct leftover *leftover)
{
	if (!leftover)
		return;
	free(leftover->mark);
	*leftover = (struct leftover){ 0 };
}

static bool is_marked(const struct leftover *leftover, size_t ix, double y_mm, unsigned char bit)
{
	if (!leftover->mark)
		return true;
	double i = clamped(floor((y_mm - leftover->y0_mm) / leftover->dy_mm + 0.5), 0.0,
			   (double)(leftover->ny - 1));
	return (leftover->mark[ix * leftover->ny + (size_t)i] & bit) != 0;
}

bool leftover_on_surface(const struct leftover *leftover, size_t ix, double y_mm)
{
	return is_marked(leftover, ix, y_mm, MARK_SURFACE);
}

bool leftover_on_level(const struct leftover *leftover, size_t ix, double y_mm)
{
	return is_marked(leftover, ix, y_mm, MARK_LEVEL);
}
