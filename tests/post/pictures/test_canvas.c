/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheets: their bytes, their letters, and what happens when they cannot be
 * written. */
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

#include <cmocka.h>

#include "files/text_file.h"
#include "pictures/canvas.h"
#include "pictures/pen.h"
#include "support/near.h"
#include "support/scratch.h"

#define SIZE_MOST (16u << 20)

/* Draws an image, letters and lines and saves them; the caller frees *bytes. */
static void save_sheet(const char *folder, enum canvas_kind kind, char **bytes, size_t *size)
{
	char path[SCRATCH_ROOM];
	struct canvas canvas;

	(void)scratch_path(path, folder, "sheet");
	assert_int_equal(canvas_open(&canvas, kind, 80.0, NULL), FAULT_NONE);
	for (int i = 0; i < 3; i++) {
		cairo_surface_t *image = cairo_image_surface_create(CAIRO_FORMAT_ARGB32, 8, 8 + i);
		cairo_t *dab = cairo_create(image);
		cairo_arc(dab, 4.0, 4.0, 3.0, 0.0, 6.0);
		cairo_fill(dab);
		cairo_destroy(dab);
		cairo_set_source_surface(canvas.pen, image, 10.0, 10.0 * i);
		cairo_paint(canvas.pen);
		cairo_surface_destroy(image);
	}
	pen_text(&canvas, 20.0, 20.0, TEXT_BODY, ANCHOR_LEFT,
		 "letters 0.25 \"surface12\" #surface7");
	pen_line(&canvas, 1.0, 2.0, 30.0, 40.0, LINE_BLANK);
	assert_int_equal(canvas_save(&canvas, path, NULL), FAULT_NONE);
	canvas_close(&canvas);
	assert_int_equal(text_file_read(bytes, size, path, SIZE_MOST, NULL), FAULT_NONE);
}

static void same_drawing_same_bytes(void **state)
{
	for (int kind = CANVAS_PNG; kind <= CANVAS_SVG; kind++) {
		char *first, *second;
		size_t first_size, second_size;
		save_sheet(*state, (enum canvas_kind)kind, &first, &first_size);
		/* sheets drawn in between must leave no trace */
		save_sheet(*state, CANVAS_SVG, &second, &second_size);
		free(second);
		save_sheet(*state, (enum canvas_kind)kind, &second, &second_size);
		assert_int_equal(first_size, second_size);
		assert_memory_equal(first, second, first_size);
		free(first);
		free(second);
	}
}

/* Every name that the SVG uses is given in it, and given once. */
static void svg_names_fit_together(void **state)
{
	char *bytes, *at;
	size_t size;
	int images = 0, uses = 0;

	save_sheet(*state, CANVAS_SVG, &bytes, &size);
	assert_true(strncmp(bytes, "<?xml", 5) == 0);
	assert_non_null(strstr(bytes, "</svg>"));
	for (at = bytes; (at = strstr(at, "href=\"#")) != NULL; at++) {
		char name[64];
		(void)snprintf(name, sizeof name, "id=\"%.*s\"", (int)strcspn(at + 7, "\""),
			       at + 7);
		const char *found = strstr(bytes, name);
		assert_non_null(found);
		assert_null(strstr(found + 1, name));
		uses++;
	}
	for (at = bytes; (at = strstr(at, "<image ")) != NULL; at++)
		images++;
	assert_int_equal(images, 3);
	assert_true(uses > images);
	free(bytes);
}

/* Cairo ends all drawing at the first bad byte: none may reach it. */
static void any_text_can_be_shown(void **state)
{
	static const char *const texts[] = {
		"",
		"plain",
		"caf\xc3\xa9 \xe2\x99\xaf",
		"\xff\xfe\x80",
		"\xc3",
		"\xe2\x99",
		"\xed\xa0\x80 surrogate",
		"\xc0\xaf overlong",
		"\xf4\x90\x80\x80 too far",
		"\xe0\x80\x80",
		"tab\tnew\nline\x7f",
		NULL,
	};
	struct canvas canvas;
	char long_text[2000];

	(void)state;
	memset(long_text, 'w', sizeof long_text - 1);
	long_text[sizeof long_text - 1] = '\0';
	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, 50.0, NULL), FAULT_NONE);
	for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
		pen_text(&canvas, 20.0, 20.0, TEXT_SMALL, ANCHOR_RIGHT, texts[i]);
		pen_text_fit(&canvas, 20.0, 20.0, TEXT_SMALL, 5.0, texts[i]);
	}
	pen_text_fit(&canvas, 20.0, 20.0, TEXT_SMALL, 40.0, long_text);
	assert_int_equal(cairo_status(canvas.pen), CAIRO_STATUS_SUCCESS);
	assert_near(pen_text_width_mm(&canvas, TEXT_BODY,
				      "a\xff"
				      "b"),
		    pen_text_width_mm(&canvas, TEXT_BODY, "a?b"), 1e-9,
		    "width with the bad byte shown as a question mark, mm");
	canvas_close(&canvas);
}

/* Ink right of `x_mm`? */
static bool ink_beyond(const struct canvas *canvas, double x_mm)
{
	uint32_t paper = palette_pixel(palette_colour(PALETTE_PAPER));
	int width = cairo_image_surface_get_width(canvas->surface);
	int height = cairo_image_surface_get_height(canvas->surface);
	int stride = cairo_image_surface_get_stride(canvas->surface);
	const unsigned char *data = cairo_image_surface_get_data(canvas->surface);

	for (int y = 0; y < height; y++)
		for (int x = (int)(x_mm * CANVAS_PIXELS_PER_MM); x < width; x++) {
			const void *at = data + (size_t)y * (size_t)stride + 4 * (size_t)x;
			if ((*(const uint32_t *)at | 0xff000000u) != paper)
				return true;
		}
	return false;
}

static void long_text_is_cut_to_its_room(void **state)
{
	(void)state;
	struct canvas canvas;

	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, 50.0, NULL), FAULT_NONE);
	pen_text_fit(&canvas, 20.0, 20.0, TEXT_TITLE, 60.0,
		     "A neck whose name does not fit into the room that a title has");
	cairo_surface_flush(canvas.surface);
	assert_true(ink_beyond(&canvas, 70.0));
	assert_false(ink_beyond(&canvas, 80.5));
	canvas_close(&canvas);
}

static void nothing_is_smaller_than_seven_points(void **state)
{
	(void)state;
	for (int kind = 0; kind < TEXT_KIND_COUNT; kind++)
		assert_between(pen_text_size_mm((enum text_kind)kind), 7.0 * 25.4 / 72.0 - 1e-9,
			       10.0, "size of letters, mm");
}

static void a_missing_folder_is_a_fault_with_its_name(void **state)
{
	(void)state;
	struct fault_list faults = { 0 };
	struct canvas canvas;

	assert_int_equal(canvas_open(&canvas, CANVAS_SVG, 50.0, &faults), FAULT_NONE);
	assert_int_equal(canvas_save(&canvas, "/nonexistent/sheet.svg", &faults), FAULT_FILE);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].file, "/nonexistent/sheet.svg");
	canvas_close(&canvas);
	canvas_close(&canvas);
	canvas_close(NULL);
}

/* A limit on the size of files stands in for a full disk. */
static void a_file_that_does_not_fit_is_a_fault(void **state)
{
	char path[SCRATCH_ROOM];
	struct fault_list faults = { 0 };
	struct canvas canvas;
	struct rlimit before, tight;

	(void)scratch_path(path, *state, "sheet");
	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, 50.0, &faults), FAULT_NONE);
	assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
	tight = before;
	tight.rlim_cur = 100;
	(void)signal(SIGXFSZ, SIG_IGN);
	assert_int_equal(setrlimit(RLIMIT_FSIZE, &tight), 0);
	enum fault code = canvas_save(&canvas, path, &faults);
	assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
	(void)signal(SIGXFSZ, SIG_DFL);
	assert_int_equal(code, FAULT_FILE);
	assert_string_equal(faults.record[0].file, path);
	assert_int_equal(scratch_count(*state), 0);
	canvas_close(&canvas);
}

static void a_spoilt_drawing_is_a_fault(void **state)
{
	char path[SCRATCH_ROOM];
	struct fault_list faults = { 0 };
	struct canvas canvas;

	(void)scratch_path(path, *state, "sheet");
	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, 50.0, &faults), FAULT_NONE);
	cairo_restore(canvas.pen); /* without a save: cairo gives up */
	assert_int_equal(canvas_save(&canvas, path, &faults), FAULT_FILE);
	assert_string_equal(faults.record[0].file, path);
	assert_int_equal(scratch_count(*state), 0);
	canvas_close(&canvas);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(same_drawing_same_bytes, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(svg_names_fit_together, scratch_make,
						scratch_remove),
		cmocka_unit_test(any_text_can_be_shown),
		cmocka_unit_test(long_text_is_cut_to_its_room),
		cmocka_unit_test(nothing_is_smaller_than_seven_points),
		cmocka_unit_test(a_missing_folder_is_a_fault_with_its_name),
		cmocka_unit_test_setup_teardown(a_file_that_does_not_fit_is_a_fault, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(a_spoilt_drawing_is_a_fault, scratch_make,
						scratch_remove),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
