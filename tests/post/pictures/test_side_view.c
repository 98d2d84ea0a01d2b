/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The side view: where heights lie, and that nothing is left out of it. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "pictures/gather.h"
#include "pictures/side_frame.h"
#include "post/pictures/sheet_pixels.h"
#include "support/near.h"
#include "support/sample_job.h"
#include "support/sample_result.h"

struct sample {
	struct job job;
	struct neck *neck;
	struct job_result result;
	struct gathered g;
	struct side_view view;
};

static int make(void **state)
{
	struct sample *s = calloc(1, sizeof *s);

	assert_non_null(s);
	s->job = sample_steel_job();
	s->neck = sample_neck_built(&s->job.neck);
	sample_result(&s->result, s->neck, &s->job, 1.0, 3);
	assert_int_equal(gather(&s->g, &s->result, s->neck, &s->job, NULL), FAULT_NONE);
	s->view = (struct side_view){
		.words = { "Sample", "" },
		.finished = &s->result.finished_side,
		.roughed = &s->result.roughed_side,
		.blank_top = &s->result.blank_side,
		.underside = &s->g.underside,
		.blank_bottom = &s->g.blank_bottom,
		.fretboard_thickness_mm = 6.0,
		.fret_count = s->g.fret_count,
		.fret_x_mm = s->g.fret_x_mm,
		.station_count = s->result.station_count,
		.station = s->result.station,
		.over_fretboard = true,
		.job = &s->job,
		.lanes = { &s->job.carve, &s->job.fixture, &s->job.neck.channel, &s->g.marks,
			   &s->g.straight, neck_to_mm(s->neck), "treble", "bass" },
	};
	*state = s;
	return 0;
}

static int drop(void **state)
{
	struct sample *s = *state;

	gathered_free(&s->g);
	sample_result_free(&s->result);
	neck_free(s->neck);
	free(s);
	return 0;
}

static void everything_is_inside_the_frame(void **state)
{
	struct sample *s = *state;
	struct side_frame f = side_frame_of(&s->view);
	const struct fixture *fixture = &s->job.fixture;

	assert_true(fixture->keep_out_count > 0);
	for (size_t i = 0; i < fixture->keep_out_count; i++) {
		assert_true(f.x_from <= fixture->keep_out[i].x_from_mm);
		assert_true(f.z_to >= fixture->keep_out[i].top_mm);
	}
	assert_true(f.z_to >= blank_highest_mm(&s->job.blank));
	assert_true(f.z_from <= -6.0);
	assert_true(f.bottom - f.top <= 95.0);
	double heights = (side_frame_z(&f, 0.0) - side_frame_z(&f, 10.0)) / 10.0;
	assert_near(heights, side_frame_scale(&f) * f.exaggeration, 1e-9,
		    "paper mm per mm of height");
	assert_near(side_frame_x(&f, 100.0) - side_frame_x(&f, 0.0), 100.0 * side_frame_scale(&f),
		    1e-9, "length on paper, mm");
}

static uint32_t pixel_at(const struct canvas *canvas, const struct side_frame *f, double x,
			 double z)
{
	return sheet_pixel_at(canvas, side_frame_x(f, x), side_frame_z(f, z));
}

static void heights_lie_where_the_neck_has_them(void **state)
{
	struct sample *s = *state;
	struct side_frame f = side_frame_of(&s->view);
	struct canvas canvas;
	uint32_t wood = palette_pixel(palette_colour(PALETTE_WOOD));
	uint32_t pale = palette_pixel(palette_colour(PALETTE_PALE_WOOD));
	double line = 0.6 / (side_frame_scale(&f) * f.exaggeration); /* clear of a line, mm */

	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, side_view_height_mm(&s->view), NULL),
			 FAULT_NONE);
	assert_int_equal(side_view_draw(&canvas, &s->view, NULL), FAULT_NONE);
	for (int i = 0; i < 8; i++) {
		double x = 26.3 + 33.0 * i; /* beside frets and stations */
		double crest = neck_crest_mm(s->neck, x);
		double blank = outline_value_mm(&s->job.blank.top, x);
		assert_int_equal(pixel_at(&canvas, &f, x, crest - line), wood);
		assert_true(sheet_grey(pixel_at(&canvas, &f, x, crest)) < 80.0);
		assert_int_equal(pixel_at(&canvas, &f, x, blank - line), pale);
		/* the channel's floor is a broken line, wood on both sides of it */
		double floor_z = s->job.neck.channel.depth_mm;
		assert_int_equal(pixel_at(&canvas, &f, x, floor_z - line), wood);
		assert_int_equal(pixel_at(&canvas, &f, x, floor_z + line), wood);
	}
	canvas_close(&canvas);
}

static void a_line_without_points_is_refused(void **state)
{
	struct sample *s = *state;
	struct side_view view = s->view;
	struct profile_line none = { 0 };
	struct fault_list faults = { 0 };
	struct canvas canvas;

	view.finished = &none;
	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, 100.0, NULL), FAULT_NONE);
	assert_int_equal(side_view_draw(&canvas, &view, &faults), FAULT_INTERNAL);
	assert_int_equal(faults.count, 1);
	canvas_close(&canvas);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(everything_is_inside_the_frame),
		cmocka_unit_test(heights_lie_where_the_neck_has_them),
		cmocka_unit_test(a_line_without_points_is_refused),
	};

	return cmocka_run_group_tests(tests, make, drop);
}
