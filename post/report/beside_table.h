/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The part of the terminal's table that tells what stands beside the neck:
 * rails, tabs and coves. */
#ifndef NECKHEW_REPORT_BESIDE_TABLE_H
#define NECKHEW_REPORT_BESIDE_TABLE_H

#include <stdbool.h>
#include <stdio.h>

#include "job/job.h"
#include "job/result.h"

/* True when there is anything to tell. */
bool beside_is_told(const struct job_result *result);

/* Its lines, at most 80 columns wide, without a title. */
void beside_table_print(FILE *out, const struct job *job, const struct job_result *result);

#endif
