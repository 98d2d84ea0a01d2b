/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan without a look at the hand, for plan_hand.c. */
#ifndef NECKHEW_PATH_PLAN_PRIVATE_H
#define NECKHEW_PATH_PLAN_PRIVATE_H

#include "path/plan.h"

/* plan_make for a job whose sides stay where they are. `before` is the wood that
 * the cutter before this one left; NULL for the first. */
enum fault plan_as_it_is(struct plan *out, const struct facets *facets, const struct neck *neck,
			 const struct job *job, size_t turn, const struct stock *before,
			 const struct watch *watch, struct fault_list *faults);

#endif
