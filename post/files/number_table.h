/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Small tables of numbers in plain text, as spreadsheets and digitisers write
 * them. A line holds one row. Values stand apart by commas, semicolons, tabs or
 * blanks; the first of these, in the order semicolon, tab, comma, that is on a
 * line parts it. Lines that are blank or begin with # are passed over. The first
 * row may be a heading: a name for each column. Decimals take a point. Lines
 * may end in CR LF, and the file may begin with a UTF-8 mark. */
#ifndef NECKHEW_FILES_NUMBER_TABLE_H
#define NECKHEW_FILES_NUMBER_TABLE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"

#define NUMBER_TABLE_BYTES 1000000 /* of a file */
#define NUMBER_TABLE_LINE 400 /* characters of a line */
#define NUMBER_TABLE_ROWS 20000
#define NUMBER_TABLE_COLUMNS 8
#define NUMBER_TABLE_LABEL 40 /* room for a label, with the NUL behind it */

/* A column that a table may have. At most one holds labels: printable ASCII
 * without quotation marks and backslashes. */
struct number_column {
	const char *name; /* in a heading; capitals make no difference */
	bool may_lack; /* the table may be without it */
	bool label; /* its cells are text */
	double least, most; /* of a number, in the file's own unit */
};

struct number_row {
	int line; /* 1-based, for messages */
	char label[NUMBER_TABLE_LABEL]; /* "" when there is no such column */
	double value[NUMBER_TABLE_COLUMNS]; /* in the order asked for, not the file's */
};

struct number_table {
	bool has[NUMBER_TABLE_COLUMNS]; /* the file has this column */
	size_t count;
	struct number_row *row;
};

/* Reads the table at `path`, whose columns can be `column[count]`, at most
 * NUMBER_TABLE_COLUMNS. Without a heading a row holds all columns in this order,
 * or all that may not lack, and a label must begin with a letter. FAULT_FILE
 * names file, line, what was found and what is allowed; *out is then empty.
 * FAULT_MEMORY. Release with number_table_free. */
enum fault number_table_read(struct number_table *out, const char *path,
			     const struct number_column *column, size_t count,
			     struct fault_list *faults);

/* The same for `size` bytes of text that were read from `path`. */
enum fault number_table_of_text(struct number_table *out, const char *text, size_t size,
				const char *path, const struct number_column *column, size_t count,
				struct fault_list *faults);

/* Accepts an empty table. */
void number_table_free(struct number_table *table);

#endif
