/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Templates in true size: the heel from the side and from the back, and the plan
 * of the whole neck. */
#ifndef NECKHEW_PAPERS_TEMPLATES_H
#define NECKHEW_PAPERS_TEMPLATES_H

#include "papers/sheet.h"

/* Draws all pages. FAULT_MEMORY when memory runs out. */
enum fault templates_draw(struct sheet *sheet, const struct paper_content *content,
			  struct fault_list *faults);

#endif
