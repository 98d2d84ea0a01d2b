/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What two papers say of rails, tabs and coves, read off the PDFs. */
#include "bench_sample.h"

#include "papers/finishing_sheet.h"
#include "papers/setup_sheet.h"
#include "support/sample_beside.h"

static void the_finishing_sheet_tells_what_to_saw_and_plane(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	bench_sample_make(&sample, &job);
	sample_beside(&sample.result);
	char *text = bench_text(&sample, *state, PAPER_A4, false, finishing_sheet_draw);
	assert_has(text, "Tabs to saw off");
	assert_has(text, "treble side 61.50 2.421 8.25 0.325 3.13 0.123 19.50 0.768");
	assert_has(text, "bass side 258.75 10.187 8.25 0.325 3.13 0.123 19.50 0.768");
	assert_has(text, "Coves at the edges");
	assert_has(text, "4.63 mm (0.182 in) wide, at x 301.5 mm");
	assert_has(text, "5.43 cm3 in all");
	assert_has(text, "A skin of 0.75 mm (0.030 in)");
	assert_has(text, "nut 3.00 0.118 2.00 0.079 3.50 0.138 2.00 0.079");
	free(text);
	bench_sample_free(&sample);
}

static void the_setup_sheet_tells_what_stays(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	bench_sample_make(&sample, &job);
	sample_beside(&sample.result);
	char *text = bench_text(&sample, *state, PAPER_A4, true, setup_sheet_draw);
	assert_has(text, "What stays beside the neck");
	assert_has(text,
		   "a channel of 16.50 mm (0.650 in) stays as it is, up to 86.30 mm (3.398 in)");
	assert_has(text, "treble side 61.50 2.421 8.25 0.325 3.13 0.123");
	free(text);
	bench_sample_free(&sample);
}

static void nothing_stands_nothing_is_said(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	bench_sample_make(&sample, &job);
	char *text = bench_text(&sample, *state, PAPER_A4, false, finishing_sheet_draw);
	assert_null(strstr(text, "Tabs to saw off"));
	assert_null(strstr(text, "Coves at the edges"));
	free(text);
	bench_sample_free(&sample);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(the_finishing_sheet_tells_what_to_saw_and_plane,
						scratch_make, scratch_remove),
		cmocka_unit_test_setup_teardown(the_setup_sheet_tells_what_stays, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(nothing_stands_nothing_is_said, scratch_make,
						scratch_remove),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
