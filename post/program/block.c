/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "program/block.h"

#include <stdio.h>

/* Modal groups that conflict within one block (NIST IR 6556, table 4). */
#define GROUP_ARC (CODE_G2 | CODE_G3)
#define GROUP_MOTION (CODE_G0 | CODE_G1 | GROUP_ARC)
#define GROUP_PLANE (CODE_G17 | CODE_G18)
#define GROUP_UNITS (CODE_G20 | CODE_G21)
#define GROUP_STOP (CODE_M0 | CODE_M2 | CODE_M30)
#define GROUP_SPINDLE (CODE_M3 | CODE_M5)

#define LETTERS_AXES (BLOCK_LETTER('X') | BLOCK_LETTER('Y') | BLOCK_LETTER('Z'))
#define LETTERS_CENTRE (BLOCK_LETTER('I') | BLOCK_LETTER('J') | BLOCK_LETTER('K'))
#define LETTERS_ALWAYS (LETTERS_AXES | BLOCK_LETTER('F') | BLOCK_LETTER('P'))

#define N_DIGITS_MOST 5

struct code {
	char letter;
	int number;
	unsigned bit;
	unsigned group; /* bits of which one block gives one at most */
};

static const struct code permitted[] = {
	{ 'G', 1, CODE_G1, GROUP_MOTION },  { 'G', 0, CODE_G0, GROUP_MOTION },
	{ 'G', 2, CODE_G2, GROUP_MOTION },  { 'G', 3, CODE_G3, GROUP_MOTION },
	{ 'G', 4, CODE_G4, CODE_G4 },	    { 'G', 17, CODE_G17, GROUP_PLANE },
	{ 'G', 18, CODE_G18, GROUP_PLANE }, { 'G', 20, CODE_G20, GROUP_UNITS },
	{ 'G', 21, CODE_G21, GROUP_UNITS }, { 'G', 40, CODE_G40, CODE_G40 },
	{ 'G', 49, CODE_G49, CODE_G49 },    { 'G', 54, CODE_G54, CODE_G54 },
	{ 'G', 90, CODE_G90, CODE_G90 },    { 'G', 94, CODE_G94, CODE_G94 },
	{ 'M', 0, CODE_M0, GROUP_STOP },    { 'M', 2, CODE_M2, GROUP_STOP },
	{ 'M', 3, CODE_M3, GROUP_SPINDLE }, { 'M', 5, CODE_M5, GROUP_SPINDLE },
	{ 'M', 30, CODE_M30, GROUP_STOP },
};

#define BY_HAND "the machine's spindle is switched by hand"
#define NO_ARCS "the machine takes no arcs, only straight moves"

/* Codes and letters that the machine of the job reads. */
static unsigned codes_read(const struct abilities *reads)
{
	const bool hand = reads->spindle == SPINDLE_BY_HAND;
	unsigned codes = CODE_G0 | CODE_G1 | CODE_G4 | CODE_G17 | GROUP_UNITS | CODE_G40 |
			 CODE_G49 | CODE_G54 | CODE_G90 | CODE_G94 | CODE_M2 | CODE_M30;

	codes |= hand ? (unsigned)CODE_M0 : (unsigned)GROUP_SPINDLE;
	codes |= reads->arcs != ARCS_NONE ? (unsigned)GROUP_ARC : 0U;
	return codes | (reads->arcs == ARCS_XY_XZ ? (unsigned)CODE_G18 : 0U);
}

static unsigned letters_read(const struct abilities *reads)
{
	unsigned letters = LETTERS_ALWAYS;

	letters |= reads->spindle == SPINDLE_BY_PROGRAM ? BLOCK_LETTER('S') : 0U;
	letters |= reads->number_step > 0 ? BLOCK_LETTER('N') : 0U;
	letters |= reads->arcs != ARCS_NONE ? BLOCK_LETTER('I') | BLOCK_LETTER('J') : 0U;
	return letters | (reads->arcs == ARCS_XY_XZ ? BLOCK_LETTER('K') : 0U);
}

/* Why a code of the standard is none of ours: letter, first and last. */
struct refusal {
	char letter;
	int first, last;
	const char *reason;
};

static const struct refusal refused[] = {
	{ 'G', 2, 3, NO_ARCS },
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
	{ 'M', 0, 0, "the program stops only where the spindle is switched by hand" },
	{ 'M', 1, 1, "stops are not permitted" },
	{ 'M', 3, 3, BY_HAND },
	{ 'M', 5, 5, BY_HAND },
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
		return NO_ARCS;
	case 'K':
		return "the machine takes no arcs in the xz plane";
	case 'N':
		return "the machine reads no block numbers";
	case 'R':
		return "arcs are given by their centre, and cycles are not permitted";
	case 'S':
		return BY_HAND;
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
static bool take_code(struct block *out, const struct lex_word *word, unsigned read, char *why,
		      size_t why_size)
{
	for (size_t i = 0; i < sizeof permitted / sizeof *permitted; i++) {
		const struct code *code = &permitted[i];
		if (word->letter != code->letter || word->value != code->number)
			continue;
		if (!(code->bit & read))
			break;
		if (out->codes & code->group)
			return refuse(why, why_size, word,
				      "the block already gives a code of its group");
		out->codes |= code->bit;
		return true;
	}
	return refuse(why, why_size, word, code_reason(word));
}

static bool take_value(struct block *out, const struct lex_word *word, unsigned read, char *why,
		       size_t why_size)
{
	const unsigned bit = BLOCK_LETTER(word->letter);

	if (!(bit & read))
		return refuse(why, why_size, word, letter_reason(word->letter));
	if (out->letters & bit)
		return refuse(why, why_size, word, "its letter stands twice in the block");
	out->letters |= bit;
	out->value[word->letter - 'A'] = word->value;
	out->decimals[word->letter - 'A'] = word->decimals;
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

static const char *motion_name(unsigned codes)
{
	if (codes & GROUP_ARC)
		return codes & CODE_G2 ? "G2" : "G3";
	return codes & CODE_G0 ? "G0" : "G1";
}

/* I, J and K belong to an arc, and an arc to them. */
static bool check_centre(const struct block *block, const struct lex_line *line, char *why,
			 size_t why_size)
{
	const bool arc = block->codes & GROUP_ARC;
	const unsigned centre = block->letters & LETTERS_CENTRE;

	if (arc && !centre) {
		(void)snprintf(why, why_size, "%s is refused: it needs its centre, I and J or K.",
			       motion_name(block->codes));
		return false;
	}
	if (arc || !centre)
		return true;
	return refuse(why, why_size,
		      find_letter(line, centre & BLOCK_LETTER('I')   ? 'I'
					: centre & BLOCK_LETTER('J') ? 'J'
								     : 'K'),
		      "no arc in the block uses it");
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
			       motion_name(block->codes));
		return false;
	}
	return check_centre(block, line, why, why_size);
}

bool block_gather(struct block *out, const struct lex_line *line, const struct abilities *reads,
		  char *why, size_t why_size)
{
	const unsigned codes = codes_read(reads), letters = letters_read(reads);

	out->codes = 0;
	out->letters = 0;
	for (size_t i = 0; i < line->count; i++) {
		const struct lex_word *word = &line->word[i];
		const bool code = word->letter == 'G' || word->letter == 'M';
		const bool number = word->letter == 'N' && (letters & BLOCK_LETTER('N'));
		if (number && !check_line_number(line, i, why, why_size))
			return false;
		if (!(code ? take_code(out, word, codes, why, why_size)
			   : take_value(out, word, letters, why, why_size)))
			return false;
	}
	return check_needs(out, line, why, why_size);
}
