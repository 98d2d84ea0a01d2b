/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the rails that a job asks for are left alone. */
#ifndef NECKHEW_PROOF_RAILS_H
#define NECKHEW_PROOF_RAILS_H

#include "base/fault.h"
#include "job/job.h"
#include "model/neck.h"
#include "proof/verdict.h"
#include "stock/stock.h"

/* Judges the wood after the last program: every column of it that lies farther
 * beside the neck and its stock than the channel is wide, where the blank is
 * wide enough for a rail, must stand as tall as the least blank. What is cut off
 * one breaks PROMISE_KEEP_OUT. Nothing is asked when the waste is cleared. */
enum fault rails_judge(struct verdict *verdict, const struct stock *stock, const struct job *job,
		       const struct neck *neck, struct fault_list *faults);

#endif
