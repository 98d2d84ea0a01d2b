/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pieces of wood that nothing holds any more. */
#ifndef NECKHEW_PROOF_LOOSE_H
#define NECKHEW_PROOF_LOOSE_H

#include "base/fault.h"
#include "job/job.h"
#include "proof/verdict.h"
#include "stock/stock.h"

/* Judges the wood as it stands after `block`; `stock` holds all that the blank's
 * margin allows. Columns with at least TOL_HOLDING_SKIN_MM of wood hold their
 * neighbours; what no longer reaches one of the fixture's holding places that
 * way, and is larger than TOL_LOOSE_AREA_MM2 in plan, is loose. Without holding
 * places the largest piece counts as held.
 *
 * With a margin this is asked of every blank within it at once: wood counts as
 * held only by way of columns that the least blank has too, and wood that need
 * not be there only from the inside outward, as it grows on what is there. What
 * is loose is looked for among all the wood there may be. FAULT_MEMORY or
 * FAULT_NONE. */
enum fault loose_judge(struct verdict *verdict, const struct stock *stock, const struct job *job,
		       int program, int block, struct fault_list *faults);

#endif
