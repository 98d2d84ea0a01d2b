/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/progress_line.h"

#include <stdio.h>
#include <string.h>

/* A bar of fewer cells shows nothing; one of more is no easier to read. */
#define CELLS_LEAST 6
#define CELLS_MOST 40
/* Words of the steps are filled up to this, so that the bar stays in its place. */
#define WHAT_COLUMNS 9

#define FULL_BLOCK "\xe2\x96\x88"
#define LEFT_HALF_BLOCK "\xe2\x96\x8c"
#define LIGHT_SHADE "\xe2\x96\x91"

static double clamped(double share)
{
	return share > 0.0 ? (share < 1.0 ? share : 1.0) : 0.0;
}

static void add(char *out, const char *text)
{
	(void)strncat(out, text, PROGRESS_LINE_ROOM - strlen(out) - 1);
}

/* A bar that has not reached its end is not drawn full. */
static void add_bar(char *out, double share, int cells, bool utf8)
{
	int halves = (int)(2.0 * share * (double)cells);

	if (!utf8)
		add(out, "[");
	for (int i = 0; i < cells; i++) {
		if (halves >= 2 * i + 2)
			add(out, utf8 ? FULL_BLOCK : "#");
		else if (utf8 && halves == 2 * i + 1)
			add(out, LEFT_HALF_BLOCK);
		else
			add(out, utf8 ? LIGHT_SHADE : ".");
	}
	if (!utf8)
		add(out, "]");
}

int progress_line(char *out, const char *what, double share, int columns, bool utf8)
{
	char words[80], percent[16];
	int room = columns > 1 ? columns - 1 : 0, frame = utf8 ? 0 : 2;

	(void)snprintf(percent, sizeof percent, " %3d %%", (int)(100.0 * clamped(share)));
	int words_length = snprintf(words, sizeof words, "neckhew: %-*.40s ", WHAT_COLUMNS, what);
	int cells = room - words_length - frame - (int)strlen(percent);
	if (cells < CELLS_LEAST) {
		(void)snprintf(words, sizeof words, "neckhew: %.40s%s", what, percent);
		(void)snprintf(out, PROGRESS_LINE_ROOM, "%.*s", room, words);
		return (int)strlen(out);
	}
	cells = cells < CELLS_MOST ? cells : CELLS_MOST;
	(void)snprintf(out, PROGRESS_LINE_ROOM, "%s", words);
	add_bar(out, clamped(share), cells, utf8);
	add(out, percent);
	return words_length + frame + cells + (int)strlen(percent);
}
