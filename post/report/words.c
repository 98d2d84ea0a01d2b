/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Two places closer than this count as one in words, mm: what is printed. */
#define SAME_PLACE_MM 0.0005

#define PART_ROOM 96

static bool same(double a_mm, double b_mm)
{
	return fabs(a_mm - b_mm) < SAME_PLACE_MM;
}

/* A number with a point in any locale, at most six significant digits. */
static void number_words(char *out, double value)
{
	(void)snprintf(out, WORDS_FRET_ROOM, "%.6g", value);
	char *comma = strchr(out, ',');
	if (comma)
		*comma = '.';
}

const char *words_side(const struct neck_spec *neck, enum neck_side side)
{
	bool bass = (neck->hand == HAND_RIGHT) == (side == SIDE_PLUS);

	return bass ? "bass side" : "treble side";
}

/* A slab or a tenon that begins at the body joint says so: one place, one name. */
#define JOINT_NEAR_MM 0.2

const char *words_heel_place(const struct neck *neck)
{
	const struct neck_spec *spec = neck_spec_of(neck);
	double from_joint_mm = neck_fret_x_mm(neck, spec->joint_fret) - neck_heel_proper_mm(neck);
	bool at_joint = fabs(from_joint_mm) < JOINT_NEAR_MM;

	switch (spec->heel.kind) {
	case HEEL_FLAT:
		return at_joint ? "slab, body joint" : "slab begins";
	case HEEL_SET:
		return "tenon, body joint";
	case HEEL_BLOCK:
	case HEEL_KIND_COUNT:
		break;
	}
	return "cap front";
}

void words_fret(char *out, double fret)
{
	if (fret == 0.0)
		(void)snprintf(out, WORDS_FRET_ROOM, "nut");
	else
		number_words(out, fret);
}

/* A margin is told in steps of this; less is none. */
#define LEAST_MARGIN_MM 0.005

void words_margin(char *out, const struct job *job)
{
	double margin_mm = job->blank.margin_mm;

	if (margin_mm < LEAST_MARGIN_MM)
		(void)snprintf(out, WORDS_MARGIN_ROOM, "exactly on");
	else
		(void)snprintf(out, WORDS_MARGIN_ROOM, "within %.2f mm (%.3f in) of", margin_mm,
			       units_inch_from_mm(margin_mm));
}

static void along_words(char *out, double x_mm)
{
	char number[WORDS_FRET_ROOM];

	number_words(number, fabs(x_mm));
	if (same(x_mm, 0.0))
		(void)snprintf(out, PART_ROOM, "at the nut's front edge");
	else
		(void)snprintf(out, PART_ROOM, "%s mm from the nut's front edge toward the %s",
			       number, x_mm > 0.0 ? "body" : "peghead");
}

static void across_words(char *out, double y_mm, const struct neck_spec *neck)
{
	char number[WORDS_FRET_ROOM];

	number_words(number, fabs(y_mm));
	if (same(y_mm, 0.0))
		(void)snprintf(out, PART_ROOM, "on the centre line");
	else
		(void)snprintf(out, PART_ROOM, "%s mm from the centre line on the %s", number,
			       words_side(neck, y_mm > 0.0 ? SIDE_PLUS : SIDE_MINUS));
}

static void height_words(char *out, const struct job *job)
{
	double z_mm = job->fixture.work_zero_mm.z;
	char number[WORDS_FRET_ROOM];

	number_words(number, fabs(z_mm));
	if (same(z_mm, 0.0))
		(void)snprintf(out, PART_ROOM, "level with the gluing face");
	else if (same(z_mm, job_bed_mm(job)))
		(void)snprintf(out, PART_ROOM, "on the machine's bed");
	else if (same(z_mm, blank_highest_mm(&job->blank)))
		(void)snprintf(out, PART_ROOM, "level with the blank's highest wood");
	else
		(void)snprintf(out, PART_ROOM, "%s mm %s the gluing face", number,
			       z_mm > 0.0 ? "above" : "below");
}

/* The builder's own words for where along the neck, with the figure. */
static void stated_along_words(char *out, const struct job *job)
{
	double x_mm = job->fixture.work_zero_mm.x;
	char number[WORDS_FRET_ROOM];

	number_words(number, x_mm);
	if (job->fixture.zero.along == ZERO_NUT)
		along_words(out, x_mm);
	else
		(void)snprintf(out, PART_ROOM, "at the %s, %s mm from the nut's front edge",
			       job->fixture.zero.along == ZERO_HEEL ? "heel's end"
								    : "blank's end toward the body",
			       number);
}

/* The same for the height, where a figure alone would not show what is meant. */
static void stated_height_words(char *out, const struct job *job)
{
	const struct zero_spec *zero = &job->fixture.zero;
	char number[WORDS_FRET_ROOM];

	number_words(number, zero->top_at_mm);
	if (zero->height == ZERO_BED)
		(void)snprintf(out, PART_ROOM, "on the machine's bed");
	else if (zero->height == ZERO_BLANK_TOP)
		(void)snprintf(out, PART_ROOM, "level with the blank's top %s mm from the nut",
			       number);
	else if (zero->height == ZERO_FRETBOARD_FACE)
		(void)snprintf(out, PART_ROOM, "level with the fretboard's face");
	else
		height_words(out, job);
}

void words_zero(char *out, const struct job *job)
{
	char along[PART_ROOM], across[PART_ROOM], height[PART_ROOM];

	across_words(across, job->fixture.work_zero_mm.y, &job->neck);
	if (job->fixture.zero.by_words) {
		stated_along_words(along, job);
		stated_height_words(height, job);
	} else {
		along_words(along, job->fixture.work_zero_mm.x);
		height_words(height, job);
	}
	(void)snprintf(out, WORDS_ZERO_ROOM, "Program zero is %s, %s, %s.", along, across, height);
}

void words_chisel_place(char *out, const struct neck_spec *neck, const struct chisel_place *place)
{
	const char *side = words_side(neck, place->side < 0 ? SIDE_MINUS : SIDE_PLUS), *name = "";

	switch (place->zone) {
	case ZONE_BACK:
		name = "back";
		break;
	case ZONE_SIDES:
		name = "edge";
		break;
	case ZONE_HEEL_CHEEKS:
		name = "heel cheek";
		break;
	case ZONE_TRANSITIONS:
		name = place->x_to_mm > 0.0 ? "heel's nose" : "peghead's transition";
		break;
	case ZONE_COUNT:
		break;
	}
	(void)snprintf(out, WORDS_PLACE_ROOM, "%s%s%s", name, place->side ? ", " : "",
		       place->side ? side : "");
}

/* Index of the cutter that lacks least stickout; the count when none would do. */
static size_t least_lacking(const struct job_result *result)
{
	size_t best = result->stickout_count;
	double least_mm = INFINITY;

	for (size_t i = 0; i < result->stickout_count; i++) {
		const struct stickout_figures *figures = &result->stickout[i];
		double lacks_mm = figures->finishes_mm - figures->has_mm;
		if (!(lacks_mm < least_mm)) /* NAN lacks everything */
			continue;
		least_mm = lacks_mm;
		best = i;
	}
	return best;
}

static void longest_words(char *out, double longest_mm, double finishes_mm)
{
	char number[WORDS_FRET_ROOM];

	number_words(number, floor(longest_mm * 10.0) / 10.0);
	if (!isfinite(longest_mm))
		(void)snprintf(out, WORDS_STICKOUT_ROOM,
			       " Whether that passes under the spindle is not known: state "
			       "machine.z_gap.");
	else if (longest_mm >= finishes_mm)
		(void)snprintf(
			out, WORDS_STICKOUT_ROOM,
			" The machine can lift and change cutters that stick out up to %s mm.",
			number);
	else
		(void)snprintf(out, WORDS_STICKOUT_ROOM,
			       " But this machine can lift and change cutters that stick out %s mm "
			       "at most.",
			       number);
}

void words_stickout(char *out, const struct job *job, const struct job_result *result)
{
	char longest[WORDS_STICKOUT_ROOM], has[WORDS_FRET_ROOM], finishes[WORDS_FRET_ROOM];
	size_t best = least_lacking(result);

	out[0] = '\0';
	if (result->chisel.place_count == 0 || result->stickout_count == 0)
		return;
	if (best == result->stickout_count) {
		(void)snprintf(out, WORDS_STICKOUT_ROOM,
			       "No longer stickout would reach it: a shank is in the way.");
		return;
	}
	const struct stickout_figures *figures = &result->stickout[best];
	number_words(has, figures->has_mm);
	number_words(finishes, ceil(figures->finishes_mm * 10.0 - 1e-6) / 10.0);
	longest_words(longest, figures->longest_mm, figures->finishes_mm);
	(void)snprintf(out, WORDS_STICKOUT_ROOM,
		       "With %s mm of stickout instead of %s mm the cutter \"%.60s\" would reach "
		       "all of it.%.120s",
		       finishes, has, job->cutter[best].name, longest);
}
