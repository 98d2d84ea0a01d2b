/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "mesh/blank_solid.h"

#include <math.h>
#include <stddef.h>

/* Every point of the outlines can be a place of its own. */
#define PLACES_MAX ((size_t)4 * BLANK_POINTS_MAX)

/* One section of the blank, in program coordinates; empty when y_from >= y_to. */
struct rectangle {
	float y_from, y_to, z_from, z_to;
};

/* A place along x where an outline has a point: the section just before and
 * just after it, and all their sides in order. Faces on both sides of the
 * place are cut at all of these, so that no corner lies inside another's
 * edge. */
struct place_x {
	float x;
	double low_mm, high_mm; /* in neck coordinates: the points that share x */
	struct rectangle before, after;
	float y[4], z[4];
	int y_count, z_count;
};

static bool is_empty(const struct rectangle *r)
{
	return !(r->y_from < r->y_to && r->z_from < r->z_to);
}

/* Value of the outline just before (or just after) x. */
static double limit_mm(const struct outline *outline, double x_mm, bool before)
{
	size_t last = outline->count - 1, left = 0;

	/* the piece left, left + 1 that ends (before) or begins (after) at x */
	for (size_t i = 1; i < last; i++)
		if (before ? outline->x_mm[i] < x_mm : outline->x_mm[i] <= x_mm)
			left = i;
	double from = outline->x_mm[left], to = outline->x_mm[left + 1];
	if (x_mm <= from || !(to > from))
		return outline->value_mm[x_mm <= from ? left : left + 1];
	double share = x_mm >= to ? 1.0 : (x_mm - from) / (to - from);
	return outline->value_mm[left] +
	       share * (outline->value_mm[left + 1] - outline->value_mm[left]);
}

static struct rectangle section(const struct blank *blank, double x_mm, bool before,
				struct vec3 zero)
{
	double minus = limit_mm(blank_side(blank, BLANK_MINUS), x_mm, before);
	double plus = limit_mm(blank_side(blank, BLANK_PLUS), x_mm, before);
	struct vec3 low = { x_mm, -minus, limit_mm(&blank->bottom, x_mm, before) };
	struct vec3 high = { x_mm, plus, limit_mm(&blank->top, x_mm, before) };
	struct mesh_point from = mesh_point(low, zero), to = mesh_point(high, zero);

	return (struct rectangle){ from.y, to.y, from.z, to.z };
}

/* Puts a value into a short ascending list unless it is there. */
static void insert(float *list, int *count, float value)
{
	int at = 0;

	while (at < *count && list[at] < value)
		at++;
	if (at < *count && list[at] == value)
		return;
	for (int i = *count; i > at; i--)
		list[i] = list[i - 1];
	list[at] = value;
	(*count)++;
}

static void insert_sides(struct place_x *place, const struct rectangle *r)
{
	if (is_empty(r))
		return;
	insert(place->y, &place->y_count, r->y_from);
	insert(place->y, &place->y_count, r->y_to);
	insert(place->z, &place->z_count, r->z_from);
	insert(place->z, &place->z_count, r->z_to);
}

/* Adds the x of an outline's points to the ascending list of places; points
 * that share single-precision x share a place. */
static void insert_places(struct place_x *place, size_t *count, const struct outline *outline,
			  struct vec3 zero)
{
	for (size_t i = 0; i < outline->count; i++) {
		double x_mm = outline->x_mm[i];
		float x = mesh_point(vec3_make(x_mm, 0.0, 0.0), zero).x;
		size_t at = 0;
		while (at < *count && place[at].x < x)
			at++;
		if (at < *count && place[at].x == x) {
			place[at].low_mm = fmin(place[at].low_mm, x_mm);
			place[at].high_mm = fmax(place[at].high_mm, x_mm);
			continue;
		}
		for (size_t k = *count; k > at; k--)
			place[k] = place[k - 1];
		place[at] = (struct place_x){ .x = x, .low_mm = x_mm, .high_mm = x_mm };
		(*count)++;
	}
}

static size_t find_places(struct place_x *place, const struct blank *blank, struct vec3 zero)
{
	size_t count = 0;

	insert_places(place, &count, &blank->top, zero);
	insert_places(place, &count, &blank->bottom, zero);
	insert_places(place, &count, blank_side(blank, BLANK_MINUS), zero);
	insert_places(place, &count, blank_side(blank, BLANK_PLUS), zero);
	for (size_t i = 0; i < count; i++) {
		if (i > 0)
			place[i].before = section(blank, place[i].low_mm, true, zero);
		if (i + 1 < count)
			place[i].after = section(blank, place[i].high_mm, false, zero);
		insert_sides(&place[i], &place[i].before);
		insert_sides(&place[i], &place[i].after);
	}
	return count;
}

/* Corners of one side of a section: along y at a fixed z, or along z at a
 * fixed y, with every cut of the place that falls on it. */
static int side_points(struct mesh_point *out, const struct place_x *place,
		       const struct rectangle *r, bool along_y, float fixed)
{
	const float *cut = along_y ? place->y : place->z;
	int cuts = along_y ? place->y_count : place->z_count, count = 0;
	float from = along_y ? r->y_from : r->z_from, to = along_y ? r->y_to : r->z_to;

	for (int i = 0; i < cuts; i++) {
		if (cut[i] < from || cut[i] > to)
			continue;
		out[count++] = along_y ? (struct mesh_point){ place->x, cut[i], fixed }
				       : (struct mesh_point){ place->x, fixed, cut[i] };
	}
	return count;
}

/* Triangles between two chains of corners that run the same way. Seen from
 * outside, `left` lies to the left when it runs upward. */
static void strip(const struct triangle_sink *sink, const struct mesh_point *left, int left_count,
		  const struct mesh_point *right, int right_count)
{
	int i = 0, k = 0;

	while (i + 1 < left_count || k + 1 < right_count) {
		/* step on the chain that lags behind, by share of its corners */
		bool step_left = k + 1 == right_count ||
				 (i + 1 < left_count &&
				  (i + 1) * (right_count - 1) <= (k + 1) * (left_count - 1));
		if (step_left) {
			mesh_triangle(sink, left[i], right[k], left[i + 1]);
			i++;
		} else {
			mesh_triangle(sink, left[i], right[k], right[k + 1]);
			k++;
		}
	}
}

/* One of the four long faces between two places. */
static void long_face(const struct triangle_sink *sink, const struct place_x *from,
		      const struct place_x *to, bool along_y, bool high)
{
	struct mesh_point a[4], b[4];
	const struct rectangle *ra = &from->after, *rb = &to->before;
	float fixed_a = along_y ? (high ? ra->z_to : ra->z_from) : (high ? ra->y_to : ra->y_from);
	float fixed_b = along_y ? (high ? rb->z_to : rb->z_from) : (high ? rb->y_to : rb->y_from);
	int a_count = side_points(a, from, ra, along_y, fixed_a);
	int b_count = side_points(b, to, rb, along_y, fixed_b);

	/* looking down on the top with y upward, the nearer chain is left; the
	 * underside is its mirror image, and so are the two sides the other way */
	if (along_y == high)
		strip(sink, a, a_count, b, b_count);
	else
		strip(sink, b, b_count, a, a_count);
}

static bool covers(const struct rectangle *r, float y, float z)
{
	return !is_empty(r) && y > r->y_from && y < r->y_to && z > r->z_from && z < r->z_to;
}

/* Walls in the plane of a place: cells that one section covers and the other
 * does not. */
static void walls(const struct triangle_sink *sink, const struct place_x *place)
{
	for (int i = 0; i + 1 < place->y_count; i++)
		for (int k = 0; k + 1 < place->z_count; k++) {
			float y0 = place->y[i], y1 = place->y[i + 1];
			float z0 = place->z[k], z1 = place->z[k + 1];
			float y = y0 + (y1 - y0) / 2.0f, z = z0 + (z1 - z0) / 2.0f;
			bool before = covers(&place->before, y, z);
			if (before == covers(&place->after, y, z))
				continue;
			struct mesh_point low = { place->x, y0, z0 }, high = { place->x, y1, z1 };
			struct mesh_point right = { place->x, y1, z0 }, left = { place->x, y0, z1 };
			if (before)
				mesh_quad(sink, low, right, high, left);
			else
				mesh_quad(sink, low, left, high, right);
		}
}

/* Do the sections on both sides of the place share some area? */
static bool is_joined(const struct place_x *place)
{
	const struct rectangle *a = &place->before, *b = &place->after;

	return a->y_from < b->y_to && b->y_from < a->y_to && a->z_from < b->z_to &&
	       b->z_from < a->z_to;
}

enum fault blank_solid(const struct triangle_sink *sink, const struct blank *blank,
		       struct vec3 work_zero_mm, struct fault_list *faults)
{
	struct place_x place[PLACES_MAX];
	size_t count = find_places(place, blank, work_zero_mm);

	for (size_t i = 1; i + 1 < count; i++)
		if (!is_joined(&place[i]))
			return fault_add(faults, FAULT_GEOMETRY, NULL, 0, "blank",
					 "At %.4g mm from the nut the blank falls apart: the wood "
					 "before and behind this step does not touch.",
					 place[i].low_mm);
	for (size_t i = 0; i < count; i++)
		walls(sink, &place[i]);
	for (size_t i = 0; i + 1 < count; i++)
		for (int face = 0; face < 4; face++)
			long_face(sink, &place[i], &place[i + 1], face < 2, face % 2 == 1);
	return FAULT_NONE;
}
