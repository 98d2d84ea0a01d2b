/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages for the printer: true sizes, no date, fonts in the file, white ground,
 * and the same bytes each time. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "files/text_file.h"
#include "pictures/canvas.h"
#include "pictures/pen.h"
#include "support/near.h"
#include "support/rendered.h"
#include "support/scratch.h"

#define SIZE_MOST (1u << 20)

/* Two pages: letters and a filled square 20 mm wide at (30, 50), then a line. */
static void draw_paper(const char *pdf)
{
	struct canvas canvas;

	assert_int_equal(canvas_open_paper(&canvas, 120.0, 160.0, "A title \xc2\xb7 1", NULL),
			 FAULT_NONE);
	pen_text(&canvas, 10.0, 20.0, TEXT_TITLE, ANCHOR_LEFT, "Letters");
	pen_text(&canvas, 10.0, 26.0, TEXT_BODY, ANCHOR_LEFT, "0.25 \xe2\x88\x92 \xc2\xb0");
	canvas_colour(&canvas, palette_colour(PALETTE_INK));
	cairo_rectangle(canvas.pen, 30.0, 50.0, 20.0, 20.0);
	cairo_fill(canvas.pen);
	canvas_next_page(&canvas);
	pen_line(&canvas, 10.0, 10.0, 110.0, 10.0, LINE_CUT);
	assert_int_equal(canvas_save(&canvas, pdf, NULL), FAULT_NONE);
	canvas_close(&canvas);
}

static void pages_are_true_to_size(void **state)
{
	char pdf[SCRATCH_ROOM];
	struct rendered page;
	double width, height, at[2];

	draw_paper(scratch_path(pdf, *state, "paper.pdf"));
	char *text = rendered_tool(*state, "pdfinfo", NULL, pdf);
	assert_non_null(strstr(text, "Pages:           2\n"));
	assert_non_null(strstr(text, "Title:           A title \xc2\xb7 1\n"));
	assert_int_equal(
		sscanf(strstr(text, "Page size:"), "Page size: %lf x %lf", &width, &height), 2);
	assert_near(width, 120.0 * 72.0 / 25.4, 0.01, "width, points");
	assert_near(height, 160.0 * 72.0 / 25.4, 0.01, "height, points");
	free(text);
	rendered_page(&page, *state, pdf, 1);
	assert_int_equal(rendered_strokes(&page, 20.0, 60.0, 70.0, 60.0, 2, at), 1);
	assert_near(20.0 + at[0], 40.0, 0.05, "middle of the square across, mm");
	assert_int_equal(rendered_strokes(&page, 40.0, 40.0, 40.0, 90.0, 2, at), 1);
	assert_near(40.0 + at[0], 60.0, 0.05, "middle of the square down, mm");
	assert_near(rendered_longest_run(&page, false, 60.0, at), 20.0, 0.1, "its width, mm");
	rendered_free(&page);
}

/* The ground is left to the paper. */
static void the_ground_is_white(void **state)
{
	char pdf[SCRATCH_ROOM];
	struct rendered page;

	draw_paper(scratch_path(pdf, *state, "paper.pdf"));
	rendered_page(&page, *state, pdf, 2);
	for (int y = 0; y < page.height; y += 7)
		for (int x = 0; x < page.width; x += 7)
			if (y < 100 || y > 140)
				assert_int_equal(page.grey[y * page.width + x], 255);
	rendered_free(&page);
}

static void letters_come_with_the_file(void **state)
{
	char pdf[SCRATCH_ROOM];

	draw_paper(scratch_path(pdf, *state, "paper.pdf"));
	char *text = rendered_tool(*state, "pdffonts", NULL, pdf);
	char *line = strchr(strchr(text, '\n') + 1, '\n') + 1;
	int fonts = 0;
	for (char *end; (end = strchr(line, '\n')) != NULL; line = end + 1, fonts++) {
		*end = '\0';
		assert_non_null(strstr(line, " yes yes ")); /* embedded, a subset */
	}
	assert_true(fonts >= 2);
	free(text);
	text = rendered_tool(*state, "pdftotext", "-raw", pdf);
	assert_non_null(strstr(text, "Letters"));
	assert_non_null(strstr(text, "0.25 \xe2\x88\x92 \xc2\xb0"));
	free(text);
}

/* Also when the clock has gone on by more than a second. */
static void the_same_drawing_gives_the_same_bytes(void **state)
{
	const struct timespec wait = { .tv_sec = 1, .tv_nsec = 100000000 };
	char pdf[SCRATCH_ROOM], *bytes[2];
	size_t size[2];

	(void)scratch_path(pdf, *state, "paper.pdf");
	for (int i = 0; i < 2; i++) {
		if (i == 1)
			(void)nanosleep(&wait, NULL);
		draw_paper(pdf);
		assert_int_equal(text_file_read(&bytes[i], &size[i], pdf, SIZE_MOST, NULL),
				 FAULT_NONE);
	}
	assert_int_equal(size[0], size[1]);
	assert_memory_equal(bytes[0], bytes[1], size[0]);
	free(bytes[0]);
	free(bytes[1]);
	char *text = rendered_tool(*state, "pdfinfo", NULL, pdf);
	assert_null(strstr(text, "Date"));
	free(text);
}

static void what_cannot_be_written_is_told(void **state)
{
	struct fault_list faults = { 0 };
	struct canvas canvas;
	char path[SCRATCH_ROOM];

	assert_int_equal(canvas_open_paper(&canvas, 50.0, 50.0, "", NULL), FAULT_NONE);
	assert_int_equal(canvas_save(&canvas, scratch_path(path, *state, "no/paper.pdf"), &faults),
			 FAULT_FILE);
	assert_int_equal(faults.count, 1);
	canvas_close(&canvas);
}

#define ON_FILES(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)

int main(void)
{
	const struct CMUnitTest tests[] = {
		ON_FILES(pages_are_true_to_size),
		ON_FILES(the_ground_is_white),
		ON_FILES(letters_come_with_the_file),
		ON_FILES(the_same_drawing_gives_the_same_bytes),
		ON_FILES(what_cannot_be_written_is_told),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
