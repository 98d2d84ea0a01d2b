/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/side_entry.h"

#include "base/minmax.h"
#include "path/entry.h"

/* Distance between the places that are looked at, mm. */
#define STEP_MM 1.0

/* What the tool must go down at feed to `tip`: rapids stop above all wood
 * beside the ball. */
static double way_down(struct bench *bench, struct vec3 tip)
{
	double wood = stock_highest_mm(&bench->stock, tip, tip,
				       bench->radius_mm + ENTRY_SIDE_ROOM_MM, tip.z);

	return larger(wood - tip.z, 0.0);
}

/* Looks in one direction from the start; keeps what is shorter than *least. */
static bool look(struct bench *bench, struct vec3 start, double level_mm, struct vec3 toward,
		 double *least, struct vec3 *place)
{
	size_t hint = 0;
	bool found = false;

	for (int k = 1; k * STEP_MM <= 2.0 * bench->radius_mm && k * STEP_MM < *least; k++) {
		double off = k * STEP_MM;
		struct vec3 at = vec3_add(start, vec3_scale(toward, off));
		if (at.x < bench->job->carve.from_mm || at.x > bench->job->carve.to_mm)
			break;
		struct vec3 tip = bench_tip(bench, at.x, at.y, larger(start.z, level_mm), &hint);
		/* a place behind a wall is no way in */
		if (tip.z > start.z + bench->snap.step_mm)
			break;
		if (bench_bite_mm(bench, tip, bench->radius_mm, bench->radius_mm) >
		    ENTRY_NO_WOOD_MM)
			continue;
		double way = off + way_down(bench, tip);
		if (way >= *least)
			continue;
		*least = way;
		*place = tip;
		found = true;
	}
	return found;
}

bool side_entry_find(struct bench *bench, const struct track *run, double level_mm,
		     struct vec3 *place)
{
	struct vec3 start = run->p[0];
	/* away from the centre line, and before or behind the heel's nose */
	const struct vec3 toward[] = { { 0.0, start.y < 0.0 ? -1.0 : 1.0, 0.0 },
				       { -1.0, 0.0, 0.0 },
				       { 1.0, 0.0, 0.0 } };
	double least = way_down(bench, start);
	bool found = false;

	for (size_t i = 0; i < sizeof toward / sizeof toward[0]; i++)
		found = look(bench, start, level_mm, toward[i], &least, place) || found;
	return found;
}
