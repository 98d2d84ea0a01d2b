/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list, and the order in which all is forced to disk: seen through a stand-in
 * for the system's fsync. */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* O_DIRECTORY */
#endif
#include <errno.h>
#include <fcntl.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "support/scratch.h"

#define SYNCED_MOST 16

/* What was forced to disk, in order. The code under test calls fsync by its
 * fixed name, so what stands in for it has no argument to find this by. */
static struct {
	ino_t node[SYNCED_MOST];
	size_t count;
	size_t failing; /* this call fails with EIO, counted from 1; 0 for none */
} synced;

static int noting_fsync(int fd)
{
	struct stat about;

	assert_int_equal(fstat(fd, &about), 0);
	assert_true(synced.count < SYNCED_MOST);
	synced.node[synced.count++] = about.st_ino;
	if (synced.count != synced.failing)
		return fsync(fd);
	errno = EIO;
	return -1;
}

#define fsync noting_fsync
#include "files/stamp.c" /* NOLINT(bugprone-suspicious-include): a white-box test */
#undef fsync

/* Files at two levels and an empty folder, all new. */
static int make_folder(const char *path)
{
	char inner[SCRATCH_ROOM];

	scratch_write(path, "job.json", "{}");
	scratch_write(path, "blank.stl", "solid");
	assert_int_equal(mkdir(scratch_path(inner, path, "empty"), 0777), 0);
	assert_int_equal(mkdir(scratch_path(inner, path, "pictures"), 0777), 0);
	scratch_write(inner, "a.png", "x");
	scratch_write(inner, "b.png", "x");
	int fd = open(path, O_RDONLY | O_DIRECTORY);
	assert_true(fd >= 0);
	synced.count = synced.failing = 0;
	return fd;
}

/* When an entry was forced to disk, from 0; fails the test when it was not, or
 * more than once. */
static size_t turn_of(const char *folder, const char *name)
{
	char path[SCRATCH_ROOM];
	struct stat about;
	size_t turn = SYNCED_MOST, times = 0;

	assert_int_equal(stat(scratch_path(path, folder, name), &about), 0);
	for (size_t i = 0; i < synced.count; i++) {
		turn = synced.node[i] == about.st_ino ? i : turn;
		times += synced.node[i] == about.st_ino;
	}
	assert_int_equal(times, 1);
	return turn;
}

static void files_reach_the_disk_before_their_folder(void **state)
{
	int fd = make_folder(*state);

	assert_int_equal(stamp_write(fd), 0);
	assert_int_equal(synced.count, 8);
	assert_true(turn_of(*state, "pictures/a.png") < turn_of(*state, "pictures"));
	assert_true(turn_of(*state, "pictures/b.png") < turn_of(*state, "pictures"));
	assert_true(turn_of(*state, "job.json") < 6);
	assert_true(turn_of(*state, "blank.stl") < 6);
	assert_true(turn_of(*state, "empty") < 6);
	assert_int_equal(turn_of(*state, STAMP_NAME), 6);
	assert_int_equal(turn_of(*state, "."), 7);
	(void)close(fd);
}

static void each_trouble_of_the_disk_is_told(void **state)
{
	int fd = make_folder(*state);

	for (size_t failing = 1; failing <= 8; failing++) {
		synced.count = 0;
		synced.failing = failing;
		assert_int_equal(stamp_write(fd), EIO);
		assert_int_equal(synced.count, failing); /* the first trouble ends it */
		/* half a list is never seen; the eighth comes after the whole */
		assert_int_equal(scratch_count(*state), failing < 8 ? 4 : 5);
	}
	(void)close(fd);
}

static void assert_line(const char *list, const char *line)
{
	const char *found = strstr(list, line);

	while (found && found != list && found[-1] != '\n')
		found = strstr(found + 1, line);
	if (!found)
		fail_msg("no line \"%s\" in \"%s\"", line, list);
}

static void the_list_names_each_entry_once(void **state)
{
	char stranger[STAMP_ENTRY_ROOM];
	int fd = make_folder(*state);

	assert_int_equal(stamp_check(fd, stranger), ENOENT);
	assert_int_equal(stamp_write(fd), 0);
	assert_int_equal(stamp_check(fd, stranger), 0);
	assert_string_equal(stranger, "");
	char *list = scratch_read(*state, STAMP_NAME);
	assert_int_equal(strlen(list), strlen("job.json\nblank.stl\nempty/\npictures/\n"
					      "pictures/a.png\npictures/b.png\n"));
	assert_line(list, "job.json\n");
	assert_line(list, "blank.stl\n");
	assert_line(list, "empty/\n");
	assert_line(list, "pictures/\n");
	assert_line(list, "pictures/a.png\n");
	assert_line(list, "pictures/b.png\n");
	free(list);
	assert_int_equal(stamp_write(fd), 0); /* the new list does not name the old */
	assert_int_equal(stamp_check(fd, stranger), 0);
	assert_int_equal(scratch_count(*state), 5);
	(void)close(fd);
}

/* The longest names that a file system takes, at both levels. */
static void long_names_fit(void **state)
{
	char name[256], path[3 * SCRATCH_ROOM], stranger[STAMP_ENTRY_ROOM];

	memset(name, 'n', sizeof name - 1);
	name[sizeof name - 1] = '\0';
	(void)snprintf(path, sizeof path, "%s/%s", (char *)*state, name);
	assert_int_equal(mkdir(path, 0777), 0);
	(void)snprintf(path, sizeof path, "%s/%s/%s", (char *)*state, name, name);
	int file = open(path, O_WRONLY | O_CREAT, 0666);
	assert_true(file >= 0);
	(void)close(file);
	int fd = make_folder(*state);
	assert_int_equal(stamp_write(fd), 0);
	assert_int_equal(stamp_check(fd, stranger), 0);
	path[strlen(path) - 1] = 'x';
	file = open(path, O_WRONLY | O_CREAT, 0666);
	assert_true(file >= 0);
	(void)close(file);
	assert_int_equal(stamp_check(fd, stranger), EEXIST);
	assert_string_equal(stranger, path + strlen(*state) + 1);
	(void)close(fd);
}

/* A list that claims what no run writes covers nothing of the kind. */
static void an_edited_list_covers_no_deeper_folder(void **state)
{
	char path[SCRATCH_ROOM], moved[SCRATCH_ROOM], stranger[STAMP_ENTRY_ROOM];
	int fd = make_folder(*state);

	assert_int_equal(mkdir(scratch_path(path, *state, "pictures/deep"), 0777), 0);
	scratch_write(*state, STAMP_NAME,
		      "job.json\nblank.stl\nempty/\npictures/\npictures/a.png\n"
		      "pictures/b.png\npictures/deep/");
	assert_int_equal(stamp_check(fd, stranger), EEXIST);
	assert_string_equal(stranger, "pictures/deep");
	assert_int_equal(rmdir(path), 0);
	assert_int_equal(stamp_check(fd, stranger), 0);
	/* a link to a good list is no list */
	scratch_path(path, *state, STAMP_NAME);
	assert_int_equal(rename(path, scratch_path(moved, *state, "pictures/b.png")), 0);
	assert_int_equal(symlink("pictures/b.png", path), 0);
	assert_int_equal(stamp_check(fd, stranger), ELOOP);
	(void)close(fd);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
#define IN_SCRATCH(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)
		IN_SCRATCH(files_reach_the_disk_before_their_folder),
		IN_SCRATCH(each_trouble_of_the_disk_is_told),
		IN_SCRATCH(the_list_names_each_entry_once),
		IN_SCRATCH(long_names_fit),
		IN_SCRATCH(an_edited_list_covers_no_deeper_folder),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
