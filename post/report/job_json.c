/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/job_json.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "files/mesh_names.h"
#include "files/text_file.h"
#include "report/beside_json.h"
#include "report/check_figures.h"
#include "report/chisel_json.h"
#include "report/fixture_json.h"
#include "report/json_value.h"
#include "report/verdict_json.h"
#include "report/why_words.h"
#include "report/words.h"
#include "version.h"

static json_t *units_json(void)
{
	return json_pack("{s:s, s:s, s:s, s:s, s:s, s:s, s:s}", "length", "mm", "length_in", "in",
			 "area", "mm2", "volume", "mm3", "time", "min", "feed", "mm/min", "share",
			 "0 to 1");
}

static json_t *inputs_json(const struct job *job)
{
	const struct neck_spec *neck = &job->neck;
	json_t *digest = job->digest[0] ? json_text(job->digest) : json_null();

	return json_pack(
		"{s:o, s:o, s:s, s:o, s:i, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}",
		"digest", digest, "neck", json_text(neck->name), "hand",
		neck->hand == HAND_RIGHT ? "right" : "left", "scale_length_mm",
		json_mm(neck->scale_length_mm), "fret_count", neck->fret_count, "joint_fret",
		json_mm(neck->joint_fret), "machine", json_text(job->machine.name), "cutter",
		json_text(job->cutter[0].name), "ball_diameter_mm",
		json_mm(job->cutter[0].ball_diameter_mm), "wood", json_text(job->wood.name),
		"carve_from_mm", json_mm(job->carve.from_mm), "carve_to_mm",
		json_mm(job->carve.to_mm), "scallop_limit_mm", json_mm(job->carve.scallop_limit_mm),
		"clearance_mm", json_mm(job->carve.clearance_mm), "cell_mm",
		json_mm(job->carve.cell_mm));
}

static json_t *frame_json(const struct job *job)
{
	char zero[WORDS_ZERO_ROOM];
	bool inch = job->machine.program_unit == UNIT_INCH;

	words_zero(zero, job);
	return json_pack("{s:s, s:s+, s:s, s:s, s:o, s:s}", "x",
			 "along the neck, 0 at the nut's front edge, growing toward the body", "y",
			 "across, 0 on the centre line, growing toward the ",
			 words_side(&job->neck, SIDE_PLUS), "z",
			 "up out of the neck's back, 0 on the gluing face", "work_zero", zero,
			 "work_zero_mm", json_point(job->fixture.work_zero_mm), "program_unit",
			 inch ? "in" : "mm");
}

static json_t *neck_json(const struct neck *neck)
{
	struct check_figures figures = check_figures_of(neck);
	double least_mm = figures.channel_least_mm;
	double at_mm = isfinite(least_mm) ? figures.channel_least_at_mm : NAN;

	return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "from_mm",
			 json_mm(neck_from_mm(neck)), "to_mm", json_mm(neck_to_mm(neck)),
			 "heel_start_mm", json_mm(neck_heel_start_mm(neck)), "heel_proper_mm",
			 json_mm(neck_heel_proper_mm(neck)), "straight_from_mm",
			 json_mm(figures.straight.from_mm), "straight_to_mm",
			 json_mm(figures.straight.to_mm), "crest_off_mm",
			 json_mm(figures.straight.crest_off_mm), "minus_edge_off_mm",
			 json_mm(figures.straight.edge_off_mm[SIDE_MINUS]), "plus_edge_off_mm",
			 json_mm(figures.straight.edge_off_mm[SIDE_PLUS]), "asymmetry_mm",
			 json_mm(figures.asymmetry_mm), "channel_least_mm", json_mm(least_mm),
			 "channel_least_at_mm", json_mm(at_mm));
}

/* The box around all programs, in program coordinates; nulls without moves. */
static json_t *bounds_json(const struct job_result *result)
{
	struct vec3 least = { NAN, NAN, NAN }, most = least;

	for (size_t i = 0; i < result->program_count; i++) {
		const struct program_figures *program = &result->program[i];
		/* fmin and fmax pass over what is NAN */
		least = vec3_make(fmin(least.x, program->least.x), fmin(least.y, program->least.y),
				  fmin(least.z, program->least.z));
		most = vec3_make(fmax(most.x, program->most.x), fmax(most.y, program->most.y),
				 fmax(most.z, program->most.z));
	}
	return json_pack("{s:o, s:o}", "least_mm", json_point(least), "most_mm", json_point(most));
}

/* Words, or null where there are none. */
static json_t *words_or_null(const char *words)
{
	return words[0] ? json_text(words) : json_null();
}

static json_t *pass_json(const struct pass_figures *pass, size_t number)
{
	double stepover_mm = pass->why.step_cap == STEP_UNKNOWN ? NAN : pass->why.stepover_mm;
	char why[WHY_ROOM];

	why_words(why, pass);
	return json_pack("{s:I, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}",
			 "number", (json_int_t)number, "kind",
			 json_text(pass_kind_name(pass->kind)), "level_mm", json_mm(pass->level_mm),
			 "deepest_bite_mm", json_mm(pass->deepest_bite_mm), "volume_mm3",
			 json_value(pass->volume_mm3, JSON_DECIMALS_MM3), "length_mm",
			 json_mm(pass->length_mm), "idle_mm", json_mm(pass->idle_mm), "minutes",
			 json_value(pass->minutes, JSON_DECIMALS_MIN), "feed_mm_per_min",
			 json_value(pass->feed_mm_per_min, JSON_DECIMALS_FEED), "feed_cap",
			 json_text(feed_cap_name(pass->feed_cap)), "stepover_mm",
			 json_mm(stepover_mm), "lines", words_or_null(why_lines(&pass->why)), "why",
			 words_or_null(why));
}

static json_t *program_json(const struct job *job, const struct program_figures *program)
{
	json_t *passes = json_array();

	for (size_t i = 0; passes && i < program->pass_count; i++)
		passes = json_appended(passes, pass_json(&program->pass[i], i + 1));
	return json_pack("{s:o, s:o, s:o, s:i, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}",
			 "file", json_text(program->file), "cutter",
			 json_text(job->cutter[program->cutter].name), "ball_diameter_mm",
			 json_mm(program->ball_diameter_mm), "blocks", program->blocks,
			 "cutting_length_mm", json_mm(program->cutting_length_mm),
			 "rapid_length_mm", json_mm(program->rapid_length_mm), "air_share",
			 json_value(program->air_share, JSON_DECIMALS_SHARE), "minutes",
			 json_value(program->minutes, JSON_DECIMALS_MIN), "left_mm3",
			 json_value(program->left_mm3, JSON_DECIMALS_MM3), "left_most_mm",
			 json_mm(program->left_most_mm), "least_mm", json_point(program->least),
			 "most_mm", json_point(program->most), "passes", passes);
}

static json_t *programs_json(const struct job *job, const struct job_result *result)
{
	json_t *programs = json_array();

	for (size_t i = 0; programs && i < result->program_count; i++)
		programs = json_appended(programs, program_json(job, &result->program[i]));
	return programs;
}

static json_t *column_json(const struct column_reading *column)
{
	json_t *standing = json_array();

	for (size_t i = 0; standing && i < column->pass_count; i++)
		standing = json_appended(standing, json_mm(column->standing_mm[i]));
	return json_pack("{s:o, s:o, s:o, s:o, s:o}", "x_mm", json_mm(column->x_mm), "y_mm",
			 json_mm(column->y_mm), "blank_mm", json_mm(column->blank_mm),
			 "standing_mm", standing, "finished_mm", json_mm(column->finished_mm));
}

static json_t *cove_json(const struct cove_figures *cove)
{
	return json_pack("{s:o, s:o}", "height_mm", json_mm(cove->height_mm), "width_mm",
			 json_mm(cove->width_mm));
}

static json_t *station_json(const struct station_figures *station)
{
	char name[WORDS_FRET_ROOM];
	double to_carve_mm = station->roughed_mm - station->finished_mm;
	double wood_mm = station->wood_over_channel_mm;

	words_fret(name, station->fret);
	return json_pack(
		"{s:o, s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, "
		"s:o, s:o, s:o}",
		"fret", json_mm(station->fret), "name", name, "x_mm", json_mm(station->x_mm),
		"x_in", json_inch(station->x_mm), "finished_mm", json_mm(station->finished_mm),
		"finished_in", json_inch(station->finished_mm), "roughed_mm",
		json_mm(station->roughed_mm), "roughed_in", json_inch(station->roughed_mm),
		"blank_mm", json_mm(station->blank_mm), "blank_in", json_inch(station->blank_mm),
		"to_carve_mm", json_mm(to_carve_mm), "to_carve_in", json_inch(to_carve_mm),
		"width_mm", json_mm(station->width_mm), "width_in", json_inch(station->width_mm),
		"wood_over_channel_mm", json_mm(wood_mm), "wood_over_channel_in",
		json_inch(wood_mm), "minus_cove", cove_json(&station->cove[SIDE_MINUS]),
		"plus_cove", cove_json(&station->cove[SIDE_PLUS]), "centre_column",
		column_json(&station->centre));
}

static json_t *stations_json(const struct job_result *result)
{
	json_t *stations = json_array();

	for (size_t i = 0; stations && i < result->station_count; i++)
		stations = json_appended(stations, station_json(&result->station[i]));
	return stations;
}

static json_t *zone_json(const struct zone_figures *zone)
{
	return json_pack("{s:o, s:o, s:o, s:o, s:o}", "allowance_mm", json_mm(zone->allowance_mm),
			 "least_mm", json_mm(zone->least_mm), "most_mm", json_mm(zone->most_mm),
			 "mean_mm", json_mm(zone->mean_mm), "area_mm2",
			 json_value(zone->area_mm2, JSON_DECIMALS_MM2));
}

static json_t *zones_json(const struct job_result *result)
{
	json_t *zones = json_object();

	for (int i = 0; zones && i < ZONE_COUNT; i++) {
		const char *key = stock_zone_key((enum stock_zone)i);
		if (json_object_set_new(zones, key, zone_json(&result->zone[i])) == 0)
			continue;
		json_decref(zones);
		zones = NULL;
	}
	return zones;
}

static json_t *proof_json(const struct job_result *result)
{
	const char **file = mem_array(result->program_count, sizeof *file);

	if (!file)
		return NULL;
	for (size_t i = 0; i < result->program_count; i++)
		file[i] = result->program[i].file;
	json_t *proof = verdict_json(&result->verdict, result->program_count, file);
	free(file);
	return proof;
}

/* As drawn; the proof holds for every blank within the margin. */
static json_t *blank_json(const struct blank *blank)
{
	double from = blank_from_mm(blank), to = blank_to_mm(blank);

	return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o}", "margin_mm", json_mm(blank->margin_mm),
			 "from_mm", json_mm(from), "to_mm", json_mm(to), "minus_side_mm",
			 json_mm(outline_most_mm(blank_side(blank, BLANK_MINUS), from, to)),
			 "plus_side_mm",
			 json_mm(outline_most_mm(blank_side(blank, BLANK_PLUS), from, to)),
			 "highest_mm", json_mm(blank_highest_mm(blank)));
}

static json_t *meshes_json(void)
{
	return json_pack("{s:s, s:s, s:s}", "finished", MESH_FINISHED_FILE, "roughed",
			 MESH_ROUGHED_FILE, "blank", MESH_BLANK_FILE);
}

static json_t *document(const struct job *job, const struct neck *neck,
			const struct job_result *result)
{
	return json_pack("{s:i, s:s, s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, "
			 "s:o, s:o, s:o, s:o, s:o}",
			 "schema", JOB_JSON_SCHEMA, "generator", NECKHEW_NAME, "version",
			 NECKHEW_VERSION, "units", units_json(), "inputs", inputs_json(job),
			 "frame", frame_json(job), "fixture", fixture_json(job), "neck",
			 neck_json(neck), "blank", blank_json(&job->blank), "bounds",
			 bounds_json(result), "programs", programs_json(job, result), "stations",
			 stations_json(result), "hand_finish_stock", zones_json(result),
			 "left_for_the_chisel_mm3",
			 json_value(result->unreachable_mm3, JSON_DECIMALS_MM3),
			 "left_for_the_chisel", chisel_json(job, &result->chisel), "stickouts",
			 stickouts_json(job, result), "beside", beside_json(job, result), "meshes",
			 meshes_json(), "proof", proof_json(result));
}

enum fault job_json_text(char **text, const struct job *job, const struct neck *neck,
			 const struct job_result *result, struct fault_list *faults)
{
	return json_to_text(text, document(job, neck, result), faults);
}

enum fault job_json_write(const char *path, const struct job *job, const struct neck *neck,
			  const struct job_result *result, struct fault_list *faults)
{
	char *text;
	enum fault fault = job_json_text(&text, job, neck, result, faults);

	if (fault)
		return fault;
	fault = text_file_write(path, text, strlen(text), faults);
	free(text);
	return fault;
}
