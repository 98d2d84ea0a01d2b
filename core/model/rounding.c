/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/rounding.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "base/units.h"

/* Tangents with the side (0) and the back (LAST) among them. */
#define LAST (ROUNDING_FACETS + 1)

static double angle_of(int line)
{
	return PI / 2.0 * line / LAST;
}

struct tangent {
	double offset_mm; /* h(t) */
	struct rounding_point touch;
};

static double reach(struct rounding_point p, double angle_rad)
{
	return p.y_mm * cos(angle_rad) + p.z_mm * sin(angle_rad);
}

/* Of a flat that lies along the tangent the middle is where it touches. */
static struct tangent tangent_at(size_t count, const struct rounding_point *point, double angle_rad)
{
	struct rounding_point first = { 0.0, point[count - 1].z_mm }, last = first;
	double most = reach(first, angle_rad);

	for (size_t i = count; i-- > 0;) {
		double here = reach(point[i], angle_rad);
		if (here > most)
			first = point[i];
		if (here >= most)
			last = point[i];
		most = larger(most, here);
	}
	return (struct tangent){
		most, { (first.y_mm + last.y_mm) / 2.0, (first.z_mm + last.z_mm) / 2.0 }
	};
}

/* Where the tangents `a` < `b` cross. */
static struct rounding_point crossing(const struct tangent *tangent, int a, int b)
{
	double ta = angle_of(a), tb = angle_of(b), sine = sin(tb - ta);
	double ha = tangent[a].offset_mm, hb = tangent[b].offset_mm;

	return (struct rounding_point){ (ha * sin(tb) - hb * sin(ta)) / sine,
					(hb * cos(ta) - ha * cos(tb)) / sine };
}

static double apart(struct rounding_point a, struct rounding_point b)
{
	return hypot(a.y_mm - b.y_mm, a.z_mm - b.z_mm);
}

/* Lines between neighbouring tangents of a stage: 4, 2, 1. */
static int stage_step(int stage)
{
	return LAST >> stage;
}

static int stage_of(int line)
{
	int stage = ROUNDING_STAGES;

	for (; line % 2 == 0; line /= 2)
		stage--;
	return stage;
}

/* The neighbours meet at the arris and leave it symmetrically, so both of its
 * ends lie equally far from it. Rounding may make a vanished facet's depth a
 * hair less than nothing. */
static struct rounding_facet facet_of(const struct tangent *tangent, int line)
{
	int stage = stage_of(line), step = stage_step(stage);
	struct rounding_facet facet = { .stage = stage,
					.angle_rad = angle_of(line),
					.arris = crossing(tangent, line - step, line + step),
					.low = crossing(tangent, line - step, line),
					.high = crossing(tangent, line, line + step),
					.touch = tangent[line].touch };

	facet.depth_mm = larger(reach(facet.arris, facet.angle_rad) - tangent[line].offset_mm, 0.0);
	facet.width_mm = apart(facet.low, facet.high);
	facet.mark_mm = facet.depth_mm / sin(angle_of(step));
	facet.none = facet.width_mm < ROUNDING_LEAST_WIDTH_MM;
	return facet;
}

static double from_piece(struct rounding_point p, struct rounding_point a, struct rounding_point b)
{
	double dy = b.y_mm - a.y_mm, dz = b.z_mm - a.z_mm, square = dy * dy + dz * dz;
	double share = 0.0;

	if (square > 0.0)
		share = ((p.y_mm - a.y_mm) * dy + (p.z_mm - a.z_mm) * dz) / square;
	share = clamped(share, 0.0, 1.0);
	return apart(p, (struct rounding_point){ a.y_mm + share * dy, a.z_mm + share * dz });
}

/* Shortest way from a corner to the section. */
static double from_outline(struct rounding_point corner, size_t count,
			   const struct rounding_point *point)
{
	struct rounding_point centre = { 0.0, point[count - 1].z_mm };
	double least = INFINITY;

	for (size_t i = 0; i < count; i++)
		least = smaller(least, from_piece(corner, point[i],
						  i + 1 < count ? point[i + 1] : centre));
	return least;
}

/* The distance from a convex figure has its greatest values at corners. */
static double left_after(int stage, const struct tangent *tangent, size_t count,
			 const struct rounding_point *point)
{
	int step = stage_step(stage);
	double most = 0.0;

	for (int line = 0; line < LAST; line += step)
		most = larger(most,
			      from_outline(crossing(tangent, line, line + step), count, point));
	return most;
}

void rounding_of_outline(struct rounding *out, size_t count, const struct rounding_point *point)
{
	struct tangent tangent[LAST + 1];

	*out = (struct rounding){ 0 };
	if (count == 0)
		return;
	for (int line = 0; line <= LAST; line++)
		tangent[line] = tangent_at(count, point, angle_of(line));
	out->half_breadth_mm = tangent[0].offset_mm;
	out->height_mm = tangent[LAST].offset_mm;
	for (int line = 1; line < LAST; line++)
		out->facet[line - 1] = facet_of(tangent, line);
	for (int stage = 0; stage <= ROUNDING_STAGES; stage++)
		out->left_mm[stage] = left_after(stage, tangent, count, point);
}

/* The outline runs from the bass edge over the crest to the treble edge, each
 * half with one point for each waterline. */
static void round_side(struct rounding *out, struct rounding_point *point, size_t levels,
		       const double *y_mm, const double *z_mm, bool first_half)
{
	for (size_t i = 0; i < levels; i++) {
		size_t from = first_half ? i : 2 * levels - 1 - i;
		point[i] = (struct rounding_point){ fabs(y_mm[from]), z_mm[from] - z_mm[0] };
	}
	rounding_of_outline(out, levels, point);
}

enum fault rounding_at(struct rounding out[SIDE_COUNT], const struct neck *neck, double x_mm,
		       struct fault_list *faults)
{
	enum neck_side bass = neck_spec_of(neck)->hand == HAND_RIGHT ? SIDE_PLUS : SIDE_MINUS;
	size_t count = 0;
	double *y_mm = NULL, *z_mm = NULL;
	enum fault fault = neck_section(neck, x_mm, &count, &y_mm, &z_mm, faults);

	if (fault != FAULT_NONE)
		return fault;
	struct rounding_point *point = mem_array(count / 2, sizeof *point);
	if (point) {
		for (int side = 0; side < SIDE_COUNT; side++)
			round_side(&out[side], point, count / 2, y_mm, z_mm, side == (int)bass);
	} else {
		fault = fault_no_memory(faults, "the facet lines");
	}
	free(point);
	free(z_mm);
	free(y_mm);
	return fault;
}

size_t rounding_corners(struct rounding_point out[ROUNDING_CORNERS_MAX],
			const struct rounding *rounding, int stage)
{
	int step = stage_step(stage);
	size_t count = 0;

	out[count++] = (struct rounding_point){ rounding->half_breadth_mm, 0.0 };
	if (stage == 0)
		out[count++] =
			(struct rounding_point){ rounding->half_breadth_mm, rounding->height_mm };
	/* A facet's ends are corners of its own stage, and between two new
	 * facets the older one runs on. */
	for (int line = step; line < LAST; line += 2 * step) {
		if (stage == 0)
			break;
		out[count++] = rounding->facet[line - 1].low;
		out[count++] = rounding->facet[line - 1].high;
	}
	out[count++] = (struct rounding_point){ 0.0, rounding->height_mm };
	return count;
}
