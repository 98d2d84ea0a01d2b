/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures the cove that a ball leaves along the edges when the bed lies too
 * near under the gluing face for its widest part to come down to it. */
#ifndef NECKHEW_JOB_COVE_H
#define NECKHEW_JOB_COVE_H

#include "base/fault.h"
#include "job/job.h"
#include "job/result.h"
#include "model/facets.h"
#include "model/neck.h"
#include "stock/stock.h"

/* Fills the coves of result's stations and the cove's figures of
 * result->beside from the wood as it stands, both sides, about every millimetre
 * along the neck; where tabs stand there is no cove to tell. All 0 when the ball
 * can come down far enough. */
enum fault cove_measure(struct job_result *result, const struct job *job, const struct neck *neck,
			const struct facets *facets, const struct stock *stock,
			struct fault_list *faults);

#endif
