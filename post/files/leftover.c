/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* fdopendir, flock */
#endif
#include "files/leftover.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "base/mem.h"
#include "files/folder.h"
#include "files/stamp.h"

#define PREFIX ".neckhew-"
#define NAME_ROOM (sizeof PREFIX + 48)

char *leftover_name(int n)
{
	char *name = mem_array(NAME_ROOM, 1);

	if (name)
		(void)snprintf(name, NAME_ROOM, PREFIX "%ld-%d", (long)getpid(), n);
	return name;
}

/* Reads a plain decimal number at *text and moves past it; -1 when there is
 * none or it is absurdly large. */
static long read_number(const char **text)
{
	long number = 0;
	const char *start = *text;

	for (; **text >= '0' && **text <= '9' && number < 100000000L; (*text)++)
		number = number * 10 + (**text - '0');
	return *text == start ? -1 : number;
}

/* The process number in a hidden folder's name, or 0 for any other name. */
static long process_of(const char *name)
{
	if (strncmp(name, PREFIX, strlen(PREFIX)) != 0)
		return 0;
	name += strlen(PREFIX);
	long process = read_number(&name);
	if (process <= 0 || *name++ != '-' || read_number(&name) < 0 || *name != '\0')
		return 0;
	return process;
}

/* `context` is the newest time of change met so far, a time_t. */
static int meet_change(void *context, const struct folder_entry *entry)
{
	time_t *newest = context;

	if (entry->about.st_mtime > *newest)
		*newest = entry->about.st_mtime;
	/* no output is that deep: whatever this is, it is none of ours */
	return S_ISDIR(entry->about.st_mode) && entry->folder[0] != '\0' ? EINVAL : 0;
}

/* True when nothing in the folder changed for LEFTOVER_AGE_S. `newest` is the
 * folder's own time of change, in which work in a folder inside does not show. */
static bool is_rested(int fd, time_t newest)
{
	return folder_walk(fd, meet_change, &newest) == 0 && time(NULL) - newest > LEFTOVER_AGE_S;
}

/* True when all in the folder is this program's: a list, if there is one, must
 * name it. A finished output put aside by a killed run may have been given a
 * file of the builder's in the meantime. */
static bool is_all_own(int fd)
{
	char stranger[STAMP_ENTRY_ROOM];
	int error = stamp_check(fd, stranger);

	return error == 0 || error == ENOENT;
}

static bool is_abandoned(int parent_fd, const char *name)
{
	struct stat about;
	long process = process_of(name);

	if (process == 0 || kill((pid_t)process, 0) == 0 || errno != ESRCH)
		return false;
	int fd = folder_open_at(parent_fd, name);
	if (fd < 0)
		return false;
	bool abandoned = fstat(fd, &about) == 0 && about.st_uid == geteuid() &&
			 flock(fd, LOCK_EX | LOCK_NB) == 0 && is_rested(fd, about.st_mtime) &&
			 is_all_own(fd);
	(void)close(fd);
	return abandoned;
}

void leftover_clear(int parent_fd)
{
	struct dirent *entry;
	int own = openat(parent_fd, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
	DIR *dir = own < 0 ? NULL : fdopendir(own);

	if (!dir) {
		if (own >= 0)
			(void)close(own);
		return;
	}
	while ((entry = readdir(dir)) != NULL)
		if (is_abandoned(parent_fd, entry->d_name))
			(void)folder_remove_at(parent_fd, entry->d_name);
	(void)closedir(dir);
}
