/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Contour gauges to glue on card and cut: the negative of the section at each
 * station, as finished and as roughed, true to scale. */
#ifndef NECKHEW_PAPERS_GAUGES_H
#define NECKHEW_PAPERS_GAUGES_H

#include "papers/sheet.h"

/* Draws all pages of the gauges. FAULT_MEMORY when memory runs out. */
enum fault gauges_draw(struct sheet *sheet, const struct paper_content *content,
		       struct fault_list *faults);

#endif
