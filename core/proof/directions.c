/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "proof/directions.h"

#include <math.h>
#include <stdbool.h>

/* A move that takes no more than this anywhere brushes dust off, mm. */
#define DUST_MM 0.05
/* Rises count from this much over what is steep for the grain. */
#define STEEP_FACTOR 1.2
/* A move that sinks at least at this share of the ramp's slope is a ramp. */
#define RAMP_SHARE 0.5
/* A contour line keeps its height to this, mm, and a program's figures. */
#define LEVEL_MM 0.005
/* Shorter than this is no way at all, and nearer to one x than this the same, mm. */
#define NO_WAY_MM 1e-6

void directions_start(struct directions *directions, const struct job *job,
		      const struct stretches *stretches)
{
	*directions = (struct directions){ .job = job, .stretches = *stretches };
}

void directions_leave(struct directions *directions)
{
	directions->rise_mm = directions->against_mm = 0.0;
}

static bool is_ramp(const struct directed_move *move)
{
	double plan = hypot(move->to.x - move->from.x, move->to.y - move->from.y);

	return move->from.z - move->to.z > RAMP_SHARE * tan(move->ramp_rad) * plan;
}

/* How far the place stands out for the grain from the one before: higher, or,
 * when the height stays but for what a program's figures can state, farther from
 * the centre line. */
static double rise_of(const struct job *job, const struct directed_move *move)
{
	double up = move->to.z - move->from.z;
	double level = LEVEL_MM + machine_resolution_mm(&job->machine);

	return fabs(up) > level ? up : fabs(move->to.y) - fabs(move->from.y);
}

/* Seen from above the spindle turns clockwise, so on climb lines the wood is on
 * the right: with the wood toward the centre line that is +x on the +y side and
 * -x on the other. The bass side is cut first, and the centre line's own last
 * of it. */
static bool climbs_lengthwise(const struct directed_move *move, enum neck_hand hand)
{
	double side = move->from.y + move->to.y;
	bool plus = hand == HAND_RIGHT ? side > -NO_WAY_MM : side > NO_WAY_MM;

	return (move->to.x > move->from.x) == plus;
}

static bool goes_against(const struct directed_move *move, const struct cutting *cutting,
			 enum neck_hand hand)
{
	bool climb = cutting->way == CUT_CLIMB;
	double wrong_mm3 = climb ? move->left_mm3 : move->right_mm3;
	double scrap_mm3 = DIRECTION_SCRAP_MM2 * vec3_distance(move->from, move->to);

	if (cutting->lines == CUT_LENGTHWISE)
		return climbs_lengthwise(move, hand) != climb;
	return wrong_mm3 > scrap_mm3 &&
	       wrong_mm3 >= DIRECTION_WRONG_SHARE * (move->left_mm3 + move->right_mm3);
}

static void judge_rise(struct directions *directions, struct verdict *verdict,
		       const struct directed_move *move, double rise_mm)
{
	double steep_mm = STEEP_FACTOR * CUT_STEEP_SLOPE * fabs(move->to.x - move->from.x);

	directions->rise_mm = rise_mm > steep_mm ? directions->rise_mm + rise_mm : 0.0;
	verdict_figure_against(verdict, PROMISE_DIRECTION, directions->rise_mm, DIRECTION_RISE_MM);
	if (directions->rise_mm > DIRECTION_RISE_MM)
		verdict_break(verdict, PROMISE_DIRECTION, move->program, move->block,
			      "Wood is cut up a slope for %.2f mm; the job asks for cutting down "
			      "the slope there.",
			      directions->rise_mm);
}

static void judge_way(struct directions *directions, struct verdict *verdict,
		      const struct directed_move *move, const struct cutting *cutting)
{
	bool slopes = cutting->grain == CUT_DOWNHILL && cutting->lines == CUT_LENGTHWISE;
	double across_mm = cutting->lines == CUT_CROSSWISE ? DIRECTION_ACROSS_MM
							   : DIRECTION_AGAINST_MM;
	double limit = slopes ? DIRECTION_LEVEL_MM : across_mm;
	double length = vec3_distance(move->from, move->to);

	if (goes_against(move, cutting, directions->job->neck.hand))
		directions->against_mm += length;
	else
		directions->against_mm = 0.0;
	verdict_figure_against(verdict, PROMISE_DIRECTION, directions->against_mm, limit);
	if (directions->against_mm > limit)
		verdict_break(verdict, PROMISE_DIRECTION, move->program, move->block,
			      "Wood is cut against the way for %.2f mm; the job asks for %s cuts "
			      "there.",
			      directions->against_mm,
			      cutting->way == CUT_CLIMB ? "climb" : "conventional");
}

void directions_judge(struct directions *directions, struct verdict *verdict,
		      const struct directed_move *move)
{
	double dx = move->to.x - move->from.x, dy = move->to.y - move->from.y;
	double middle = (move->from.x + move->to.x) / 2.0;
	const struct cutting *cutting =
		&directions->job->cutting[stretch_at(&directions->stretches, middle)];
	bool crosswise = cutting->lines == CUT_CROSSWISE;
	bool along = crosswise ? fabs(dx) < NO_WAY_MM && fabs(dy) > NO_WAY_MM
			       : fabs(dx) >= fabs(dy) && fabs(dx) > NO_WAY_MM;

	bool downhill = along && !crosswise && cutting->grain == CUT_DOWNHILL;
	double rise_mm = downhill ? rise_of(directions->job, move) : 0.0;
	bool slope = fabs(rise_mm) > CUT_STEEP_SLOPE / STEEP_FACTOR * fabs(dx);

	/* a slope ends a level part, whether there is wood on it or not */
	if (slope)
		directions->against_mm = 0.0;
	if (move->taken_mm <= DUST_MM)
		return;
	if (!along) {
		if (hypot(dx, dy) > NO_WAY_MM)
			directions_leave(directions);
		return;
	}
	if (is_ramp(move)) {
		directions->rise_mm = 0.0;
		return;
	}
	if (downhill)
		judge_rise(directions, verdict, move, rise_mm);
	if (slope)
		return;
	if (cutting->way != CUT_BOTH_WAYS)
		judge_way(directions, verdict, move, cutting);
}
