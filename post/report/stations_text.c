/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/stations_text.h"

#include <stdbool.h>

#include "report/traced_table.h"
#include "version.h"

#define PAIRS_A_LINE 4

static void write_outline(FILE *out, const struct section_outline *outline)
{
	(void)fputs("outline = (", out);
	for (size_t i = 0; i < outline->count; i++)
		(void)fprintf(out, "%s%s(%.4f, %.4f)", i > 0 ? "," : "",
			      i % PAIRS_A_LINE == 0 ? "\n      " : " ", outline->height[i],
			      outline->breadth[i]);
	(void)fputs(");", out);
}

static void write_side(FILE *out, const struct traced *traced, size_t station, bool bass)
{
	(void)fprintf(out, "    %s = { ", bass ? "bass" : "treble");
	write_outline(out, traced_outline(traced, station, bass));
	(void)fputs(" };\n", out);
}

static void write_station(FILE *out, const struct traced *traced, size_t i)
{
	const struct traced_station *station = &traced->station[i];
	double thickness_mm = station->section.thickness_mm + traced->fretboard_mm;
	bool inch = traced->unit == UNIT_INCH;

	if (station->fret == 0.0)
		(void)fputs("  { fret = \"nut\";", out);
	else
		(void)fprintf(out, "  { fret = %.6g;", station->fret);
	(void)fprintf(out, " thickness = %.*f; shape = \"measured\";\n", inch ? 4 : 2,
		      thickness_mm / units_mm_per(traced->unit));
	if (traced->alike) {
		(void)fputs("    ", out);
		write_outline(out, traced_outline(traced, i, true));
		(void)fputc('\n', out);
	} else {
		write_side(out, traced, i, true);
		write_side(out, traced, i, false);
	}
	(void)fprintf(out, "  }%s\n", i + 1 < traced->count ? "," : "");
}

void stations_text_write(FILE *out, const struct traced *traced)
{
	bool inch = traced->unit == UNIT_INCH;

	(void)fprintf(out, "# Stations traced by %s %s.\n#\n", NECKHEW_NAME, NECKHEW_VERSION);
	traced_table_print(out, traced, "# ");
	(void)fputs("#\n", out);
	if (traced->fretboard_mm > 0.0)
		(void)fprintf(out,
			      "# Thicknesses span the wood and a fretboard of %.4g %s: for a neck\n"
			      "# with thickness_over_fretboard = true.\n",
			      traced->fretboard_mm / units_mm_per(traced->unit),
			      inch ? "in" : "mm");
	else
		(void)fputs("# Thicknesses are those of the wood: for a neck with\n"
			    "# thickness_over_fretboard = false.\n",
			    out);
	(void)fprintf(out, "units = \"%s\";\n\nstations = (\n", inch ? "in" : "mm");
	for (size_t i = 0; i < traced->count; i++)
		write_station(out, traced, i);
	(void)fputs(");\n", out);
}
