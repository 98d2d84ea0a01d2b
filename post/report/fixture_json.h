/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the work is held and what the tool keeps out of, for job.json. */
#ifndef NECKHEW_REPORT_FIXTURE_JSON_H
#define NECKHEW_REPORT_FIXTURE_JSON_H

#include <jansson.h>

#include "job/job.h"

/* Neck coordinates; NULL without memory. */
json_t *fixture_json(const struct job *job);

#endif
