/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The machine safety checklist to tick and to sign before a program runs. */
#ifndef NECKHEW_PAPERS_CHECKLIST_SHEET_H
#define NECKHEW_PAPERS_CHECKLIST_SHEET_H

#include "papers/sheet.h"

/* Draws all pages. FAULT_MEMORY when memory runs out. */
enum fault checklist_sheet_draw(struct sheet *sheet, const struct paper_content *content,
				struct fault_list *faults);

/* Why the line at that place of the checklist is there, in one sentence; NULL
 * behind the last one. */
const char *checklist_sheet_reason(size_t index);

#endif
