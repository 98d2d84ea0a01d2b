/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Content put down from the top of a page to its foot and on to the next page:
 * headings, paragraphs, steps, tables of any length, and room for drawings. */
#ifndef NECKHEW_PAPERS_FLOW_H
#define NECKHEW_PAPERS_FLOW_H

#include <stdbool.h>
#include <stddef.h>

#include "papers/sheet.h"

struct flow {
	struct sheet *sheet;
	struct sheet_area area; /* of the present page */
	double y_mm; /* everything above it is used */
};

/* Draws a paper of as many pages as it needs: `draw` runs once on a canvas that
 * is thrown away, to count the pages, then on the real one. Both times it is
 * given a flow whose first page has begun. Returns its fault, or FAULT_MEMORY
 * when the first canvas could not be drawn on. */
enum fault flow_draw(struct sheet *sheet, const struct paper_content *content,
		     enum fault (*draw)(struct flow *flow, const struct paper_content *content,
					struct fault_list *faults),
		     struct fault_list *faults);

/* Width between the page's margins, mm. */
double flow_width_mm(const struct flow *flow);

/* Takes so much height, on the next page when this one has too little left.
 * Returns the top of the part taken, mm. */
double flow_take(struct flow *flow, double height_mm);

/* Goes on on the next page unless so much height is left on this one. */
void flow_need(struct flow *flow, double height_mm);

/* A heading that stays together with the next `keep_mm` of what follows. */
void flow_heading(struct flow *flow, const char *text, double keep_mm);

/* A paragraph of at most `most` lines; what does not fit is cut with an
 * ellipsis. */
void flow_text(struct flow *flow, enum text_kind kind, int most, const char *text);

/* Numbered paragraphs of at most `most` lines each. */
void flow_steps(struct flow *flow, int most, size_t count, const char *const *text);

/* Lines to write on down to the foot of the page, if two of them fit. */
void flow_notes(struct flow *flow);

#define FLOW_CELL_ROOM 160

struct flow_column {
	const char *group; /* stands once over all neighbours of the same group; may be NULL */
	const char *head, *unit; /* unit may be NULL */
	double width_mm;
	bool words; /* set from the left, shortened to fit; else a figure from the right */
	bool write; /* empty boxes to write into */
};

struct flow_table {
	size_t column_count;
	const struct flow_column *column;
	size_t row_count;
	/* Writes a cell's text, "" for an empty one. */
	void (*cell)(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM]);
	const void *context;
};

/* A table; its head is repeated on every page it reaches. */
void flow_table(struct flow *flow, const struct flow_table *table);

/* Height of a table that is not broken, mm. */
double flow_table_height_mm(const struct flow_table *table);

/* "12.34" and, for a length in inches, "0.486", into a cell; a dash for what is
 * no number. */
void flow_mm(char out[FLOW_CELL_ROOM], double length_mm);
void flow_inch(char out[FLOW_CELL_ROOM], double length_mm);

/* A figure with so many decimals into a cell, as scale_number writes it. */
void flow_number(char out[FLOW_CELL_ROOM], double value, int decimals);

/* "12.34 mm (0.486 in)". */
void flow_both(char out[FLOW_CELL_ROOM], double length_mm);

#endif
