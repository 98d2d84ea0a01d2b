/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A folder of its own for each test that writes files. */
#ifndef NECKHEW_TESTS_SUPPORT_SCRATCH_H
#define NECKHEW_TESTS_SUPPORT_SCRATCH_H

#include <stddef.h>
#include <stdio.h>

#define SCRATCH_ROOM 512

/* cmocka set-up and tear-down: *state becomes the folder's path. Removal takes
 * everything in it along and follows no link. */
int scratch_make(void **state);
int scratch_remove(void **state);

/* Writes "folder/name" into path[SCRATCH_ROOM] and returns it. */
const char *scratch_path(char *path, const char *folder, const char *name);

/* Makes a file with this text. Fails the test when it cannot. */
void scratch_write(const char *folder, const char *name, const char *text);

/* The text of a file, to be freed with free(); NULL when it cannot be read. */
char *scratch_read(const char *folder, const char *name);

/* All that was written to a stream open for writing and reading, to be freed
 * with free(); closes the stream. */
char *scratch_text(FILE *stream);

/* Entries in a folder, "." and ".." not counted; -1 when it cannot be read. */
int scratch_count(const char *folder);

/* Gives a file or folder a time of change this far in the past. */
void scratch_age(const char *path, long seconds);

#endif
