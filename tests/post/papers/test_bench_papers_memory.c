/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheets of the bench when memory runs out: at every single request of what
 * is asked of the neck and of the file that grows. */
#include "bench_sample.h"

#include "papers/checklist_sheet.h"
#include "papers/finishing_sheet.h"
#include "papers/rounding_sheet.h"
#include "papers/setup_sheet.h"
#include "support/memory.h"

static void every_refusal_is_reported(const struct bench_sample *sample, const char *folder,
				      bool lying, bench_draw *draw)
{
	char pdf[SCRATCH_ROOM];
	size_t grants = 0;

	scratch_path(pdf, folder, "sheet.pdf");
	for (;; grants++) {
		struct fault_list faults = { 0 };
		struct canvas canvas;
		memory_refuse_after(grants);
		enum fault code = bench_draw_on(&canvas, sample, PAPER_A4, lying, draw, &faults);
		if (code == FAULT_NONE)
			code = canvas_save(&canvas, pdf, &faults);
		bool done = memory_serve_all() <= grants;
		canvas_close(&canvas);
		assert_int_equal(code, done ? FAULT_NONE : FAULT_MEMORY);
		assert_int_equal(faults.count, done ? 0 : 1);
		if (done)
			break;
		assert_int_equal(scratch_count(folder), 0);
	}
	assert_true(grants > 0);
}

static void refusals_of_checklist(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	bench_sample_make(&sample, &job);
	every_refusal_is_reported(&sample, *state, false, checklist_sheet_draw);
	bench_sample_free(&sample);
}

static void refusals_of_finishing(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	bench_sample_make(&sample, &job);
	every_refusal_is_reported(&sample, *state, false, finishing_sheet_draw);
	bench_sample_free(&sample);
}

static void refusals_of_rounding(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	bench_sample_make(&sample, &job);
	every_refusal_is_reported(&sample, *state, false, rounding_sheet_draw);
	bench_sample_free(&sample);
}

static void refusals_of_setup(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	bench_sample_make(&sample, &job);
	every_refusal_is_reported(&sample, *state, true, setup_sheet_draw);
	bench_sample_free(&sample);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(refusals_of_checklist, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(refusals_of_finishing, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(refusals_of_rounding, scratch_make, scratch_remove),
		cmocka_unit_test_setup_teardown(refusals_of_setup, scratch_make, scratch_remove),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
