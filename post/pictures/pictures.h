/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All pictures of a job, each as PNG and as SVG from one drawing. */
#ifndef NECKHEW_PICTURES_PICTURES_H
#define NECKHEW_PICTURES_PICTURES_H

#include "base/fault.h"
#include "job/job.h"
#include "job/result.h"
#include "model/neck.h"

/* Names of the pictures without ending, NULL at the end: "cut-depth",
 * "hand-finish-stock", "side-view", "plan-view", "sections". */
const char *const *pictures_names(void);

/* Writes every picture as .png and .svg into a folder that exists. The same
 * result gives the same bytes. Each file is written whole or not at all; the
 * first that cannot be written ends the work with FAULT_FILE and its name.
 * FAULT_MEMORY when memory runs out. */
enum fault pictures_write(const char *folder, const struct job_result *result,
			  const struct neck *neck, const struct job *job,
			  struct fault_list *faults);

#endif
