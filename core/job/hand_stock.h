/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hand-finish stock: how much wood stands outside the finished surface,
 * measured along its normal, and where the ball could have taken more. */
#ifndef NECKHEW_JOB_HAND_STOCK_H
#define NECKHEW_JOB_HAND_STOCK_H

#include "base/fault.h"
#include "job/job.h"
#include "job/result.h"
#include "model/facets.h"
#include "model/neck.h"
#include "stock/stock.h"

/* Fills zone figures, result->stock and result->chisel (both on the grid of
 * result->finished, which must be there), result->unreachable_mm3 and result->stickout. A place
 * counts as reachable when the ball, touching the finished surface plus its
 * allowance there, is kept off by nothing else: no other part of the neck, no
 * keep-out, and stays within the carved range; and when shank and holder leave
 * the ball so much room around that its lines can lie close enough for the
 * scallop. Left for the chisel is what shank and holder alone keep every cutter
 * from. */
enum fault hand_stock_measure(struct job_result *result, const struct job *job,
			      const struct neck *neck, const struct facets *facets,
			      const struct stock *stock, struct fault_list *faults);

#endif
