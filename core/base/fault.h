/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faults are values. A function that can fail returns an enum fault (0 means
 * good) and describes what went wrong in the caller's fault list. The list
 * owns its space, so that "out of memory" can be reported too. */
#ifndef NECKHEW_BASE_FAULT_H
#define NECKHEW_BASE_FAULT_H

#include <stddef.h>

enum fault {
	FAULT_NONE = 0,
	FAULT_SETTING, /* a setting is missing, misspelt, of a wrong kind or out of range */
	FAULT_FILE, /* a file or folder cannot be read or written */
	FAULT_PROGRAM, /* a program text breaks a rule of form */
	FAULT_GEOMETRY, /* the settings are each fine but no neck comes of them */
	FAULT_PLAN, /* no safe pass exists for what was asked */
	FAULT_PROOF, /* a program broke a promise */
	FAULT_USAGE, /* the command line makes no sense */
	FAULT_MEMORY, /* the machine gave no memory */
	FAULT_INTERNAL, /* a check inside neckhew failed */
	FAULT_COUNT
};

#define FAULT_LIST_MAX 48
#define FAULT_FILE_MAX 512
#define FAULT_SETTING_MAX 96
#define FAULT_MESSAGE_MAX 512

struct fault_record {
	enum fault code;
	char file[FAULT_FILE_MAX]; /* "" when no file is to blame */
	int line; /* 1-based; 0 when unknown */
	char setting[FAULT_SETTING_MAX]; /* "" when no setting is to blame */
	char message[FAULT_MESSAGE_MAX]; /* a whole sentence for the builder */
};

/* Start with `struct fault_list faults = { 0 };`. */
struct fault_list {
	size_t count; /* records held, at most FAULT_LIST_MAX */
	size_t more; /* further faults that found no room */
	struct fault_record record[FAULT_LIST_MAX];
};

/* Phrase for a code, for example "bad setting". Never NULL. */
const char *fault_phrase(enum fault code);

/* Adds a record and returns `code`, so that callers can write
 * `return fault_add(...)`. `file` and `setting` may be NULL; `faults` may be
 * NULL when the caller wants the code alone. Text too long is cut. */
enum fault fault_add(struct fault_list *faults, enum fault code, const char *file, int line,
		     const char *setting, const char *format, ...)
	__attribute__((format(printf, 6, 7)));

/* Appends all records of `from`, as far as there is room. */
void fault_list_append(struct fault_list *to, const struct fault_list *from);

/* Keeps the first code other than FAULT_NONE while more checks run. */
static inline void fault_keep(enum fault *first, enum fault fault)
{
	if (*first == FAULT_NONE)
		*first = fault;
}

/* FAULT_SETTING, and a record, unless a length is finite and above 0. */
enum fault fault_unless_positive(struct fault_list *faults, const char *setting, double value_mm);

/* Shorthand for the commonest record of all. Returns FAULT_MEMORY. */
enum fault fault_no_memory(struct fault_list *faults, const char *for_what);

#endif
