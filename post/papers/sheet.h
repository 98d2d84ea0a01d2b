/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The frame of every printed page: title and remark above, neck, inputs and
 * page number below and, where the page is true to scale, bars to hold a ruler
 * against, one across and one up, for a printer may stretch one way only. */
#ifndef NECKHEW_PAPERS_SHEET_H
#define NECKHEW_PAPERS_SHEET_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "job/job.h"
#include "job/result.h"
#include "model/facets.h"
#include "model/neck.h"
#include "papers/paper.h"
#include "pictures/canvas.h"
#include "pictures/pen.h"

/* What papers are drawn from. */
struct paper_content {
	const struct job *job;
	const struct neck *neck;
	const struct facets *facets;
	const struct job_result *result;
};

/* One PDF and where its drawing has got to. Title and remark may be changed
 * between pages. The remark is broken into at most SHEET_REMARK_LINES lines. */
struct sheet {
	struct canvas *canvas;
	const struct paper *paper;
	struct sheet_words words;
	const char *title, *remark;
	bool true_scale; /* draw the check bars */
	double head_keep_mm; /* kept free at the right of title and remark */
	size_t page; /* the one being drawn, 1-based; 0 before the first */
	size_t page_count; /* as printed in "page n of m" */
};

/* A part of a page, mm from its top left corner. */
struct sheet_area {
	double left, top, right, bottom;
};

#define SHEET_REMARK_LINES 3
/* Between base lines of a paragraph in body letters, mm. */
#define SHEET_LEADING_MM 4.0

/* What a page leaves for its content; the same for all pages of the sheet. */
struct sheet_area sheet_area(const struct sheet *sheet);

/* Begins the next page, draws its frame and returns what is left for content. */
struct sheet_area sheet_begin(struct sheet *sheet);

/* Writes text broken at spaces into lines of at most `width_mm`, the first
 * base line at y, SHEET_LEADING_MM apart, no more than `most` lines (the last
 * one shortened with an ellipsis). Returns the base line after the last one. */
double sheet_paragraph(struct canvas *canvas, double x_mm, double y_mm, enum text_kind kind,
		       double width_mm, int most, const char *text);

#endif
