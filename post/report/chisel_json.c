/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/chisel_json.h"

#include <math.h>
#include <string.h>

#include "report/json_value.h"
#include "report/words.h"

static bool is_left(const struct column_map *map, size_t ix, size_t iy)
{
	return ix < map->nx && isfinite(map->value[iy * map->nx + ix]);
}

/* [[from, to], ...]: the edges of neighbouring columns of one row. */
static json_t *stretches_json(const struct column_map *map, size_t iy)
{
	json_t *stretches = json_array();

	for (size_t ix = 0; stretches && ix < map->nx; ix++) {
		size_t first = ix;
		while (is_left(map, ix, iy))
			ix++;
		if (ix == first)
			continue;
		double from = map->x0_mm + ((double)first - 0.5) * map->cell_mm;
		double to = map->x0_mm + ((double)ix - 0.5) * map->cell_mm;
		stretches =
			json_appended(stretches, json_pack("[o, o]", json_mm(from), json_mm(to)));
	}
	return stretches;
}

static bool has_any(const struct column_map *map, size_t iy)
{
	for (size_t ix = 0; ix < map->nx; ix++)
		if (is_left(map, ix, iy))
			return true;
	return false;
}

json_t *chisel_rows_json(const struct chisel *chisel)
{
	const struct column_map *map = &chisel->map;
	json_t *rows = json_array();

	for (size_t iy = 0; rows && map->value && iy < map->ny; iy++) {
		if (!has_any(map, iy))
			continue;
		double y = map->y0_mm + (double)iy * map->cell_mm;
		rows = json_appended(rows, json_pack("{s:o, s:o}", "y_mm", json_mm(y), "x_mm",
						     stretches_json(map, iy)));
	}
	return rows;
}

static json_t *place_json(const struct job *job, const struct chisel_place *place)
{
	char name[WORDS_PLACE_ROOM];
	bool bass = (job->neck.hand == HAND_RIGHT) == (place->side > 0);
	json_t *side = place->side ? json_string(bass ? "bass" : "treble") : json_null();

	words_chisel_place(name, &job->neck, place);
	return json_pack(
		"{s:s, s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "name", name,
		"zone", stock_zone_key(place->zone), "side", side, "x_from_mm",
		json_mm(place->x_from_mm), "x_to_mm", json_mm(place->x_to_mm), "y_from_mm",
		json_mm(place->y_from_mm), "y_to_mm", json_mm(place->y_to_mm), "area_mm2",
		json_value(place->area_mm2, JSON_DECIMALS_MM2), "over_allowance_mm3",
		json_value(place->over_allowance_mm3, JSON_DECIMALS_MM3), "over_finished_mm3",
		json_value(place->over_finished_mm3, JSON_DECIMALS_MM3), "thickest_mm",
		json_mm(place->thickest_mm), "thickest_x_mm", json_mm(place->thickest_x_mm),
		"thickest_y_mm", json_mm(place->thickest_y_mm));
}

json_t *chisel_json(const struct job *job, const struct chisel *chisel)
{
	json_t *places = json_array();

	for (size_t i = 0; places && i < chisel->place_count; i++)
		places = json_appended(places, place_json(job, &chisel->place[i]));
	return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o}", "area_mm2",
			 json_value(chisel->area_mm2, JSON_DECIMALS_MM2), "over_allowance_mm3",
			 json_value(chisel->over_allowance_mm3, JSON_DECIMALS_MM3),
			 "over_finished_mm3",
			 json_value(chisel->over_finished_mm3, JSON_DECIMALS_MM3), "places", places,
			 "cell_mm", json_mm(chisel->map.cell_mm), "rows", chisel_rows_json(chisel));
}

json_t *stickouts_json(const struct job *job, const struct job_result *result)
{
	json_t *stickouts = json_array();

	for (size_t i = 0; stickouts && i < result->stickout_count; i++) {
		const struct stickout_figures *figures = &result->stickout[i];
		stickouts = json_appended(stickouts,
					  json_pack("{s:o, s:o, s:o, s:o}", "cutter",
						    json_text(job->cutter[i].name), "stickout_mm",
						    json_mm(figures->has_mm), "finishes_mm",
						    json_mm(figures->finishes_mm), "longest_mm",
						    json_mm(figures->longest_mm)));
	}
	return stickouts;
}
