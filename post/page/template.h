/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page with gaps: every {{name}} in it is filled with a ready text. */
#ifndef NECKHEW_PAGE_TEMPLATE_H
#define NECKHEW_PAGE_TEMPLATE_H

#include "page/markup.h"

/* What goes into the gaps of one name. It is put in as it stands and never
 * searched for gaps itself, so a text may hold "{{". */
struct template_slot {
	const char *name; /* small letters and _ */
	const char *text;
	size_t size;
};

/* Adds the filled template (`size` bytes) to *out. FAULT_INTERNAL names a gap
 * that no slot fills, a slot that the template has no gap for, and a gap that
 * is not closed: a page with something missing must not leave the house.
 * FAULT_MEMORY. */
enum fault template_fill(struct markup *out, const char *template, size_t size, size_t slot_count,
			 const struct template_slot *slot, struct fault_list *faults);

#endif
