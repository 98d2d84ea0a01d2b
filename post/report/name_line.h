/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A line of short names, each at its own column, for an axis in characters. */
#ifndef NECKHEW_REPORT_NAME_LINE_H
#define NECKHEW_REPORT_NAME_LINE_H

#include <stddef.h>
#include <stdio.h>

#include "base/fault.h"

struct name_line {
	size_t columns;
	char *text; /* blanks and names, not NUL-terminated */
};

/* An empty line. FAULT_MEMORY. Release with name_line_free. */
enum fault name_line_make(struct name_line *out, size_t columns, struct fault_list *faults);
void name_line_free(struct name_line *line);

/* Puts an ASCII name with its middle at column `at`, moved inwards at the ends,
 * when there is room for it and a blank on each side; otherwise it is left out. */
void name_line_put(const struct name_line *line, size_t at, const char *name);

/* Prints the line without blanks at its end, and empties it. */
void name_line_print(FILE *out, const struct name_line *line);

#endif
