/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Output folders of the shape that the program makes, filled with a letter by
 * which the test tells one from another. */
#ifndef NECKHEW_TESTS_SUPPORT_OUTPUT_H
#define NECKHEW_TESTS_SUPPORT_OUTPUT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "files/out_dir.h"

/* What a job.json of this program says. */
#define OUTPUT_JOB "{ \"generator\": \"neckhew\", \"schema\": 1 }\n"

/* Bytes in every other file. */
#define OUTPUT_FILE_SIZE 20000

/* Entries at the top: job.json, the list, "file-0" to "file-3", "pictures". In
 * it stand "picture-0" to "picture-2". */
#define OUTPUT_ENTRIES 7

/* Writes a file of an output that was begun; the folder of a name like
 * "pictures/view" is made. */
enum fault output_put(const struct out_dir *out, const char *name, const char *bytes, size_t size,
		      struct fault_list *faults);

/* Makes a whole output full of `mark`, from begin to close. */
enum fault output_make(const char *target, bool replace, char mark, struct fault_list *faults);

/* The mark of a whole output; 0 when none stands there. Fails the test on one
 * that is not whole or of two marks. */
char output_mark(const char *target);

/* Gives a folder and all in it a time of change this far in the past. */
void output_age(const char *path, long seconds);

#endif
