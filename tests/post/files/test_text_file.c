/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* symlink, mkfifo */
#endif
#include "files/text_file.h"

#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "support/scratch.h"

static void assert_read(const char *path, size_t most, const char *expected, size_t expected_size)
{
	char *bytes;
	size_t size;

	assert_int_equal(text_file_read(&bytes, &size, path, most, NULL), FAULT_NONE);
	assert_int_equal(size, expected_size);
	assert_memory_equal(bytes, expected, expected_size);
	assert_int_equal(bytes[size], '\0');
	free(bytes);
}

/* The message names the file and says `part`. */
static void assert_refused(const char *path, size_t most, const char *part)
{
	char *bytes;
	size_t size;
	struct fault_list faults = { 0 };

	assert_int_equal(text_file_read(&bytes, &size, path, most, &faults), FAULT_FILE);
	assert_null(bytes);
	assert_int_equal(size, 0);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].file, path);
	assert_non_null(strstr(faults.record[0].message, part));
}

static void text_comes_back_byte_for_byte(void **state)
{
	char path[SCRATCH_ROOM];
	static const char bytes[] = "G21\r\n\0\xff(end)";

	scratch_path(path, *state, "a.txt");
	assert_int_equal(text_file_write(path, bytes, sizeof bytes, NULL), FAULT_NONE);
	assert_read(path, sizeof bytes, bytes, sizeof bytes);
	assert_int_equal(text_file_write(path, "", 0, NULL), FAULT_NONE);
	assert_read(path, 0, "", 0);
}

static void large_texts_come_back(void **state)
{
	char path[SCRATCH_ROOM];
	enum { SIZE = 3000001 };
	char *bytes = malloc(SIZE);

	assert_non_null(bytes);
	for (size_t i = 0; i < SIZE; i++)
		bytes[i] = (char)(i * 2654435761u >> 13);
	scratch_path(path, *state, "large");
	assert_int_equal(text_file_write(path, bytes, SIZE, NULL), FAULT_NONE);
	assert_read(path, SIZE, bytes, SIZE);
	assert_refused(path, SIZE - 1, "larger than the 3000000 bytes");
	free(bytes);
}

static void what_is_no_plain_file_is_refused(void **state)
{
	char path[SCRATCH_ROOM];

	assert_refused(*state, 1000, "a folder");
	scratch_path(path, *state, "pipe");
	assert_int_equal(mkfifo(path, 0600), 0);
	assert_refused(path, 1000, "a pipe");
	assert_refused("/dev/null", 1000, "a device");
	scratch_path(path, *state, "absent");
	assert_refused(path, 1000, "No such file or directory");
	scratch_write(*state, "file", "x");
	scratch_path(path, *state, "file/below");
	assert_refused(path, 1000, "Not a directory");
	scratch_path(path, *state, "loop");
	assert_int_equal(symlink("loop", path), 0);
	assert_refused(path, 1000, "symbolic links");
}

/* Files of the system that tell no size must not pass the limit either. */
static void a_file_that_hides_its_size_is_held_to_the_limit(void **state)
{
	char *bytes;
	size_t size;

	(void)state;
	if (access("/proc/self/status", R_OK) != 0)
		skip();
	assert_int_equal(text_file_read(&bytes, &size, "/proc/self/status", 100000, NULL),
			 FAULT_NONE);
	assert_true(size > 100);
	free(bytes);
	assert_refused("/proc/self/status", 100, "larger than the 100 bytes");
}

static void reading_follows_a_link_and_writing_refuses_it(void **state)
{
	char link[SCRATCH_ROOM];
	struct fault_list faults = { 0 };

	scratch_write(*state, "true.cfg", "kept");
	scratch_path(link, *state, "link.cfg");
	assert_int_equal(symlink("true.cfg", link), 0);
	assert_read(link, 10, "kept", 4);
	assert_int_equal(text_file_write(link, "lost", 4, &faults), FAULT_FILE);
	assert_non_null(strstr(faults.record[0].message, "a symbolic link"));
	assert_read(link, 10, "kept", 4);
}

static void writing_replaces_only_plain_files(void **state)
{
	char path[SCRATCH_ROOM];
	struct fault_list faults = { 0 };

	scratch_path(path, *state, "here");
	assert_int_equal(mkdir(path, 0700), 0);
	assert_int_equal(text_file_write(path, "x", 1, &faults), FAULT_FILE);
	assert_int_equal(scratch_count(path), 0);
	scratch_path(path, *state, "pipe2");
	assert_int_equal(mkfifo(path, 0600), 0);
	assert_int_equal(text_file_write(path, "x", 1, &faults), FAULT_FILE);
	scratch_path(path, *state, "no/folder");
	assert_int_equal(text_file_write(path, "x", 1, &faults), FAULT_FILE);
	scratch_path(path, *state, "");
	assert_int_equal(text_file_write(path, "x", 1, &faults), FAULT_FILE);
	assert_int_equal(faults.count, 4);
	scratch_write(*state, "old", "old text");
	scratch_path(path, *state, "old");
	assert_int_equal(text_file_write(path, "new", 3, &faults), FAULT_NONE);
	assert_read(path, 10, "new", 3);
}

/* A full disk, here a limit on the size of files, leaves the old text. */
static void a_full_disk_leaves_what_stood_there(void **state)
{
	char path[SCRATCH_ROOM], text[5000] = { 0 };
	struct fault_list faults = { 0 };
	struct rlimit before, limit;
	int entries = scratch_count(*state);

	scratch_write(*state, "kept", "old text");
	scratch_path(path, *state, "kept");
	assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
	limit = before;
	limit.rlim_cur = 1000;
	void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
	assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
	enum fault fault = text_file_write(path, text, sizeof text, &faults);
	assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
	(void)signal(SIGXFSZ, handler);
	assert_int_equal(fault, FAULT_FILE);
	assert_non_null(strstr(faults.record[0].message, "File too large"));
	assert_read(path, 100, "old text", 8);
	assert_int_equal(scratch_count(*state), entries + 1);
}

/* The rights of a new file are the user's to set. */
static void the_mask_is_honoured(void **state)
{
	char path[SCRATCH_ROOM];
	struct stat about;
	mode_t mask = umask(027);

	scratch_path(path, *state, "masked");
	enum fault fault = text_file_write(path, "x", 1, NULL);
	(void)umask(mask);
	assert_int_equal(fault, FAULT_NONE);
	assert_int_equal(stat(path, &about), 0);
	assert_int_equal(about.st_mode & 0777, 0640);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(text_comes_back_byte_for_byte),
		cmocka_unit_test(large_texts_come_back),
		cmocka_unit_test(what_is_no_plain_file_is_refused),
		cmocka_unit_test(a_file_that_hides_its_size_is_held_to_the_limit),
		cmocka_unit_test(reading_follows_a_link_and_writing_refuses_it),
		cmocka_unit_test(writing_replaces_only_plain_files),
		cmocka_unit_test(a_full_disk_leaves_what_stood_there),
		cmocka_unit_test(the_mask_is_honoured),
	};

	return cmocka_run_group_tests(tests, scratch_make, scratch_remove);
}
