/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What depends on whether somebody is watching: colours, width, block
 * characters. */
#ifndef NECKHEW_CLI_TERMINAL_H
#define NECKHEW_CLI_TERMINAL_H

#include <stdbool.h>
#include <stdio.h>

/* Width where nothing tells another, and the widths that are believed. */
#define TERMINAL_COLUMNS 80
#define TERMINAL_COLUMNS_LEAST 40
#define TERMINAL_COLUMNS_MOST 400

/* Does somebody watch this stream? A terminal that is not "dumb". */
bool terminal_watched(FILE *stream);

/* Are colours wanted on this stream? Only when it is watched, and not when the
 * environment has a NO_COLOR that is not empty. */
bool terminal_colour(FILE *stream);

/* May more than ASCII be printed? When the first of LC_ALL, LC_CTYPE and LANG
 * that is not empty names UTF-8. It need not be installed: over a line to
 * another machine it tells what the terminal at the other end shows. */
bool terminal_utf8(void);

/* Columns of the terminal behind the stream; TERMINAL_COLUMNS when there is
 * none or it does not say. */
int terminal_columns(FILE *stream);

/* Columns a page on that stream should fill: what COLUMNS in the environment
 * says, or terminal_columns, between the least and the most. */
int terminal_page_columns(FILE *stream);

#endif
