/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/check_table.h"

#include <math.h>
#include <stdio.h>

#include "base/units.h"
#include "model/heel.h"
#include "model/joint.h"
#include "model/section.h"
#include "report/check_figures.h"
#include "report/columns.h"
#include "report/words.h"
#include "version.h"

/* A length in mm and in inches. */
static void both_units(FILE *out, double length_mm)
{
	columns_number(out, 10, 3, length_mm);
	columns_number(out, 10, 4, units_inch_from_mm(length_mm));
}

/* A line "label   mm   in  note". */
static void figure(FILE *out, const char *label, double length_mm, const char *note)
{
	(void)fputs("  ", out);
	columns_text(out, 34, 1, label);
	both_units(out, length_mm);
	(void)fprintf(out, "%s%s\n", note[0] ? "  " : "", note);
}

static void print_head(FILE *out, const struct job *job)
{
	(void)fprintf(out, "%s %s, neck \"", NECKHEW_NAME, NECKHEW_VERSION);
	columns_text(out, COLUMNS_MOST - 30, 0, job->neck.name);
	(void)fprintf(out, "\"\ninputs %s\n", job->digest);
	(void)fputs("machine ", out);
	columns_text(out, 60, 0, job->machine.name);
	for (size_t i = 0; i < job->cutter_count; i++) {
		(void)fputs(i == 0 ? "\ncutter  " : "\nthen    ", out);
		columns_text(out, 60, 0, job->cutter[i].name);
	}
	(void)fputs("\nwood    ", out);
	columns_text(out, 60, 0, job->wood.name);
	(void)fputc('\n', out);
}

static void print_frets(FILE *out, const struct neck *neck)
{
	const struct neck_spec *spec = neck_spec_of(neck);

	(void)fputs("\nFRETS                      from the nut             fretboard width\n"
		    "  fret                     mm        in              mm        in\n",
		    out);
	for (int fret = 0; fret <= spec->fret_count; fret++) {
		char name[WORDS_FRET_ROOM];
		double x = neck_fret_x_mm(neck, fret);
		words_fret(name, fret);
		(void)fputs("  ", out);
		columns_text(out, 16, 1, name);
		both_units(out, x);
		(void)fputs("      ", out);
		both_units(out, neck_fretboard_width_mm(neck, x));
		(void)fputs(fret == spec->joint_fret ? "  body joint\n" : "\n", out);
	}
}

static void print_station(FILE *out, const struct neck *neck, const struct station_spec *station)
{
	char name[WORDS_FRET_ROOM];
	double x = neck_fret_x_mm(neck, station->fret);

	words_fret(name, station->fret);
	(void)fputs("  ", out);
	columns_text(out, 7, 1, name);
	columns_number(out, 10, 3, x);
	both_units(out, neck_stated_thickness_mm(neck, x));
	both_units(out, neck_crest_mm(neck, x) - neck_base_mm(neck, x));
	columns_number(out, 9, 3, neck_wood_over_channel_mm(neck, x));
	(void)fprintf(out, "  %s", section_family_name(station->bass.family));
	if (station->treble.family != station->bass.family)
		(void)fprintf(out, "/%s", section_family_name(station->treble.family));
	(void)fputc('\n', out);
}

static void print_stations(FILE *out, const struct neck *neck)
{
	const struct neck_spec *spec = neck_spec_of(neck);

	(void)fprintf(out, "\nSTATIONS           finished %-20swood alone   over rod shape\n",
		      spec->over_fretboard ? "with fretboard" : "as stated (wood)");
	(void)fputs("  fret         mm        mm        in        mm        in       mm\n", out);
	for (size_t i = 0; i < spec->station_count; i++)
		print_station(out, neck, &spec->station[i]);
}

static void print_cap(FILE *out, const struct heel_spec *heel)
{
	struct cap_plan_curve curve = cap_plan_curve(heel);

	if (heel->cap_plan != CAP_SQUARE)
		figure(out,
		       heel->cap_plan == CAP_ROUND ? "round front of the cap"
						   : "pointed front of the cap",
		       curve.length_mm, "along the neck");
	figure(out, "cap width, front", heel->cap_width_front_mm,
	       heel->cap_plan == CAP_SQUARE ? "" : "where its curve ends");
	figure(out, "cap width, at the body", heel->cap_width_back_mm, "");
	figure(out, "hollow of the cheeks", heel->hollow_mm, "");
	if (heel->hollow_mm > 0.0)
		figure(out, "straight rims of the cheeks", heel->hollow_rim_mm, "");
}

static void print_joint(FILE *out, const struct neck_spec *spec)
{
	struct joint_box box;
	char name[48];

	if (!joint_keep_out(&box, spec))
		return;
	(void)snprintf(name, sizeof name, "%s, to be kept clear",
		       joint_name(spec->heel.joint.kind));
	figure(out, name, box.x_to_mm - box.x_from_mm, "out of the neck's end");
	figure(out, "  its width", box.y_to_mm - box.y_from_mm, "");
	figure(out, "  from", box.z_from_mm, "above the gluing face");
	figure(out, "  to", box.z_to_mm, "above the gluing face");
}

static void print_heel(FILE *out, const struct neck *neck)
{
	static const char *const height_names[HEEL_KIND_COUNT] = {
		[HEEL_BLOCK] = "height to the cap",
		[HEEL_FLAT] = "slab thickness",
		[HEEL_SET] = "depth of the tenon",
	};
	char name[48];
	const struct neck_spec *spec = neck_spec_of(neck);
	const struct heel_spec *heel = &spec->heel;
	double joint = neck_fret_x_mm(neck, spec->joint_fret);

	(void)fprintf(out, "\nHEEL  %-38s    mm        in\n", heel_kind_name(heel->kind));
	figure(out, "shaft ends", neck_heel_start_mm(neck), "from the nut");
	(void)snprintf(name, sizeof name, "%s begins",
		       heel->kind == HEEL_BLOCK ? "cap" : heel_proper_name(heel->kind));
	figure(out, name, neck_heel_proper_mm(neck), "from the nut");
	figure(out, "body joint", joint, "from the nut");
	figure(out, "neck ends", neck_to_mm(neck), "from the nut");
	figure(out, height_names[heel->kind], heel->height_mm, "");
	if (heel->kind == HEEL_BLOCK)
		print_cap(out, heel);
	if (heel->kind == HEEL_SET)
		figure(out, "tenon width", heel->tenon_width_mm, "");
	print_joint(out, spec);
}

static void print_checks(FILE *out, const struct job *job, const struct neck *neck)
{
	struct check_figures figures = check_figures_of(neck);
	char note[64];

	(void)fputs("\nCHECKS                                          mm        in\n", out);
	if (isfinite(figures.channel_least_mm)) {
		(void)snprintf(note, sizeof note, "at %.1f mm", figures.channel_least_at_mm);
		figure(out, "least wood over the rod channel", figures.channel_least_mm, note);
		figure(out, "  asked for", job->neck.channel.least_wood_mm, "");
	} else {
		(void)fputs("  no rod channel\n", out);
	}
	(void)snprintf(note, sizeof note, "%.0f to %.0f mm", figures.straight.from_mm,
		       figures.straight.to_mm);
	figure(out, "crest off a straight edge", figures.straight.crest_off_mm, note);
	for (int side = 0; side < SIDE_COUNT; side++) {
		char label[64];
		(void)snprintf(label, sizeof label, "edge, %s",
			       words_side(&job->neck, (enum neck_side)side));
		figure(out, label, figures.straight.edge_off_mm[side], "");
	}
	figure(out, "largest difference of the sides", figures.asymmetry_mm, "half-breadth");
}

static void print_allowance(FILE *out, const struct job *job)
{
	const struct allowance_spec *allowance = &job->neck.allowance;

	(void)fputs("\nHAND-FINISH STOCK                               mm        in\n", out);
	figure(out, "back", allowance->back_mm, "");
	figure(out, "sides", allowance->sides_mm, "");
	figure(out, "heel cheeks and cap", allowance->heel_cheeks_mm, "");
	figure(out, "transitions", allowance->transitions_mm, "");
}

static void print_blank(FILE *out, const struct job *job)
{
	const struct blank *blank = &job->blank;
	double from = blank_from_mm(blank), to = blank_to_mm(blank);

	(void)fputs("\nBLANK                                           mm        in\n", out);
	figure(out, "length", to - from, "as drawn");
	for (int side = 0; side < BLANK_SIDES; side++) {
		char label[64];
		(void)snprintf(label, sizeof label, "farthest side, %s",
			       words_side(&job->neck, side == BLANK_PLUS ? SIDE_PLUS : SIDE_MINUS));
		figure(out, label,
		       outline_most_mm(blank_side(blank, (enum blank_side)side), from, to),
		       "off the centre line");
	}
	figure(out, "highest wood", blank_highest_mm(blank), "over the gluing face");
	figure(out, "margin", blank->margin_mm, "in or out");
}

void check_table_print(FILE *out, const struct job *job, const struct neck *neck)
{
	print_head(out, job);
	print_frets(out, neck);
	print_stations(out, neck);
	print_heel(out, neck);
	print_checks(out, job, neck);
	print_allowance(out, job);
	print_blank(out, job);
}
