/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a job's check finds wrong. */
#ifndef NECKHEW_TESTS_SUPPORT_REFUSAL_H
#define NECKHEW_TESTS_SUPPORT_REFUSAL_H

#include "job/job.h"

/* Fails the running test unless job_check finds nothing wrong; prints what it finds. */
#define assert_job_good(job) job_good_or_fail((job), __FILE__, __LINE__)

/* What the macro calls. */
void job_good_or_fail(const struct job *job, const char *file, int line);

/* Checks that job_check finds exactly one fault, at that setting and in these
 * words. */
void assert_job_refused(const struct job *job, const char *setting, const char *words);

#endif
