/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "program/block.h"

#include <stdio.h>

/* Modal groups that conflict within one block (NIST IR 6556, table 4). */
#define GROUP_MOTION (CODE_G0 | CODE_G1)
#define GROUP_UNITS (CODE_G20 | CODE_G21)
#define GROUP_STOP (CODE_M2 | CODE_M30)
#define GROUP_SPINDLE (CODE_M3 | CODE_M5)

#define LETTERS_AXES (BLOCK_LETTER('X') | BLOCK_LETTER('Y') | BLOCK_LETTER('Z'))
#define LETTERS_PERMITTED                                                           \
	(LETTERS_AXES | BLOCK_LETTER('F') | BLOCK_LETTER('N') | BLOCK_LETTER('P') | \
	 BLOCK_LETTER('S'))

#define N_DIGITS_MOST 5

struct code {
	char letter;
	int number;
	unsigned bit;
	unsigned group; /* bits of which one block gives one at most */
};

static const struct code permitted[] = {
	{ 'G', 1, CODE_G1, GROUP_MOTION },  { 'G', 0, CODE_G0, GROUP_MOTION },
	{ 'G', 4, CODE_G4, CODE_G4 },	    { 'G', 17, CODE_G17, CODE_G17 },
	{ 'G', 20, CODE_G20, GROUP_UNITS }, { 'G', 21, CODE_G21, GROUP_UNITS },
	{ 'G', 40, CODE_G40, CODE_G40 },    { 'G', 49, CODE_G49, CODE_G49 },
	{ 'G', 54, CODE_G54, CODE_G54 },    { 'G', 90, CODE_G90, CODE_G90 },
	{ 'G', 94, CODE_G94, CODE_G94 },    { 'M', 2, CODE_M2, GROUP_STOP },
	{ 'M', 3, CODE_M3, GROUP_SPINDLE }, { 'M', 5, CODE_M5, GROUP_SPINDLE },
	{ 'M', 30, CODE_M30, GROUP_STOP },
};

/* Why a code of the standard is none of ours: letter, first and last. */
struct refusal {
	char letter;
	int first, last;
	const char *reason;
};

static const struct refusal refused[] = {
	{ 'G', 2, 3, "arcs are not permitted, only straight moves" },
	{ 'G', 10, 10, "settings are not changed by a program" },
	{ 'G', 18, 19, "the plane is XY, G17" },
	{ 'G', 28, 30, "moves to stored places cannot be judged" },
	{ 'G', 38, 38, "probing is not permitted" },
	{ 'G', 41, 42, "cutter radius compensation is not permitted" },
	{ 'G', 43, 43, "tool length offsets are not permitted" },
	{ 'G', 53, 53, "machine coordinates cannot be judged" },
	{ 'G', 55, 59, "the coordinate system is the first, G54" },
	{ 'G', 61, 64, "path control is not permitted" },
	{ 'G', 80, 89, "canned cycles are not permitted" },
	{ 'G', 91, 91, "incremental distances are not permitted" },
	{ 'G', 92, 92, "offsets of the zero are not permitted" },
	{ 'G', 93, 93, "inverse time feed is not permitted" },
	{ 'G', 98, 99, "canned cycles are not permitted" },
	{ 'M', 0, 1, "stops are not permitted" },
	{ 'M', 4, 4, "the spindle turns clockwise, M3" },
	{ 'M', 6, 6, "tool changes are not permitted" },
	{ 'M', 7, 9, "coolant is not permitted" },
	{ 'M', 48, 49, "overrides are not switched by a program" },
	{ 'M', 60, 60, "stops are not permitted" },
};

static bool refuse(char *why, size_t why_size, const struct lex_word *word, const char *reason)
{
	char name[LEX_NAME_SIZE];

	lex_name(name, word);
	(void)snprintf(why, why_size, "%s is refused: %s.", name, reason);
	return false;
}

static const char *code_reason(const struct lex_word *word)
{
	for (size_t i = 0; i < sizeof refused / sizeof *refused; i++)
		if (word->letter == refused[i].letter && word->value >= refused[i].first &&
		    word->value < refused[i].last + 1)
			return refused[i].reason;
	return "it is not among the permitted codes";
}

static const char *letter_reason(char letter)
{
	switch (letter) {
	case 'A':
	case 'B':
	case 'C':
	case 'U':
	case 'V':
	case 'W':
		return "the axes are X, Y and Z";
	case 'D':
	case 'H':
		return "tool offsets are not permitted";
	case 'E':
		return "numbers have no exponent, and E is no word";
	case 'I':
	case 'J':
	case 'K':
	case 'R':
		return "arcs and cycles are not permitted";
	case 'O':
		return "subprograms and jumps are not permitted";
	case 'T':
		return "tool changes are not permitted";
	default:
		return "the letter is not among the permitted words";
	}
}

/* The report lets a code differ from a whole number by 0.0001. Not here: a
 * control that cuts off where another rounds would take G0.99999 for a rapid. */
static bool take_code(struct block *out, const struct lex_word *word, char *why, size_t why_size)
{
	for (size_t i = 0; i < sizeof permitted / sizeof *permitted; i++) {
		const struct code *code = &permitted[i];
		if (word->letter != code->letter || word->value != code->number)
			continue;
		if (out->codes & code->group)
			return refuse(why, why_size, word,
				      "the block already gives a code of its group");
		out->codes |= code->bit;
		return true;
	}
	return refuse(why, why_size, word, code_reason(word));
}

static bool take_value(struct block *out, const struct lex_word *word, char *why, size_t why_size)
{
	const unsigned bit = BLOCK_LETTER(word->letter);

	if (!(bit & LETTERS_PERMITTED))
		return refuse(why, why_size, word, letter_reason(word->letter));
	if (out->letters & bit)
		return refuse(why, why_size, word, "its letter stands twice in the block");
	out->letters |= bit;
	out->value[word->letter - 'A'] = word->value;
	return true;
}

static bool check_line_number(const struct lex_line *line, size_t at, char *why, size_t why_size)
{
	const struct lex_word *word = &line->word[at];

	if (at > 0 || line->comment_first)
		return refuse(why, why_size, word, "a line number stands first");
	if (!word->plain || word->digits > N_DIGITS_MOST)
		return refuse(why, why_size, word, "a line number is one to five digits");
	return true;
}

/* The first word of `line` with this letter; the caller knows there is one. */
static const struct lex_word *find_letter(const struct lex_line *line, char letter)
{
	const struct lex_word *word = line->word;

	while (word->letter != letter)
		word++;
	return word;
}

static bool check_needs(const struct block *block, const struct lex_line *line, char *why,
			size_t why_size)
{
	const bool dwell = block->codes & CODE_G4;
	const bool time = block->letters & BLOCK_LETTER('P');

	if (time && !dwell)
		return refuse(why, why_size, find_letter(line, 'P'), "no G4 in the block uses it");
	if (dwell && !time) {
		(void)snprintf(why, why_size, "G4 is refused: it needs a P word, in seconds.");
		return false;
	}
	if (time && block->value['P' - 'A'] < 0.0)
		return refuse(why, why_size, find_letter(line, 'P'), "a dwell is not negative");
	if ((block->codes & GROUP_MOTION) && !(block->letters & LETTERS_AXES)) {
		(void)snprintf(why, why_size, "%s is refused: it needs an axis word.",
			       block->codes & CODE_G0 ? "G0" : "G1");
		return false;
	}
	return true;
}

bool block_gather(struct block *out, const struct lex_line *line, char *why, size_t why_size)
{
	out->codes = 0;
	out->letters = 0;
	for (size_t i = 0; i < line->count; i++) {
		const struct lex_word *word = &line->word[i];
		const bool code = word->letter == 'G' || word->letter == 'M';
		if (word->letter == 'N' && !check_line_number(line, i, why, why_size))
			return false;
		if (!(code ? take_code(out, word, why, why_size)
			   : take_value(out, word, why, why_size)))
			return false;
	}
	return check_needs(out, line, why, why_size);
}
