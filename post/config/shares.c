/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config/shares.h"

#include <stdbool.h>

static bool read_share(double *out, const config_setting_t *node)
{
	if (!node || !config_setting_is_number(node))
		return false;
	switch (config_setting_type(node)) {
	case CONFIG_TYPE_INT:
		*out = config_setting_get_int(node);
		break;
	case CONFIG_TYPE_INT64:
		*out = (double)config_setting_get_int64(node);
		break;
	default:
		*out = config_setting_get_float(node);
		break;
	}
	return *out >= 0.0 && *out <= 1.0;
}

static bool read_pair(struct section_outline *out, size_t i, const config_setting_t *node)
{
	if (!config_setting_is_array(node) && !config_setting_is_list(node))
		return false;
	return config_setting_length(node) == 2 &&
	       read_share(&out->height[i], config_setting_get_elem(node, 0)) &&
	       read_share(&out->breadth[i], config_setting_get_elem(node, 1));
}

enum fault shares_read(struct section_outline *out, const struct setting *row,
		       const config_setting_t *node, const struct value_spot *spot)
{
	struct section_outline read = { 0 };
	int count = config_setting_is_list(node) ? config_setting_length(node) : 0;

	if (count < (int)row->least || count > (int)row->most)
		return value_refuse(row, node, spot);
	for (unsigned int i = 0; i < (unsigned int)count; i++) {
		const config_setting_t *item = config_setting_get_elem(node, i);
		if (!read_pair(&read, i, item))
			return fault_add(spot->faults, FAULT_SETTING, spot->file,
					 (int)config_setting_source_line(item), spot->setting,
					 "Pair %u of the list is no (height, breadth) of two "
					 "shares from 0 to 1.",
					 i + 1);
	}
	read.count = (size_t)count;
	*out = read;
	return FAULT_NONE;
}
