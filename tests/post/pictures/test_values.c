/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Values read off pictures: known fields are drawn on the whole sheets, saved as
 * PNG, read again, and each pixel's colour is turned back into its value. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "pictures/cut_sheet.h"
#include "pictures/stock_map.h"
#include "post/pictures/sheet_pixels.h"
#include "support/near.h"
#include "support/scratch.h"

#define NX ((size_t)300)
#define NY ((size_t)60)
#define CELL 1.0

/* A field over columns of 1 mm, the first one centred on (-49.5, -29.5). */
struct field {
	struct column_map map;
	float value[NX * NY];
};

typedef double formula(double x, double y);

static double ramp_along(double x, double y)
{
	(void)y;
	return 2.0 * (x + 50.0) / 300.0;
}

static double ramp_across(double x, double y)
{
	(void)x;
	return 2.0 * (y + 30.0) / 60.0;
}

/* Stairs of 25 mm, eight of them rising by 0.25 and then from anew. */
static double stairs(double x, double y)
{
	(void)y;
	return 0.25 * (double)((int)floor((x + 50.0) / 25.0) % 8) + 0.1;
}

static double nothing(double x, double y)
{
	(void)x;
	(void)y;
	return 0.0;
}

static double x_of(size_t i)
{
	return -49.5 + CELL * (double)(i % NX);
}

static double y_of(size_t i)
{
	size_t iy = i / NX;

	return -29.5 + CELL * (double)iy;
}

static void fill(struct field *field, formula *f)
{
	field->map = (struct column_map){ NX, NY, -49.5, -29.5, CELL, field->value };
	for (size_t i = 0; i < NX * NY; i++)
		field->value[i] = (float)f(x_of(i), y_of(i));
}

struct sheet {
	char path[SCRATCH_ROOM];
	cairo_surface_t *png; /* as read from the file */
};

static void save_and_read(struct sheet *sheet, void *folder, struct canvas *canvas)
{
	(void)scratch_path(sheet->path, folder, "sheet.png");
	assert_int_equal(canvas_save(canvas, sheet->path, NULL), FAULT_NONE);
	canvas_close(canvas);
	sheet->png = cairo_image_surface_create_from_png(sheet->path);
	assert_int_equal(cairo_surface_status(sheet->png), CAIRO_STATUS_SUCCESS);
}

static uint32_t read_at(const struct sheet *sheet, const struct map_view *view, double x, double y)
{
	return sheet_pixel(sheet->png, (size_t)(map_view_x_mm(view, x) * CANVAS_PIXELS_PER_MM),
			   (size_t)(map_view_y_mm(view, y) * CANVAS_PIXELS_PER_MM));
}

/* Draws one field as the stock map and reads it: every column inside a row of
 * the sheet whose pixel is a colour of the ramp has that colour's value within
 * one step. Contours and their figures cover some. */
static void check_stock_map(void *folder, formula *f)
{
	struct field *field = calloc(1, sizeof *field), *least = calloc(1, sizeof *least);
	struct zone_figures zone[ZONE_COUNT] = { { 1.0, 1.0, 1.0, 1.0, 1000.0 } };
	struct canvas canvas;
	struct sheet sheet;
	size_t read = 0, seen = 0;

	assert_true(field && least);
	fill(field, f);
	fill(least, nothing);
	const struct chisel nothing_left = { 0 };
	const struct stock_map map = { .words = { "Field", "" },
				       .stock = &field->map,
				       .allowance = &least->map,
				       .zone = zone,
				       .plus_side = "bass",
				       .chisel = &nothing_left };
	double full = stock_map_full_mm(&map);
	assert_near(full, 2.0, 1e-9, "the scale ends at twice the allowance, mm");
	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, stock_map_height_mm(&map), NULL),
			 FAULT_NONE);
	assert_int_equal(stock_map_draw(&canvas, &map, NULL), FAULT_NONE);
	save_and_read(&sheet, folder, &canvas);
	for (size_t i = 0; i < NX * NY; i++) {
		struct map_view view = stock_map_view(&map, x_of(i) >= 100.0);
		int step = sheet_step(read_at(&sheet, &view, x_of(i), y_of(i)));
		seen++;
		if (step < 0)
			continue;
		read++;
		assert_near(((double)step + 0.5) * full / PALETTE_STEPS, f(x_of(i), y_of(i)),
			    full / PALETTE_STEPS, "value read off the stock map, mm");
	}
	assert_between((double)read / (double)seen, 0.9, 1.0, "share of columns that can be read");
	cairo_surface_destroy(sheet.png);
	free(least);
	free(field);
}

static void the_stock_map_shows_its_values(void **state)
{
	check_stock_map(*state, ramp_along);
	check_stock_map(*state, ramp_across);
	check_stock_map(*state, stairs);
}

/* A pass that cuts the whole field and one that cuts it in the last 60 mm. */
struct passes {
	struct field cut[2];
	struct pass_figures figures[2];
	struct program_figures program;
	struct map_extent touched[2];
	struct cut_sheet sheet;
};

static double at_the_end(double x, double y)
{
	return x > 190.0 ? ramp_across(x, y) : 0.0;
}

static struct passes *make_passes(formula *f)
{
	struct passes *p = calloc(1, sizeof *p);

	assert_non_null(p);
	fill(&p->cut[0], f);
	fill(&p->cut[1], at_the_end);
	for (int i = 0; i < 2; i++) {
		p->touched[i] = map_extent_none();
		map_extent_add_cut(&p->touched[i], &p->cut[i].map);
	}
	p->program = (struct program_figures){ .pass_count = 2, .pass = p->figures };
	return p;
}

/* The place of pass 1 or 2 on the sheet. */
static struct map_view view_of(const struct cut_sheet *sheet, int pass, bool *whole)
{
	struct cut_passes passes = cut_sheet_passes(sheet);
	struct cut_layout layout = cut_layout_of(&passes);
	struct cut_cursor at = cut_layout_start();
	struct cut_place place = { 0 };
	double heading;

	for (int i = 0; i < pass; i++)
		assert_true(cut_layout_next(&layout, &passes, &at, &place, &heading));
	*whole = place.whole;
	return cut_sheet_view(&layout, &place);
}

static void check_cut_map(const struct sheet *sheet, const struct cut_sheet *cuts, int pass,
			  bool wanted_whole, formula *f)
{
	double full = cut_sheet_range(cuts).full_mm;
	bool whole;
	struct map_view view = view_of(cuts, pass, &whole);
	size_t inside = 0;

	assert_int_equal(whole, wanted_whole);
	for (size_t i = 0; i < NX * NY; i++) {
		double x = x_of(i), y = y_of(i), value = f(x, y);
		if (x < view.part.x_from_mm || x > view.part.x_to_mm)
			continue;
		uint32_t pixel = read_at(sheet, &view, x, y);
		inside++;
		if (value <= 0.0) {
			assert_int_equal(pixel, palette_pixel(palette_colour(PALETTE_PALE_WOOD)));
			continue;
		}
		int step = sheet_step(pixel);
		assert_true(step >= 0);
		assert_near(((double)step + 0.5) * full / PALETTE_STEPS, value,
			    full / PALETTE_STEPS, "value read off the cut map, mm");
	}
	assert_true(inside > NX * NY / 6);
}

static void check_cut_sheet(void *folder, formula *f)
{
	struct passes *p = make_passes(f);
	struct column_map maps[] = { p->cut[0].map, p->cut[1].map };
	struct canvas canvas;
	struct sheet sheet;

	p->sheet = (struct cut_sheet){ .words = { "Field", "" },
				       .program_count = 1,
				       .program = &p->program,
				       .cut_count = 2,
				       .cut = maps,
				       .touched = p->touched };
	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, cut_sheet_height_mm(&p->sheet), NULL),
			 FAULT_NONE);
	assert_int_equal(cut_sheet_draw(&canvas, &p->sheet, NULL), FAULT_NONE);
	save_and_read(&sheet, folder, &canvas);
	check_cut_map(&sheet, &p->sheet, 1, true, f);
	check_cut_map(&sheet, &p->sheet, 2, false, at_the_end);
	cairo_surface_destroy(sheet.png);
	free(p);
}

static void the_cut_maps_show_their_values(void **state)
{
	check_cut_sheet(*state, ramp_along);
	check_cut_sheet(*state, ramp_across);
	check_cut_sheet(*state, stairs);
}

/* Along a rising field a black and white print darkens at every step of the
 * ramp and never lightens, and "untouched" and paper are lighter than all. */
static void grey_falls_as_values_rise(void **state)
{
	struct passes *p = make_passes(ramp_along);
	struct column_map maps[] = { p->cut[0].map, p->cut[1].map };
	struct canvas canvas;
	struct sheet sheet;
	bool whole;
	int darker = 0;

	p->sheet = (struct cut_sheet){ .words = { "Field", "" },
				       .program_count = 1,
				       .program = &p->program,
				       .cut_count = 2,
				       .cut = maps,
				       .touched = p->touched };
	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, cut_sheet_height_mm(&p->sheet), NULL),
			 FAULT_NONE);
	assert_int_equal(cut_sheet_draw(&canvas, &p->sheet, NULL), FAULT_NONE);
	save_and_read(&sheet, *state, &canvas);
	struct map_view view = view_of(&p->sheet, 1, &whole);
	uint32_t before = palette_pixel(palette_colour(PALETTE_PALE_WOOD));
	assert_true(sheet_grey(before) < sheet_grey(palette_pixel(palette_colour(PALETTE_PAPER))));
	for (size_t ix = 0; ix < NX; ix++) {
		uint32_t pixel = read_at(&sheet, &view, x_of(ix), 0.5);
		if (pixel == before)
			continue;
		assert_true(sheet_grey(pixel) < sheet_grey(before));
		assert_true(sheet_lightness(pixel) < sheet_lightness(before));
		before = pixel;
		darker++;
	}
	assert_int_equal(darker, PALETTE_STEPS);
	cairo_surface_destroy(sheet.png);
	free(p);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(the_stock_map_shows_its_values, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(the_cut_maps_show_their_values, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(grey_falls_as_values_rise, scratch_make,
						scratch_remove),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
