/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/hand_stock.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "base/tol.h"
#include "job/chisel.h"
#include "job/gap.h"
#include "job/kept_off.h"
#include "model/facet_tree.h"
#include "path/drop.h"
#include "path/scallop.h"
#include "path/stickout.h"

/* A ball kept off its contact by more than this does not reach it, mm: more
 * than facets and planning margin together. */
#define KEPT_OFF_MM 0.02
/* Wood farther than this from the neck is waste that stands beside it, mm. */
#define WASTE_MM 4.0

struct place_stock {
	bool counts; /* wood that covers the neck */
	bool reachable;
	bool chisel; /* kept from every cutter by its shank or holder */
	double stock_mm;
	enum stock_zone zone;
};

struct gauge {
	const struct job *job;
	const struct neck *neck;
	const struct facets *facets;
	const struct stock *stock;
	struct drop *drop[JOB_CUTTERS_MAX]; /* of each cutter */
	struct kept_off kept[JOB_CUTTERS_MAX]; /* likewise */
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

/* True when the ball fits half a spacing of its lines away too, up and down and along
 * on the surface: lines pass on both sides of the place. At the edge of a hollow
 * too tight for the ball, or of a step between two allowances, they need not. */
static bool ball_fits_around(const struct gauge *gauge, struct vec3 foot, struct vec3 out)
{
	const struct job *job = gauge->job;
	double radius = cutter_radius_mm(&job->cutter[job->cutter_count - 1]);
	double half = scallop_spacing_mm(radius, job->carve.scallop_limit_mm) / 2.0;
	double flat = hypot(out.x, out.y);
	struct vec3 level = flat > 1e-6 ? vec3_make(-out.y / flat, out.x / flat, 0.0)
					: vec3_make(1.0, 0.0, 0.0);
	const struct vec3 way[] = { level, vec3_cross(out, level) };

	for (int i = 0; i < 4; i++) {
		struct vec3 away = vec3_scale(way[i / 2], i % 2 ? half : -half);
		struct vec3 at = vec3_add(vec3_add(foot, out), away);
		struct nearest near;
		if (!facet_tree_nearest(&gauge->tree, at, &near) || near.distance_mm < 1e-6)
			return false;
		struct vec3 normal = vec3_scale(vec3_sub(at, near.point), 1.0 / near.distance_mm);
		if (!ball_fits(gauge, near.point, normal,
			       gauge->facets->item[near.facet].allowance_mm, false))
			return false;
	}
	return true;
}

/* True when shank or holder of every cutter hold its ball up wherever it would
 * take the column lowest, and wood stands there because of it. */
static bool is_kept_off(const struct gauge *gauge, struct vec3 top, double bottom_mm)
{
	const struct job *job = gauge->job;
	double lowest_mm = INFINITY;

	if (top.x < job->carve.from_mm || top.x > job->carve.to_mm)
		return false;
	for (size_t i = 0; i < job->cutter_count; i++) {
		if (!gauge->kept[i].kept)
			return false;
		struct kept_reach reach = kept_off_reach(&gauge->kept[i], top.x, top.y, bottom_mm);
		if (reach.tool_mm <= reach.ball_mm + KEPT_OFF_MM)
			return false;
		lowest_mm = smaller(lowest_mm, reach.ball_mm);
	}
	return top.z > lowest_mm + job->carve.scallop_limit_mm;
}

/* True for wood that stands nearer to a rail than to the neck: whoever takes the
 * rail away takes it too. */
static bool goes_with_rail(const struct gauge *gauge, struct vec3 top)
{
	const struct rails *rails = &drop_waste(gauge->drop[0])->rails;

	return rails->standing > 0 &&
	       rails_distance_mm(rails, top.x, top.y) < job_channel_mm(gauge->job) / 2.0;
}

/* Stock under one column's top. Where a scallop's height or less is left, the
 * ball has been, whatever may keep it off. */
static struct place_stock gauge_column(const struct gauge *gauge, struct vec3 top, double bottom_mm)
{
	struct place_stock place = { 0 };
	struct nearest nearest;

	if (!facet_tree_nearest(&gauge->tree, top, &nearest))
		return place;
	const struct facet *facet = &gauge->facets->item[nearest.facet];
	double d = nearest.distance_mm, allowance = facet->allowance_mm;
	struct vec3 out = d > 1e-6 ? vec3_scale(vec3_sub(top, nearest.point), 1.0 / d)
				   : vec3_make(0.0, 0.0, 1.0);
	place.counts = d <= WASTE_MM;
	place.stock_mm = d;
	place.zone = facet->zone;
	place.reachable = d <= allowance + gauge->job->carve.scallop_limit_mm;
	if (place.reachable)
		return place;
	place.chisel = is_kept_off(gauge, top, bottom_mm) &&
		       (place.counts || !goes_with_rail(gauge, top));
	if (place.chisel || !place.counts)
		return place;
	bool fits = ball_fits(gauge, nearest.point, out, allowance, false);
	place.reachable = fits && ball_fits_around(gauge, nearest.point, out);
	place.chisel = !fits && ball_fits(gauge, nearest.point, out, allowance, true);
	return place;
}

struct sums {
	struct zone_figures zone[ZONE_COUNT];
};

static void add_place(struct sums *sums, const struct place_stock *place, double area)
{
	struct zone_figures *zone = &sums->zone[place->zone];

	if (!place->counts)
		return;
	zone->least_mm = smaller(zone->least_mm, place->stock_mm);
	if (!place->reachable)
		return;
	zone->most_mm = larger(zone->most_mm, place->stock_mm);
	zone->mean_mm += place->stock_mm * area;
	zone->area_mm2 += area;
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
}

/* Gauges the columns under the lattice of result->finished. */
static void gauge_all(struct place_stock *places, const struct gauge *gauge,
		      const struct column_map *map)
{
	const struct stock *stock = gauge->stock;

#pragma omp parallel for schedule(dynamic)
	for (long row = 0; row < (long)map->ny; row++)
		for (size_t ix = 0; ix < map->nx; ix++) {
			double x = map->x0_mm + (double)ix * map->cell_mm;
			double y = map->y0_mm + (double)row * map->cell_mm;
			size_t i = stock_iy(stock, y) * stock->nx + stock_ix(stock, x);
			if (stock->top[i] > stock->bottom[i])
				places[(size_t)row * map->nx + ix] = gauge_column(
					gauge, vec3_make(x, y, stock->top[i]), stock->bottom[i]);
		}
}

static enum fault measure_chisel(struct job_result *result, const struct gauge *gauge,
				 const struct place_stock *places, struct fault_list *faults)
{
	const struct chisel_ask ask = { gauge->job, gauge->neck, gauge->facets, &gauge->tree,
					gauge->stock };
	size_t count = result->finished.nx * result->finished.ny;
	bool *left = mem_array(count, sizeof *left);

	if (!left)
		return fault_no_memory(faults, "what is left for the chisel");
	for (size_t i = 0; i < count; i++)
		left[i] = places[i].chisel;
	enum fault fault = chisel_measure(&result->chisel, &ask, &result->finished, left, faults);
	result->unreachable_mm3 = result->chisel.over_allowance_mm3;
	free(left);
	return fault;
}

static void sum_up(struct job_result *result, const struct gauge *gauge,
		   const struct place_stock *places)
{
	const struct column_map *map = &result->finished;
	struct sums sums = { 0 };

	for (int z = 0; z < ZONE_COUNT; z++)
		sums.zone[z].least_mm = INFINITY;
	for (size_t i = 0; i < map->nx * map->ny; i++) {
		bool on_neck = isfinite(map->value[i]);
		add_place(&sums, &places[i], map->cell_mm * map->cell_mm);
		result->stock.value[i] = on_neck && places[i].counts ? (float)places[i].stock_mm
								     : NAN;
	}
	close_sums(result, &sums, gauge->neck);
}

static enum fault fill(struct job_result *result, const struct gauge *gauge,
		       struct fault_list *faults)
{
	const struct column_map *map = &result->finished;
	size_t count = map->nx * map->ny;
	struct place_stock *places = mem_array(count, sizeof *places);

	result->stock = *map;
	result->stock.value = mem_array(count, sizeof(float));
	if (!places || !result->stock.value) {
		free(places);
		return fault_no_memory(faults, "the hand-finish stock");
	}
	gauge_all(places, gauge, map);
	sum_up(result, gauge, places);
	enum fault fault = measure_chisel(result, gauge, places, faults);
	free(places);
	return fault;
}

static enum fault measure_stickouts(struct job_result *result, const struct gauge *gauge,
				    struct fault_list *faults)
{
	const struct job *job = gauge->job;
	enum fault fault = FAULT_NONE;

	result->stickout = mem_array(job->cutter_count, sizeof *result->stickout);
	if (!result->stickout)
		return fault_no_memory(faults, "the cutters' stickouts");
	result->stickout_count = job->cutter_count;
	for (size_t i = 0; i < job->cutter_count && fault == FAULT_NONE; i++) {
		struct stickout_figures *figures = &result->stickout[i];
		figures->has_mm = job->cutter[i].stickout_mm;
		figures->longest_mm = gap_heights_of(job, &job->cutter[i]).longest_mm;
		fault = stickout_least(&figures->finishes_mm, gauge->drop[i], gauge->facets, job,
				       &job->cutter[i], faults);
	}
	return fault;
}

static enum fault prepare_cutter(struct gauge *gauge, size_t turn, struct fault_list *faults)
{
	const struct cutter *cutter = &gauge->job->cutter[turn];
	enum fault fault = drop_build(&gauge->drop[turn], gauge->facets, gauge->neck, gauge->job,
				      cutter, TOL_PLAN_MARGIN_MM, faults);

	return fault != FAULT_NONE ? fault
				   : kept_off_build(&gauge->kept[turn], gauge->drop[turn],
						    gauge->job, cutter, faults);
}

enum fault hand_stock_measure(struct job_result *result, const struct job *job,
			      const struct neck *neck, const struct facets *facets,
			      const struct stock *stock, struct fault_list *faults)
{
	struct gauge gauge = { .job = job, .neck = neck, .facets = facets, .stock = stock };
	enum fault fault = FAULT_NONE;

	for (size_t i = 0; i < job->cutter_count && fault == FAULT_NONE; i++)
		fault = prepare_cutter(&gauge, i, faults);
	if (fault == FAULT_NONE)
		fault = facet_tree_build(&gauge.tree, facets, faults);
	if (fault == FAULT_NONE)
		fault = fill(result, &gauge, faults);
	if (fault == FAULT_NONE)
		fault = measure_stickouts(result, &gauge, faults);
	facet_tree_free(&gauge.tree);
	for (size_t i = 0; i < job->cutter_count; i++) {
		kept_off_free(&gauge.kept[i]);
		drop_free(gauge.drop[i]);
	}
	return fault;
}
