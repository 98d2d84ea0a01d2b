/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A line of text parted into the cells of a table. */
#ifndef NECKHEW_FILES_CELLS_H
#define NECKHEW_FILES_CELLS_H

#include <stddef.h>

/* Room that cell_shown needs. */
#define CELL_SHOWN_ROOM 32

struct cell {
	const char *text; /* inside the line, not ended by a NUL */
	size_t length;
};

/* Without the blanks and tabs around it. */
struct cell cell_trimmed(const char *text, size_t length);

/* Parts a line at its semicolons; without any at its tabs, else at its commas,
 * else at runs of blanks. Writes at most `most` cells and returns how many the
 * line has. A pair of quotation marks around a cell is taken off; it does not
 * hide a parting sign. */
size_t cells_part(struct cell *cell, size_t most, const char *line, size_t length);

/* The cell's text as a message may repeat it, printable and cut where it is
 * long, in out[CELL_SHOWN_ROOM]. Returns `out`. */
const char *cell_shown(char *out, const struct cell *cell);

#endif
