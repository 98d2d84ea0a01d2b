/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A whole job and a result made by formula instead of cutting: for tests of
 * what is drawn and printed from a result. */
#ifndef NECKHEW_TESTS_SUPPORT_SAMPLE_RESULT_H
#define NECKHEW_TESTS_SUPPORT_SAMPLE_RESULT_H

#include "job/job.h"
#include "job/result.h"
#include "model/neck.h"

/* A steel-string neck with a block heel, its stepped blank and a 6 mm ball. */
void sample_job(struct job *job);

/* A result for it: level passes of `passes` - 2 equal depths, then one contour
 * pass and one pass of surface lines; stock of allowance and furrows up to
 * 0.15 mm, with 3 mm more under a steep nose. Fails the test when memory is
 * short. Release it with sample_result_free. */
void sample_result(struct job_result *result, const struct neck *neck, const struct job *job,
		   double cell_mm, size_t passes);

/* Leaves 5 mm of wood for the chisel on both sides of the heel's last 20 mm,
 * from 12 mm off the centre line out: two places; and the first cutter's
 * stickout, 30 mm too short. */
void sample_result_chisel(struct job_result *result, const struct job *job);

void sample_result_free(struct job_result *result);

/* Takes so much stock away within `radius_mm` of (x, y). */
void sample_result_dent(struct job_result *result, double x_mm, double y_mm, double radius_mm,
			double depth_mm);

#endif
