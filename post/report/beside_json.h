/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands beside the neck, as a value of job.json. */
#ifndef NECKHEW_REPORT_BESIDE_JSON_H
#define NECKHEW_REPORT_BESIDE_JSON_H

#include <jansson.h>

#include "job/job.h"
#include "job/result.h"

/* The object under "beside"; NULL without memory. */
json_t *beside_json(const struct job *job, const struct job_result *result);

#endif
