/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The planner's look at the wood it leaves: what nothing holds any more must
 * not be planned. */
#ifndef NECKHEW_PATH_HELD_H
#define NECKHEW_PATH_HELD_H

#include "base/fault.h"
#include "job/job.h"
#include "stock/pieces.h"
#include "stock/stock.h"

/* Tells where a loose piece lies and what to do about it: adds FAULT_PLAN. */
enum fault held_refuse(const struct job *job, const struct stock *stock, const struct piece *piece,
		       struct fault_list *faults);

/* FAULT_PLAN when a piece larger than dust would lie loose in this wood. */
enum fault held_look(const struct job *job, const struct stock *stock, struct fault_list *faults);

#endif
