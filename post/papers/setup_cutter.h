/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cutter in its holder, to scale, with its lengths. */
#ifndef NECKHEW_PAPERS_SETUP_CUTTER_H
#define NECKHEW_PAPERS_SETUP_CUTTER_H

#include "machine/cutter.h"
#include "papers/sheet.h"

/* Width with dimensions on both sides, mm on paper. */
#define SETUP_CUTTER_WIDTH_MM 104.0

/* Draws it and its scale into the area: tip at the bottom. The scale is the
 * largest round one that fits. */
void setup_cutter_put(struct canvas *canvas, const struct cutter *cutter,
		      const struct sheet_area *area);

#endif
