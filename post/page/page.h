/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page to look at a job in: one HTML file with everything in it, which
 * opens from disk and asks nothing of any network. */
#ifndef NECKHEW_PAGE_PAGE_H
#define NECKHEW_PAGE_PAGE_H

#include "base/fault.h"
#include "job/job.h"
#include "job/result.h"
#include "model/neck.h"

/* Writes the page, whole or not at all. The same job and result give the same
 * bytes. FAULT_FILE when it cannot be written, FAULT_INTERNAL when the result's
 * maps do not share one grid, FAULT_MEMORY. */
enum fault page_write(const char *path, const struct job *job, const struct neck *neck,
		      const struct job_result *result, struct fault_list *faults);

#endif
