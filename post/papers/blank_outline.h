/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The blank to saw out: its side and its plan in true size, tiled over pages,
 * with the figures of every corner. */
#ifndef NECKHEW_PAPERS_BLANK_OUTLINE_H
#define NECKHEW_PAPERS_BLANK_OUTLINE_H

#include "papers/sheet.h"

/* Draws all pages. FAULT_MEMORY when memory runs out. */
enum fault blank_outline_draw(struct sheet *sheet, const struct paper_content *content,
			      struct fault_list *faults);

#endif
