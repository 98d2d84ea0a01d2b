/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config/value.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "config/describe.h"
#include "config/nearest.h"
#include "config/point_file.h"
#include "config/shares.h"
#include "config/utf8.h"
#include "machine/blank.h"

static void *place_of(void *draft, const struct setting *row)
{
	return (char *)draft + row->offset;
}

static const char *kind_found(const config_setting_t *node)
{
	switch (config_setting_type(node)) {
	case CONFIG_TYPE_GROUP:
		return "a group { }";
	case CONFIG_TYPE_ARRAY:
		return "an array [ ]";
	case CONFIG_TYPE_LIST:
		return "a list ( )";
	default:
		return "nothing";
	}
}

/* Number of a node of a numeric type. */
static double number_of(const config_setting_t *node)
{
	switch (config_setting_type(node)) {
	case CONFIG_TYPE_INT:
		return config_setting_get_int(node);
	case CONFIG_TYPE_INT64:
		return (double)config_setting_get_int64(node);
	default:
		return config_setting_get_float(node);
	}
}

/* Says what stands in the file, in words. */
static void describe_found(char *to, size_t size, const struct setting *row,
			   const config_setting_t *node, enum length_unit unit)
{
	char plain[48];

	if (row->kind == KIND_COUNT && config_setting_type(node) == CONFIG_TYPE_FLOAT) {
		(void)snprintf(to, size, "%.8g, written with a point or an exponent",
			       number_of(node));
	} else if (config_setting_is_number(node)) {
		describe_figure(to, size, row, unit, number_of(node) * describe_scale(row, unit));
	} else if (config_setting_type(node) == CONFIG_TYPE_STRING) {
		utf8_make_plain(plain, sizeof plain, config_setting_get_string(node));
		(void)snprintf(to, size, "the text \"%s\"", plain);
	} else if (config_setting_type(node) == CONFIG_TYPE_BOOL) {
		(void)snprintf(to, size, "%s", config_setting_get_bool(node) ? "true" : "false");
	} else {
		(void)snprintf(to, size, "%s of %d", kind_found(node), config_setting_length(node));
	}
}

enum fault value_refuse(const struct setting *row, const config_setting_t *node,
			const struct value_spot *spot)
{
	char found[96], allowed[160];

	describe_found(found, sizeof found, row, node, spot->unit);
	describe_allowed(allowed, sizeof allowed, row, spot->unit);
	return fault_add(spot->faults, FAULT_SETTING, spot->file, spot->line, spot->setting,
			 "This is %s; allowed is %s.", found, allowed);
}

/* One number within the row's limits, in mm or radians. */
static bool read_number(double *out, const struct setting *row, const config_setting_t *node,
			enum length_unit unit)
{
	if (!config_setting_is_number(node))
		return false;
	double value = number_of(node) * describe_scale(row, unit);
	/* written so that what is not a number fails too */
	if (!(value >= row->least && value <= row->most))
		return false;
	*out = row->kind == KIND_ANGLE ? units_rad_from_deg(value) : value;
	return true;
}

static enum fault read_numbers(double *out, const struct setting *row, const config_setting_t *node,
			       const struct value_spot *spot)
{
	double value[3];

	if (row->values == 1) {
		if (!read_number(&value[0], row, node, spot->unit))
			return value_refuse(row, node, spot);
	} else {
		if (!config_setting_is_array(node) && !config_setting_is_list(node))
			return value_refuse(row, node, spot);
		if (config_setting_length(node) != (int)row->values)
			return value_refuse(row, node, spot);
		for (size_t i = 0; i < row->values; i++) {
			const config_setting_t *item =
				config_setting_get_elem(node, (unsigned int)i);
			if (!read_number(&value[i], row, item, spot->unit))
				return value_refuse(row, item, spot);
		}
	}
	memcpy(out, value, row->values * sizeof value[0]);
	return FAULT_NONE;
}

static enum fault read_count(int *out, const struct setting *row, const config_setting_t *node,
			     const struct value_spot *spot)
{
	double value;

	if (config_setting_type(node) == CONFIG_TYPE_FLOAT ||
	    !read_number(&value, row, node, spot->unit))
		return value_refuse(row, node, spot);
	*out = (int)value;
	return FAULT_NONE;
}

static enum fault read_fret(double *out, const struct setting *row, const config_setting_t *node,
			    const struct value_spot *spot)
{
	if (config_setting_type(node) == CONFIG_TYPE_STRING && row->least <= 0 &&
	    strcmp(config_setting_get_string(node), "nut") == 0) {
		*out = 0.0;
		return FAULT_NONE;
	}
	return read_numbers(out, row, node, spot);
}

static enum fault read_text(char *out, const struct setting *row, const config_setting_t *node,
			    const struct value_spot *spot)
{
	if (config_setting_type(node) != CONFIG_TYPE_STRING)
		return value_refuse(row, node, spot);
	const char *text = config_setting_get_string(node);
	if (strlen(text) >= row->size)
		return value_refuse(row, node, spot);
	if (!utf8_is_name(text))
		return fault_add(spot->faults, FAULT_SETTING, spot->file, spot->line, spot->setting,
				 "This text is blank, or holds characters that cannot be shown; "
				 "allowed are letters, digits and signs (UTF-8).");
	memcpy(out, text, strlen(text) + 1);
	return FAULT_NONE;
}

static const char *choice_word(const void *context, size_t i)
{
	const char *const *choices = context;

	return choices[i];
}

static enum fault read_choice(void *out, const struct setting *row, const config_setting_t *node,
			      const struct value_spot *spot)
{
	char plain[48], allowed[160];
	size_t count = 0;

	if (config_setting_type(node) != CONFIG_TYPE_STRING)
		return value_refuse(row, node, spot);
	const char *text = config_setting_get_string(node);
	for (; row->choices[count]; count++) {
		int index = (int)count;
		if (strcmp(row->choices[count], text) == 0) {
			memcpy(out, &index, sizeof index);
			return FAULT_NONE;
		}
	}
	size_t nearest = nearest_word(text, count, choice_word, row->choices);
	utf8_make_plain(plain, sizeof plain, text);
	describe_allowed(allowed, sizeof allowed, row, spot->unit);
	return fault_add(spot->faults, FAULT_SETTING, spot->file, spot->line, spot->setting,
			 "This is the text \"%s\"; allowed is %s. The nearest is \"%s\".", plain,
			 allowed, row->choices[nearest]);
}

static enum fault read_point(struct outline *out, size_t i, const config_setting_t *node,
			     const struct value_spot *spot)
{
	double figure[2];

	if (!config_setting_is_array(node) && !config_setting_is_list(node))
		return FAULT_SETTING;
	if (config_setting_length(node) != 2)
		return FAULT_SETTING;
	for (unsigned int k = 0; k < 2; k++) {
		const config_setting_t *item = config_setting_get_elem(node, k);
		if (!config_setting_is_number(item))
			return FAULT_SETTING;
		figure[k] = number_of(item) * units_mm_per(spot->unit);
		if (!(figure[k] >= -POINT_MOST_MM && figure[k] <= POINT_MOST_MM))
			return FAULT_SETTING;
	}
	out->x_mm[i] = figure[0];
	out->value_mm[i] = figure[1];
	return FAULT_NONE;
}

static enum fault read_points(struct outline *out, const struct setting *row,
			      const config_setting_t *node, const struct value_spot *spot)
{
	struct outline read = { 0 };

	if (config_setting_type(node) == CONFIG_TYPE_STRING || config_setting_is_group(node))
		return point_file_read(out, row, node, spot);
	int count = config_setting_is_list(node) ? config_setting_length(node) : 0;

	if (count < (int)row->least || count > (int)row->most)
		return value_refuse(row, node, spot);
	for (unsigned int i = 0; i < (unsigned int)count; i++) {
		const config_setting_t *item = config_setting_get_elem(node, i);
		if (read_point(&read, i, item, spot))
			return fault_add(spot->faults, FAULT_SETTING, spot->file,
					 (int)config_setting_source_line(item), spot->setting,
					 "Point %u of the list is no pair (x, value) of lengths "
					 "within %.5g %s of the nut.",
					 i + 1, POINT_MOST_MM / units_mm_per(spot->unit),
					 spot->unit == UNIT_INCH ? "in" : "mm");
	}
	read.count = (size_t)count;
	*out = read;
	return FAULT_NONE;
}

enum fault value_read(void *draft, const struct setting *row, const config_setting_t *node,
		      const struct value_spot *spot)
{
	void *place = place_of(draft, row);

	switch (row->kind) {
	case KIND_COUNT:
		return read_count(place, row, node, spot);
	case KIND_FRET:
		return read_fret(place, row, node, spot);
	case KIND_TEXT:
		return read_text(place, row, node, spot);
	case KIND_CHOICE:
		return read_choice(place, row, node, spot);
	case KIND_POINTS:
		return read_points(place, row, node, spot);
	case KIND_SHARES:
		return shares_read(place, row, node, spot);
	case KIND_FLAG:
		if (config_setting_type(node) != CONFIG_TYPE_BOOL)
			return value_refuse(row, node, spot);
		*(bool *)place = config_setting_get_bool(node) == CONFIG_TRUE;
		return FAULT_NONE;
	default:
		return read_numbers(place, row, node, spot);
	}
}

void value_usual(void *draft, const struct setting *row)
{
	void *place = place_of(draft, row);
	int whole;

	switch (row->kind) {
	case KIND_TEXT:
		*(char *)place = '\0';
		break;
	case KIND_CHOICE:
	case KIND_COUNT:
		whole = (int)row->usual;
		memcpy(place, &whole, sizeof whole);
		break;
	case KIND_FLAG:
		*(bool *)place = row->usual != 0.0;
		break;
	case KIND_POINTS:
		((struct outline *)place)->count = 0;
		break;
	case KIND_SHARES:
		((struct section_outline *)place)->count = 0;
		break;
	default:
		for (size_t i = 0; i < row->values; i++)
			((double *)place)[i] = row->kind == KIND_ANGLE
						       ? units_rad_from_deg(row->usual)
						       : row->usual;
		break;
	}
}
