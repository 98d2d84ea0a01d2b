/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Texts for a terminal as somebody sees them. */
#ifndef NECKHEW_TESTS_SUPPORT_TERMINAL_TEXT_H
#define NECKHEW_TESTS_SUPPORT_TERMINAL_TEXT_H

/* Fails the test when a line takes more columns: a code point counts as one,
 * colours as none. */
void assert_within_columns(const char *text, int columns);

/* Fails the test unless one line of the text is this and nothing else. */
void assert_line(const char *text, const char *line);

/* Takes the colours out of a text, in place. */
void terminal_text_plain(char *text);

#endif
