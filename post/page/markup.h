/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A text that grows, and the ways foreign things get into a page: texts from
 * files, figures, JSON. */
#ifndef NECKHEW_PAGE_MARKUP_H
#define NECKHEW_PAGE_MARKUP_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"

/* Start with { 0 }, end with markup_free. After a request for memory that was
 * refused nothing is added any more, and markup_fault tells; so a caller may
 * add a whole table and ask once. */
struct markup {
	char *text; /* ends in a NUL that size does not count; NULL when empty */
	size_t size, capacity;
	bool failed;
};

/* NULL is accepted. */
void markup_free(struct markup *markup);

/* FAULT_MEMORY (reported) when something could not be added. */
enum fault markup_fault(const struct markup *markup, struct fault_list *faults);

/* As they stand: for what this program itself writes. */
void markup_bytes(struct markup *markup, const char *bytes, size_t size);
void markup_text(struct markup *markup, const char *text);

/* A text from anywhere, safe between tags and in an attribute between double or
 * single quotes: & < > " ' become character references. What is not UTF-8 (RFC
 * 3629), control characters but the line feed, and line and direction marks
 * (U+2028-202E, U+2066-2069) become '?', so that no name can turn what stands
 * around it. */
void markup_escaped(struct markup *markup, const char *text);

/* JSON for the inside of a <script>: "<" becomes \u003c, so that no string in
 * it can end the element or begin a comment. */
void markup_json(struct markup *markup, const char *json);

/* A figure with so many decimals, a point in every locale and a true minus
 * sign; a dash for what is no number. */
void markup_number(struct markup *markup, double value, int decimals);

#endif
