/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/order.h"

#include <math.h>

#include "base/minmax.h"

/* More than any line is away from the centre line, mm. */
#define FAR_SIDE_MM 1e5

static double plan_distance(struct vec3 a, struct vec3 b)
{
	return hypot(a.x - b.x, a.y - b.y);
}

/* How far off a run's end is at which it may be begun; INFINITY for the last
 * point of one that goes one way only. */
static double way_to_front(struct vec3 at, const struct track *run)
{
	return plan_distance(at, run->p[0]);
}

static double way_to_back(struct vec3 at, const struct track *run)
{
	return run->one_way ? INFINITY : plan_distance(at, run->p[run->count - 1]);
}

/* What is to be cut next: the smaller the sooner. */
static double rank(struct vec3 at, const struct track *run, enum emit_order order)
{
	double y = run->p[0].y;
	bool far_side = order == EMIT_SIDE_BY_SIDE ? y < 0.0 : y * at.y < 0.0;

	if (order == EMIT_NEAREST)
		return smaller(way_to_front(at, run), way_to_back(at, run));
	if (order == EMIT_BODY_FIRST)
		return -run->p[0].x;
	if (order == EMIT_PEGHEAD_FIRST)
		return run->p[0].x;
	/* the whole of the far side comes after the near one */
	return (far_side ? FAR_SIDE_MM : 0.0) - fabs(y);
}

size_t order_next(enum emit_order order, const struct runs *runs, const bool *done, struct vec3 at,
		  bool *reverse)
{
	size_t best = runs->count;
	double least = INFINITY, least_way = INFINITY;

	for (size_t i = 0; i < runs->count; i++) {
		const struct track *run = &runs->run[i];
		if (done[i] || run->count == 0)
			continue;
		double front = way_to_front(at, run), back = way_to_back(at, run);
		double value = rank(at, run, order), way = smaller(front, back);
		if (value < least - 1e-9 || (value < least + 1e-9 && way < least_way)) {
			least = value;
			least_way = way;
			*reverse = back < front;
			best = i;
		}
	}
	return best;
}
