/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/along.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"

/* Places closer than this are one, mm; steps are looked at this far before and
 * behind. Far below what is printed, far above the rounding of a length. */
#define SAME_PLACE_MM 1e-6

/* A line that differs by less before and behind makes no step, mm: what the
 * page's data are rounded to. */
#define NO_STEP_MM 1e-4

/* A stretch is halved at most so often, and as long as a line's middle departs
 * from the straight by more than half of what is allowed: the middle need not
 * be where it departs most. */
#define HALVINGS_MOST 4
#define ROWS_PER_PLACE (2 + (1 << HALVINGS_MOST) - 1)
#define BEND_MM (ALONG_HAIR_MM / 2.0)

/* Places beside the corners of the blank's outlines: ends, heel, channel and
 * fretboard. */
#define OWN_PLACES 8
#define OUTLINES 4

struct places {
	size_t count, most;
	double *x_mm;
};

const char *along_key(enum along_line line)
{
	static const char *const keys[ALONG_LINES] = {
		"x_mm",		  "crest_mm",	   "base_mm",	      "fretboard_half_mm",
		"edge_minus_mm",  "edge_plus_mm",  "blank_top_mm",    "blank_bottom_mm",
		"blank_minus_mm", "blank_plus_mm", "channel_floor_mm"
	};

	return keys[line];
}

static void add_place(struct places *places, double x_mm)
{
	if (places->count < places->most && isfinite(x_mm))
		places->x_mm[places->count++] = x_mm;
}

static void add_corners(struct places *places, const struct outline *outline)
{
	for (size_t i = 0; i < outline->count; i++)
		add_place(places, outline->x_mm[i]);
}

static double last_fret_mm(const struct neck *neck)
{
	return neck_fret_x_mm(neck, (double)neck_spec_of(neck)->fret_count);
}

/* Where a line may bend, begin or end. */
static void add_own(struct places *places, const struct neck *neck)
{
	const struct channel_spec *channel = &neck_spec_of(neck)->channel;

	add_place(places, neck_from_mm(neck));
	add_place(places, neck_to_mm(neck));
	add_place(places, neck_heel_start_mm(neck));
	add_place(places, neck_heel_proper_mm(neck));
	add_place(places, 0.0);
	add_place(places, last_fret_mm(neck));
	if (channel->width_mm > 0.0) {
		add_place(places, channel->from_mm);
		add_place(places, channel->to_mm);
	}
}

static int by_place(const void *a, const void *b)
{
	double first = *(const double *)a, second = *(const double *)b;

	return (first > second) - (first < second);
}

/* All places in order, none twice. */
static enum fault find_places(struct places *out, const struct job *job, const struct neck *neck,
			      struct fault_list *faults)
{
	double from = fmin(blank_from_mm(&job->blank), neck_from_mm(neck));
	double to = fmax(fmax(blank_to_mm(&job->blank), neck_to_mm(neck)), last_fret_mm(neck));
	double first = ceil(from / ALONG_STEP_MM);
	size_t steps = (size_t)(floor(to / ALONG_STEP_MM) - first) + 1, kept = 0;

	out->most = steps + (size_t)OUTLINES * BLANK_POINTS_MAX + OWN_PLACES;
	out->x_mm = mem_array(out->most, sizeof *out->x_mm);
	if (!out->x_mm)
		return fault_no_memory(faults, "the page's lines");
	for (size_t i = 0; i < steps; i++)
		add_place(out, (first + (double)i) * ALONG_STEP_MM);
	add_corners(out, &job->blank.top);
	add_corners(out, &job->blank.bottom);
	add_corners(out, blank_side(&job->blank, BLANK_MINUS));
	add_corners(out, blank_side(&job->blank, BLANK_PLUS));
	add_own(out, neck);
	qsort(out->x_mm, out->count, sizeof *out->x_mm, by_place);
	for (size_t i = 0; i < out->count; i++)
		if (kept == 0 || out->x_mm[i] - out->x_mm[kept - 1] > SAME_PLACE_MM)
			out->x_mm[kept++] = out->x_mm[i];
	out->count = kept;
	return FAULT_NONE;
}

/* Value of an outline just beside x; NAN beyond its ends. */
static double outline_beside(const struct outline *outline, double x_mm)
{
	bool inside = outline->count > 0 && x_mm >= outline->x_mm[0] &&
		      x_mm <= outline->x_mm[outline->count - 1];

	return inside ? outline_value_mm(outline, x_mm) : NAN;
}

static void lines_at(double value_mm[ALONG_LINES], const struct job *job, const struct neck *neck,
		     double x_mm)
{
	const struct channel_spec *channel = &neck_spec_of(neck)->channel;
	bool on_neck = x_mm >= neck_from_mm(neck) && x_mm <= neck_to_mm(neck);
	bool on_board = x_mm >= 0.0 && x_mm <= last_fret_mm(neck);
	bool in_channel = channel->width_mm > 0.0 && x_mm >= channel->from_mm &&
			  x_mm <= channel->to_mm;

	value_mm[ALONG_X] = x_mm;
	value_mm[ALONG_CREST] = on_neck ? neck_crest_mm(neck, x_mm) : NAN;
	value_mm[ALONG_BASE] = on_neck ? neck_base_mm(neck, x_mm) : NAN;
	value_mm[ALONG_FRETBOARD_HALF] = on_board ? neck_fretboard_width_mm(neck, x_mm) / 2.0 : NAN;
	value_mm[ALONG_EDGE_MINUS] = on_neck ? neck_half_breadth_mm(neck, SIDE_MINUS, x_mm, 0.0)
					     : NAN;
	value_mm[ALONG_EDGE_PLUS] = on_neck ? neck_half_breadth_mm(neck, SIDE_PLUS, x_mm, 0.0)
					    : NAN;
	value_mm[ALONG_BLANK_TOP] = outline_beside(&job->blank.top, x_mm);
	value_mm[ALONG_BLANK_BOTTOM] = outline_beside(&job->blank.bottom, x_mm);
	value_mm[ALONG_BLANK_MINUS] = outline_beside(blank_side(&job->blank, BLANK_MINUS), x_mm);
	value_mm[ALONG_BLANK_PLUS] = outline_beside(blank_side(&job->blank, BLANK_PLUS), x_mm);
	value_mm[ALONG_CHANNEL_FLOOR] = in_channel ? channel->depth_mm : NAN;
}

static bool makes_step(const double before[ALONG_LINES], const double behind[ALONG_LINES])
{
	for (size_t line = ALONG_X + 1; line < ALONG_LINES; line++) {
		if (isnan(before[line]) != isnan(behind[line]))
			return true;
		if (fabs(before[line] - behind[line]) > NO_STEP_MM)
			return true;
	}
	return false;
}

/* A place and all lines there. */
struct row {
	double value_mm[ALONG_LINES];
};

static void add_row(struct along *along, const struct row *row)
{
	for (size_t line = 0; line < ALONG_LINES; line++)
		along->value_mm[line][along->count] = row->value_mm[line];
	along->count++;
}

static bool bends(const struct row *left, const struct row *middle, const struct row *right)
{
	for (size_t line = ALONG_X + 1; line < ALONG_LINES; line++) {
		double straight = (left->value_mm[line] + right->value_mm[line]) / 2.0;
		if (fabs(middle->value_mm[line] - straight) > BEND_MM)
			return true;
	}
	return false;
}

/* Adds rows between two, so many that all lines look straight between them. */
static void add_between(struct along *along, const struct job *job, const struct neck *neck,
			const struct row *left, const struct row *right, int halvings)
{
	struct row middle;
	double x_mm = (left->value_mm[ALONG_X] + right->value_mm[ALONG_X]) / 2.0;

	lines_at(middle.value_mm, job, neck, x_mm);
	if (halvings == 0 || !bends(left, &middle, right))
		return;
	add_between(along, job, neck, left, &middle, halvings - 1);
	add_row(along, &middle);
	add_between(along, job, neck, &middle, right, halvings - 1);
}

static void add_rows(struct along *along, const struct job *job, const struct neck *neck,
		     const struct places *places)
{
	struct row before, behind, last;

	for (size_t i = 0; i < places->count; i++) {
		double x_mm = places->x_mm[i];
		lines_at(before.value_mm, job, neck, x_mm - 2.0 * SAME_PLACE_MM);
		lines_at(behind.value_mm, job, neck, x_mm + 2.0 * SAME_PLACE_MM);
		before.value_mm[ALONG_X] = behind.value_mm[ALONG_X] = x_mm;
		if (i > 0) {
			add_between(along, job, neck, &last, &before, HALVINGS_MOST);
			if (makes_step(before.value_mm, behind.value_mm))
				add_row(along, &before);
		}
		add_row(along, &behind);
		last = behind;
	}
}

enum fault along_make(struct along *out, const struct job *job, const struct neck *neck,
		      struct fault_list *faults)
{
	struct places places = { 0 };
	enum fault fault = find_places(&places, job, neck, faults);

	*out = (struct along){ 0 };
	for (size_t line = 0; line < ALONG_LINES && !fault; line++) {
		out->value_mm[line] = mem_array(ROWS_PER_PLACE * places.count, sizeof(double));
		if (!out->value_mm[line])
			fault = fault_no_memory(faults, "the page's lines");
	}
	if (!fault)
		add_rows(out, job, neck, &places);
	free(places.x_mm);
	return fault;
}

void along_free(struct along *along)
{
	if (!along)
		return;
	for (size_t line = 0; line < ALONG_LINES; line++)
		free(along->value_mm[line]);
	*along = (struct along){ 0 };
}
