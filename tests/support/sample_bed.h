/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A job on the planner's bench, for tests of what is done there. */
#ifndef NECKHEW_TESTS_SUPPORT_SAMPLE_BED_H
#define NECKHEW_TESTS_SUPPORT_SAMPLE_BED_H

#include "job/job.h"
#include "path/bench.h"
#include "path/runs.h"
#include "support/sample_job.h"

/* Stays where it was made: its bench points at its job. */
struct sample_bed {
	struct job job;
	struct sample_model model;
	struct bench bench; /* the whole blank for the first cutter */
};

/* Fails the test when the bed cannot be made. Release with sample_bed_free. */
void sample_bed_make(struct sample_bed *out, const struct job *job);
void sample_bed_free(struct sample_bed *bed);

/* The short job's bed for all tests of a group. */
int sample_bed_setup(void **state);
int sample_bed_teardown(void **state);

/* Takes from the bed's wood what its ball takes along every run. */
void sample_bed_cut(struct sample_bed *bed, const struct runs *runs);

/* Takes from it what its ball takes that stands at (x, y) on the lowest-tip
 * surface. */
void sample_bed_cut_at(struct sample_bed *bed, double x_mm, double y_mm);

#endif
