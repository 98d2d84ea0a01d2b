/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/rails.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"

/* Places along the neck that are looked at, mm apart. */
#define STEP_MM 1.0
/* Places are put together to one stretch while its straight inner edge misses
 * none of them by more than this, mm, ... */
#define STRAIGHT_MM 0.02
/* ... and the wood's top does not change by more than this, mm. */
#define LEVEL_MM 1.0
/* Rails go on this much farther than the ball reaches, mm. */
#define PAST_END_MM 2.0
#define HALVINGS 40

/* Widest half-breadth of the neck near x on either side, mm. */
static double half_near(const struct neck *neck, double x)
{
	size_t levels;
	const double *level = neck_levels(neck, &levels);
	double most = 0.0;

	for (int near = -1; near <= 1; near++) {
		double at = clamped(x + near * STEP_MM / 2.0, neck_from_mm(neck), neck_to_mm(neck));
		for (size_t i = 0; i < levels; i++)
			for (int side = 0; side < 2; side++)
				most = larger(most, neck_half_breadth_mm(neck, (enum neck_side)side,
									 at, level[i]));
	}
	return most;
}

/* One place: where a rail would begin, and how much wood there is for it. */
struct place_along {
	double x_mm, edge_mm, top_mm;
	double width_mm[BLANK_SIDES];
	bool stands[BLANK_SIDES];
};

static struct place_along look(const struct neck *neck, const struct job *job, double x)
{
	const struct blank *blank = &job->blank;
	double edge = half_near(neck, x) + job_most_stock_mm(job) + job_channel_mm(job);
	double from = x - STEP_MM / 2.0, to = x + STEP_MM / 2.0;
	struct place_along place = { .x_mm = x,
				     .edge_mm = edge,
				     .top_mm = blank_top_most_mm(blank, from, to) };

	for (int side = 0; side < BLANK_SIDES; side++)
		place.width_mm[side] =
			blank_side_least_mm(blank, (enum blank_side)side, from, to) - edge;
	return place;
}

/* True when the straight edge from place `first` to `last` misses no place
 * between them, and their tops are alike. */
static bool is_straight(const struct place_along *place, size_t first, size_t last)
{
	double low = INFINITY, high = -INFINITY;
	double run = place[last].x_mm - place[first].x_mm;
	double slope = (place[last].edge_mm - place[first].edge_mm) / run;

	for (size_t i = first; i <= last; i++) {
		double edge = place[first].edge_mm + slope * (place[i].x_mm - place[first].x_mm);
		low = smaller(low, place[i].top_mm);
		high = larger(high, place[i].top_mm);
		if (fabs(edge - place[i].edge_mm) > STRAIGHT_MM || high - low > LEVEL_MM)
			return false;
	}
	return true;
}

static enum fault add_rail(struct rails *out, const struct place_along *place, size_t first,
			   size_t last, const bool stands[BLANK_SIDES], struct fault_list *faults)
{
	struct rail *grown = mem_grow(out->rail, &out->capacity, out->count + 1, sizeof *grown);
	double top = -INFINITY;

	if (!grown)
		return fault_no_memory(faults, "the rails");
	for (size_t i = first; i <= last; i++)
		top = larger(top, place[i].top_mm);
	out->rail = grown;
	out->rail[out->count++] = (struct rail){ .x0_mm = place[first].x_mm,
						 .x1_mm = place[last].x_mm,
						 .e0_mm = place[first].edge_mm,
						 .e1_mm = place[last].edge_mm,
						 .top_mm = top,
						 .stands = { stands[0], stands[1] } };
	out->standing += (size_t)stands[0] + (size_t)stands[1];
	return FAULT_NONE;
}

/* Rails stand where the wood is wide enough for a good length. */
static void mark_standing(struct place_along *place, size_t count, int side)
{
	for (size_t i = 0; i < count; i++) {
		size_t last = i;
		if (place[i].width_mm[side] < RAIL_LEAST_WIDTH_MM)
			continue;
		while (last + 1 < count && place[last + 1].width_mm[side] >= RAIL_LEAST_WIDTH_MM)
			last++;
		for (size_t k = i; k <= last; k++)
			place[k].stands[side] = place[last].x_mm - place[i].x_mm >=
						RAIL_LEAST_LENGTH_MM;
		i = last;
	}
}

/* Whether rails stand all the way from place i to the next. */
static void standing_behind(bool out[BLANK_SIDES], const struct place_along *place, size_t i)
{
	for (int side = 0; side < BLANK_SIDES; side++)
		out[side] = place[i].stands[side] && place[i + 1].stands[side];
}

static bool is_alike(const bool a[BLANK_SIDES], const bool b[BLANK_SIDES])
{
	return a[BLANK_MINUS] == b[BLANK_MINUS] && a[BLANK_PLUS] == b[BLANK_PLUS];
}

/* Divides everything into straight stretches with or without rails. */
static enum fault add_all(struct rails *out, const struct place_along *place, size_t count,
			  struct fault_list *faults)
{
	enum fault fault = FAULT_NONE;

	for (size_t first = 0; first + 1 < count && fault == FAULT_NONE;) {
		size_t end = first + 1;
		bool stands[BLANK_SIDES], next[BLANK_SIDES];
		standing_behind(stands, place, first);
		for (; end + 1 < count && is_straight(place, first, end + 1); end++) {
			standing_behind(next, place, end);
			if (!is_alike(stands, next))
				break;
		}
		fault = add_rail(out, place, first, end, stands, faults);
		first = end;
	}
	return fault;
}

enum fault rails_build(struct rails *out, const struct neck *neck, const struct job *job,
		       struct fault_list *faults)
{
	*out = (struct rails){ .room_mm = job_rail_room_mm(job) };
	if (job->carve.waste.kind != WASTE_RAILS)
		return FAULT_NONE;
	double past = job_most_radius_mm(job) + PAST_END_MM;
	double from = job->carve.from_mm - past, to = job->carve.to_mm + past;
	size_t count = 2 + (size_t)((to - from) / STEP_MM);
	struct place_along *place = mem_array(count, sizeof *place);
	if (!place)
		return fault_no_memory(faults, "the rails");
	for (size_t i = 0; i < count; i++)
		place[i] = look(neck, job, from + (to - from) * (double)i / (double)(count - 1));
	for (int side = 0; side < BLANK_SIDES; side++)
		mark_standing(place, count, side);
	enum fault fault = add_all(out, place, count, faults);
	free(place);
	return fault;
}

void rails_free(struct rails *rails)
{
	if (!rails)
		return;
	free(rails->rail);
	*rails = (struct rails){ 0 };
}

/* Distance in plan from one stretch; y counts from the centre line. */
static double distance_from(const struct rail *rail, double x, double y)
{
	double dx = rail->x1_mm - rail->x0_mm, de = rail->e1_mm - rail->e0_mm;
	double t = ((x - rail->x0_mm) * dx + (y - rail->e0_mm) * de) / (dx * dx + de * de);
	double out0 = hypot(rail->x0_mm - x, larger(rail->e0_mm - y, 0.0));
	double out1 = hypot(x - rail->x1_mm, larger(rail->e1_mm - y, 0.0));

	if (x >= rail->x0_mm && x <= rail->x1_mm && y >= rail->e0_mm + de * (x - rail->x0_mm) / dx)
		return 0.0;
	t = clamped(t, 0.0, 1.0);
	double edge = hypot(x - rail->x0_mm - t * dx, y - rail->e0_mm - t * de);
	return smaller(edge, smaller(out0, out1));
}

/* Whether it is a rail on the side of y. */
static bool is_rail(const struct rail *rail, double y)
{
	return rail->stands[y < 0.0 ? BLANK_MINUS : BLANK_PLUS];
}

double rails_distance_mm(const struct rails *rails, double x_mm, double y_mm)
{
	double least = INFINITY;

	for (size_t i = 0; i < rails->count; i++)
		if (is_rail(&rails->rail[i], y_mm))
			least = smaller(least, distance_from(&rails->rail[i], x_mm, fabs(y_mm)));
	return least;
}

/* From the channel's outer edge. */
static double within_mm(const struct rails *rails, double x, double y)
{
	double least = INFINITY;

	for (size_t i = 0; i < rails->count; i++)
		least = smaller(least, distance_from(&rails->rail[i], x, y));
	return least;
}

/* The distance falls as y grows: halving finds the place. */
double rails_beside_mm(const struct rails *rails, double x_mm, double off_mm)
{
	double low = 0.0, high = 0.0;

	for (size_t i = 0; i < rails->count; i++)
		high = larger(high, larger(rails->rail[i].e0_mm, rails->rail[i].e1_mm));
	for (int i = 0; i < HALVINGS; i++) {
		double middle = (low + high) / 2.0;
		if (within_mm(rails, x_mm, middle) >= off_mm)
			low = middle;
		else
			high = middle;
	}
	return low;
}

double rails_ball_mm(const struct rails *rails, double radius_mm, double x_mm, double y_mm)
{
	double lowest = -INFINITY;

	for (size_t i = 0; i < rails->count; i++) {
		const struct rail *rail = &rails->rail[i];
		if (!is_rail(rail, y_mm) || x_mm <= rail->x0_mm - radius_mm ||
		    x_mm >= rail->x1_mm + radius_mm)
			continue;
		double d = distance_from(rail, x_mm, fabs(y_mm));
		if (d < radius_mm)
			lowest = larger(lowest, rail->top_mm - radius_mm +
							sqrt(radius_mm * radius_mm - d * d));
	}
	return lowest;
}

/* Whether a rail of this stretch, on either side, stands nearer than `reach`. */
static bool is_near(const struct rail *rail, double reach, double x, double y)
{
	if (x <= rail->x0_mm - reach || x >= rail->x1_mm + reach)
		return false;
	return (rail->stands[BLANK_MINUS] && distance_from(rail, x, -y) < reach) ||
	       (rail->stands[BLANK_PLUS] && distance_from(rail, x, y) < reach);
}

double rails_discs_mm(const struct rails *rails, const struct tool_discs *discs, double x_mm,
		      double y_mm)
{
	double lowest = -INFINITY;

	for (size_t k = 0; k < discs->count; k++) {
		const struct tool_disc *disc = &discs->disc[k];
		double reach = disc->radius_mm + rails->room_mm;
		for (size_t i = 0; i < rails->count; i++) {
			double tip = rails->rail[i].top_mm + rails->room_mm - disc->above_mm;
			if (tip > lowest && is_near(&rails->rail[i], reach, x_mm, y_mm))
				lowest = tip;
		}
	}
	return lowest;
}

double rails_tool_mm(const struct rails *rails, const struct cutter *cutter, double x_mm,
		     double y_mm)
{
	struct tool_discs discs = tool_discs_of(cutter);

	return rails_discs_mm(rails, &discs, x_mm, y_mm);
}
