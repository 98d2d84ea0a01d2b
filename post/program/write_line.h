/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of a program on their way out: words put together, numbered and held
 * against the longest line the machine reads. Part of the writer. */
#ifndef NECKHEW_PROGRAM_WRITE_LINE_H
#define NECKHEW_PROGRAM_WRITE_LINE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "machine/abilities.h"

/* A growing text; release with program_text_free. */
struct program_text {
	char *bytes; /* NUL-terminated once written to */
	size_t size; /* without the NUL */
	size_t capacity;
};

/* Room for an arc with a block number, four places of at most 10^6 with 6
 * decimals, and a feed. */
#define WRITE_LINE_SIZE 128

struct write_line {
	char text[WRITE_LINE_SIZE];
	size_t length;
};

/* Where lines go and how many there are. */
struct write_lines {
	struct program_text *out;
	const struct abilities *reads;
	struct fault_list *faults;
	int count; /* written so far */
	int number; /* last block number */
};

/* Appends a letter and its number, after a space unless the line is empty. */
void write_line_word(struct write_line *line, char letter, const char *number);

/* Whether the line, with its block number and `more` characters, is short
 * enough. */
bool write_line_fits(const struct write_lines *lines, const struct write_line *line, size_t more);

/* Writes a block, with the next number where blocks have numbers. FAULT_MEMORY;
 * FAULT_SETTING naming machine.longest_line when it is too long. */
enum fault write_lines_block(struct write_lines *lines, const struct write_line *line);

/* Writes a text that is no block as it stands. FAULT_MEMORY or FAULT_NONE. */
enum fault write_lines_bare(struct write_lines *lines, const char *text);

#endif
