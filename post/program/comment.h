/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Free text made harmless: whatever a settings file says, only a comment that
 * no control can take for a command comes of it. */
#ifndef NECKHEW_PROGRAM_COMMENT_H
#define NECKHEW_PROGRAM_COMMENT_H

#include <stddef.h>

#include "machine/abilities.h"

#define COMMENT_LINE_SIZE 81 /* 80 characters and a NUL */
#define COMMENT_LINES_MOST 8 /* of one text */

/* Writes `text` as whole comment lines, "(- ...)" or "; ...", of at most 80 and
 * at most `longest` characters (0: 80), broken at spaces, no more than
 * lines_most (itself at most COMMENT_LINES_MOST) of them; what has no room is
 * left out and the last line then ends in "...". Inside stand only letters,
 * digits, single spaces and . , : + - _ ' / =; everything else is replaced.
 * Returns the number of lines, 0 for a text with nothing to show or NULL, and
 * for COMMENTS_NONE. */
size_t comment_wrap(char line[][COMMENT_LINE_SIZE], size_t lines_most, const char *text,
		    enum comment_style style, int longest);

#endif
