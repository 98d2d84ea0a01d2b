/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rounded to decimals, centre, start and end lie on no one circle. Which radius
 * a control goes by is its own affair, so its path is taken to be anywhere in
 * the ring between the two. The corners of the pieces lie in that ring; a piece
 * of angle w comes as near to the centre as r cos(w / 2). Ring and piece are
 * therefore nowhere farther apart than
 *	stray = |r1 - r0| + r0 (1 - cos(w / 2)),	r0 the smaller radius. */
#include "program/read_arc.h"

#include <math.h>
#include <stdio.h>

#include "base/tol.h"
#include "base/units.h"

/* Ends nearer than this nearly meet, mm. */
#define ENDS_APART_MM 0.05
#define RADIUS_LEAST_MM 0.05
#define RADIUS_MOST_MM 10000.0
/* An arc keeps to its plane within this, mm: a converted inch. */
#define PLANE_MM 1e-6

/* The two axes of the plane in the order in which a turn from the first to the
 * second is counterclockwise: x y in the xy plane, z x in the xz plane. */
static double part_a(enum arc_plane plane, struct vec3 p)
{
	return plane == PLANE_XY ? p.x : p.z;
}

static double part_b(enum arc_plane plane, struct vec3 p)
{
	return plane == PLANE_XY ? p.y : p.x;
}

static bool refuse(char *why, size_t why_size, const char *reason)
{
	(void)snprintf(why, why_size, "The arc is refused: %s.", reason);
	return false;
}

static bool check(const struct arc_pieces *pieces, char *why, size_t why_size)
{
	const struct read_arc *arc = pieces->arc;
	double across = arc->plane == PLANE_XY ? arc->to.z - arc->from.z : arc->to.y - arc->from.y;
	double apart = fabs(pieces->radius_to_mm - pieces->radius_from_mm);

	if (fabs(across) > PLANE_MM)
		return refuse(why, why_size, "it leaves its plane");
	if (pieces->radius_from_mm < RADIUS_LEAST_MM)
		return refuse(why, why_size, "its radius is next to nothing");
	if (pieces->radius_from_mm > RADIUS_MOST_MM)
		return refuse(why, why_size, "its radius is more than ten metres");
	if (vec3_distance(arc->from, arc->to) < ENDS_APART_MM)
		return refuse(why, why_size,
			      "its ends meet, which is a whole circle to one control and nothing "
			      "to another");
	if (apart <= arc->radii_apart_mm)
		return true;
	(void)snprintf(why, why_size,
		       "The arc is refused: from its centre to its ends are %.4f and %.4f mm.",
		       pieces->radius_from_mm, pieces->radius_to_mm);
	return false;
}

static void find_sweep(struct arc_pieces *pieces)
{
	const struct read_arc *arc = pieces->arc;
	double end = atan2(part_b(arc->plane, arc->to) - pieces->centre_b,
			   part_a(arc->plane, arc->to) - pieces->centre_a);

	pieces->start_rad =
		atan2(-part_b(arc->plane, arc->offset), -part_a(arc->plane, arc->offset));
	pieces->sweep_rad = end - pieces->start_rad;
	if (arc->clockwise && pieces->sweep_rad >= 0.0)
		pieces->sweep_rad -= 2.0 * PI;
	else if (!arc->clockwise && pieces->sweep_rad <= 0.0)
		pieces->sweep_rad += 2.0 * PI;
}

static void divide(struct arc_pieces *pieces)
{
	double small = fmin(pieces->radius_from_mm, pieces->radius_to_mm);
	double large = fmax(pieces->radius_from_mm, pieces->radius_to_mm);
	double half = acos(fmax(1.0 - TOL_ARC_PIECE_MM / large, 0.0));
	double sweep = fabs(pieces->sweep_rad);

	pieces->count = (size_t)fmax(ceil(sweep / (2.0 * half)), 1.0);
	half = sweep / (double)pieces->count / 2.0;
	double sine = sin(half / 2.0); /* 1 - cos(half) = 2 sin2(half / 2) */
	pieces->stray_mm = large - small + 2.0 * small * sine * sine;
	double lean = half + (large - small) / (small * sweep);
	pieces->lean = pieces->arc->plane == PLANE_XY ? vec3_make(lean, lean, 0.0)
						      : vec3_make(lean, 0.0, lean);
}

bool arc_pieces_make(struct arc_pieces *out, const struct read_arc *arc, char *why, size_t why_size)
{
	const enum arc_plane plane = arc->plane;

	*out = (struct arc_pieces){
		.arc = arc,
		.centre_a = part_a(plane, arc->from) + part_a(plane, arc->offset),
		.centre_b = part_b(plane, arc->from) + part_b(plane, arc->offset),
		.radius_from_mm = hypot(part_a(plane, arc->offset), part_b(plane, arc->offset)),
	};
	out->radius_to_mm = hypot(part_a(plane, arc->to) - out->centre_a,
				  part_b(plane, arc->to) - out->centre_b);
	if (!check(out, why, why_size))
		return false;
	find_sweep(out);
	divide(out);
	return true;
}

struct vec3 arc_piece_end(const struct arc_pieces *pieces, size_t k)
{
	const struct read_arc *arc = pieces->arc;
	double share = (double)(k + 1) / (double)pieces->count;
	double radius =
		pieces->radius_from_mm + share * (pieces->radius_to_mm - pieces->radius_from_mm);
	double angle = pieces->start_rad + share * pieces->sweep_rad;
	double a = pieces->centre_a + radius * cos(angle);
	double b = pieces->centre_b + radius * sin(angle);

	if (k + 1 == pieces->count)
		return arc->to;
	return arc->plane == PLANE_XY ? vec3_make(a, b, arc->from.z) : vec3_make(b, arc->from.y, a);
}
