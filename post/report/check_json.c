/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/check_json.h"

#include <jansson.h>

#include "model/heel.h"
#include "model/section.h"
#include "report/check_figures.h"
#include "report/json_value.h"
#include "version.h"

/* Raised when a key changes its meaning or goes away. */
#define CHECK_JSON_SCHEMA 1

/* In json_pack, "o" takes a new value over and gives NULL for the whole when
 * one of them is NULL, so that memory is asked about once, at the end. */

static json_t *frets_json(const struct neck *neck)
{
	json_t *frets = json_array();

	for (int fret = 0; frets && fret <= neck_spec_of(neck)->fret_count; fret++) {
		double x = neck_fret_x_mm(neck, fret);
		json_t *item = json_pack("{s:i, s:o, s:o}", "fret", fret, "x_mm", json_mm(x),
					 "width_mm", json_mm(neck_fretboard_width_mm(neck, x)));
		if (json_array_append_new(frets, item) != 0) {
			json_decref(frets);
			frets = NULL;
		}
	}
	return frets;
}

static json_t *station_json(const struct neck *neck, const struct station_spec *station)
{
	double x = neck_fret_x_mm(neck, station->fret);

	return json_pack("{s:o, s:o, s:o, s:o, s:o, s:s, s:s}", "fret",
			 json_value(station->fret, JSON_DECIMALS_MM), "x_mm", json_mm(x),
			 "thickness_mm", json_mm(neck_stated_thickness_mm(neck, x)), "wood_mm",
			 json_mm(neck_crest_mm(neck, x) - neck_base_mm(neck, x)),
			 "wood_over_channel_mm", json_mm(neck_wood_over_channel_mm(neck, x)),
			 "bass_shape", section_family_name(station->bass.family), "treble_shape",
			 section_family_name(station->treble.family));
}

static json_t *stations_json(const struct neck *neck)
{
	const struct neck_spec *spec = neck_spec_of(neck);
	json_t *stations = json_array();

	for (size_t i = 0; stations && i < spec->station_count; i++) {
		if (json_array_append_new(stations, station_json(neck, &spec->station[i])) != 0) {
			json_decref(stations);
			stations = NULL;
		}
	}
	return stations;
}

static json_t *heel_json(const struct neck *neck)
{
	const struct neck_spec *spec = neck_spec_of(neck);

	return json_pack("{s:s, s:o, s:o, s:o, s:o, s:o}", "kind", heel_kind_name(spec->heel.kind),
			 "starts_mm", json_mm(neck_heel_start_mm(neck)), "proper_mm",
			 json_mm(neck_heel_proper_mm(neck)), "joint_mm",
			 json_mm(neck_fret_x_mm(neck, spec->joint_fret)), "ends_mm",
			 json_mm(neck_to_mm(neck)), "height_mm", json_mm(spec->heel.height_mm));
}

static json_t *checks_json(const struct neck *neck)
{
	struct check_figures figures = check_figures_of(neck);

	return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "straight_from_mm",
			 json_mm(figures.straight.from_mm), "straight_to_mm",
			 json_mm(figures.straight.to_mm), "crest_off_mm",
			 json_mm(figures.straight.crest_off_mm), "minus_edge_off_mm",
			 json_mm(figures.straight.edge_off_mm[SIDE_MINUS]), "plus_edge_off_mm",
			 json_mm(figures.straight.edge_off_mm[SIDE_PLUS]), "asymmetry_mm",
			 json_mm(figures.asymmetry_mm), "channel_least_mm",
			 json_mm(figures.channel_least_mm), "channel_least_at_mm",
			 json_mm(figures.channel_least_at_mm));
}

static json_t *allowance_json(const struct allowance_spec *allowance)
{
	return json_pack("{s:o, s:o, s:o, s:o}", "back_mm", json_mm(allowance->back_mm), "sides_mm",
			 json_mm(allowance->sides_mm), "heel_cheeks_mm",
			 json_mm(allowance->heel_cheeks_mm), "transitions_mm",
			 json_mm(allowance->transitions_mm));
}

static json_t *blank_json(const struct blank *blank)
{
	double from = blank_from_mm(blank), to = blank_to_mm(blank);

	return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o}", "from_mm", json_mm(from), "to_mm",
			 json_mm(to), "minus_side_mm",
			 json_mm(outline_most_mm(blank_side(blank, BLANK_MINUS), from, to)),
			 "plus_side_mm",
			 json_mm(outline_most_mm(blank_side(blank, BLANK_PLUS), from, to)),
			 "highest_mm", json_mm(blank_highest_mm(blank)), "margin_mm",
			 json_mm(blank->margin_mm));
}

enum fault check_json_text(char **text, const struct job *job, const struct neck *neck,
			   struct fault_list *faults)
{
	json_t *root = json_pack(
		"{s:i, s:s, s:s, s:s, s:o, s:o, s:o, s:o, s:b, s:o, s:o, s:o, s:o, s:o, s:o}",
		"schema", CHECK_JSON_SCHEMA, "generator", NECKHEW_NAME, "version", NECKHEW_VERSION,
		"digest", job->digest, "neck", json_text(job->neck.name), "machine",
		json_text(job->machine.name), "cutter", json_text(job->cutter[0].name), "wood",
		json_text(job->wood.name), "thickness_over_fretboard", job->neck.over_fretboard,
		"frets", frets_json(neck), "stations", stations_json(neck), "heel", heel_json(neck),
		"checks", checks_json(neck), "allowance", allowance_json(&job->neck.allowance),
		"blank", blank_json(&job->blank));

	*text = NULL;
	return json_to_text(text, root, faults);
}
