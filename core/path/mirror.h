/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Jobs and plans in the mirror of the x-z plane. A left-handed job is planned as
 * the right-handed one that it mirrors, so that both necks come out alike to the
 * last line; which side is begun with, and how ties fall, makes no difference then. */
#ifndef NECKHEW_PATH_MIRROR_H
#define NECKHEW_PATH_MIRROR_H

#include "base/fault.h"
#include "job/job.h"
#include "path/plan.h"

/* The job mirrored: the other hand, every y turned round, and climb for conventional
 * cutting, since the spindle turns as before. Twice is the job itself. */
struct job mirror_job(const struct job *job);

/* A mirrored job with its neck. Release with mirror_model_free, also after a failure. */
struct mirror_model {
	struct job job;
	struct neck *neck;
	struct facets facets;
};
enum fault mirror_model_make(struct mirror_model *out, const struct job *job,
			     struct fault_list *faults);
void mirror_model_free(struct mirror_model *model);

/* Turns the plan of a mirrored job into that of the job. */
void mirror_plan(struct plan *plan);

/* The wood mirrored, in *out. FAULT_MEMORY. Release with stock_free. */
enum fault mirror_stock(struct stock *out, const struct stock *stock, struct fault_list *faults);

/* Turns its tabs into those of the other hand. */
void mirror_tabs(struct tabs *tabs);

#endif
