/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of all settings: the one place that says what a neck file and its
 * shop files may contain. The reader walks it, `neckhew settings` prints it.
 * Lengths in the table are mm, angles degrees. */
#ifndef NECKHEW_CONFIG_SETTINGS_H
#define NECKHEW_CONFIG_SETTINGS_H

#include <stddef.h>

enum setting_kind {
	KIND_LENGTH, /* in the unit of its file */
	KIND_FEED, /* length unit per minute */
	KIND_ACCELERATION, /* length unit per second squared */
	KIND_ANGLE, /* degrees in the file, radians in the draft */
	KIND_NUMBER, /* with the unit in `unit`, whatever the file's */
	KIND_COUNT, /* whole number */
	KIND_FRET, /* "nut" or a number */
	KIND_TEXT,
	KIND_CHOICE, /* one word of `choices`; stored as its index */
	KIND_FLAG, /* true or false */
	KIND_POINTS, /* list of pairs of lengths, or a file of them; stored as struct outline */
	KIND_SHARES, /* list of pairs of shares, stored as struct section_outline */
	KIND_GROUP, /* { ... } of the settings in `set` */
	KIND_LIST /* ( { ... }, { ... } ) of groups of the settings in `set` */
};

enum setting_need {
	NEED_GIVEN, /* must stand in the file */
	NEED_USUAL, /* `usual` when it does not; a group: the usual of all in it */
	NEED_NOTHING /* may be left out; its place in the draft stays unset */
};

#define SETTING_VARIANT(choice) (1U << (choice))

struct setting_set;

struct setting {
	const char *name;
	enum setting_kind kind;
	enum setting_need need;
	double least, most; /* of the value; of the item count for points, shares and lists */
	double usual;
	const char *unit; /* KIND_NUMBER only, "" for none */
	const char *usual_text; /* says the default where a number would not; else NULL */
	const char *const *choices; /* KIND_CHOICE: NULL-terminated */
	size_t offset; /* in the draft of the set it belongs to */
	size_t size; /* KIND_TEXT: of the buffer; KIND_LIST: of one item */
	size_t count_offset; /* KIND_LIST: of the size_t that counts the items */
	size_t values; /* 3 for a value per axis, else 1 */
	/* 0, or valid only when one of these choices of row 0 is made: the sum of
	 * SETTING_VARIANT(choice) */
	unsigned variants;
	const struct setting_set *set; /* KIND_GROUP, KIND_LIST */
	const char *help; /* one line */
};

struct setting_set {
	const char *what; /* as in "a station" */
	size_t count;
	const struct setting *row;
};

/* The settings at the top level of a file. The draft they fill is a struct
 * config_draft (config/draft.h). */
const struct setting_set *settings_root(void);

/* The row with that name in a set, or NULL. */
const struct setting *settings_find(const struct setting_set *set, const char *name);

/* The name in the set nearest to `name` by spelling. */
const char *settings_nearest(const struct setting_set *set, const char *name);

/* The top-level group that knows a setting of that name, or NULL: helps whoever
 * wrote a setting in the wrong group. */
const char *settings_home_of(const char *name);

#endif
