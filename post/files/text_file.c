/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* O_NOFOLLOW, O_CLOEXEC */
#endif
#include "files/text_file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/mem.h"

/* Names tried for the new file before giving up: each is taken only when an
 * earlier run of the same process number was killed while writing here. */
#define NAMES_TRIED 100

static enum fault trouble(struct fault_list *faults, const char *path, const char *what, int error)
{
	return fault_add(faults, FAULT_FILE, path, 0, NULL, "This file %s: %s.", what,
			 strerror(error));
}

static const char *kind_name(mode_t mode)
{
	if (S_ISDIR(mode))
		return "a folder";
	if (S_ISLNK(mode))
		return "a symbolic link";
	if (S_ISFIFO(mode))
		return "a pipe";
	return "a device or socket";
}

static enum fault too_large(struct fault_list *faults, const char *path, size_t most_bytes)
{
	return fault_add(faults, FAULT_FILE, path, 0, NULL,
			 "This file is larger than the %zu bytes that are read of such a file.",
			 most_bytes);
}

/* Reads until the file ends. One byte more than allowed is asked for, so that
 * a file that grows while it is read is noticed too. */
static enum fault read_all(char **bytes, size_t *size, int fd, const char *path, size_t most_bytes,
			   struct fault_list *faults)
{
	size_t capacity = 0;

	for (;;) {
		char *grown = mem_grow(*bytes, &capacity, *size + 4096, 1);
		if (!grown)
			return fault_no_memory(faults, "the text of a file");
		*bytes = grown;
		ssize_t got = read(fd, *bytes + *size, capacity - *size - 1);
		if (got < 0 && errno == EINTR)
			continue;
		if (got < 0)
			return trouble(faults, path, "cannot be read", errno);
		*size += (size_t)got;
		if (*size > most_bytes)
			return too_large(faults, path, most_bytes);
		if (got == 0)
			break;
	}
	(*bytes)[*size] = '\0';
	return FAULT_NONE;
}

static enum fault read_open(char **bytes, size_t *size, int fd, const char *path, size_t most_bytes,
			    struct fault_list *faults)
{
	struct stat about;

	if (fstat(fd, &about) != 0)
		return trouble(faults, path, "cannot be read", errno);
	if (!S_ISREG(about.st_mode))
		return fault_add(faults, FAULT_FILE, path, 0, NULL,
				 "This is %s; a plain file is needed.", kind_name(about.st_mode));
	if ((unsigned long long)about.st_size > most_bytes)
		return too_large(faults, path, most_bytes);
	return read_all(bytes, size, fd, path, most_bytes, faults);
}

enum fault text_file_read(char **bytes, size_t *size, const char *path, size_t most_bytes,
			  struct fault_list *faults)
{
	*bytes = NULL;
	*size = 0;
	/* not blocking: opening a pipe must not wait for its writer */
	int fd = open(path, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
	if (fd < 0)
		return trouble(faults, path, "cannot be opened", errno);
	enum fault fault = read_open(bytes, size, fd, path, most_bytes, faults);
	(void)close(fd);
	if (fault) {
		free(*bytes);
		*bytes = NULL;
		*size = 0;
	}
	return fault;
}

/* Returns 0, or the errno of the first write that failed. */
static int write_all(int fd, const char *bytes, size_t size)
{
	while (size > 0) {
		ssize_t put = write(fd, bytes, size);
		if (put < 0 && errno == EINTR)
			continue;
		if (put < 0)
			return errno;
		bytes += put;
		size -= (size_t)put;
	}
	return fsync(fd) == 0 ? 0 : errno;
}

/* Creates a file that did not exist beside `path`; its name goes to `name`. */
static int create_beside(char *name, size_t room, const char *path)
{
	for (int attempt = 0; attempt < NAMES_TRIED; attempt++) {
		(void)snprintf(name, room, "%s.%ld-%d.part", path, (long)getpid(), attempt);
		int fd = open(name, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666);
		if (fd >= 0 || errno != EEXIST)
			return fd;
	}
	return -1;
}

/* Returns 0, or the errno of what failed; the new file is then gone. */
static int write_and_rename(int fd, const char *name, const char *path, const char *bytes,
			    size_t size)
{
	int error = write_all(fd, bytes, size);

	if (close(fd) != 0 && error == 0)
		error = errno;
	if (error == 0 && rename(name, path) != 0)
		error = errno;
	if (error != 0)
		(void)unlink(name);
	return error;
}

enum fault text_file_write(const char *path, const char *bytes, size_t size,
			   struct fault_list *faults)
{
	struct stat about;

	if (lstat(path, &about) == 0 && !S_ISREG(about.st_mode))
		return fault_add(faults, FAULT_FILE, path, 0, NULL,
				 "This is %s; only a plain file is written or replaced.",
				 kind_name(about.st_mode));
	size_t room = strlen(path) + 48;
	char *name = mem_array(room, 1);
	if (!name)
		return fault_no_memory(faults, "a file's name");
	int fd = create_beside(name, room, path);
	int error = fd < 0 ? errno : write_and_rename(fd, name, path, bytes, size);
	free(name);
	if (error != 0)
		return trouble(faults, path, "cannot be written", error);
	return FAULT_NONE;
}
