/* SPDX-License-Identifier: GPL-3.0-or-later */
/* RS-274 text to moves, strictly: whatever is not plainly permitted is
 * refused. Shares no code with the writer. */
#ifndef NECKHEW_PROGRAM_READ_H
#define NECKHEW_PROGRAM_READ_H

#include <stddef.h>

#include "base/fault.h"
#include "machine/machine.h"
#include "motion/motion.h"

struct read_fault {
	int block; /* 1-based line of the first offence */
	char why[160]; /* one sentence */
};

/* Reads a whole program text of `size` bytes, as `machine` would by its
 * abilities, into moves in mm and mm/min with the block (line) of each. What it
 * could not read is refused. An arc becomes straight pieces that tell how far it
 * strays from them. `name` is the file's name for messages. On FAULT_PROGRAM
 * `first` (may be NULL) holds the first offending block and a sentence, and the
 * same goes into `faults`; `out` is then left empty. */
enum fault program_read(struct motion_list *out, const char *text, size_t size, const char *name,
			const struct machine *machine, struct read_fault *first,
			struct fault_list *faults);

#endif
