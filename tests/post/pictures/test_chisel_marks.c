/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hatching lies on the columns that are left and on no other. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "pictures/chisel_marks.h"
#include "sheet_pixels.h"

#define NX 40
#define NY 20

/* An island of columns, 1 mm apart, around (20, 10) without its middle. */
static bool is_left(double x, double y)
{
	double d = hypot(x - 20.0, y - 10.0);

	return d < 9.0 && d > 3.0;
}

static struct canvas drawn(const struct map_view *view, bool with_map)
{
	float value[NX * NY];
	const struct column_map map = { NX, NY, 0.5, 0.5, 1.0, with_map ? value : NULL };
	struct canvas canvas;

	for (size_t i = 0; i < NX * NY; i++) {
		size_t iy = i / NX;
		bool left = is_left(0.5 + (double)(i % NX), 0.5 + (double)iy);
		value[i] = left ? 2.0f : NAN;
	}
	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, 100.0, NULL), FAULT_NONE);
	chisel_marks_draw(&canvas, view, &map);
	return canvas;
}

static const struct map_view view = { { 0.0, 40.0, 0.0, 20.0 }, 20.0, 10.0, 3.0 };

static void hatched_where_wood_is_left(void **state)
{
	(void)state;
	struct canvas canvas = drawn(&view, true);
	uint32_t wood = palette_pixel(palette_colour(PALETTE_PALE_WOOD));
	uint32_t paper = sheet_pixel_at(&canvas, 2.0, 2.0);
	int grounds = 0, lines = 0;

	assert_true(wood != paper);
	/* a column in from every edge: lines of the border lie on neither side */
	for (double x = 0.5; x < 40.0; x += 0.37)
		for (double y = 0.5; y < 20.0; y += 0.37) {
			double d = hypot(x - 20.0, y - 10.0);
			uint32_t pixel = sheet_pixel_on(&canvas, &view, x, y);
			if (d < 1.5 || d > 10.5)
				assert_true(pixel == paper);
			if (d < 4.5 || d > 7.5)
				continue;
			assert_true(pixel != paper);
			grounds += pixel == wood;
			lines += pixel != wood;
		}
	assert_true(grounds > 100 && lines > 30);
	canvas_close(&canvas);
}

static void nothing_without_a_map(void **state)
{
	(void)state;
	struct canvas canvas = drawn(&view, false);
	uint32_t paper = sheet_pixel_at(&canvas, 2.0, 2.0);

	for (double x = 0.5; x < 40.0; x += 0.7)
		assert_true(sheet_pixel_on(&canvas, &view, x, 10.0) == paper);
	canvas_close(&canvas);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(hatched_where_wood_is_left),
		cmocka_unit_test(nothing_without_a_map),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
