/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files and output folders when memory runs out. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "files/number_table.h"
#include "files/out_dir.h"
#include "files/text_file.h"
#include "support/memory.h"
#include "support/output.h"
#include "support/scratch.h"

static void reading_tells_every_refusal(void **state)
{
	char path[SCRATCH_ROOM], text[9000];
	size_t grants = 0;

	memset(text, 'x', sizeof text - 1);
	text[sizeof text - 1] = '\0';
	scratch_write(*state, "text", text);
	scratch_path(path, *state, "text");
	for (;; grants++) {
		struct fault_list faults = { 0 };
		char *bytes;
		size_t size;
		memory_refuse_after(grants);
		enum fault fault = text_file_read(&bytes, &size, path, 10000, &faults);
		if (memory_serve_all() <= grants) {
			assert_int_equal(fault, FAULT_NONE);
			assert_string_equal(bytes, text);
			free(bytes);
			break;
		}
		assert_int_equal(fault, FAULT_MEMORY);
		assert_int_equal(faults.count, 1);
		assert_null(bytes);
		assert_int_equal(size, 0);
	}
	assert_true(grants > 1);
}

static void writing_tells_a_refusal_and_writes_nothing(void **state)
{
	char path[SCRATCH_ROOM];
	struct fault_list faults = { 0 };

	scratch_path(path, *state, "new");
	memory_refuse_after(0);
	enum fault fault = text_file_write(path, "x", 1, &faults);
	(void)memory_serve_all();
	assert_int_equal(fault, FAULT_MEMORY);
	assert_int_equal(scratch_count(*state), 0);
}

static void a_table_tells_every_refusal(void **state)
{
	static const struct number_column columns[] = { { .name = "x", .most = 9 } };
	char path[SCRATCH_ROOM];
	size_t grants = 0;

	scratch_write(*state, "table", "1\n2\n3\n4\n5\n6\n7\n8\n9\n");
	scratch_path(path, *state, "table");
	for (;; grants++) {
		struct fault_list faults = { 0 };
		struct number_table table;
		memory_refuse_after(grants);
		enum fault fault = number_table_read(&table, path, columns, 1, &faults);
		if (memory_serve_all() <= grants) {
			assert_int_equal(fault, FAULT_NONE);
			assert_int_equal(table.count, 9);
			number_table_free(&table);
			break;
		}
		assert_int_equal(fault, FAULT_MEMORY);
		assert_int_equal(faults.count, 1);
		assert_null(table.row);
	}
	assert_true(grants > 1);
}

static enum fault make_output(const char *target, struct fault_list *faults)
{
	struct out_dir out;
	enum fault fault = out_dir_begin(&out, target, true, faults);

	if (!fault)
		fault = output_put(&out, "pictures/side-view.svg", "<svg/>", 6, faults);
	if (!fault)
		fault = output_put(&out, "job.json", OUTPUT_JOB, strlen(OUTPUT_JOB), faults);
	if (!fault)
		fault = out_dir_commit(&out, faults);
	out_dir_close(&out);
	return fault;
}

static void an_output_is_whole_or_absent(void **state)
{
	char target[SCRATCH_ROOM];
	size_t grants = 0;

	scratch_path(target, *state, "out");
	for (;; grants++) {
		struct fault_list faults = { 0 };
		memory_refuse_after(grants);
		enum fault fault = make_output(target, &faults);
		if (memory_serve_all() <= grants) {
			assert_int_equal(fault, FAULT_NONE);
			break;
		}
		assert_int_equal(fault, FAULT_MEMORY);
		assert_int_equal(faults.count, 1);
		assert_int_equal(scratch_count(*state), 0);
	}
	assert_true(grants > 8);
	assert_int_equal(scratch_count(target), 3);
	assert_int_equal(scratch_count(*state), 1);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
#define IN_SCRATCH(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)
		IN_SCRATCH(reading_tells_every_refusal),
		IN_SCRATCH(writing_tells_a_refusal_and_writes_nothing),
		IN_SCRATCH(a_table_tells_every_refusal),
		IN_SCRATCH(an_output_is_whole_or_absent),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
