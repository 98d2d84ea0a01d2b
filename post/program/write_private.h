/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the parts of the writer share: where it stands in a program. */
#ifndef NECKHEW_PROGRAM_WRITE_PRIVATE_H
#define NECKHEW_PROGRAM_WRITE_PRIVATE_H

#include <stdbool.h>

#include "program/write.h"
#include "program/write_line.h"

/* No number of a program is larger. */
#define VALUE_MOST 1e6

struct writer {
	struct write_lines lines;
	const struct program_head *head; /* or NULL */
	const struct machine *machine;
	struct fault_list *faults;
	unsigned known; /* axes whose place has been written */
	long long at[AXIS_COUNT]; /* in last decimals of the program unit */
	long long feed; /* in last decimals; 0 before the first F */
	enum arc_plane plane;
	bool ended;
};

/* Records why the move at hand cannot be written; FAULT_INTERNAL. */
enum fault write_unstatable(const struct writer *writer, const char *why);

/* A length in last decimals of the program; false when no program states it. */
bool write_scale_length(const struct writer *writer, long long *scaled, double length_mm);

/* A feed in last decimals of the program, rounded down; 0 when it cannot be
 * stated. */
long long write_scale_feed(const struct writer *writer, double feed_mm_per_min);
enum fault write_feed_is_bad(const struct writer *writer);

/* Appends the word of a length. */
void write_add_place(const struct writer *writer, struct write_line *line, char letter,
		     long long place);

/* Writes a block of one code of at most three characters. */
enum fault write_word(struct writer *writer, const char *word);

/* Writes a block with its feed. A new one stands in the block of the move it is
 * for, or, where that would be too long, in one of its own above it. */
enum fault write_with_feed(struct writer *writer, struct write_line *line, long long feed);

/* Writes the run of moves that begins with `first`, which is marked, as one arc;
 * *written tells whether it was. */
enum fault write_arc(struct writer *writer, const struct motion *first, bool *written);

#endif
