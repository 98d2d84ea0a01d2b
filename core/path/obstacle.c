/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/obstacle.h"

#include <math.h>
#include <stdio.h>

#include "base/minmax.h"

void obstacles_make(struct obstacles *out, const struct job *job, const struct cutter *cutter)
{
	const struct fixture *fixture = &job->fixture;

	*out = (struct obstacles){ .radius_mm = cutter_radius_mm(cutter),
				   .shank_radius_mm = cutter->shank_diameter_mm / 2.0,
				   .shank_from_mm = cutter->flute_length_mm,
				   .holder_radius_mm = cutter->holder_diameter_mm / 2.0,
				   .stickout_mm = cutter->stickout_mm,
				   .clearance_mm = fixture->keep_out_clearance_mm,
				   .count = fixture->keep_out_count };
	for (size_t i = 0; i < fixture->keep_out_count; i++)
		out->box[i] = fixture->keep_out[i];
	if (fixture->riser_height_mm <= 0.0)
		return;
	struct place *riser = &out->box[out->count++];
	*riser = (struct place){ .x_from_mm = fixture->riser_from_mm,
				 .x_to_mm = fixture->riser_to_mm,
				 .y_from_mm = -fixture->riser_width_mm / 2.0,
				 .y_to_mm = fixture->riser_width_mm / 2.0,
				 .top_mm = 0.0 };
	(void)snprintf(riser->name, sizeof riser->name, "riser");
}

/* Distance in plan from a box to a point. */
static double box_to_point(const struct place *box, double x, double y)
{
	double dx = larger(larger(box->x_from_mm - x, x - box->x_to_mm), 0.0);
	double dy = larger(larger(box->y_from_mm - y, y - box->y_to_mm), 0.0);

	return hypot(dx, dy);
}

/* Distance in plan from a box to a straight line: convex along the line, so a
 * search by thirds closes in on it. The answer is lowered by what the search
 * may have missed. */
static double box_to_line(const struct place *box, double x0, double y0, double x1, double y1)
{
	double low = 0.0, high = 1.0, length = hypot(x1 - x0, y1 - y0);

	if (length <= 0.0)
		return box_to_point(box, x0, y0);
	while ((high - low) * length > 1e-4) {
		double a = low + (high - low) / 3.0, b = high - (high - low) / 3.0;
		double da = box_to_point(box, x0 + a * (x1 - x0), y0 + a * (y1 - y0));
		double db = box_to_point(box, x0 + b * (x1 - x0), y0 + b * (y1 - y0));
		if (da < db)
			high = b;
		else
			low = a;
	}
	double t = (low + high) / 2.0;
	double distance = box_to_point(box, x0 + t * (x1 - x0), y0 + t * (y1 - y0));
	return larger(0.0, distance - (high - low) * length);
}

double obstacles_ball_mm(const struct obstacles *obstacles, double x0_mm, double y0_mm,
			 double x1_mm, double y1_mm)
{
	double grown = obstacles->radius_mm + obstacles->clearance_mm, lowest = -INFINITY;

	for (size_t i = 0; i < obstacles->count; i++) {
		const struct place *box = &obstacles->box[i];
		double distance = box_to_line(box, x0_mm, y0_mm, x1_mm, y1_mm);
		if (distance >= grown)
			continue;
		lowest = larger(lowest, box->top_mm + sqrt(grown * grown - distance * distance) -
						obstacles->radius_mm);
	}
	return lowest;
}

static double disc_mm(const struct place *box, double distance, double radius, double above,
		      double clearance)
{
	if (distance >= radius + clearance)
		return -INFINITY;
	return box->top_mm + clearance - above;
}

double obstacles_tool_mm(const struct obstacles *obstacles, double x0_mm, double y0_mm,
			 double x1_mm, double y1_mm)
{
	double lowest = -INFINITY;

	for (size_t i = 0; i < obstacles->count; i++) {
		const struct place *box = &obstacles->box[i];
		double distance = box_to_line(box, x0_mm, y0_mm, x1_mm, y1_mm);
		lowest = larger(lowest, disc_mm(box, distance, obstacles->shank_radius_mm,
						obstacles->shank_from_mm, obstacles->clearance_mm));
		lowest = larger(lowest, disc_mm(box, distance, obstacles->holder_radius_mm,
						obstacles->stickout_mm, obstacles->clearance_mm));
	}
	return lowest;
}
