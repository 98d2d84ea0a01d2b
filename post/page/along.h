/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What runs along a neck, gathered at the same places for all of it: the lines
 * that the page's side view and sections are drawn from. */
#ifndef NECKHEW_PAGE_ALONG_H
#define NECKHEW_PAGE_ALONG_H

#include "base/fault.h"
#include "job/job.h"
#include "model/neck.h"

/* Greatest distance of the places, mm. Where a line bends they lie closer, so
 * that what is drawn straight between them departs from it by no more than a
 * thin pen line's width, ALONG_HAIR_MM. */
#define ALONG_STEP_MM 2.0
#define ALONG_HAIR_MM 0.1

enum along_line {
	ALONG_X,
	ALONG_CREST, /* z of the finished surface on the centre line */
	ALONG_BASE, /* z of its under side */
	ALONG_FRETBOARD_HALF, /* half-width of the fretboard, nut to last fret */
	ALONG_EDGE_MINUS, /* half-breadth of the wood at the gluing face */
	ALONG_EDGE_PLUS,
	ALONG_BLANK_TOP,
	ALONG_BLANK_BOTTOM,
	ALONG_BLANK_MINUS, /* distance of its sides from the centre line */
	ALONG_BLANK_PLUS,
	ALONG_CHANNEL_FLOOR, /* z of the truss-rod channel's floor */
	ALONG_LINES
};

/* All lines in mm over the same places, x never falling. A line that makes a
 * step, begins or ends there has two places at one x: its value before and
 * behind. NAN where a line is not. */
struct along {
	size_t count;
	double *value_mm[ALONG_LINES];
};

/* Fills *out; along_free releases it, after a fault too. FAULT_MEMORY. */
enum fault along_make(struct along *out, const struct job *job, const struct neck *neck,
		      struct fault_list *faults);

/* NULL is accepted. */
void along_free(struct along *along);

/* The key of a line in the page's data, such as "crest_mm". */
const char *along_key(enum along_line line);

#endif
