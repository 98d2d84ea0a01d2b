/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What must be left when the last program is done: hand-finish stock on every
 * column of the neck, and wood over the truss-rod channel. */
#ifndef NECKHEW_PROOF_LEFT_H
#define NECKHEW_PROOF_LEFT_H

#include "job/job.h"
#include "model/facet_tree.h"
#include "model/neck.h"
#include "proof/verdict.h"
#include "stock/stock.h"

void left_judge(struct verdict *verdict, const struct stock *stock, const struct job *job,
		const struct neck *neck, const struct facet_tree *tree);

#endif
