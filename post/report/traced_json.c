/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/traced_json.h"

#include <jansson.h>

#include "report/json_value.h"
#include "version.h"

/* Raised when a key changes its meaning or goes away. */
#define TRACED_JSON_SCHEMA 1
#define DECIMALS_SHARE 4

/* In json_pack, "o" takes a new value over and gives NULL for the whole when
 * one of them is NULL, so that memory is asked about once, at the end. */

static json_t *place_json(struct trace_place place)
{
	return json_pack("[o, o]", json_mm(place.y_mm), json_mm(place.z_mm));
}

static json_t *outline_json(const struct section_outline *outline)
{
	json_t *pairs = json_array();

	for (size_t i = 0; pairs && i < outline->count; i++)
		pairs = json_appended(
			pairs, json_pack("[o, o]", json_value(outline->height[i], DECIMALS_SHARE),
					 json_value(outline->breadth[i], DECIMALS_SHARE)));
	return pairs;
}

static json_t *note_json(const struct traced *traced, const struct trace_note *note)
{
	static const char *const kinds[] = {
		[NOTE_DOUBLE] = "double", [NOTE_FAR] = "far",	  [NOTE_ASIDE] = "aside",
		[NOTE_LAYERS] = "layers", [NOTE_HOOK] = "hook",	  [NOTE_GAP] = "gap",
		[NOTE_FEW] = "few",	  [NOTE_WIDTH] = "width", [NOTE_CREST] = "crest"
	};
	char sentence[TRACED_SENTENCE_ROOM];

	traced_sentence(sentence, traced, note);
	return json_pack("{s:s, s:i, s:i, s:o, s:o, s:s}", "kind", kinds[note->kind], "count",
			 (int)note->count, "line", note->line, "size_mm", json_mm(note->size_mm),
			 "place_mm", place_json(note->place), "sentence", sentence);
}

static json_t *notes_json(const struct traced *traced, const struct trace_section *section)
{
	json_t *notes = json_array();

	for (size_t i = 0; notes && i < section->note_count; i++)
		notes = json_appended(notes, note_json(traced, &section->note[i]));
	return notes;
}

static json_t *residual_json(const struct trace_section *section)
{
	return json_pack("{s:o, s:o, s:i, s:o}", "rms_mm", json_mm(section->rms_mm), "worst_mm",
			 json_mm(section->worst_mm), "worst_line", section->worst_line,
			 "worst_place_mm", place_json(section->worst));
}

static json_t *station_json(const struct traced *traced, size_t i)
{
	const struct trace_section *section = &traced->station[i].section;
	double fretboard_mm = traced->fretboard_mm;

	return json_pack(
		"{s:o, s:o, s:o, s:o, s:s, s:o, s:o, s:i, s:i, s:i, s:o, s:o, s:o, s:o, s:o}",
		"fret", json_value(traced->station[i].fret, JSON_DECIMALS_MM), "width_mm",
		json_mm(section->width_mm), "wood_mm", json_mm(section->thickness_mm),
		"thickness_mm", json_mm(section->thickness_mm + fretboard_mm), "height_from",
		traced_datum(section->datum), "tilt_deg",
		json_value(units_deg_from_rad(section->frame.tilt_rad), JSON_DECIMALS_DEG),
		"middle_mm",
		place_json((struct trace_place){ section->frame.y_mm, section->frame.z_mm }),
		"points", (int)section->used, "face_points", (int)section->face, "left_out",
		(int)section->aside, "residual", residual_json(section), "sides_differ_mm",
		json_mm(section->difference_mm), "bass",
		outline_json(traced_outline(traced, i, true)), "treble",
		outline_json(traced_outline(traced, i, false)), "notes",
		notes_json(traced, section));
}

enum fault traced_json_text(char **text, const struct traced *traced, struct fault_list *faults)
{
	json_t *stations = json_array();

	*text = NULL;
	for (size_t i = 0; stations && i < traced->count; i++)
		stations = json_appended(stations, station_json(traced, i));
	return json_to_text(text,
			    json_pack("{s:i, s:s, s:s, s:b, s:o}", "schema", TRACED_JSON_SCHEMA,
				      "generator", NECKHEW_NAME, "version", NECKHEW_VERSION,
				      "symmetric", traced->alike, "stations", stations),
			    faults);
}
