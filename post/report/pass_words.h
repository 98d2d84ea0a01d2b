/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Passes in sentences. */
#ifndef NECKHEW_REPORT_PASS_WORDS_H
#define NECKHEW_REPORT_PASS_WORDS_H

#include <stddef.h>

#include "job/result.h"

#define PASS_FIGURES_ROOM 256
#define PASS_LIST_ROOM 2048

/* "Level Z 2.15 mm, deepest bite 1.48 mm, 5.25 cm3 of wood, 1.5 min." in
 * out[PASS_FIGURES_ROOM]; `low` is what the first figure is called. A figure
 * that is not finite is a dash. */
void pass_words_figures(char *out, const char *low, double low_mm, double bite_mm,
			double volume_cm3, double minutes);

/* Which passes are of which kind, and how one of them is shown, in
 * out[PASS_LIST_ROOM]: "Level lines: passes 1 to 4, 7. Contour lines: ...". A
 * list too long ends in "and more". */
void pass_words_list(char *out, const struct job_result *result);

#endif
