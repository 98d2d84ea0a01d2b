/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/paper.h"

#include <stddef.h>
#include <string.h>

/* What the common printers of the home and the office leave blank at an edge is
 * less than this, mm (common practice, no source). */
#define MARGIN_MM 10.0

static const struct paper papers[PAPER_COUNT] = {
	[PAPER_A4] = { "a4", "A4", 210.0, 297.0, MARGIN_MM },
	[PAPER_LETTER] = { "letter", "letter", 8.5 * MM_PER_INCH, 11.0 * MM_PER_INCH, MARGIN_MM },
};

const struct paper *paper_of(enum paper_size size)
{
	return &papers[size];
}

bool paper_by_key(enum paper_size *out, const char *key)
{
	for (size_t i = 0; i < PAPER_COUNT; i++) {
		if (strcmp(key, papers[i].key) != 0)
			continue;
		*out = (enum paper_size)i;
		return true;
	}
	return false;
}

enum paper_size paper_for_unit(enum length_unit unit)
{
	return unit == UNIT_INCH ? PAPER_LETTER : PAPER_A4;
}
