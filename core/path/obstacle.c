/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/obstacle.h"

#include <math.h>
#include <stdbool.h>

#include "base/minmax.h"
#include "model/fretboard.h"
#include "model/joint.h"

static void add_keep_out(struct obstacles *out, const struct place *place, double clearance_mm)
{
	out->item[out->count++] = (struct obstacle){ .shape = place->shape == PLACE_CYLINDER
								      ? OBSTACLE_ROUND
								      : OBSTACLE_BOX,
						     .part = OBSTACLE_STANDS,
						     .x_from_mm = place->x_from_mm,
						     .x_to_mm = place->x_to_mm,
						     .y_from_mm = place->y_from_mm,
						     .y_to_mm = place->y_to_mm,
						     .top_mm = place->top_mm,
						     .clearance_mm = clearance_mm };
}

static void add_riser(struct obstacles *out, const struct job *job)
{
	const struct fixture *fixture = &job->fixture;

	if (fixture->riser_height_mm <= 0.0)
		return;
	out->item[out->count++] =
		(struct obstacle){ .shape = OBSTACLE_BOX,
				   .part = OBSTACLE_RISER,
				   .x_from_mm = fixture->riser_from_mm,
				   .x_to_mm = fixture->riser_to_mm,
				   .y_from_mm = -fixture->riser_width_mm / 2.0,
				   .y_to_mm = fixture->riser_width_mm / 2.0,
				   .top_mm = job_rest_mm(job),
				   .clearance_mm = fixture->keep_out_clearance_mm };
}

static void add_fretboard(struct obstacles *out, const struct job *job, double margin_mm)
{
	const struct glued_fretboard *glued = &job->fixture.fretboard;

	if (!glued->glued)
		return;
	struct fretboard board = fretboard_of(&job->neck, glued->overhang_mm);
	double half = larger(board.half_from_mm, board.half_to_mm);

	out->item[out->count++] =
		(struct obstacle){ .shape = OBSTACLE_TAPERED,
				   .part = OBSTACLE_FRETBOARD,
				   .x_from_mm = board.x_from_mm,
				   .x_to_mm = board.x_to_mm,
				   .y_from_mm = -half,
				   .y_to_mm = half,
				   .half_from_mm = board.half_from_mm,
				   .half_to_mm = board.half_to_mm,
				   .top_mm = 0.0,
				   .clearance_mm = glued->clearance_mm + margin_mm };
}

static void add_joint(struct obstacles *out, const struct job *job, double margin_mm)
{
	struct joint_box box;

	if (!joint_keep_out(&box, &job->neck))
		return;
	out->item[out->count++] = (struct obstacle){ .shape = OBSTACLE_BOX,
						     .part = OBSTACLE_JOINT,
						     .x_from_mm = box.x_from_mm,
						     .x_to_mm = box.x_to_mm,
						     .y_from_mm = box.y_from_mm,
						     .y_to_mm = box.y_to_mm,
						     .top_mm = box.z_to_mm,
						     .clearance_mm = margin_mm };
}

void obstacles_make(struct obstacles *out, const struct job *job, const struct cutter *cutter,
		    double margin_mm)
{
	const struct fixture *fixture = &job->fixture;

	*out = (struct obstacles){ .radius_mm = cutter_radius_mm(cutter),
				   .discs = tool_discs_of(cutter) };
	for (size_t i = 0; i < fixture->keep_out_count; i++)
		add_keep_out(out, &fixture->keep_out[i],
			     fixture->keep_out_clearance_mm + margin_mm);
	add_riser(out, job);
	add_fretboard(out, job, margin_mm);
	add_joint(out, job, margin_mm);
}

/* Distance in plan from a rectangle to a point. */
static double box_to_point(const struct obstacle *box, double x, double y)
{
	double dx = larger(larger(box->x_from_mm - x, x - box->x_to_mm), 0.0);
	double dy = larger(larger(box->y_from_mm - y, y - box->y_to_mm), 0.0);

	return hypot(dx, dy);
}

/* From an upright cylinder. */
static double round_to_point(const struct obstacle *round, double x, double y)
{
	double radius = (round->x_to_mm - round->x_from_mm) / 2.0;
	double dx = x - (round->x_from_mm + round->x_to_mm) / 2.0;
	double dy = y - (round->y_from_mm + round->y_to_mm) / 2.0;

	return larger(hypot(dx, dy) - radius, 0.0);
}

/* From a board with straight sides, alike about y = 0: from its upper half,
 * bounded by two ends and the side. A point beyond the side is nearest to the
 * side or to one of its corners. */
static double tapered_to_point(const struct obstacle *board, double x, double y)
{
	double length = board->x_to_mm - board->x_from_mm;
	double slope = (board->half_to_mm - board->half_from_mm) / length;
	double off = (fabs(y) - board->half_from_mm - slope * (x - board->x_from_mm)) /
		     hypot(1.0, slope);
	/* foot of the perpendicular on the side, kept between its corners */
	double foot =
		clamped(x + off * slope / hypot(1.0, slope), board->x_from_mm, board->x_to_mm);
	double side = board->half_from_mm + slope * (foot - board->x_from_mm);
	double beside = clamped(x, board->x_from_mm, board->x_to_mm);

	if (fabs(y) <= board->half_from_mm + slope * (beside - board->x_from_mm))
		return fabs(x - beside); /* off an end, or inside */
	return hypot(x - foot, fabs(y) - side);
}

static double to_point(const struct obstacle *obstacle, double x, double y)
{
	switch (obstacle->shape) {
	case OBSTACLE_ROUND:
		return round_to_point(obstacle, x, y);
	case OBSTACLE_TAPERED:
		return tapered_to_point(obstacle, x, y);
	case OBSTACLE_BOX:
		break;
	}
	return box_to_point(obstacle, x, y);
}

/* Distance in plan to a straight line: convex along the line for each of the
 * shapes, so a search by thirds closes in on it. The answer is lowered by what
 * the search may have missed. */
static double to_line(const struct obstacle *obstacle, double x0, double y0, double x1, double y1)
{
	double low = 0.0, high = 1.0, length = hypot(x1 - x0, y1 - y0);

	if (length <= 0.0)
		return to_point(obstacle, x0, y0);
	while ((high - low) * length > 1e-4) {
		double a = low + (high - low) / 3.0, b = high - (high - low) / 3.0;
		double da = to_point(obstacle, x0 + a * (x1 - x0), y0 + a * (y1 - y0));
		double db = to_point(obstacle, x0 + b * (x1 - x0), y0 + b * (y1 - y0));
		if (da < db)
			high = b;
		else
			low = a;
	}
	double t = (low + high) / 2.0;
	double distance = to_point(obstacle, x0 + t * (x1 - x0), y0 + t * (y1 - y0));
	return larger(0.0, distance - (high - low) * length);
}

static bool is_in_group(const struct obstacle *obstacle, enum obstacle_group group)
{
	return group == OBSTACLES_ALL ||
	       (obstacle->part == OBSTACLE_STANDS) == (group == OBSTACLES_ABOUT);
}

bool obstacles_any_about(const struct obstacles *obstacles)
{
	for (size_t i = 0; i < obstacles->count; i++)
		if (is_in_group(&obstacles->item[i], OBSTACLES_ABOUT))
			return true;
	return false;
}

double obstacles_ball_mm(const struct obstacles *obstacles, enum obstacle_group group, double x0_mm,
			 double y0_mm, double x1_mm, double y1_mm)
{
	double lowest = -INFINITY;

	for (size_t i = 0; i < obstacles->count; i++) {
		const struct obstacle *item = &obstacles->item[i];
		double grown = obstacles->radius_mm + item->clearance_mm;
		if (!is_in_group(item, group))
			continue;
		double distance = to_line(item, x0_mm, y0_mm, x1_mm, y1_mm);
		if (distance >= grown)
			continue;
		lowest = larger(lowest, item->top_mm + sqrt(grown * grown - distance * distance) -
						obstacles->radius_mm);
	}
	return lowest;
}

static double disc_mm(const struct obstacle *item, double distance, const struct tool_disc *disc)
{
	if (distance >= disc->radius_mm + item->clearance_mm)
		return -INFINITY;
	return item->top_mm + item->clearance_mm - disc->above_mm;
}

double obstacles_tool_mm(const struct obstacles *obstacles, enum obstacle_group group, double x0_mm,
			 double y0_mm, double x1_mm, double y1_mm)
{
	double lowest = -INFINITY;

	for (size_t i = 0; i < obstacles->count; i++) {
		const struct obstacle *item = &obstacles->item[i];
		if (!is_in_group(item, group))
			continue;
		double distance = to_line(item, x0_mm, y0_mm, x1_mm, y1_mm);
		for (size_t k = 0; k < obstacles->discs.count; k++)
			lowest = larger(lowest, disc_mm(item, distance, &obstacles->discs.disc[k]));
	}
	return lowest;
}
