/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "proof/tool_room.h"

#include <math.h>
#include <stdbool.h>

#include "base/minmax.h"
#include "model/fretboard.h"
#include "model/joint.h"

#define FIND_MM 1e-4
#define CORNERS 4

/* Upright, filled from far below up to its top: everything within radius_mm of
 * a convex outline of four corners, counterclockwise. A post's corners are one
 * point. */
struct solid {
	const char *name;
	double x_mm[CORNERS], y_mm[CORNERS];
	double radius_mm;
	double top_mm;
	double clearance_mm; /* to be kept from it */
};

/* What is held against a solid: the ball (in space) or a disc (in plan). */
struct probe {
	const struct solid *solid;
	struct vec3 from, to; /* of the ball's centre */
	bool in_plan;
};

/* Distance of a point from the outline's edge between two corners, squared. */
static double off_edge2(const struct solid *solid, int k, double x, double y)
{
	int next = (k + 1) % CORNERS;
	double ex = solid->x_mm[next] - solid->x_mm[k], ey = solid->y_mm[next] - solid->y_mm[k];
	double px = x - solid->x_mm[k], py = y - solid->y_mm[k], length2 = ex * ex + ey * ey;
	double t = length2 > 0.0 ? clamped((px * ex + py * ey) / length2, 0.0, 1.0) : 0.0;

	px -= t * ex;
	py -= t * ey;
	return px * px + py * py;
}

/* In plan: 0 inside. */
static double plan_distance(const struct solid *solid, double x, double y)
{
	double least = INFINITY;
	bool inside = true;

	for (int k = 0; k < CORNERS; k++) {
		int next = (k + 1) % CORNERS;
		double turn = (solid->x_mm[next] - solid->x_mm[k]) * (y - solid->y_mm[k]) -
			      (solid->y_mm[next] - solid->y_mm[k]) * (x - solid->x_mm[k]);
		inside = inside && turn > 0.0;
		least = smaller(least, off_edge2(solid, k, x, y));
	}
	return inside ? 0.0 : larger(sqrt(least) - solid->radius_mm, 0.0);
}

static double distance_at(const struct probe *probe, double t)
{
	struct vec3 p = vec3_between(probe->from, probe->to, t);
	double plan = plan_distance(probe->solid, p.x, p.y);
	double over = probe->in_plan ? 0.0 : larger(p.z - probe->solid->top_mm, 0.0);

	return sqrt(plan * plan + over * over);
}

/* Least distance along the move: a convex function, closed in by thirds; what
 * the last stretch may hide is taken off. */
static double least_distance(const struct probe *probe)
{
	double low = 0.0, high = 1.0, length = vec3_distance(probe->from, probe->to);

	while ((high - low) * length > FIND_MM) {
		double a = low + (high - low) / 3.0, b = high - (high - low) / 3.0;
		if (distance_at(probe, a) < distance_at(probe, b))
			high = b;
		else
			low = a;
	}
	return larger(0.0, distance_at(probe, (low + high) / 2.0) - (high - low) * length);
}

static void offer(struct tool_room *room, double room_mm, const char *from)
{
	if (room_mm < room->room_mm) {
		room->room_mm = room_mm;
		room->from = from;
	}
}

/* How a tool moves past solids. */
struct passage {
	const struct cutter *cutter;
	struct vec3 from, to;
};

/* A disc of the tool (shank, holder or what stands on it) that begins `above_mm`
 * over the tip: it may be over the solid, or beside it. */
static double off_disc(const struct passage *passage, const struct solid *solid, double radius_mm,
		       double above_mm)
{
	double over = smaller(passage->from.z, passage->to.z) + above_mm - solid->top_mm;
	struct probe probe = { solid, passage->from, passage->to, true };

	if (over >= solid->clearance_mm + radius_mm)
		return INFINITY; /* far above: no search needed */
	return larger(over, least_distance(&probe) - radius_mm);
}

/* Least distance of ball, shank, holder and what stands on it; INFINITY when all pass far above. */
static double off_solid(const struct passage *passage, const struct solid *solid)
{
	const struct cutter *cutter = passage->cutter;
	double radius = cutter_radius_mm(cutter);
	struct vec3 from = passage->from, to = passage->to;
	struct vec3 up = vec3_make(0.0, 0.0, radius);
	struct probe ball = { solid, vec3_add(from, up), vec3_add(to, up), false };

	if (smaller(from.z, to.z) > solid->top_mm + solid->clearance_mm + 2.0 * radius)
		return INFINITY;
	double least = least_distance(&ball) - radius;
	least = smaller(least, off_disc(passage, solid, cutter->shank_diameter_mm / 2.0,
					cutter->flute_length_mm));
	double face = cutter->stickout_mm + cutter->holder_length_mm;
	least = smaller(least, off_disc(passage, solid, cutter->holder_diameter_mm / 2.0,
					cutter->stickout_mm));
	for (size_t k = 0; k < cutter->part_count; k++) {
		least = smaller(least,
				off_disc(passage, solid, cutter->part[k].diameter_mm / 2.0, face));
		face += cutter->part[k].length_mm;
	}
	return least;
}

static void offer_solid(struct tool_room *room, const struct passage *passage,
			const struct solid *solid)
{
	offer(room, off_solid(passage, solid) - solid->clearance_mm, solid->name);
}

/* A rectangle's corners. */
static struct solid box_solid(const char *name, double x0, double x1, double y0, double y1)
{
	return (struct solid){ .name = name,
			       .x_mm = { x0, x1, x1, x0 },
			       .y_mm = { y0, y0, y1, y1 } };
}

static struct solid keep_out_solid(const struct fixture *fixture, const struct place *place)
{
	struct solid solid = box_solid(place->name, place->x_from_mm, place->x_to_mm,
				       place->y_from_mm, place->y_to_mm);

	if (place->shape == PLACE_CYLINDER) {
		double x = (place->x_from_mm + place->x_to_mm) / 2.0;
		double y = (place->y_from_mm + place->y_to_mm) / 2.0;
		solid = box_solid(place->name, x, x, y, y);
		/* whichever is larger, should the square be none */
		solid.radius_mm = larger(place->x_to_mm - place->x_from_mm,
					 place->y_to_mm - place->y_from_mm) /
				  2.0;
	}
	solid.top_mm = place->top_mm;
	solid.clearance_mm = fixture->keep_out_clearance_mm;
	return solid;
}

static void offer_riser(struct tool_room *room, const struct passage *passage,
			const struct job *job)
{
	const struct fixture *fixture = &job->fixture;
	double half = fixture->riser_width_mm / 2.0;
	struct solid riser =
		box_solid("riser", fixture->riser_from_mm, fixture->riser_to_mm, -half, half);

	if (fixture->riser_height_mm <= 0.0)
		return;
	riser.top_mm = job_rest_mm(job);
	riser.clearance_mm = fixture->keep_out_clearance_mm;
	offer_solid(room, passage, &riser);
}

static void offer_fretboard(struct tool_room *room, const struct passage *passage,
			    const struct job *job)
{
	const struct glued_fretboard *glued = &job->fixture.fretboard;
	struct fretboard board = fretboard_of(&job->neck, glued->overhang_mm);
	double a = board.half_from_mm, b = board.half_to_mm;
	const struct solid solid = { .name = "fretboard",
				     .x_mm = { board.x_from_mm, board.x_to_mm, board.x_to_mm,
					       board.x_from_mm },
				     .y_mm = { -a, -b, b, a },
				     .top_mm = 0.0,
				     .clearance_mm = glued->clearance_mm };

	if (!glued->glued)
		return;
	room->fretboard_mm = off_solid(passage, &solid);
	offer(room, room->fretboard_mm - solid.clearance_mm, solid.name);
}

/* The joint is not to be cut; nothing more is asked. */
static void offer_joint(struct tool_room *room, const struct passage *passage,
			const struct neck_spec *neck)
{
	struct joint_box box;

	if (!joint_keep_out(&box, neck))
		return;
	struct solid solid = box_solid(joint_name(neck->heel.joint.kind), box.x_from_mm,
				       box.x_to_mm, box.y_from_mm, box.y_to_mm);
	solid.top_mm = box.z_to_mm;
	offer_solid(room, passage, &solid);
}

struct tool_room tool_room_of_move(const struct job *job, const struct cutter *cutter,
				   struct vec3 from, struct vec3 to)
{
	const struct fixture *fixture = &job->fixture;
	const struct passage passage = { cutter, from, to };
	struct tool_room room = { INFINITY, "", INFINITY };

	offer(&room, smaller(from.z, to.z) - job_bed_mm(job) - fixture->bed_clearance_mm, "bed");
	for (size_t i = 0; i < fixture->keep_out_count; i++) {
		struct solid solid = keep_out_solid(fixture, &fixture->keep_out[i]);
		offer_solid(&room, &passage, &solid);
	}
	offer_riser(&room, &passage, job);
	offer_fretboard(&room, &passage, job);
	offer_joint(&room, &passage, &job->neck);
	return room;
}
