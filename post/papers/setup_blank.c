/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/setup_blank.h"

#include <math.h>
#include <stdio.h>

#include "papers/places.h"
#include "report/words.h"

/* The ends are measured this far inside, where a caliper has hold, mm. */
#define INSIDE_MM 10.0
/* A slope is taken over so much either way, mm. */
#define NEAR_MM 0.5

enum kind { LENGTH, THICKNESS, WIDTH };

/* One dimension of the blank. */
struct dimension {
	char what[PLACES_NAME_ROOM + 32];
	double x_mm; /* NAN: all of it */
	double least_mm, drawn_mm, most_mm;
};

#define DIMENSIONS_MAX (1 + 2 * (PLACES_MAX + 2))

struct dimensions {
	const struct blank *blank;
	size_t count;
	struct dimension item[DIMENSIONS_MAX];
};

static double side_mm(const struct blank *blank, enum blank_side side, double x)
{
	return outline_value_mm(blank_side(blank, side), x);
}

/* Rise of an outline along x, between two places near x on one piece of it or
 * across a bend. */
static double slope_at(const struct outline *outline, double x)
{
	return (outline_value_mm(outline, x + NEAR_MM) - outline_value_mm(outline, x - NEAR_MM)) /
	       (2.0 * NEAR_MM);
}

/* What a caliper held square to the under side shows of a height straight up: d
 * with d cos a = h - s d sin a, for an under side that rises at the angle a and
 * a top that rises s per mm (elementary geometry). */
static double square_share(const struct blank *blank, double x)
{
	double angle = atan(slope_at(&blank->bottom, x));

	return 1.0 / (cos(angle) + slope_at(&blank->top, x) * sin(angle));
}

/* The margin's window along x takes steps and slopes in: a place beside a step
 * may be on either side of it. */
static void add_at(struct dimensions *out, const char *place, double x)
{
	const struct blank *blank = out->blank;
	double bottom = outline_value_mm(&blank->bottom, x), share = square_share(blank, x);
	struct dimension *thick = &out->item[out->count++], *wide = &out->item[out->count++];

	*thick =
		(struct dimension){ .x_mm = x,
				    .least_mm = share * (blank_top_least_mm(blank, x, x) - bottom),
				    .drawn_mm = share * (outline_value_mm(&blank->top, x) - bottom),
				    .most_mm = share * (blank_top_most_mm(blank, x, x) - bottom) };
	(void)snprintf(thick->what, sizeof thick->what, "thickness, %s", place);
	*wide = (struct dimension){ .x_mm = x };
	for (int k = 0; k < BLANK_SIDES; k++) {
		enum blank_side side = (enum blank_side)k;
		wide->least_mm += blank_side_least_mm(blank, side, x, x);
		wide->drawn_mm += side_mm(blank, side, x);
		wide->most_mm += blank_side_most_mm(blank, side, x, x);
	}
	(void)snprintf(wide->what, sizeof wide->what, "width, %s", place);
}

static void find(struct dimensions *out, const struct paper_content *content)
{
	struct place_figures place[PLACES_MAX];
	const struct blank *blank = &content->job->blank;
	double from = blank_from_mm(blank), to = blank_to_mm(blank), length = to - from;
	size_t places = places_of(place, content);

	*out = (struct dimensions){ .blank = blank, .count = 1 };
	out->item[0] = (struct dimension){ "length", NAN, length, length,
					   length + 2.0 * blank->margin_mm };
	add_at(out, "peghead end", from + INSIDE_MM);
	for (size_t i = 0; i < places; i++) {
		char name[PLACES_NAME_ROOM];
		places_name(name, place[i].at.fret);
		if (place[i].at.x_mm > from + INSIDE_MM && place[i].at.x_mm < to - INSIDE_MM)
			add_at(out, name, place[i].at.x_mm);
	}
	add_at(out, "body end", to - INSIDE_MM);
}

static void cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	const struct dimension *d = &((const struct dimensions *)context)->item[row];
	const double figure[] = { d->x_mm, d->least_mm, d->drawn_mm, d->most_mm };

	out[0] = '\0';
	if (column == 0)
		(void)snprintf(out, FLOW_CELL_ROOM, "%s", d->what);
	else if (column < 9 && (column > 2 || isfinite(d->x_mm))) {
		if (column % 2 == 1)
			flow_mm(out, figure[(column - 1) / 2]);
		else
			flow_inch(out, figure[(column - 1) / 2]);
	}
}

void setup_blank_put(struct flow *flow, const struct paper_content *content)
{
	static const struct flow_column column[] = {
		{ .head = "dimension", .width_mm = 52.0, .words = true },
		{ .group = "x from the nut", .head = "mm", .width_mm = 19.0 },
		{ .group = "x from the nut", .head = "in", .width_mm = 17.0 },
		{ .group = "least", .head = "mm", .width_mm = 18.0 },
		{ .group = "least", .head = "in", .width_mm = 17.0 },
		{ .group = "as drawn", .head = "mm", .width_mm = 18.0 },
		{ .group = "as drawn", .head = "in", .width_mm = 17.0 },
		{ .group = "most", .head = "mm", .width_mm = 18.0 },
		{ .group = "most", .head = "in", .width_mm = 17.0 },
		{ .head = "found", .width_mm = 20.0, .write = true },
	};
	struct dimensions found;
	char margin[WORDS_MARGIN_ROOM], text[480];

	find(&found, content);
	const struct flow_table table = { 10, column, found.count, cell, &found };
	words_margin(margin, content->job);
	(void)snprintf(
		text, sizeof text,
		"Top and sides lie %s their outlines, and the proof holds for every "
		"such blank. Thickness counts square to the under side, which is planed as drawn; the "
		"ends are not short. A zero "
		"taken from the blank's top holds only where the blank is as thick as drawn.",
		margin);
	flow_heading(flow, "The blank: measure it before it is clamped", 40.0);
	flow_text(flow, TEXT_BODY, 3, text);
	flow_table(flow, &table);
}
