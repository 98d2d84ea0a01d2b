/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "program/write_line.h"

#include <string.h>

#include "base/mem.h"
#include "program/number.h"

/* NIST IR 6556: a block number has five digits at most. They begin again. */
#define NUMBER_MOST 99999

/* "N", five digits and the space behind them. */
#define NUMBER_ROOM 7

void write_line_word(struct write_line *line, char letter, const char *number)
{
	if (line->length > 0)
		line->text[line->length++] = ' ';
	line->text[line->length++] = letter;
	const size_t size = strlen(number);
	memcpy(line->text + line->length, number, size + 1);
	line->length += size;
}

bool write_line_fits(const struct write_lines *lines, const struct write_line *line, size_t more)
{
	size_t length = line->length + more + (lines->reads->number_step > 0 ? NUMBER_ROOM : 0);

	return lines->reads->longest_line <= 0 || length <= (size_t)lines->reads->longest_line;
}

static enum fault put(struct write_lines *lines, const char *text, size_t length)
{
	struct program_text *out = lines->out;
	char *grown = mem_grow(out->bytes, &out->capacity, out->size + length + 2, 1);

	if (!grown)
		return fault_no_memory(lines->faults, "the program text");
	out->bytes = grown;
	memcpy(grown + out->size, text, length);
	out->size += length;
	grown[out->size] = '\0';
	return FAULT_NONE;
}

enum fault write_lines_bare(struct write_lines *lines, const char *text)
{
	enum fault fault = put(lines, text, strlen(text));

	if (!fault)
		fault = put(lines, "\n", 1);
	lines->count += !fault;
	return fault;
}

enum fault write_lines_block(struct write_lines *lines, const struct write_line *line)
{
	const int step = lines->reads->number_step;
	char number[NUMBER_TEXT_SIZE];
	enum fault fault = FAULT_NONE;

	if (!write_line_fits(lines, line, 0))
		return fault_add(
			lines->faults, FAULT_SETTING, NULL, 0, "machine.longest_line",
			"A line of the program needs more than the %d characters that the "
			"machine reads: %s. Fewer decimals, or no block numbers, make lines "
			"shorter.",
			lines->reads->longest_line, line->text);
	if (step > 0) {
		lines->number += lines->number + step > NUMBER_MOST ? step - lines->number : step;
		number_text(number, lines->number, 0);
		fault = put(lines, "N", 1);
		if (!fault)
			fault = put(lines, number, strlen(number));
		if (!fault)
			fault = put(lines, " ", 1);
	}
	return fault ? fault : write_lines_bare(lines, line->text);
}
