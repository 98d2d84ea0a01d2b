/* SPDX-License-Identifier: GPL-3.0-or-later */
/* job.json: every figure of a job under stable keys (docs/job-json.md). */
#ifndef NECKHEW_REPORT_JOB_JSON_H
#define NECKHEW_REPORT_JOB_JSON_H

#include "base/fault.h"
#include "job/job.h"
#include "job/result.h"
#include "model/neck.h"

/* Raised when a key changes its meaning or goes away; a new key raises
 * nothing. */
#define JOB_JSON_SCHEMA 1

/* The document as text, to be freed with free(). The same job and result give
 * the same bytes. FAULT_MEMORY leaves *text NULL. */
enum fault job_json_text(char **text, const struct job *job, const struct neck *neck,
			 const struct job_result *result, struct fault_list *faults);

/* The same into a file, whole or not at all. */
enum fault job_json_write(const char *path, const struct job *job, const struct neck *neck,
			  const struct job_result *result, struct fault_list *faults);

#endif
