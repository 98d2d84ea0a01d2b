/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One value of a settings file, checked against its row of the table. Private
 * to the reader. */
#ifndef NECKHEW_CONFIG_VALUE_H
#define NECKHEW_CONFIG_VALUE_H

#include <libconfig.h>

#include "base/fault.h"
#include "base/units.h"
#include "config/settings.h"
#include "config/source.h"

/* The files behind a value. */
struct value_files {
	struct source_list *list;
	const struct source *source; /* the one it stands in */
	/* Where the value itself was read from, when it names a file. */
	char named[FAULT_FILE_MAX];
	int named_line;
};

/* Where a value stands, for messages. */
struct value_spot {
	const char *file;
	int line;
	const char *setting;
	enum length_unit unit;
	struct fault_list *faults;
	struct value_files *files; /* NULL: a value may name none */
};

/* Reads a value of any kind but group and list into draft + row->offset, in
 * mm and radians. A wrong kind or a value out of range adds one fault that
 * says what was found and what is allowed, and leaves the draft as it was. */
enum fault value_read(void *draft, const struct setting *row, const config_setting_t *node,
		      const struct value_spot *spot);

/* Writes the usual value there. */
void value_usual(void *draft, const struct setting *row);

/* Adds the fault "This is <found>; allowed is <what the row says>." */
enum fault value_refuse(const struct setting *row, const config_setting_t *node,
			const struct value_spot *spot);

#endif
