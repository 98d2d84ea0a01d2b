/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cells and lines of a plain text table that never grow past their room,
 * whatever stands in them. */
#ifndef NECKHEW_REPORT_COLUMNS_H
#define NECKHEW_REPORT_COLUMNS_H

#include <stdio.h>

/* Widest line printed, in columns. */
#define COLUMNS_MOST 80

/* A number set right in `width` columns (4 at least), preceded by a space: "-"
 * when it is not finite, fewer digits when it is too long. */
void columns_number(FILE *out, int width, int decimals, double value);

/* Text set left in `width` columns: cut when longer, filled up when `fill`.
 * Control characters and broken UTF-8 print as '?', so that no name from a
 * file can move the cursor; one code point counts as one column. */
void columns_text(FILE *out, int width, int fill, const char *text);

/* A paragraph broken at spaces; every line is indented by `indent` but the
 * first, which continues at column `at`. Ends with a line feed. */
void columns_paragraph(FILE *out, int at, int indent, const char *text);

/* The same for lines of at most `most` columns, COLUMNS_MOST at the most. */
void columns_wrapped(FILE *out, int most, int at, int indent, const char *text);

#endif
