/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The frame of a page: its bars measured on the rendered page in both
 * directions, its words, and paragraphs. */
#include "papers/sheet.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/rendered.h"
#include "support/scratch.h"

/* What the bars may be off, mm: what is asked of papers. */
#define BAR_OFF_MM 0.1

static void draw_frame(const char *pdf, enum paper_size size, bool lying, bool true_scale)
{
	const struct paper *paper = paper_of(size);
	struct canvas canvas;
	struct sheet sheet = { .canvas = &canvas,
			       .paper = paper,
			       .words = { "A neck", "0123456789abcdef0123" },
			       .title = "A title",
			       .remark = "A remark.",
			       .true_scale = true_scale,
			       .page_count = 2 };

	assert_int_equal(canvas_open_paper(&canvas, lying ? paper->height_mm : paper->width_mm,
					   lying ? paper->width_mm : paper->height_mm, "Frame",
					   NULL),
			 FAULT_NONE);
	struct sheet_area first = sheet_begin(&sheet), second = sheet_begin(&sheet);
	assert_near(first.left, second.left, 0.0, "the same on every page, mm");
	assert_near(first.bottom, second.bottom, 0.0, "the same on every page, mm");
	assert_int_equal(canvas_save(&canvas, pdf, NULL), FAULT_NONE);
	canvas_close(&canvas);
}

/* Two lines that run for some 100 mm beside each other: the bar's millimetres
 * and its inches. Only below (or right of) half the page. */
static void find_bar(const struct rendered *page, bool upright, double place_mm[2])
{
	double end = (upright ? page->width : page->height) / RENDERED_PIXELS_PER_MM;
	double last = -10.0, from;
	size_t found = 0;

	for (double at = end / 2.0; at < end && found < 2; at += 1.0 / RENDERED_PIXELS_PER_MM) {
		double run = rendered_longest_run(page, upright, at, &from);
		if (run < 95.0 || run > 105.0 || at - last < 0.5)
			continue;
		place_mm[found++] = last = at;
	}
	assert_int_equal(found, 2);
}

/* Ticks beside a bar's line at `line_mm`, `off_mm` away from it. */
static void check_ticks(const struct rendered *page, bool upright, double line_mm, double off_mm,
			size_t expected, double between_mm)
{
	double at[24], beside = line_mm + off_mm, from;
	size_t count;

	(void)rendered_longest_run(page, upright, line_mm, &from);
	if (upright)
		count = rendered_strokes(page, beside, from - 1.0, beside, from + 104.0, 24, at);
	else
		count = rendered_strokes(page, from - 1.0, beside, from + 104.0, beside, 24, at);
	assert_int_equal(count, expected);
	for (size_t i = 1; i < count; i++)
		assert_near(at[i] - at[0], (double)i * between_mm, BAR_OFF_MM,
			    "from the first mark, mm");
}

static void check_bars(const char *folder, enum paper_size size, bool lying)
{
	char pdf[SCRATCH_ROOM];
	struct rendered page;

	draw_frame(scratch_path(pdf, folder, "frame.pdf"), size, lying, true);
	rendered_page(&page, folder, pdf, 2);
	for (int upright = 0; upright < 2; upright++) {
		double line[2];
		find_bar(&page, upright == 1, line);
		check_ticks(&page, upright == 1, line[0], -0.7, 11, 10.0);
		check_ticks(&page, upright == 1, line[1], 0.8, 17, 25.4 / 4.0);
	}
	rendered_free(&page);
}

static void bars_are_true_both_ways(void **state)
{
	for (int size = 0; size < PAPER_COUNT; size++) {
		check_bars(*state, (enum paper_size)size, false);
		check_bars(*state, (enum paper_size)size, true);
	}
}

static void pages_have_the_papers_size(void **state)
{
	char pdf[SCRATCH_ROOM];

	for (int i = 0; i < 2 * PAPER_COUNT; i++) {
		const struct paper *paper = paper_of((enum paper_size)(i / 2));
		double width, height;
		draw_frame(scratch_path(pdf, *state, "frame.pdf"), (enum paper_size)(i / 2),
			   i % 2 == 1, false);
		char *text = rendered_tool(*state, "pdfinfo", NULL, pdf);
		const char *at = strstr(text, "Page size:");
		assert_non_null(at);
		assert_int_equal(sscanf(at, "Page size: %lf x %lf", &width, &height), 2);
		assert_near(width * 25.4 / 72.0, i % 2 ? paper->height_mm : paper->width_mm, 0.01,
			    "page's width, mm");
		assert_near(height * 25.4 / 72.0, i % 2 ? paper->width_mm : paper->height_mm, 0.01,
			    "page's height, mm");
		assert_non_null(strstr(text, "Pages:           2\n"));
		free(text);
	}
}

static void the_frame_says_what_it_must(void **state)
{
	static const char *const words[] = { "A title",
					     "A remark.",
					     "A neck",
					     "inputs 0123456789abcdef ",
					     "page 1 of 2",
					     "page 2 of 2",
					     "Print at 100 %, no fitting to page;",
					     "measure this bar" };
	char pdf[SCRATCH_ROOM];

	draw_frame(scratch_path(pdf, *state, "frame.pdf"), PAPER_A4, false, true);
	char *text = rendered_tool(*state, "pdftotext", "-layout", pdf);
	for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
		if (!strstr(text, words[i]))
			fail_msg("the page does not say \"%s\"", words[i]);
	free(text);
	draw_frame(pdf, PAPER_A4, false, false);
	text = rendered_tool(*state, "pdftotext", "-layout", pdf);
	assert_null(strstr(text, "100 %"));
	free(text);
}

/* Content, bars and margins do not share paper. */
static void the_area_lies_within_margins_and_bars(void **state)
{
	(void)state;
	for (int i = 0; i < 2 * PAPER_COUNT; i++) {
		const struct paper *paper = paper_of((enum paper_size)(i / 2));
		struct canvas canvas = { .width_mm = paper->width_mm,
					 .height_mm = paper->height_mm };
		struct sheet sheet = { .canvas = &canvas,
				       .paper = paper,
				       .true_scale = i % 2 == 1 };
		struct sheet_area area = sheet_area(&sheet);
		double bars = i % 2 == 1 ? 10.0 : 0.0;
		assert_true(area.left >= paper->margin_mm && area.top > paper->margin_mm);
		assert_true(area.right <= paper->width_mm - paper->margin_mm - bars);
		assert_true(area.bottom <= paper->height_mm - paper->margin_mm - bars);
		assert_true(area.right - area.left > 150.0 && area.bottom - area.top > 200.0);
	}
}

static void paragraphs_break_at_spaces(void **state)
{
	struct canvas canvas;
	char pdf[SCRATCH_ROOM];

	(void)scratch_path(pdf, *state, "lines.pdf");
	assert_int_equal(canvas_open_paper(&canvas, 100.0, 100.0, "Lines", NULL), FAULT_NONE);
	double one = sheet_paragraph(&canvas, 5.0, 10.0, TEXT_BODY, 90.0, 5, "short");
	assert_near(one, 10.0 + SHEET_LEADING_MM, 1e-9, "one line, mm");
	double none = sheet_paragraph(&canvas, 5.0, 10.0, TEXT_BODY, 90.0, 5, "");
	assert_near(none, 10.0, 1e-9, "no line, mm");
	double last = sheet_paragraph(&canvas, 5.0, 30.0, TEXT_BODY, 20.0, 3,
				      "alpha bravo charlie delta echo foxtrot golf hotel india");
	assert_near(last, 30.0 + 3.0 * SHEET_LEADING_MM, 1e-9, "three lines, mm");
	assert_int_equal(canvas_save(&canvas, pdf, NULL), FAULT_NONE);
	canvas_close(&canvas);
	char *text = rendered_tool(*state, "pdftotext", "-layout", pdf);
	assert_non_null(strstr(text, "alpha bravo\n"));
	assert_non_null(strstr(text, "\xe2\x80\xa6")); /* the third line is cut */
	assert_null(strstr(text, "india"));
	free(text);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(bars_are_true_both_ways, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(pages_have_the_papers_size, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(the_frame_says_what_it_must, scratch_make,
						scratch_remove),
		cmocka_unit_test(the_area_lies_within_margins_and_bars),
		cmocka_unit_test_setup_teardown(paragraphs_break_at_spaces, scratch_make,
						scratch_remove),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
