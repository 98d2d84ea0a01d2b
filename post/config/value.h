/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One value of a settings file, checked against its row of the table. Private
 * to the reader. */
#ifndef NECKHEW_CONFIG_VALUE_H
#define NECKHEW_CONFIG_VALUE_H

#include <libconfig.h>

#include "base/fault.h"
#include "base/units.h"
#include "config/settings.h"

/* Where a value stands, for messages. */
struct value_spot {
	const char *file;
	int line;
	const char *setting;
	enum length_unit unit;
	struct fault_list *faults;
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
