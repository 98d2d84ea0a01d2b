/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config/point_file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "files/number_table.h"

enum { COLUMN_X, COLUMN_VALUE, COLUMNS };

/* What a value says of its table. */
struct named_table {
	const char *path;
	enum length_unit unit;
};

static enum fault refuse_group(const config_setting_t *item, const struct value_spot *spot,
			       const char *why)
{
	return fault_add(spot->faults, FAULT_SETTING, spot->file,
			 (int)config_setting_source_line(item), spot->setting,
			 "%s A group here names a table of points: { file = \"side.csv\"; units = "
			 "\"mm\"; }, units being \"mm\" or \"in\".",
			 why);
}

static enum fault read_group_item(struct named_table *out, const config_setting_t *item,
				  const struct value_spot *spot)
{
	const char *name = config_setting_name(item), *text = config_setting_get_string(item);

	if (strcmp(name, "file") != 0 && strcmp(name, "units") != 0)
		return refuse_group(item, spot, "There is no such setting here.");
	if (!text)
		return refuse_group(item, spot, "This must be a text in quotes.");
	if (strcmp(name, "file") == 0)
		out->path = text;
	else if (strcmp(text, "mm") == 0)
		out->unit = UNIT_MM;
	else if (strcmp(text, "in") == 0)
		out->unit = UNIT_INCH;
	else
		return refuse_group(item, spot, "These are no units.");
	return FAULT_NONE;
}

static enum fault read_group(struct named_table *out, const config_setting_t *node,
			     const struct value_spot *spot)
{
	for (int i = 0; i < config_setting_length(node); i++) {
		enum fault fault =
			read_group_item(out, config_setting_get_elem(node, (unsigned int)i), spot);
		if (fault)
			return fault;
	}
	return out->path ? FAULT_NONE : refuse_group(node, spot, "The file is missing.");
}

/* What blank_check would refuse too, but here the line is known. */
static enum fault check_order(const struct number_table *table, size_t i, const char *path,
			      struct fault_list *faults)
{
	const struct number_row *row = &table->row[i];
	bool end = i == 1 || i + 1 == table->count;
	const char *why = NULL;

	if (i > 0 && row->value[COLUMN_X] < row[-1].value[COLUMN_X])
		why = "it lies before the point above it; list points from the peghead toward the "
		      "body";
	else if (i > 1 && row->value[COLUMN_X] <= row[-2].value[COLUMN_X])
		why = "three points lie there; a step takes two";
	else if (i > 0 && end && row->value[COLUMN_X] <= row[-1].value[COLUMN_X])
		why = "the outline begins or ends with a step; give its end one point";
	if (!why)
		return FAULT_NONE;
	return fault_add(faults, FAULT_FILE, path, row->line, NULL, "The point at x = %.8g: %s.",
			 row->value[COLUMN_X], why);
}

static enum fault take_points(struct outline *out, const struct number_table *table,
			      const struct setting *row, enum length_unit unit, const char *path,
			      struct fault_list *faults)
{
	struct outline read = { .count = table->count };
	size_t least = (size_t)row->least, most = (size_t)row->most;

	if (table->count < least || table->count > most)
		return fault_add(faults, FAULT_FILE, path,
				 table->row[table->count > most ? most : 0].line, NULL,
				 "The table has %zu point%s; an outline has %zu to %zu.",
				 table->count, table->count == 1 ? "" : "s", least, most);
	for (size_t i = 0; i < table->count; i++) {
		enum fault fault = check_order(table, i, path, faults);
		if (fault)
			return fault;
		read.x_mm[i] = table->row[i].value[COLUMN_X] * units_mm_per(unit);
		read.value_mm[i] = table->row[i].value[COLUMN_VALUE] * units_mm_per(unit);
	}
	*out = read;
	return FAULT_NONE;
}

static enum fault read_table(struct outline *out, const struct setting *row, const char *text,
			     size_t size, enum length_unit unit, const struct value_spot *spot)
{
	struct value_files *files = spot->files;
	double most = POINT_MOST_MM / units_mm_per(unit);
	const struct number_column column[COLUMNS] = {
		[COLUMN_X] = { .name = "x", .least = -most, .most = most },
		[COLUMN_VALUE] = { .name = "value", .least = -most, .most = most },
	};
	struct number_table table;
	enum fault fault = number_table_of_text(&table, text, size, files->named, column, COLUMNS,
						spot->faults);

	files->named_line = 0;
	if (fault)
		return fault;
	files->named_line = table.row[0].line;
	fault = take_points(out, &table, row, unit, files->named, spot->faults);
	number_table_free(&table);
	return fault;
}

enum fault point_file_read(struct outline *out, const struct setting *row,
			   const config_setting_t *node, const struct value_spot *spot)
{
	struct named_table named = { config_setting_get_string(node), spot->unit };
	struct value_files *files = spot->files;

	if (!files)
		return value_refuse(row, node, spot);
	enum fault fault = named.path ? FAULT_NONE : read_group(&named, node, spot);
	if (fault)
		return fault;
	struct named_file file = { .source = files->source,
				   .line = spot->line,
				   .setting = spot->setting,
				   .path = named.path,
				   .most_bytes = NUMBER_TABLE_BYTES };
	fault = source_list_named(files->list, &file, spot->faults);
	if (fault)
		return fault;
	(void)snprintf(files->named, sizeof files->named, "%s", file.found);
	fault = read_table(out, row, file.text, file.size, named.unit, spot);
	free(file.text);
	return fault;
}
