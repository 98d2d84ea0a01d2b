/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stock/visits.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "base/tol.h"

enum fault visits_build(struct visits *out, const struct stock *stock, double radius_mm,
			struct fault_list *faults)
{
	size_t columns = stock->nx * stock->ny;

	*out = (struct visits){ .radius_mm = radius_mm,
				.top = mem_array(columns, sizeof(float)),
				.way = mem_array(columns, sizeof(float)) };
	if (!out->top || !out->way) {
		visits_free(out);
		return fault_no_memory(faults, "the bites");
	}
	for (size_t i = 0; i < columns; i++)
		out->way[i] = -INFINITY;
	return FAULT_NONE;
}

void visits_free(struct visits *visits)
{
	if (!visits)
		return;
	free(visits->top);
	free(visits->way);
	*visits = (struct visits){ 0 };
}

void visits_change(struct visits *visits, double radius_mm)
{
	visits->radius_mm = larger(visits->radius_mm, radius_mm);
	visits_leave(visits);
	visits->radius_mm = radius_mm;
}

void visits_leave(struct visits *visits)
{
	visits->way_mm += 2.002 * visits->radius_mm;
}

/* A column's passage: when the ball first reaches it and when it is nearest, mm
 * along the move. */
struct passage {
	bool counts; /* not for a column that the ball's side merely brushes */
	double first_mm, nearest_mm;
};

static struct passage passage_of(const struct visits *visits, const struct stock *stock,
				 struct vec3 from, struct vec3 to, size_t ix, size_t iy)
{
	double dx = to.x - from.x, dy = to.y - from.y, length2 = dx * dx + dy * dy;
	double px = stock_x(stock, ix) - from.x, py = stock_y(stock, iy) - from.y;
	double t = length2 > 0.0 ? (px * dx + py * dy) / length2 : 0.0;
	double inner = visits->radius_mm - TOL_BRUSH_MM, length = vec3_distance(from, to);
	double nearest = length2 > 0.0 ? clamped(t, 0.0, 1.0) : 1.0;
	double qx = px - nearest * dx, qy = py - nearest * dy;

	px -= t * dx;
	py -= t * dy;
	double off2 = px * px + py * py;
	double chord =
		length2 > 0.0
			? sqrt(larger(visits->radius_mm * visits->radius_mm - off2, 0.0) / length2)
			: 1e9;
	return (struct passage){ qx * qx + qy * qy <= inner * inner,
				 larger((t - chord) * length, 0.0), nearest * length };
}

/* The way counts where the ball was when it reached and passed the column, so
 * that a long move is judged like the short ones it could be divided into. */
static void note_column(struct visits *visits, struct taken *taken, size_t i,
			struct passage passage, float before, float after)
{
	double first = visits->way_mm + passage.first_mm;

	if (first - (double)visits->way[i] > 2.0 * visits->radius_mm)
		visits->top[i] = before;
	visits->way[i] = (float)(visits->way_mm + passage.nearest_mm);
	taken->deepest_mm = larger(taken->deepest_mm, (double)before - after);
	taken->bite_mm = larger(taken->bite_mm, (double)visits->top[i] - after);
	taken->highest_mm = larger(taken->highest_mm, before);
}

/* How much of a cut from `before` down to `after` is wood of the drawn blank. */
static double drawn_part(const struct visits *visits, size_t i, float before, float after)
{
	float top = visits->drawn && visits->drawn[i] < before ? visits->drawn[i] : before;

	return top > after ? (double)top - after : 0.0;
}

/* Enters wood taken from a column on its side of the way; seen from above, y is
 * on the left of x. */
static void note_side(struct taken *taken, struct vec3 from, struct vec3 to, double x, double y,
		      double volume_mm3)
{
	double turn = (to.x - from.x) * (y - from.y) - (to.y - from.y) * (x - from.x);

	if (turn > 0.0)
		taken->left_mm3 += volume_mm3;
	else if (turn < 0.0)
		taken->right_mm3 += volume_mm3;
}

struct taken visits_note(struct visits *visits, const struct stock *stock,
			 const struct swath *swath, struct vec3 from, struct vec3 to)
{
	struct taken taken = { .highest_mm = -INFINITY };
	double area = stock->cell_mm * stock->cell_mm;
	const float *before = swath->before;

	for (size_t iy = swath->iy0; iy < swath->iy1; iy++)
		for (size_t ix = swath->ix0; ix < swath->ix1; ix++, before++) {
			size_t i = iy * stock->nx + ix;
			float after = stock->top[i];
			if (!(*before > after))
				continue;
			taken.volume_mm3 += drawn_part(visits, i, *before, after);
			note_side(&taken, from, to, stock_x(stock, ix), stock_y(stock, iy),
				  area * ((double)*before - (double)after));
			struct passage passage = passage_of(visits, stock, from, to, ix, iy);
			if (passage.counts)
				note_column(visits, &taken, i, passage, *before, after);
		}
	visits->way_mm += vec3_distance(from, to);
	taken.volume_mm3 *= area;
	return taken;
}
