/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* O_NOFOLLOW, openat, getline */
#endif
#include "files/stamp.h"

#include <errno.h>
#include <fcntl.h>
#include <jansson.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "files/folder.h"
#include "version.h"

/* Larger than any job.json or list that this program writes. */
#define OWN_FILE_MOST_BYTES ((intmax_t)64 * 1024 * 1024)

/* The list's name while it is written. A run killed meanwhile leaves no list
 * rather than half of one, by which its own files would look like strangers. */
#define PART_NAME STAMP_NAME ".part"

/* Opens a plain file for reading, or -1 with errno; never waits on a pipe. */
static int open_plain(int fd, const char *name, intmax_t most_bytes)
{
	struct stat about;
	int file = openat(fd, name, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);

	if (file < 0)
		return -1;
	if (fstat(file, &about) == 0 && S_ISREG(about.st_mode) && about.st_size <= most_bytes)
		return file;
	(void)close(file);
	errno = EINVAL;
	return -1;
}

static bool is_named(const struct folder_entry *entry, const char *name)
{
	return entry->folder[0] == '\0' && strcmp(entry->name, name) == 0;
}

/* Writes "name" or "folder/name" into text[STAMP_ENTRY_ROOM], and `end`. */
static void put_entry(char *text, const struct folder_entry *entry, const char *end)
{
	(void)snprintf(text, STAMP_ENTRY_ROOM, "%s%s%s%s", entry->folder,
		       entry->folder[0] == '\0' ? "" : "/", entry->name, end);
}

/* The list's line for an entry. */
static void put_line(char *line, const struct folder_entry *entry)
{
	put_entry(line, entry, S_ISDIR(entry->about.st_mode) ? "/" : "");
}

static int sync_file(int fd, const char *name)
{
	int file = open_plain(fd, name, INTMAX_MAX);

	if (file < 0)
		return errno;
	int error = fsync(file) == 0 ? 0 : errno;
	(void)close(file);
	return error;
}

/* Brings an entry to disk and adds its line to the list. */
static int seal_entry(void *context, const struct folder_entry *entry)
{
	FILE *list = context;
	char line[STAMP_ENTRY_ROOM];
	bool is_folder = S_ISDIR(entry->about.st_mode);

	if (entry->own_fd >= 0)
		return fsync(entry->own_fd) == 0 ? 0 : errno;
	if (is_named(entry, PART_NAME) || is_named(entry, STAMP_NAME))
		return 0;
	if (!folder_name_is_plain(entry->name, strlen(entry->name)) ||
	    (is_folder && entry->folder[0] != '\0') ||
	    (!is_folder && !S_ISREG(entry->about.st_mode)))
		return EINVAL;
	int error = is_folder ? 0 : sync_file(entry->fd, entry->name);
	put_line(line, entry);
	if (error == 0 && fprintf(list, "%s\n", line) < 0)
		error = errno ? errno : EIO;
	return error;
}

/* Writes the list under the name it has until then. */
static int write_part(int fd)
{
	int file = openat(fd, PART_NAME, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
	if (file < 0)
		return errno;
	FILE *list = fdopen(file, "w");
	if (!list) {
		int error = errno;
		(void)close(file);
		return error;
	}
	int error = folder_walk(fd, seal_entry, list);
	if (error == 0 && (fflush(list) != 0 || fsync(fileno(list)) != 0))
		error = errno;
	if (fclose(list) != 0 && error == 0)
		error = errno;
	return error;
}

int stamp_write(int fd)
{
	int error = write_part(fd);

	if (error == 0 && renameat(fd, PART_NAME, fd, STAMP_NAME) != 0)
		error = errno;
	if (error == 0)
		return fsync(fd) == 0 ? 0 : errno;
	(void)unlinkat(fd, PART_NAME, 0);
	return error;
}

/* True when `wanted` is one of the list's lines. */
static bool listed(FILE *list, const char *wanted)
{
	char *line = NULL;
	size_t room = 0;
	ssize_t length;
	bool found = false;

	rewind(list);
	while (!found && (length = getline(&line, &room, list)) > 0) {
		if (line[length - 1] == '\n')
			line[length - 1] = '\0';
		found = strcmp(line, wanted) == 0;
	}
	free(line);
	return found;
}

/* A file's name may hold what would steer a terminal. */
static void make_printable(char *text)
{
	for (; *text != '\0'; text++)
		if ((unsigned char)*text < ' ' || *text == '\x7f')
			*text = '?';
}

struct search {
	FILE *list;
	char *stranger;
};

static int check_entry(void *context, const struct folder_entry *entry)
{
	struct search *search = context;
	char line[STAMP_ENTRY_ROOM];

	if (entry->own_fd >= 0 || is_named(entry, STAMP_NAME))
		return 0;
	put_line(line, entry);
	bool too_deep = S_ISDIR(entry->about.st_mode) && entry->folder[0] != '\0';
	if (!too_deep && listed(search->list, line))
		return 0;
	put_entry(search->stranger, entry, "");
	make_printable(search->stranger);
	return EEXIST;
}

int stamp_check(int fd, char *stranger)
{
	stranger[0] = '\0';
	int file = open_plain(fd, STAMP_NAME, OWN_FILE_MOST_BYTES);
	if (file < 0)
		return errno;
	FILE *list = fdopen(file, "r");
	if (!list) {
		int error = errno;
		(void)close(file);
		return error;
	}
	struct search search = { .list = list, .stranger = stranger };
	int error = folder_walk(fd, check_entry, &search);
	(void)fclose(list);
	return error;
}

bool stamp_is_ours(int fd)
{
	int file = open_plain(fd, "job.json", OWN_FILE_MOST_BYTES);
	if (file < 0)
		return false;
	json_t *root = json_loadfd(file, 0, NULL);
	(void)close(file);
	const char *writer = json_string_value(json_object_get(root, "generator"));
	bool ours = writer && strcmp(writer, NECKHEW_NAME) == 0;
	json_decref(root);
	return ours;
}
