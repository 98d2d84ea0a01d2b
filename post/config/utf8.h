/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which texts from a file may be shown and passed on. */
#ifndef NECKHEW_CONFIG_UTF8_H
#define NECKHEW_CONFIG_UTF8_H

#include <stdbool.h>
#include <stddef.h>

/* True for well-formed UTF-8 (RFC 3629, section 4) without control characters
 * (U+0000-001F, U+007F-009F) and line or direction marks (U+2028-202E,
 * U+2066-2069), with at least one character that is no blank. */
bool utf8_is_name(const char *text);

/* Copies a text for a message: whatever is no printable ASCII becomes '?', and
 * a text too long ends in "...". */
void utf8_make_plain(char *to, size_t size, const char *text);

#endif
