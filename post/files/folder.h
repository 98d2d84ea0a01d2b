/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The care of output folders through open descriptors, so that a name swapped
 * for a link meanwhile can lead nowhere else. An output folder holds plain
 * files and folders of plain files, and nothing deeper. */
#ifndef NECKHEW_FILES_FOLDER_H
#define NECKHEW_FILES_FOLDER_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/stat.h>

/* Opens a folder inside `parent_fd` without following a link. Returns the
 * descriptor, or -1 with errno set. */
int folder_open_at(int parent_fd, const char *name);

/* True when the first `length` bytes of `name` can name an entry of a folder
 * and stand on one line of a list: no slash, no line end, not "." or "..". */
bool folder_name_is_plain(const char *name, size_t length);

/* Something met on a walk. */
struct folder_entry {
	int fd; /* the folder it stands in */
	const char *folder; /* that folder's name; "" in the folder walked through */
	const char *name;
	struct stat about; /* of a link itself, not of what it points at */
	int own_fd; /* of a folder being left, otherwise -1 */
};

/* Returns 0 to go on; any other value ends the walk. May remove the entry. */
typedef int folder_visit(void *context, const struct folder_entry *entry);

/* Visits each entry, and each entry of the folders in it. A folder is visited
 * when it is entered and once more, with own_fd, when it is left; one inside
 * such a folder is visited but not entered. No link is followed. Returns what
 * ended the walk: a visit's value, the errno of what could not be read, or 0. */
int folder_walk(int fd, folder_visit *visit, void *context);

/* True when the folder has no entry at all. */
bool folder_is_empty(int fd);

/* Removes the folder `name` with its files and its folders of files; links are
 * removed, not followed, and a deeper folder stops it. Returns 0 or an errno. */
int folder_remove_at(int parent_fd, const char *name);

#endif
