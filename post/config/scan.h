/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A first look at the text of a settings file: takes out the @include lines,
 * so that includes are found from the folder of the file they stand in, and
 * refuses what the parser should never see. */
#ifndef NECKHEW_CONFIG_SCAN_H
#define NECKHEW_CONFIG_SCAN_H

#include <stddef.h>

#include "base/fault.h"

#define SCAN_INCLUDES_MAX 16
#define SCAN_INCLUDE_PATH_MAX 256
#define SCAN_NESTING_MAX 8

struct scan_include {
	int line;
	char path[SCAN_INCLUDE_PATH_MAX]; /* as written */
};

struct scan_result {
	size_t count;
	struct scan_include include[SCAN_INCLUDES_MAX];
};

/* Looks through `size` bytes of text. Includes are listed in *out and
 * overwritten with blanks, as are block comments and carriage returns, so
 * that the lines keep their numbers and no "@include" is left outside a text
 * in quotes. Refuses bytes that are no text, texts and comments without an
 * end, more than SCAN_NESTING_MAX brackets inside each other, and an include
 * inside brackets. `file` is the name for messages. */
enum fault scan_settings(char *text, size_t size, const char *file, struct scan_result *out,
			 struct fault_list *faults);

#endif
