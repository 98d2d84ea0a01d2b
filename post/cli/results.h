/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything of an output folder but the programs: page, pictures, papers,
 * meshes and job.json, from the result of the proof. */
#ifndef NECKHEW_CLI_RESULTS_H
#define NECKHEW_CLI_RESULTS_H

#include "cli/roughing.h"
#include "files/out_dir.h"
#include "job/result.h"
#include "papers/paper.h"

/* Writes all of it into the hidden folder, several parts at once. The faults
 * come in the order of the parts; returns the first code. */
enum fault results_write(const struct out_dir *out, const struct roughing *work,
			 const struct job_result *result, enum paper_size paper,
			 struct fault_list *faults);

#endif
