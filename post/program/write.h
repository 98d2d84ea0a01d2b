/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Moves to RS-274 text. Shares no code with the reader. */
#ifndef NECKHEW_PROGRAM_WRITE_H
#define NECKHEW_PROGRAM_WRITE_H

#include <stddef.h>

#include "base/fault.h"
#include "machine/machine.h"
#include "motion/motion.h"
#include "program/write_line.h"

struct program_head {
	size_t line_count;
	const char *const *line; /* free text; made harmless and wrapped by the writer */
	size_t pass_count;
	const char *const *pass_label; /* a comment where MOTION_PASS n stands, n < pass_count */
	int *pass_block; /* NULL, or pass_count places for the line each pass begins at */
};

/* Writes the whole program in the form that the machine reads (its abilities);
 * what `out` held before is replaced. Positions are rounded to the machine's
 * decimals, which the planner has already snapped them to; feeds are rounded
 * down, so that no limit is passed by rounding. A run of moves marked as an arc
 * becomes one where the machine takes it, the rounded radii still agree and the
 * line is short enough; else it is written move by move. Any text given in
 * `head` (may be NULL) reaches the program only inside comments, reduced to
 * printable ASCII without parentheses, on lines of at most 80 characters. The
 * same input gives the same bytes in any locale. FAULT_MEMORY; FAULT_SETTING
 * naming machine.longest_line when a block does not fit it; FAULT_INTERNAL for
 * moves that no program can state (not finite or beyond 10^6 units, no axis
 * known, feed or speed not positive, feed beyond the largest the control reads,
 * a stop, no end, something after the end). `out` is then left empty. */
enum fault program_write(struct program_text *out, const struct motion_list *motions,
			 const struct program_head *head, const struct machine *machine,
			 struct fault_list *faults);

void program_text_free(struct program_text *text);

#endif
