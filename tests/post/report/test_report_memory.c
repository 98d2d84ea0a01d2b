/* SPDX-License-Identifier: GPL-3.0-or-later */
/* job.json and the table when memory runs out. jansson's own memory is refused
 * too, through its hooks. */
#include <jansson.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "report/job_json.h"
#include "report/table.h"
#include "support/memory.h"
#include "support/sample_result.h"

/* Calls of malloc from here are led by way of support/memory. */
static void *take(size_t size)
{
	return malloc(size);
}

/* Whatever is refused: either the fault is told or the text is as it should
 * be, for some refusals can be made good by asking again. */
static void job_json_tells_a_refusal_or_is_whole(void **state)
{
	(void)state;
	struct job job;
	struct neck *neck;
	struct job_result result;

	sample_job(&job);
	assert_int_equal(neck_build(&neck, &job.neck, NULL), FAULT_NONE);
	sample_result(&result, neck, &job, 8.0, 3);
	json_set_alloc_funcs(take, free);
	char *whole;
	size_t told = 0;
	(void)snprintf(job.neck.name, sizeof job.neck.name, "h\xc3\xaatre");
	assert_int_equal(job_json_text(&whole, &job, neck, &result, NULL), FAULT_NONE);
	/* an odd step, so that every kind of request is met in some object */
	for (size_t grants = 0;; grants += grants < 200 ? 1 : 7) {
		struct fault_list faults = { 0 };
		char *text;
		memory_refuse_after(grants);
		enum fault fault = job_json_text(&text, &job, neck, &result, &faults);
		if (memory_serve_all() <= grants) {
			assert_int_equal(fault, FAULT_NONE);
			assert_non_null(text);
			assert_true(grants > 500 && told > 200);
			assert_string_equal(text, whole);
			free(text);
			break;
		}
		if (fault == FAULT_NONE)
			assert_string_equal(text, whole);
		else
			assert_null(text);
		assert_int_equal(faults.count, fault == FAULT_NONE ? 0 : 1);
		told += fault == FAULT_MEMORY;
		free(text);
	}
	free(whole);
	sample_result_free(&result);
	neck_free(neck);
}

static void a_table_tells_a_refusal(void **state)
{
	(void)state;
	struct job job;
	struct neck *neck;
	struct job_result result;
	struct fault_list faults = { 0 };
	FILE *out = tmpfile();

	assert_non_null(out);
	sample_job(&job);
	assert_int_equal(neck_build(&neck, &job.neck, NULL), FAULT_NONE);
	sample_result(&result, neck, &job, 8.0, 3);
	memory_refuse_after(0);
	enum fault fault = table_print(out, &job, &result, false, &faults);
	(void)memory_serve_all();
	assert_int_equal(fault, FAULT_MEMORY);
	assert_int_equal(faults.count, 1);
	assert_int_equal(fclose(out), 0);
	sample_result_free(&result);
	neck_free(neck);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(job_json_tells_a_refusal_or_is_whole),
		cmocka_unit_test(a_table_tells_a_refusal),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
