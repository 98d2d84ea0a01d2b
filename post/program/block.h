/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of one line as one block: which of the permitted codes it gives
 * and with what values. Rules that need no more than the line itself are
 * enforced here; modal state is the reader's. */
#ifndef NECKHEW_PROGRAM_BLOCK_H
#define NECKHEW_PROGRAM_BLOCK_H

#include <stdbool.h>
#include <stddef.h>

#include "program/lex.h"

enum block_code {
	CODE_G0 = 1 << 0, /* rapid */
	CODE_G1 = 1 << 1, /* straight cut */
	CODE_G4 = 1 << 2, /* dwell of P seconds */
	CODE_G17 = 1 << 3, /* plane XY */
	CODE_G20 = 1 << 4, /* inch */
	CODE_G21 = 1 << 5, /* millimetre */
	CODE_G40 = 1 << 6, /* no cutter radius compensation */
	CODE_G49 = 1 << 7, /* no tool length offset */
	CODE_G54 = 1 << 8, /* first coordinate system */
	CODE_G90 = 1 << 9, /* absolute distances */
	CODE_G94 = 1 << 10, /* feed in units per minute */
	CODE_M2 = 1 << 11, /* end */
	CODE_M3 = 1 << 12, /* spindle on, clockwise */
	CODE_M5 = 1 << 13, /* spindle off */
	CODE_M30 = 1 << 14, /* end */
	CODE_G2 = 1 << 15, /* arc, clockwise */
	CODE_G3 = 1 << 16, /* arc, counterclockwise */
	CODE_G18 = 1 << 17, /* plane XZ */
	CODE_M0 = 1 << 18 /* stop until the operator goes on */
};

#define BLOCK_LETTERS 26

/* The bit of a letter in block.letters. */
#define BLOCK_LETTER(letter) (1U << ((letter) - 'A'))

struct block {
	unsigned codes; /* enum block_code bits given */
	unsigned letters; /* BLOCK_LETTER bits of F I J K N P S X Y Z given */
	double value[BLOCK_LETTERS]; /* by letter - 'A'; set where the bit is */
	int decimals[BLOCK_LETTERS]; /* as written; likewise */
};

/* Gathers the words of a line. False, with a sentence that names the word in
 * why[why_size], for any word that is not permitted, that the machine does not
 * read, given twice, of a group already given, or without the word it needs. */
bool block_gather(struct block *out, const struct lex_line *line, const struct abilities *reads,
		  char *why, size_t why_size);

#endif
