/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Large drawings laid over pages: nothing is lost, marks of neighbours lie one
 * step apart, and lengths are true. Lengths mm. */
#include "papers/tiles.h"

#include <math.h>
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

#define OFF_MM 0.1
#define DOT_MM 2.0
#define DOT_EVERY_MM 20.0

/* Squares 2 mm wide on a lattice of 20 mm. */
static void draw_dots(struct canvas *canvas, const void *context)
{
	const struct tile_drawing *drawing = context;

	canvas_colour(canvas, palette_colour(PALETTE_INK));
	for (double x = ceil(drawing->left_mm / DOT_EVERY_MM) * DOT_EVERY_MM;
	     x <= drawing->right_mm; x += DOT_EVERY_MM)
		for (double y = ceil(drawing->top_mm / DOT_EVERY_MM) * DOT_EVERY_MM;
		     y <= drawing->bottom_mm; y += DOT_EVERY_MM)
			cairo_rectangle(canvas->pen, x - DOT_MM / 2.0, y - DOT_MM / 2.0, DOT_MM,
					DOT_MM);
	cairo_fill(canvas->pen);
}

static void draw_nothing(struct canvas *canvas, const void *context)
{
	(void)canvas;
	(void)context;
}

static struct tile_drawing dots(double width_mm, double height_mm)
{
	return (struct tile_drawing){ .title = "Dots",
				      .remark = "Squares.",
				      .left_mm = -30.0,
				      .top_mm = -50.0,
				      .right_mm = width_mm - 30.0,
				      .bottom_mm = height_mm - 50.0,
				      .draw = draw_dots };
}

/* Draws it on lying A4 pages; returns how many. */
static size_t draw_pages(const char *pdf, struct tile_drawing *drawing, struct tile_layout *layout)
{
	const struct paper *paper = paper_of(PAPER_A4);
	struct canvas canvas;
	struct sheet sheet = {
		.canvas = &canvas, .paper = paper, .words = { "Dots", "" }, .true_scale = true
	};

	drawing->context = drawing;
	assert_int_equal(canvas_open_paper(&canvas, paper->height_mm, paper->width_mm, "Dots",
					   NULL),
			 FAULT_NONE);
	*layout = tiles_layout(drawing, sheet_area(&sheet));
	sheet.page_count = tiles_page_count(&sheet, drawing);
	tiles_draw(&sheet, drawing);
	assert_int_equal(sheet.page, sheet.page_count);
	assert_int_equal(canvas_save(&canvas, pdf, NULL), FAULT_NONE);
	canvas_close(&canvas);
	return sheet.page_count;
}

/* Place on its page of a point of the drawing. */
static double page_x(const struct tile_layout *layout, const struct tile_drawing *drawing, size_t c,
		     double x)
{
	return layout->page_left_mm + x - drawing->left_mm - (double)c * layout->step_x_mm;
}

static double page_y(const struct tile_layout *layout, const struct tile_drawing *drawing, size_t r,
		     double y)
{
	return layout->page_top_mm + y - drawing->top_mm - (double)r * layout->step_y_mm;
}

/* Middle of the dot expected at (x, y) on the page. */
static void find_dot(const struct rendered *page, double x, double y, double *at_x, double *at_y)
{
	*at_x = x - 1.8 + rendered_first_stroke(page, x - 1.8, y, x + 1.8, y);
	*at_y = y - 1.8 + rendered_first_stroke(page, x, y - 1.8, x, y + 1.8);
}

static bool shown(const struct tile_layout *layout, double x, double y)
{
	return x > layout->page_left_mm + DOT_MM &&
	       x < layout->page_left_mm + layout->width_mm - DOT_MM &&
	       y > layout->page_top_mm + DOT_MM &&
	       y < layout->page_top_mm + layout->height_mm - DOT_MM;
}

/* True for a place of the drawing that a cross or the edge of a page touches. */
static bool marked(const struct tile_layout *layout, const struct tile_drawing *drawing, double x,
		   double y)
{
	bool near = false;

	for (size_t i = 0; i < tiles_mark_count(layout); i++) {
		struct tile_mark mark = tiles_mark(layout, drawing, i);
		near = near || hypot(mark.x_mm - x, mark.y_mm - y) < 8.0;
	}
	for (size_t i = 1; i < layout->columns; i++) {
		double edge = drawing->left_mm + (double)i * layout->step_x_mm;
		near = near || fabs(x - edge) < 3.0;
	}
	for (size_t i = 1; i < layout->rows; i++) {
		double edge = drawing->top_mm + (double)i * layout->step_y_mm;
		near = near || fabs(y - edge) < 3.0;
	}
	return near;
}

/* Every dot that a page should show stands at its place, true to 0.1 mm. */
static size_t check_page(const struct rendered *page, const struct tile_layout *layout,
			 const struct tile_drawing *drawing, size_t c, size_t r)
{
	size_t count = 0;

	for (double x = -20.0; x < drawing->right_mm; x += DOT_EVERY_MM)
		for (double y = -40.0; y < drawing->bottom_mm; y += DOT_EVERY_MM) {
			double px = page_x(layout, drawing, c, x), at_x;
			double py = page_y(layout, drawing, r, y), at_y;
			if (!shown(layout, px, py) || marked(layout, drawing, x, y))
				continue;
			find_dot(page, px, py, &at_x, &at_y);
			assert_near(at_x, px, OFF_MM, "across the page, mm");
			assert_near(at_y, py, OFF_MM, "down the page, mm");
			count++;
		}
	return count;
}

static void every_page_shows_its_part(void **state)
{
	struct tile_drawing drawing = dots(600.0, 240.0);
	struct tile_layout layout;
	char pdf[SCRATCH_ROOM];
	size_t pages = draw_pages(scratch_path(pdf, *state, "dots.pdf"), &drawing, &layout);

	assert_int_equal(layout.columns, 3);
	assert_int_equal(layout.rows, 2);
	assert_int_equal(pages, 6);
	for (size_t i = 0; i < pages; i++) {
		struct rendered page;
		rendered_page(&page, *state, pdf, (int)i + 1);
		assert_true(check_page(&page, &layout, &drawing, i % 3, i / 3) > 40);
		rendered_free(&page);
	}
}

/* Two dots 200 mm apart: 0.1 mm is what papers promise over that length. */
static void two_hundred_millimetres_are_true(void **state)
{
	struct tile_drawing drawing = dots(240.0, 140.0);
	struct tile_layout layout;
	struct rendered page;
	char pdf[SCRATCH_ROOM];
	double x0, x1, y0, y1;

	assert_int_equal(draw_pages(scratch_path(pdf, *state, "dots.pdf"), &drawing, &layout), 1);
	rendered_page(&page, *state, pdf, 1);
	double left = page_x(&layout, &drawing, 0, -20.0),
	       top = page_y(&layout, &drawing, 0, -40.0);
	find_dot(&page, left, top, &x0, &y0);
	find_dot(&page, left + 200.0, top + 120.0, &x1, &y1);
	assert_near(x1 - x0, 200.0, 0.1, "across, mm");
	assert_near(y1 - y0, 120.0, 0.06, "down, mm");
	rendered_free(&page);
}

/* The cross of a mark as it is found near a place: arms beyond its ring. */
static void find_mark(const struct rendered *page, double x, double y, double *at_x, double *at_y)
{
	*at_x = x - 1.0 + rendered_first_stroke(page, x - 1.0, y + 3.2, x + 1.0, y + 3.2);
	*at_y = y - 1.0 + rendered_first_stroke(page, x - 3.2, y - 1.0, x - 3.2, y + 1.0);
}

/* The same mark on neighbours: one step apart, so glued together they agree. */
static void marks_of_neighbours_lie_a_step_apart(void **state)
{
	struct tile_drawing drawing = dots(500.0, 240.0);
	struct tile_layout layout;
	struct rendered page[4];
	char pdf[SCRATCH_ROOM];

	drawing.draw = draw_nothing;
	assert_int_equal(draw_pages(scratch_path(pdf, *state, "dots.pdf"), &drawing, &layout), 4);
	for (int i = 0; i < 4; i++)
		rendered_page(&page[i], *state, pdf, i + 1);
	assert_int_equal(tiles_mark_count(&layout), 8);
	for (size_t i = 0; i < 8; i++) {
		struct tile_mark mark = tiles_mark(&layout, &drawing, i);
		bool beside = i < 4;
		size_t seam = i % 4 / 2; /* the row of a seam beside, the column of one below */
		size_t first = beside ? 2 * seam : seam, second = beside ? first + 1 : first + 2;
		double x[2], y[2];
		for (int k = 0; k < 2; k++) {
			size_t at = k == 0 ? first : second;
			find_mark(&page[at], page_x(&layout, &drawing, at % 2, mark.x_mm),
				  page_y(&layout, &drawing, at / 2, mark.y_mm), &x[k], &y[k]);
		}
		assert_near(x[0] - x[1], beside ? layout.step_x_mm : 0.0, OFF_MM, "across, mm");
		assert_near(y[0] - y[1], beside ? 0.0 : layout.step_y_mm, OFF_MM, "down, mm");
	}
	for (int i = 0; i < 4; i++)
		rendered_free(&page[i]);
}

/* Letters tell marks apart, also those of a second drawing in the same file. */
static void letters_are_not_repeated(void **state)
{
	struct tile_drawing drawing = dots(2000.0, 400.0);
	struct tile_layout layout;
	char pdf[SCRATCH_ROOM], seen[400][8];
	size_t count;

	(void)draw_pages(scratch_path(pdf, *state, "dots.pdf"), &drawing, &layout);
	count = tiles_mark_count(&layout);
	assert_true(count > 60 && 2 * count < sizeof seen / sizeof seen[0]);
	for (size_t i = 0; i < 2 * count; i++) {
		drawing.marks_before = i < count ? 0 : count;
		struct tile_mark mark = tiles_mark(&layout, &drawing, i % count);
		memcpy(seen[i], mark.letter, sizeof seen[i]);
		for (size_t k = 0; k < i; k++)
			assert_string_not_equal(seen[k], seen[i]);
	}
	char *text = rendered_tool(*state, "pdftotext", "-raw", pdf);
	assert_non_null(strstr(text, "cross of the same letter"));
	free(text);
}

/* Pages of a layout cover the drawing and no more, and fit the paper. */
static void layouts_cover_the_drawing(void **state)
{
	const struct sheet_area area = { 10.0, 30.0, 275.0, 180.0 };

	(void)state;
	for (double width = 20.0; width < 1500.0; width += 33.7)
		for (double height = 20.0; height < 500.0; height += 41.3) {
			struct tile_drawing drawing = dots(width, height);
			struct tile_layout l = tiles_layout(&drawing, area);
			assert_near((double)(l.columns - 1) * l.step_x_mm + l.width_mm, width, 1e-9,
				    "covered across, mm");
			assert_near((double)(l.rows - 1) * l.step_y_mm + l.height_mm, height, 1e-9,
				    "covered down, mm");
			assert_true(l.page_left_mm >= area.left - 1e-9 &&
				    l.page_left_mm + l.width_mm <= area.right + 1e-9);
			assert_true(l.page_top_mm >= area.top - 1e-9 &&
				    l.page_top_mm + l.height_mm <= area.bottom + 1e-9);
			assert_true((l.columns == 1) == (width <= 265.0));
			assert_near(tiles_first_width_mm(width, area),
				    l.columns == 1 ? width : l.step_x_mm, 1e-9, "alone, mm");
		}
}

#define ON_FILES(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)

int main(void)
{
	const struct CMUnitTest tests[] = {
		ON_FILES(every_page_shows_its_part),
		ON_FILES(two_hundred_millimetres_are_true),
		ON_FILES(marks_of_neighbours_lie_a_step_apart),
		ON_FILES(letters_are_not_repeated),
		cmocka_unit_test(layouts_cover_the_drawing),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
