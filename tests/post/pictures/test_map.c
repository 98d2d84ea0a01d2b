/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Known fields drawn and found again on the sheet, pixel by pixel. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "pictures/map.h"
#include "support/near.h"

#define NX 40
#define NY 20

struct field {
	struct column_map map;
	float value[NX * NY];
};

/* Columns of 1 mm, the first centred on (-4.5, -9.5), all of one value. */
static void make(struct field *field, float value)
{
	field->map = (struct column_map){ NX, NY, -4.5, -9.5, 1.0, field->value };
	for (size_t i = 0; i < NX * NY; i++)
		field->value[i] = value;
}

static const struct map_view whole = { { -5.0, 35.0, -10.0, 10.0 }, 30.0, 20.0, 2.0 };

/* The sheet's pixel that holds (x, y) of the neck. */
static uint32_t pixel_at(const struct canvas *canvas, const struct map_view *view, double x,
			 double y)
{
	cairo_surface_flush(canvas->surface);
	const unsigned char *data = cairo_image_surface_get_data(canvas->surface);
	size_t stride = (size_t)cairo_image_surface_get_stride(canvas->surface);
	size_t px = (size_t)(map_view_x_mm(view, x) * CANVAS_PIXELS_PER_MM);
	size_t py = (size_t)(map_view_y_mm(view, y) * CANVAS_PIXELS_PER_MM);
	uint32_t value = *(const uint32_t *)(const void *)(data + py * stride + 4 * px);

	return value | 0xff000000u;
}

static uint32_t named(enum palette_name name)
{
	return palette_pixel(palette_colour(name));
}

static uint32_t ramp(double share)
{
	return palette_pixel(palette_ramp(share));
}

static void draw(struct canvas *canvas, const struct field *field, const struct map_view *view,
		 const struct map_look *look)
{
	assert_int_equal(canvas_open(canvas, CANVAS_PNG, 100.0, NULL), FAULT_NONE);
	assert_int_equal(map_draw(canvas, &field->map, view, look, NULL), FAULT_NONE);
}

static void colours_lie_where_they_belong(void **state)
{
	(void)state;
	static struct field field;
	struct canvas canvas;
	const struct map_look look = { .full = 8.0, .pale_zero = true };

	make(&field, 0.0f);
	for (size_t i = 0; i < NX * NY; i++)
		field.value[i] = (float)(i % NX % 8 + i / NX % 4);
	field.value[3 * NX + 7] = NAN;
	draw(&canvas, &field, &whole, &look);
	for (size_t iy = 0; iy < NY; iy++)
		for (size_t ix = 0; ix < NX; ix++) {
			double x = -4.5 + (double)ix, y = -9.5 + (double)iy;
			double value = (double)field.value[iy * NX + ix];
			uint32_t wanted = isnan(value)	 ? named(PALETTE_PAPER)
					  : value == 0.0 ? named(PALETTE_PALE_WOOD)
							 : ramp(value / 8.0);
			assert_int_equal(pixel_at(&canvas, &whole, x - 0.45, y - 0.45), wanted);
			assert_int_equal(pixel_at(&canvas, &whole, x + 0.45, y + 0.45), wanted);
		}
	assert_int_equal(pixel_at(&canvas, &whole, -5.1, 0.0), named(PALETTE_PAPER));
	assert_int_equal(pixel_at(&canvas, &whole, 35.1, 0.0), named(PALETTE_PAPER));
	canvas_close(&canvas);
}

static void a_part_is_cut_out(void **state)
{
	(void)state;
	static struct field field;
	struct canvas canvas;
	const struct map_look look = { .full = 40.0 };
	const struct map_view part = { { 10.0, 20.0, -5.0, 5.0 }, 30.0, 20.0, 5.0 };

	make(&field, 0.0f);
	for (size_t i = 0; i < NX * NY; i++)
		field.value[i] = (float)(i % NX);
	draw(&canvas, &field, &part, &look);
	for (size_t ix = 15; ix < 25; ix++)
		assert_int_equal(pixel_at(&canvas, &part, -4.5 + (double)ix, 0.5),
				 ramp((double)ix / 40.0));
	assert_int_equal(pixel_at(&canvas, &part, 9.9, 0.5), named(PALETTE_PAPER));
	assert_int_equal(pixel_at(&canvas, &part, 12.0, 5.1), named(PALETTE_PAPER));
	canvas_close(&canvas);
}

/* Ten columns to a pixel: one odd column must still show. */
static void the_column_that_matters_is_picked(void **state)
{
	(void)state;
	static struct field field;
	struct canvas canvas;
	const struct map_view tiny = {
		{ -5.0, 35.0, -10.0, 10.0 }, 30.0, 20.0, 1.0 / (10.0 * CANVAS_PIXELS_PER_MM)
	};
	struct map_look look = { .pick = MAP_PICK_MOST, .full = 8.0 };

	make(&field, 4.0f);
	field.value[13 * NX + 23] = 7.0f;
	field.value[13 * NX + 24] = 1.0f;
	field.value[13 * NX + 25] = NAN;
	draw(&canvas, &field, &tiny, &look);
	assert_int_equal(pixel_at(&canvas, &tiny, 20.0, 5.0), ramp(7.0 / 8.0));
	assert_int_equal(pixel_at(&canvas, &tiny, 30.0, 5.0), ramp(4.0 / 8.0));
	canvas_close(&canvas);
	look.pick = MAP_PICK_LEAST;
	draw(&canvas, &field, &tiny, &look);
	assert_int_equal(pixel_at(&canvas, &tiny, 20.0, 5.0), ramp(1.0 / 8.0));
	canvas_close(&canvas);
}

static void too_little_is_hatched(void **state)
{
	(void)state;
	static struct field field, least;
	struct canvas canvas;
	const struct map_look look = {
		.pick = MAP_PICK_LEAST, .full = 2.0, .least = &least.map, .slack = 0.01
	};

	make(&field, 1.0f);
	make(&least, 1.0f);
	field.value[10 * NX + 20] = 0.98f;
	field.value[10 * NX + 22] = 0.995f;
	draw(&canvas, &field, &whole, &look);
	size_t ink = 0, paper = 0, other = 0;
	for (int k = 0; k < 144; k++) {
		double x = 15.5 + (k % 12 - 5.5) / 12.0, y = 0.5 + (k / 12 - 5.5) / 12.0;
		uint32_t pixel = pixel_at(&canvas, &whole, x, y);
		ink += pixel == named(PALETTE_INK);
		paper += pixel == named(PALETTE_PAPER);
		other += pixel != named(PALETTE_INK) && pixel != named(PALETTE_PAPER);
	}
	assert_int_equal(other, 0);
	assert_int_equal(ink, paper);
	assert_int_equal(pixel_at(&canvas, &whole, 17.5, 0.5), ramp(0.995 / 2.0));
	canvas_close(&canvas);
}

static void extents_hold_what_is_there(void **state)
{
	(void)state;
	static struct field field;
	struct map_extent extent = map_extent_none();

	make(&field, NAN);
	map_extent_add(&extent, &field.map);
	assert_true(map_extent_is_none(&extent));
	assert_true(isnan(map_most(&field.map)));
	field.value[4 * NX + 9] = 2.0f;
	field.value[6 * NX + 3] = -1.0f;
	map_extent_add(&extent, &field.map);
	assert_near(extent.x_from_mm, -2.0, 1e-12, "x from, mm");
	assert_near(extent.x_to_mm, 5.0, 1e-12, "x to, mm");
	assert_near(extent.y_from_mm, -6.0, 1e-12, "y from, mm");
	assert_near(extent.y_to_mm, -3.0, 1e-12, "y to, mm");
	assert_near(map_most(&field.map), 2.0, 0.0, "largest value");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(colours_lie_where_they_belong),
		cmocka_unit_test(a_part_is_cut_out),
		cmocka_unit_test(the_column_that_matters_is_picked),
		cmocka_unit_test(too_little_is_hatched),
		cmocka_unit_test(extents_hold_what_is_there),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
