/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* setrlimit with signals */
#endif
#include "mesh/stl.h"

#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/scratch.h"
#include "support/solid.h"

static const struct mesh_point right_angle[3] = { { 0.0f, 0.0f, 0.0f },
						  { 2.0f, 0.0f, 0.0f },
						  { 0.0f, 0.0f, 1.0f } };

static void bytes_are_as_the_format_says(void **state)
{
	char path[SCRATCH_ROOM];
	struct stl_file file;
	/* 2.0f is 0x40000000, 1.0f 0x3f800000, -1.0f 0xbf800000 (IEEE 754) */
	static const unsigned char expected[4 + 50] = {
		1, 0, 0, 0, /* count */
		0, 0, 0, 0,    0, 0, 0x80, 0xbf, 0, 0, 0,    0, /* normal 0 -1 0 */
		0, 0, 0, 0,    0, 0, 0,	   0,	 0, 0, 0,    0, /* first corner */
		0, 0, 0, 0x40, 0, 0, 0,	   0,	 0, 0, 0,    0, /* 2 0 0 */
		0, 0, 0, 0,    0, 0, 0,	   0,	 0, 0, 0x80, 0x3f, /* 0 0 1 */
		0, 0 /* attribute bytes */
	};
	unsigned char bytes[200];

	scratch_path(path, *state, "one.stl");
	assert_int_equal(stl_begin(&file, path, "a face \xc3\xa9\n", NULL), FAULT_NONE);
	stl_add(&file, right_angle);
	assert_int_equal(stl_end(&file, NULL), FAULT_NONE);
	FILE *stream = fopen(path, "rb");
	assert_non_null(stream);
	assert_int_equal(fread(bytes, 1, sizeof bytes, stream), 134);
	assert_int_equal(fclose(stream), 0);
	assert_memory_equal(bytes, "binary STL: a face ???  ", 24);
	assert_int_equal(bytes[79], ' ');
	assert_memory_equal(bytes + 80, expected, sizeof expected);
}

static void long_headers_are_cut(void **state)
{
	char path[SCRATCH_ROOM], about[200];
	struct stl_file file;
	struct solid solid;

	memset(about, 'x', sizeof about - 1);
	about[sizeof about - 1] = '\0';
	scratch_path(path, *state, "none.stl");
	assert_int_equal(stl_begin(&file, path, about, NULL), FAULT_NONE);
	assert_int_equal(stl_end(&file, NULL), FAULT_NONE);
	solid_read(&solid, path);
	assert_int_equal(solid.count, 0);
	solid_free(&solid);
}

static void count_and_corners_come_back(void **state)
{
	char path[SCRATCH_ROOM];
	struct stl_file file;
	struct solid solid;
	enum { COUNT = 1000 };

	scratch_path(path, *state, "many.stl");
	assert_int_equal(stl_begin(&file, path, "", NULL), FAULT_NONE);
	struct triangle_sink sink = stl_sink(&file);
	for (int i = 0; i < COUNT; i++) {
		struct mesh_point tip = { 0.0f, (float)(i + 1) / 3.0f, 0.0f };
		mesh_triangle(&sink, right_angle[0], right_angle[1], tip);
	}
	assert_int_equal(stl_end(&file, NULL), FAULT_NONE);
	solid_read(&solid, path);
	assert_int_equal(solid.count, COUNT);
	for (int i = 0; i < COUNT; i++) {
		assert_true(solid.item[i].corner[2][1] == (float)(i + 1) / 3.0f);
		assert_near((double)solid.item[i].normal[2], 1.0, 1e-6, "unit normal");
	}
	solid_free(&solid);
}

static void doubled_corners_are_dropped(void **state)
{
	char path[SCRATCH_ROOM];
	struct stl_file file;

	scratch_path(path, *state, "drop.stl");
	assert_int_equal(stl_begin(&file, path, "", NULL), FAULT_NONE);
	struct triangle_sink sink = stl_sink(&file);
	mesh_triangle(&sink, right_angle[0], right_angle[0], right_angle[1]);
	mesh_triangle(&sink, right_angle[0], right_angle[1], right_angle[0]);
	mesh_triangle(&sink, right_angle[1], right_angle[0], right_angle[0]);
	assert_int_equal(file.count, 0);
	mesh_quad(&sink, right_angle[0], right_angle[1], right_angle[1], right_angle[2]);
	assert_int_equal(file.count, 1);
	assert_int_equal(stl_end(&file, NULL), FAULT_NONE);
}

static void negative_zero_has_the_bits_of_zero(void **state)
{
	(void)state;
	struct mesh_point a = mesh_point(vec3_make(-0.0, 1.0, -1.0), vec3_make(0.0, 1.0, -1.0));
	struct mesh_point zero = { 0.0f, 0.0f, 0.0f };

	assert_memory_equal(&a, &zero, sizeof zero);
}

static void a_place_that_cannot_be_written_is_told(void **state)
{
	char path[SCRATCH_ROOM];
	struct stl_file file;
	struct fault_list faults = { 0 };

	scratch_path(path, *state, "no/such/folder.stl");
	assert_int_equal(stl_begin(&file, path, "", &faults), FAULT_FILE);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].file, path);
}

/* Adds until the disk, here a limit on the size of files, is full. */
static void a_full_disk_is_told(void **state)
{
	char path[SCRATCH_ROOM];
	struct stl_file file;
	struct fault_list faults = { 0 };
	struct rlimit before, limit;

	assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
	limit = before;
	limit.rlim_cur = 20000;
	void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
	assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
	scratch_path(path, *state, "full.stl");
	enum fault begun = stl_begin(&file, path, "", &faults);
	for (int i = 0; i < 2000; i++)
		stl_add(&file, right_angle);
	enum fault end = stl_end(&file, &faults);
	assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
	(void)signal(SIGXFSZ, handler);
	assert_int_equal(begun, FAULT_NONE);
	assert_int_equal(end, FAULT_FILE);
	assert_int_equal(faults.count, 1);
	assert_non_null(strstr(faults.record[0].message, "File too large"));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(bytes_are_as_the_format_says),
		cmocka_unit_test(long_headers_are_cut),
		cmocka_unit_test(count_and_corners_come_back),
		cmocka_unit_test(doubled_corners_are_dropped),
		cmocka_unit_test(negative_zero_has_the_bits_of_zero),
		cmocka_unit_test(a_place_that_cannot_be_written_is_told),
		cmocka_unit_test(a_full_disk_is_told),
	};

	return cmocka_run_group_tests(tests, scratch_make, scratch_remove);
}
