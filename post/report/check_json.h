/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figures of a neck file for scripts. */
#ifndef NECKHEW_REPORT_CHECK_JSON_H
#define NECKHEW_REPORT_CHECK_JSON_H

#include "base/fault.h"
#include "job/job.h"
#include "model/neck.h"

/* The document as text, to be freed with free(): lengths in mm, keys ending in
 * _mm. The same neck gives the same bytes. FAULT_MEMORY leaves *text NULL. */
enum fault check_json_text(char **text, const struct job *job, const struct neck *neck,
			   struct fault_list *faults);

#endif
