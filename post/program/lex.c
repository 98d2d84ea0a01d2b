/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "program/lex.h"

#include <stdint.h>
#include <stdio.h>

struct scan {
	const char *at, *end;
	enum comment_style comments;
	char *why;
	size_t why_size;
};

/* The C library's tests are not used: they depend on the locale. */
static bool is_blank(char c)
{
	return c == ' ' || c == '\t';
}

static bool is_digit(char c)
{
	return c >= '0' && c <= '9';
}

static bool is_printable(char c)
{
	return c >= ' ' && c <= '~';
}

/* The letter in upper case, or 0 for anything else. */
static char upper_letter(char c)
{
	if (c >= 'A' && c <= 'Z')
		return c;
	return c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : '\0';
}

static const char *comment_reason(enum comment_style comments)
{
	switch (comments) {
	case COMMENTS_PARENTHESES:
		return "comments stand in parentheses";
	case COMMENTS_SEMICOLON:
		return "comments begin with a semicolon";
	case COMMENTS_NONE:
		break;
	}
	return "the machine reads no comments";
}

static const char *character_reason(const struct scan *scan, char c)
{
	switch (c) {
	case '#':
		return "parameters are not permitted";
	case '[':
	case ']':
		return "expressions are not permitted";
	case '/':
		return "a block that a switch can delete makes two programs of one";
	case '%':
		return "it may only stand alone on the first line and after the end";
	case ')':
		return scan->comments == COMMENTS_PARENTHESES ? "it closes no comment"
							      : comment_reason(scan->comments);
	case ';':
	case '(':
		return comment_reason(scan->comments);
	case ',':
		return "a decimal fraction has a point";
	case '\r':
		return "a carriage return must be followed by a line feed";
	default:
		return "it has no place in a block";
	}
}

static bool refuse_character(const struct scan *scan)
{
	const char c = *scan->at;

	if (is_printable(c))
		(void)snprintf(scan->why, scan->why_size, "The character %c is refused: %s.", c,
			       character_reason(scan, c));
	else
		(void)snprintf(scan->why, scan->why_size, "The byte 0x%02x is refused: %s.",
			       (unsigned)(unsigned char)c,
			       c == '\r' ? character_reason(scan, c)
					 : "only printable ASCII is permitted");
	return false;
}

static bool refuse_word(const struct scan *scan, const struct lex_word *word, const char *reason)
{
	char name[LEX_NAME_SIZE];

	lex_name(name, word);
	(void)snprintf(scan->why, scan->why_size, "%s is refused: %s.", name, reason);
	return false;
}

static void skip_blanks(struct scan *scan)
{
	while (scan->at < scan->end && is_blank(*scan->at))
		scan->at++;
}

/* From "(" to past ")". */
static bool skip_comment(struct scan *scan)
{
	for (scan->at++; scan->at < scan->end; scan->at++) {
		const char c = *scan->at;
		if (c == ')') {
			scan->at++;
			return true;
		}
		if (c == '(') {
			(void)snprintf(scan->why, scan->why_size,
				       "The comment holds another opening parenthesis: "
				       "comments are not nested.");
			return false;
		}
		if (!is_printable(c) && c != '\t')
			return refuse_character(scan);
	}
	(void)snprintf(scan->why, scan->why_size, "The comment is not closed on its line.");
	return false;
}

/* Whatever follows a semicolon. */
static bool skip_rest(struct scan *scan)
{
	for (scan->at++; scan->at < scan->end; scan->at++)
		if (!is_printable(*scan->at) && *scan->at != '\t')
			return refuse_character(scan);
	return true;
}

/* The sign, if any, with the blanks around it; true for a minus. */
static bool take_sign(struct scan *scan, struct lex_word *word)
{
	skip_blanks(scan);
	if (scan->at == scan->end || (*scan->at != '+' && *scan->at != '-'))
		return false;
	word->plain = false;
	return *scan->at++ == '-';
}

struct decimal {
	uint64_t digits; /* the number without its point */
	int counted; /* digits of it, zeros in front left out */
	int fraction; /* of these, after the point */
	bool point;
};

/* Digits and at most one point, blanks between them ignored as the report
 * says. Stops before anything else; word->length then ends at the last
 * character of the number. */
static bool take_digits(struct scan *scan, struct lex_word *word, struct decimal *number)
{
	for (; scan->at < scan->end; scan->at++) {
		const char c = *scan->at;
		if (is_blank(c))
			continue;
		if (is_digit(c)) {
			word->digits++;
			number->digits = number->digits * 10 + (uint64_t)(c - '0');
			number->counted += number->digits > 0 || number->point;
			number->fraction += number->point;
		} else if (c == '.') {
			if (number->point)
				return refuse_word(scan, word, "its number has two points");
			number->point = true;
			word->plain = false;
		} else {
			break;
		}
		word->length = (size_t)(scan->at - word->at) + 1;
		if (number->counted > LEX_DIGITS_MAX)
			return refuse_word(scan, word, "its number has too many digits");
	}
	return true;
}

/* One rounding for the whole number, one for the quotient: within 1 ulp. */
static double decimal_value(const struct decimal *number)
{
	static const double power[LEX_DIGITS_MAX + 1] = { 1e0,	1e1,  1e2,  1e3,  1e4,	1e5,  1e6,
							  1e7,	1e8,  1e9,  1e10, 1e11, 1e12, 1e13,
							  1e14, 1e15, 1e16, 1e17, 1e18 };

	return (double)number->digits / power[number->fraction];
}

static bool take_word(struct scan *scan, struct lex_word *word, char letter)
{
	struct decimal number = { 0 };

	*word = (struct lex_word){ .letter = letter, .plain = true, .at = scan->at++, .length = 1 };
	const bool minus = take_sign(scan, word);
	if (!take_digits(scan, word, &number))
		return false;
	if (word->digits == 0) {
		if (scan->at < scan->end && (*scan->at == '#' || *scan->at == '['))
			return refuse_character(scan);
		return refuse_word(scan, word, "it has no number");
	}
	word->decimals = number.fraction;
	word->value = decimal_value(&number);
	if (word->value > LEX_VALUE_MAX)
		return refuse_word(scan, word, "its number is beyond a million");
	if (minus && number.digits > 0)
		word->value = -word->value;
	return true;
}

/* A comment at hand, of the style that the machine reads. */
static bool take_comment(struct scan *scan)
{
	const char opening = scan->comments == COMMENTS_SEMICOLON ? ';' : '(';

	if (scan->comments == COMMENTS_NONE || *scan->at != opening)
		return refuse_character(scan);
	return opening == ';' ? skip_rest(scan) : skip_comment(scan);
}

static bool check_length(const struct abilities *reads, size_t size, char *why, size_t why_size)
{
	const int most = reads->longest_line > 0 && reads->longest_line < LEX_LINE_MAX
				 ? reads->longest_line
				 : LEX_LINE_MAX;

	if (size <= (size_t)most)
		return true;
	(void)snprintf(why, why_size, "The line is too long: %zu characters, %d permitted.", size,
		       most);
	return false;
}

bool lex_line(struct lex_line *out, const char *text, size_t size, const struct abilities *reads,
	      char *why, size_t why_size)
{
	struct scan scan = { text, text + size, reads->comments, why, why_size };

	out->count = 0;
	out->comment_first = false;
	if (!check_length(reads, size, why, why_size))
		return false;
	for (skip_blanks(&scan); scan.at < scan.end; skip_blanks(&scan)) {
		const char letter = upper_letter(*scan.at);
		if (letter) {
			if (!take_word(&scan, &out->word[out->count], letter))
				return false;
			out->count++;
		} else if (*scan.at == '(' || *scan.at == ';') {
			out->comment_first |= out->count == 0;
			if (!take_comment(&scan))
				return false;
		} else {
			return refuse_character(&scan);
		}
	}
	return true;
}

void lex_name(char name[LEX_NAME_SIZE], const struct lex_word *word)
{
	const size_t most = LEX_NAME_SIZE - 1;
	const size_t length = word->length < most ? word->length : most;

	for (size_t i = 0; i < length; i++)
		name[i] = is_printable(word->at[i]) ? word->at[i] : ' ';
	name[length] = '\0';
}
