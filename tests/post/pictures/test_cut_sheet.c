/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "pictures/cut_sheet.h"
#include "post/pictures/sheet_pixels.h"
#include "support/near.h"

#define NX ((size_t)200)
#define NY ((size_t)30)
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
	struct map_extent touched[PASSES_MOST];
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
	for (size_t p = 0; p < passes; p++) {
		s->touched[p] = map_extent_none();
		map_extent_add_cut(&s->touched[p], &s->cut[p]);
	}
	s->program.pass_count = passes;
	s->program.pass = s->pass;
	s->sheet = (struct cut_sheet){ .words = { "Sample", "" },
				       .program_count = 1,
				       .program = &s->program,
				       .cut_count = passes,
				       .cut = s->cut,
				       .touched = s->touched };
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
		struct cut_passes passes = cut_sheet_passes(&s->sheet);
		double scale = cut_layout_of(&passes).scale;
		double area = 36.0 * scale * scale * 2.5 * (double)NX * 2.5 * (double)NY;
		for (size_t p = 0; p < counts[c]; p++)
			assert_between(
				(double)pixels_of(&canvas, palette_ramp(share_of(p, counts[c]))),
				0.97 * area, 1.03 * area + 600.0, "pixels of one pass's colour");
		canvas_close(&canvas);
		free(s);
	}
}

static uint32_t pixel_at(const struct cut_sheet *sheet, const struct canvas *canvas, double x,
			 double y)
{
	struct cut_passes passes = cut_sheet_passes(sheet);
	struct cut_layout layout = cut_layout_of(&passes);
	struct cut_cursor at = cut_layout_start();
	struct cut_place place;
	double heading;

	assert_true(cut_layout_next(&layout, &passes, &at, &place, &heading));
	struct map_view view = cut_sheet_view(&layout, &place);
	return sheet_pixel_on(canvas, &view, x, y);
}

/* Where the blank has no wood the paper stays bare, though nothing is cut
 * there either. */
static void no_wood_is_not_wood_left_alone(void **state)
{
	(void)state;
	struct sample *s = make(1);
	struct canvas canvas;
	float there[NX * NY];
	struct column_map blank = s->cut[0];

	blank.value = there;
	for (size_t i = 0; i < NX * NY; i++) {
		there[i] = i % NX < 10 ? NAN : 25.0f;
		s->value[0][i] = i % NX < 20 ? 0.0f : 3.0f;
	}
	s->touched[0].x_from_mm = -50.0;
	s->sheet.blank = &blank;
	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, cut_sheet_height_mm(&s->sheet), NULL),
			 FAULT_NONE);
	assert_int_equal(cut_sheet_draw(&canvas, &s->sheet, NULL), FAULT_NONE);
	assert_near(cut_sheet_range(&s->sheet).full_mm, 3.0, 1e-9, "the scale's end, mm");
	assert_int_equal(pixel_at(&s->sheet, &canvas, -27.0, 0.0),
			 palette_pixel(palette_colour(PALETTE_PAPER)));
	assert_int_equal(pixel_at(&s->sheet, &canvas, -15.0, 0.0),
			 palette_pixel(palette_colour(PALETTE_PALE_WOOD)));
	assert_int_equal(pixel_at(&s->sheet, &canvas, 20.0, 0.0),
			 palette_pixel(palette_step_colour(PALETTE_STEPS - 1)));
	canvas_close(&canvas);
	free(s);
}

/* A wall where a column loses more than a bite does not flatten the rest. */
static void the_scale_ends_at_the_deepest_bite(void **state)
{
	(void)state;
	struct sample *s = make(4);
	struct cut_range range = cut_sheet_range(&s->sheet);

	assert_near(range.full_mm, 10.0, 1e-9, "without bites: the deepest cut, mm");
	assert_false(range.beyond);
	s->pass[1].deepest_bite_mm = 4.2;
	s->pass[2].deepest_bite_mm = 3.0;
	range = cut_sheet_range(&s->sheet);
	assert_near(range.full_mm, 4.5, 1e-9, "the deepest bite, rounded up, mm");
	assert_true(range.beyond);
	s->pass[3].deepest_bite_mm = 30.0;
	range = cut_sheet_range(&s->sheet);
	assert_near(range.full_mm, 10.0, 1e-9, "no further than anything is cut, mm");
	assert_false(range.beyond);
	free(s);
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
		cmocka_unit_test(no_wood_is_not_wood_left_alone),
		cmocka_unit_test(the_scale_ends_at_the_deepest_bite),
		cmocka_unit_test(passes_and_maps_must_agree),
		cmocka_unit_test(nothing_to_show_is_no_fault),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
