/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The checklist to sign, read off the PDF. */
#include "bench_sample.h"

#include "papers/checklist_sheet.h"
#include "program/checklist.h"

static void every_line_stands_on_it_in_order(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;
	size_t count;
	const char *const *line = safety_checklist(&count);

	bench_sample_make(&sample, &job);
	for (int size = 0; size < PAPER_COUNT; size++) {
		char *text = bench_text(&sample, *state, (enum paper_size)size, false,
					checklist_sheet_draw);
		const char *at = text;
		for (size_t i = 0; i < count; i++) {
			char words[SAFETY_LINE_MAX + 16];
			(void)snprintf(words, sizeof words, "%zu %s", i + 1, line[i]);
			at = strstr(at, words);
			if (!at)
				fail_msg("missing: %s", words);
			assert_non_null(checklist_sheet_reason(i));
			at = strstr(at, checklist_sheet_reason(i));
			assert_non_null(at);
		}
		assert_int_equal(bench_pages(text), 1);
		free(text);
	}
	assert_null(checklist_sheet_reason(count));
	bench_sample_free(&sample);
}

static void it_defers_and_asks_for_a_name(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	bench_sample_make(&sample, &job);
	char *text = bench_text(&sample, *state, PAPER_A4, false, checklist_sheet_draw);
	assert_has(text, "machine's manual, the rules of the place where you work and people "
			 "licensed for");
	assert_has(text, "Program run Date Name Signature");
	assert_has(text, "machine shop router");
	assert_has(text, "ball 12, long, stickout at least 95.00 mm (3.740 in)");
	free(text);
	bench_sample_free(&sample);
}

/* One box for each line and each is a square: four strokes met on the way down
 * and across. */
static void there_is_a_box_for_each_line(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;
	struct rendered page;
	char pdf[SCRATCH_ROOM];
	double at[80], margin = paper_of(PAPER_A4)->margin_mm;
	size_t count, boxes = 0;

	(void)safety_checklist(&count);
	bench_sample_make(&sample, &job);
	bench_write(&sample, scratch_path(pdf, *state, "list.pdf"), PAPER_A4, false,
		    checklist_sheet_draw);
	rendered_page(&page, *state, pdf, 1);
	size_t strokes = rendered_strokes(&page, margin + 2.7, 52.0, margin + 2.7, 215.0, 80, at);
	for (size_t i = 0; i + 1 < strokes; i++)
		boxes += at[i + 1] - at[i] > 4.8 && at[i + 1] - at[i] < 5.2;
	assert_int_equal(boxes, count);
	rendered_free(&page);
	bench_sample_free(&sample);
}

static void a_hostile_name_breaks_nothing(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;
	char pdf[SCRATCH_ROOM];

	bench_hostile(job.neck.name, sizeof job.neck.name);
	bench_hostile(job.machine.name, sizeof job.machine.name);
	bench_hostile(job.cutter[0].name, sizeof job.cutter[0].name);
	bench_hostile(job.wood.name, sizeof job.wood.name);
	bench_sample_make(&sample, &job);
	char *text = bench_text(&sample, *state, PAPER_LETTER, false, checklist_sheet_draw);
	assert_has(text, "Signature");
	assert_int_equal(bench_pages(text), 1);
	assert_within_page(*state, scratch_path(pdf, *state, "sheet.pdf"), 1,
			   paper_of(PAPER_LETTER)->margin_mm);
	free(text);
	bench_sample_free(&sample);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(every_line_stands_on_it_in_order, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(it_defers_and_asks_for_a_name, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(there_is_a_box_for_each_line, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(a_hostile_name_breaks_nothing, scratch_make,
						scratch_remove),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
