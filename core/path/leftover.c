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
/* The surface's slope is taken from places so far to both sides, mm. */
#define NORMAL_MM 0.1
/* The lattice bends up by this much in a hollow, mm, where so many places between
 * its own are looked at on either side. */
#define HOLLOW_MM 0.05
#define LOOKS_BESIDE 3

enum { MARK_SURFACE = 1, MARK_LEVEL = 2 };

/* What the looking goes by. */
struct look {
	const struct drop *drop;
	const struct profile *profile;
	const struct stock *stock;
	double radius_mm, out_mm; /* out: along the normal */
};

/* Lowest tip over a place, what stands beside included. */
static double tip_mm(const struct look *look, double x, double y)
{
	size_t hint = 0;

	return drop_tip_mm(look->drop, x, y, &hint);
}

/* Upward unit normal of the lowest-tip surface at a place. */
static struct vec3 normal_at(const struct look *look, double x, double y)
{
	double sx = (tip_mm(look, x + NORMAL_MM, y) - tip_mm(look, x - NORMAL_MM, y)) /
		    (2.0 * NORMAL_MM);
	double sy = (tip_mm(look, x, y + NORMAL_MM) - tip_mm(look, x, y - NORMAL_MM)) /
		    (2.0 * NORMAL_MM);
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

static bool is_left_at(const struct look *look, double x, double y)
{
	struct vec3 tip = vec3_make(x, y, tip_mm(look, x, y));

	return takes(look->stock, vec3_add(tip, vec3_scale(normal_at(look, x, y), look->out_mm)),
		     look->radius_mm);
}

/* How far the lattice's tips bend upward along the neck at a place, mm. */
static double hollow_mm(const struct profile *profile, size_t ix, size_t iy)
{
	const double *tip = profile->tip_mm + ix * profile->ny + iy;

	if (ix == 0 || ix + 1 >= profile->nx)
		return 0.0;
	return (tip[profile->ny] + *(tip - profile->ny)) / 2.0 - *tip;
}

/* In a hollow the ball turns a long way from one place of the lattice to the next,
 * and what stands between two may be narrow: there the places between are
 * looked at too. */
static bool is_left(const struct look *look, size_t ix, size_t iy)
{
	const struct profile *profile = look->profile;
	double x = profile_x(profile, ix), y = profile->y0_mm + (double)iy * profile->dy_mm;

	if (is_left_at(look, x, y))
		return true;
	if (hollow_mm(profile, ix, iy) < HOLLOW_MM)
		return false;
	for (int i = -LOOKS_BESIDE; i <= LOOKS_BESIDE; i++)
		if (i != 0 && is_left_at(look, x + profile->dx_mm * i / (2.0 * LOOKS_BESIDE), y))
			return true;
	return false;
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

enum fault leftover_build(struct leftover *out, const struct drop *drop,
			  const struct profile *profile, const struct stock *stock,
			  double radius_mm, double scallop_limit_mm, struct fault_list *faults)
{
	const struct look look = { drop, profile, stock, radius_mm,
				   scallop_limit_mm + BEYOND_SCALLOP_MM };
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
#pragma omp parallel for schedule(dynamic, 4)
	for (long k = 0; k < (long)profile->nx; k++)
		for (size_t iy = 0; iy < profile->ny; iy++)
			left[(size_t)k * profile->ny + iy] = is_left(&look, (size_t)k, iy);
	for (size_t ix = 0; ix < profile->nx; ix++)
		for (size_t iy = 0; iy < profile->ny; iy++) {
			if (!left[ix * profile->ny + iy])
				continue;
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
