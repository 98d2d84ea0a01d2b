/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What papers are drawn from, for a neck of the test's choice: the neck, its
 * facets, and a result that knows its stations. */
#ifndef NECKHEW_TESTS_SUPPORT_PAPER_SAMPLE_H
#define NECKHEW_TESTS_SUPPORT_PAPER_SAMPLE_H

#include "papers/sheet.h"
#include "support/sample_job.h"

struct paper_sample {
	struct job job;
	struct sample_model model;
	struct job_result result;
	struct paper_content content; /* points at the above: the sample must stay put */
};

/* Fails the test when there is no such neck. Release with paper_sample_free. */
void paper_sample_make(struct paper_sample *out, const struct job *job);
void paper_sample_free(struct paper_sample *sample);

/* Draws one paper into a file, on pages that lie on their long side or not. */
void paper_sample_draw(const struct paper_sample *sample, const char *pdf, enum paper_size size,
		       bool lying,
		       enum fault (*draw)(struct sheet *sheet, const struct paper_content *content,
					  struct fault_list *faults));

/* The area that those pages leave. */
struct sheet_area paper_sample_area(enum paper_size size, bool lying);

#endif
