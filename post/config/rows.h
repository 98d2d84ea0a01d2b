/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Short forms for the rows of the settings table, and the sets that its parts
 * share. Included by the table's files only. */
#ifndef NECKHEW_CONFIG_ROWS_H
#define NECKHEW_CONFIG_ROWS_H

#include "config/settings.h"

/* A number, or `how_many` numbers (one per axis); arguments: name, kind, need,
 * least, most, usual, offset, help. */
#define ROW_VALUES(name_, kind_, need_, least_, most_, usual_, offset_, how_many, help_)          \
	{                                                                                         \
		.name = name_, .kind = kind_, .need = need_, .least = least_, .most = most_,      \
		.usual = usual_, .unit = "", .offset = offset_, .values = how_many, .help = help_ \
	}
#define ROW(name_, kind_, need_, least_, most_, usual_, offset_, help_) \
	ROW_VALUES(name_, kind_, need_, least_, most_, usual_, offset_, 1, help_)

/* A number that counts only when one of the choices `variants_` of row 0 is made. */
#define ROW_VARIANT(variants_, name_, kind_, need_, least_, most_, usual_, offset_, help_)   \
	{                                                                                    \
		.name = name_, .kind = kind_, .need = need_, .least = least_, .most = most_, \
		.usual = usual_, .unit = "", .offset = offset_, .values = 1,                 \
		.variants = variants_, .help = help_                                         \
	}

/* One word of a list that counts only when one of the choices `variants_` of row
 * 0 is made. */
#define ROW_VARIANT_CHOICE(variants_, name_, choices_, usual_, offset_, help_)               \
	{                                                                                    \
		.name = name_, .kind = KIND_CHOICE, .need = NEED_USUAL, .choices = choices_, \
		.usual = usual_, .offset = offset_, .values = 1, .variants = variants_,      \
		.help = help_                                                                \
	}

/* The same for a number whose default is told in words. */
#define ROW_VARIANT_WORDED(variants_, name_, kind_, least_, most_, usual_, words_, offset_, help_) \
	{                                                                                          \
		.name = name_, .kind = kind_, .need = NEED_USUAL, .least = least_, .most = most_,  \
		.usual = usual_, .usual_text = words_, .unit = "", .offset = offset_, .values = 1, \
		.variants = variants_, .help = help_                                               \
	}

/* A number whose default is told in words; the draft gets `usual_`. */
#define ROW_WORDED(name_, kind_, least_, most_, usual_, words_, offset_, help_)                    \
	{                                                                                          \
		.name = name_, .kind = kind_, .need = NEED_USUAL, .least = least_, .most = most_,  \
		.usual = usual_, .usual_text = words_, .unit = "", .offset = offset_, .values = 1, \
		.help = help_                                                                      \
	}

/* A number with a unit of its own. */
#define ROW_UNIT(name_, unit_, need_, least_, most_, usual_, offset_, help_)                       \
	{                                                                                          \
		.name = name_, .kind = KIND_NUMBER, .need = need_, .least = least_, .most = most_, \
		.usual = usual_, .unit = unit_, .offset = offset_, .values = 1, .help = help_      \
	}

#define ROW_TEXT(name_, need_, size_, offset_, help_)                                              \
	{                                                                                          \
		.name = name_, .kind = KIND_TEXT, .need = need_, .size = size_, .offset = offset_, \
		.values = 1, .help = help_                                                         \
	}

/* One word of a list; `usual_` is the index of the default. */
#define ROW_CHOICE(name_, need_, choices_, usual_, offset_, help_)                      \
	{                                                                               \
		.name = name_, .kind = KIND_CHOICE, .need = need_, .choices = choices_, \
		.usual = usual_, .offset = offset_, .values = 1, .help = help_          \
	}

/* The same with a default told in words; the draft gets -1. */
#define ROW_CHOICE_WORDED(name_, choices_, words_, offset_, help_)                               \
	{                                                                                        \
		.name = name_, .kind = KIND_CHOICE, .need = NEED_USUAL, .choices = choices_,     \
		.usual = -1, .usual_text = words_, .offset = offset_, .values = 1, .help = help_ \
	}

#define ROW_FLAG(name_, need_, usual_, offset_, help_)                            \
	{                                                                         \
		.name = name_, .kind = KIND_FLAG, .need = need_, .usual = usual_, \
		.offset = offset_, .values = 1, .help = help_                     \
	}

#define ROW_POINTS(name_, need_, words_, offset_, help_)                                        \
	{                                                                                       \
		.name = name_, .kind = KIND_POINTS, .need = need_, .least = 2,                  \
		.most = BLANK_POINTS_MAX, .usual_text = words_, .offset = offset_, .values = 1, \
		.help = help_                                                                   \
	}

/* A measured outline; `words_` tells what holds without one. */
#define ROW_SHARES(name_, words_, offset_, help_)                                                \
	{                                                                                        \
		.name = name_, .kind = KIND_SHARES, .need = NEED_USUAL,                          \
		.least = SECTION_POINTS_LEAST, .most = SECTION_POINTS_MAX, .usual_text = words_, \
		.offset = offset_, .values = 1, .help = help_                                    \
	}

#define ROW_GROUP(name_, need_, set_, offset_, help_)                                             \
	{                                                                                         \
		.name = name_, .kind = KIND_GROUP, .need = need_, .set = set_, .offset = offset_, \
		.values = 1, .help = help_                                                        \
	}

#define ROW_LIST(name_, need_, least_, most_, set_, offset_, size_, count_, help_)               \
	{                                                                                        \
		.name = name_, .kind = KIND_LIST, .need = need_, .least = least_, .most = most_, \
		.set = set_, .offset = offset_, .size = size_, .count_offset = count_,           \
		.values = 1, .help = help_                                                       \
	}

#define SET(what_, rows_)                                                            \
	{                                                                            \
		.what = what_, .count = sizeof rows_ / sizeof rows_[0], .row = rows_ \
	}

/* Defined in settings_neck.c: what the neck is. */
extern const struct setting_set settings_neck, settings_station, settings_heel, settings_peghead,
	settings_channel, settings_allowance;

/* Defined in settings_shop.c: what the shop has and how the blank is held. */
extern const struct setting_set settings_machine, settings_cutter, settings_wood, settings_use,
	settings_blank, settings_fixture, settings_carve;

/* Defined in settings_cutting.c: which way lines are cut. */
extern const struct setting_set settings_cutting;

#endif
