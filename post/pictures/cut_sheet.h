/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cut depth per pass: a sheet of small maps under one colour scale. */
#ifndef NECKHEW_PICTURES_CUT_SHEET_H
#define NECKHEW_PICTURES_CUT_SHEET_H

#include "job/result.h"
#include "pictures/canvas.h"
#include "pictures/pen.h"

struct cut_sheet {
	struct sheet_words words;
	size_t program_count;
	const struct program_figures *program;
	size_t cut_count; /* passes of all programs together */
	const struct column_map *cut; /* one per pass, in program order */
};

/* Height of the sheet these passes need, mm. */
double cut_sheet_height_mm(const struct cut_sheet *sheet);

/* FAULT_INTERNAL when there are not as many maps as passes. */
enum fault cut_sheet_draw(struct canvas *canvas, const struct cut_sheet *sheet,
			  struct fault_list *faults);

#endif
