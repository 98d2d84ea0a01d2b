/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A whole job with its result, for the tests of the page. */
#ifndef NECKHEW_TESTS_PAGE_SAMPLE_H
#define NECKHEW_TESTS_PAGE_SAMPLE_H

#include <stdlib.h>

#include "support/sample_job.h"
#include "support/sample_result.h"

struct page_sample {
	struct job job;
	struct neck *neck;
	struct job_result result;
};

/* Columns `cell_mm` apart, so many passes; a proven verdict. */
static inline struct page_sample *page_sample_make(double cell_mm, size_t passes)
{
	struct page_sample *s = calloc(1, sizeof *s);

	if (!s)
		abort();
	sample_job(&s->job);
	s->neck = sample_neck_built(&s->job.neck);
	sample_result(&s->result, s->neck, &s->job, cell_mm, passes);
	verdict_start(&s->result.verdict);
	for (int i = 0; i < PROMISE_COUNT; i++)
		verdict_judged(&s->result.verdict, (enum promise)i, 1.0);
	verdict_close(&s->result.verdict);
	return s;
}

static inline void page_sample_drop(struct page_sample *s)
{
	sample_result_free(&s->result);
	neck_free(s->neck);
	free(s);
}

#endif
