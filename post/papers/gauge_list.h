/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which contour gauges a neck gets, their outlines, and where on which page each
 * of them lies. */
#ifndef NECKHEW_PAPERS_GAUGE_LIST_H
#define NECKHEW_PAPERS_GAUGE_LIST_H

#include <stdbool.h>
#include <stddef.h>

#include "job/section_line.h"
#include "papers/sheet.h"

#define GAUGE_NAME_MAX 48
/* Card on either side of the section, and over it for the words, mm. */
#define GAUGE_CHEEK_MM 11.0
#define GAUGE_ROOF_MM 17.0

struct gauge {
	char name[GAUGE_NAME_MAX]; /* of the place, such as "fret 5" */
	double x_mm;
	bool roughed; /* finished shape with its stock, else the finished shape */
	struct section_line line;
	double crest_mm; /* of the line, on the centre line */
	double thickness_mm; /* as the neck file states thicknesses */
	double half_mm; /* the opening's half-width at its widest, the board's included */
	/* Below the gluing face, mm: the fretboard, where thickness spans it. */
	double board_half_mm, board_mm;
	/* Set by gauge_list_lay: page from 1, 0 when the card is larger than the
	 * page; paper place of the centre line on the gluing face. */
	size_t page;
	double centre_mm, face_mm;
};

struct gauge_list {
	size_t count;
	struct gauge *item; /* by x; of each place the finished one, then the roughed one */
	size_t page_count, left_out;
};

/* One pair for each station, for frets 1, 5 and 9 and for where the heel begins,
 * unless a station is near. Release it with gauge_list_free, after a fault too.
 * FAULT_MEMORY. */
enum fault gauge_list_build(struct gauge_list *out, const struct paper_content *content,
			    struct fault_list *faults);

/* Lays the cards out on pages that leave this area, pair beside pair where the
 * widest fit, else one below the other. */
void gauge_list_lay(struct gauge_list *list, struct sheet_area area);

/* NULL is accepted. */
void gauge_list_free(struct gauge_list *list);

#endif
