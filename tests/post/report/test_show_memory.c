/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of `neckhew show` when memory runs out. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "report/show_page.h"
#include "support/memory.h"
#include "support/sample_result.h"

/* Each request refused in turn until none is left to refuse: the fault is told,
 * once. */
static void assert_refusals_are_told(const struct show_page *page)
{
	for (size_t grants = 0;; grants++) {
		struct fault_list faults = { 0 };
		FILE *out = tmpfile();
		assert_non_null(out);
		memory_refuse_after(grants);
		enum fault fault = show_page_print(out, page, &faults);
		bool done = memory_serve_all() <= grants;
		(void)fclose(out);
		if (done) {
			assert_int_equal(fault, FAULT_NONE);
			assert_true(grants >= 4);
			return;
		}
		assert_int_equal(fault, FAULT_MEMORY);
		assert_int_equal(faults.count, 1);
	}
}

static void a_page_tells_a_refusal(void **state)
{
	(void)state;
	struct job job;
	struct neck *neck;
	struct job_result result;

	sample_job(&job);
	assert_int_equal(neck_build(&neck, &job.neck, NULL), FAULT_NONE);
	sample_result(&result, neck, &job, 8.0, 3);
	struct show_page page = {
		.job = &job, .neck = neck, .result = &result, .passes_known = true, .columns = 80
	};
	assert_refusals_are_told(&page);
	page.pass = 2;
	assert_refusals_are_told(&page);
	page.stock = true;
	assert_refusals_are_told(&page);
	page.stock = page.passes_known = false;
	assert_refusals_are_told(&page);
	sample_result_free(&result);
	neck_free(neck);
}

int main(void)
{
	const struct CMUnitTest tests[] = { cmocka_unit_test(a_page_tells_a_refusal) };

	return cmocka_run_group_tests(tests, NULL, NULL);
}
