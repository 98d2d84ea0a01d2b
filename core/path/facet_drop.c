/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/facet_drop.h"

#include <math.h>

#include "base/minmax.h"

/* Height of the grown ball's centre resting on the straight edge a-b, or
 * -INFINITY. Along the edge the centre's height a.z + m t + sqrt(s^2 -
 * (u - t)^2) is concave in t and largest at t = u + m s / sqrt(1 + m^2);
 * clamped to the edge it is exact, corners included. */
static double rest_on_edge(struct vec3 a, struct vec3 b, double grown, double x, double y)
{
	double ex = b.x - a.x, ey = b.y - a.y, length = sqrt(ex * ex + ey * ey);
	double px = x - a.x, py = y - a.y;

	if (length < 1e-9) {
		double left = grown * grown - px * px - py * py;
		return left > 0.0 ? larger(a.z, b.z) + sqrt(left) : -INFINITY;
	}
	ex /= length;
	ey /= length;
	double u = px * ex + py * ey, w = py * ex - px * ey;
	double s2 = grown * grown - w * w, m = (b.z - a.z) / length;
	if (s2 <= 0.0)
		return -INFINITY;
	double t = u + m * sqrt(s2 / (1.0 + m * m));
	t = clamped(t, 0.0, length);
	double left = s2 - (u - t) * (u - t);
	return left > 0.0 ? a.z + m * t + sqrt(left) : -INFINITY;
}

/* Bits of the edges (edge i runs from corner i to the next) that have (x, y)
 * on their outer side in plan; 0 when it lies in the triangle. `turn` is the
 * sign of the triangle's area in plan. */
static unsigned edges_facing(const struct vec3 p[3], double turn, double x, double y)
{
	unsigned facing = 0;

	for (int i = 0; i < 3; i++) {
		struct vec3 a = p[i], b = p[(i + 1) % 3];
		double side = (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);
		if (side * turn < 0.0)
			facing |= 1u << i;
	}
	return facing;
}

/* The grown ball's centre over a plane is highest above one contact point, and
 * falls away from there on all sides (it is concave). If that point lies in
 * the triangle the ball rests on its face; otherwise on an edge that faces the
 * point. */
double drop_on_facet_mm(const struct facet *facet, double radius, double grown, double x_mm,
			double y_mm)
{
	const struct vec3 *p = facet->p;
	struct vec3 normal = vec3_cross(vec3_sub(p[1], p[0]), vec3_sub(p[2], p[0]));
	double length = vec3_length(normal), turn = normal.z, best = -INFINITY;
	unsigned facing = 7;

	normal = vec3_scale(normal, (turn < 0.0 ? -1.0 : 1.0) / length);
	if (normal.z > 1e-9) {
		double cx = x_mm - grown * normal.x, cy = y_mm - grown * normal.y;
		facing = edges_facing(p, turn, cx, cy);
		if (facing == 0) {
			double z = p[0].z -
				   (normal.x * (cx - p[0].x) + normal.y * (cy - p[0].y)) / normal.z;
			return z + grown * normal.z - radius;
		}
	}
	for (int i = 0; i < 3; i++)
		if (facing & (1u << i))
			best = larger(best, rest_on_edge(p[i], p[(i + 1) % 3], grown, x_mm, y_mm));
	return best - radius;
}
