/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/hand_stock.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "base/tol.h"
#include "model/facet_tree.h"
#include "path/drop.h"

/* A ball kept off its contact by more than this does not reach it, mm: more
 * than facets and planning margin together. */
#define KEPT_OFF_MM 0.02
/* Wood farther than this from the neck is waste that stands beside it, mm. */
#define WASTE_MM 4.0

struct place_stock {
	bool counts; /* wood that covers the neck */
	bool reachable, reachable_by_ball;
	double stock_mm, allowance_mm, over_mm3; /* over: beyond the allowance */
	enum stock_zone zone;
};

struct gauge {
	const struct job *job;
	const struct neck *neck;
	const struct facets *facets;
	struct drop *drop[JOB_CUTTERS_MAX]; /* of each cutter */
	struct facet_tree tree;
};

/* True when some cutter's ball can touch the allowance over `foot`, a place on the
 * finished surface; `out` points away from it. */
static bool ball_fits(const struct gauge *gauge, struct vec3 foot, struct vec3 out,
		      double allowance_mm, bool ball_only)
{
	const struct carve_spec *carve = &gauge->job->carve;

	for (size_t i = 0; i < gauge->job->cutter_count; i++) {
		double radius = cutter_radius_mm(&gauge->job->cutter[i]);
		struct vec3 tip = vec3_add(foot, vec3_scale(out, radius + allowance_mm));
		size_t hint = 0;
		if (tip.x < carve->from_mm || tip.x > carve->to_mm)
			continue;
		double lowest = ball_only ? drop_ball_mm(gauge->drop[i], tip.x, tip.y, &hint)
					  : drop_tip_mm(gauge->drop[i], tip.x, tip.y, &hint);
		if (lowest <= tip.z - radius + KEPT_OFF_MM)
			return true;
	}
	return false;
}

/* Stock under one column's top. */
static struct place_stock gauge_column(const struct gauge *gauge, struct vec3 top, double area)
{
	struct place_stock place = { 0 };
	struct nearest nearest;

	if (!facet_tree_nearest(&gauge->tree, top, &nearest) || nearest.distance_mm > WASTE_MM)
		return place;
	const struct facet *facet = &gauge->facets->item[nearest.facet];
	double d = nearest.distance_mm;
	struct vec3 out = d > 1e-6 ? vec3_scale(vec3_sub(top, nearest.point), 1.0 / d)
				   : vec3_make(0.0, 0.0, 1.0);
	place.counts = true;
	place.stock_mm = d;
	place.zone = facet->zone;
	place.allowance_mm = facet->allowance_mm;
	/* where a scallop's height or less is left, the ball has been */
	place.reachable = d <= facet->allowance_mm + gauge->job->carve.scallop_limit_mm ||
			  ball_fits(gauge, nearest.point, out, facet->allowance_mm, false);
	place.reachable_by_ball = place.reachable ||
				  ball_fits(gauge, nearest.point, out, facet->allowance_mm, true);
	place.over_mm3 = larger(0.0, d - facet->allowance_mm) * area / larger(out.z, 0.1);
	return place;
}

struct sums {
	struct zone_figures zone[ZONE_COUNT];
	double unreachable_mm3;
};

static void add_place(struct sums *sums, const struct place_stock *place, double area)
{
	struct zone_figures *zone = &sums->zone[place->zone];

	if (!place->counts)
		return;
	zone->least_mm = smaller(zone->least_mm, place->stock_mm);
	if (place->reachable) {
		zone->most_mm = larger(zone->most_mm, place->stock_mm);
		zone->mean_mm += place->stock_mm * area;
		zone->area_mm2 += area;
	} else if (place->reachable_by_ball) {
		sums->unreachable_mm3 += place->over_mm3;
	}
}

static void close_sums(struct job_result *result, const struct sums *sums, const struct neck *neck)
{
	for (int z = 0; z < ZONE_COUNT; z++) {
		struct zone_figures *zone = &result->zone[z];
		*zone = sums->zone[z];
		zone->allowance_mm = neck_allowance_mm(neck, (enum stock_zone)z);
		zone->mean_mm = zone->area_mm2 > 0.0 ? zone->mean_mm / zone->area_mm2 : NAN;
		zone->least_mm = isfinite(zone->least_mm) ? zone->least_mm : NAN;
		zone->most_mm = zone->area_mm2 > 0.0 ? zone->most_mm : NAN;
	}
	result->unreachable_mm3 = sums->unreachable_mm3;
}

/* Gauges the columns under the lattice of result->finished. */
static void gauge_all(struct place_stock *places, const struct gauge *gauge,
		      const struct column_map *map, const struct stock *stock)
{
	double area = map->cell_mm * map->cell_mm;

#pragma omp parallel for schedule(dynamic)
	for (long row = 0; row < (long)map->ny; row++)
		for (size_t ix = 0; ix < map->nx; ix++) {
			double x = map->x0_mm + (double)ix * map->cell_mm;
			double y = map->y0_mm + (double)row * map->cell_mm;
			size_t i = stock_iy(stock, y) * stock->nx + stock_ix(stock, x);
			if (stock->top[i] > stock->bottom[i])
				places[(size_t)row * map->nx + ix] =
					gauge_column(gauge, vec3_make(x, y, stock->top[i]), area);
		}
}

static enum fault fill(struct job_result *result, const struct gauge *gauge,
		       const struct stock *stock, struct fault_list *faults)
{
	const struct column_map *map = &result->finished;
	size_t count = map->nx * map->ny;
	struct place_stock *places = mem_array(count, sizeof *places);
	struct sums sums = { 0 };

	result->stock = *map;
	result->stock.value = mem_array(count, sizeof(float));
	if (!places || !result->stock.value) {
		free(places);
		return fault_no_memory(faults, "the hand-finish stock");
	}
	for (int z = 0; z < ZONE_COUNT; z++)
		sums.zone[z].least_mm = INFINITY;
	gauge_all(places, gauge, map, stock);
	for (size_t i = 0; i < count; i++) {
		bool on_neck = isfinite(map->value[i]);
		add_place(&sums, &places[i], map->cell_mm * map->cell_mm);
		result->stock.value[i] = on_neck && places[i].counts ? (float)places[i].stock_mm
								     : NAN;
	}
	free(places);
	close_sums(result, &sums, gauge->neck);
	return FAULT_NONE;
}

enum fault hand_stock_measure(struct job_result *result, const struct job *job,
			      const struct neck *neck, const struct facets *facets,
			      const struct stock *stock, struct fault_list *faults)
{
	struct gauge gauge = { .job = job, .neck = neck, .facets = facets };
	enum fault fault = FAULT_NONE;

	for (size_t i = 0; i < job->cutter_count && fault == FAULT_NONE; i++)
		fault = drop_build(&gauge.drop[i], facets, neck, job, &job->cutter[i],
				   TOL_PLAN_MARGIN_MM, faults);
	if (fault == FAULT_NONE)
		fault = facet_tree_build(&gauge.tree, facets, faults);
	if (fault == FAULT_NONE)
		fault = fill(result, &gauge, stock, faults);
	facet_tree_free(&gauge.tree);
	for (size_t i = 0; i < job->cutter_count; i++)
		drop_free(gauge.drop[i]);
	return fault;
}
