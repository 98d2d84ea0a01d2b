/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scale bars: their lengths by formula, and as pixels of a drawn sheet. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "pictures/ruler.h"
#include "post/pictures/sheet_pixels.h"
#include "support/near.h"

static void lengths_are_round_and_fill_the_room(void **state)
{
	(void)state;
	for (int i = 1; i < 600; i++) {
		double scale = 0.02 * i, room = 50.0;
		struct ruler r = ruler_of(scale, room);
		double mantissa = r.length_mm / pow(10.0, floor(log10(r.length_mm) + 1e-9));
		assert_between(r.length_mm * scale, room / 2.5 - 1e-6, room + 1e-6,
			       "length of the mm bar on paper, mm");
		assert_true(fabs(mantissa - 1.0) < 1e-9 || fabs(mantissa - 2.0) < 1e-9 ||
			    fabs(mantissa - 5.0) < 1e-9);
		assert_true(r.length_in * MM_PER_INCH * scale <= room + 1e-6 ||
			    r.length_in == 0.125);
		assert_true(r.mm_parts >= 2 && r.inch_parts >= 2);
	}
	assert_near(ruler_of(0.5, 50.0).length_mm, 100.0, 1e-9, "100 mm just fit, mm");
	assert_near(ruler_of(0.499, 50.0).length_mm, 100.0, 1e-9, "with room left, mm");
	assert_near(ruler_of(0.501, 50.0).length_mm, 50.0, 1e-9, "not any more, mm");
	assert_near(ruler_of(1.0, 51.0).length_in, 2.0, 1e-9, "2 in are 50.8 mm");
	assert_near(ruler_of(1.0, 50.0).length_in, 1.0, 1e-9, "2 in are too long");
}

/* Pixels right of (x, y) that are dark or framed: the bar from its first field
 * to its end. A bar has fields of ink and paper; its frame runs along both. */
static double bar_pixels(const struct canvas *canvas, double x_mm, double frame_y_mm)
{
	size_t px = (size_t)lround(x_mm * CANVAS_PIXELS_PER_MM), count = 0;
	size_t py = (size_t)(frame_y_mm * CANVAS_PIXELS_PER_MM);
	double paper = sheet_grey(palette_pixel(palette_colour(PALETTE_PAPER)));

	while (sheet_grey(sheet_pixel(canvas->surface, px + count, py)) < paper - 60.0)
		count++;
	return (double)count;
}

static void bars_are_as_long_as_they_say(void **state)
{
	(void)state;
	static const double scales[] = { 0.14, 0.347, 0.9, 1.5, 2.0 };

	for (size_t i = 0; i < sizeof scales / sizeof scales[0]; i++) {
		struct canvas canvas;
		struct ruler r = ruler_of(scales[i], 60.0);
		assert_int_equal(canvas_open(&canvas, CANVAS_PNG, 40.0, NULL), FAULT_NONE);
		ruler_draw(&canvas, 200.0, 10.0, scales[i], 60.0);
		double left = ruler_left_mm(&canvas, 200.0, scales[i], 60.0);
		double mm = bar_pixels(&canvas, left, 10.5), inch;
		inch = bar_pixels(&canvas, left, 10.5 + 3.4);
		assert_near(mm, r.length_mm * scales[i] * CANVAS_PIXELS_PER_MM, 1.5,
			    "length of the mm bar, pixels");
		assert_near(inch, r.length_in * MM_PER_INCH * scales[i] * CANVAS_PIXELS_PER_MM, 1.5,
			    "length of the inch bar, pixels");
		canvas_close(&canvas);
	}
}

static void the_upright_bar_is_as_tall_as_it_says(void **state)
{
	(void)state;
	struct canvas canvas;
	struct ruler r = ruler_of(0.86, 20.0);
	size_t count = 0, px = (size_t)(20.0 * CANVAS_PIXELS_PER_MM);
	size_t foot = (size_t)(30.0 * CANVAS_PIXELS_PER_MM);
	double paper = sheet_grey(palette_pixel(palette_colour(PALETTE_PAPER)));

	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, 40.0, NULL), FAULT_NONE);
	ruler_draw_upright(&canvas, 20.0, 30.0, 0.86, 20.0);
	while (sheet_grey(sheet_pixel(canvas.surface, px, foot - 1 - count)) < paper - 60.0)
		count++;
	assert_near((double)count, r.length_mm * 0.86 * CANVAS_PIXELS_PER_MM, 1.5,
		    "height of the upright bar, pixels");
	canvas_close(&canvas);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(lengths_are_round_and_fill_the_room),
		cmocka_unit_test(bars_are_as_long_as_they_say),
		cmocka_unit_test(the_upright_bar_is_as_tall_as_it_says),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
