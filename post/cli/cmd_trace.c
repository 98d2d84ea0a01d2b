/* SPDX-License-Identifier: GPL-3.0-or-later */
/* neckhew trace: from points of sections to stations. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "cli/command.h"
#include "cli/known_lengths.h"
#include "cli/load.h"
#include "cli/opt.h"
#include "cli/traced_points.h"
#include "config/utf8.h"
#include "files/text_file.h"
#include "report/stations_text.h"
#include "report/traced_json.h"
#include "report/traced_table.h"

enum {
	ROW_UNIT,
	ROW_SYMMETRIC,
	ROW_WIDTH,
	ROW_THICKNESS,
	ROW_FRETBOARD,
	ROW_FRET,
	ROW_HAND,
	ROW_OUT,
	ROW_JSON,
	ROW_COUNT
};

static const struct opt_row rows[ROW_COUNT] = {
	[ROW_UNIT] = { "unit", 'u', OPT_VALUE, "mm|in", "unit of the points and all lengths" },
	[ROW_SYMMETRIC] = { "symmetric", 's', OPT_FLAG, NULL, "make both sides one shape" },
	[ROW_WIDTH] = { "width", 'w', OPT_VALUE, "LENGTH",
			"known width of the wood at the gluing face" },
	[ROW_THICKNESS] = { "thickness", 't', OPT_VALUE, "LENGTH",
			    "known thickness of the wood on the centre line" },
	[ROW_FRETBOARD] = { "fretboard", 'b', OPT_VALUE, "LENGTH",
			    "fretboard to add to the thicknesses printed" },
	[ROW_FRET] = { "fret", 'f', OPT_VALUE, "FRET",
		       "where the section is, if the file does not say; the nut unless given" },
	[ROW_HAND] = { "hand", 'H', OPT_VALUE, "right|left",
		       "right: +y is the bass side; left: the treble side" },
	[ROW_OUT] = { "out", 'o', OPT_VALUE, "FILE", "write the stations here" },
	[ROW_JSON] = { "json", 'j', OPT_FLAG, NULL, "print figures and outlines as JSON" },
};

static const struct opt_command command = {
	.name = "trace",
	.arguments = "POINTS",
	.help = "Makes stations for a neck file of points that a contour gauge or a caliper gave: "
		"a table with columns y, z and, for several sections, station. Tilt and shift of "
		"the gauge are taken out, the outline is fitted by least squares, and how far the "
		"points lie from it is told. The lowest points of both sides are taken for the "
		"edges of the gluing face unless points of the face itself are among them. "
		"LENGTH may be one for each station, as in nut=43.5,11=53.",
	.least = 1,
	.most = 1,
	.row_count = ROW_COUNT,
	.row = rows,
};

struct asked {
	struct traced *traced;
	struct known_lengths width, thickness;
	double fret;
};

static enum fault refuse(const char *option, const char *text, const char *allowed,
			 struct fault_list *faults)
{
	char plain[48];

	utf8_make_plain(plain, sizeof plain, text);
	return fault_add(faults, FAULT_USAGE, NULL, 0, NULL, "--%s is \"%s\"; allowed is %s.",
			 option, plain, allowed);
}

/* One of two words; the first when the option is not given. */
static enum fault read_word(int *out, const struct opt_values *values, int row, const char *one,
			    const char *other, struct fault_list *faults)
{
	char allowed[32];

	*out = 0;
	if (!values->given[row] || strcmp(values->text[row], one) == 0)
		return FAULT_NONE;
	*out = 1;
	if (strcmp(values->text[row], other) == 0)
		return FAULT_NONE;
	(void)snprintf(allowed, sizeof allowed, "%s or %s", one, other);
	return refuse(rows[row].name, values->text[row], allowed, faults);
}

static enum fault read_options(struct asked *asked, const struct opt_values *values,
			       struct fault_list *faults)
{
	struct traced *traced = asked->traced;
	struct known_lengths fretboard;
	int unit, hand;

	enum fault fault = read_word(&unit, values, ROW_UNIT, "mm", "in", faults);
	if (!fault)
		fault = read_word(&hand, values, ROW_HAND, "right", "left", faults);
	if (fault)
		return fault;
	traced->unit = unit == 1 ? UNIT_INCH : UNIT_MM;
	traced->hand = hand == 1 ? HAND_LEFT : HAND_RIGHT;
	traced->alike = values->given[ROW_SYMMETRIC];
	if (values->given[ROW_FRET] && !traced_points_fret(&asked->fret, values->text[ROW_FRET]))
		return refuse("fret", values->text[ROW_FRET], "\"nut\" or a fret from 0 to 36",
			      faults);
	fault = known_lengths_read(&asked->width, "width", values->text[ROW_WIDTH], traced->unit,
				   20.0, 140.0, faults);
	if (!fault)
		fault = known_lengths_read(&asked->thickness, "thickness",
					   values->text[ROW_THICKNESS], traced->unit, 5.0, 60.0,
					   faults);
	if (!fault)
		fault = known_lengths_read(&fretboard, "fretboard", values->text[ROW_FRETBOARD],
					   traced->unit, 0.0, 15.0, faults);
	if (!fault && fretboard.count > 0)
		return refuse("fretboard", values->text[ROW_FRETBOARD], "one length", faults);
	traced->fretboard_mm = fault ? 0.0 : fretboard.everywhere_mm;
	return fault;
}

/* A fault of geometry is told of the file and the station. */
static enum fault tell(struct fault_list *faults, const struct fault_list *met, enum fault fault,
		       const char *path, double fret, bool several)
{
	for (size_t i = 0; i < met->count; i++) {
		const struct fault_record *record = &met->record[i];
		if (several)
			(void)fault_add(faults, record->code, path, 0, NULL, "Station %.4g%s: %s",
					fret, fret == 0.0 ? " (the nut)" : "", record->message);
		else
			(void)fault_add(faults, record->code, path, 0, NULL, "%s", record->message);
	}
	return fault;
}

static enum fault trace_station(const struct asked *asked, struct traced_points *points, size_t i,
				const char *path, struct fault_list *faults)
{
	struct traced_station *station = &asked->traced->station[i];
	struct fault_list met = { 0 };
	double fret = points->station[i].fret;
	const struct trace_ask ask = { .alike = asked->traced->alike,
				       .width_mm = known_lengths_at(&asked->width, fret),
				       .thickness_mm = known_lengths_at(&asked->thickness, fret) };

	station->fret = fret;
	enum fault fault = trace_section_make(&station->section,
					      points->point + points->station[i].first,
					      points->station[i].count, &ask, &met);
	return fault ? tell(faults, &met, fault, path, fret, points->station_count > 1)
		     : FAULT_NONE;
}

/* A length without a fret would say that all stations measure the same. */
static enum fault check_known(const struct asked *asked, size_t station_count,
			      struct fault_list *faults)
{
	if (station_count < 2 ||
	    (asked->width.everywhere_mm == 0.0 && asked->thickness.everywhere_mm == 0.0))
		return FAULT_NONE;
	return fault_add(faults, FAULT_USAGE, NULL, 0, NULL,
			 "The file holds %zu stations: say which one a length is of, as in "
			 "nut=43.5,11=53.",
			 station_count);
}

static enum fault trace_all(struct asked *asked, const char *path, struct fault_list *faults)
{
	struct traced_points points;
	enum fault first =
		traced_points_read(&points, path, asked->traced->unit, asked->fret, faults);

	if (!first)
		first = check_known(asked, points.station_count, faults);
	bool readable = !first;
	asked->traced->count = points.station_count;
	for (size_t i = 0; readable && i < points.station_count; i++) {
		enum fault fault = trace_station(asked, &points, i, path, faults);
		first = first ? first : fault;
	}
	traced_points_free(&points);
	return first;
}

/* The stations' text in memory, so that the file appears whole or not at all. */
static enum fault write_stations(const char *path, const struct traced *traced,
				 struct fault_list *faults)
{
	char *text = NULL;
	size_t size = 0;
	FILE *out = open_memstream(&text, &size);

	if (!out)
		return fault_no_memory(faults, "the stations' text");
	stations_text_write(out, traced);
	int failed = ferror(out);
	enum fault fault = fclose(out) != 0 || failed
				   ? fault_no_memory(faults, "the stations' text")
				   : text_file_write(path, text, size, faults);
	free(text);
	return fault;
}

static enum fault print_json(const struct traced *traced, struct fault_list *faults)
{
	char *text = NULL;
	enum fault fault = traced_json_text(&text, traced, faults);

	if (!fault)
		(void)fputs(text, stdout);
	free(text);
	return fault;
}

/* The file first: what is printed then tells of what stands on the disk. */
static enum fault tell_all(const struct traced *traced, const struct opt_values *values,
			   struct fault_list *faults)
{
	enum fault fault = FAULT_NONE;

	if (values->given[ROW_OUT])
		fault = write_stations(values->text[ROW_OUT], traced, faults);
	if (fault)
		return fault;
	if (values->given[ROW_JSON])
		return print_json(traced, faults);
	if (values->given[ROW_OUT])
		traced_table_print(stdout, traced, "");
	else
		stations_text_write(stdout, traced);
	return FAULT_NONE;
}

static enum fault trace(struct asked *asked, const struct opt_values *values,
			struct fault_list *faults)
{
	if (!asked->traced)
		return fault_no_memory(faults, "the stations");
	enum fault fault = read_options(asked, values, faults);
	if (!fault)
		fault = trace_all(asked, values->argument[0], faults);
	if (!fault)
		fault = tell_all(asked->traced, values, faults);
	return fault;
}

int cmd_trace(int argc, char **argv)
{
	struct opt_values values = { 0 };
	struct fault_list faults = { 0 };
	struct asked asked = { 0 };
	enum opt_outcome outcome = opt_read(&values, &command, argc, argv, stdout, stderr);

	if (outcome != OPT_GOOD)
		return outcome == OPT_HELP ? EXIT_GOOD : EXIT_USAGE;
	asked.traced = mem_array(1, sizeof *asked.traced);
	enum fault fault = trace(&asked, &values, &faults);
	free(asked.traced);
	load_print_faults(&faults, stderr);
	return fault == FAULT_USAGE ? EXIT_USAGE : fault ? EXIT_FAULT : EXIT_GOOD;
}
