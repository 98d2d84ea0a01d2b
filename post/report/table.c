/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/table.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "base/units.h"
#include "report/beside_table.h"
#include "report/columns.h"
#include "report/why_words.h"
#include "report/words.h"
#include "version.h"

#define CM3_PER_MM3 1e-3
#define CM2_PER_MM2 1e-2
#define M_PER_MM 1e-3
/* More places than this would push the verdict off the screen; job.json has
 * them all. */
#define PLACES_SHOWN 12

/* Select graphic rendition, ECMA-48 8.3.117: bold, red, green, all off. */
enum shade { SHADE_TITLE, SHADE_BAD, SHADE_GOOD, SHADE_OFF };

struct table {
	FILE *out;
	bool colour;
};

static void shade(const struct table *table, enum shade which)
{
	static const char *const code[] = { "\033[1m", "\033[1;31m", "\033[32m", "\033[0m" };

	if (table->colour)
		(void)fputs(code[which], table->out);
}

/* An empty line, the title in bold, and what follows it on the line. */
static void title(const struct table *table, const char *name, const char *rest)
{
	(void)fputc('\n', table->out);
	shade(table, SHADE_TITLE);
	(void)fputs(name, table->out);
	shade(table, SHADE_OFF);
	(void)fprintf(table->out, "%s\n", rest);
}

static void print_head(const struct table *table, const struct job *job)
{
	(void)fprintf(table->out, "%s %s, neck \"", NECKHEW_NAME, NECKHEW_VERSION);
	columns_text(table->out, COLUMNS_MOST - 30, 0, job->neck.name);
	(void)fputs("\"\n", table->out);
	if (job->digest[0] == '\0')
		return;
	(void)fputs("inputs ", table->out);
	columns_text(table->out, (int)sizeof job->digest - 1, 0, job->digest);
	(void)fputc('\n', table->out);
}

/* Ends the line with `mark`, which may be empty. */
static void print_pass(const struct table *table, size_t number, const char *kind,
		       const double figure[7], const char *mark)
{
	static const int width[] = { 7, 6, 6, 7, 7, 8, 8 };
	static const int decimals[] = { 2, 2, 2, 0, 2, 1, 2 };

	if (number > 0)
		(void)fprintf(table->out, "%4zu  ", number);
	else
		(void)fprintf(table->out, "%6s", "");
	columns_text(table->out, 14, 1, kind);
	for (int i = 0; i < 7; i++)
		columns_number(table->out, width[i], decimals[i], figure[i]);
	(void)fprintf(table->out, "%s\n", mark);
}

/* One letter beside a pass whose feed something other than chip load holds
 * back, and a line below that says what the letters mean. */
static const char *feed_mark(enum feed_cap cap)
{
	if (cap == FEED_BY_CHIP_LOAD)
		return "";
	if (cap == FEED_BY_WORD)
		return " w";
	return cap == FEED_BY_AXIS ? " a" : " p";
}

static void print_feed_marks(const struct table *table, const struct program_figures *program)
{
	static const enum feed_cap caps[] = { FEED_BY_AXIS, FEED_BY_POWER, FEED_BY_WORD };

	for (size_t k = 0; k < sizeof caps / sizeof caps[0]; k++)
		for (size_t i = 0; i < program->pass_count; i++) {
			if (program->pass[i].feed_cap != caps[k])
				continue;
			(void)fprintf(table->out, "     %s: feed held back by %s\n",
				      feed_mark(caps[k]), feed_cap_name(caps[k]));
			break;
		}
}

/* Distance of the lines; nothing to say of a program that comes from no plan. */
static double apart_mm(const struct pass_why *why)
{
	return why->step_cap == STEP_UNKNOWN ? NAN : why->stepover_mm;
}

/* Each sentence once, behind the numbers of its passes. */
static void print_why(const struct table *table, const struct program_figures *program)
{
	char words[WHY_ROOM], passes[WHY_PASSES_ROOM], line[WHY_ROOM + WHY_PASSES_ROOM + 16];

	for (size_t i = 0; i < program->pass_count; i++) {
		why_words(words, &program->pass[i]);
		if (words[0] == '\0' || !why_is_new(program, i))
			continue;
		why_passes(passes, program, i, 1);
		(void)snprintf(line, sizeof line, "why %s: %s", passes, words);
		(void)fputs("      ", table->out);
		columns_paragraph(table->out, 6, 10, line);
	}
}

/* "leaves 0.07 cm3 over the hand-finish stock, at most 0.06 mm thick". */
static void print_left(const struct table *table, const struct program_figures *program)
{
	(void)fputs("      leaves", table->out);
	columns_number(table->out, 8, 2, program->left_mm3 * CM3_PER_MM3);
	(void)fputs(" cm3 over the hand-finish stock, at most", table->out);
	columns_number(table->out, 6, 2, program->left_most_mm);
	(void)fputs(" mm thick\n", table->out);
}

static void print_program(const struct table *table, const struct job *job,
			  const struct program_figures *program)
{
	char rest[64];
	double volume_mm3 = 0.0;

	(void)snprintf(rest, sizeof rest, "  ball %.3f mm, %d blocks", program->ball_diameter_mm,
		       program->blocks);
	title(table, "PASSES", rest);
	(void)fputs("  file ", table->out);
	columns_text(table->out, (int)sizeof program->file - 1, 0, program->file);
	(void)fputs(", cutter ", table->out);
	columns_text(table->out, 50, 0, job->cutter[program->cutter].name);
	(void)fputs(
		"\n  no  kind             level  depth  apart    feed  length     time   volume\n"
		"                          mm     mm     mm  mm/min       m      min      cm3\n",
		table->out);
	for (size_t i = 0; i < program->pass_count; i++) {
		const struct pass_figures *pass = &program->pass[i];
		volume_mm3 += pass->volume_mm3;
		print_pass(table, i + 1, pass_kind_name(pass->kind),
			   (const double[]){ pass->level_mm, pass->deepest_bite_mm,
					     apart_mm(&pass->why), pass->feed_mm_per_min,
					     pass->length_mm * M_PER_MM, pass->minutes,
					     pass->volume_mm3 * CM3_PER_MM3 },
			   feed_mark(pass->feed_cap));
	}
	print_pass(table, 0, "whole program",
		   (const double[]){ NAN, NAN, NAN, NAN, program->cutting_length_mm * M_PER_MM,
				     program->minutes, volume_mm3 * CM3_PER_MM3 },
		   "");
	print_left(table, program);
	print_feed_marks(table, program);
	print_why(table, program);
}

static void print_station(const struct table *table, const struct station_figures *station)
{
	char name[WORDS_FRET_ROOM];
	double to_carve_mm = station->roughed_mm - station->finished_mm;

	words_fret(name, station->fret);
	(void)fputs("  ", table->out);
	columns_text(table->out, 7, 1, name);
	columns_number(table->out, 8, 2, station->x_mm);
	columns_number(table->out, 7, 2, station->blank_mm);
	columns_number(table->out, 8, 2, station->roughed_mm);
	columns_number(table->out, 6, 3, units_inch_from_mm(station->roughed_mm));
	columns_number(table->out, 8, 2, station->finished_mm);
	columns_number(table->out, 6, 3, units_inch_from_mm(station->finished_mm));
	columns_number(table->out, 8, 2, to_carve_mm);
	columns_number(table->out, 6, 3, units_inch_from_mm(to_carve_mm));
	(void)fputc('\n', table->out);
}

static void print_stations(const struct table *table, const struct job *job,
			   const struct job_result *result)
{
	title(table, "THICKNESS",
	      job->neck.over_fretboard ? "  of wood and fretboard together" : "  of the wood");
	(void)fputs("  station        x   blank   roughed        finished        to carve\n"
		    "                mm      mm       mm     in       mm     in       mm     in\n",
		    table->out);
	for (size_t i = 0; i < result->station_count; i++)
		print_station(table, &result->station[i]);
}

static void print_zones(const struct table *table, const struct job_result *result)
{
	title(table, "HAND-FINISH STOCK", "  along the surface's normal");
	(void)fputs("  zone            asked    least     most     mean     area\n"
		    "                     mm       mm       mm       mm      cm2\n",
		    table->out);
	for (int i = 0; i < ZONE_COUNT; i++) {
		const struct zone_figures *zone = &result->zone[i];
		(void)fputs("  ", table->out);
		columns_text(table->out, 12, 1, stock_zone_key((enum stock_zone)i));
		columns_number(table->out, 8, 3, zone->allowance_mm);
		columns_number(table->out, 8, 3, zone->least_mm);
		columns_number(table->out, 8, 3, zone->most_mm);
		columns_number(table->out, 8, 3, zone->mean_mm);
		columns_number(table->out, 8, 1, zone->area_mm2 * CM2_PER_MM2);
		(void)fputc('\n', table->out);
	}
	(void)fputs("  left for the chisel", table->out);
	columns_number(table->out, 8, 2, result->unreachable_mm3 * CM3_PER_MM3);
	(void)fputs(" cm3\n", table->out);
}

static void print_place(const struct table *table, const struct job *job,
			const struct chisel_place *place)
{
	char name[WORDS_PLACE_ROOM];

	words_chisel_place(name, &job->neck, place);
	(void)fputs("  ", table->out);
	columns_text(table->out, 30, 1, name);
	columns_number(table->out, 6, 1, place->x_from_mm);
	columns_number(table->out, 6, 1, place->x_to_mm);
	columns_number(table->out, 6, 1, place->y_from_mm);
	columns_number(table->out, 5, 1, place->y_to_mm);
	columns_number(table->out, 5, 1, place->thickest_mm);
	columns_number(table->out, 5, 1, place->area_mm2 * CM2_PER_MM2);
	columns_number(table->out, 5, 2, place->over_finished_mm3 * CM3_PER_MM3);
	(void)fputc('\n', table->out);
}

/* Where wood is left that no cutter of the job could take; nothing when there
 * is none. */
static void print_chisel(const struct table *table, const struct job *job,
			 const struct job_result *result)
{
	const struct chisel *chisel = &result->chisel;
	char text[WORDS_STICKOUT_ROOM];

	if (chisel->place_count == 0)
		return;
	title(table, "LEFT FOR THE CHISEL", "  where shank or holder keep the ball away");
	(void)fputs(
		"  place                            from     to   from    to thick  area   cm3\n"
		"                                    x mm   x mm   y mm  y mm    mm   cm2\n",
		table->out);
	for (size_t i = 0; i < chisel->place_count && i < PLACES_SHOWN; i++)
		print_place(table, job, &chisel->place[i]);
	if (chisel->place_count > PLACES_SHOWN)
		(void)fprintf(table->out, "  and %zu smaller ones\n",
			      chisel->place_count - PLACES_SHOWN);
	(void)fputs("  all of it over the finished surface", table->out);
	columns_number(table->out, 29, 1, chisel->area_mm2 * CM2_PER_MM2);
	columns_number(table->out, 5, 2, chisel->over_finished_mm3 * CM3_PER_MM3);
	(void)fputs("\n  ", table->out);
	words_stickout(text, job, result);
	columns_paragraph(table->out, 2, 2, text);
}

/* "broken  sentence: why (file, line n; worst, limit)", wrapped. */
static void print_promise(const struct table *table, const struct promise_result *result,
			  const struct promise_text *text, const char *file)
{
	char place[FAULT_FILE_MAX + 32] = "", line[sizeof place + 512];

	if (result->block > 0 && file)
		(void)snprintf(place, sizeof place, " (%.*s, line %d)", FAULT_FILE_MAX, file,
			       result->block);
	(void)snprintf(line, sizeof line, "%.160s: %s%s Worst %.6g, limit %.6g %s", text->sentence,
		       result->why, place, result->worst, result->limit, text->unit);
	(void)fputs("  ", table->out);
	shade(table, SHADE_BAD);
	(void)fputs("broken", table->out);
	shade(table, SHADE_OFF);
	(void)fputs("  ", table->out);
	columns_paragraph(table->out, 10, 10, line);
}

static void print_verdict(const struct table *table, const struct verdict *verdict,
			  size_t file_count, const char *const *file)
{
	int kept = 0, open = 0;

	title(table, "PROOF", "");
	for (int i = 0; i < PROMISE_COUNT; i++) {
		const struct promise_result *result = &verdict->promise[i];
		size_t program = (size_t)result->program;
		bool known = result->program >= 0 && program < file_count;
		kept += result->judged && result->kept;
		open += !result->judged;
		if (result->judged && !result->kept)
			print_promise(table, result, promise_text((enum promise)i),
				      known ? file[program] : NULL);
	}
	if (isfinite(verdict->fretboard_mm) && verdict->fretboard_mm > 0.0) {
		(void)fputs("  the tool passes the glued fretboard at", table->out);
		columns_number(table->out, 6, 3, verdict->fretboard_mm);
		(void)fputs(" mm\n", table->out);
	}
	shade(table, verdict->proven ? SHADE_GOOD : SHADE_BAD);
	(void)fputs(verdict->proven ? "  proven" : "  NOT PROVEN", table->out);
	shade(table, SHADE_OFF);
	(void)fprintf(table->out, ": %d of %d promises kept", kept, PROMISE_COUNT);
	if (open > 0)
		(void)fprintf(table->out, ", %d not judged", open);
	(void)fputs(verdict->proven ? ".\n" : ". Do not run it.\n", table->out);
}

static enum fault flushed(FILE *out, struct fault_list *faults)
{
	errno = 0;
	if (fflush(out) == 0 && !ferror(out))
		return FAULT_NONE;
	return fault_add(faults, FAULT_FILE, NULL, 0, NULL, "The table cannot be printed: %s.",
			 errno ? strerror(errno) : "the output took only part of it");
}

void table_zones_print(FILE *out, const struct job_result *result, bool colour)
{
	struct table table = { out, colour };

	print_zones(&table, result);
}

enum fault table_verdict_print(FILE *out, const struct verdict *verdict, size_t file_count,
			       const char *const *file, bool colour, struct fault_list *faults)
{
	struct table table = { out, colour };

	print_verdict(&table, verdict, file_count, file);
	return flushed(out, faults);
}

/* Which blank all this is true of. */
static void print_blank(const struct table *table, const struct job *job)
{
	char margin[WORDS_MARGIN_ROOM], line[240];

	words_margin(margin, job);
	(void)snprintf(line, sizeof line,
		       "Top and sides of the blank lie %s their outlines; volumes are those of the "
		       "blank as drawn.",
		       margin);
	(void)fputs("  ", table->out);
	columns_paragraph(table->out, 2, 2, line);
}

enum fault table_print(FILE *out, const struct job *job, const struct job_result *result,
		       bool colour, struct fault_list *faults)
{
	struct table table = { out, colour };
	const char **file = mem_array(result->program_count, sizeof *file);

	if (!file)
		return fault_no_memory(faults, "a table");
	print_head(&table, job);
	for (size_t i = 0; i < result->program_count; i++) {
		file[i] = result->program[i].file;
		print_program(&table, job, &result->program[i]);
	}
	print_stations(&table, job, result);
	print_zones(&table, result);
	print_chisel(&table, job, result);
	if (beside_is_told(result)) {
		title(&table, "BESIDE THE NECK", "");
		beside_table_print(out, job, result);
	}
	print_verdict(&table, &result->verdict, result->program_count, file);
	print_blank(&table, job);
	free(file);
	return flushed(out, faults);
}
