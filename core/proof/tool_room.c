/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "proof/tool_room.h"

#include <math.h>
#include <stdbool.h>

#include "base/minmax.h"

#define FIND_MM 1e-4

/* What is held against a box: the ball (in space) or a disc (in plan). */
struct probe {
	const struct place *box;
	struct vec3 from, to; /* of the ball's centre */
	bool in_plan;
};

static double distance_at(const struct probe *probe, double t)
{
	struct vec3 p = vec3_between(probe->from, probe->to, t);
	const struct place *box = probe->box;
	double dx = larger(larger(box->x_from_mm - p.x, p.x - box->x_to_mm), 0.0);
	double dy = larger(larger(box->y_from_mm - p.y, p.y - box->y_to_mm), 0.0);
	double dz = probe->in_plan ? 0.0 : larger(p.z - box->top_mm, 0.0);

	return sqrt(dx * dx + dy * dy + dz * dz);
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

/* A disc of the tool (shank or holder) that begins `above_mm` over the tip: it
 * may be over the box, or beside it. */
static void offer_disc(struct tool_room *room, double clearance, const struct place *box,
		       struct vec3 from, struct vec3 to, double radius_mm, double above_mm)
{
	double over = smaller(from.z, to.z) + above_mm - box->top_mm;
	struct probe probe = { box, from, to, true };

	if (over >= clearance + radius_mm)
		return; /* far above: no search needed */
	offer(room, larger(over, least_distance(&probe) - radius_mm) - clearance, box->name);
}

/* How a tool moves past boxes. */
struct passage {
	const struct cutter *cutter;
	double clearance_mm;
	struct vec3 from, to;
};

static void offer_box(struct tool_room *room, const struct passage *passage,
		      const struct place *box)
{
	const struct cutter *cutter = passage->cutter;
	double radius = cutter_radius_mm(cutter), clearance = passage->clearance_mm;
	struct vec3 from = passage->from, to = passage->to;
	struct vec3 up = vec3_make(0.0, 0.0, radius);
	struct probe ball = { box, vec3_add(from, up), vec3_add(to, up), false };

	if (smaller(from.z, to.z) > box->top_mm + clearance + 2.0 * radius)
		return;
	offer(room, least_distance(&ball) - radius - clearance, box->name);
	offer_disc(room, clearance, box, from, to, cutter->shank_diameter_mm / 2.0,
		   cutter->flute_length_mm);
	offer_disc(room, clearance, box, from, to, cutter->holder_diameter_mm / 2.0,
		   cutter->stickout_mm);
}

struct tool_room tool_room_of_move(const struct fixture *fixture, const struct cutter *cutter,
				   struct vec3 from, struct vec3 to)
{
	const struct passage passage = { cutter, fixture->keep_out_clearance_mm, from, to };
	struct tool_room room = { INFINITY, "" };
	double bed = -fixture->riser_height_mm + fixture->bed_clearance_mm;

	offer(&room, smaller(from.z, to.z) - bed, "bed");
	for (size_t i = 0; i < fixture->keep_out_count; i++)
		offer_box(&room, &passage, &fixture->keep_out[i]);
	if (fixture->riser_height_mm > 0.0) {
		const struct place riser = { .name = "riser",
					     .x_from_mm = fixture->riser_from_mm,
					     .x_to_mm = fixture->riser_to_mm,
					     .y_from_mm = -fixture->riser_width_mm / 2.0,
					     .y_to_mm = fixture->riser_width_mm / 2.0,
					     .top_mm = 0.0 };
		struct tool_room beside = { INFINITY, "" };
		offer_box(&beside, &passage, &riser);
		offer(&room, beside.room_mm, "riser");
	}
	return room;
}
