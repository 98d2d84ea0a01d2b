/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* nftw, P_tmpdir */
#endif
#include "support/scratch.h"

#include <dirent.h>
#include <fcntl.h>
#include <ftw.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include <cmocka.h>

/* Folders held open at once while a tree is removed. */
#define OPEN_FOLDERS 8

int scratch_make(void **state)
{
	const char *parent = getenv("TMPDIR");
	char *path = malloc(SCRATCH_ROOM);

	if (!path)
		return -1;
	(void)snprintf(path, SCRATCH_ROOM, "%s/test-XXXXXX", parent ? parent : P_tmpdir);
	*state = path;
	return mkdtemp(path) ? 0 : -1;
}

static int remove_one(const char *path, const struct stat *about, int kind, struct FTW *place)
{
	(void)about;
	(void)kind;
	(void)place;
	return remove(path);
}

int scratch_remove(void **state)
{
	int failed = nftw(*state, remove_one, OPEN_FOLDERS, FTW_DEPTH | FTW_PHYS);

	free(*state);
	*state = NULL;
	return failed;
}

const char *scratch_path(char *path, const char *folder, const char *name)
{
	assert_true(snprintf(path, SCRATCH_ROOM, "%s/%s", folder, name) < SCRATCH_ROOM);
	return path;
}

void scratch_write(const char *folder, const char *name, const char *text)
{
	char path[SCRATCH_ROOM];
	FILE *file = fopen(scratch_path(path, folder, name), "wb");

	assert_non_null(file);
	assert_int_equal(fwrite(text, 1, strlen(text), file), strlen(text));
	assert_int_equal(fclose(file), 0);
}

char *scratch_text(FILE *stream)
{
	struct stat about;

	assert_int_equal(fflush(stream), 0);
	assert_int_equal(fstat(fileno(stream), &about), 0);
	rewind(stream);
	size_t size = (size_t)about.st_size;
	char *text = calloc(size + 1, 1);
	assert_non_null(text);
	assert_int_equal(fread(text, 1, size, stream), size);
	assert_int_equal(fclose(stream), 0);
	return text;
}

char *scratch_read(const char *folder, const char *name)
{
	char path[SCRATCH_ROOM];
	FILE *file = fopen(scratch_path(path, folder, name), "rb");

	return file ? scratch_text(file) : NULL;
}

int scratch_count(const char *folder)
{
	int count = -2; /* "." and ".." */
	DIR *dir = opendir(folder);

	if (!dir)
		return -1;
	while (readdir(dir))
		count++;
	(void)closedir(dir);
	return count;
}

void scratch_age(const char *path, long seconds)
{
	struct timespec then[2] = { { 0 }, { 0 } };

	then[0].tv_sec = then[1].tv_sec = time(NULL) - seconds;
	assert_int_equal(utimensat(AT_FDCWD, path, then, AT_SYMLINK_NOFOLLOW), 0);
}
