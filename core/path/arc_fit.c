/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A run is grown move by move for as long as a circle fits. The circle goes
 * through the run's ends; its bulge is that of the corner nearest to the middle
 * of the chord, corrected once so that what strays to either side strays alike.
 * The centre is then moved to the best place that a program can state. What
 * decides is a ring about that centre which holds all corners, all straight
 * pieces between them and both radii: nothing of arc and cuts is farther apart
 * than the ring is wide, as both go round it without turning back. */
#include "path/arc_fit.h"

#include <math.h>
#include <stdbool.h>

#include "base/minmax.h"
#include "base/tol.h"

/* Fewer moves are not worth an arc. */
#define LEAST_MOVES 3
/* Arcs are shorter than half a circle, so that neither a rounded end nor the
 * sign of a radius can make another circle of them, rad. */
#define SWEEP_MOST_RAD 2.8
/* Radii a control computes without losing decimals, mm. */
#define RADIUS_LEAST_MM 0.5
#define RADIUS_MOST_MM 2000.0
/* An arc's ends are at least so far apart, mm: nearer, a control could take it
 * for a full circle. */
#define CHORD_LEAST_MM 0.5
/* Two figures of the same place in a program, mm. */
#define SAME_MM 1e-6
/* Longest run: keeps the work in proportion. */
#define MOVES_MOST 400

/* A place in the plane of the arc: u x v points to where the sense is seen
 * from. */
struct flat {
	double u, v;
};

struct fit {
	const struct motion_list *motions;
	const struct machine *machine;
	const struct cutter *cutter;
	double step_mm;
	enum arc_plane plane;
	size_t first; /* cut number one; the run starts where the one before ends */
};

struct ring {
	double corners_mm, all_mm, radii_mm; /* widths */
	double radius_mm;
};

/* +x to +y turns counterclockwise in the xy plane, +z to +x in the xz plane
 * (NIST IR 6556, G17 and G18). */
static struct flat flatten(enum arc_plane plane, struct vec3 p)
{
	return plane == PLANE_XY ? (struct flat){ p.x, p.y } : (struct flat){ p.z, p.x };
}

/* Corner k of the run; 0 is where it starts. */
static struct flat corner(const struct fit *fit, size_t k)
{
	return flatten(fit->plane, fit->motions->item[fit->first + k - 1].to);
}

static double distance(struct flat a, struct flat b)
{
	return hypot(a.u - b.u, a.v - b.v);
}

static double cross(struct flat about, struct flat a, struct flat b)
{
	return (a.u - about.u) * (b.v - about.v) - (a.v - about.v) * (b.u - about.u);
}

/* Least distance from `centre` to the straight piece from a to b. */
static double distance_to_piece(struct flat centre, struct flat a, struct flat b)
{
	double du = b.u - a.u, dv = b.v - a.v, squared = du * du + dv * dv;
	double t = squared > 0.0 ? ((centre.u - a.u) * du + (centre.v - a.v) * dv) / squared : 0.0;

	t = smaller(larger(t, 0.0), 1.0);
	return distance(centre, (struct flat){ a.u + t * du, a.v + t * dv });
}

/* False when a move turns back, or the whole goes round too far. */
static bool ring_about(struct ring *ring, const struct fit *fit, size_t moves, struct flat centre)
{
	struct flat before = corner(fit, 0), last = corner(fit, moves);
	double start = distance(centre, before), end = distance(centre, last), sweep = 0.0;
	double low = smaller(start, end), high = larger(start, end), least = low;
	bool left = cross(centre, before, last) > 0.0;

	for (size_t k = 1; k <= moves; k++) {
		struct flat here = corner(fit, k);
		double d = distance(centre, here), area = cross(centre, before, here);
		if ((area > 0.0) != left || area == 0.0)
			return false;
		sweep += asin(smaller(fabs(area) / (d * distance(centre, before)), 1.0));
		low = smaller(low, d);
		high = larger(high, d);
		least = smaller(least, distance_to_piece(centre, before, here));
		before = here;
	}
	*ring = (struct ring){ high - low, high - smaller(least, low), fabs(end - start), start };
	return sweep <= SWEEP_MOST_RAD;
}

/* Centre of the circle through the run's ends with this bulge to the left of
 * the way from one to the other: r = (c^2 / 4 + s^2) / (2 s), chord c, bulge s. */
static struct flat centre_of(struct flat a, struct flat b, double bulge_mm)
{
	double chord = distance(a, b);
	double back = (chord * chord / 4.0 - bulge_mm * bulge_mm) / (2.0 * bulge_mm);
	double nu = -(b.v - a.v) / chord, nv = (b.u - a.u) / chord;

	return (struct flat){ (a.u + b.u) / 2.0 - back * nu, (a.v + b.v) / 2.0 - back * nv };
}

/* How far the middle of the chord must be moved to the left to meet the circle
 * through the ends and the corner nearest to its middle. 0 when that is a
 * straight line. */
static double bulge_of(const struct fit *fit, size_t moves)
{
	struct flat a = corner(fit, 0), b = corner(fit, moves);
	double chord = distance(a, b), nearest = INFINITY, bulge = 0.0;

	for (size_t k = 1; k < moves; k++) {
		struct flat p = corner(fit, k);
		double along = ((p.u - a.u) * (b.u - a.u) + (p.v - a.v) * (b.v - a.v)) / chord;
		double left = cross(a, b, p) / chord, off = along - chord / 2.0;
		if (fabs(off) >= nearest)
			continue;
		nearest = fabs(off);
		/* on the circle: r - s below the chord's middle lies the centre */
		if (fabs(left) < SAME_MM) {
			bulge = 0.0;
			continue;
		}
		double q = (chord * chord / 4.0 - off * off - left * left) / (2.0 * left);
		double radius = hypot(chord / 2.0, q);
		bulge = left > 0.0 ? radius - q : -(radius + q);
	}
	return bulge;
}

/* Moves the bulge so that the corners stray from the circle alike inward and
 * outward. */
static double balanced(const struct fit *fit, size_t moves, double bulge_mm)
{
	struct flat a = corner(fit, 0), b = corner(fit, moves), centre = centre_of(a, b, bulge_mm);
	double radius = distance(centre, a), most = 0.0, least = 0.0;

	for (size_t k = 1; k < moves; k++) {
		double off = distance(centre, corner(fit, k)) - radius;
		most = larger(most, off);
		least = smaller(least, off);
	}
	return bulge_mm + (bulge_mm > 0.0 ? 1.0 : -1.0) * (most + least) / 2.0;
}

static bool good(const struct ring *ring)
{
	return ring->corners_mm <= TOL_ARC_CORNER_MM && ring->all_mm <= TOL_ARC_MM &&
	       ring->radii_mm <= TOL_ARC_RADII_MM && ring->radius_mm >= RADIUS_LEAST_MM &&
	       ring->radius_mm <= RADIUS_MOST_MM;
}

/* The best centre among those a program can state around `ideal`. */
static bool settle(struct flat *centre, struct ring *best, const struct fit *fit, size_t moves,
		   struct flat ideal)
{
	struct flat start = corner(fit, 0);
	double u = floor((ideal.u - start.u) / fit->step_mm + 0.5);
	double v = floor((ideal.v - start.v) / fit->step_mm + 0.5);
	bool found = false;

	for (int i = 0; i < 9; i++) {
		int row = i / 3 - 1, column = i % 3 - 1;
		struct flat at = { start.u + (u + column) * fit->step_mm,
				   start.v + (v + row) * fit->step_mm };
		struct ring ring;
		if (!ring_about(&ring, fit, moves, at) || !good(&ring) ||
		    (found && ring.all_mm >= best->all_mm))
			continue;
		found = true;
		*best = ring;
		*centre = at;
	}
	return found;
}

/* Largest cosine between the way round the circle from one tangent to another
 * (angles, at most half a turn apart) and the direction `axis`. */
static double most_along(double from, double to, double axis)
{
	double low = smaller(from, to), high = larger(from, to);
	double ahead = axis - 2.0 * PI * floor((axis - low) / (2.0 * PI));

	return ahead <= high ? 1.0 : larger(cos(low - axis), cos(high - axis));
}

/* Whether every direction on the arc takes the run's feed. The lean of the
 * pieces in which arcs are judged is granted. */
static bool feed_is_good(const struct fit *fit, size_t moves, struct flat centre, double radius)
{
	const double *limit = fit->machine->feed_limit_mm_per_min;
	struct flat a = corner(fit, 0), b = corner(fit, moves);
	bool left = cross(centre, a, b) > 0.0, upright = fit->plane == PLANE_XZ;
	double turn = left ? PI / 2.0 : -PI / 2.0;
	double from = atan2(a.v - centre.v, a.u - centre.u) + turn;
	double to = atan2(b.v - centre.v, b.u - centre.u) + turn;
	double lean = sqrt(2.0 * TOL_ARC_PIECE_MM / radius);
	double feed = fit->motions->item[fit->first].feed_mm_per_min;

	if (left && to < from)
		to += 2.0 * PI;
	else if (!left && to > from)
		to -= 2.0 * PI;
	double u = larger(most_along(from, to, 0.0), most_along(from, to, PI)) + 2.0 * lean;
	double v = larger(most_along(from, to, PI / 2.0), most_along(from, to, -PI / 2.0)) +
		   2.0 * lean;
	double down = most_along(from, to, PI) + 2.0 * lean; /* of z, in the xz plane */
	if (feed * smaller(u, 1.0) > limit[upright ? AXIS_Z : AXIS_X] ||
	    feed * smaller(v, 1.0) > limit[upright ? AXIS_X : AXIS_Y])
		return false;
	return !upright || down <= sin(fit->cutter->ramp_angle_rad) ||
	       feed * down <= fit->cutter->plunge_feed_mm_per_min;
}

/* True when a circle fits the first `moves` cuts of the run. */
static bool fits(struct motion_arc *arc, const struct fit *fit, size_t moves)
{
	const struct motion *start = &fit->motions->item[fit->first - 1];
	struct flat a = corner(fit, 0), b = corner(fit, moves), centre = { 0.0, 0.0 };
	struct ring ring = { 0 };

	if (distance(a, b) < CHORD_LEAST_MM)
		return false;
	double bulge = bulge_of(fit, moves);
	if (fabs(bulge) < SAME_MM)
		return false;
	bulge = balanced(fit, moves, bulge);
	if (fabs(bulge) < SAME_MM || !settle(&centre, &ring, fit, moves, centre_of(a, b, bulge)) ||
	    !feed_is_good(fit, moves, centre, ring.radius_mm))
		return false;
	*arc = (struct motion_arc){ .moves = moves,
				    .plane = fit->plane,
				    .clockwise = cross(centre, a, b) < 0.0,
				    .centre =
					    fit->plane == PLANE_XY
						    ? vec3_make(centre.u, centre.v, start->to.z)
						    : vec3_make(centre.v, start->to.y, centre.u) };
	return true;
}

/* How many cuts from `first` on have one feed and stay in the plane. */
static size_t stretch(const struct motion_list *motions, size_t first, enum arc_plane plane)
{
	const struct motion *start = &motions->item[first - 1];
	size_t count = 0;

	while (first + count < motions->count && count < MOVES_MOST) {
		const struct motion *motion = &motions->item[first + count];
		double across = plane == PLANE_XY ? motion->to.z - start->to.z
						  : motion->to.y - start->to.y;
		if (motion->kind != MOTION_CUT || motion->known != KNOWN_ALL ||
		    fabs(across) > SAME_MM ||
		    fabs(motion->feed_mm_per_min - motions->item[first].feed_mm_per_min) > SAME_MM)
			break;
		count++;
	}
	return count;
}

/* The longest run from `first` on in this plane; its moves are 0 when there is
 * none. */
static struct motion_arc longest(struct fit *fit, enum arc_plane plane)
{
	struct motion_arc best = { 0 };
	size_t most = stretch(fit->motions, fit->first, plane);

	fit->plane = plane;
	for (size_t moves = LEAST_MOVES; moves <= most; moves++) {
		struct motion_arc arc;
		if (!fits(&arc, fit, moves))
			break;
		best = arc;
	}
	return best;
}

size_t arc_fit(struct motion_list *motions, const struct machine *machine,
	       const struct cutter *cutter)
{
	struct fit fit = { .motions = motions,
			   .machine = machine,
			   .cutter = cutter,
			   .step_mm = machine_resolution_mm(machine) };
	size_t held = 0;

	for (size_t i = 1; machine->reads.arcs != ARCS_NONE && i < motions->count;) {
		const struct motion *before = &motions->item[i - 1];
		struct motion_arc arc = { 0 };
		fit.first = i;
		if (motion_moves(before) && before->known == KNOWN_ALL)
			arc = longest(&fit, PLANE_XY);
		if (motion_moves(before) && before->known == KNOWN_ALL &&
		    machine->reads.arcs == ARCS_XY_XZ) {
			struct motion_arc upright = longest(&fit, PLANE_XZ);
			arc = upright.moves > arc.moves ? upright : arc;
		}
		motions->item[i].arc = arc;
		held += arc.moves;
		i += arc.moves > 0 ? arc.moves : 1;
	}
	return held;
}
