/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the sections show, asked of neck, job and result. */
#ifndef NECKHEW_PICTURES_PANELS_H
#define NECKHEW_PICTURES_PANELS_H

#include "job/job.h"
#include "job/result.h"
#include "model/neck.h"
#include "pictures/section_panel.h"

/* One panel per station, in *out; panels_free releases them, after a fault too.
 * FAULT_MEMORY. */
enum fault panels_build(struct section_panel **out, size_t *count, const struct job_result *result,
			const struct neck *neck, const struct job *job, struct fault_list *faults);

void panels_free(struct section_panel *panel, size_t count);

#endif
