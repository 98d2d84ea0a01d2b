/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Along a straight move the distance from the ball's centre to one facet is a
 * convex function of the way, because a facet is a convex set. A convex
 * function lies above each of its tangents. So one sample in the middle of a
 * stretch of length l, with distance d and direction n from the nearest point,
 * proves for this facet everywhere on the stretch
 *	distance >= d - |u . n| l / 2,	u the move's direction,
 * which is nearly d when the ball runs along the surface. A facet not looked at
 * because d was ample is held to the plain Lipschitz bound d - l / 2. Where a
 * bound is too low the stretch is halved. Each facet's deviation from the
 * continuous surface is charged in full. */
#include "proof/clearance.h"

#include <math.h>

#include "base/minmax.h"

/* Stretches longer than this are halved before facets are gathered, mm: long
 * ones would gather half the neck. */
#define LONGEST_STRETCH_MM 1.5
/* A stretch this short is as good as its sample, mm: less than the arithmetic
 * and the figures resolve. */
#define SHORTEST_STRETCH_MM 2e-4

struct gather {
	struct vec3 centre, direction; /* of the move, unit or zero */
	double half_mm, radius_mm;
	double bound_mm, sample_mm;
};

static bool hold_against(void *context, const struct facet *facet, struct vec3 nearest,
			 double distance_mm)
{
	struct gather *gather = context;
	struct vec3 away = vec3_sub(gather->centre, nearest);
	double kept = distance_mm - facet->allowance_mm - facet->deviation_mm - gather->radius_mm;
	double lean = distance_mm > 0.0 ? fabs(vec3_dot(gather->direction, away)) / distance_mm
					: 1.0;

	gather->sample_mm = smaller(gather->sample_mm, kept);
	gather->bound_mm = smaller(gather->bound_mm, kept - lean * gather->half_mm);
	return true;
}

struct pursuit {
	const struct facet_tree *tree;
	const struct neck *neck;
	double radius_mm, limit_mm, grain_mm;
	double least_mm; /* least sample so far, here and before */
	struct clearance out;
	bool over; /* a sample fell below the limit */
};

/* True when the centre lies in the finished neck's wood or under it. */
static bool is_inside(const struct neck *neck, struct vec3 centre)
{
	return centre.z < neck_height_mm(neck, centre.x, centre.y);
}

static void note_sample(struct pursuit *pursuit, double sample_mm, struct vec3 centre)
{
	pursuit->out.sample_mm = smaller(pursuit->out.sample_mm, sample_mm);
	pursuit->least_mm = smaller(pursuit->least_mm, sample_mm);
	if (is_inside(pursuit->neck, centre))
		pursuit->out.inside = true;
	if (pursuit->out.inside || sample_mm < pursuit->limit_mm)
		pursuit->over = true;
}

/* A stretch with ample room all along: only its being inside is left to ask. */
static void note_ample(struct pursuit *pursuit, struct vec3 centre)
{
	if (is_inside(pursuit->neck, centre))
		pursuit->out.inside = pursuit->over = true;
	pursuit->out.bound_mm = smaller(pursuit->out.bound_mm, CLEARANCE_AMPLE_MM);
}

/* Bounds one stretch; false when it must be halved. */
static bool bound_stretch(struct pursuit *pursuit, struct vec3 a, struct vec3 b, double length)
{
	struct vec3 centre = vec3_between(a, b, 0.5);
	double dmax = pursuit->tree->facets->deviation_mm;
	double ample = pursuit->radius_mm + dmax + CLEARANCE_AMPLE_MM + length / 2.0;

	if (length > LONGEST_STRETCH_MM) {
		bool far = facet_tree_clearance_mm(pursuit->tree, centre, ample) >= ample;
		if (far)
			note_ample(pursuit, centre);
		return far;
	}
	struct gather gather = { .centre = centre,
				 .half_mm = length / 2.0,
				 .radius_mm = pursuit->radius_mm,
				 .bound_mm = CLEARANCE_AMPLE_MM,
				 .sample_mm = INFINITY };
	if (length > 0.0)
		gather.direction = vec3_scale(vec3_sub(b, a), 1.0 / length);
	(void)facet_tree_visit(pursuit->tree, centre, ample, hold_against, &gather);
	if (isinf(gather.sample_mm)) {
		note_ample(pursuit, centre);
		return true;
	}
	note_sample(pursuit, gather.sample_mm, centre);
	bool good = gather.bound_mm >= pursuit->limit_mm &&
		    gather.bound_mm >= pursuit->least_mm - pursuit->grain_mm;
	if (!good && length > SHORTEST_STRETCH_MM && !pursuit->over)
		return false;
	pursuit->out.bound_mm = smaller(pursuit->out.bound_mm, gather.bound_mm);
	return true;
}

static void pursue(struct pursuit *pursuit, struct vec3 a, struct vec3 b, double length)
{
	if (pursuit->over || bound_stretch(pursuit, a, b, length))
		return;
	struct vec3 middle = vec3_between(a, b, 0.5);
	pursue(pursuit, a, middle, length / 2.0);
	pursue(pursuit, middle, b, length / 2.0);
}

struct clearance clearance_of_move(const struct facet_tree *tree, const struct neck *neck,
				   struct vec3 from, struct vec3 to, double radius_mm,
				   double limit_mm, double least_so_far_mm, double grain_mm)
{
	struct vec3 a = vec3_make(from.x, from.y, from.z + radius_mm);
	struct vec3 b = vec3_make(to.x, to.y, to.z + radius_mm);
	struct pursuit pursuit = { .tree = tree,
				   .neck = neck,
				   .radius_mm = radius_mm,
				   .limit_mm = limit_mm,
				   .grain_mm = grain_mm,
				   .least_mm = least_so_far_mm,
				   .out = { .bound_mm = INFINITY, .sample_mm = INFINITY } };

	pursue(&pursuit, a, b, vec3_distance(a, b));
	return pursuit.out;
}
