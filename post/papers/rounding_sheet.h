/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Facet lines for rounding by hand, at every place where there is a gauge: what
 * to mark on which face, how wide and deep each facet becomes, and what is left
 * for the scraper (model/rounding.h). */
#ifndef NECKHEW_PAPERS_ROUNDING_SHEET_H
#define NECKHEW_PAPERS_ROUNDING_SHEET_H

#include "papers/sheet.h"

/* Draws all pages. FAULT_MEMORY when memory runs out. */
enum fault rounding_sheet_draw(struct sheet *sheet, const struct paper_content *content,
			       struct fault_list *faults);

#endif
