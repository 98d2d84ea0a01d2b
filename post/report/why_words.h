/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Why passes are as they are, in sentences. */
#ifndef NECKHEW_REPORT_WHY_WORDS_H
#define NECKHEW_REPORT_WHY_WORDS_H

#include <stdbool.h>
#include <stddef.h>

#include "job/result.h"

#define WHY_ROOM 384
#define WHY_PASSES_ROOM 512

/* One sentence such as "Level lines, lengthwise both ways, outside in so that the
 * waste stays held; 5 mm apart, the cutter's stepover limit." in
 * out[WHY_ROOM]; empty when the pass comes from no plan. */
void why_words(char *out, const struct pass_figures *pass);

/* "lengthwise", "crosswise", "lengthwise and crosswise"; "" from no plan. */
const char *why_lines(const struct pass_why *why);

/* True when no earlier pass of the program has the sentence of pass `i`. */
bool why_is_new(const struct program_figures *program, size_t i);

/* The passes of the program with the sentence of pass `i`, such as "1, 3 to 5",
 * in out[WHY_PASSES_ROOM]; the program's first pass is number `first`. A list
 * too long ends in "and more". */
void why_passes(char *out, const struct program_figures *program, size_t i, size_t first);

#endif
