/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "program/comment.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

/* A comment in parentheses that begins with MSG, is an operator message (NIST
 * IR 6556, 3.3.4), and controls have invented further words of that kind. All of
 * them begin with a letter, so a comment whose first mark is a dash is none of
 * them. A semicolon begins a comment on many small controls, which the report
 * does not know (common practice, no source). */
struct style {
	const char *opening, *closing;
};
static const struct style styles[] = { [COMMENTS_PARENTHESES] = { "(- ", ")" },
				       [COMMENTS_SEMICOLON] = { "; ", "" },
				       [COMMENTS_NONE] = { "", "" } };
#define LEFT_OUT " ..."

struct plain_text {
	char byte[COMMENT_LINES_MOST * COMMENT_LINE_SIZE];
	size_t size, room;
	bool cut; /* some text found no room */
};

/* The characters that go through as they are. Kept short on purpose: controls
 * exist that obey a lone ! ? or ~ wherever it stands (common practice, no
 * source), and # % ; [ ] { } < > * $ @ mean something to one or another. The
 * C library is not asked, because its answer depends on the locale. */
static bool goes_through(char c)
{
	return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
	       (c != '\0' && strchr(".,:+-_'/=", c) != NULL);
}

/* What is written in place of a character that does not go through. */
static const char *stand_in(char c)
{
	const unsigned byte = (unsigned char)c;

	if (byte <= ' ' || byte == 0x7f || strchr("()[]{}<>", c))
		return " ";
	if ((byte & 0xc0U) == 0x80U)
		return ""; /* the rest of a UTF-8 character already replaced */
	switch (c) {
	case '%':
		return "pct";
	case ';':
		return ",";
	case '!':
	case '?':
		return ".";
	case '"':
		return "'";
	default:
		return "_";
	}
}

/* Runs of spaces shrink to one; none at the beginning. */
static void put(struct plain_text *plain, char c)
{
	if (c == ' ' && (plain->size == 0 || plain->byte[plain->size - 1] == ' '))
		return;
	if (plain->size == plain->room)
		plain->cut = true;
	else
		plain->byte[plain->size++] = c;
}

static void reduce(struct plain_text *plain, const char *text)
{
	for (; *text && !plain->cut; text++) {
		if (goes_through(*text)) {
			put(plain, *text);
			continue;
		}
		for (const char *other = stand_in(*text); *other; other++)
			put(plain, *other);
	}
	while (plain->size > 0 && plain->byte[plain->size - 1] == ' ')
		plain->size--;
}

/* How much of `text` goes on a line of `width`: up to the last space that
 * fits, or all of the width inside a word longer than that. */
static size_t line_share(const char *text, size_t size, size_t width)
{
	if (size <= width)
		return size;
	size_t share = width;
	while (share > 0 && text[share] != ' ')
		share--;
	return share > 0 ? share : width;
}

/* Characters of text on one line; 0 where there is no room for any. */
static size_t width_of(const struct style *style, int longest)
{
	const size_t frame = strlen(style->opening) + strlen(style->closing);
	size_t most = COMMENT_LINE_SIZE - 1;

	if (longest > 0 && (size_t)longest < most)
		most = (size_t)longest;
	return most > frame + sizeof LEFT_OUT ? most - frame : 0;
}

size_t comment_wrap(char line[][COMMENT_LINE_SIZE], size_t lines_most, const char *text,
		    enum comment_style style, int longest)
{
	const size_t width = width_of(&styles[style], longest);
	struct plain_text plain = { .room = lines_most * width };
	size_t count = 0, at = 0;

	if (!text || style == COMMENTS_NONE)
		return 0;
	reduce(&plain, text);
	while (at < plain.size && count < lines_most) {
		const char *rest = plain.byte + at;
		const size_t size = plain.size - at;
		size_t share = line_share(rest, size, width);
		const bool cut = count + 1 == lines_most && (share < size || plain.cut);
		if (cut)
			share = line_share(rest, size, width - (sizeof LEFT_OUT - 1));
		(void)snprintf(line[count++], COMMENT_LINE_SIZE, "%s%.*s%s%s",
			       styles[style].opening, (int)share, rest, cut ? LEFT_OUT : "",
			       styles[style].closing);
		at += share;
		while (at < plain.size && plain.byte[at] == ' ')
			at++;
	}
	return count;
}
