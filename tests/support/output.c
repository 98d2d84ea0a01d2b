/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* lstat */
#endif
#include "support/output.h"

#include <dirent.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

#include "files/text_file.h"
#include "support/scratch.h"

/* Written in this order, so that a kill may fall between the levels. */
static const char *const names[] = {
	"file-0", "pictures/picture-0", "file-1", "pictures/picture-1",
	"file-2", "pictures/picture-2", "file-3",
};
#define NAME_COUNT (sizeof names / sizeof names[0])
#define PICTURES 3

enum fault output_put(const struct out_dir *out, const char *name, const char *bytes, size_t size,
		      struct fault_list *faults)
{
	char folder[64], *folder_path = NULL;
	const char *slash = strchr(name, '/');
	enum fault fault = FAULT_NONE;

	if (slash) {
		(void)snprintf(folder, sizeof folder, "%.*s", (int)(slash - name), name);
		fault = out_dir_folder(out, folder, &folder_path, faults);
	}
	char *path = fault ? NULL : out_dir_file(out, name, faults);
	if (!fault)
		fault = path ? text_file_write(path, bytes, size, faults) : FAULT_MEMORY;
	free(folder_path);
	free(path);
	return fault;
}

enum fault output_make(const char *target, bool replace, char mark, struct fault_list *faults)
{
	char text[OUTPUT_FILE_SIZE];
	struct out_dir out;
	enum fault fault = out_dir_begin(&out, target, replace, faults);

	memset(text, mark, sizeof text);
	for (size_t i = 0; i < NAME_COUNT && !fault; i++)
		fault = output_put(&out, names[i], text, sizeof text, faults);
	if (!fault)
		fault = output_put(&out, "job.json", OUTPUT_JOB, strlen(OUTPUT_JOB), faults);
	if (!fault)
		fault = out_dir_commit(&out, faults);
	out_dir_close(&out);
	return fault;
}

char output_mark(const char *target)
{
	char path[SCRATCH_ROOM], mark = '\0';
	struct stat about;

	if (lstat(target, &about) != 0)
		return '\0';
	assert_int_equal(scratch_count(target), OUTPUT_ENTRIES);
	assert_int_equal(scratch_count(scratch_path(path, target, "pictures")), PICTURES);
	for (size_t i = 0; i < NAME_COUNT; i++) {
		char *text = scratch_read(target, names[i]);
		assert_non_null(text);
		assert_int_equal(strlen(text), OUTPUT_FILE_SIZE);
		mark = i == 0 ? text[0] : mark;
		for (size_t k = 0; k < OUTPUT_FILE_SIZE; k++)
			assert_int_equal(text[k], mark);
		free(text);
	}
	return mark;
}

static void age_entries(const char *path, long seconds);

/* No link is followed; an output's depth bounds the recursion. */
static void age_entry(const char *path, long seconds)
{
	struct stat about;

	assert_int_equal(lstat(path, &about), 0);
	if (S_ISDIR(about.st_mode))
		age_entries(path, seconds);
	scratch_age(path, seconds);
}

static void age_entries(const char *path, long seconds)
{
	struct dirent *entry;
	DIR *dir = opendir(path);

	assert_non_null(dir);
	while ((entry = readdir(dir)) != NULL) {
		char inner[SCRATCH_ROOM];
		if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0)
			age_entry(scratch_path(inner, path, entry->d_name), seconds);
	}
	(void)closedir(dir);
}

void output_age(const char *path, long seconds)
{
	age_entry(path, seconds);
}
