/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What must be left when the last program is done: hand-finish stock on every
 * column of the neck, and wood over the truss-rod channel. Judged on the least
 * wood that the blank's margin allows. */
#ifndef NECKHEW_PROOF_LEFT_H
#define NECKHEW_PROOF_LEFT_H

#include "base/fault.h"
#include "job/job.h"
#include "model/facet_tree.h"
#include "model/neck.h"
#include "proof/verdict.h"
#include "stock/stock.h"

/* `stock` as it stands after the last program; the tool may have come `stray_mm`
 * nearer than it knows. FAULT_MEMORY or FAULT_NONE. */
enum fault left_judge(struct verdict *verdict, const struct stock *stock, double stray_mm,
		      const struct job *job, const struct neck *neck, const struct facet_tree *tree,
		      struct fault_list *faults);

#endif
