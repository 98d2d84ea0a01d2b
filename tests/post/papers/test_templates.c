/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Templates of heel and plan measured on rendered pages against the neck.
 * Lengths mm. */
#include "papers/templates.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "papers/heel_drawing.h"
#include "papers/heel_template.h"
#include "papers/plan_template.h"
#include "support/near.h"
#include "support/paper_sample.h"
#include "support/rendered.h"
#include "support/scratch.h"

#define OFF_MM 0.1

/* On a steep line a mark of 0.1 mm square to it is longer upright. */
static double upright_off(const struct neck *neck, double x)
{
	double slope = (neck_crest_mm(neck, x + 0.01) - neck_crest_mm(neck, x - 0.01)) / 0.02;

	return OFF_MM * sqrt(1.0 + slope * slope);
}

/* True where a dotted line runs along the place that is looked at. */
static bool on_dots(const struct heel_template *heel, double x)
{
	bool near = false;

	for (size_t i = 0; i < heel->side_count; i++)
		near = near || fabs(heel->side[i].along_mm - x) < 0.4;
	for (size_t i = 0; i < heel->plan_count; i++)
		near = near || fabs(heel->plan[i].along_mm - x) < 0.4;
	return near;
}

/* Highest line of the side view at x, against the crest: from above down. */
static void check_side(const struct rendered *page, const struct heel_template *heel,
		       const struct neck *neck, double left_mm, double face_mm)
{
	for (double x = heel->from_mm + 3.1; x < heel->to_mm - 1.0; x += 2.3) {
		double px = left_mm + x - heel->from_mm, crest = neck_crest_mm(neck, x);
		double from = face_mm - crest - 1.5;
		if (on_dots(heel, x))
			continue;
		assert_near(face_mm - (from + rendered_first_stroke(page, px, from, px, face_mm)),
			    crest, upright_off(neck, x), "crest, mm");
	}
	/* length from the shaft's cut to the body, on the gluing face */
	double across[3], y = face_mm - 4.5;
	size_t count = rendered_strokes(page, left_mm - 2.0, y, left_mm + 1.0, y, 3, across);
	assert_int_equal(count, 1);
	double right = left_mm + heel->to_mm - heel->from_mm;
	double end = rendered_first_stroke(page, right - 0.8, y, right + 0.8, y) + right - 0.8;
	assert_near(end - (left_mm - 2.0 + across[0]), heel->to_mm - heel->from_mm, OFF_MM,
		    "length, mm");
}

/* Edges of the plan from its centre line outward, past the cap's line. */
static void check_edges(const struct rendered *page, const struct heel_template *heel,
			const struct neck *neck, double left_mm, double centre_mm)
{
	for (double x = heel->from_mm + 3.1; x < heel->to_mm - 1.0; x += 3.7)
		for (int side = 0; side < SIDE_COUNT; side++) {
			double edge = neck_half_breadth_mm(neck, (enum neck_side)side, x, 0.0);
			double sign = side == SIDE_PLUS ? -1.0 : 1.0;
			double from = centre_mm + sign * (edge + 1.2),
			       px = left_mm + x - heel->from_mm;
			double at = rendered_first_stroke(page, px, from, px, centre_mm);
			assert_near(edge + 1.2 - at, edge, OFF_MM, "edge, mm");
		}
}

static void check_heel(const char *folder, const struct job *job, enum paper_size size)
{
	struct paper_sample sample;
	struct heel_template heel;
	struct rendered page;
	char pdf[SCRATCH_ROOM];
	struct sheet_area area = paper_sample_area(size, true);

	paper_sample_make(&sample, job);
	paper_sample_draw(&sample, scratch_path(pdf, folder, "templates.pdf"), size, true,
			  templates_draw);
	assert_int_equal(heel_template_build(&heel, &sample.content, area, NULL), FAULT_NONE);
	struct tile_drawing drawing = heel_drawing(&heel);
	struct tile_layout layout = tiles_layout(&drawing, area);
	assert_int_equal(layout.columns * layout.rows, 1);
	rendered_page(&page, folder, pdf, 1);
	double left = layout.page_left_mm - drawing.left_mm;
	double top = layout.page_top_mm - drawing.top_mm;
	check_side(&page, &heel, sample.model.neck, left, top);
	check_edges(&page, &heel, sample.model.neck, left + heel.plan_x_mm, top + heel.plan_y_mm);
	rendered_free(&page);
	heel_template_free(&heel);
	paper_sample_free(&sample);
}

static struct job flat_job(void)
{
	struct job job = sample_steel_job();

	job.neck.heel = (struct heel_spec){ .kind = HEEL_FLAT,
					    .height_mm = 19.0,
					    .slab_length_mm = 60.0,
					    .beyond_joint_mm = 70.0,
					    .ease_length_mm = 40.0 };
	return job;
}

static void heels_are_true(void **state)
{
	struct job steel = sample_steel_job(), flat = flat_job();

	check_heel(*state, &steel, PAPER_A4);
	check_heel(*state, &steel, PAPER_LETTER);
	check_heel(*state, &flat, PAPER_A4);
}

static struct job set_job(void)
{
	struct job job = sample_steel_job();

	job.neck.heel = (struct heel_spec){ .kind = HEEL_SET,
					    .height_mm = 30.0,
					    .beyond_joint_mm = 60.0,
					    .ease_length_mm = 50.0,
					    .tenon_width_mm = 40.0,
					    .shoulder_length_mm = 22.0 };
	return job;
}

static void tenons_are_true(void **state)
{
	struct job job = set_job();

	check_heel(*state, &job, PAPER_A4);
}

/* The joint's box is dashed out of the end in both views: its far side stands
 * at its length, as high and as wide as it is. */
static void a_joint_stands_out_of_the_end(void **state)
{
	struct job job = sample_steel_job();
	struct paper_sample sample;
	struct heel_template heel;
	struct rendered page;
	char pdf[SCRATCH_ROOM];
	struct sheet_area area = paper_sample_area(PAPER_A4, true);

	job.neck.heel.joint = (struct joint_spec){ JOINT_TENON, 18.0, 20.0, 6.0, 70.0 };
	paper_sample_make(&sample, &job);
	paper_sample_draw(&sample, scratch_path(pdf, *state, "templates.pdf"), PAPER_A4, true,
			  templates_draw);
	assert_int_equal(heel_template_build(&heel, &sample.content, area, NULL), FAULT_NONE);
	assert_string_equal(heel.joint_name, "tenon");
	assert_near(heel_template_end_mm(&heel), heel.to_mm + 18.0, 1e-9, "end, mm");
	struct tile_drawing drawing = heel_drawing(&heel);
	struct tile_layout layout = tiles_layout(&drawing, area);
	assert_int_equal(layout.columns * layout.rows, 1);
	rendered_page(&page, *state, pdf, 1);
	double left = layout.page_left_mm - drawing.left_mm;
	double top = layout.page_top_mm - drawing.top_mm, far = heel.joint.x_to_mm - heel.from_mm;
	/* dashes: look along a stretch that spans several */
	int side = 0, plan = 0, above = 0;
	double centre = top + heel.plan_y_mm, plan_far = left + heel.plan_x_mm + far, at;
	for (double z = 10.0; z < 60.0; z += 0.25)
		side += (int)rendered_strokes(&page, left + far - 0.6, top - z, left + far + 0.6,
					      top - z, 1, &at);
	for (double y = 3.0; y < 9.0; y += 0.25)
		plan += (int)rendered_strokes(&page, plan_far - 0.6, centre - y, plan_far + 0.6,
					      centre - y, 1, &at);
	for (double x = 2.0; x < 16.0; x += 0.25) {
		double px = left + heel.to_mm - heel.from_mm + x;
		above += (int)rendered_strokes(&page, px, top - 70.6, px, top - 69.4, 1, &at);
	}
	assert_between(side, 80, 200, "dashes of the far side");
	assert_between(plan, 8, 24, "in plan");
	assert_between(above, 20, 56, "above");
	rendered_free(&page);
	heel_template_free(&heel);
	paper_sample_free(&sample);
}

/* The cap's outline is the crest's half-breadth, from the cap's front on. */
static void the_cap_is_the_crests_plan(void **state)
{
	struct job job = sample_steel_job();
	struct paper_sample sample;
	struct heel_template heel;

	(void)state;
	paper_sample_make(&sample, &job);
	const struct neck *neck = sample.model.neck;
	assert_int_equal(heel_template_build(&heel, &sample.content,
					     paper_sample_area(PAPER_A4, true), NULL),
			 FAULT_NONE);
	for (int side = 0; side < SIDE_COUNT; side++) {
		const struct curve_points *cap = &heel.cap[side];
		assert_near(cap->x_mm[0], neck_heel_proper_mm(neck), 1e-9, "cap front, mm");
		assert_near(cap->x_mm[cap->count - 1], neck_to_mm(neck), 1e-9, "body, mm");
		for (size_t i = 0; i < cap->count; i++) {
			double half =
				neck_half_breadth_mm(neck, (enum neck_side)side, cap->x_mm[i], 1.0);
			assert_near(cap->value_mm[i], half, 1e-9, "cap, mm");
		}
	}
	/* 20 mm in front, 24 at the body is what the sample asks for */
	assert_near(2.0 * heel.cap[SIDE_PLUS].value_mm[heel.cap[SIDE_PLUS].count - 1], 24.0, 0.01,
		    "cap at the body, mm");
	heel_template_free(&heel);
	heel_template_free(NULL);
	paper_sample_free(&sample);
}

/* Edges, nut and frets of the plan on whichever page shows them. */
static void check_plan_page(const struct rendered *page, const struct neck *neck,
			    const struct tile_layout *layout, const struct tile_drawing *drawing,
			    size_t c, int *checked)
{
	double shift = layout->page_left_mm - drawing->left_mm - (double)c * layout->step_x_mm;
	double centre = layout->page_top_mm - drawing->top_mm;

	for (int fret = 0; fret <= 13; fret++) {
		double x = neck_fret_x_mm(neck, fret), px = shift + x;
		if (px < layout->page_left_mm + 4.0 ||
		    px > layout->page_left_mm + layout->width_mm - 4.0)
			continue;
		double y = centre + 12.3; /* clear of channel and centre line */
		assert_near(px - 1.5 + rendered_first_stroke(page, px - 1.5, y, px + 1.5, y), px,
			    OFF_MM, "fret, mm");
		for (int side = 0; side < SIDE_COUNT; side++) {
			double beside = x + 3.3, sign = side == SIDE_PLUS ? -1.0 : 1.0;
			double edge = neck_half_breadth_mm(neck, (enum neck_side)side, beside, 0.0);
			double from = centre + sign * (edge + 1.0);
			double at = rendered_first_stroke(page, px + 3.3, from, px + 3.3, centre);
			assert_near(edge + 1.0 - at, edge, OFF_MM, "edge, mm");
		}
		++*checked;
	}
}

static void the_plan_is_true_over_all_pages(void **state)
{
	struct job job = sample_steel_job();
	struct paper_sample sample;
	struct plan_template plan;
	struct sheet_area area = paper_sample_area(PAPER_A4, true);
	char pdf[SCRATCH_ROOM];
	int checked = 0;

	paper_sample_make(&sample, &job);
	paper_sample_draw(&sample, scratch_path(pdf, *state, "templates.pdf"), PAPER_A4, true,
			  templates_draw);
	assert_int_equal(plan_template_build(&plan, &sample.content, area, NULL), FAULT_NONE);
	struct tile_drawing drawing = plan_template_drawing(&plan);
	struct tile_layout layout = tiles_layout(&drawing, area);
	assert_int_equal(layout.rows, 1);
	assert_true(layout.columns > 1);
	for (size_t c = 0; c < layout.columns; c++) {
		struct rendered page;
		rendered_page(&page, *state, pdf, 2 + (int)c);
		check_plan_page(&page, sample.model.neck, &layout, &drawing, c, &checked);
		rendered_free(&page);
	}
	assert_true(checked >= 14);
	plan_template_free(&plan);
	plan_template_free(NULL);
	paper_sample_free(&sample);
}

/* Places named in the tables: once each, in the order of x, with the wood's
 * width; a joint that lies on the slab's beginning or end is not a second one. */
static void places_are_named_once(void **state)
{
	static const double beyond[] = { 0.0, 30.0, 60.0, 80.0 };

	(void)state;
	for (size_t i = 0; i < sizeof beyond / sizeof beyond[0]; i++) {
		struct job job = flat_job();
		struct paper_sample sample;
		struct plan_template plan;
		int joints = 0;
		job.neck.heel.beyond_joint_mm = beyond[i];
		job.neck.station[1].fret = 5.0;
		paper_sample_make(&sample, &job);
		assert_int_equal(plan_template_build(&plan, &sample.content,
						     paper_sample_area(PAPER_A4, true), NULL),
				 FAULT_NONE);
		for (size_t k = 0; k < plan.place_count; k++) {
			const struct corner *at = &plan.place[k];
			if (k > 0)
				assert_true(at->along_mm > plan.place[k - 1].along_mm);
			joints += strstr(at->name, "body joint") != NULL;
			assert_near(at->across_mm,
				    neck_half_breadth_mm(plan.neck, SIDE_PLUS, at->along_mm, 0.0) +
					    neck_half_breadth_mm(plan.neck, SIDE_MINUS,
								 at->along_mm, 0.0),
				    1e-9, "width, mm");
		}
		assert_int_equal(joints, 1);
		plan_template_free(&plan);
		paper_sample_free(&sample);
	}
}

#define ON_FILES(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)

int main(void)
{
	const struct CMUnitTest tests[] = {
		ON_FILES(heels_are_true),
		ON_FILES(tenons_are_true),
		ON_FILES(a_joint_stands_out_of_the_end),
		cmocka_unit_test(the_cap_is_the_crests_plan),
		ON_FILES(the_plan_is_true_over_all_pages),
		cmocka_unit_test(places_are_named_once),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
