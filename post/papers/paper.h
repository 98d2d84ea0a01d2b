/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The papers a printer may hold. */
#ifndef NECKHEW_PAPERS_PAPER_H
#define NECKHEW_PAPERS_PAPER_H

#include <stdbool.h>

#include "base/units.h"

enum paper_size { PAPER_A4, PAPER_LETTER, PAPER_COUNT };

struct paper {
	const char *key; /* as the command line names it, such as "a4" */
	const char *name; /* as people do, such as "A4" */
	double width_mm, height_mm; /* standing upright */
	double margin_mm; /* kept free on all sides */
};

/* Source: ISO 216 (A4 210 x 297 mm), ANSI/ASME Y14.1 (letter 8.5 x 11 in). */
const struct paper *paper_of(enum paper_size size);

/* The paper of that key; false, and *out untouched, when there is none. */
bool paper_by_key(enum paper_size *out, const char *key);

/* The paper commonly held where lengths are measured so. */
enum paper_size paper_for_unit(enum length_unit unit);

#endif
