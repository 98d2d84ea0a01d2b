/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/kept_off.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "path/scallop.h"

/* Distance between the places, mm. */
#define PITCH_MM 0.5
/* The tool keeps the ball off where it lifts it by more than this, mm. */
#define LIFT_MM 0.02

static void lay_lattice(struct kept_off *out, const struct job *job, const struct cutter *cutter)
{
	const struct blank *blank = &job->blank;
	double length = job->carve.to_mm - job->carve.from_mm;
	double half = cutter_radius_mm(cutter) + blank_widest_most_mm(blank);

	*out = (struct kept_off){ .nx = 1 + (size_t)ceil(length / PITCH_MM),
				  .ny = 1 + 2 * (size_t)ceil(half / PITCH_MM),
				  .x0_mm = job->carve.from_mm,
				  .y0_mm = -ceil(half / PITCH_MM) * PITCH_MM,
				  .dy_mm = PITCH_MM,
				  .radius_mm = cutter_radius_mm(cutter) };
	out->dx_mm = out->nx > 1 ? length / (double)(out->nx - 1) : PITCH_MM;
}

/* Drops the ball over the whole lattice; true when the tool lifts it anywhere. */
static bool drop_all(struct kept_off *out, bool *lifted, const struct drop *drop)
{
	bool any = false;

#pragma omp parallel for schedule(dynamic, 4) reduction(|| : any)
	for (long ix = 0; ix < (long)out->nx; ix++) {
		size_t hint = 0;
		for (size_t iy = 0; iy < out->ny; iy++) {
			size_t i = (size_t)ix * out->ny + iy;
			double x = out->x0_mm + (double)ix * out->dx_mm;
			double y = out->y0_mm + (double)iy * out->dy_mm;
			out->ball_mm[i] = drop_ball_mm(drop, x, y, &hint);
			lifted[i] = drop_tool_mm(drop, x, y) > out->ball_mm[i] + LIFT_MM;
			any = any || lifted[i];
		}
	}
	return any;
}

/* Whether the tool can lift the ball anywhere: asked without dropping it. */
static bool may_lift(const struct kept_off *out, const struct drop *drop)
{
	double floor_mm = drop_floor_mm(drop);

	for (size_t ix = 0; ix < out->nx; ix++)
		for (size_t iy = 0; iy < out->ny; iy++)
			if (drop_tool_mm(drop, out->x0_mm + (double)ix * out->dx_mm,
					 out->y0_mm + (double)iy * out->dy_mm) > floor_mm + LIFT_MM)
				return true;
	return false;
}

/* Marks everything within `within_mm` in plan of a place. */
static void spread(struct kept_off *out, size_t ix, size_t iy, double within_mm)
{
	size_t wide = (size_t)(within_mm / out->dx_mm);
	size_t first = ix > wide ? ix - wide : 0;

	for (size_t x = first; x <= ix + wide && x < out->nx; x++) {
		double dx = ((double)x - (double)ix) * out->dx_mm;
		double room = sqrt(larger(within_mm * within_mm - dx * dx, 0.0));
		size_t tall = (size_t)(room / out->dy_mm);
		for (size_t y = iy > tall ? iy - tall : 0; y <= iy + tall && y < out->ny; y++)
			out->kept[x * out->ny + y] = true;
	}
}

enum fault kept_off_build(struct kept_off *out, const struct drop *drop, const struct job *job,
			  const struct cutter *cutter, struct fault_list *faults)
{
	bool *lifted = NULL;

	lay_lattice(out, job, cutter);
	if (!may_lift(out, drop))
		return FAULT_NONE;
	size_t count = out->nx * out->ny;
	double line_mm = scallop_spacing_mm(out->radius_mm, job->carve.scallop_limit_mm);
	out->ball_mm = mem_array(count, sizeof *out->ball_mm);
	out->kept = mem_array(count, sizeof *out->kept);
	lifted = mem_array(count, sizeof *lifted);
	if (!out->ball_mm || !out->kept || !lifted) {
		free(lifted);
		kept_off_free(out);
		return fault_no_memory(faults, "what is left for the chisel");
	}
	if (!drop_all(out, lifted, drop))
		kept_off_free(out);
	for (size_t i = 0; out->kept && i < count; i++)
		if (lifted[i])
			spread(out, i / out->ny, i % out->ny, line_mm + PITCH_MM);
	free(lifted);
	return FAULT_NONE;
}

void kept_off_free(struct kept_off *kept)
{
	if (!kept)
		return;
	free(kept->ball_mm);
	free(kept->kept);
	kept->ball_mm = NULL;
	kept->kept = NULL;
}

/* First and last index of the places within `reach` of `at`. */
static void index_range(double at, double reach, double origin, double step, size_t count,
			size_t *first, size_t *last)
{
	double low = ceil((at - reach - origin) / step), high = floor((at + reach - origin) / step);

	*first = (size_t)clamped(low, 0.0, (double)(count - 1));
	*last = (size_t)clamped(high, 0.0, (double)(count - 1));
}

struct kept_reach kept_off_reach(const struct kept_off *kept, double x_mm, double y_mm,
				 double bottom_mm)
{
	struct kept_reach best = { INFINITY, INFINITY };
	double r = kept->radius_mm;
	size_t ix0, ix1, iy0, iy1;

	index_range(x_mm, r, kept->x0_mm, kept->dx_mm, kept->nx, &ix0, &ix1);
	index_range(y_mm, r, kept->y0_mm, kept->dy_mm, kept->ny, &iy0, &iy1);
	for (size_t ix = ix0; ix <= ix1; ix++)
		for (size_t iy = iy0; iy <= iy1; iy++) {
			size_t i = ix * kept->ny + iy;
			double dx = kept->x0_mm + (double)ix * kept->dx_mm - x_mm;
			double dy = kept->y0_mm + (double)iy * kept->dy_mm - y_mm;
			double rest = r * r - dx * dx - dy * dy;
			if (rest <= 0.0)
				continue;
			double z = larger(kept->ball_mm[i] + r - sqrt(rest), bottom_mm);
			best.ball_mm = smaller(best.ball_mm, z);
			if (!kept->kept[i])
				best.tool_mm = smaller(best.tool_mm, z);
		}
	return best;
}
