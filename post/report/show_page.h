/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What `neckhew show` prints: the neck's back as a map in characters, and the
 * figures that belong to it. */
#ifndef NECKHEW_REPORT_SHOW_PAGE_H
#define NECKHEW_REPORT_SHOW_PAGE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/fault.h"
#include "job/job.h"
#include "job/result.h"
#include "model/neck.h"

struct show_page {
	const struct job *job;
	const struct neck *neck;
	const struct job_result *result;
	/* False: nothing is known of passes, and each program counts as one. */
	bool passes_known;
	size_t pass; /* from 1; 0 for all together */
	bool stock; /* hand-finish stock instead of cut depth */
	int columns; /* width to keep to */
	bool utf8, colour;
};

/* Prints the page; a verdict that is bad stands above everything. FAULT_USAGE
 * when there is no such pass, FAULT_MEMORY, FAULT_FILE when `out` did not take
 * it all, FAULT_INTERNAL when the result's maps do not belong together. */
enum fault show_page_print(FILE *out, const struct show_page *page, struct fault_list *faults);

#endif
