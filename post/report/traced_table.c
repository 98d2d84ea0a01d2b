/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/traced_table.h"

#include <string.h>

#include "report/columns.h"
#include "report/words.h"

static const char *unit_name(const struct traced *traced)
{
	return traced->unit == UNIT_INCH ? "in" : "mm";
}

static void number(FILE *out, const struct traced *traced, double mm)
{
	columns_number(out, 9, traced->unit == UNIT_INCH ? 4 : 2, mm / units_mm_per(traced->unit));
}

static void print_station(FILE *out, const struct traced *traced, size_t i)
{
	const struct trace_section *section = &traced->station[i].section;
	char fret[WORDS_FRET_ROOM];

	words_fret(fret, traced->station[i].fret);
	columns_text(out, 6, 1, fret);
	number(out, traced, section->width_mm);
	number(out, traced, section->thickness_mm);
	columns_number(out, 7, 2, units_deg_from_rad(section->frame.tilt_rad));
	columns_number(out, 7, 0, (double)section->used);
	number(out, traced, section->rms_mm);
	number(out, traced, section->worst_mm);
	(void)fprintf(out, "%6d", section->worst_line);
	number(out, traced, section->difference_mm);
	(void)fputc('\n', out);
}

/* A paragraph whose lines begin with the lead. */
static void paragraph(FILE *out, const char *lead, const char *text)
{
	const size_t most = COLUMNS_MOST - strlen(lead);

	while (*text) {
		size_t take = strlen(text);
		if (take > most) {
			take = most;
			while (take > 0 && text[take] != ' ')
				take--;
		}
		(void)fprintf(out, "%s%.*s\n", lead, (int)take, text);
		text += take;
		text += *text == ' ';
	}
}

static void print_notes(FILE *out, const struct traced *traced, size_t i, const char *lead)
{
	const struct trace_section *section = &traced->station[i].section;
	char fret[WORDS_FRET_ROOM], sentence[TRACED_SENTENCE_ROOM];
	char text[TRACED_SENTENCE_ROOM + WORDS_FRET_ROOM + 8];

	words_fret(fret, traced->station[i].fret);
	(void)snprintf(text, sizeof text, "%s: height from %s.", fret,
		       traced_datum(section->datum));
	paragraph(out, lead, text);
	for (size_t n = 0; n < section->note_count; n++) {
		traced_sentence(sentence, traced, &section->note[n]);
		(void)snprintf(text, sizeof text, "%s: %s", fret, sentence);
		paragraph(out, lead, text);
	}
}

void traced_table_print(FILE *out, const struct traced *traced, const char *lead)
{
	(void)fprintf(out,
		      "%sfret      width    thick   tilt points      rms    worst  line    sides\n",
		      lead);
	(void)fprintf(out,
		      "%s             %s       %s    deg              %s       %s             %s\n",
		      lead, unit_name(traced), unit_name(traced), unit_name(traced),
		      unit_name(traced), unit_name(traced));
	for (size_t i = 0; i < traced->count; i++) {
		(void)fputs(lead, out);
		print_station(out, traced, i);
	}
	for (size_t i = 0; i < traced->count; i++)
		print_notes(out, traced, i, lead);
	if (traced->count == 1)
		paragraph(out, lead,
			  "A neck needs stations at two places at least; this is one of them.");
}
