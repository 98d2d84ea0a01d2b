/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/name_line.h"

#include <stdlib.h>
#include <string.h>

#include "base/mem.h"

enum fault name_line_make(struct name_line *out, size_t columns, struct fault_list *faults)
{
	*out = (struct name_line){ columns, mem_array(columns, 1) };
	if (!out->text)
		return fault_no_memory(faults, "a line of names");
	memset(out->text, ' ', columns);
	return FAULT_NONE;
}

void name_line_free(struct name_line *line)
{
	free(line->text);
	*line = (struct name_line){ 0 };
}

void name_line_put(const struct name_line *line, size_t at, const char *name)
{
	size_t columns = line->columns, length = strlen(name);

	if (at >= columns || length > columns)
		return;
	size_t begin = at < length / 2 ? 0 : at - length / 2;
	if (begin + length > columns)
		begin = columns - length;
	for (size_t i = begin > 0 ? begin - 1 : 0; i < columns && i <= begin + length; i++)
		if (line->text[i] != ' ')
			return;
	memcpy(line->text + begin, name, length);
}

void name_line_print(FILE *out, const struct name_line *line)
{
	size_t length = line->columns;

	while (length > 0 && line->text[length - 1] == ' ')
		length--;
	(void)fwrite(line->text, 1, length, out);
	(void)fputc('\n', out);
	memset(line->text, ' ', line->columns);
}
