/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* symlink, mkfifo */
#endif
#include "files/out_dir.h"

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

#include "files/stamp.h"
#include "support/output.h"
#include "support/scratch.h"

/* Asserts that the target is refused for a reason that says `part`. */
static void assert_refused(const char *target, bool replace, const char *part)
{
	struct fault_list faults = { 0 };
	struct out_dir out;

	assert_int_equal(out_dir_begin(&out, target, replace, &faults), FAULT_FILE);
	out_dir_close(&out);
	assert_int_equal(faults.count, 1);
	if (!strstr(faults.record[0].message, part))
		fail_msg("\"%s\" lacks \"%s\"", faults.record[0].message, part);
}

static void a_new_folder_appears_whole(void **state)
{
	char target[SCRATCH_ROOM], inner[SCRATCH_ROOM];
	struct stat about;
	struct fault_list faults = { 0 };
	mode_t mask = umask(022);

	scratch_path(target, *state, "new///");
	assert_int_equal(output_make(target, false, 'a', &faults), FAULT_NONE);
	(void)umask(mask);
	scratch_path(target, *state, "new");
	assert_int_equal(output_mark(target), 'a');
	assert_int_equal(scratch_count(*state), 1); /* nothing hidden is left */
	assert_int_equal(stat(target, &about), 0);
	assert_int_equal(about.st_mode & 0777, 0755);
	assert_int_equal(stat(scratch_path(inner, target, "pictures"), &about), 0);
	assert_int_equal(about.st_mode & 0777, 0755);
	char *list = scratch_read(target, STAMP_NAME);
	assert_non_null(strstr(list, "job.json\n"));
	assert_non_null(strstr(list, "pictures/\n"));
	assert_non_null(strstr(list, "pictures/picture-2\n"));
	assert_null(strstr(list, STAMP_NAME));
	free(list);
}

static void nothing_shows_before_commit_and_nothing_stays_after_close(void **state)
{
	char target[SCRATCH_ROOM];
	struct out_dir out;

	scratch_path(target, *state, "never");
	assert_int_equal(out_dir_begin(&out, target, false, NULL), FAULT_NONE);
	assert_int_equal(output_put(&out, "a", "x", 1, NULL), FAULT_NONE);
	assert_int_equal(scratch_count(target), -1);
	assert_int_equal(output_put(&out, "pictures/a", "x", 1, NULL), FAULT_NONE);
	assert_int_equal(scratch_count(out.hidden), 2);
	out_dir_close(&out);
	assert_int_equal(scratch_count(*state), 0);
	out_dir_close(&out); /* a second time does nothing */
}

static void a_relative_name_stands_in_the_working_folder(void **state)
{
	char before[SCRATCH_ROOM], target[SCRATCH_ROOM];

	assert_non_null(getcwd(before, sizeof before));
	assert_int_equal(chdir(*state), 0);
	enum fault fault = output_make("plain", false, 'p', NULL);
	assert_int_equal(chdir(before), 0);
	assert_int_equal(fault, FAULT_NONE);
	assert_int_equal(output_mark(scratch_path(target, *state, "plain")), 'p');
}

static void what_stands_in_the_way_is_refused(void **state)
{
	char target[SCRATCH_ROOM];

	assert_refused("", false, "a folder of its own");
	assert_refused("/", false, "a folder of its own");
	assert_refused(".", true, "a folder of its own");
	assert_refused(scratch_path(target, *state, ".."), true, "a folder of its own");
	assert_refused(scratch_path(target, *state, "no/parent"), false,
		       "No such file or directory");
	scratch_write(*state, "file", "mine");
	assert_refused(scratch_path(target, *state, "file"), true, "A file stands here");
	assert_refused(scratch_path(target, *state, "file/below"), false, "Not a directory");
	assert_int_equal(symlink(*state, scratch_path(target, *state, "link")), 0);
	assert_refused(target, true, "A symbolic link stands here");
	assert_int_equal(mkdir(scratch_path(target, *state, "folder"), 0777), 0);
	assert_refused(target, false, "exists already");
	memset(target, 'n', sizeof target - 1);
	target[sizeof target - 1] = '\0';
	assert_refused(target, false, "File name too long");
	assert_int_equal(scratch_count(*state), 3);
}

static void only_our_own_output_is_replaced(void **state)
{
	char target[SCRATCH_ROOM], inner[SCRATCH_ROOM];

	scratch_path(target, *state, "out");
	assert_int_equal(mkdir(target, 0777), 0);
	assert_int_equal(output_make(target, true, 'a', NULL), FAULT_NONE); /* was empty */
	assert_int_equal(output_make(target, true, 'b', NULL), FAULT_NONE);
	assert_int_equal(output_mark(target), 'b');
	scratch_write(target, "notes.txt", "caliper readings");
	assert_refused(target, true, "\"notes.txt\"");
	assert_int_equal(unlink(scratch_path(inner, target, "notes.txt")), 0);
	assert_int_equal(mkdir(scratch_path(inner, target, "photos"), 0777), 0);
	assert_refused(target, true, "\"photos\"");
	assert_int_equal(rmdir(inner), 0);
	scratch_write(target, "job.json", "{ \"generator\": \"something else\" }");
	assert_refused(target, true, "no output of neckhew");
	scratch_write(target, "job.json", "{ \"generator\": \"neck");
	assert_refused(target, true, "no output of neckhew");
	assert_int_equal(unlink(scratch_path(inner, target, "job.json")), 0);
	assert_refused(target, true, "no output of neckhew");
	/* a link to a good job.json does not make a folder ours */
	scratch_write(*state, "good.json", OUTPUT_JOB);
	assert_int_equal(symlink("../good.json", inner), 0);
	assert_refused(target, true, "no output of neckhew");
	assert_int_equal(unlink(inner), 0);
	scratch_write(target, "job.json", OUTPUT_JOB);
	assert_int_equal(unlink(scratch_path(inner, target, STAMP_NAME)), 0);
	assert_refused(target, true, "files without a list");
	assert_int_equal(scratch_count(*state), 2); /* nothing hidden is left */
}

static void a_stranger_among_the_pictures_blocks_too(void **state)
{
	char target[SCRATCH_ROOM], pictures[SCRATCH_ROOM], inner[SCRATCH_ROOM];

	scratch_path(target, *state, "out");
	assert_int_equal(output_make(target, false, 'a', NULL), FAULT_NONE);
	scratch_path(pictures, target, "pictures");
	scratch_write(pictures, "bench.jpg", "a photograph");
	assert_refused(target, true, "\"pictures/bench.jpg\"");
	assert_int_equal(unlink(scratch_path(inner, pictures, "bench.jpg")), 0);
	/* a name listed at the top is none of this folder's, and the reverse */
	scratch_write(pictures, "job.json", OUTPUT_JOB);
	assert_refused(target, true, "\"pictures/job.json\"");
	assert_int_equal(unlink(scratch_path(inner, pictures, "job.json")), 0);
	scratch_write(target, "picture-0", "a copy");
	assert_refused(target, true, "\"picture-0\"");
	assert_int_equal(unlink(scratch_path(inner, target, "picture-0")), 0);
	assert_int_equal(mkdir(scratch_path(inner, pictures, "old"), 0777), 0);
	assert_refused(target, true, "\"pictures/old\"");
	assert_int_equal(rmdir(inner), 0);
	/* what would steer a terminal is not passed on to it */
	scratch_write(pictures, "\x1b[2J", "odd");
	assert_refused(target, true, "\"pictures/?[2J\"");
	assert_int_equal(unlink(scratch_path(inner, pictures, "\x1b[2J")), 0);
	assert_int_equal(output_make(target, true, 'b', NULL), FAULT_NONE);
	assert_int_equal(output_mark(target), 'b');
	assert_int_equal(scratch_count(*state), 1);
}

/* Names alone do not make an entry ours: its kind must be the listed one. */
static void a_folder_for_a_file_is_a_stranger(void **state)
{
	char target[SCRATCH_ROOM], inner[SCRATCH_ROOM];

	scratch_path(target, *state, "out");
	assert_int_equal(output_make(target, false, 'a', NULL), FAULT_NONE);
	assert_int_equal(unlink(scratch_path(inner, target, "file-0")), 0);
	assert_int_equal(mkdir(inner, 0777), 0);
	scratch_write(inner, "mine", "kept");
	assert_refused(target, true, "\"file-0\"");
	char *text = scratch_read(inner, "mine");
	assert_string_equal(text, "kept");
	free(text);
}

/* What is put into the old output while the new one is being made must survive:
 * it is looked at again at the end. */
static void a_stranger_that_comes_late_is_kept(void **state)
{
	char target[SCRATCH_ROOM];
	struct out_dir out;
	struct fault_list faults = { 0 };

	scratch_path(target, *state, "late");
	assert_int_equal(output_make(target, false, 'a', NULL), FAULT_NONE);
	assert_int_equal(out_dir_begin(&out, target, true, NULL), FAULT_NONE);
	assert_int_equal(output_put(&out, "job.json", OUTPUT_JOB, strlen(OUTPUT_JOB), NULL),
			 FAULT_NONE);
	scratch_write(target, "pictures/notes.txt", "kept");
	assert_int_equal(out_dir_commit(&out, &faults), FAULT_FILE);
	assert_false(out.committed);
	out_dir_close(&out);
	char *notes = scratch_read(target, "pictures/notes.txt");
	assert_string_equal(notes, "kept");
	free(notes);
}

/* The same when a folder appears where there was none. */
static void a_target_that_comes_late_is_kept(void **state)
{
	char target[SCRATCH_ROOM];
	struct out_dir out;
	struct fault_list faults = { 0 };

	scratch_path(target, *state, "raced");
	assert_int_equal(out_dir_begin(&out, target, false, NULL), FAULT_NONE);
	assert_int_equal(mkdir(target, 0777), 0);
	assert_int_equal(out_dir_commit(&out, &faults), FAULT_FILE);
	out_dir_close(&out);
	assert_int_equal(scratch_count(target), 0);
}

static void only_files_and_folders_of_files_are_committed(void **state)
{
	char target[SCRATCH_ROOM], inner[SCRATCH_ROOM];
	struct out_dir out;
	struct fault_list faults = { 0 };
	char *pictures;

	scratch_path(target, *state, "nested");
	assert_int_equal(out_dir_begin(&out, target, false, NULL), FAULT_NONE);
	assert_int_equal(out_dir_folder(&out, "pictures", &pictures, NULL), FAULT_NONE);
	assert_int_equal(mkdir(scratch_path(inner, pictures, "deep"), 0777), 0);
	assert_int_equal(out_dir_commit(&out, &faults), FAULT_FILE);
	assert_int_equal(rmdir(inner), 0);
	assert_int_equal(mkfifo(scratch_path(inner, pictures, "pipe"), 0666), 0);
	assert_int_equal(out_dir_commit(&out, &faults), FAULT_FILE);
	assert_int_equal(unlink(scratch_path(inner, pictures, "pipe")), 0);
	assert_int_equal(symlink("/", scratch_path(inner, out.hidden, "link")), 0);
	assert_int_equal(out_dir_commit(&out, &faults), FAULT_FILE);
	free(pictures);
	out_dir_close(&out);
	assert_int_equal(scratch_count(*state), 0);
}

static void folders_go_one_level_deep(void **state)
{
	static const char *const bad[] = { "",	 ".",	 "..",	      "a/b",	 "/a",
					   "a/", "../a", "line\nend", STAMP_NAME };
	static const char *const bad_file[] = { "a/b/c", "../a", "a/..", "/a",
						"a/",	 "",	 ".",	 STAMP_NAME };
	char target[SCRATCH_ROOM];
	struct out_dir out;
	char *path;

	scratch_path(target, *state, "out");
	assert_int_equal(out_dir_begin(&out, target, false, NULL), FAULT_NONE);
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		assert_int_equal(out_dir_folder(&out, bad[i], &path, NULL), FAULT_INTERNAL);
		assert_null(path);
	}
	for (size_t i = 0; i < sizeof bad_file / sizeof bad_file[0]; i++) {
		struct fault_list faults = { 0 };
		assert_null(out_dir_file(&out, bad_file[i], &faults));
		assert_int_equal(faults.record[0].code, FAULT_INTERNAL);
	}
	assert_int_equal(scratch_count(out.hidden), 0);
	for (int i = 0; i < 2; i++) { /* the second time it is there already */
		assert_int_equal(out_dir_folder(&out, "..pictures", &path, NULL), FAULT_NONE);
		assert_int_equal(scratch_count(path), 0);
		free(path);
	}
	out_dir_close(&out);
}

/* A file or a link that has the folder's name is not taken for the folder. */
static void what_is_no_folder_is_not_written_into(void **state)
{
	char target[SCRATCH_ROOM], inner[SCRATCH_ROOM];
	struct out_dir out;
	struct fault_list faults = { 0 };
	char *path;

	scratch_path(target, *state, "out");
	assert_int_equal(out_dir_begin(&out, target, false, NULL), FAULT_NONE);
	scratch_write(out.hidden, "file", "x");
	assert_int_equal(out_dir_folder(&out, "file", &path, &faults), FAULT_FILE);
	assert_non_null(strstr(faults.record[0].message, "\"file\""));
	assert_int_equal(symlink(*state, scratch_path(inner, out.hidden, "link")), 0);
	assert_int_equal(out_dir_folder(&out, "link", &path, &faults), FAULT_FILE);
	assert_null(path);
	out_dir_close(&out);
	assert_int_equal(scratch_count(*state), 0);
}

/* Closing what was not begun must not close descriptor 0 or another. */
static void one_not_begun_is_closed_without_effect(void **state)
{
	struct out_dir out = OUT_DIR_NONE;
	struct stat about;

	(void)state;
	assert_true(fstat(0, &about) == 0 || dup2(1, 0) == 0);
	out_dir_close(&out);
	assert_int_equal(fstat(0, &about), 0);
}

/* A link inside the old output is removed, what it points at is not. */
static void links_are_not_followed(void **state)
{
	char path[SCRATCH_ROOM], target[SCRATCH_ROOM];

	assert_int_equal(mkdir(scratch_path(path, *state, "precious"), 0777), 0);
	scratch_write(path, "file", "mine");
	scratch_path(target, *state, "out");
	assert_int_equal(output_make(target, false, 'a', NULL), FAULT_NONE);
	/* in the place of a file that is listed, so it does not count as strange */
	assert_int_equal(unlink(scratch_path(path, target, "file-0")), 0);
	assert_int_equal(symlink("../precious", path), 0);
	assert_int_equal(unlink(scratch_path(path, target, "pictures/picture-0")), 0);
	assert_int_equal(symlink("../../precious/file", path), 0);
	assert_int_equal(output_make(target, true, 'b', NULL), FAULT_NONE);
	char *text = scratch_read(scratch_path(path, *state, "precious"), "file");
	assert_string_equal(text, "mine");
	free(text);
	assert_int_equal(output_mark(target), 'b');
}

/* A link in the place of the whole folder of pictures is a stranger. */
static void a_link_for_a_folder_is_a_stranger(void **state)
{
	char path[SCRATCH_ROOM], moved[SCRATCH_ROOM], target[SCRATCH_ROOM];

	scratch_path(target, *state, "out");
	assert_int_equal(output_make(target, false, 'a', NULL), FAULT_NONE);
	scratch_path(path, target, "pictures");
	assert_int_equal(rename(path, scratch_path(moved, *state, "album")), 0);
	assert_int_equal(symlink("../album", path), 0);
	assert_refused(target, true, "\"pictures\"");
	assert_int_equal(scratch_count(moved), 3);
}

/* A full disk, here a limit on the size of files, at every size. */
static void a_full_disk_leaves_no_trace(void **state)
{
	char target[SCRATCH_ROOM];
	struct rlimit before, limit;

	scratch_path(target, *state, "full");
	assert_int_equal(output_make(target, false, 'a', NULL), FAULT_NONE);
	assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
	limit = before;
	void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
	for (limit.rlim_cur = 0; limit.rlim_cur < OUTPUT_FILE_SIZE; limit.rlim_cur += 1999) {
		struct fault_list faults = { 0 };
		assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
		enum fault fault = output_make(target, true, 'b', &faults);
		assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
		assert_int_equal(fault, FAULT_FILE);
		assert_non_null(strstr(faults.record[0].message, "File too large"));
		assert_int_equal(output_mark(target), 'a');
		assert_int_equal(scratch_count(*state), 1);
	}
	(void)signal(SIGXFSZ, handler);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
#define IN_SCRATCH(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)
		IN_SCRATCH(a_new_folder_appears_whole),
		IN_SCRATCH(nothing_shows_before_commit_and_nothing_stays_after_close),
		IN_SCRATCH(a_relative_name_stands_in_the_working_folder),
		IN_SCRATCH(what_stands_in_the_way_is_refused),
		IN_SCRATCH(only_our_own_output_is_replaced),
		IN_SCRATCH(a_stranger_among_the_pictures_blocks_too),
		IN_SCRATCH(a_folder_for_a_file_is_a_stranger),
		IN_SCRATCH(a_stranger_that_comes_late_is_kept),
		IN_SCRATCH(a_target_that_comes_late_is_kept),
		IN_SCRATCH(only_files_and_folders_of_files_are_committed),
		IN_SCRATCH(folders_go_one_level_deep),
		IN_SCRATCH(what_is_no_folder_is_not_written_into),
		IN_SCRATCH(one_not_begun_is_closed_without_effect),
		IN_SCRATCH(links_are_not_followed),
		IN_SCRATCH(a_link_for_a_folder_is_a_stranger),
		IN_SCRATCH(a_full_disk_leaves_no_trace),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
