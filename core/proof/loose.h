/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pieces of wood that nothing holds any more. */
#ifndef NECKHEW_PROOF_LOOSE_H
#define NECKHEW_PROOF_LOOSE_H

#include "base/fault.h"
#include "job/job.h"
#include "proof/verdict.h"
#include "stock/stock.h"

/* Judges the wood as it stands after `block`. Columns with at least
 * TOL_HOLDING_SKIN_MM of wood hold their neighbours; what no longer reaches one
 * of the fixture's holding places that way, and is larger than
 * TOL_LOOSE_AREA_MM2 in plan, is loose. Without holding places the largest
 * piece counts as held. FAULT_MEMORY or FAULT_NONE. */
enum fault loose_judge(struct verdict *verdict, const struct stock *stock, const struct job *job,
		       int program, int block, struct fault_list *faults);

#endif
