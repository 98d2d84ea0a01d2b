/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tabs: where to leave bridges of wood so that nothing beside the neck comes
 * loose. */
#ifndef NECKHEW_PATH_TABS_H
#define NECKHEW_PATH_TABS_H

#include "base/fault.h"
#include "job/job.h"
#include "model/facets.h"
#include "model/neck.h"

/* Foresees the wood that all the job's cutters will leave. Every piece of it
 * that reaches no holding place gets tabs to the neck, entered in job->tabs:
 * beside the straight shaft, evenly spaced, one for about each 120 mm of its
 * length and two at least if there is room. FAULT_PLAN names the place of a
 * piece that no tab can hold. To be asked before the job is planned. */
enum fault tabs_choose(struct job *job, const struct facets *facets, const struct neck *neck,
		       struct fault_list *faults);

#endif
