/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The blank's outlines measured on rendered pages against the job's figures.
 * Lengths mm. */
#include "papers/blank_outline.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/paper_sample.h"
#include "support/rendered.h"
#include "support/scratch.h"

#define OFF_MM 0.1

/* x of the first column from `from_mm` on with an upright line so long. */
static double find_upright(const struct rendered *page, double from_mm, double length_mm)
{
	double start;

	for (double x = from_mm; x < page->width / RENDERED_PIXELS_PER_MM;
	     x += 0.5 / RENDERED_PIXELS_PER_MM) {
		double run = rendered_longest_run(page, true, x, &start);
		if (fabs(run - length_mm) < 0.5) {
			double y = start + 0.4 * run; /* off the centre line */
			return x - 1.0 + rendered_first_stroke(page, x - 1.0, y, x + 1.0, y);
		}
	}
	fail_msg("no upright line %.1f mm long", length_mm);
	return NAN;
}

/* Tops of the strokes met going down through the page's content at x. */
static void heights_at(const struct rendered *page, double x, double *top, double *bottom)
{
	double at[8];

	assert_int_equal(rendered_strokes(page, x, 34.0, x, 140.0, 8, at), 2);
	*top = at[0];
	*bottom = at[1];
}

static double line_between(double x, double x0, double z0, double x1, double z1)
{
	return z0 + (z1 - z0) * (x - x0) / (x1 - x0);
}

/* The sample's peghead: top from 66.9 at -190 to 24 at -18, bottom from 47.3 to
 * 0 at the nut, its plan 77 wide. */
static void the_peghead_is_true(void **state)
{
	struct job job = sample_steel_job();
	struct paper_sample sample;
	struct rendered page;
	char pdf[SCRATCH_ROOM];
	double top[2], bottom[2];

	paper_sample_make(&sample, &job);
	paper_sample_draw(&sample, scratch_path(pdf, *state, "blank.pdf"), PAPER_A4, true,
			  blank_outline_draw);
	rendered_page(&page, *state, pdf, 1);
	double end = find_upright(&page, 15.0, 66.9 - 47.3);
	for (int i = 0; i < 2; i++) {
		double along = 30.0 + 60.0 * i, x = -190.0 + along;
		double z_top = line_between(x, -190.0, 66.9, -18.0, 24.0);
		double z_bottom = line_between(x, -190.0, 47.3, 0.0, 0.0);
		heights_at(&page, end + along, &top[i], &bottom[i]);
		assert_near(bottom[i] - top[i], z_top - z_bottom, OFF_MM, "thickness, mm");
	}
	assert_near(top[1] - top[0], 60.0 * (66.9 - 24.0) / 172.0, OFF_MM, "fall of the top, mm");
	rendered_free(&page);
	paper_sample_free(&sample);
}

/* Heel block: from the step at 300 to the end at 357.77, 62 and 86 high. */
static void the_heel_block_is_true(void **state)
{
	struct job job = sample_steel_job();
	struct paper_sample sample;
	struct rendered page;
	char pdf[SCRATCH_ROOM];

	paper_sample_make(&sample, &job);
	paper_sample_draw(&sample, scratch_path(pdf, *state, "blank.pdf"), PAPER_LETTER, true,
			  blank_outline_draw);
	rendered_page(&page, *state, pdf, 3);
	double step = find_upright(&page, 60.0, 86.0 - 24.0);
	double end = find_upright(&page, step + 20.0, 86.0);
	assert_near(end - step, 57.77, OFF_MM, "length of the block, mm");
	rendered_free(&page);
	paper_sample_free(&sample);
}

/* The plan's end is 77 wide at the peghead and 62 at the body. */
static void the_plan_is_true(void **state)
{
	struct job job = sample_steel_job();
	struct paper_sample sample;
	char pdf[SCRATCH_ROOM];

	paper_sample_make(&sample, &job);
	paper_sample_draw(&sample, scratch_path(pdf, *state, "blank.pdf"), PAPER_A4, true,
			  blank_outline_draw);
	for (int i = 0; i < 2; i++) {
		double width = i == 0 ? 77.0 : 62.0, start;
		struct rendered page;
		rendered_page(&page, *state, pdf, i == 0 ? 4 : 6);
		double x = find_upright(&page, i == 0 ? 15.0 : 100.0, width);
		double run = rendered_longest_run(&page, true, x, &start);
		assert_near(run, width, OFF_MM + 0.15, "width and its line, mm");
		rendered_free(&page);
	}
	paper_sample_free(&sample);
}

/* Every corner's figures stand in a table. */
static void every_corner_is_told(void **state)
{
	static const char *const figures[] = { "66.90", "47.30", "357.77", "86.00",
					       "38.50", "25.50", "14.085", "3.386" };
	struct job job = sample_steel_job();
	struct paper_sample sample;
	char pdf[SCRATCH_ROOM];

	paper_sample_make(&sample, &job);
	paper_sample_draw(&sample, scratch_path(pdf, *state, "blank.pdf"), PAPER_A4, true,
			  blank_outline_draw);
	char *text = rendered_tool(*state, "pdftotext", "-layout", pdf);
	for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++)
		if (!strstr(text, figures[i]))
			fail_msg("%s is not told", figures[i]);
	free(text);
	paper_sample_free(&sample);
}

#define ON_FILES(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)

int main(void)
{
	const struct CMUnitTest tests[] = {
		ON_FILES(the_peghead_is_true),
		ON_FILES(the_heel_block_is_true),
		ON_FILES(the_plan_is_true),
		ON_FILES(every_corner_is_told),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
