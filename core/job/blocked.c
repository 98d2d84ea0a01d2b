/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/blocked.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>

#include "model/facets.h"
#include "model/joint.h"
#include "model/neck.h"
#include "model/neck_check.h"
#include "model/taper.h"
#include "path/obstacle.h"

/* Facets for looking may depart this much from the surface, mm. */
#define LOOK_FACET_MM 0.02
/* Clearances may be missed by this much before a place counts as blocked, mm:
 * what such facets and rounding leave open. */
#define LOOK_SLACK_MM 0.05
/* Surface is looked at in pieces no longer than this, mm. */
#define LOOK_PIECE_MM 1.5
/* A patch of finished surface no larger than this is a stroke of the file, mm2. */
#define SMALL_PATCH_MM2 25.0
/* A facet that leans back from the vertical by more than this faces up: the
 * upward part of its unit normal. */
#define FACES_UP 0.2
/* The end faces of the neck are no part of its back. */
#define END_FACE 0.999

/* What one obstacle blocks. */
struct patch {
	double area_mm2, x_from_mm, x_to_mm;
	bool side[SIDE_COUNT];
};

/* One obstacle as each cutter has to keep from it. */
struct look {
	const struct job *job;
	struct obstacles of[JOB_CUTTERS_MAX]; /* one item each */
};

/* Whether it is one of those asked about and stands where a tool that cuts the
 * neck could meet it. */
static bool is_near(const struct job *job, const struct obstacle *obstacle)
{
	bool asked = obstacle->part != OBSTACLE_RISER; /* checked against the wood's edge */
	double widest = 0.0, half = job->neck.peghead.width_mm / 2.0;

	for (size_t i = 0; i < job->cutter_count; i++)
		widest = fmax(widest, fmax(job->cutter[i].holder_diameter_mm,
					   job->cutter[i].ball_diameter_mm));
	half = fmax(half, taper_wood_half_width_mm(&job->neck, job->carve.to_mm));
	double reach = widest + obstacle->clearance_mm + job->neck.allowance.back_mm + 5.0;
	return asked && obstacle->x_to_mm > job->carve.from_mm - reach &&
	       obstacle->x_from_mm < job->carve.to_mm + reach &&
	       obstacle->y_to_mm > -half - reach && obstacle->y_from_mm < half + reach;
}

static struct vec3 centre_of(const struct facet *facet)
{
	return vec3_scale(vec3_add(vec3_add(facet->p[0], facet->p[1]), facet->p[2]), 1.0 / 3.0);
}

/* Normal out of the neck, as long as twice the facet's area. */
static struct vec3 outward(const struct facet *facet)
{
	struct vec3 n =
		vec3_cross(vec3_sub(facet->p[1], facet->p[0]), vec3_sub(facet->p[2], facet->p[0]));
	bool turned = fabs(n.z) > FACES_UP * vec3_length(n) ? n.z < 0.0
							    : n.y * centre_of(facet).y < 0.0;

	return vec3_scale(n, turned ? -1.0 : 1.0);
}

/* Whether one cutter, its ball on the facet, would be too near to the obstacle. */
static bool blocks_cutter(const struct job *job, const struct obstacles *one, struct vec3 at,
			  struct vec3 unit, double allowance_mm)
{
	struct vec3 ball = vec3_add(at, vec3_scale(unit, one->radius_mm + allowance_mm));
	double tip = ball.z - one->radius_mm;

	if (ball.x < job->carve.from_mm || ball.x > job->carve.to_mm)
		return false; /* not to be cut from there */
	return fmax(obstacles_ball_mm(one, OBSTACLES_ALL, ball.x, ball.y, ball.x, ball.y),
		    obstacles_tool_mm(one, OBSTACLES_ALL, ball.x, ball.y, ball.x, ball.y)) > tip;
}

/* A facet small enough to be judged by its middle. */
static void look_at_piece(struct patch *patch, const struct look *look, const struct facet *facet)
{
	struct vec3 normal = outward(facet), at = centre_of(facet);
	double area = vec3_length(normal) / 2.0;

	if (area <= 0.0 || fabs(normal.x) > END_FACE * 2.0 * area)
		return;
	for (size_t i = 0; i < look->job->cutter_count; i++)
		if (!blocks_cutter(look->job, &look->of[i], at, vec3_scale(normal, 0.5 / area),
				   facet->allowance_mm))
			return;
	if (patch->area_mm2 <= 0.0)
		patch->x_from_mm = patch->x_to_mm = at.x;
	patch->area_mm2 += area;
	patch->x_from_mm = fmin(patch->x_from_mm, at.x);
	patch->x_to_mm = fmax(patch->x_to_mm, at.x);
	patch->side[at.y < 0.0 ? SIDE_MINUS : SIDE_PLUS] = true;
}

/* Facets may be tall: halved across their longest edge until they are small. */
static void look_at(struct patch *patch, const struct look *look, const struct facet *facet)
{
	int longest = 0;
	double most = 0.0;

	for (int k = 0; k < 3; k++) {
		double length = vec3_distance(facet->p[k], facet->p[(k + 1) % 3]);
		if (length > most) {
			most = length;
			longest = k;
		}
	}
	if (most <= LOOK_PIECE_MM) {
		look_at_piece(patch, look, facet);
		return;
	}
	int next = (longest + 1) % 3;
	struct facet half[2] = { *facet, *facet };
	struct vec3 middle = vec3_between(facet->p[longest], facet->p[next], 0.5);
	half[0].p[next] = middle;
	half[1].p[longest] = middle;
	look_at(patch, look, &half[0]);
	look_at(patch, look, &half[1]);
}

static const char *sides_of(const struct job *job, const struct patch *patch)
{
	if (patch->side[SIDE_MINUS] && patch->side[SIDE_PLUS])
		return "both sides";
	return patch->side[SIDE_PLUS] == (job->neck.hand == HAND_RIGHT) ? "the bass side"
									: "the treble side";
}

static enum fault tell(const struct job *job, size_t index, const struct obstacle *obstacle,
		       const struct patch *patch, struct fault_list *faults)
{
	char setting[FAULT_SETTING_MAX];

	if (patch->area_mm2 <= SMALL_PATCH_MM2)
		return FAULT_NONE;
	if (obstacle->part == OBSTACLE_JOINT)
		return fault_add(
			faults, FAULT_SETTING, NULL, 0, "heel.joint",
			"What stands out of the neck's end (heel.joint: %s) keeps the tool "
			"from %.0f mm2 of the finished heel between x = %.1f and %.1f mm on "
			"%s; make it smaller, or end carving (carve.to) before it is in the "
			"way.",
			joint_name(job->neck.heel.joint.kind), patch->area_mm2, patch->x_from_mm,
			patch->x_to_mm, sides_of(job, patch));
	if (obstacle->part == OBSTACLE_FRETBOARD)
		return fault_add(faults, FAULT_SETTING, NULL, 0, "fixture.fretboard",
				 "The glued fretboard with its clearance keeps the tool from %.0f "
				 "mm2 of the finished neck between x = %.1f and %.1f mm on %s: the "
				 "wood is too much narrower than it there.",
				 patch->area_mm2, patch->x_from_mm, patch->x_to_mm,
				 sides_of(job, patch));
	(void)snprintf(setting, sizeof setting, "fixture.keep_out[%zu]", index);
	return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
			 "\"%s\" stands in the way of the cut: with its clearance it keeps the "
			 "tool from %.0f mm2 of the finished neck between x = %.1f and %.1f mm on "
			 "%s. Move it, or make it lower.",
			 job->fixture.keep_out[index].name, patch->area_mm2, patch->x_from_mm,
			 patch->x_to_mm, sides_of(job, patch));
}

/* Obstacle `index` of every cutter's list, alone. */
static void take_one(struct look *look, size_t index)
{
	for (size_t i = 0; i < look->job->cutter_count; i++) {
		struct obstacles *of = &look->of[i];
		obstacles_make(of, look->job, &look->job->cutter[i], -LOOK_SLACK_MM);
		of->item[0] = of->item[index];
		of->count = 1;
	}
}

static enum fault check_all(const struct job *job, const struct obstacles *all,
			    const struct facets *facets, struct fault_list *faults)
{
	enum fault first = FAULT_NONE;

	for (size_t index = 0; index < all->count; index++) {
		const struct obstacle *obstacle = &all->item[index];
		struct look look = { .job = job };
		struct patch patch = { 0 };
		if (!is_near(job, obstacle))
			continue;
		take_one(&look, index);
		for (size_t i = 0; i < facets->count; i++)
			look_at(&patch, &look, &facets->item[i]);
		enum fault code = tell(job, index, obstacle, &patch, faults);
		first = first ? first : code;
	}
	return first;
}

enum fault blocked_check(const struct job *job, struct fault_list *faults)
{
	struct obstacles all;
	struct facets facets = { 0 };
	struct neck *neck = NULL;
	bool near = false;

	obstacles_make(&all, job, &job->cutter[0], 0.0);
	for (size_t i = 0; i < all.count; i++)
		near = near || is_near(job, &all.item[i]);
	if (!near || neck_check(&job->neck, NULL))
		return FAULT_NONE; /* a neck that cannot be is told elsewhere */
	enum fault fault = neck_build(&neck, &job->neck, faults);
	if (!fault)
		fault = facets_build(&facets, neck, LOOK_FACET_MM, faults);
	if (!fault)
		fault = check_all(job, &all, &facets, faults);
	facets_free(&facets);
	neck_free(neck);
	return fault;
}
