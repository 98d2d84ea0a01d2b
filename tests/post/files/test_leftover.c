/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* flock */
#endif
#include "files/leftover.h"

#include <fcntl.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "files/stamp.h"
#include "support/output.h"
#include "support/scratch.h"

#define HOUR_S 3600

/* Number of a process that is gone. */
static long dead_process(void)
{
	pid_t child = fork();

	assert_true(child >= 0);
	if (child == 0)
		_exit(0);
	assert_int_equal(waitpid(child, NULL, 0), child);
	return (long)child;
}

/* What a killed run leaves: a program and a picture, an hour ago. */
static void make_hidden(char *path, const char *folder, long process, const char *end)
{
	char name[64], inner[SCRATCH_ROOM];

	(void)snprintf(name, sizeof name, ".neckhew-%ld%s", process, end);
	assert_int_equal(mkdir(scratch_path(path, folder, name), 0777), 0);
	scratch_write(path, "rough.nc", "half a program");
	assert_int_equal(mkdir(scratch_path(inner, path, "pictures"), 0777), 0);
	scratch_write(inner, "side-view.svg", "half a picture");
	output_age(path, HOUR_S);
}

static bool stands(const char *path)
{
	struct stat about;

	return lstat(path, &about) == 0;
}

static void clear(const char *folder)
{
	int fd = open(folder, O_RDONLY | O_DIRECTORY);

	assert_true(fd >= 0);
	leftover_clear(fd);
	(void)close(fd);
}

static void the_name_tells_the_process(void **state)
{
	char expected[64];
	char *name = leftover_name(7);

	(void)state;
	(void)snprintf(expected, sizeof expected, ".neckhew-%ld-7", (long)getpid());
	assert_string_equal(name, expected);
	free(name);
}

static void leftovers_go_and_nothing_else(void **state)
{
	char target[SCRATCH_ROOM], old[SCRATCH_ROOM], living[SCRATCH_ROOM], named[SCRATCH_ROOM];
	char plain[SCRATCH_ROOM];
	long dead = dead_process();

	make_hidden(old, *state, dead, "-0");
	make_hidden(living, *state, (long)getpid(), "-7");
	make_hidden(named, *state, dead, "-2x");
	make_hidden(plain, *state, dead, "");
	assert_int_equal(output_make(scratch_path(target, *state, "run"), false, 'a', NULL),
			 FAULT_NONE);
	assert_false(stands(old));
	assert_true(stands(living));
	assert_true(stands(named));
	assert_true(stands(plain));
	assert_int_equal(output_mark(target), 'a');
}

/* Work at any level, even if the clock of the folder itself stands still, may
 * be that of a run on another machine. */
static void what_changed_lately_stays(void **state)
{
	static const char *const touched[] = { ".", "rough.nc", "pictures",
					       "pictures/side-view.svg" };
	long dead = dead_process();

	for (size_t i = 0; i < sizeof touched / sizeof touched[0]; i++) {
		char path[SCRATCH_ROOM], inner[SCRATCH_ROOM];
		make_hidden(path, *state, dead, "-1");
		scratch_age(scratch_path(inner, path, touched[i]), LEFTOVER_AGE_S / 2);
		clear(*state);
		assert_true(stands(path));
		output_age(path, HOUR_S);
		clear(*state);
		assert_false(stands(path));
	}
}

static void what_is_locked_stays(void **state)
{
	char path[SCRATCH_ROOM];

	make_hidden(path, *state, dead_process(), "-1");
	int fd = open(path, O_RDONLY | O_DIRECTORY);
	assert_int_equal(flock(fd, LOCK_EX), 0);
	clear(*state);
	assert_true(stands(path));
	(void)close(fd);
	clear(*state);
	assert_false(stands(path));
}

/* A finished output that a killed run had put aside, and what was added. */
static void a_stranger_in_a_leftover_stays(void **state)
{
	static const char *const added[] = { "notes.txt", "pictures/notes.txt" };
	long dead = dead_process();

	for (size_t i = 0; i < 2; i++) {
		char path[SCRATCH_ROOM], inner[SCRATCH_ROOM];
		make_hidden(path, *state, dead, "-3");
		scratch_write(path, STAMP_NAME, "rough.nc\npictures/\npictures/side-view.svg\n");
		scratch_write(path, added[i], "the builder's own");
		output_age(path, HOUR_S);
		clear(*state);
		assert_true(stands(scratch_path(inner, path, added[i])));
		assert_true(stands(scratch_path(inner, path, "rough.nc")));
		assert_int_equal(unlink(scratch_path(inner, path, added[i])), 0);
		output_age(path, HOUR_S);
		clear(*state);
		assert_false(stands(path));
	}
}

static void what_is_deeper_than_an_output_stays_whole(void **state)
{
	char path[SCRATCH_ROOM], inner[SCRATCH_ROOM];

	make_hidden(path, *state, dead_process(), "-4");
	assert_int_equal(mkdir(scratch_path(inner, path, "pictures/deep"), 0777), 0);
	scratch_write(inner, "file", "whose?");
	output_age(path, HOUR_S);
	clear(*state);
	assert_true(stands(scratch_path(inner, path, "pictures/deep/file")));
	assert_true(stands(scratch_path(inner, path, "pictures/side-view.svg")));
	assert_true(stands(scratch_path(inner, path, "rough.nc")));
}

/* Links go, what they point at stays. */
static void links_are_not_followed(void **state)
{
	char path[SCRATCH_ROOM], inner[SCRATCH_ROOM], precious[SCRATCH_ROOM];

	assert_int_equal(mkdir(scratch_path(precious, *state, "precious"), 0777), 0);
	scratch_write(precious, "file", "mine");
	make_hidden(path, *state, dead_process(), "-5");
	assert_int_equal(symlink(precious, scratch_path(inner, path, "link")), 0);
	assert_int_equal(symlink(precious, scratch_path(inner, path, "pictures/link")), 0);
	output_age(path, HOUR_S);
	clear(*state);
	assert_false(stands(path));
	assert_true(stands(scratch_path(inner, precious, "file")));
	/* nor is the hidden folder itself a link to be followed */
	assert_int_equal(symlink(precious, path), 0);
	scratch_age(path, HOUR_S);
	output_age(precious, HOUR_S);
	clear(*state);
	assert_true(stands(inner));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
#define IN_SCRATCH(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)
		cmocka_unit_test(the_name_tells_the_process),
		IN_SCRATCH(leftovers_go_and_nothing_else),
		IN_SCRATCH(what_changed_lately_stays),
		IN_SCRATCH(what_is_locked_stays),
		IN_SCRATCH(a_stranger_in_a_leftover_stays),
		IN_SCRATCH(what_is_deeper_than_an_output_stays_whole),
		IN_SCRATCH(links_are_not_followed),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
