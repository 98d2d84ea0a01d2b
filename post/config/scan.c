/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config/scan.h"

#include <stdbool.h>
#include <string.h>

/* Any whole number of so many digits fits into 32 bits. */
#define WHOLE_DIGITS_MAX 9

struct scan {
	char *text;
	size_t size, at;
	int line, depth;
	const char *file;
	struct scan_result *out;
	struct fault_list *faults;
};

/* The byte `ahead` of the present one; '\0' beyond the end. */
static char peek(const struct scan *scan, size_t ahead)
{
	return scan->at + ahead < scan->size ? scan->text[scan->at + ahead] : '\0';
}

static enum fault refuse(const struct scan *scan, int line, const char *message)
{
	return fault_add(scan->faults, FAULT_SETTING, scan->file, line, NULL, "%s", message);
}

/* Refuses control bytes; turns carriage returns and a leading byte-order mark
 * into blanks. */
static enum fault clean_bytes(struct scan *scan)
{
	static const char mark[] = "\xEF\xBB\xBF";
	int line = 1;

	if (scan->size >= 3 && memcmp(scan->text, mark, 3) == 0)
		memset(scan->text, ' ', 3);
	for (size_t i = 0; i < scan->size; i++) {
		unsigned char byte = (unsigned char)scan->text[i];
		if (byte == '\n')
			line++;
		else if (byte == '\r')
			scan->text[i] = ' ';
		else if ((byte < 0x20 && byte != '\t') || byte == 0x7f)
			return refuse(scan, line,
				      "This is no text file: the line holds a control character.");
	}
	return FAULT_NONE;
}

static void skip_line_comment(struct scan *scan)
{
	while (scan->at < scan->size && scan->text[scan->at] != '\n')
		scan->at++;
}

static enum fault blank_block_comment(struct scan *scan)
{
	int line = scan->line;

	while (scan->at < scan->size) {
		if (peek(scan, 0) == '*' && peek(scan, 1) == '/') {
			memset(scan->text + scan->at, ' ', 2);
			scan->at += 2;
			return FAULT_NONE;
		}
		if (scan->text[scan->at] == '\n')
			scan->line++;
		else
			scan->text[scan->at] = ' ';
		scan->at++;
	}
	return refuse(scan, line, "The comment that begins here has no end (*/).");
}

/* Moves past a text in quotes. */
static enum fault skip_quoted(struct scan *scan)
{
	for (scan->at++; scan->at < scan->size; scan->at++) {
		char c = scan->text[scan->at];
		if (c == '\n')
			break;
		if (c == '"') {
			scan->at++;
			return FAULT_NONE;
		}
		if (c == '\\' && peek(scan, 1) != '\n')
			scan->at++;
	}
	return refuse(scan, scan->line, "A text in quotes must end on the line it begins.");
}

/* Length of `@include "path"` at the present place, with the path copied, or 0
 * when it is written in another way. */
static size_t match_include(const struct scan *scan, char path[SCAN_INCLUDE_PATH_MAX])
{
	static const char word[] = "@include";
	size_t length = sizeof word - 1, used = 0;

	if (scan->size - scan->at < length || memcmp(scan->text + scan->at, word, length) != 0)
		return 0;
	while (peek(scan, length) == ' ' || peek(scan, length) == '\t')
		length++;
	if (peek(scan, length++) != '"')
		return 0;
	for (char c; (c = peek(scan, length)) != '"'; length++) {
		if ((unsigned char)c < 0x20 || c == '\\' || used + 1 == SCAN_INCLUDE_PATH_MAX)
			return 0;
		path[used++] = c;
	}
	path[used] = '\0';
	return used > 0 ? length + 1 : 0;
}

static enum fault take_include(struct scan *scan)
{
	struct scan_include include = { .line = scan->line };
	size_t length = match_include(scan, include.path);

	if (length == 0)
		return refuse(scan, scan->line,
			      "An include is written @include \"file\", with a path of at most 255 "
			      "bytes, '/' between folders and no '\\' in it.");
	if (scan->depth > 0)
		return refuse(scan, scan->line,
			      "An include must stand outside all groups and lists.");
	if (scan->out->count == SCAN_INCLUDES_MAX)
		return refuse(scan, scan->line, "One file may include at most 16 others.");
	scan->out->include[scan->out->count++] = include;
	memset(scan->text + scan->at, ' ', length);
	scan->at += length;
	return FAULT_NONE;
}

static enum fault count_bracket(struct scan *scan, char c)
{
	if (strchr("{([", c))
		scan->depth++;
	else if (scan->depth > 0)
		scan->depth--;
	scan->at++;
	if (scan->depth > SCAN_NESTING_MAX)
		return refuse(scan, scan->line,
			      "Brackets stand more than 8 deep inside each other here.");
	return FAULT_NONE;
}

/* Letters of a setting's name, of true and false, or of a number's tail. */
static bool is_word(char c)
{
	return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
	       (c != '\0' && strchr("_*", c));
}

static bool is_digit(char c)
{
	return c >= '0' && c <= '9';
}

/* Moves past a word or number. A whole number longer than the parser's 32 bits
 * would wrap into another one, so its digits are counted here. */
static enum fault skip_word(struct scan *scan)
{
	size_t digits = 0;

	while (is_digit(peek(scan, digits)))
		digits++;
	if (digits > WHOLE_DIGITS_MAX)
		return refuse(scan, scan->line,
			      "The number here has more than 9 digits before its point.");
	if (digits == 1 && peek(scan, 0) == '0' && (peek(scan, 1) | 0x20) == 'x')
		return refuse(scan, scan->line, "Numbers are written with decimal digits only.");
	scan->at += digits;
	if (peek(scan, 0) == '.')
		scan->at++;
	while (is_word(peek(scan, 0)))
		scan->at++;
	return FAULT_NONE;
}

static enum fault scan_step(struct scan *scan)
{
	char c = scan->text[scan->at];

	if (c == '#' || (c == '/' && peek(scan, 1) == '/')) {
		skip_line_comment(scan);
		return FAULT_NONE;
	}
	if (c == '/' && peek(scan, 1) == '*') {
		memset(scan->text + scan->at, ' ', 2);
		scan->at += 2;
		return blank_block_comment(scan);
	}
	if (c == '"')
		return skip_quoted(scan);
	if (c == '@')
		return take_include(scan);
	if (strchr("{}()[]", c))
		return count_bracket(scan, c);
	if (is_word(c) || c == '.')
		return skip_word(scan);
	if (c == '\n')
		scan->line++;
	scan->at++;
	return FAULT_NONE;
}

enum fault scan_settings(char *text, size_t size, const char *file, struct scan_result *out,
			 struct fault_list *faults)
{
	struct scan scan = { .line = 1, .file = file, .out = out, .faults = faults };

	scan.text = text;
	scan.size = size;
	out->count = 0;

	enum fault code = clean_bytes(&scan);
	while (!code && scan.at < size)
		code = scan_step(&scan);
	return code;
}
