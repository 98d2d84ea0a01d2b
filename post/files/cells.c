/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "files/cells.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#define SHOWN (CELL_SHOWN_ROOM - 4) /* characters before the dots */

static bool is_blank(char c)
{
	return c == ' ' || c == '\t';
}

struct cell cell_trimmed(const char *text, size_t length)
{
	while (length > 0 && is_blank(*text)) {
		text++;
		length--;
	}
	while (length > 0 && is_blank(text[length - 1]))
		length--;
	return (struct cell){ text, length };
}

static struct cell unquoted(const char *text, size_t length)
{
	struct cell cell = cell_trimmed(text, length);

	if (cell.length > 1 && cell.text[0] == '"' && cell.text[cell.length - 1] == '"')
		return (struct cell){ cell.text + 1, cell.length - 2 };
	return cell;
}

static char parting(const char *line, size_t length)
{
	static const char marks[] = ";\t,";

	for (size_t i = 0; marks[i]; i++)
		if (memchr(line, marks[i], length))
			return marks[i];
	return ' ';
}

size_t cells_part(struct cell *cell, size_t most, const char *line, size_t length)
{
	struct cell whole = cell_trimmed(line, length);
	char mark = parting(whole.text, whole.length);
	const char *from = whole.text, *end = whole.text + whole.length;
	size_t count = 0;

	for (;;) {
		const char *to = memchr(from, mark, (size_t)(end - from));
		if (!to)
			to = end;
		if (count < most)
			cell[count] = unquoted(from, (size_t)(to - from));
		count++;
		if (to == end)
			return count;
		from = to + 1;
		while (mark == ' ' && *from == ' ')
			from++;
	}
}

const char *cell_shown(char *out, const struct cell *cell)
{
	size_t length = cell->length < SHOWN ? cell->length : SHOWN;

	for (size_t i = 0; i < length; i++) {
		char c = cell->text[i];
		out[i] = (char)(c >= ' ' && c <= '~' ? c : '?');
	}
	(void)snprintf(out + length, 4, "%s", cell->length > SHOWN ? "..." : "");
	return out;
}
