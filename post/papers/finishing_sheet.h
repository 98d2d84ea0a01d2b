/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finishing sheet: thickness as it comes off the machine and as it is to be,
 * what remains to carve, where a straight edge shows light, and the heel. */
#ifndef NECKHEW_PAPERS_FINISHING_SHEET_H
#define NECKHEW_PAPERS_FINISHING_SHEET_H

#include "papers/sheet.h"

/* Draws all pages. FAULT_MEMORY when memory runs out. */
enum fault finishing_sheet_draw(struct sheet *sheet, const struct paper_content *content,
				struct fault_list *faults);

#endif
