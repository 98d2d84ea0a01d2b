/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines and letters against the page that describes them. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "pictures/pen.h"
#include "support/near.h"

#define MM_PER_POINT (25.4 / 72.0)

/* What docs/look.md calls the lines. */
static const char *const line_names[LINE_KIND_COUNT] = {
	[LINE_FINISHED] = "finished",  [LINE_ROUGHED] = "roughed",
	[LINE_BLANK] = "blank",	       [LINE_BOARD] = "fretboard",
	[LINE_STATION] = "station",    [LINE_CONTOUR] = "contour",
	[LINE_TICK] = "tick, axis",    [LINE_FRAME] = "frame",
	[LINE_GRID] = "grid",	       [LINE_RULE] = "rule",
	[LINE_OUTLINE] = "outline",    [LINE_CENTRE] = "centre",
	[LINE_HIDDEN] = "hidden",      [LINE_ALLOWANCE] = "allowance",
	[LINE_HOLD] = "holding place", [LINE_STRAIGHT] = "straight edge",
	[LINE_SLANT] = "keep-out",     [LINE_CUT] = "cut",
};

static const char *colour_name(enum palette_name colour)
{
	switch (colour) {
	case PALETTE_INK:
		return "ink";
	case PALETTE_SOFT_INK:
		return "soft ink";
	case PALETTE_GRID:
		return "grid";
	case PALETTE_RULE:
		return "rule";
	case PALETTE_BROWN:
		return "brown";
	default:
		return "no colour of a line";
	}
}

/* Cuts "| a | b | c |" at its bars in place; returns the number of cells. */
static int cells_of(char *line, char *cell[6])
{
	int count = 0;

	for (char *at = strtok(line, "|\n"); at && count < 6; at = strtok(NULL, "|\n")) {
		at += strspn(at, " ");
		size_t length = strlen(at);
		while (length > 0 && at[length - 1] == ' ')
			at[--length] = '\0';
		if (length > 0)
			cell[count++] = at;
	}
	return count;
}

/* The figure of a cell such as "0.50 mm"; NAN when it has another unit. */
static double figure_before(const char *cell, const char *unit)
{
	char *end;
	double figure = strtod(cell, &end);

	return end > cell && *end == ' ' && strcmp(end + 1, unit) == 0 ? figure : NAN;
}

/* The form as the page should begin: "unbroken", "dots" or the strokes' lengths
 * in the order they are drawn. */
static void check_form(const struct pen_line_look *look, const char *form)
{
	if (look->dash_count == 0) {
		assert_true(strncmp(form, "unbroken", 8) == 0);
		return;
	}
	for (int i = 0; i < look->dash_count; i += 2) {
		const char *digit = strpbrk(form, "0123456789");
		assert_non_null(digit);
		assert_near(strtod(digit, NULL), look->dash_mm[i], 1e-9, "length of a stroke, mm");
		form = digit + strspn(digit, "0123456789.");
	}
}

static int check_line(char *cell[6])
{
	for (int kind = 0; kind < LINE_KIND_COUNT; kind++) {
		const struct pen_line_look *look = pen_line_look((enum line_kind)kind);
		if (strcmp(cell[0], line_names[kind]) != 0)
			continue;
		assert_string_equal(cell[1], colour_name(look->colour));
		assert_near(figure_before(cell[2], "mm"), look->width_mm, 1e-9, cell[0]);
		check_form(look, cell[3]);
		return 1;
	}
	return 0;
}

/* Rows of the table under "## Lines". Tests run from the top of the tree. */
static void the_page_states_every_line(void **state)
{
	(void)state;
	FILE *page = fopen("docs/look.md", "r");
	char line[512], *cell[6];
	bool inside = false;
	int rows = 0;

	assert_non_null(page);
	while (fgets(line, sizeof line, page)) {
		if (strncmp(line, "## ", 3) == 0)
			inside = strncmp(line, "## Lines", 8) == 0;
		if (inside && line[0] == '|' && cells_of(line, cell) == 4 &&
		    strcmp(cell[0], "line") != 0 && cell[0][0] != '-') {
			assert_int_equal(check_line(cell), 1);
			rows++;
		}
	}
	(void)fclose(page);
	assert_int_equal(rows, LINE_KIND_COUNT);
}

static void the_page_states_every_letter(void **state)
{
	(void)state;
	static const char *const names[TEXT_KIND_COUNT] = { "title", "heading", "body", "strong",
							    "small" };
	FILE *page = fopen("docs/look.md", "r");
	char line[512], *cell[6];
	int rows = 0;

	assert_non_null(page);
	while (fgets(line, sizeof line, page)) {
		if (line[0] != '|' || cells_of(line, cell) != 4)
			continue;
		for (int kind = 0; kind < TEXT_KIND_COUNT; kind++)
			if (strcmp(cell[0], names[kind]) == 0) {
				assert_near(pen_text_size_mm((enum text_kind)kind),
					    figure_before(cell[2], "pt") * MM_PER_POINT, 1e-9,
					    "size of letters, mm");
				rows++;
			}
	}
	(void)fclose(page);
	assert_int_equal(rows, TEXT_KIND_COUNT);
}

static bool same_form(const struct pen_line_look *p, const struct pen_line_look *q)
{
	bool same = p->width_mm == q->width_mm && p->dash_count == q->dash_count;

	for (int i = 0; same && i < p->dash_count; i++)
		same = p->dash_mm[i] == q->dash_mm[i];
	return same;
}

/* Colour alone tells no two lines apart that could be mixed up. */
static void no_two_lines_look_alike(void **state)
{
	(void)state;
	for (int a = 0; a < LINE_KIND_COUNT; a++)
		for (int b = a + 1; b < LINE_KIND_COUNT; b++) {
			const struct pen_line_look *p = pen_line_look((enum line_kind)a);
			const struct pen_line_look *q = pen_line_look((enum line_kind)b);
			bool same = same_form(p, q);
			/* contours carry figures, ticks stand on axes, rulings
			 * lie under everything, cuts are on papers alone */
			bool told_apart = a == LINE_CONTOUR || a == LINE_TICK || a == LINE_GRID ||
					  a == LINE_RULE || b == LINE_CUT;
			if (same && !told_apart)
				fail_msg("%s and %s look alike", line_names[a], line_names[b]);
		}
}

static void texts_are_shortened_to_their_room(void **state)
{
	(void)state;
	struct canvas canvas;
	char shown[PEN_TEXT_MAX], long_text[600];

	memset(long_text, 'm', sizeof long_text - 1);
	long_text[sizeof long_text - 1] = '\0';
	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, 50.0, NULL), FAULT_NONE);
	assert_string_equal(pen_text_shorten(&canvas, shown, TEXT_SMALL, 50.0, "short"), "short");
	for (int i = 2; i < 60; i++) {
		double room = 3.3 * i;
		(void)pen_text_shorten(&canvas, shown, TEXT_SMALL, room, long_text);
		assert_true(pen_text_width_mm(&canvas, TEXT_SMALL, shown) <= room);
		assert_non_null(strstr(shown, "\xe2\x80\xa6"));
	}
	assert_string_equal(pen_text_shorten(&canvas, shown, TEXT_SMALL, 0.1, "none"), "");
	canvas_close(&canvas);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_page_states_every_line),
		cmocka_unit_test(the_page_states_every_letter),
		cmocka_unit_test(no_two_lines_look_alike),
		cmocka_unit_test(texts_are_shortened_to_their_room),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
