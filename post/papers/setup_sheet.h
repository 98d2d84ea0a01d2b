/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The set-up sheet: the paper at the machine that shows how this job lies on
 * the bed, where zero is, which cutter runs, and in which order. */
#ifndef NECKHEW_PAPERS_SETUP_SHEET_H
#define NECKHEW_PAPERS_SETUP_SHEET_H

#include "papers/sheet.h"

/* Draws all pages. FAULT_MEMORY when memory runs out. */
enum fault setup_sheet_draw(struct sheet *sheet, const struct paper_content *content,
			    struct fault_list *faults);

#endif
