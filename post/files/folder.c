/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* O_NOFOLLOW, openat, fdopendir */
#endif
#include "files/folder.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <unistd.h>

int folder_open_at(int parent_fd, const char *name)
{
	return openat(parent_fd, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
}

bool folder_name_is_plain(const char *name, size_t length)
{
	if (length == 0 || (length <= 2 && strncmp(name, "..", length) == 0))
		return false;
	return !memchr(name, '/', length) && !memchr(name, '\n', length);
}

static bool is_dot(const char *name)
{
	return strcmp(name, ".") == 0 || strcmp(name, "..") == 0;
}

/* A stream over the folder's entries that leaves `fd` open; NULL with errno. */
static DIR *entries(int fd)
{
	/* a fresh description: a duplicate would share the reading position */
	int own = openat(fd, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
	if (own < 0)
		return NULL;
	DIR *dir = fdopendir(own);
	if (!dir) {
		int error = errno;
		(void)close(own);
		errno = error;
	}
	return dir;
}

/* The next entry but "." and "..", or NULL with *error 0 at the end. */
static const char *next_name(DIR *dir, int *error)
{
	struct dirent *entry;

	do {
		errno = 0;
		entry = readdir(dir);
	} while (entry && is_dot(entry->d_name));
	*error = entry ? 0 : errno;
	return entry ? entry->d_name : NULL;
}

static int walk_level(int fd, const char *folder, folder_visit *visit, void *context);

static int walk_entry(struct folder_entry *entry, folder_visit *visit, void *context)
{
	if (fstatat(entry->fd, entry->name, &entry->about, AT_SYMLINK_NOFOLLOW) != 0)
		return errno;
	int error = visit(context, entry);
	if (error != 0 || !S_ISDIR(entry->about.st_mode) || entry->folder[0] != '\0')
		return error;
	entry->own_fd = folder_open_at(entry->fd, entry->name);
	if (entry->own_fd < 0)
		return errno;
	error = walk_level(entry->own_fd, entry->name, visit, context);
	if (error == 0)
		error = visit(context, entry);
	(void)close(entry->own_fd);
	return error;
}

/* Recursion ends at the second level: walk_entry enters no folder there. */
static int walk_level(int fd, const char *folder, folder_visit *visit, void *context)
{
	int error = 0;
	const char *name;
	DIR *dir = entries(fd);

	if (!dir)
		return errno;
	while (error == 0 && (name = next_name(dir, &error)) != NULL) {
		struct folder_entry entry = {
			.fd = fd, .folder = folder, .name = name, .own_fd = -1
		};
		error = walk_entry(&entry, visit, context);
	}
	(void)closedir(dir);
	return error;
}

int folder_walk(int fd, folder_visit *visit, void *context)
{
	return walk_level(fd, "", visit, context);
}

static int meet_any(void *context, const struct folder_entry *entry)
{
	(void)context;
	(void)entry;
	return ENOTEMPTY;
}

bool folder_is_empty(int fd)
{
	return folder_walk(fd, meet_any, NULL) == 0;
}

/* Removes a file when it is met and a folder when it is left. `context` is a
 * bool that tells whether anything was removed. */
static int remove_entry(void *context, const struct folder_entry *entry)
{
	bool *removed = context;
	bool is_folder = S_ISDIR(entry->about.st_mode);

	if (is_folder && entry->own_fd < 0)
		return entry->folder[0] == '\0' ? 0 : ENOTEMPTY;
	if (unlinkat(entry->fd, entry->name, is_folder ? AT_REMOVEDIR : 0) == 0) {
		*removed = true;
		return 0;
	}
	/* what this pass did not see in it is left to the next pass */
	return is_folder && errno == ENOTEMPTY ? 0 : errno;
}

/* Removes every entry. Passes are repeated until one finds nothing to remove:
 * removing while reading may hide entries from that pass. */
static int remove_entries(int fd)
{
	int error;
	bool removed;

	do {
		removed = false;
		error = folder_walk(fd, remove_entry, &removed);
	} while (error == 0 && removed);
	return error;
}

int folder_remove_at(int parent_fd, const char *name)
{
	int fd = folder_open_at(parent_fd, name);

	if (fd < 0)
		return errno;
	int error = remove_entries(fd);
	(void)close(fd);
	if (error == 0 && unlinkat(parent_fd, name, AT_REMOVEDIR) != 0)
		error = errno;
	return error;
}
