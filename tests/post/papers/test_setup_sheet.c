/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The set-up sheet, read and measured off the PDF. */
#include "bench_sample.h"

#include <math.h>

#include "papers/setup_sheet.h"
#include "report/words.h"
#include "support/near.h"

/* Figures on papers have a true minus sign. */
#define MINUS "\xe2\x88\x92"

/* The blank's least, drawn and most, and what a caliper shows on a peghead sawn
 * at an angle: 20 mm straight up, both faces rising 1 in 4, are 20 cos 14.04
 * degrees = 19.40 mm across. */
static void the_blank_is_to_be_measured(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	job.blank = (struct blank){
		.top = { 3, { -75, 0, 375 }, { 38.75, 20, 20 } },
		.bottom = { 3, { -75, 0, 375 }, { 18.75, 0, 0 } },
		.side = { [BLANK_MINUS] = { 2, { -75, 375 }, { 37, 37 } },
			  [BLANK_PLUS] = { 2, { -75, 375 }, { 40, 40 } } },
		.margin_mm = 0.5,
	};
	bench_sample_make(&sample, &job);
	char *text = bench_text(&sample, *state, PAPER_A4, true, setup_sheet_draw);
	assert_has(text, "within 0.50 mm (0.020 in) of their outlines");
	assert_has(text, "length 450.00 17.717 450.00 17.717 451.00 17.756");
	assert_has(text, "width, peghead end " MINUS "65.00 " MINUS
			 "2.559 76.00 2.992 77.00 3.031 78.00 3.071");
	assert_has(text, "thickness, peghead end " MINUS "65.00 " MINUS
			 "2.559 18.80 0.740 19.40 0.764 20.01 0.788");
	assert_has(text, "thickness, body end 365.00 14.370 19.50 0.768 20.00 0.787 20.50 0.807");
	free(text);
	bench_sample_free(&sample);
}

static void zero_axes_and_cutter_are_told(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;
	char zero[WORDS_ZERO_ROOM];

	for (int hand = HAND_RIGHT; hand <= HAND_LEFT; hand++) {
		job.neck.hand = (enum neck_hand)hand;
		bench_sample_make(&sample, &job);
		char *text = bench_text(&sample, *state, PAPER_A4, true, setup_sheet_draw);
		words_zero(zero, &sample.job);
		assert_has(text, zero);
		assert_has(text, "x: toward the body");
		assert_has(text, hand == HAND_RIGHT ? "y: bass side" : "y: treble side");
		assert_has(text, "z: up");
		assert_has(text, "12.00 mm (0.472 in)"); /* ball */
		assert_has(text, "11.00 mm (0.433 in)"); /* shank */
		assert_has(text, "43.00 mm (1.693 in)"); /* holder */
		assert_has(text, "95.00"); /* stickout */
		assert_has(text, "47.00"); /* flutes */
		assert_has(text, "38.00"); /* holder */
		assert_has(text, "Spindle 15500 rpm");
		free(text);
		bench_sample_free(&sample);
	}
}

static void places_are_told_from_zero_and_bed(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	job.fixture.work_zero_mm = vec3_make(10.0, -5.0, -18.0);
	bench_sample_make(&sample, &job);
	char *text = bench_text(&sample, *state, PAPER_LETTER, true, setup_sheet_draw);
	assert_has(text, "K1 toe clamp " MINUS "85.00 to " MINUS "50.00 " MINUS "3.346 to " MINUS
			 "1.969 " MINUS "50.00 to 60.00 " MINUS "1.969 to 2.362 79.00 3.110");
	assert_has(text, "H1 tape " MINUS "2.00 to 355.00 " MINUS "0.079 to 13.976");
	assert_has(text, "riser " MINUS "5.00 to 360.00 " MINUS "0.197 to 14.173 " MINUS
			 "13.00 to 23.00 " MINUS "0.512 to 0.906 18.00 0.709");
	assert_has(text, "blank, at its widest and highest " MINUS "85.00 to 365.00");
	assert_has(text, "108.00 4.252"); /* 90 above the face, 18 of riser */
	free(text);
	bench_sample_free(&sample);
}

/* 6 of board and 1 of shim on 18 of riser: the bed is 25 under the gluing face. */
static void a_glued_fretboard_and_a_screw_are_told(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	job.neck.fretboard_thickness_mm = 6.0;
	job.fixture.fretboard = (struct glued_fretboard){ true, 0.3, 10.0, 1.0 };
	job.fixture.keep_out[0] =
		(struct place){ "screw", 100.0, 109.0, 40.0, 49.0, 12.0, PLACE_CYLINDER };
	job.fixture.work_zero_mm = vec3_make(0.0, 0.0, -25.0);
	job.fixture.zero = (struct zero_spec){ true, ZERO_NUT, ZERO_BED, 0.0 };
	bench_sample_make(&sample, &job);
	char *text = bench_text(&sample, *state, PAPER_A4, true, setup_sheet_draw);
	assert_has(text, "on the machine's bed");
	assert_has(text, "the neck lies face down with its fretboard glued on");
	assert_has(text, "K1 screw (round) 100.00 to 109.00");
	assert_has(text, "40.00 to 49.00 1.575 to 1.929 37.00 1.457"); /* 12 and 25 */
	assert_has(text, "fretboard, glued on, face down 0.00 to ");
	assert_has(text, "25.00 0.984"); /* its glued side above the bed */
	assert_has(text, "18.00 0.709"); /* the riser's height stays its own */
	free(text);
	bench_sample_free(&sample);
}

/* The sample's programs move from x -71.5 to 374.25, y -42.25 to 41.25, z -9.5 to
 * 98.75, counted from zero; the machine has 700, 410 and 150. */
static void travel_covers_all_programs(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	bench_sample_make(&sample, &job);
	char *text = bench_text(&sample, *state, PAPER_A4, true, setup_sheet_draw);
	assert_has(text, "x " MINUS "71.50 to 374.25 " MINUS "2.815 to 14.734 445.75 17.549 700.00 "
			 "27.559 254.25");
	assert_has(text, "y " MINUS "42.25 to 41.25 " MINUS "1.663 to 1.624 83.50 3.287 410.00 "
			 "16.142 326.50");
	assert_has(text, "z " MINUS "9.50 to 98.75 " MINUS "0.374 to 3.888 108.25 4.262 150.00 "
			 "5.906 41.75");
	assert_has(text, "safe height z 98.75 mm (3.888 in)");
	free(text);
	bench_sample_free(&sample);
}

static void programs_stand_in_their_order(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	bench_sample_make(&sample, &job);
	char *text = bench_text(&sample, *state, PAPER_A4, true, setup_sheet_draw);
	const char *dry = strstr(text, "1 dry-run.nc");
	const char *first = strstr(text, "2 1-roughing.ngc 6.00 95.0 2750 108.3 4321");
	const char *second = strstr(text, "3 2-small-ball.ngc 3.00 22.5 2750 108.3 4321");
	assert_true(dry && first && second && dry < first && first < second);
	free(text);
	bench_sample_free(&sample);
}

/* Longest stretch in a row that is all drawn on and mostly pale wood: the blank
 * beside the neck. */
static double pale_run_mm(const struct rendered *page, int y)
{
	struct colour pale = palette_colour(PALETTE_PALE_WOOD);
	int grey = (int)(0.299 * pale.r + 0.587 * pale.g + 0.114 * pale.b + 0.5);
	int best = 0;

	for (int x = 0, run = 0, wood = 0; x < page->width; x++) {
		int value = page->grey[y * page->width + x];
		run = value < 250 ? run + 1 : 0;
		wood = run > 0 ? wood + (abs(value - grey) < 4) : 0;
		if (run > best && wood * 4 > run * 3)
			best = run;
	}
	return best / RENDERED_PIXELS_PER_MM;
}

static void the_blank_is_drawn_to_the_stated_scale(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;
	char pdf[SCRATCH_ROOM];

	job.fixture.keep_out_count = job.fixture.hold_count = 0;
	bench_sample_make(&sample, &job);
	/* moves beyond the blank, so that it is not as long as the drawing */
	sample.result.program[0].most.x = 431.0;
	sample.result.program[0].least.x = -120.0;
	for (int size = 0; size < PAPER_COUNT; size++) {
		struct rendered page;
		double per_mm = 0.0, longest = 0.0;
		char *text =
			bench_text(&sample, *state, (enum paper_size)size, true, setup_sheet_draw);
		const char *at = strstr(text, "From above, 1 : ");
		assert_non_null(at);
		assert_int_equal(sscanf(at, "From above, 1 : %lf", &per_mm), 1);
		rendered_page(&page, *state, scratch_path(pdf, *state, "sheet.pdf"), 1);
		for (int y = 0; y < page.height / 2; y++)
			longest = fmax(longest, pale_run_mm(&page, y));
		/* 450 mm; half a dash of 0.25 mm may stand out at either end */
		assert_near(longest, 450.0 / per_mm, 0.3, "blank on paper, mm");
		rendered_free(&page);
		free(text);
	}
	bench_sample_free(&sample);
}

/* The dimension lines of stickout and holder meet: 95 + 38 mm. */
static void the_cutter_is_drawn_to_its_scale(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;
	struct rendered page;
	char pdf[SCRATCH_ROOM];
	double per_mm = 0.0, longest = 0.0, from;

	bench_sample_make(&sample, &job);
	char *text = bench_text(&sample, *state, PAPER_A4, true, setup_sheet_draw);
	const char *at = strstr(text, "Drawn 1 : ");
	assert_non_null(at);
	assert_int_equal(sscanf(at, "Drawn 1 : %lf", &per_mm), 1);
	rendered_page(&page, *state, scratch_path(pdf, *state, "sheet.pdf"),
		      (int)bench_pages(text));
	for (int x = page.width / 2; x < page.width; x++)
		longest = fmax(longest,
			       rendered_longest_run(&page, true, (x + 0.5) / RENDERED_PIXELS_PER_MM,
						    &from));
	assert_near(longest, 133.0 / per_mm, 0.3, "stickout and holder on paper, mm");
	rendered_free(&page);
	free(text);
	bench_sample_free(&sample);
}

static void a_full_bed_goes_on_and_stays_on_the_page(void **state)
{
	struct job job = bench_full_job();
	struct bench_sample sample;
	char pdf[SCRATCH_ROOM];

	bench_hostile(job.neck.name, sizeof job.neck.name);
	bench_hostile(job.machine.name, sizeof job.machine.name);
	bench_hostile(job.cutter[0].name, sizeof job.cutter[0].name);
	bench_sample_make(&sample, &job);
	bench_fill_result(&sample);
	for (int size = 0; size < PAPER_COUNT; size++) {
		char words[40];
		char *text =
			bench_text(&sample, *state, (enum paper_size)size, true, setup_sheet_draw);
		for (size_t i = 1; i <= FIXTURE_PLACES_MAX; i++) {
			(void)snprintf(words, sizeof words, "K%zu screw number %zu", i, i);
			assert_has(text, words);
			(void)snprintf(words, sizeof words, "H%zu screw number %zu", i, i);
			assert_has(text, words);
		}
		for (size_t i = 1; i <= 8; i++) {
			(void)snprintf(words, sizeof words, "%zu part-%zu.nc", i + 1, i);
			assert_has(text, words);
		}
		assert_has(text, "Before the start");
		assert_within_page(*state, scratch_path(pdf, *state, "sheet.pdf"),
				   bench_pages(text), paper_of((enum paper_size)size)->margin_mm);
		free(text);
	}
	bench_sample_free(&sample);
}

/* Bed at the riser's foot: everything is counted from there. */
static void heights_under_the_spindle(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;
	char words[120];

	job.cutter_count = 1;
	bench_sample_make(&sample, &job);
	char *text = bench_text(&sample, *state, PAPER_A4, true, setup_sheet_draw);
	assert_has(text, "is not stated (machine.z_gap)");
	free(text);
	sample.job.machine.z_gap_mm = 300.0;
	double safe = job_highest_mm(&job) + job.fixture.riser_height_mm + job.carve.clearance_mm;
	(void)snprintf(words, sizeof words, "holder then, at most %.2f %.3f 300.00 11.811",
		       safe + job.cutter[0].stickout_mm, (safe + job.cutter[0].stickout_mm) / 25.4);
	text = bench_text(&sample, *state, PAPER_A4, true, setup_sheet_draw);
	assert_has(text, words);
	assert_null(strstr(text, "is not stated (machine.z_gap)"));
	free(text);
	bench_sample_free(&sample);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(the_blank_is_to_be_measured, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(zero_axes_and_cutter_are_told, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(places_are_told_from_zero_and_bed, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(a_glued_fretboard_and_a_screw_are_told,
						scratch_make, scratch_remove),
		cmocka_unit_test_setup_teardown(travel_covers_all_programs, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(programs_stand_in_their_order, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(the_blank_is_drawn_to_the_stated_scale,
						scratch_make, scratch_remove),
		cmocka_unit_test_setup_teardown(the_cutter_is_drawn_to_its_scale, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(heights_under_the_spindle, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(a_full_bed_goes_on_and_stays_on_the_page,
						scratch_make, scratch_remove),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
