/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/ruler.h"

#include <math.h>
#include <stdio.h>

#include "base/units.h"
#include "pictures/pen.h"
#include "pictures/scale.h"

#define BAR_MM 1.5 /* thickness of a bar */
#define PITCH_MM 3.4 /* from the mm bar to the inch bar */
#define WORDS_MM 1.4 /* from a bar to its words */
#define SLACK 1e-9 /* a bar that fills its room exactly still fits */

struct inch_length {
	double inches;
	int parts;
	const char *words;
};

/* Lengths found on an inch rule; parts are halves, inches or feet of it. */
static const struct inch_length inch_lengths[] = { { 24.0, 4, "24 in" },  { 12.0, 4, "12 in" },
						   { 6.0, 6, "6 in" },	  { 4.0, 4, "4 in" },
						   { 2.0, 4, "2 in" },	  { 1.0, 4, "1 in" },
						   { 0.5, 4, "1/2 in" },  { 0.25, 2, "1/4 in" },
						   { 0.125, 2, "1/8 in" } };

#define INCH_LENGTHS (sizeof inch_lengths / sizeof inch_lengths[0])

static const struct inch_length *inch_length_of(double most_mm)
{
	size_t i = 0;

	while (i + 1 < INCH_LENGTHS &&
	       inch_lengths[i].inches * MM_PER_INCH > most_mm * (1.0 + SLACK))
		i++;
	return &inch_lengths[i];
}

struct ruler ruler_of(double scale, double room_mm)
{
	double most = room_mm / scale, power = pow(10.0, floor(log10(most * (1.0 + SLACK))));
	double mantissa = most * (1.0 + SLACK) / power;
	double times = mantissa >= 5.0 ? 5.0 : mantissa >= 2.0 ? 2.0 : 1.0;
	const struct inch_length *inch = inch_length_of(most);

	return (struct ruler){ .length_mm = times * power,
			       .mm_parts = times == 2.0 ? 4 : 5,
			       .length_in = inch->inches,
			       .inch_parts = inch->parts };
}

/* Fields of ink and paper in turn, from (x, y) to the right or upward. */
static void draw_bar(struct canvas *canvas, double x, double y, double length, int parts,
		     bool upright)
{
	for (int i = 0; i < parts; i++) {
		double at = length * i / parts, step = length / parts;
		canvas_colour(canvas, palette_colour(i % 2 ? PALETTE_PAPER : PALETTE_INK));
		if (upright)
			cairo_rectangle(canvas->pen, x, y - at - step, BAR_MM, step);
		else
			cairo_rectangle(canvas->pen, x + at, y, step, BAR_MM);
		cairo_fill(canvas->pen);
	}
	if (upright)
		cairo_rectangle(canvas->pen, x, y - length, BAR_MM, length);
	else
		cairo_rectangle(canvas->pen, x, y, length, BAR_MM);
	pen_stroke(canvas, LINE_TICK);
}

static const char *mm_words(char text[NUMBER_MAX + 8], double length_mm)
{
	char number[NUMBER_MAX];

	(void)snprintf(text, NUMBER_MAX + 8, "%s mm",
		       scale_number(number, length_mm, scale_decimals(length_mm)));
	return text;
}

double ruler_left_mm(struct canvas *canvas, double right_mm, double scale, double room_mm)
{
	struct ruler ruler = ruler_of(scale, room_mm);
	char text[NUMBER_MAX + 8];
	double mm = ruler.length_mm * scale +
		    pen_text_width_mm(canvas, TEXT_SMALL, mm_words(text, ruler.length_mm));
	double inch = ruler.length_in * MM_PER_INCH * scale +
		      pen_text_width_mm(canvas, TEXT_SMALL, inch_length_of(room_mm / scale)->words);

	return canvas_snap_mm(right_mm - WORDS_MM - fmax(mm, inch));
}

void ruler_draw(struct canvas *canvas, double right_mm, double y_mm, double scale, double room_mm)
{
	struct ruler ruler = ruler_of(scale, room_mm);
	double x = ruler_left_mm(canvas, right_mm, scale, room_mm), mm = ruler.length_mm * scale;
	double inch = ruler.length_in * MM_PER_INCH * scale, top = canvas_snap_mm(y_mm + 0.5);
	double drop = BAR_MM / 2.0 + 0.36 * pen_text_size_mm(TEXT_SMALL);
	char text[NUMBER_MAX + 8];

	draw_bar(canvas, x, top, mm, ruler.mm_parts, false);
	pen_text(canvas, x + mm + WORDS_MM, top + drop, TEXT_SMALL, ANCHOR_LEFT,
		 mm_words(text, ruler.length_mm));
	draw_bar(canvas, x, top + PITCH_MM, inch, ruler.inch_parts, false);
	pen_text(canvas, x + inch + WORDS_MM, top + PITCH_MM + drop, TEXT_SMALL, ANCHOR_LEFT,
		 inch_length_of(room_mm / scale)->words);
}

void ruler_draw_upright(struct canvas *canvas, double x_mm, double y_mm, double scale,
			double room_mm)
{
	struct ruler ruler = ruler_of(scale, room_mm);
	double length = ruler.length_mm * scale, x = canvas_snap_mm(x_mm), y = canvas_snap_mm(y_mm);
	char text[NUMBER_MAX + 8], words[2 * NUMBER_MAX];

	draw_bar(canvas, x, y, length, ruler.mm_parts, true);
	(void)snprintf(words, sizeof words, "%s of height", mm_words(text, ruler.length_mm));
	pen_text(canvas, x + BAR_MM + WORDS_MM,
		 y - length / 2.0 + 0.36 * pen_text_size_mm(TEXT_SMALL), TEXT_SMALL, ANCHOR_LEFT,
		 words);
}
