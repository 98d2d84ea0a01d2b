/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The line that shows how far long work is. */
#ifndef NECKHEW_CLI_PROGRESS_LINE_H
#define NECKHEW_CLI_PROGRESS_LINE_H

#include <stdbool.h>
#include <stddef.h>

/* Room for every line, whatever is asked: a bar is never longer than fits. */
#define PROGRESS_LINE_ROOM 256

/* Writes "neckhew: WHAT  [#####.....]  50 %" into out[PROGRESS_LINE_ROOM], in
 * block characters when `utf8`, for a terminal `columns` wide. The last column
 * stays free, since some terminals would go on to the next line from it. Where
 * a bar finds no room the words alone are written, cut to what fits. `share`
 * is held to 0..1. Returns the columns taken. */
int progress_line(char *out, const char *what, double share, int columns, bool utf8);

#endif
