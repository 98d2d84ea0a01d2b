/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/fault.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

const char *fault_phrase(enum fault code)
{
	static const char *const phrases[FAULT_COUNT] = {
		[FAULT_NONE] = "good",
		[FAULT_SETTING] = "bad setting",
		[FAULT_FILE] = "file trouble",
		[FAULT_PROGRAM] = "bad program text",
		[FAULT_GEOMETRY] = "impossible neck",
		[FAULT_PLAN] = "cannot be cut",
		[FAULT_PROOF] = "not proven",
		[FAULT_USAGE] = "unclear command",
		[FAULT_MEMORY] = "out of memory",
		[FAULT_INTERNAL] = "internal check failed",
	};

	if ((int)code < 0 || code >= FAULT_COUNT)
		return "unknown fault";
	return phrases[code];
}

/* Copies as much as fits; NULL copies as "". */
static void copy_text(char *to, size_t size, const char *from)
{
	(void)snprintf(to, size, "%s", from ? from : "");
}

enum fault fault_add(struct fault_list *faults, enum fault code, const char *file, int line,
		     const char *setting, const char *format, ...)
{
	if (!faults)
		return code;
	if (faults->count == FAULT_LIST_MAX) {
		faults->more++;
		return code;
	}
	struct fault_record *record = &faults->record[faults->count++];
	record->code = code;
	record->line = line;
	copy_text(record->file, sizeof record->file, file);
	copy_text(record->setting, sizeof record->setting, setting);
	va_list args;
	va_start(args, format);
	(void)vsnprintf(record->message, sizeof record->message, format, args);
	va_end(args);
	return code;
}

enum fault fault_unless_positive(struct fault_list *faults, const char *setting, double value_mm)
{
	if (value_mm > 0.0 && isfinite(value_mm))
		return FAULT_NONE;
	return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
			 "It is %.4g mm; it must be more than 0.", value_mm);
}

enum fault fault_no_memory(struct fault_list *faults, const char *for_what)
{
	return fault_add(faults, FAULT_MEMORY, NULL, 0, NULL, "No memory left for %s.", for_what);
}

void fault_list_append(struct fault_list *to, const struct fault_list *from)
{
	for (size_t i = 0; i < from->count; i++) {
		if (to->count == FAULT_LIST_MAX)
			to->more++;
		else
			to->record[to->count++] = from->record[i];
	}
	to->more += from->more;
}
