/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config/utf8.h"

#include <stdint.h>
#include <string.h>

#define NO_CHARACTER 0xFFFFFFFFu

/* Takes one character off *text; NO_CHARACTER when it is not well formed. */
static uint32_t next_character(const unsigned char **text)
{
	static const uint32_t least[] = { 0, 0x80, 0x800, 0x10000 };
	unsigned char lead = *(*text)++;
	int more = lead < 0x80 ? 0 : lead < 0xC0 ? -1 : lead < 0xE0 ? 1 : lead < 0xF0 ? 2 : 3;

	if (more < 0 || lead > 0xF4)
		return NO_CHARACTER;
	uint32_t character = more == 0 ? lead : lead & (0x3Fu >> more);
	for (int i = 0; i < more; i++) {
		if ((**text & 0xC0) != 0x80)
			return NO_CHARACTER;
		character = character << 6 | (*(*text)++ & 0x3Fu);
	}
	if (character < least[more] || character > 0x10FFFF)
		return NO_CHARACTER;
	return character >= 0xD800 && character <= 0xDFFF ? NO_CHARACTER : character;
}

static bool is_shown(uint32_t character)
{
	if (character < 0x20 || (character >= 0x7F && character <= 0x9F))
		return false;
	if (character >= 0x2028 && character <= 0x202E)
		return false;
	return character < 0x2066 || character > 0x2069;
}

bool utf8_is_name(const char *text)
{
	const unsigned char *at = (const unsigned char *)text;
	bool blank = true;

	while (*at) {
		uint32_t character = next_character(&at);
		if (character == NO_CHARACTER || !is_shown(character))
			return false;
		if (character != ' ')
			blank = false;
	}
	return !blank;
}

void utf8_make_plain(char *to, size_t size, const char *text)
{
	size_t used = 0;

	for (; text[used] != '\0' && used + 1 < size; used++)
		to[used] = text[used] >= 0x20 && text[used] < 0x7F ? text[used] : '?';
	to[used] = '\0';
	if (text[used] != '\0' && used >= 3)
		memcpy(to + used - 3, "...", 3);
}
