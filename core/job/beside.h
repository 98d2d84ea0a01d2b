/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures what stands beside the roughed neck: rails, tabs, and the cove at
 * the edges. */
#ifndef NECKHEW_JOB_BESIDE_H
#define NECKHEW_JOB_BESIDE_H

#include "base/fault.h"
#include "job/job.h"
#include "job/result.h"
#include "model/facets.h"
#include "model/neck.h"
#include "stock/stock.h"

/* Fills result->beside and the coves of its stations, which must be there. */
enum fault beside_measure(struct job_result *result, const struct job *job, const struct neck *neck,
			  const struct facets *facets, const struct stock *stock,
			  struct fault_list *faults);

#endif
