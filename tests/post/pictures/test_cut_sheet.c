/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "pictures/cut_sheet.h"
#include "support/near.h"

#define NX 200
#define NY 30
#define PASSES_MOST 60

static double share_of(size_t pass, size_t passes)
{
	return ((double)pass + 0.5) / (double)passes;
}

struct sample {
	struct cut_sheet sheet;
	struct program_figures program;
	struct pass_figures pass[PASSES_MOST];
	struct column_map cut[PASSES_MOST];
	float value[PASSES_MOST][NX * NY];
};

/* Pass p cuts (p + 1/2) / passes of 10 mm over its map, but for one column of
 * the last that goes to 10 and so sets the scale. */
static struct sample *make(size_t passes)
{
	struct sample *s = calloc(1, sizeof *s);

	assert_non_null(s);
	for (size_t p = 0; p < passes; p++) {
		s->cut[p] = (struct column_map){ NX, NY, -50.0, -36.0, 2.5, s->value[p] };
		for (size_t i = 0; i < NX * NY; i++)
			s->value[p][i] = (float)(10.0 * share_of(p, passes));
		s->pass[p].level_mm = 20.0 - (double)p;
	}
	s->value[passes - 1][0] = 10.0f;
	s->program.pass_count = passes;
	s->program.pass = s->pass;
	s->sheet = (struct cut_sheet){ { "Sample", "" }, 1, &s->program, passes, s->cut };
	return s;
}

static size_t pixels_of(const struct canvas *canvas, struct colour colour)
{
	size_t stride = (size_t)cairo_image_surface_get_stride(canvas->surface), count = 0;
	const unsigned char *data = cairo_image_surface_get_data(canvas->surface);

	for (int y = 0; y < cairo_image_surface_get_height(canvas->surface); y++)
		for (int x = 0; x < cairo_image_surface_get_width(canvas->surface); x++) {
			const void *at = data + (size_t)y * stride + 4 * (size_t)x;
			count += (*(const uint32_t *)at | 0xff000000u) == palette_pixel(colour);
		}
	return count;
}

/* Every number of passes gets every map whole: its colour covers the map's
 * area on the sheet, which is readable still. */
static void every_pass_is_on_the_sheet(void **state)
{
	(void)state;
	static const size_t counts[] = { 1, 3, 4, 12, 13, 36, 37, 60 };

	for (size_t c = 0; c < sizeof counts / sizeof counts[0]; c++) {
		struct sample *s = make(counts[c]);
		struct canvas canvas;
		double height = cut_sheet_height_mm(&s->sheet);
		assert_between(height, 60.0, 480.0, "height of the sheet, mm");
		assert_int_equal(canvas_open(&canvas, CANVAS_PNG, height, NULL), FAULT_NONE);
		assert_int_equal(cut_sheet_draw(&canvas, &s->sheet, NULL), FAULT_NONE);
		cairo_surface_flush(canvas.surface);
		double columns = counts[c] <= 3 ? 1 : counts[c] <= 12 ? 2 : counts[c] <= 36 ? 3 : 4;
		double width = (246.0 - 6.0 * (columns - 1.0)) / columns;
		double area = 36.0 * width * width * NY / NX;
		for (size_t p = 0; p < counts[c]; p++)
			assert_between(
				(double)pixels_of(&canvas, palette_ramp(share_of(p, counts[c]))),
				0.97 * area, 1.03 * area + 500.0, "pixels of one pass's colour");
		canvas_close(&canvas);
		free(s);
	}
}

static void passes_and_maps_must_agree(void **state)
{
	(void)state;
	struct sample *s = make(5);
	struct fault_list faults = { 0 };
	struct canvas canvas;

	s->sheet.cut_count = 4;
	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, 100.0, NULL), FAULT_NONE);
	assert_int_equal(cut_sheet_draw(&canvas, &s->sheet, &faults), FAULT_INTERNAL);
	assert_int_equal(faults.count, 1);
	canvas_close(&canvas);
	free(s);
}

static void nothing_to_show_is_no_fault(void **state)
{
	(void)state;
	const struct cut_sheet empty = { .words = { "Empty", "" } };
	struct canvas canvas;
	double height = cut_sheet_height_mm(&empty);

	assert_between(height, 40.0, 80.0, "height of an empty sheet, mm");
	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, height, NULL), FAULT_NONE);
	assert_int_equal(cut_sheet_draw(&canvas, &empty, NULL), FAULT_NONE);
	assert_int_equal(cairo_status(canvas.pen), CAIRO_STATUS_SUCCESS);
	canvas_close(&canvas);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_pass_is_on_the_sheet),
		cmocka_unit_test(passes_and_maps_must_agree),
		cmocka_unit_test(nothing_to_show_is_no_fault),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
