/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a job's check finds wrong. */
#ifndef NECKHEW_TESTS_SUPPORT_REFUSAL_H
#define NECKHEW_TESTS_SUPPORT_REFUSAL_H

#include "job/job.h"

/* Checks that job_check finds exactly one fault, at that setting and in these
 * words. */
void assert_job_refused(const struct job *job, const char *setting, const char *words);

#endif
