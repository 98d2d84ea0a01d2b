/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One line of RS-274 text to words: what stands there, not what it means.
 * Rules: NIST IR 6556, sections 3.2 and 3.3. */
#ifndef NECKHEW_PROGRAM_LEX_H
#define NECKHEW_PROGRAM_LEX_H

#include <stdbool.h>
#include <stddef.h>

#include "machine/abilities.h"

/* Characters before the line end. The report allows 256 with it; its own
 * interpreter takes 253 and refuses 254 (tried). */
#define LEX_LINE_MAX 253
#define LEX_WORDS_MAX (LEX_LINE_MAX / 2 + 1) /* a letter and a digit each */

/* No number of a program is larger; machines are smaller than a kilometre. */
#define LEX_VALUE_MAX 1e6

/* Digits of one number, zeros in front of it not counted. With these the whole
 * number fits 64 bits and the power of ten is exact. */
#define LEX_DIGITS_MAX 18

#define LEX_NAME_SIZE 24

struct lex_word {
	char letter; /* 'A' to 'Z' */
	bool plain; /* digits alone: no sign and no point */
	int digits; /* as written, leading zeros counted */
	int decimals; /* of these, after the point */
	double value; /* within 1 ulp of the decimal fraction written */
	const char *at; /* in the line, for messages */
	size_t length;
};

struct lex_line {
	size_t count;
	bool comment_first; /* a comment stands before the first word */
	struct lex_word word[LEX_WORDS_MAX];
};

/* Splits `size` characters without line end into `out`. False, with a
 * sentence in why[why_size], for a line that is too long, a byte that is not
 * printable ASCII, space or tab, a character with no place in a block, a
 * comment nested, not closed or of a style that the machine does not read, a
 * letter without a number, or a number that is malformed or out of bounds.
 * Comments and white space are dropped. */
bool lex_line(struct lex_line *out, const char *text, size_t size, const struct abilities *reads,
	      char *why, size_t why_size);

/* The word as it was written, cut to fit. */
void lex_name(char name[LEX_NAME_SIZE], const struct lex_word *word);

#endif
