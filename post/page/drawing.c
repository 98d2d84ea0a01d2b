/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/drawing.h"

#include <jansson.h>
#include <stdio.h>

#include "model/straight_edge.h"
#include "page/along.h"
#include "page/names.h"
#include "pictures/palette.h"
#include "report/chisel_json.h"
#include "report/json_value.h"
#include "report/words.h"

#define UNIT_DECIMALS 6
#define COLOUR_ROOM 8 /* "#e1c091" */

/* A member set, on the terms of json_appended. */
static json_t *with_member(json_t *object, const char *key, json_t *value)
{
	if (!object)
		json_decref(value);
	else if (json_object_set_new(object, key, value) != 0) {
		json_decref(object);
		object = NULL;
	}
	return object;
}

static json_t *lengths_json(size_t count, const double *length_mm)
{
	json_t *array = json_array();

	for (size_t i = 0; array && i < count; i++)
		array = json_appended(array, json_mm(length_mm[i]));
	return array;
}

static json_t *planes_json(const struct job_result *result, double unit_mm)
{
	const struct column_map *grid = &result->blank_top;

	return json_pack("{s:I, s:I, s:o, s:o, s:o, s:o, s:I}", "nx", (json_int_t)grid->nx, "ny",
			 (json_int_t)grid->ny, "x0_mm", json_mm(grid->x0_mm), "y0_mm",
			 json_mm(grid->y0_mm), "cell_mm", json_mm(grid->cell_mm), "unit_mm",
			 json_value(unit_mm, UNIT_DECIMALS), "pass_count",
			 (json_int_t)result->cut_count);
}

/* Frets from the nut, which is fret 0, to the last. */
static json_t *frets_json(const struct neck *neck)
{
	json_t *frets = json_array();

	for (int fret = 0; frets && fret <= neck_spec_of(neck)->fret_count; fret++)
		frets = json_appended(frets, json_mm(neck_fret_x_mm(neck, fret)));
	return frets;
}

static json_t *neck_json(const struct neck *neck)
{
	const struct neck_spec *spec = neck_spec_of(neck);
	struct straight_edge straight = straight_edge_of(neck);
	bool right = spec->hand == HAND_RIGHT;

	return json_pack("{s:o, s:o, s:o, s:o, s:s, s:s, s:s, s:o, s:o, s:o, s:o}", "from_mm",
			 json_mm(neck_from_mm(neck)), "to_mm", json_mm(neck_to_mm(neck)),
			 "fret_x_mm", frets_json(neck), "fretboard_thickness_mm",
			 json_mm(spec->fretboard_thickness_mm), "hand", right ? "right" : "left",
			 "minus_side", right ? "treble" : "bass", "plus_side",
			 right ? "bass" : "treble", "heel_start_mm",
			 json_mm(neck_heel_start_mm(neck)), "heel_proper_mm",
			 json_mm(neck_heel_proper_mm(neck)), "straight_from_mm",
			 json_mm(straight.from_mm), "straight_to_mm", json_mm(straight.to_mm));
}

static json_t *along_json(const struct along *along)
{
	json_t *lines = json_object();

	for (int line = 0; lines && line < ALONG_LINES; line++)
		lines = with_member(lines, along_key((enum along_line)line),
				    lengths_json(along->count, along->value_mm[line]));
	return lines;
}

static json_t *channel_json(const struct channel_spec *channel)
{
	if (!(channel->width_mm > 0.0))
		return json_null();
	return json_pack("{s:o, s:o, s:o, s:o}", "width_mm", json_mm(channel->width_mm), "depth_mm",
			 json_mm(channel->depth_mm), "from_mm", json_mm(channel->from_mm), "to_mm",
			 json_mm(channel->to_mm));
}

static json_t *stations_json(const struct job_result *result)
{
	json_t *stations = json_array();
	char name[NAMES_ROOM];

	for (size_t i = 0; stations && i < result->station_count; i++) {
		const struct station_figures *station = &result->station[i];
		names_station(name, station->fret);
		stations = json_appended(stations, json_pack("{s:s, s:o, s:o}", "name", name,
							     "fret", json_mm(station->fret), "x_mm",
							     json_mm(station->x_mm)));
	}
	return stations;
}

static json_t *zones_json(const struct job_result *result)
{
	json_t *zones = json_array();
	char name[NAMES_ROOM];

	for (int i = 0; zones && i < ZONE_COUNT; i++) {
		names_zone(name, (enum stock_zone)i);
		zones = json_appended(zones, json_pack("{s:s, s:s, s:o}", "key",
						       stock_zone_key((enum stock_zone)i), "name",
						       name, "allowance_mm",
						       json_mm(result->zone[i].allowance_mm)));
	}
	return zones;
}

static json_t *place_json(const struct place *place)
{
	return json_pack("{s:o, s:s, s:o, s:o, s:o, s:o, s:o}", "name", json_text(place->name),
			 "shape", place->shape == PLACE_CYLINDER ? "cylinder" : "box", "x_from_mm",
			 json_mm(place->x_from_mm), "x_to_mm", json_mm(place->x_to_mm), "y_from_mm",
			 json_mm(place->y_from_mm), "y_to_mm", json_mm(place->y_to_mm), "top_mm",
			 json_mm(place->top_mm));
}

static json_t *places_json(size_t count, const struct place *place)
{
	json_t *places = json_array();

	for (size_t i = 0; places && i < count; i++)
		places = json_appended(places, place_json(&place[i]));
	return places;
}

static json_t *fixture_json(const struct fixture *fixture)
{
	json_t *riser = json_null();

	if (fixture->riser_height_mm > 0.0)
		riser = json_pack("{s:o, s:o, s:o, s:o}", "height_mm",
				  json_mm(fixture->riser_height_mm), "width_mm",
				  json_mm(fixture->riser_width_mm), "from_mm",
				  json_mm(fixture->riser_from_mm), "to_mm",
				  json_mm(fixture->riser_to_mm));
	return json_pack("{s:o, s:o, s:o}", "keep_out",
			 places_json(fixture->keep_out_count, fixture->keep_out), "hold",
			 places_json(fixture->hold_count, fixture->hold), "riser", riser);
}

static json_t *chisel_area_json(const struct chisel *chisel)
{
	return json_pack("{s:o, s:o}", "cell_mm", json_mm(chisel->map.cell_mm), "rows",
			 chisel_rows_json(chisel));
}

static json_t *colour_json(struct colour colour)
{
	char text[COLOUR_ROOM];

	(void)snprintf(text, sizeof text, "#%02x%02x%02x", colour.r, colour.g, colour.b);
	return json_string(text);
}

static json_t *ramp_json(void)
{
	json_t *ramp = json_array();

	for (int step = 0; ramp && step < PALETTE_STEPS; step++)
		ramp = json_appended(ramp, colour_json(palette_step_colour(step)));
	return ramp;
}

static json_t *colours_json(void)
{
	static const char *const names[PALETTE_COUNT] = {
		[PALETTE_PAPER] = "paper",
		[PALETTE_INK] = "ink",
		[PALETTE_SOFT_INK] = "soft_ink",
		[PALETTE_GRID] = "grid",
		[PALETTE_RULE] = "rule",
		[PALETTE_PALE_WOOD] = "pale_wood",
		[PALETTE_LIGHT_WOOD] = "light_wood",
		[PALETTE_WOOD] = "wood",
		[PALETTE_BROWN] = "brown",
	};
	json_t *colours = json_object();

	for (int i = 0; colours && i < PALETTE_COUNT; i++)
		colours = with_member(colours, names[i],
				      colour_json(palette_colour((enum palette_name)i)));
	return colours;
}

static json_t *document(const struct job *job, const struct neck *neck,
			const struct job_result *result, const struct along *along, double unit_mm)
{
	const struct neck_spec *spec = neck_spec_of(neck);

	return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:{s:o}, s:o, s:o, s:o, s:o}", "planes",
			 planes_json(result, unit_mm), "neck", neck_json(neck), "along",
			 along_json(along), "channel", channel_json(&spec->channel), "stations",
			 stations_json(result), "zones", zones_json(result), "allowance",
			 "side_height_mm", json_mm(spec->allowance.side_height_mm), "fixture",
			 fixture_json(&job->fixture), "chisel", chisel_area_json(&result->chisel),
			 "ramp", ramp_json(), "colours", colours_json());
}

enum fault drawing_text(char **text, const struct job *job, const struct neck *neck,
			const struct job_result *result, double unit_mm, struct fault_list *faults)
{
	struct along along;
	enum fault fault = along_make(&along, job, neck, faults);

	*text = NULL;
	if (!fault)
		fault = json_to_text(text, document(job, neck, result, &along, unit_mm), faults);
	along_free(&along);
	return fault;
}
