/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/columns.h"

#include <math.h>
#include <string.h>

#define NUMBER_ROOM 400 /* the longest double in full */

void columns_number(FILE *out, int width, int decimals, double value)
{
	char text[NUMBER_ROOM];

	if (!isfinite(value)) {
		(void)fprintf(out, " %*s", width, "-");
		return;
	}
	(void)snprintf(text, sizeof text, "%.*f", decimals, value);
	for (int fewer = decimals; (int)strlen(text) > width && fewer > 0; fewer--)
		(void)snprintf(text, sizeof text, "%.*f", fewer - 1, value);
	if ((int)strlen(text) > width)
		(void)snprintf(text, sizeof text, "%s", value < 0.0 ? "<<" : ">>");
	(void)fprintf(out, " %*s", width, text);
}

/* Bytes of the UTF-8 sequence at `text`, or 0 when it is broken or a control
 * character. Second bytes are narrowed where overlong forms, surrogates and
 * the end of the code space would begin. Source: RFC 3629, section 4. */
static int sequence_length(const char *text)
{
	const unsigned char *byte = (const unsigned char *)text;
	unsigned char least = 0x80, most = 0xbf;
	int length = byte[0] < 0x80 ? 1 : byte[0] < 0xe0 ? 2 : byte[0] < 0xf0 ? 3 : 4;

	if (length == 1)
		return byte[0] >= 0x20 && byte[0] != 0x7f;
	if (byte[0] < 0xc2 || byte[0] > 0xf4)
		return 0;
	if (byte[0] == 0xe0 || byte[0] == 0xf0)
		least = byte[0] == 0xe0 ? 0xa0 : 0x90;
	if (byte[0] == 0xed || byte[0] == 0xf4)
		most = byte[0] == 0xed ? 0x9f : 0x8f;
	if (byte[0] == 0xc2)
		least = 0xa0; /* below stand the second set of control characters */
	if (byte[1] < least || byte[1] > most)
		return 0;
	for (int i = 2; i < length; i++)
		if (byte[i] < 0x80 || byte[i] > 0xbf)
			return 0;
	return length;
}

void columns_text(FILE *out, int width, int fill, const char *text)
{
	int used = 0;

	for (; *text != '\0' && used < width; used++) {
		int length = sequence_length(text);
		if (length > 0)
			(void)fwrite(text, 1, (size_t)length, out);
		else
			(void)fputc('?', out);
		text += length > 0 ? length : 1;
	}
	if (fill && used < width)
		(void)fprintf(out, "%*s", width - used, "");
}

void columns_wrapped(FILE *out, int most, int at, int indent, const char *text)
{
	char word[COLUMNS_MOST + 1];

	for (int first = 1; *text != '\0'; first = 0) {
		size_t length = strcspn(text, " ");
		int room = most - indent;
		if (length > (size_t)room)
			length = (size_t)room;
		(void)snprintf(word, sizeof word, "%.*s", (int)length, text);
		text += length;
		text += strspn(text, " ");
		if (!first && at + 1 + (int)length > most) {
			(void)fprintf(out, "\n%*s", indent, "");
			at = indent;
			first = 1;
		}
		if (!first)
			(void)fputc(' ', out);
		at += (int)length + !first;
		columns_text(out, (int)length, 0, word);
	}
	(void)fputc('\n', out);
}

void columns_paragraph(FILE *out, int at, int indent, const char *text)
{
	columns_wrapped(out, COLUMNS_MOST, at, indent, text);
}
