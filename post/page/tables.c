/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/tables.h"

#include <math.h>
#include <string.h>

#include "base/units.h"
#include "page/names.h"
#include "program/checklist.h"
#include "report/why_words.h"
#include "report/words.h"

#define CM3_PER_MM3 1e-3
#define CM2_PER_MM2 1e-2
#define M_PER_MM 1e-3

#define DECIMALS_MM 2
#define DECIMALS_IN 3

static void whole_number(struct markup *out, size_t number)
{
	markup_number(out, (double)number, 0);
}

static void cell_text(struct markup *out, const char *text)
{
	markup_text(out, "<td>");
	markup_escaped(out, text);
	markup_text(out, "</td>");
}

static void cell_number(struct markup *out, double value, int decimals)
{
	markup_text(out, "<td class=\"number\">");
	markup_number(out, value, decimals);
	markup_text(out, "</td>");
}

/* The same length in both units. */
static void cell_length(struct markup *out, double length_mm)
{
	cell_number(out, length_mm, DECIMALS_MM);
	cell_number(out, units_inch_from_mm(length_mm), DECIMALS_IN);
}

/* Head cells of one row; `unit` stands in small below the name. */
struct head {
	const char *name, *unit;
};

static void head_cell(struct markup *out, const struct head *head)
{
	markup_text(out, "<th scope=\"col\">");
	markup_text(out, head->name);
	if (head->unit) {
		markup_text(out, " <span class=\"unit\">");
		markup_text(out, head->unit);
		markup_text(out, "</span>");
	}
	markup_text(out, "</th>");
}

static void head_row(struct markup *out, size_t count, const struct head *heads)
{
	markup_text(out, "<thead>\n<tr>");
	for (size_t i = 0; i < count; i++)
		head_cell(out, &heads[i]);
	markup_text(out, "</tr>\n</thead>\n<tbody>\n");
}

static void row_head(struct markup *out, const char *text)
{
	markup_text(out, "<tr><th scope=\"row\">");
	markup_escaped(out, text);
	markup_text(out, "</th>");
}

static void pass_row(struct markup *out, size_t number, const struct pass_figures *pass)
{
	markup_text(out, "<tr data-pass=\"");
	whole_number(out, number);
	markup_text(out, "\"><th scope=\"row\">");
	whole_number(out, number);
	markup_text(out, "</th>");
	cell_text(out, pass_kind_name(pass->kind));
	cell_number(out, pass->level_mm, 2);
	cell_number(out, pass->deepest_bite_mm, 2);
	cell_number(out, pass->why.step_cap == STEP_UNKNOWN ? NAN : pass->why.stepover_mm, 2);
	cell_number(out, pass->feed_mm_per_min, 0);
	cell_text(out, feed_cap_name(pass->feed_cap));
	cell_number(out, pass->length_mm * M_PER_MM, 2);
	cell_number(out, pass->idle_mm * M_PER_MM, 2);
	cell_number(out, pass->minutes, 1);
	cell_number(out, pass->volume_mm3 * CM3_PER_MM3, 2);
	markup_text(out, "</tr>\n");
}

static void program_sum(struct markup *out, const struct program_figures *program)
{
	double volume_mm3 = 0.0, deepest_mm = 0.0;

	for (size_t i = 0; i < program->pass_count; i++) {
		volume_mm3 += program->pass[i].volume_mm3;
		deepest_mm = fmax(deepest_mm, program->pass[i].deepest_bite_mm);
	}
	markup_text(out, "<tr class=\"sum\"><th scope=\"row\" colspan=\"2\">");
	markup_escaped(out, program->file);
	markup_text(out, ", ball ");
	markup_number(out, program->ball_diameter_mm, 2);
	markup_text(out, " mm; leaves ");
	markup_number(out, program->left_mm3 * CM3_PER_MM3, 2);
	markup_text(out, " cm\xc2\xb3 over the stock</th><td></td>");
	cell_number(out, deepest_mm, 2);
	markup_text(out, "<td></td><td></td><td></td>");
	cell_number(out, program->cutting_length_mm * M_PER_MM, 2);
	cell_number(out, program->cutting_length_mm * program->air_share * M_PER_MM, 2);
	cell_number(out, program->minutes, 1);
	cell_number(out, volume_mm3 * CM3_PER_MM3, 2);
	markup_text(out, "</tr>\n");
}

/* Each sentence once, behind the numbers of its passes. */
static void why_rows(struct markup *out, const struct program_figures *program, size_t first)
{
	char words[WHY_ROOM], passes[WHY_PASSES_ROOM];

	for (size_t i = 0; i < program->pass_count; i++) {
		why_words(words, &program->pass[i]);
		if (words[0] == '\0' || !why_is_new(program, i))
			continue;
		why_passes(passes, program, i, first);
		row_head(out, passes);
		cell_text(out, words);
		markup_text(out, "</tr>\n");
	}
}

void tables_whys(struct markup *out, const struct job_result *result)
{
	static const struct head heads[] = { { "passes", NULL },
					     { "why they are as they are", NULL } };
	size_t first = 1;

	markup_text(out, "<table>\n<caption>Why the passes are as they are.</caption>\n");
	head_row(out, sizeof heads / sizeof heads[0], heads);
	for (size_t i = 0; i < result->program_count; i++) {
		why_rows(out, &result->program[i], first);
		first += result->program[i].pass_count;
	}
	markup_text(out, "</tbody>\n</table>");
}

void tables_passes(struct markup *out, const struct job_result *result)
{
	static const struct head heads[] = {
		{ "pass", NULL },	  { "kind", NULL },	      { "level", "mm" },
		{ "deepest bite", "mm" }, { "lines apart", "mm" },    { "feed", "mm/min" },
		{ "feed held by", NULL }, { "cutting length", "m" },  { "of it idle", "m" },
		{ "time", "min" },	  { "volume", "cm\xc2\xb3" },
	};
	size_t number = 0;

	markup_text(out, "<table>\n<caption>The passes in the order in which they run. The level "
			 "is the height over the gluing face.</caption>\n");
	head_row(out, sizeof heads / sizeof heads[0], heads);
	for (size_t i = 0; i < result->program_count; i++) {
		const struct program_figures *program = &result->program[i];
		for (size_t k = 0; k < program->pass_count; k++)
			pass_row(out, ++number, &program->pass[k]);
		program_sum(out, program);
	}
	markup_text(out, "</tbody>\n</table>");
}

/* Two rows of heads: each length stands in mm and in inches. */
static void station_heads(struct markup *out)
{
	static const char *const groups[] = { "from the nut",	  "blank",    "roughed",
					      "finished",	  "to carve", "width",
					      "wood over channel" };
	size_t count = sizeof groups / sizeof groups[0];

	markup_text(out, "<colgroup></colgroup>");
	for (size_t i = 0; i < count; i++)
		markup_text(out, "<colgroup span=\"2\"></colgroup>");
	markup_text(out, "\n<thead>\n<tr><th scope=\"col\" rowspan=\"2\">station</th>");
	for (size_t i = 0; i < count; i++) {
		markup_text(out, "<th scope=\"colgroup\" colspan=\"2\">");
		markup_text(out, groups[i]);
		markup_text(out, "</th>");
	}
	markup_text(out, "</tr>\n<tr>");
	for (size_t i = 0; i < count; i++)
		markup_text(out, "<th scope=\"col\" class=\"unit\">mm</th>"
				 "<th scope=\"col\" class=\"unit\">in</th>");
	markup_text(out, "</tr>\n</thead>\n<tbody>\n");
}

static void station_row(struct markup *out, const struct station_figures *station)
{
	char name[NAMES_ROOM];

	names_station(name, station->fret);
	row_head(out, name);
	cell_length(out, station->x_mm);
	cell_length(out, station->blank_mm);
	cell_length(out, station->roughed_mm);
	cell_length(out, station->finished_mm);
	cell_length(out, station->roughed_mm - station->finished_mm);
	cell_length(out, station->width_mm);
	cell_length(out, station->wood_over_channel_mm);
	markup_text(out, "</tr>\n");
}

void tables_stations(struct markup *out, const struct job *job, const struct job_result *result)
{
	markup_text(out, "<table>\n<caption>Thickness on the centre line, of ");
	markup_text(out, job->neck.over_fretboard ? "wood and fretboard together" : "the wood");
	markup_text(out, "; width of the wood at the gluing face.</caption>\n");
	station_heads(out);
	for (size_t i = 0; i < result->station_count; i++)
		station_row(out, &result->station[i]);
	markup_text(out, "</tbody>\n</table>");
}

void tables_zones(struct markup *out, const struct job_result *result)
{
	static const struct head heads[] = {
		{ "zone", NULL }, { "asked", "mm" }, { "least", "mm" },
		{ "most", "mm" }, { "mean", "mm" },  { "area", "cm\xc2\xb2" },
	};
	char name[NAMES_ROOM];

	markup_text(out, "<table>\n<caption>Stock along the surface's normal, where the ball can "
			 "reach. Left for the chisel elsewhere: ");
	markup_number(out, result->unreachable_mm3 * CM3_PER_MM3, 2);
	markup_text(out, " cm\xc2\xb3.</caption>\n");
	head_row(out, sizeof heads / sizeof heads[0], heads);
	for (int i = 0; i < ZONE_COUNT; i++) {
		const struct zone_figures *zone = &result->zone[i];
		names_zone(name, (enum stock_zone)i);
		row_head(out, name);
		cell_number(out, zone->allowance_mm, 3);
		cell_number(out, zone->least_mm, 3);
		cell_number(out, zone->most_mm, 3);
		cell_number(out, zone->mean_mm, 3);
		cell_number(out, zone->area_mm2 * CM2_PER_MM2, 1);
		markup_text(out, "</tr>\n");
	}
	markup_text(out, "</tbody>\n</table>");
}

static void chisel_row(struct markup *out, const struct job *job, const struct chisel_place *place)
{
	char name[WORDS_PLACE_ROOM];

	words_chisel_place(name, &job->neck, place);
	row_head(out, name);
	cell_number(out, place->x_from_mm, 1);
	cell_number(out, place->x_to_mm, 1);
	cell_number(out, place->y_from_mm, 1);
	cell_number(out, place->y_to_mm, 1);
	cell_number(out, place->thickest_mm, 1);
	cell_number(out, place->area_mm2 * CM2_PER_MM2, 1);
	cell_number(out, place->over_allowance_mm3 * CM3_PER_MM3, 2);
	cell_number(out, place->over_finished_mm3 * CM3_PER_MM3, 2);
	markup_text(out, "</tr>\n");
}

void tables_chisel(struct markup *out, const struct job *job, const struct job_result *result)
{
	static const struct head heads[] = {
		{ "left for the chisel", NULL },
		{ "x from", "mm" },
		{ "to", "mm" },
		{ "y from", "mm" },
		{ "to", "mm" },
		{ "thickest", "mm" },
		{ "area", "cm\xc2\xb2" },
		{ "over the stock", "cm\xc2\xb3" },
		{ "over the finished surface", "cm\xc2\xb3" },
	};
	char text[WORDS_STICKOUT_ROOM];

	if (result->chisel.place_count == 0)
		return;
	words_stickout(text, job, result);
	markup_text(out, "<table>\n<caption>Where shank or holder keep every cutter away. ");
	markup_escaped(out, text);
	markup_text(out, "</caption>\n");
	head_row(out, sizeof heads / sizeof heads[0], heads);
	for (size_t i = 0; i < result->chisel.place_count; i++)
		chisel_row(out, job, &result->chisel.place[i]);
	markup_text(out, "</tbody>\n</table>");
}

/* How figures of the proof are written, by their unit. What has no unit is
 * judged without a figure. */
struct measure {
	const char *unit, *shown;
	double factor;
	int decimals;
};

static const struct measure *measure_of(const char *unit)
{
	static const struct measure table[] = {
		{ "mm", "mm", 1.0, 3 },		{ "mm2", "mm\xc2\xb2", 1.0, 1 },
		{ "mm/min", "mm/min", 1.0, 0 }, { "rpm", "rpm", 1.0, 0 },
		{ "share", "%", 100.0, 1 },
	};

	for (size_t i = 0; i < sizeof table / sizeof table[0]; i++)
		if (strcmp(table[i].unit, unit) == 0)
			return &table[i];
	return NULL;
}

/* A figure of the proof behind some words, or a dash where there is none. */
static void cell_judged(struct markup *out, bool judged, const char *words, double figure,
			const char *unit)
{
	const struct measure *measure = measure_of(unit);

	markup_text(out, "<td class=\"number\">");
	if (!judged || !measure || !isfinite(figure)) {
		markup_number(out, NAN, 0);
	} else {
		markup_text(out, words);
		markup_number(out, figure * measure->factor, measure->decimals);
		markup_text(out, " ");
		markup_text(out, measure->shown);
	}
	markup_text(out, "</td>");
}

static void promise_row(struct markup *out, const struct promise_result *result,
			const struct promise_text *text, const struct job_result *whole)
{
	size_t program = (size_t)result->program;
	bool broken = result->judged && !result->kept;

	row_head(out, text->sentence);
	markup_text(out, "<td>");
	markup_text(out, !result->judged ? "not judged" : result->kept ? "kept" : "broken: ");
	if (broken)
		markup_escaped(out, result->why);
	if (broken && result->block > 0 && result->program >= 0 && program < whole->program_count) {
		markup_text(out, " (");
		markup_escaped(out, whole->program[program].file);
		markup_text(out, ", line ");
		whole_number(out, (size_t)result->block);
		markup_text(out, ")");
	}
	markup_text(out, "</td>");
	cell_judged(out, result->judged, "", result->worst, text->unit);
	cell_judged(out, result->judged, text->worst_is_least ? "at least " : "at most ",
		    result->limit, text->unit);
	markup_text(out, "</tr>\n");
}

void tables_promises(struct markup *out, const struct job_result *result)
{
	static const struct head heads[] = {
		{ "promise", NULL }, { "answer", NULL }, { "worst met", NULL }, { "asked", NULL }
	};

	markup_text(out, "<table>\n<caption>Every promise of the proof, judged on the program as "
			 "read back.</caption>\n");
	head_row(out, sizeof heads / sizeof heads[0], heads);
	for (int i = 0; i < PROMISE_COUNT; i++)
		promise_row(out, &result->verdict.promise[i], promise_text((enum promise)i),
			    result);
	markup_text(out, "</tbody>\n</table>");
}

void tables_checklist(struct markup *out)
{
	size_t count;
	const char *const *lines = safety_checklist(&count);

	for (size_t i = 0; i < count; i++) {
		markup_text(out, "<li><label><input type=\"checkbox\"> <span>");
		markup_escaped(out, lines[i]);
		markup_text(out, "</span></label></li>\n");
	}
}
