/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A map of the neck's back in characters, for a terminal: x to the right, +y
 * up, as one looks down on the machine. The darker, the more. */
#ifndef NECKHEW_REPORT_BLOCK_MAP_H
#define NECKHEW_REPORT_BLOCK_MAP_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/fault.h"
#include "job/result.h"
#include "report/block_cells.h"

#define BLOCK_SHADES 4
#define BLOCK_MARK_ROOM 24

/* A name at a place along the neck, ASCII. */
struct block_mark {
	double x_mm;
	char text[BLOCK_MARK_ROOM];
};

/* A line of such names. Where two have no room the earlier one stays. */
struct block_marks {
	const char *label; /* at the line's begin, at most 7 characters */
	size_t count;
	const struct block_mark *mark;
};

struct block_map {
	const struct column_map *map; /* NAN: nothing there; 0: nothing to show */
	struct block_part part;
	enum block_pick pick;
	double upto_mm[BLOCK_SHADES]; /* what each shade reaches up to, rising */
	bool open; /* the darkest shade stands for more, too */
	const char *shown; /* of each character: "the deepest cut" */
	const char *nothing; /* what 0 means: "left alone" */
	const char *plus_side, *minus_side; /* at most 7 characters */
	struct block_marks above, below;
	int columns; /* width to keep to, 40 at the least */
	bool utf8; /* block characters; otherwise ASCII */
	bool colour; /* terminal colours besides; nothing is said by them alone */
};

/* Four shades of equal steps, round figures, that reach up to `most_mm`. */
void block_map_even(struct block_map *map, double most_mm);

/* Four shades of which each reaches twice as far as the one before. */
void block_map_doubling(struct block_map *map, double most_mm);

/* Prints the map with its axes, what the shades mean, and what a character
 * stands for. FAULT_MEMORY; whether `out` took it is the caller's to ask. */
enum fault block_map_print(FILE *out, const struct block_map *map, struct fault_list *faults);

#endif
