/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan view of a whole job, its edges found again as pixels. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "pictures/gather.h"
#include "pictures/plan_rows.h"
#include "pictures/plan_view.h"
#include "post/pictures/sheet_pixels.h"
#include "support/near.h"
#include "support/sample_job.h"
#include "support/sample_result.h"

struct sample {
	struct job job;
	struct neck *neck;
	struct job_result result;
	struct gathered g;
	struct plan_view plan;
};

static struct sample *make(struct job job)
{
	struct sample *s = calloc(1, sizeof *s);

	assert_non_null(s);
	s->job = job;
	s->neck = sample_neck_built(&s->job.neck);
	sample_result(&s->result, s->neck, &s->job, 2.0, 3);
	assert_int_equal(gather(&s->g, &s->result, s->neck, &s->job, NULL), FAULT_NONE);
	double end = s->g.fret_x_mm[s->g.fret_count];
	s->plan = (struct plan_view){
		.words = { "Sample", "" },
		.job = &s->job,
		.lines = &s->g.lines,
		.lanes = { &s->job.carve, &s->job.fixture, &s->job.neck.channel, &s->g.marks,
			   &s->g.straight, neck_to_mm(s->neck), "treble", "bass" },
		.fret_count = s->g.fret_count,
		.fret_x_mm = s->g.fret_x_mm,
		.board_nut_mm = neck_fretboard_width_mm(s->neck, 0.0),
		.board_end_mm = neck_fretboard_width_mm(s->neck, end),
		.station_count = s->result.station_count,
		.station = s->result.station,
		.chisel = &s->result.chisel,
		.row_count = s->g.row_count,
		.row = s->g.row,
	};
	return s;
}

static void drop(struct sample *s)
{
	gathered_free(&s->g);
	sample_result_free(&s->result);
	neck_free(s->neck);
	free(s);
}

static uint32_t named(enum palette_name name)
{
	return palette_pixel(palette_colour(name));
}

/* Just inside an edge there is wood, on it a line of ink, just outside the
 * blank, and outside of that the paper. */
static void check_edge(const struct canvas *canvas, const struct map_view *view,
		       const struct sample *s, double x, enum neck_side side)
{
	double sign = side == SIDE_PLUS ? 1.0 : -1.0, scale = view->scale;
	double edge = neck_half_breadth_mm(s->neck, side, x, 0.0);
	double blank = outline_value_mm(&s->job.blank.half_width, x);

	assert_int_equal(sheet_pixel_on(canvas, view, x, sign * (edge - 0.8 / scale)),
			 named(PALETTE_WOOD));
	assert_true(sheet_grey(sheet_pixel_on(canvas, view, x, sign * edge)) <
		    sheet_grey(named(PALETTE_SOFT_INK)) + 10.0);
	assert_int_equal(sheet_pixel_on(canvas, view, x, sign * (edge + 0.6 / scale)),
			 named(PALETTE_PALE_WOOD));
	assert_int_equal(sheet_pixel_on(canvas, view, x, sign * (blank + 0.6 / scale)),
			 named(PALETTE_PAPER));
}

static void edges_lie_where_the_neck_has_them(void **state)
{
	(void)state;
	struct sample *s = make(sample_steel_job());
	struct map_view view = plan_view_place(&s->plan);
	struct canvas canvas;

	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, plan_view_height_mm(&s->plan), NULL),
			 FAULT_NONE);
	plan_view_draw(&canvas, &s->plan);
	assert_int_equal(cairo_status(canvas.pen), CAIRO_STATUS_SUCCESS);
	for (size_t fret = 0; fret < 10; fret++) {
		/* between frets, where no stroke of one stands */
		double x = (s->g.fret_x_mm[fret] + s->g.fret_x_mm[fret + 1]) / 2.0;
		check_edge(&canvas, &view, s, x, SIDE_MINUS);
		check_edge(&canvas, &view, s, x, SIDE_PLUS);
	}
	canvas_close(&canvas);
	drop(s);
}

/* The flats of peghead and cap are lighter than the round of the shaft. */
static void flats_are_light(void **state)
{
	(void)state;
	struct sample *s = make(sample_steel_job());
	struct map_view view = plan_view_place(&s->plan);
	struct canvas canvas;

	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, plan_view_height_mm(&s->plan), NULL),
			 FAULT_NONE);
	plan_view_draw(&canvas, &s->plan);
	assert_int_equal(sheet_pixel_on(&canvas, &view, -75.0, 20.0), named(PALETTE_LIGHT_WOOD));
	assert_int_equal(sheet_pixel_on(&canvas, &view, -75.0, -20.0), named(PALETTE_LIGHT_WOOD));
	assert_int_equal(sheet_pixel_on(&canvas, &view, 350.0, 6.5), named(PALETTE_LIGHT_WOOD));
	assert_int_equal(sheet_pixel_on(&canvas, &view, 350.0, 13.5), named(PALETTE_WOOD));
	assert_int_equal(sheet_pixel_on(&canvas, &view, 60.0, 10.0), named(PALETTE_WOOD));
	canvas_close(&canvas);
	drop(s);
}

/* One scale both ways: the plan's own figures say so. */
static void the_plan_holds_everything(void **state)
{
	(void)state;
	struct sample *s = make(sample_steel_job());
	struct map_view view = plan_view_place(&s->plan);
	const struct fixture *f = &s->job.fixture;

	assert_true(view.part.x_from_mm <= blank_from_mm(&s->job.blank));
	assert_true(view.part.x_to_mm >= blank_to_mm(&s->job.blank));
	for (size_t i = 0; i < f->keep_out_count; i++) {
		assert_true(view.part.y_from_mm < f->keep_out[i].y_from_mm);
		assert_true(view.part.y_to_mm > f->keep_out[i].y_to_mm);
	}
	double right = view.left_mm + map_view_width_mm(&view);
	assert_between(right, 200.0, CANVAS_WIDTH_MM - CANVAS_MARGIN_MM + 0.2,
		       "right end of the plan on paper, mm");
	drop(s);
}

static const struct plan_row *row_named(const struct sample *s, const char *name)
{
	for (size_t i = 0; i < s->g.row_count; i++)
		if (strstr(s->g.row[i].name, name))
			return &s->g.row[i];
	fail_msg("there is no row \"%s\"", name);
	return NULL;
}

static void widths_are_the_necks(void **state)
{
	(void)state;
	struct sample *s = make(sample_steel_job());

	assert_int_equal(s->g.row_count, s->result.station_count + 5);
	for (size_t i = 0; i < s->g.row_count; i++) {
		const struct plan_row *row = &s->g.row[i];
		assert_true(i == 0 || row->x_mm > s->g.row[i - 1].x_mm);
		assert_near(row->edge_mm,
			    neck_half_breadth_mm(s->neck, SIDE_MINUS, row->x_mm, 0.0) +
				    neck_half_breadth_mm(s->neck, SIDE_PLUS, row->x_mm, 0.0),
			    1e-9, "width at the gluing face, mm");
	}
	assert_near(row_named(s, "nut")->board_mm, 43.7, 1e-6, "fretboard at the nut, mm");
	assert_near(row_named(s, "body joint")->board_mm, 54.8, 1e-6, "and at fret 14, mm");
	assert_near(row_named(s, "cap, sides")->flat_mm, 20.0, 0.01, "cap behind its curve, mm");
	assert_near(row_named(s, "body joint")->flat_mm, 24.0, 0.01, "cap at the joint, mm");
	assert_near(row_named(s, "body joint")->blank_mm, 62.0, 1e-6, "blank at its end, mm");
	assert_near(row_named(s, "peghead end")->edge_mm, 70.0, 1e-6, "peghead, mm");
	assert_true(isnan(row_named(s, "peghead end")->board_mm));
	assert_true(isnan(row_named(s, "fret 5")->flat_mm));
	drop(s);
}

/* Two names for one place share its row. */
static void places_that_coincide_share_a_row(void **state)
{
	(void)state;
	struct job job = sample_steel_job();
	struct sample *s;

	job.neck.joint_fret = 14;
	s = make(job);
	s->result.station[s->result.station_count - 1].x_mm = s->g.marks.joint_mm;
	s->result.station[s->result.station_count - 1].fret = 14.0;
	struct plan_row row[32];
	size_t count = plan_rows_fill(row, &s->result, s->neck, &s->job);
	assert_int_equal(count, s->g.row_count - 1);
	assert_string_equal(row[count - 1].name, "fret 14, body joint");
	drop(s);
}

/* Nothing is drawn outside of the margins but half a figure at an axis's end,
 * whatever stands where. */
static void lanes_stay_on_the_sheet(void **state)
{
	(void)state;
	struct sample *s = make(sample_steel_job());
	struct fixture *f = &s->job.fixture;
	struct canvas canvas;
	static const double from[] = { -190.0, 20.0, 60.0, 100.0, 330.0 };

	f->hold_count = 5;
	for (size_t i = 0; i < 5; i++) {
		f->hold[i] = (struct place){ .x_from_mm = from[i],
					     .x_to_mm = from[i] + 25.0,
					     .y_from_mm = -10.0,
					     .y_to_mm = 10.0 };
		memset(f->hold[i].name, 'w', FIXTURE_NAME_MAX - 1);
	}
	f->keep_out[0].x_from_mm = 30.0;
	f->keep_out[0].x_to_mm = 160.0;
	memset(f->keep_out[0].name, 'm', FIXTURE_NAME_MAX - 1);
	double height = plan_view_height_mm(&s->plan);
	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, height, NULL), FAULT_NONE);
	plan_view_draw(&canvas, &s->plan);
	size_t width = (size_t)cairo_image_surface_get_width(canvas.surface);
	size_t rows = (size_t)cairo_image_surface_get_height(canvas.surface);
	size_t margin = (size_t)((CANVAS_MARGIN_MM - 3.0) * CANVAS_PIXELS_PER_MM);
	for (size_t py = 0; py < rows; py++)
		for (size_t px = 0; px < margin; px++) {
			assert_int_equal(sheet_pixel(canvas.surface, px, py), named(PALETTE_PAPER));
			assert_int_equal(sheet_pixel(canvas.surface, width - 1 - px, py),
					 named(PALETTE_PAPER));
		}
	canvas_close(&canvas);
	drop(s);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(edges_lie_where_the_neck_has_them),
		cmocka_unit_test(flats_are_light),
		cmocka_unit_test(the_plan_holds_everything),
		cmocka_unit_test(widths_are_the_necks),
		cmocka_unit_test(places_that_coincide_share_a_row),
		cmocka_unit_test(lanes_stay_on_the_sheet),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
