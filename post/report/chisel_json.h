/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is left for the chisel, for job.json: figures, places, and the area as
 * rows of stretches from which a reader can build it again. */
#ifndef NECKHEW_REPORT_CHISEL_JSON_H
#define NECKHEW_REPORT_CHISEL_JSON_H

#include <jansson.h>

#include "job/job.h"
#include "job/result.h"

/* New values, NULL when memory runs out. */
json_t *chisel_json(const struct job *job, const struct chisel *chisel);
json_t *chisel_rows_json(const struct chisel *chisel);
json_t *stickouts_json(const struct job *job, const struct job_result *result);

#endif
