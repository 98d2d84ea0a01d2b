/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A made-up job, its neck and its result, whole. */
#ifndef NECKHEW_TESTS_SUPPORT_SAMPLED_H
#define NECKHEW_TESTS_SUPPORT_SAMPLED_H

#include "support/sample_result.h"

/* Job and result are those of support/sample_result.h. */
struct sampled {
	struct job job;
	struct neck *neck;
	struct job_result result;
};

/* Columns `cell_mm` apart, so many passes, every promise kept. Release it with
 * sampled_drop. */
struct sampled *sampled_make(double cell_mm, size_t passes);
void sampled_drop(struct sampled *sampled);

/* A sample of columns 4 mm apart and 5 passes, anew for each test. */
int sampled_setup(void **state);
int sampled_teardown(void **state);

#endif
