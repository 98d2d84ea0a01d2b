/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Moves to RS-274 text. Shares no code with the reader. */
#ifndef NECKHEW_PROGRAM_WRITE_H
#define NECKHEW_PROGRAM_WRITE_H

#include <stddef.h>

#include "base/fault.h"
#include "machine/machine.h"
#include "motion/motion.h"

/* A growing text; release with program_text_free. */
struct program_text {
	char *bytes; /* NUL-terminated once written to */
	size_t size; /* without the NUL */
	size_t capacity;
};

struct program_head {
	size_t line_count;
	const char *const *line; /* free text; made harmless and wrapped by the writer */
	size_t pass_count;
	const char *const *pass_label; /* a comment where MOTION_PASS n stands, n < pass_count */
	int *pass_block; /* NULL, or pass_count places for the line each pass begins at */
};

/* Writes the whole program; what `out` held before is replaced. Positions are
 * rounded to the machine's decimals, which the planner has already snapped
 * them to; feeds are rounded down, so that no limit is passed by rounding.
 * Any text given in `head` (may be NULL) reaches the program only inside
 * comments, reduced to printable ASCII without parentheses, on lines of at
 * most 80 characters. The same input gives the same bytes in any locale.
 * FAULT_MEMORY, or FAULT_INTERNAL for moves that no program can state (not
 * finite or beyond 10^6 units, no axis known, feed or speed not positive, no
 * end, something after the end); `out` is then left empty. */
enum fault program_write(struct program_text *out, const struct motion_list *motions,
			 const struct program_head *head, const struct machine *machine,
			 struct fault_list *faults);

void program_text_free(struct program_text *text);

#endif
