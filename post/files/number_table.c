/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "files/number_table.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "files/cells.h"
#include "files/plain_number.h"
#include "files/text_file.h"

struct reader {
	const char *path;
	const struct number_column *column;
	size_t column_count;
	struct number_table *table;
	size_t capacity; /* rows there is room for */
	bool begun; /* the order of the columns is known */
	size_t width; /* cells of a row */
	size_t place[NUMBER_TABLE_COLUMNS]; /* column of each cell */
	int line;
	struct fault_list *faults;
};

/* The C library's tests are not used: they depend on the locale. */
static bool is_letter(char c)
{
	return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static char lower(char c)
{
	return (char)(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
}

static enum fault found(const struct reader *reader, const struct cell *cell, const char *allowed)
{
	char text[CELL_SHOWN_ROOM];

	return fault_add(reader->faults, FAULT_FILE, reader->path, reader->line, NULL,
			 "Found \"%s\"; %s", cell_shown(text, cell), allowed);
}

/* Names of all columns, for messages: "station, y, z". */
static const char *names(char *out, size_t room, const struct reader *reader)
{
	size_t used = 0;

	out[0] = '\0';
	for (size_t i = 0; i < reader->column_count && used < room; i++)
		used += (size_t)snprintf(out + used, room - used, "%s%s", i > 0 ? ", " : "",
					 reader->column[i].name);
	return out;
}

static size_t needed(const struct reader *reader)
{
	size_t count = 0;

	for (size_t i = 0; i < reader->column_count; i++)
		count += !reader->column[i].may_lack;
	return count;
}

static bool same_name(const struct cell *cell, const char *name)
{
	size_t i = 0;

	while (i < cell->length && name[i] && lower(cell->text[i]) == lower(name[i]))
		i++;
	return i == cell->length && name[i] == '\0';
}

static bool is_heading(const struct cell *cell, size_t count)
{
	for (size_t i = 0; i < count; i++)
		if (cell[i].length == 0 || !is_letter(cell[i].text[0]))
			return false;
	return true;
}

static enum fault take_heading(struct reader *reader, const struct cell *cell, size_t count)
{
	char all[200], allowed[260];

	(void)snprintf(allowed, sizeof allowed, "a heading can name the columns %s, each once.",
		       names(all, sizeof all, reader));
	for (size_t i = 0; i < count; i++) {
		size_t c = 0;
		while (c < reader->column_count && !same_name(&cell[i], reader->column[c].name))
			c++;
		if (c == reader->column_count || reader->table->has[c])
			return found(reader, &cell[i], allowed);
		reader->table->has[c] = true;
		reader->place[i] = c;
	}
	for (size_t c = 0; c < reader->column_count; c++)
		if (!reader->table->has[c] && !reader->column[c].may_lack)
			return fault_add(reader->faults, FAULT_FILE, reader->path, reader->line,
					 NULL, "The heading lacks the column \"%s\"; %s",
					 reader->column[c].name, allowed);
	reader->width = count;
	return FAULT_NONE;
}

/* What a row with a wrong number of cells is told. */
static enum fault wrong_count(const struct reader *reader, size_t count)
{
	char all[200];

	if (reader->begun)
		return fault_add(reader->faults, FAULT_FILE, reader->path, reader->line, NULL,
				 "This line holds %zu value%s; the lines before it hold %zu. (A "
				 "decimal takes a point, not a comma.)",
				 count, count == 1 ? "" : "s", reader->width);
	return fault_add(
		reader->faults, FAULT_FILE, reader->path, reader->line, NULL,
		"This line holds %zu value%s; needed are %zu of the columns %s. (A decimal "
		"takes a point, not a comma.)",
		count, count == 1 ? "" : "s", needed(reader), names(all, sizeof all, reader));
}

/* The order of the columns of a table without a heading. */
static enum fault take_order(struct reader *reader, size_t count)
{
	if (count != reader->column_count && count != needed(reader))
		return wrong_count(reader, count);
	for (size_t c = 0; c < reader->column_count; c++) {
		if (count != reader->column_count && reader->column[c].may_lack)
			continue;
		reader->table->has[c] = true;
		reader->place[reader->width++] = c;
	}
	return FAULT_NONE;
}

static enum fault take_label(const struct reader *reader, struct number_row *row,
			     const struct cell *cell, bool headed)
{
	if (cell->length == 0 || cell->length >= NUMBER_TABLE_LABEL)
		return found(reader, cell, "a label has 1 to 39 characters.");
	for (size_t i = 0; i < cell->length; i++) {
		char c = cell->text[i];
		if (c < ' ' || c > '~' || c == '"' || c == '\\')
			return found(reader, cell,
				     "a label is made of plain letters, digits and signs, without "
				     "quotation marks and backslashes.");
	}
	if (!headed && !is_letter(cell->text[0]))
		return found(reader, cell,
			     "without a heading that names the columns, a label begins with a "
			     "letter. (A decimal takes a point, not a comma.)");
	memcpy(row->label, cell->text, cell->length);
	return FAULT_NONE;
}

static enum fault take_number(const struct reader *reader, double *out,
			      const struct number_column *column, const struct cell *cell)
{
	char allowed[160];

	if (memchr(cell->text, ',', cell->length))
		return found(reader, cell, "a decimal takes a point, not a comma.");
	if (!plain_number(out, cell->text, cell->length))
		return found(reader, cell, "a number is needed, such as -12.5.");
	if (*out >= column->least && *out <= column->most)
		return FAULT_NONE;
	(void)snprintf(allowed, sizeof allowed, "%s can be %.6g to %.6g.", column->name,
		       column->least, column->most);
	return found(reader, cell, allowed);
}

static enum fault take_row(struct reader *reader, const struct cell *cell, size_t count,
			   bool headed)
{
	struct number_table *table = reader->table;

	if (count != reader->width)
		return wrong_count(reader, count);
	if (table->count == NUMBER_TABLE_ROWS)
		return fault_add(reader->faults, FAULT_FILE, reader->path, reader->line, NULL,
				 "This line is beyond the %d rows that a table can have.",
				 NUMBER_TABLE_ROWS);
	struct number_row *grown =
		mem_grow(table->row, &reader->capacity, table->count + 1, sizeof *grown);
	if (!grown)
		return fault_no_memory(reader->faults, "the rows of a table");
	table->row = grown;
	struct number_row *row = &table->row[table->count++];
	*row = (struct number_row){ .line = reader->line };
	for (size_t i = 0; i < count; i++) {
		size_t c = reader->place[i];
		const struct number_column *column = &reader->column[c];
		enum fault fault = column->label
					   ? take_label(reader, row, &cell[i], headed)
					   : take_number(reader, &row->value[c], column, &cell[i]);
		if (fault)
			return fault;
	}
	return FAULT_NONE;
}

static enum fault take_line(struct reader *reader, const char *line, size_t length, bool *headed)
{
	struct cell cell[NUMBER_TABLE_COLUMNS + 1];

	if (length > NUMBER_TABLE_LINE)
		return fault_add(reader->faults, FAULT_FILE, reader->path, reader->line, NULL,
				 "This line has %zu characters; it can have %d.", length,
				 NUMBER_TABLE_LINE);
	struct cell whole = cell_trimmed(line, length);
	if (whole.length == 0 || whole.text[0] == '#')
		return FAULT_NONE;
	if (memchr(line, '\0', length) || memchr(line, '\r', length))
		return found(reader, &whole,
			     "it holds a sign that has no place in a text of numbers.");
	size_t count = cells_part(cell, NUMBER_TABLE_COLUMNS + 1, line, length);
	if (count > NUMBER_TABLE_COLUMNS)
		return wrong_count(reader, count);
	if (reader->begun)
		return take_row(reader, cell, count, *headed);
	*headed = is_heading(cell, count);
	enum fault fault = *headed ? take_heading(reader, cell, count) : take_order(reader, count);
	reader->begun = true;
	return fault || *headed ? fault : take_row(reader, cell, count, false);
}

static enum fault take_text(struct reader *reader, const char *text, size_t size)
{
	static const char mark[] = "\xef\xbb\xbf";
	const char *end = text + size;
	bool headed = false;

	if (size >= 3 && memcmp(text, mark, 3) == 0)
		text += 3;
	while (text < end) {
		const char *line_end = memchr(text, '\n', (size_t)(end - text));
		size_t length = (size_t)((line_end ? line_end : end) - text);
		reader->line++;
		bool cr = length > 0 && text[length - 1] == '\r';
		enum fault fault = take_line(reader, text, length - cr, &headed);
		if (fault)
			return fault;
		text = line_end ? line_end + 1 : end;
	}
	if (reader->table->count == 0)
		return fault_add(reader->faults, FAULT_FILE, reader->path, 0, NULL,
				 "There are no numbers in this file.");
	return FAULT_NONE;
}

enum fault number_table_of_text(struct number_table *out, const char *text, size_t size,
				const char *path, const struct number_column *column, size_t count,
				struct fault_list *faults)
{
	struct reader reader = { .path = path,
				 .column = column,
				 .column_count = count,
				 .table = out,
				 .faults = faults };

	*out = (struct number_table){ 0 };
	if (count == 0 || count > NUMBER_TABLE_COLUMNS)
		return fault_add(faults, FAULT_INTERNAL, path, 0, NULL,
				 "A table of %zu columns was asked for.", count);
	enum fault fault = take_text(&reader, text, size);
	if (fault)
		number_table_free(out);
	return fault;
}

enum fault number_table_read(struct number_table *out, const char *path,
			     const struct number_column *column, size_t count,
			     struct fault_list *faults)
{
	char *text;
	size_t size;

	*out = (struct number_table){ 0 };
	enum fault fault = text_file_read(&text, &size, path, NUMBER_TABLE_BYTES, faults);
	if (fault)
		return fault;
	fault = number_table_of_text(out, text, size, path, column, count, faults);
	free(text);
	return fault;
}

void number_table_free(struct number_table *table)
{
	free(table->row);
	*table = (struct number_table){ 0 };
}
