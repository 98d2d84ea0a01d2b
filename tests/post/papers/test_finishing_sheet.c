/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finishing sheet, read off the PDF and compared with the result. */
#include "bench_sample.h"

#include <math.h>

#include "papers/finishing_sheet.h"
#include "papers/places.h"
#include "support/near.h"

static void figures_are_those_of_the_result(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	bench_sample_make(&sample, &job);
	for (size_t i = 0; i < sample.result.station_count; i++)
		sample.result.station[i].roughed_mm += 0.037 * (double)i;
	char *text = bench_text(&sample, *state, PAPER_A4, false, finishing_sheet_draw);
	for (size_t i = 0; i < sample.result.station_count; i++) {
		const struct station_figures *s = &sample.result.station[i];
		char words[200], name[PLACES_NAME_ROOM];
		double carve = s->roughed_mm - s->finished_mm;
		places_name(name, s->fret);
		(void)snprintf(words, sizeof words, "%s %.2f %.2f %.3f %.2f %.3f %.2f %.3f", name,
			       s->x_mm, s->roughed_mm, s->roughed_mm / 25.4, s->finished_mm,
			       s->finished_mm / 25.4, carve, carve / 25.4);
		assert_has(text, words);
		if (!isfinite(s->wood_over_channel_mm))
			continue;
		(void)snprintf(words, sizeof words, "%.3f %.2f %.3f", carve / 25.4,
			       s->wood_over_channel_mm, s->wood_over_channel_mm / 25.4);
		assert_has(text, words);
	}
	free(text);
	bench_sample_free(&sample);
}

static void zones_are_told_least_and_most(void **state)
{
	static const char *const names[] = { "back", "sides by the fretboard", "heel",
					     "transitions and peghead" };
	struct job job = bench_job();
	struct bench_sample sample;

	bench_sample_make(&sample, &job);
	for (int z = 0; z < ZONE_COUNT; z++)
		sample.result.zone[z] =
			(struct zone_figures){ 1.01 + z, 0.93 + z, 1.57 + z, 1.22 + z, 1.0 };
	char *text = bench_text(&sample, *state, PAPER_LETTER, false, finishing_sheet_draw);
	for (int z = 0; z < ZONE_COUNT; z++) {
		const struct zone_figures *zone = &sample.result.zone[z];
		char words[160];
		(void)snprintf(words, sizeof words, "%s %.2f %.3f %.2f %.3f %.2f %.3f %.2f %.3f",
			       names[z], zone->allowance_mm, zone->allowance_mm / 25.4,
			       zone->least_mm, zone->least_mm / 25.4, zone->most_mm,
			       zone->most_mm / 25.4, zone->mean_mm, zone->mean_mm / 25.4);
		assert_has(text, words);
	}
	free(text);
	bench_sample_free(&sample);
}

static void light_is_named_on_a_proud_crest_only(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	/* the sample's stations lie on no straight line by x; a fourth of a mm
	 * more in the middle makes it stand proud beyond doubt */
	job.neck.station[2].thickness_mm += 0.5;
	bench_sample_make(&sample, &job);
	char *text = bench_text(&sample, *state, PAPER_A4, false, finishing_sheet_draw);
	assert_has(text, "light at the ends, proud by ");
	assert_has(text, "edge, treble side 0.00 0.00 0.00 no light anywhere");
	assert_has(text, "edge, bass side 0.00 0.00 0.00 no light anywhere");
	free(text);
	bench_sample_free(&sample);
}

static void the_heel_is_described(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;
	char words[200];

	bench_sample_make(&sample, &job);
	char *text = bench_text(&sample, *state, PAPER_A4, false, finishing_sheet_draw);
	assert_has(text,
		   "Cap 82.00 mm (3.228 in) above the gluing face, level, 14.00 mm (0.551 in)");
	assert_has(text, "Both cheeks are equal");
	assert_has(text, "hollow 1.00 mm (0.039 in), deepest");
	double x = neck_to_mm(sample.neck);
	double half = neck_half_breadth_mm(sample.neck, SIDE_PLUS, x, 0.5);
	(void)snprintf(words, sizeof words, "body joint, half way up %.2f %.2f %.2f %.3f %.2f %.2f",
		       x, 41.0, 2.0 * half, 2.0 * half / 25.4, half, half);
	assert_has(text, words);
	free(text);
	bench_sample_free(&sample);
	job.neck.heel = (struct heel_spec){ .kind = HEEL_FLAT,
					    .height_mm = 19.0,
					    .slab_length_mm = 76.0,
					    .beyond_joint_mm = 60.0,
					    .ease_length_mm = 20.0 };
	bench_sample_make(&sample, &job);
	text = bench_text(&sample, *state, PAPER_A4, false, finishing_sheet_draw);
	assert_has(text,
		   "Flat slab of wood 19.00 mm (0.748 in) thick and 76.00 mm (2.992 in) long");
	free(text);
	bench_sample_free(&sample);
}

static void a_full_sheet_goes_on_and_stays_on_the_page(void **state)
{
	struct bench_sample sample;
	char pdf[SCRATCH_ROOM];

	bench_full_sample_make(&sample);
	for (int size = 0; size < PAPER_COUNT; size++) {
		char *text = bench_text(&sample, *state, (enum paper_size)size, false,
					finishing_sheet_draw);
		size_t pages = bench_pages(text);
		assert_between((double)pages, 2.0, 4.0, "pages");
		for (size_t i = 0; i < NECK_STATIONS_MAX; i++) {
			char words[32];
			(void)snprintf(words, sizeof words, "%.2f %.2f",
				       sample.result.station[i].x_mm,
				       sample.result.station[i].roughed_mm);
			assert_has(text, words);
		}
		assert_within_page(*state, scratch_path(pdf, *state, "sheet.pdf"), pages,
				   paper_of((enum paper_size)size)->margin_mm);
		free(text);
	}
	bench_sample_free(&sample);
}

static void places_for_the_chisel_are_listed(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	bench_sample_make(&sample, &job);
	char *text = bench_text(&sample, *state, PAPER_A4, false, finishing_sheet_draw);
	assert_null(strstr(text, "chisel"));
	free(text);
	sample_result_chisel(&sample.result, &job);
	sample.result.stickout[0].longest_mm = 78.0;
	text = bench_text(&sample, *state, PAPER_A4, false, finishing_sheet_draw);
	assert_has(text, "Left for the chisel, where shank or holder kept the cutter away");
	assert_has(text, "heel cheek, bass side");
	assert_has(text, "12.0 24.0 5.3 0.207");
	assert_has(text, "But this machine can lift and change");
	free(text);
	bench_sample_free(&sample);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(figures_are_those_of_the_result, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(zones_are_told_least_and_most, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(places_for_the_chisel_are_listed, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(light_is_named_on_a_proud_crest_only, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(the_heel_is_described, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(a_full_sheet_goes_on_and_stays_on_the_page,
						scratch_make, scratch_remove),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
