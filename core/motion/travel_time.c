/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fastest run along a list of straight moves under three kinds of limits:
 * speed along a move, speed at its corners, acceleration along a move. All
 * three are taken from the axes by projecting their limits on the direction.
 * A pass backward and a pass forward over the corners then give the highest
 * speed that every limit allows everywhere (look-ahead without an end).
 *
 * Not modelled: limited jerk, the shortening of a path by its rounded corners,
 * and tangential on top of centripetal acceleration inside a corner. Controls
 * differ in all of these; the result is an estimate, not a promise. */
#include "motion/travel_time.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "motion/corner.h"

/* Moves shorter than this go nowhere, mm: far below any program's decimals. */
#define NOWHERE_MM 1e-9

/* Turns smaller than this are rounding, rad: over a metre they lead 0.001 mm
 * astray, so the pieces of a divided straight line count as one. */
#define STRAIGHT_RAD 1e-6

/* Rounding allowed to the closed form when it judges whether a speed can be
 * reached, as a share of the squared speeds. */
#define REACH_ROUNDING 1e-12

#define SECONDS_PER_MINUTE 60.0

/* One move that goes somewhere. */
struct leg {
	struct vec3 along; /* unit direction */
	double length_mm;
	double speed; /* highest, mm/s */
	double acceleration; /* along it, mm/s2 */
	double entry2; /* square of the speed at its start, mm2/s2 */
	size_t item; /* its place in the list */
};

/* A place where the direction changes or the machine must stand still. */
struct corner {
	double at_mm; /* along the path */
	double turn_rad;
	double turned_rad; /* sum of all turns up to and with this one */
	size_t leg; /* the leg that begins here */
	bool stop;
};

struct route {
	struct leg *leg;
	size_t leg_count;
	struct corner *corner; /* first and last are stops */
	size_t corner_count;
	double length_mm;
};

static double square(double value)
{
	return value * value;
}

/* Seconds over `length_mm` of even acceleration between two speeds. */
static double ramp_s(double length_mm, double v0, double v1)
{
	return length_mm > 0.0 ? 2.0 * length_mm / (v0 + v1) : 0.0;
}

/* The profile for speeds known to be reachable. Lengths are split rather than
 * speeds subtracted, so that short fast moves lose no digits. */
static double profile_s(double length_mm, double v0, double v1, double speed, double a)
{
	double up_mm = (length_mm + (square(v1) - square(v0)) / (2.0 * a)) / 2.0;

	up_mm = fmin(fmax(up_mm, 0.0), length_mm);
	double peak = sqrt(square(v0) + 2.0 * a * up_mm);
	if (peak <= speed)
		return ramp_s(up_mm, v0, peak) + ramp_s(length_mm - up_mm, peak, v1);
	up_mm = (square(speed) - square(v0)) / (2.0 * a);
	double down_mm = (square(speed) - square(v1)) / (2.0 * a);
	double cruise_s = fmax(length_mm - up_mm - down_mm, 0.0) / speed;
	return ramp_s(up_mm, v0, speed) + cruise_s + ramp_s(down_mm, speed, v1);
}

double travel_time_s(double length_mm, double v0, double v1, double speed, double a)
{
	if (!(length_mm >= 0.0 && v0 >= 0.0 && v1 >= 0.0 && speed > 0.0 && a > 0.0))
		return NAN;
	if (v0 > speed || v1 > speed)
		return NAN;
	double slack = REACH_ROUNDING * (square(v0) + square(v1));
	if (fabs(square(v1) - square(v0)) > 2.0 * a * length_mm + slack)
		return NAN;
	return profile_s(length_mm, v0, v1, speed, a);
}

double corner_speed_mm_per_s(double turn_rad, double deviation_mm, double a)
{
	return sqrt(a * corner_radius_mm(turn_rad, INFINITY, deviation_mm));
}

/* Adds the corner where leg number `leg` begins, unless the way goes straight
 * on there. */
static void route_add_corner(struct route *route, size_t leg, bool stop)
{
	double turn_rad = 0.0, before_rad = 0.0;

	if (!stop) {
		turn_rad = corner_turn_rad(route->leg[leg - 1].along, route->leg[leg].along);
		if (turn_rad < STRAIGHT_RAD)
			return;
	}
	if (route->corner_count > 0)
		before_rad = route->corner[route->corner_count - 1].turned_rad;
	route->corner[route->corner_count++] = (struct corner){
		.at_mm = route->length_mm,
		.turn_rad = turn_rad,
		.turned_rad = before_rad + turn_rad,
		.leg = leg,
		.stop = stop,
	};
}

/* Adds a move by `step` that is longer than NOWHERE_MM. */
static void route_add_leg(struct route *route, const struct machine *machine,
			  const struct motion *motion, struct vec3 step, size_t item, bool stop)
{
	double length_mm = vec3_length(step);
	struct vec3 along = vec3_scale(step, 1.0 / length_mm);
	const double *axis_limit = motion->kind == MOTION_RAPID ? machine->rapid_mm_per_min
								: machine->feed_limit_mm_per_min;
	double per_minute = axis_limit_along(axis_limit, along);
	size_t leg = route->leg_count++;

	if (motion->kind == MOTION_CUT)
		per_minute = fmin(per_minute, motion->feed_mm_per_min);
	route->leg[leg] = (struct leg){
		.along = along,
		.length_mm = length_mm,
		.speed = per_minute / SECONDS_PER_MINUTE,
		.acceleration = axis_limit_along(machine->acceleration_mm_per_s2, along),
		.item = item,
	};
	route_add_corner(route, leg, stop);
	route->length_mm += length_mm;
}

/* The part of a move that is known: axes never placed before count nothing. */
static struct vec3 known_step(struct vec3 from, unsigned known, struct vec3 to)
{
	return vec3_make(known & KNOWN_X ? to.x - from.x : 0.0,
			 known & KNOWN_Y ? to.y - from.y : 0.0,
			 known & KNOWN_Z ? to.z - from.z : 0.0);
}

/* Turns the list into legs and corners and gives seconds to what stands. */
static enum fault route_collect(struct route *route, double *seconds,
				const struct motion_list *list, const struct machine *machine,
				struct fault_list *faults)
{
	struct vec3 here = { 0 };
	unsigned known = 0;
	bool stop = true;

	for (size_t i = 0; i < list->count; i++) {
		const struct motion *motion = &list->item[i];
		seconds[i] = motion->kind == MOTION_DWELL ? motion->dwell_s : 0.0;
		if (!motion_moves(motion)) {
			stop = stop || motion->kind != MOTION_PASS;
			continue;
		}
		struct vec3 step = known_step(here, known, motion->to);
		bool feeds = motion->kind == MOTION_RAPID || motion->feed_mm_per_min > 0.0;
		if (!isfinite(vec3_length(step)) || !feeds)
			return fault_add(faults, FAULT_INTERNAL, NULL, motion->block, NULL,
					 "Move %zu cannot be timed: its place or feed is no number "
					 "a machine can follow.",
					 i + 1);
		if (vec3_length(step) > NOWHERE_MM) {
			route_add_leg(route, machine, motion, step, i, stop);
			stop = known != KNOWN_ALL; /* till all is known, rest to rest */
		}
		here = motion->to;
		known = motion->known;
	}
	route_add_corner(route, route->leg_count, true);
	return FAULT_NONE;
}

/* Square of the speed allowed at corner k, whose neighbourhood within the
 * deviation holds the corners first..last. It is rounded either alone on half
 * of each leg, or as one turn together with the neighbours; whichever is
 * faster keeps the path within the deviation. The first makes finely divided
 * arcs obey their own radius, the second keeps a stray short move from
 * braking the machine. */
static double corner_speed2(const struct route *route, const struct machine *machine, size_t k,
			    size_t first, size_t last)
{
	const struct corner *corner = route->corner;
	const struct leg *in = &route->leg[corner[k].leg - 1], *out = &route->leg[corner[k].leg];
	double deviation_mm = machine->corner_deviation_mm;
	double room_mm =
		fmin(corner[k].at_mm - corner[k - 1].at_mm, corner[k + 1].at_mm - corner[k].at_mm);
	double radius_mm = corner_radius_mm(corner[k].turn_rad, room_mm, deviation_mm);

	if (first < last) {
		double turn_rad = corner[last].turned_rad - corner[first - 1].turned_rad;
		room_mm = corner[last].at_mm - corner[first].at_mm +
			  fmin(corner[first].at_mm - corner[first - 1].at_mm,
			       corner[last + 1].at_mm - corner[last].at_mm);
		radius_mm = fmax(radius_mm, corner_radius_mm(turn_rad, room_mm, deviation_mm));
	}
	return radius_mm *
	       corner_acceleration(machine->acceleration_mm_per_s2, in->along, out->along);
}

/* Gives every leg the highest entry speed that its own corner allows. */
static void route_limit_entries(struct route *route, const struct machine *machine)
{
	struct corner *corner = route->corner;
	size_t first = 1, last = 0;

	for (size_t i = 1; i < route->leg_count; i++)
		route->leg[i].entry2 = square(fmin(route->leg[i - 1].speed, route->leg[i].speed));
	for (size_t k = 0; k + 1 < route->corner_count; k++) {
		if (corner[k].stop) {
			route->leg[corner[k].leg].entry2 = 0.0;
			first = k + 1;
			continue;
		}
		while (corner[k].at_mm - corner[first].at_mm > machine->corner_deviation_mm)
			first++;
		if (last < k)
			last = k;
		while (!corner[last + 1].stop &&
		       corner[last + 1].at_mm - corner[k].at_mm <= machine->corner_deviation_mm)
			last++;
		double *entry2 = &route->leg[corner[k].leg].entry2;
		*entry2 = fmin(*entry2, corner_speed2(route, machine, k, first, last));
	}
}

/* Lowers the entries to what can be braked from and accelerated to. */
static void route_look_ahead(struct route *route)
{
	double exit2 = 0.0;

	for (size_t i = route->leg_count; i-- > 0;) {
		struct leg *leg = &route->leg[i];
		leg->entry2 = fmin(leg->entry2, exit2 + 2.0 * leg->acceleration * leg->length_mm);
		exit2 = leg->entry2;
	}
	for (size_t i = 0; i + 1 < route->leg_count; i++) {
		const struct leg *leg = &route->leg[i];
		double reach2 = leg->entry2 + 2.0 * leg->acceleration * leg->length_mm;
		route->leg[i + 1].entry2 = fmin(route->leg[i + 1].entry2, reach2);
	}
}

static void route_seconds(const struct route *route, double *seconds)
{
	for (size_t i = 0; i < route->leg_count; i++) {
		const struct leg *leg = &route->leg[i];
		double exit2 = i + 1 < route->leg_count ? leg[1].entry2 : 0.0;
		seconds[leg->item] = profile_s(leg->length_mm, sqrt(leg->entry2), sqrt(exit2),
					       leg->speed, leg->acceleration);
	}
}

static bool machine_can_move(const struct machine *machine)
{
	bool can = machine->corner_deviation_mm >= 0.0;

	for (int axis = 0; axis < AXIS_COUNT; axis++)
		can = can && machine->feed_limit_mm_per_min[axis] > 0.0 &&
		      machine->rapid_mm_per_min[axis] > 0.0 &&
		      machine->acceleration_mm_per_s2[axis] > 0.0;
	return can;
}

enum fault travel_times(double *seconds, const struct motion_list *list,
			const struct machine *machine, struct fault_list *faults)
{
	struct route route = { 0 };
	enum fault fault = FAULT_NONE;

	if (!machine_can_move(machine))
		return fault_add(
			faults, FAULT_INTERNAL, NULL, 0, NULL,
			"Times need a machine whose speeds and accelerations are positive.");
	route.leg = mem_array(list->count, sizeof *route.leg);
	route.corner = route.leg ? mem_array(list->count + 1, sizeof *route.corner) : NULL;
	if (!route.corner)
		fault = fault_no_memory(faults, "the times of the moves");
	else
		fault = route_collect(&route, seconds, list, machine, faults);
	if (!fault) {
		route_limit_entries(&route, machine);
		route_look_ahead(&route);
		route_seconds(&route, seconds);
	}
	free(route.corner);
	free(route.leg);
	return fault;
}
