/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "mesh/to_edge.h"

/* Out to `end` when no whole step lies between. */
static double out_to(double value, double least, double most, double step)
{
	if (value + step > most)
		return most;
	return value - step < least ? least : value;
}

static void take(void *context, const struct mesh_point corner[3])
{
	const struct to_edge *edge = context;
	struct mesh_point moved[3];

	for (int i = 0; i < 3; i++) {
		double x = (double)corner[i].x + edge->zero.x,
		       y = (double)corner[i].y + edge->zero.y;
		double z = (double)corner[i].z + edge->zero.z;
		x = out_to(x, blank_from_mm(edge->blank), blank_to_mm(edge->blank), edge->step_mm);
		double minus = outline_value_mm(blank_side(edge->blank, BLANK_MINUS), x);
		double plus = outline_value_mm(blank_side(edge->blank, BLANK_PLUS), x);
		y = out_to(y, -minus, plus, edge->step_mm);
		moved[i] = mesh_point(vec3_make(x, y, z), edge->zero);
	}
	mesh_triangle(edge->next, moved[0], moved[1], moved[2]);
}

struct triangle_sink to_edge_sink(struct to_edge *edge)
{
	return (struct triangle_sink){ take, edge };
}
