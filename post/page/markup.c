/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/markup.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"

#define NUMBER_ROOM 400 /* the longest double in full */

void markup_free(struct markup *markup)
{
	if (!markup)
		return;
	free(markup->text);
	*markup = (struct markup){ 0 };
}

enum fault markup_fault(const struct markup *markup, struct fault_list *faults)
{
	return markup->failed ? fault_no_memory(faults, "the page") : FAULT_NONE;
}

void markup_bytes(struct markup *markup, const char *bytes, size_t size)
{
	if (markup->failed || size >= (size_t)-1 - markup->size) {
		markup->failed = true;
		return;
	}
	char *text = mem_grow(markup->text, &markup->capacity, markup->size + size + 1, 1);
	if (!text) {
		markup->failed = true;
		return;
	}
	markup->text = text;
	if (size > 0)
		memcpy(text + markup->size, bytes, size);
	markup->size += size;
	text[markup->size] = '\0';
}

void markup_text(struct markup *markup, const char *text)
{
	markup_bytes(markup, text, strlen(text));
}

/* Bytes of the well-formed character at `text`, 0 when it is none. Second bytes
 * are narrowed where overlong forms, surrogates and the end of the code space
 * would begin. Source: RFC 3629, section 4. */
static size_t character_size(const unsigned char *text)
{
	unsigned char lead = text[0], least = 0x80, most = 0xbf;
	size_t size = lead < 0x80 ? 1 : lead < 0xe0 ? 2 : lead < 0xf0 ? 3 : 4;

	if (size == 1)
		return 1;
	if (lead < 0xc2 || lead > 0xf4)
		return 0;
	if (lead == 0xe0 || lead == 0xf0)
		least = lead == 0xe0 ? 0xa0 : 0x90;
	if (lead == 0xed || lead == 0xf4)
		most = lead == 0xed ? 0x9f : 0x8f;
	if (text[1] < least || text[1] > most)
		return 0;
	for (size_t i = 2; i < size; i++)
		if (text[i] < 0x80 || text[i] > 0xbf)
			return 0;
	return size;
}

/* Control characters, and marks that turn the order of what follows. */
static bool is_hidden(const unsigned char *text, size_t size)
{
	if (size == 1)
		return (text[0] < 0x20 && text[0] != '\n') || text[0] == 0x7f;
	if (size == 2)
		return text[0] == 0xc2 && text[1] < 0xa0; /* U+0080 to U+009F */
	if (size == 4 || text[0] != 0xe2)
		return false;
	if (text[1] == 0x80)
		return text[2] >= 0xa8 && text[2] <= 0xae; /* U+2028 to U+202E */
	return text[1] == 0x81 && text[2] >= 0xa6 && text[2] <= 0xa9; /* U+2066 to U+2069 */
}

/* What stands for a character that means something to a browser; NULL for all
 * others. */
static const char *reference(unsigned char character)
{
	switch (character) {
	case '&':
		return "&amp;";
	case '<':
		return "&lt;";
	case '>':
		return "&gt;";
	case '"':
		return "&quot;";
	case '\'':
		return "&#39;";
	default:
		return NULL;
	}
}

void markup_escaped(struct markup *markup, const char *text)
{
	while (*text != '\0') {
		const unsigned char *at = (const unsigned char *)text;
		size_t size = character_size(at);
		const char *other = reference(*at);
		if (size == 0 || is_hidden(at, size))
			markup_bytes(markup, "?", 1);
		else if (other)
			markup_text(markup, other);
		else
			markup_bytes(markup, text, size);
		text += size > 0 ? size : 1;
	}
}

void markup_json(struct markup *markup, const char *json)
{
	while (*json != '\0') {
		size_t plain = strcspn(json, "<");
		markup_bytes(markup, json, plain);
		json += plain;
		if (*json == '<') {
			markup_text(markup, "\\u003c");
			json++;
		}
	}
}

/* What printf made of a figure: with a point whatever the locale says, and a
 * minus sign unless all digits are 0. */
static void add_digits(struct markup *markup, char *text)
{
	const char *digits = text[0] == '-' ? text + 1 : text;

	for (char *at = text; *at != '\0'; at++)
		if (*at == ',')
			*at = '.';
	if (digits != text && strspn(digits, "0.") != strlen(digits))
		markup_text(markup, "\xe2\x88\x92");
	markup_text(markup, digits);
}

void markup_number(struct markup *markup, double value, int decimals)
{
	char text[NUMBER_ROOM];

	if (!isfinite(value)) {
		markup_text(markup, "\xe2\x80\x93");
		return;
	}
	(void)snprintf(text, sizeof text, "%.*f", decimals, value);
	add_digits(markup, text);
}
